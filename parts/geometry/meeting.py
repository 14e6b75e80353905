"""Where two edges of plane outlines meet, and how near they come: exact for lines and arcs."""

from __future__ import annotations

from math import atan2, copysign, hypot, pi, sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.geometry.edge import Edge, Point

NEAR = 1e-9  # of an edge's length, or rad: so far past its end a point still counts as on it


def crossings(one: Edge, other: Edge) -> list[Point]:
    """Points that two edges have in common [mm]; none where they run along each other.

    >>> from parts.geometry.edge import Edge
    >>> crossings(Edge(-2, 0, 2, 0, 0), Edge(1, -1, 1, 1, 0))
    [(1.0, 0.0)]
    """
    return [point for point in carriers_meet(one, other) if _on(one, point) and _on(other, point)]


def carriers_meet(one: Edge, other: Edge) -> list[Point]:
    """Points that the whole lines or circles of two edges have in common [mm]."""
    if one.bulge and other.bulge:
        return _circles(one, other)
    if one.bulge or other.bulge:
        return _line_and_circle(*((other, one) if one.bulge else (one, other)))
    return _lines(one, other)


def apart(one: Edge, other: Edge) -> float:
    """Least distance between two edges, 0 where they meet [mm].

    >>> from parts.geometry.edge import Edge
    >>> apart(Edge(0, 0, 4, 0, 0), Edge(4, 7, 0, 7, -1.0))  # a half circle that hangs down to 5
    5.0
    """
    return min((gap for gap, _, _ in near_pairs(one, other)), default=0.0) if not crossings(one, other) else 0.0


def near_pairs(one: Edge, other: Edge) -> Iterator[tuple[float, Point, Point]]:
    """Places where two edges that do not meet may be nearest: the gap [mm], a point on the one, the other's nearest."""
    for edge, far, turned in ((one, other, False), (other, one, True)):
        for point in _turning_points(edge, far):
            foot = nearest(far, *point)
            ends = (foot, point) if turned else (point, foot)
            yield hypot(point[0] - foot[0], point[1] - foot[1]), *ends


def nearest(edge: Edge, x: float, y: float) -> Point:
    """Point of an edge that is nearest to another point [mm]."""
    if not edge.bulge:
        dx, dy = edge.x1 - edge.x0, edge.y1 - edge.y0
        share = min(1.0, max(0.0, ((x - edge.x0) * dx + (y - edge.y0) * dy) / (dx * dx + dy * dy or 1.0)))
        return edge.x0 + share * dx, edge.y0 + share * dy
    foot = edge.foot(x, y)
    ends = ((edge.x0, edge.y0), (edge.x1, edge.y1))
    return foot if _on(edge, foot) else min(ends, key=lambda end: hypot(end[0] - x, end[1] - y))


def _turning_points(edge: Edge, far: Edge) -> Iterator[Point]:
    """Points of an edge between which its distance to another only grows or only falls."""
    yield edge.x0, edge.y0
    yield edge.x1, edge.y1
    if not edge.bulge:
        return
    (cx, cy), (dx, dy) = edge.centre, (far.y0 - far.y1, far.x1 - far.x0)
    if far.bulge:
        dx, dy = far.centre[0] - cx, far.centre[1] - cy
    way = atan2(dy, dx)
    yield from (point for point in edge.at([way, way + pi]) if _on(edge, point))


def _on(edge: Edge, point: Point) -> bool:
    """Whether a point of the line or circle that an edge lies on lies between its ends."""
    x, y = point
    if not edge.bulge:
        dx, dy = edge.x1 - edge.x0, edge.y1 - edge.y0
        share = ((x - edge.x0) * dx + (y - edge.y0) * dy) / (dx * dx + dy * dy or 1.0)
        return -NEAR <= share <= 1 + NEAR
    cx, cy = edge.centre
    along = (atan2(y - cy, x - cx) - edge.starts_at) * copysign(1, edge.bulge)
    return (along + NEAR) % (2 * pi) <= abs(edge.sweep) + 2 * NEAR


def _lines(one: Edge, other: Edge) -> list[Point]:
    ax, ay, bx, by = one.x1 - one.x0, one.y1 - one.y0, other.x1 - other.x0, other.y1 - other.y0
    turn = ax * by - ay * bx
    if abs(turn) <= NEAR * one.chord * other.chord:
        return []
    share = ((other.x0 - one.x0) * by - (other.y0 - one.y0) * bx) / turn
    return [(one.x0 + share * ax, one.y0 + share * ay)]


def _line_and_circle(line: Edge, arc: Edge) -> list[Point]:
    (cx, cy), dx, dy = arc.centre, line.x1 - line.x0, line.y1 - line.y0
    long = hypot(dx, dy) or 1.0
    dx, dy = dx / long, dy / long
    along = (cx - line.x0) * dx + (cy - line.y0) * dy
    half = arc.radius**2 - ((cx - line.x0) * dy - (cy - line.y0) * dx) ** 2
    if half < 0:
        return []
    return [(line.x0 + s * dx, line.y0 + s * dy) for s in (along - sqrt(half), along + sqrt(half))]


def _circles(one: Edge, other: Edge) -> list[Point]:
    (ax, ay), (bx, by) = one.centre, other.centre
    far = hypot(bx - ax, by - ay)
    if far <= NEAR:
        return []
    along = (far * far + one.radius**2 - other.radius**2) / (2 * far)
    up = one.radius**2 - along * along
    if up < 0:
        return []
    dx, dy = (bx - ax) / far, (by - ay) / far
    return [(ax + along * dx - s * dy, ay + along * dy + s * dx) for s in (sqrt(up), -sqrt(up))]
