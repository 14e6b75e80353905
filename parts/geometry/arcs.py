"""A curve known by points, as lines and arcs within a stated distance of every one of them. Imports no CAD."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, dist, fsum, hypot, inf, tan
from typing import TYPE_CHECKING

from parts.geometry.edge import Edge

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.geometry.edge import Point
    from parts.geometry.outline import Vertex

LONGER = 1.3  # times the way from point to point that an arc may be long
FLAT = 1e-4  # rad: half the turn of an arc that is drawn as a line


def fitted(points: Sequence[Point], within: float) -> tuple[list[Vertex], float]:
    """Return vertices from the first point to the last, as few as a greedy walk takes, and the worst distance.

    Parameters
    ----------
    points : sequence of (x, y)
        In order along the curve, close beside its radii; of a closed curve the first again as the last [mm]
    within : float
        How far a point, or the middle between two, may lie from its line or arc [mm]

    Returns
    -------
    vertices : list of (x, y, bulge)
        The last one is the last point, its bulge 0
    worst : float
        Distance of the point that lies furthest off, never over `within` [mm]

    Examples
    --------
    >>> from math import cos, radians, sin
    >>> points = [(10 * cos(radians(a)), 10 * sin(radians(a))) for a in range(0, 181, 2)]
    >>> [len(found) for found in fitted(points + [(-10, -5)], 0.01)[:1]]
    [3]
    """
    vertices, worst, start = list["Vertex"](), 0.0, 0
    while start < len(points) - 1:
        end, bulge, off = _furthest(points, start, within)
        vertices.append((*points[start], bulge))
        worst, start = max(worst, off), end
    return [*vertices, (*points[-1], 0.0)], worst


def _furthest(points: Sequence[Point], start: int, within: float) -> tuple[int, float, float]:
    """The furthest point that one line or arc reaches from a start: its place, the bulge, and the worst distance."""
    last, step = len(points) - 1, 1
    best = (start + 1, 0.0, 0.0)
    while step:
        end = min(best[0] + step, last)
        bulge, off = _arc(points[start : end + 1])
        if end > best[0] and off <= within:
            best, step = (end, bulge, off), 2 * step
        else:
            step = step // 2
    return best


def _arc(points: Sequence[Point]) -> tuple[float, float]:
    """Bulge of the arc from the first to the last point that best goes by the others, and the worst distance.

    From every point of an arc its two ends are seen under the same angle: half the arc's turn.
    """
    (ax, ay), (bx, by) = points[0], points[-1]
    turns, weights = [], []
    for x, y in points[1:-1]:
        ux, uy, vx, vy = x - ax, y - ay, bx - x, by - y
        weight = hypot(ux, uy) * hypot(vx, vy)
        turns.append(weight * atan2(ux * vy - uy * vx, ux * vx + uy * vy))
        weights.append(weight)
    total = fsum(weights)
    half = fsum(turns) / total if total else 0.0
    edge = Edge(ax, ay, bx, by, 0.0 if abs(half) < FLAT else tan(half / 2))
    if edge.length > LONGER * fsum(dist(a, b) for a, b in pairwise(points)):
        return 0.0, inf  # points that turn back on themselves lie on a circle that goes where there are none
    between = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(points)]
    return edge.bulge, max(edge.distance(x, y) for x, y in (*points[1:-1], *between))
