"""Views of turned parts from their profile: from the side with the axis level, or cut along the axis."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.geometry.profile import Profile, bounds, meridian

if TYPE_CHECKING:
    from parts.geometry.edge import Point
    from parts.sheets.drawing.pen import Pen


def box(profile: Profile) -> tuple[float, float, float, float]:
    """Return left, low, right, high of a turned part seen from the side [mm]."""
    low, high, radius = bounds(profile)
    return low, -radius, high, radius


def outside(pen: Pen, profile: Profile) -> None:
    """Draw a turned part from outside: its outline, and a line across wherever it has an edge."""
    upper = profile.points
    pen.path([*upper, *((z, -r) for z, r in reversed(upper[1:-1]))], close=True)
    reach: dict[float, float] = {}
    for z, r in upper[1:-1]:
        if z not in (upper[0][0], upper[-1][0]):
            reach[z] = max(reach.get(z, 0.0), r)
    for z, r in sorted(reach.items()):
        pen.line((z, -r), (z, r))
    pen.axis((upper[0][0], 0.0), (upper[-1][0], 0.0))


def cut(pen: Pen, profile: Profile) -> None:
    """Draw a turned part cut along its axis, metal hatched, the edges of its bores behind the cut."""
    areas = cut_areas(profile)
    for area in areas:
        pen.path(area, close=True)
    pen.hatch(areas)
    for z, r in sorted({(z, r) for bore in profile.bores for z, r in bore if r > 0}):
        pen.line((z, -r), (z, r))
    pen.axis((profile.points[0][0], 0.0), (profile.points[-1][0], 0.0))


def cut_areas(profile: Profile) -> list[list[Point]]:
    """Return the metal that a cut along the axis shows: one area, or two where a bore goes right through."""
    upper = list(meridian(profile))
    if upper[0][1] == upper[-1][1] == 0:
        return [[*upper, *((z, -r) for z, r in upper[-2:0:-1])]]
    return [upper, [(z, -r) for z, r in upper]]


def threaded(pen: Pen, start: float, end: float, root: float) -> None:
    """Draw the root of an outer thread: a thin line on either side of the axis (ISO 6410-1)."""
    for side in (1, -1):
        pen.line((start, side * root), (end, side * root), "THIN")


def run_out(pen: Pen, start: float, end: float, root: float, shank: float) -> None:
    """Draw a thread that runs out on a shank thicker than its root: thin slanted lines (ISO 6410-1)."""
    for side in (1, -1):
        pen.line((start, side * root), (end, side * shank), "THIN")
