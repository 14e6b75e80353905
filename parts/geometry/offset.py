"""The outline a distance outside or inside another. Imports no CAD."""

from __future__ import annotations

from math import atan2, copysign, cos, hypot, pi, sin, tan
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.edge import Edge, crosses_itself
from parts.geometry.meeting import carriers_meet
from parts.geometry.outline import FINE, SAME, edges, flatten, signed_area

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop, Vertex

SMOOTH = 1e-6  # rad: an edge that goes on in the direction of the one before, to this
FAR = 4.0  # distances from the old corner within which the new one is looked for


def offset(loop: Sequence[Vertex], d: float) -> Loop:
    """Return the outline a distance d outside a loop, inside where d is negative [mm].

    Arcs keep their centres. Edges that make a corner are made longer or shorter until they meet; where an arc and its
    neighbour do not, the corner is rounded, as a cutter rolls round it.

    JobError where an arc or a line vanishes, and where the new outline crosses itself (a neck narrower than 2 d).
    """
    sides, out = edges(loop), copysign(d, d * signed_area(loop))
    corners = [_corner(before, after, out) for before, after in zip([sides[-1], *sides[:-1]], sides, strict=True)]
    moved: list[Vertex] = []
    for side, (_, start), (end, then) in zip(sides, corners, [*corners[1:], corners[0]], strict=True):
        bulge = _bulge(side, start, end)
        forward = (end[0] - start[0]) * (side.x1 - side.x0) + (end[1] - start[1]) * (side.y1 - side.y0) > SAME
        if not forward or bulge * side.bulge < 0 or side.radius + copysign(out, out * side.bulge) < SAME:
            raise _refused(f"an offset of {d:g} mm leaves nothing of the edge at ({side.x0:g}, {side.y0:g}) mm")
        moved.append((*start, bulge))
        if end != then:
            moved.append((*end, _round(end, then, (side.x1, side.y1))))
    if crosses_itself(flatten(moved, FINE)):
        raise _refused(f"an offset of {d:g} mm makes the outline cross itself")
    return tuple(moved)


def _corner(before: Edge, after: Edge, out: float) -> tuple[Point, Point]:
    """Where one edge ends and the next begins, each moved `out` to its right [mm]; one point where they meet."""
    a, b = before.heading(1), after.heading(0)
    turn = (b - a + pi) % (2 * pi) - pi
    if pi - abs(turn) < SMOOTH:
        raise _refused(f"no offset for the spike at ({after.x0:g}, {after.y0:g}) mm")
    if abs(turn) <= SMOOTH or not (before.bulge or after.bulge):
        reach = out / cos(turn / 2)
        corner = after.x0 + reach * sin(a + turn / 2), after.y0 - reach * cos(a + turn / 2)
        return corner, corner
    ends = (after.x0 + out * sin(a), after.y0 - out * cos(a)), (after.x0 + out * sin(b), after.y0 - out * cos(b))
    met = carriers_meet(before.beside(out), after.beside(out))
    near = min(met, key=lambda p: hypot(p[0] - after.x0, p[1] - after.y0), default=None)
    if near and hypot(near[0] - after.x0, near[1] - after.y0) <= FAR * abs(out):
        return near, near
    if turn * out < 0:
        raise _refused(f"no offset for the corner at ({after.x0:g}, {after.y0:g}) mm: its edges draw apart")
    return ends


def _bulge(side: Edge, start: Point, end: Point) -> float:
    """Bulge of an arc with the centre of another, between new ends."""
    if not side.bulge:
        return 0.0
    cx, cy = side.centre
    sweep = atan2(end[1] - cy, end[0] - cx) - atan2(start[1] - cy, start[0] - cx)
    sweep = side.sweep + (sweep - side.sweep + pi) % (2 * pi) - pi
    return side.bulge if abs(sweep - side.sweep) < SAME else tan(sweep / 4)


def _round(start: Point, end: Point, centre: Point) -> float:
    """Bulge of the short arc about a corner."""
    (ax, ay), (bx, by), (cx, cy) = start, end, centre
    turn = atan2(by - cy, bx - cx) - atan2(ay - cy, ax - cx)
    return tan(((turn + pi) % (2 * pi) - pi) / 4)


def _refused(says: str) -> JobError:
    return JobError(Fault("", says))
