"""Outlines as the trade draws them: rounded corners, arcs through a point, lobes, slots. Imports no CAD.

What cannot be drawn is refused with a JobError (a ValueError).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import acos, atan2, copysign, cos, hypot, pi, sin, tan
from typing import TYPE_CHECKING, TypeAlias

from parts.errors import Fault, JobError
from parts.geometry.edge import Edge, crosses_itself
from parts.geometry.meeting import carriers_meet, crossings
from parts.geometry.outline import FINE, SAME, circle, flatten, polygon, rectangle, signed_area, transformed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.geometry.edge import Point
    from parts.geometry.outline import Circle, Loop, Vertex

KEPT = 64
THROUGH = "through"
"""in the place of a corner's radius: no corner, but a point of the arc from the corner before to the one after"""
Corner: TypeAlias = "tuple[float, float, float | str]"
"""x, y [mm], and the radius of its rounding [mm] or THROUGH"""


def cornered(corners: Sequence[Corner]) -> Loop:
    """Return the loop of corners in order, each sharp, rounded, or a point that an arc goes through [mm].

    JobError where a rounding has no room, arcs are not between corners, or the loop crosses itself.

    >>> square = [(0, 0, 1.0), (10, 0, 0.0), (12, 5, THROUGH), (10, 10, 0.0), (0, 10, 0.0)]
    >>> len(cornered(square)), cornered(square)[2][2]
    (5, 0.4)
    """
    turned = next((n for n, c in enumerate(corners) if c[2] != THROUGH), None)
    if turned is None:
        raise refused("has no corner: an arc goes from one corner to the next, through a point between them")
    path = _arcs([*corners[turned:], *corners[:turned]], turned)
    loop = _rounded(path)
    if len(loop) < 2 or crosses_itself(flatten(loop, FINE)):  # noqa: PLR2004 - two arcs make a loop
        raise refused("crosses or touches itself: give the corners in order")
    return loop


def _arcs(corners: Sequence[Corner], turned: int) -> list[tuple[Vertex, float, int]]:
    """Corners with the bulge of the edge after each, their radius, and their number in the file from 0."""
    count, found = len(corners), list[tuple["Vertex", float, int]]()
    for n, (x, y, how) in enumerate(corners):
        (mx, my, middle), (ex, ey, end) = (corners[(n + k) % count] for k in (1, 2))
        if how == THROUGH:
            continue
        if middle == THROUGH and end == THROUGH:
            raise refused(
                f"has two points in a row, {(n + 1 + turned) % count + 1} and the next, that an arc goes through"
            )
        bulge = through(((x, y), (mx, my), (ex, ey))) if middle == THROUGH else 0.0
        found.append(((x, y, bulge), float(how), (n + turned) % count))
    return found


def through(points: tuple[Point, Point, Point]) -> float:
    """Return the bulge of the arc from the first point through the second to the third, 0 where they lie in line.

    JobError where the second lies in line with the others, and not between them.

    >>> through(((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)))
    1.0
    """
    (ax, ay), (mx, my), (bx, by) = points
    (ux, uy), (vx, vy) = (mx - ax, my - ay), (bx - mx, by - my)
    cross, dot = ux * vy - uy * vx, ux * vx + uy * vy
    half = atan2(cross, dot)  # the turn at the middle point: half of the whole arc's
    if pi - abs(half) < SAME:
        raise refused(f"has no arc through ({mx:g}, {my:g}) mm: it lies in line with its ends, and not between them")
    return 0.0 if abs(half) < SAME else round(tan(half / 2), 15)


@dataclass(frozen=True, slots=True)
class _Rounding:
    """The arc in the place of a corner [mm]; of a sharp one its two ends are the corner."""

    start: Point
    end: Point
    bulge: float = 0.0
    before: float = 0.0
    """how much of the edge before it takes"""
    after: float = 0.0


def _rounded(path: list[tuple[Vertex, float, int]]) -> Loop:
    """Round the corners that have a radius; both edges there must be long enough."""
    sides = [Edge(a[0], a[1], b[0], b[1], a[2]) for (a, _, _), (b, _, _) in pairwise([*path, path[0]])]
    if any(side.chord < SAME for side in sides):
        raise refused("has the same corner twice in a row")
    cuts = [_rounding(sides[n - 1], side, *path[n][1:]) for n, side in enumerate(sides)]
    loop: list[Vertex] = []
    for n, (side, here) in enumerate(zip(sides, cuts, strict=True)):
        then = cuts[(n + 1) % len(cuts)]
        left = side.length - here.after - then.before
        if left < -SAME:
            corner = path[n if here.after > then.before - SAME else (n + 1) % len(path)][2]
            raise _no_room(corner, f"it takes {max(here.after, then.before):.3g} mm of a side of {side.length:.3g} mm")
        if here.bulge:
            loop.append((*here.start, here.bulge))
        whole = left == side.length or not side.bulge
        loop.append((*here.end, side.bulge if whole else copysign(tan(left / side.radius / 4), side.bulge)))
    return tuple(a for a, b in pairwise([*loop, loop[0]]) if hypot(b[0] - a[0], b[1] - a[1]) > SAME)


def _rounding(before: Edge, after: Edge, radius: float, number: int) -> _Rounding:
    """The arc that touches both edges of a corner: its centre lies on both of them, moved inward by its radius."""
    corner = (after.x0, after.y0)
    turn = (after.heading(0) - before.heading(1) + pi) % (2 * pi) - pi
    if not radius or abs(turn) < SAME:
        return _Rounding(corner, corner)
    if pi - abs(turn) < SAME:
        raise refused(f"turns straight back at corner {number + 1}")
    out = -copysign(radius, turn)
    if any(side.bulge * out < 0 and side.radius <= radius for side in (before, after)):
        raise _no_room(number, f"R{radius:g} mm does not go into an arc beside it, which has no larger radius")
    centres = carriers_meet(before.beside(out), after.beside(out))
    found = [one for centre in centres if (one := _touching(before, after, centre, turn))]
    if not found:
        raise _no_room(number, f"no arc of R{radius:g} mm touches both of its sides")
    return min(found, key=lambda one: one.before + one.after)


def _touching(before: Edge, after: Edge, centre: Point, turn: float) -> _Rounding | None:
    """The arc about a centre from where it touches one edge, or what that lies on, to where it touches the other."""
    start, end = before.foot(*centre), after.foot(*centre)
    back = Edge(before.x1, before.y1, before.x0, before.y0, -before.bulge)
    taken = back.along(*start), after.along(*end)
    if min(taken) < 0:
        return None
    (ax, ay), (bx, by) = ((x - centre[0], y - centre[1]) for x, y in (start, end))
    sweep = copysign((atan2(ax * by - ay * bx, ax * bx + ay * by) * copysign(1, turn)) % (2 * pi), turn)
    return _Rounding(start, end, tan(sweep / 4), *taken)


def _no_room(number: int, why: str) -> JobError:
    return refused(f"has no room for the rounding at corner {number + 1}: {why}")


def lobes(circles: Sequence[Circle]) -> Loop:
    """Return the loop round circles (x, y, radius) in order, each joined to the next by their outer tangent [mm].

    In a hollow, where the way turns inward at a circle, its two tangents meet in a corner instead.

    JobError for under 2 circles, for one within the next, and where the loop crosses itself.

    >>> [round(v, 9) for vertex in lobes([(0, 0, 1), (4, 0, 1)]) for v in vertex]
    [0.0, 1.0, 1.0, 0.0, -1.0, 0.0, 4.0, -1.0, 1.0, 4.0, 1.0, 0.0]
    """
    if len(circles) < 2:  # noqa: PLR2004
        raise refused("wants two lobes at least")
    if signed_area([(x, y, 0.0) for x, y, _ in circles]) < 0:
        circles = circles[::-1]
    lines = [_tangent(a, b) for a, b in pairwise([*circles, circles[0]])]
    loop: list[Vertex] = []
    ways = [atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise([*circles, circles[0]])]
    for n, (_, _, r) in enumerate(circles):
        loop += _lobe(lines[n - 1], lines[n], r, _turn(ways[n - 1], ways[n], lines[n - 1], lines[n]))
    whole = tuple(a for a, b in pairwise([*loop, loop[0]]) if hypot(b[0] - a[0], b[1] - a[1]) > SAME)
    if crosses_itself(flatten(whole, FINE)):
        raise refused("crosses or touches itself: give the lobes in order round the outside")
    return whole


def _tangent(one: Circle, other: Circle) -> Edge:
    """Outer tangent of two circles that both lie to its left."""
    (ax, ay, ar), (bx, by, br) = one, other
    far = hypot(bx - ax, by - ay)
    if far <= abs(ar - br) + SAME:
        raise refused(f"has a lobe at ({ax:g}, {ay:g}) mm and one at ({bx:g}, {by:g}) mm, one within the other")
    way = atan2(by - ay, bx - ax) - acos((ar - br) / far)  # from each centre to where it touches
    c, s = cos(way), sin(way)
    return Edge(ax + ar * c, ay + ar * s, bx + br * c, by + br * s, 0.0)


def _turn(way: float, then: float, before: Edge, after: Edge) -> float:
    """How far the loop turns left at a circle, negative in a hollow, by the ways from centre to centre [rad]."""
    bend = (then - way + pi) % (2 * pi) - pi
    bend = pi if bend < SAME - pi else bend  # there and back
    leans = [(line.heading(0) - along + pi) % (2 * pi) - pi for line, along in ((before, way), (after, then))]
    return bend + leans[1] - leans[0]


def _lobe(before: Edge, after: Edge, radius: float, turn: float) -> list[Vertex]:
    """Vertices of one lobe: the arc from tangent to tangent, or the corner where they meet."""
    if turn >= -SAME:
        arc = [(before.x1, before.y1, tan(turn / 4))] if radius > 0 and turn > SAME else []
        return [*arc, (after.x0, after.y0, 0.0)]
    met = crossings(before, after)
    if not met:
        raise refused(
            f"has a lobe near ({after.x0:g}, {after.y0:g}) mm that lies behind the line of its neighbours: leave it out"
        )
    return [(*met[0], 0.0)]


@lru_cache(KEPT)  # whether a loop crosses itself takes long, and most variants of a job have one outline
def outlined(corners: tuple[Corner, ...]) -> Loop:
    """As `cornered`, all of them sharp too."""
    if any(how != 0.0 for _, _, how in corners):
        return cornered(corners)
    try:
        return polygon([(x, y) for x, y, _ in corners])
    except JobError:
        raise refused("crosses itself: give the corners in order") from None


lobed = lru_cache(KEPT)(lobes)


def slot(width: float, length: float, turned: float = 0.0) -> Loop:
    """Return a slot round the origin, its length along X before it is turned [deg], over its round ends [mm]."""
    if not 0 < width <= length:
        raise refused(f"must be no wider than long, not {width:g} x {length:g} mm")
    if length - width < SAME:
        return circle(0.0, 0.0, width / 2)
    return transformed(rectangle(length, width, width / 2), turned=turned)


def refused(says: str) -> JobError:
    """Return what is raised for an outline that can't be; the key is put to it by whoever knows it."""
    return JobError(Fault("", says))
