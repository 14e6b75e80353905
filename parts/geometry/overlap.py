"""How much area loops have in common, exact for lines and arcs. Imports no CAD."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, pairwise
from math import asin, copysign, fsum, sqrt
from typing import TYPE_CHECKING

from parts.geometry.lands import boxed, boxes_apart
from parts.geometry.meeting import crossings
from parts.geometry.outline import edges

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from parts.geometry.outline import Vertex

THIN = 1e-12  # mm: a strip that is no wider has no area


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a loop's edge that goes from left to right, y a function of x [mm]."""

    loop: int
    x0: float
    y0: float
    x1: float
    y1: float
    cx: float = 0.0
    cy: float = 0.0
    radius: float = 0.0
    """with the sign of the side of the centre that it lies on, 0 of a line"""

    def height(self, x: float) -> float:
        """Return y at x."""
        if not self.radius:
            return self.y0 + (x - self.x0) / (self.x1 - self.x0) * (self.y1 - self.y0)
        return self.cy + copysign(sqrt(max(0.0, self.radius**2 - (x - self.cx) ** 2)), self.radius)

    def below(self, a: float, b: float) -> float:
        """Area between it and y = 0 from a to b [mm^2]."""
        if not self.radius:
            return (self.height(a) + self.height(b)) / 2 * (b - a)
        return self.cy * (b - a) + copysign(1, self.radius) * (self._round(b) - self._round(a))

    def _round(self, x: float) -> float:
        """Area under the half circle from its middle to x."""
        r = abs(self.radius)
        t = min(r, max(-r, x - self.cx))
        return (t * sqrt(r * r - t * t) + r * r * asin(t / r)) / 2


def common_area(loops: Sequence[Sequence[Vertex]], counts: Callable[[list[bool]], bool]) -> float:
    """Area of all places that count, by which loops they lie within [mm^2].

    In strips between the places where an edge ends, turns back or crosses another, each edge is one curve over x.

    >>> from parts.geometry.outline import circle, rectangle
    >>> round(common_area([rectangle(4, 4), circle(2, 0, 1)], all), 6)  # half of the circle
    1.570796
    """
    pieces = sorted((p for n, loop in enumerate(loops) for p in _pieces(n, loop)), key=lambda p: p.x0)
    stops = sorted({x for p in pieces for x in (p.x0, p.x1)} | set(_crossed(loops)))
    strips, active, waiting = list[float](), list[Piece](), 0
    for a, b in pairwise(stops):
        while waiting < len(pieces) and pieces[waiting].x0 <= a:
            active.append(pieces[waiting])
            waiting += 1
        active = [p for p in active if p.x1 >= b]
        if b - a > THIN:
            strips += _strip(active, a, b, [False] * len(loops), counts)
    return fsum(strips)


def _strip(
    active: list[Piece], a: float, b: float, within: list[bool], counts: Callable[[list[bool]], bool]
) -> Iterator[float]:
    """Areas of the strip from a to b, from edge to edge upwards."""
    across = sorted(active, key=lambda p: p.height((a + b) / 2))
    for low, high in pairwise(across):
        within[low.loop] = not within[low.loop]
        if counts(within):
            yield high.below(a, b) - low.below(a, b)


def _pieces(number: int, loop: Sequence[Vertex]) -> Iterator[Piece]:
    """Pieces of one loop, upright ones left away."""
    for edge in edges(loop):
        for (x0, y0), (x1, y1) in pairwise(edge.stations()):
            if x0 == x1:
                continue
            (left, at), (right, to) = sorted(((x0, y0), (x1, y1)))
            if not edge.bulge:
                yield Piece(number, left, at, right, to)
                continue
            cx, cy = edge.centre
            yield Piece(number, left, at, right, to, cx, cy, copysign(edge.radius, (y0 + y1) / 2 - cy))


def _crossed(loops: Sequence[Sequence[Vertex]]) -> Iterator[float]:
    """Every x at which two loops cross."""
    boxes = [[(edge, boxed(edge)) for edge in edges(loop)] for loop in loops]
    for one, other in combinations(boxes, 2):
        for edge, box in one:
            for far, far_box in other:
                if boxes_apart(box, far_box) == 0:
                    yield from (x for x, _ in crossings(edge, far))
