"""Where a plane outline all but meets itself."""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate, combinations
from math import inf
from typing import TYPE_CHECKING

from parts.geometry.lands import boxed, boxes_apart
from parts.geometry.meeting import near_pairs
from parts.geometry.outline import bounds, edges, inside

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop

ROUND = 3.0  # times the way across that the way round must be
NONE = 1e-6  # mm: two edges that follow each other meet, to this


@lru_cache(16)
def narrowest(loop: Loop) -> float:
    """Width of the narrowest neck of a loop; its shorter side where it has none [mm].

    >>> steps = ((0, 0), (20, 0), (20, 9.5), (40, 9.5), (40, 20), (20, 20), (20, 10.5), (0, 10.5))
    >>> narrowest(tuple((x, y, 0.0) for x, y in steps))
    1.0
    """
    left, low, right, high = bounds(loop)
    return min(_necks(loop), default=min(right - left, high - low))


def _necks(loop: Loop) -> Iterator[float]:
    """Ways across, from edge to edge, that are short beside the way round."""
    sides = edges(loop)
    starts = [0.0, *accumulate(side.length for side in sides)]
    boxes, whole, least = [boxed(side) for side in sides], starts[-1], inf
    for (i, one), (j, other) in combinations(enumerate(sides), 2):
        furthest = min(starts[j + 1] - starts[i], whole - max(0.0, starts[j] - starts[i + 1]))
        if boxes_apart(boxes[i], boxes[j]) >= min(least, furthest / ROUND):
            continue
        for across, p, q in near_pairs(one, other):
            along = abs(starts[j] + other.along(*q) - starts[i] - one.along(*p))
            if NONE < across < least and ROUND * across < min(along, whole - along) and inside(loop, *_between(p, q)):
                least = across
                yield across


def _between(p: Point, q: Point) -> Point:
    return (p[0] + q[0]) / 2, (p[1] + q[1]) / 2
