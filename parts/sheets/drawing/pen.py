"""A pen that draws a part on a sheet, in mm of the part."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts.sheets.drawing.sheet import TEXT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop
    from parts.sheets.drawing.sheet import Sheet


@dataclass(frozen=True)
class Pen:
    """Draws on a sheet in mm of the part."""

    sheet: Sheet
    x: float
    y: float
    ratio: float

    def at(self, point: Point) -> Point:
        """Return a point of the part on the paper [mm]."""
        return self.x + point[0] * self.ratio, self.y + point[1] * self.ratio

    def line(self, start: Point, end: Point, layer: str = "OUTLINE") -> None:
        """Draw a line."""
        self.sheet.line(*self.at(start), *self.at(end), layer)

    def path(self, points: Sequence[Point], layer: str = "OUTLINE", *, close: bool = False) -> None:
        """Draw from point to point."""
        self.sheet.path([self.at(p) for p in points], layer, close=close)

    def loop(self, loop: Loop, layer: str = "OUTLINE") -> None:
        """Draw a closed line of lines and arcs."""
        self.sheet.loop(tuple((*self.at((x, y)), bulge) for x, y, bulge in loop), layer)

    def circle(self, centre: Point, radius: float, layer: str = "OUTLINE") -> None:
        """Draw a circle."""
        self.sheet.circle(*self.at(centre), radius * self.ratio, layer)

    def hatch(self, polygons: Sequence[Sequence[Point]]) -> None:
        """Hatch cut metal."""
        self.sheet.hatch([[self.at(p) for p in polygon] for polygon in polygons])

    def axis(self, start: Point, end: Point, over: float = 4.0) -> None:
        """Draw a centre line, a little longer than from point to point [mm of paper]."""
        (x0, y0), (x1, y1) = self.at(start), self.at(end)
        away = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 or 1.0
        dx, dy = (x1 - x0) / away * over, (y1 - y0) / away * over
        self.sheet.line(x0 - dx, y0 - dy, x1 + dx, y1 + dy, "CENTRE")

    def letter(self, text: str, point: Point, right: float = 0.0) -> None:
        """Write a letter that names a detail, so far to the right of a point [mm of paper]."""
        x, y = self.at(point)
        self.sheet.text(text, x + right, y - TEXT / 2, TEXT)
