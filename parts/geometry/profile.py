"""Turned parts as one profile of (z, r) vertices, the one source for volume, solid and drawing. Imports no CAD.

The axis is Z. A profile runs in straight lines from the axis at its lower end round to the axis at its upper end; the
lines turn into cylinders, cones and planes.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import fsum, pi
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.edge import Point, crosses_itself

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class Profile:
    """A turned part [mm]; JobError where it touches the axis on the way, crosses itself or a bore leaves the part."""

    points: tuple[Point, ...]
    """(z, r), the first and the last on the axis, the first below the last"""
    bores: tuple[tuple[Point, ...], ...] = ()
    """holes on the axis, each a profile of its own that begins, ends or both at a flat end of the part"""

    def __post_init__(self) -> None:
        for line in (self.points, *self.bores):
            _check(line)
        if crosses_itself(meridian(self)) or volume(self) <= 0:  # a bore around the part leaves less than nothing
            raise _refused(f"the profile crosses or touches itself: (z, r) = {_told(meridian(self))} mm")


def meridian(profile: Profile) -> tuple[Point, ...]:
    """Return the closed half section (z, r) [mm], bores taken out; its last point joins the first.

    JobError where a bore opens on no flat end, or two bores open on the same one.
    """
    line, ends = list(profile.points), {profile.points[0], profile.points[-1]}
    for bore in profile.bores:
        opens = {bore[0], bore[-1]} & ends
        if not opens:
            raise _refused(f"a bore from z = {bore[0][0]:g} to {bore[-1][0]:g} mm opens on neither end of the part")
        ends -= opens
        line = _bored(line, bore)
    return tuple(line)


def _bored(line: list[Point], bore: tuple[Point, ...]) -> list[Point]:
    """Replace the ends on the axis that a bore opens with the bore's own line, walked backwards."""
    for end, way in ((0, 1), (-1, -1)):
        mouth = {z for z, _ in (line[end], line[end + way], bore[end], bore[end + way])}
        if line[end] == bore[end] and len(mouth) > 1:
            raise _refused(f"a bore opens at z = {line[end][0]:g} mm where the part or the bore has no flat end")
    below, above = line[0] == bore[0], line[-1] == bore[-1]
    back = list(bore[::-1][above : len(bore) - below])
    if below and not above:
        return [*back, *line[1:]]
    return [*line[below : len(line) - 1], *back]


def volume(profile: Profile) -> float:
    """Volume [mm^3]: the sum of pi/3 dz (r0^2 + r0 r1 + r1^2) over the profile, less that over its bores."""
    return _frusta(profile.points) - fsum(map(_frusta, profile.bores))


def _frusta(line: Sequence[Point]) -> float:
    return fsum(pi / 3 * (z1 - z0) * (r0 * r0 + r0 * r1 + r1 * r1) for (z0, r0), (z1, r1) in pairwise(line))


def bounds(profile: Profile) -> tuple[float, float, float]:
    """Return least z, greatest z and greatest radius [mm]."""
    heights = [z for z, _ in profile.points]
    return min(heights), max(heights), max(r for _, r in profile.points)


def _check(line: Sequence[Point]) -> None:
    """Refuse a line that does not run from the axis upwards round to the axis."""
    ends_on_axis = len(line) > 2 and line[0][1] == line[-1][1] == 0  # noqa: PLR2004 - a triangle
    if not ends_on_axis or line[0][0] >= line[-1][0] or min(r for _, r in line[1:-1]) <= 0:
        raise _refused(f"a profile runs from the axis upwards to the axis, over r > 0: (z, r) = {_told(line)} mm")


def _told(line: Sequence[Point]) -> str:
    return " ".join(f"({z:g}, {r:g})" for z, r in line)


def _refused(says: str) -> JobError:
    return JobError(Fault("", says))
