"""The least metal of a flat part between any two of its edges. Imports no CAD."""

from __future__ import annotations

from itertools import combinations
from math import hypot, inf
from typing import TYPE_CHECKING

from parts.geometry.meeting import crossings, near_pairs
from parts.geometry.outline import bounds, distance, edges, inside

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.geometry.edge import Edge
    from parts.geometry.outline import Hole, Region, Vertex


def least_land(sheet: Region) -> float:
    """Least metal between any two edges of a part, opening to opening and opening to outer loop [mm].

    Negative where openings overlap or stick out of the outer loop; `inf` without one. Necks of the outer loop itself
    are `neck.narrowest`'s.
    """
    lands = [_round_apart(a, b) for a, b in combinations(sheet.holes, 2)]
    lands += [within(sheet.outer, hole.x, hole.y) - hole.diameter / 2 for hole in sheet.holes]
    for opening in sheet.openings:
        lands.append(room(sheet.outer, opening.loop))
        lands += [-within(opening.loop, hole.x, hole.y) - hole.diameter / 2 for hole in sheet.holes]
    lands += [loops_apart(a.loop, b.loop) for a, b in combinations(sheet.openings, 2)]
    return min(lands, default=inf)


def _round_apart(a: Hole, b: Hole) -> float:
    return hypot(a.x - b.x, a.y - b.y) - (a.diameter + b.diameter) / 2


def within(loop: Sequence[Vertex], x: float, y: float) -> float:
    """How far inside a loop a point lies, negative outside it [mm]."""
    away = distance(loop, x, y)
    return away if inside(loop, x, y) else -away


def room(outer: Sequence[Vertex], inner: Sequence[Vertex]) -> float:
    """Least metal from one loop to another that should lie within it, 0 or less where it does not [mm]."""
    reach = min(within(outer, x, y) for x, y, _ in inner)
    return min(reach, _gap(outer, inner)) if reach > 0 else reach


def loops_apart(one: Sequence[Vertex], other: Sequence[Vertex]) -> float:
    """Least metal between two loops that should lie beside each other, 0 or less where they do not [mm]."""
    deepest = max(within(a, x, y) for a, b in ((one, other), (other, one)) for x, y, _ in b)
    return -deepest if deepest >= 0 else _gap(one, other)


def _gap(one: Sequence[Vertex], other: Sequence[Vertex]) -> float:
    """Least distance between the edges of two loops, 0 where they cross [mm]."""
    least = inf
    others = [(edge, boxed(edge)) for edge in edges(other)]
    for edge in edges(one):
        box = boxed(edge)
        for far, far_box in others:
            if boxes_apart(box, far_box) < least:
                least = 0.0 if crossings(edge, far) else min(least, *(gap for gap, _, _ in near_pairs(edge, far)))
    return least


def boxed(edge: Edge) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y of an edge [mm]."""
    xs, ys = zip(*edge.stations(), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def boxes_apart(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> float:
    """How far two boxes are apart at least [mm]."""
    return hypot(max(a[0] - b[2], b[0] - a[2], 0.0), max(a[1] - b[3], b[1] - a[3], 0.0))


def middle(loop: Sequence[Vertex]) -> tuple[float, float]:
    """Middle of the box round a loop [mm]."""
    left, low, right, high = bounds(loop)
    return (left + right) / 2, (low + high) / 2
