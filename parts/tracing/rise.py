"""How a sheet that curls lies up, and where the lens sees it for that."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from parts.tracing.contours import Points

ROUNDS = 4  # by which the place of a point that lies up is found


@dataclass(frozen=True)
class Rise:
    """Height of the sheet over the plane that it best lies in, by squares of the place about its middle [mm]."""

    eye: Points
    """where the lens is: X, Y and height"""
    middle: Points
    reach: Points
    """half the sheet, across and along"""
    bent: tuple[float, float, float] = (0.0, 0.0, 0.0)
    """heights at the sides, at the ends, and what a corner has more than both"""

    def height(self, points: Points) -> Points:
        """How far points of the sheet lie up [mm]."""
        x, y = ((points - self.middle) / self.reach).T
        a, b, c = self.bent
        return np.asarray(a * x * x + b * y * y + c * x * y)

    @property
    def most(self) -> float:
        """How far the sheet lies up or down at most, but for its very corners [mm]."""
        return max(map(abs, self.bent))

    def flat(self, points: Points) -> Points:
        """Where points of the sheet would be seen if all of it lay in the plane."""
        up = self.height(points)[:, None]
        return np.asarray(points + (points - self.eye[:2]) * up / (self.eye[2] - up))

    def back(self, seen: Points) -> Points:
        """Which points of the sheet are seen there."""
        points = seen
        for _ in range(ROUNDS):
            points = seen - (self.flat(points) - points)
        return points
