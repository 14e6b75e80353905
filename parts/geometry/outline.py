"""Plane outlines: closed loops of lines and arcs, the one source for area, land, solid, DXF and SVG. Imports no CAD.

A loop is a tuple of vertices (x, y, bulge) [mm]; the last one joins the first. The bulge is that of the edge from this
vertex to the next, tan(arc angle / 4): 0 a straight line, 1 a half circle, positive where the edge turns left. Areas,
distances and bounds are those of the true arcs. What cannot be drawn is refused with a JobError (a ValueError).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, pairwise
from math import acos, asin, atan2, ceil, copysign, cos, fsum, hypot, pi, radians, sin, sqrt, tan
from typing import TYPE_CHECKING, TypeAlias

from parts.errors import Fault, JobError
from parts.geometry.edge import Edge, Point, crosses_itself

if TYPE_CHECKING:
    from collections.abc import Sequence

Vertex: TypeAlias = tuple[float, float, float]
Loop: TypeAlias = tuple[Vertex, ...]
Circle: TypeAlias = tuple[float, float, float]
"""x, y, radius [mm]"""

SAME = 1e-9  # mm or rad: nearer than this is the same
SHORT_ARC = 1e-3  # rad: below this, angle - sin(angle) is taken from its series
FINE = 0.005  # mm: sagitta of the polygon on which an offset is searched for crossings


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole through a sheet [mm]."""

    x: float
    y: float
    diameter: float
    layer: str
    """the layer it is cut on"""


@dataclass(frozen=True, slots=True)
class Opening:
    """A hole of any other shape [mm]."""

    loop: Loop
    layer: str
    """the layer it is cut on"""


@dataclass(frozen=True, slots=True)
class Region:
    """A flat part: one outer loop, round holes and other openings [mm]."""

    outer: Loop
    holes: tuple[Hole, ...] = ()
    openings: tuple[Opening, ...] = ()

    @property
    def cuts(self) -> list[Opening]:
        """All that is cut out of it, the round holes as loops too."""
        return [*(Opening(circle(h.x, h.y, h.diameter / 2), h.layer) for h in self.holes), *self.openings]


def edges(loop: Sequence[Vertex]) -> list[Edge]:
    """Return the edges of a loop, in order."""
    after = [*loop[1:], loop[0]]
    return [Edge(x0, y0, x1, y1, bulge) for (x0, y0, bulge), (x1, y1, _) in zip(loop, after, strict=True)]


# shapes ---------------------------------------------------------------------------------------------------------------


def circle(x: float, y: float, radius: float) -> Loop:
    """Return a circle as two half circles, anticlockwise [mm]; JobError where the radius is not over 0."""
    if radius <= 0:
        raise _refused(f"a circle needs a radius over 0, not {radius:g} mm")
    return ((x + radius, y, 1.0), (x - radius, y, 1.0))


def rectangle(width: float, height: float, corner: float = 0.0) -> Loop:
    """Return a rectangle round the origin, its corners rounded, anticlockwise [mm].

    JobError where a side is not over 0 or the corner's radius is negative or over half the shorter side.
    """
    if min(width, height) <= 0 or not 0 <= 2 * corner <= min(width, height):
        raise _refused(f"corners of radius {corner:g} mm do not fit on a rectangle {width:g} x {height:g} mm")
    x, y = width / 2 - corner, height / 2 - corner
    return band([(sx * x, sy * y, corner) for sx in (1, -1) for sy in (1, -1)])


def flatted(radius: float, flat: float) -> Loop:
    """Return a circle with a flat on +X, that far from its centre, anticlockwise from the flat's upper end [mm]."""
    half = sqrt(radius**2 - flat**2)
    return ((flat, half, tan((pi - asin(half / radius)) / 2)), (flat, -half, 0.0))


def polygon(points: Sequence[Point]) -> Loop:
    """Return straight edges from point to point [mm]; JobError for under 3 points or where they cross or touch."""
    if len(points) < 3 or crosses_itself(points):  # noqa: PLR2004 - a triangle
        raise _refused(f"an outline of {len(points)} points needs at least 3 and must not cross or touch itself")
    return tuple((x, y, 0.0) for x, y in points)


def band(circles: Sequence[Circle]) -> Loop:
    """Return the tight convex band round circles (x, y, radius), anticlockwise [mm]; a radius may be 0.

    In direction a, circle (x, y, r) reaches x cos a + y sin a + r; the band follows whichever reaches furthest.
    """
    turns = _turns(_outermost(circles))
    if len(turns) == 1:
        return circle(*turns[0][1])
    loop: list[Vertex] = []
    for (start, (x, y, r)), (end, _) in pairwise([*turns, (turns[0][0] + 2 * pi, turns[0][1])]):
        if r > 0:
            loop.append((x + r * cos(start), y + r * sin(start), tan((end - start) / 4)))
        loop.append((x + r * cos(end), y + r * sin(end), 0.0))
    return tuple(a for a, b in pairwise([*loop, loop[0]]) if hypot(b[0] - a[0], b[1] - a[1]) > SAME)


def _outermost(circles: Sequence[Circle]) -> list[Circle]:
    """Drop every circle that lies within another."""
    kept: list[Circle] = []
    for x, y, r in sorted(circles, key=lambda c: -c[2]):
        if all(hypot(x - a, y - b) + r > reach + SAME for a, b, reach in kept):
            kept.append((x, y, r))
    return kept


def _turns(circles: Sequence[Circle]) -> list[tuple[float, Circle]]:
    """Directions at which another circle begins to reach furthest, and that circle; one entry if it always does."""
    angles = sorted({0.0, *(a % (2 * pi) for one, other in combinations(circles, 2) for a in _level(one, other))})
    angles = [a for a, b in pairwise([*angles, 2 * pi]) if b - a > SAME]
    middles = [(a + b) / 2 for a, b in pairwise([*angles, 2 * pi])]
    furthest = [max(circles, key=lambda c, m=m: c[0] * cos(m) + c[1] * sin(m) + c[2]) for m in middles]  # type: ignore[misc]
    before = [furthest[-1], *furthest[:-1]]
    turns = [(a, now) for a, now, last in zip(angles, furthest, before, strict=True) if now != last]
    return turns or [(0.0, furthest[0])]


def _level(one: Circle, other: Circle) -> list[float]:
    """Directions in which two circles, neither within the other, reach equally far [rad]."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    lean = acos((one[2] - other[2]) / hypot(dx, dy))
    return [atan2(dy, dx) - lean, atan2(dy, dx) + lean]


# measures -------------------------------------------------------------------------------------------------------------


def signed_area(loop: Sequence[Vertex]) -> float:
    """Area inside a loop [mm^2], negative where it runs clockwise."""
    return fsum((e.x0 * e.y1 - e.x1 * e.y0) / 2 + (_segment(e) if e.bulge else 0.0) for e in edges(loop))


def _segment(edge: Edge) -> float:
    """Area between an arc and its chord [mm^2], of the sign of the bulge: r^2 (t - sin t)/2."""
    t = edge.sweep
    excess = t - sin(t) if abs(t) > SHORT_ARC else t**3 / 6 * (1 - t * t / 20)
    return edge.radius**2 * excess / 2


def area(sheet: Region) -> float:
    """Area of a sheet [mm^2]: its outer loop less what is cut out, which must lie inside and apart (see `lands`)."""
    cut = (*(pi / 4 * hole.diameter**2 for hole in sheet.holes), *(abs(signed_area(o.loop)) for o in sheet.openings))
    return abs(signed_area(sheet.outer)) - fsum(cut)


def distance(loop: Sequence[Vertex], x: float, y: float) -> float:
    """Least distance from a point to the edge of a loop [mm], whichever side it is on."""
    return min(edge.distance(x, y) for edge in edges(loop))


def inside(loop: Sequence[Vertex], x: float, y: float) -> bool:
    """Whether a point lies inside a loop; on the edge itself either answer may come."""
    return sum(_crossings(edge, x, y) for edge in edges(loop)) % 2 == 1


def _crossings(edge: Edge, x: float, y: float) -> int:
    """How often a line from the point to the right crosses an edge."""
    count = 0
    for (x0, y0), (x1, y1) in pairwise(edge.stations()):
        if (y0 > y) == (y1 > y):
            continue
        at = x0 + (y - y0) / (y1 - y0) * (x1 - x0)
        if edge.bulge:
            cx, cy = edge.centre
            at = cx + copysign(sqrt(max(0.0, edge.radius**2 - (y - cy) ** 2)), (x0 + x1) / 2 - cx)
        count += at > x
    return count


def bounds(loop: Sequence[Vertex]) -> tuple[float, float, float, float]:
    """Return least x, least y, greatest x, greatest y of a loop [mm]."""
    points = [point for edge in edges(loop) for point in edge.stations()]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def as_circle(loop: Sequence[Vertex]) -> Circle | None:
    """Return centre and radius [mm] if the whole loop is one circle, else None."""
    arcs = edges(loop)
    if not all(arc.bulge for arc in arcs) or abs(abs(fsum(arc.sweep for arc in arcs)) - 2 * pi) > SAME:
        return None
    (x, y), r = arcs[0].centre, arcs[0].radius
    near = all(hypot(a.centre[0] - x, a.centre[1] - y) + abs(a.radius - r) < SAME * max(1.0, r) for a in arcs)
    return (x, y, r) if near else None


# changed and written ------------------------------------------------------------------------------------------------


def transformed(
    loop: Sequence[Vertex], x: float = 0.0, y: float = 0.0, turned: float = 0.0, *, mirrored: bool = False
) -> Loop:
    """Return a loop mirrored left to right, then turned [deg] anticlockwise about the origin, then moved [mm]."""
    way = -1 if mirrored else 1
    c, s = cos(radians(turned)), sin(radians(turned))
    return tuple((x + way * px * c - py * s, y + way * px * s + py * c, way * bulge) for px, py, bulge in loop)


def flatten(loop: Sequence[Vertex], sagitta: float) -> list[Point]:
    """Return points on the edge of a loop so close that no chord is further than the sagitta from its arc [mm]."""
    points: list[Point] = []
    for edge in edges(loop):
        points.append((edge.x0, edge.y0))
        if edge.bulge:
            reach = 2 * acos(max(-1.0, 1 - sagitta / edge.radius))
            count = max(2, ceil(abs(edge.sweep) / reach))
            points += edge.at([edge.starts_at + edge.sweep * k / count for k in range(1, count)])
    return points


def svg_path(loop: Sequence[Vertex]) -> str:
    """Return a loop as SVG path data [mm], Y turned downwards, rounded to 0.00001 mm."""
    data = [f"M{figure(loop[0][0])} {figure(-loop[0][1])}"]
    for e in edges(loop):
        r = figure(e.radius)
        how = f"A{r} {r} 0 {int(abs(e.bulge) > 1)} {int(e.bulge < 0)} " if e.bulge else "L"
        data.append(f"{how}{figure(e.x1)} {figure(-e.y1)}")
    return "".join([*data, "Z"])


def figure(value: float) -> str:
    """Return a number as short as it goes at five decimals, never -0."""
    return f"{round(value, 5) + 0.0:.12g}"


def _refused(says: str) -> JobError:
    return JobError(Fault("", says))


def lens(one: float, other: float, apart: float) -> float:
    """Area that two circles of these radii share, their centres apart [mm^2].

    >>> round(lens(1.0, 1.0, 1.0), 6)  # 2 pi / 3 - sqrt(3) / 2
    1.22837
    """
    if apart >= one + other:
        return 0.0
    if apart <= abs(one - other):
        return pi * min(one, other) ** 2
    first = (apart**2 + one**2 - other**2) / (2 * apart)
    second = apart - first
    return (
        one**2 * acos(first / one) - first * sqrt(one**2 - first**2)
        + other**2 * acos(second / other) - second * sqrt(other**2 - second**2)
    )  # fmt: skip
