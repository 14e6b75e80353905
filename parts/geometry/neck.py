"""Where a plane outline all but meets itself."""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate
from math import hypot
from typing import TYPE_CHECKING

from parts.geometry.outline import bounds, edges, inside

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.geometry.edge import Edge
    from parts.geometry.outline import Vertex

ROUND = 3.0  # times the way across that the way round must be


@lru_cache(16)
def narrowest(loop: tuple[Vertex, ...]) -> float:
    """Width of the narrowest neck of a loop of straight edges; its shorter side where it has none [mm].

    >>> steps = ((0, 0), (20, 0), (20, 9.5), (40, 9.5), (40, 20), (20, 20), (20, 10.5), (0, 10.5))
    >>> narrowest(tuple((x, y, 0.0) for x, y in steps))
    1.0
    """
    left, low, right, high = bounds(loop)
    return min(_necks(loop), default=min(right - left, high - low))


def _necks(loop: tuple[Vertex, ...]) -> Iterator[float]:
    """Ways across, from each corner to each edge, that are short beside the way round."""
    sides = edges(loop)
    starts = [0.0, *accumulate(side.chord for side in sides)]
    whole = starts[-1]
    for corner, side in enumerate(sides):
        for start, other in zip(starts, sides, strict=False):
            share = _foot(other, side.x0, side.y0)
            x, y = other.x0 + share * (other.x1 - other.x0), other.y0 + share * (other.y1 - other.y0)
            across = hypot(x - side.x0, y - side.y0)
            along = abs(start + share * other.chord - starts[corner])
            if min(along, whole - along) > ROUND * across and inside(loop, (x + side.x0) / 2, (y + side.y0) / 2):
                yield across


def _foot(edge: Edge, x: float, y: float) -> float:
    """Share of an edge at which it is nearest to a point."""
    dx, dy = edge.x1 - edge.x0, edge.y1 - edge.y0
    return min(1.0, max(0.0, ((x - edge.x0) * dx + (y - edge.y0) * dy) / (dx * dx + dy * dy or 1.0)))
