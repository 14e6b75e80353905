"""Edges joined into closed loops where their ends meet; what is open, doubled or forked is told with its place."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from math import floor, hypot, sqrt
from typing import TYPE_CHECKING

from parts.geometry.lands import boxed, boxes_apart
from parts.geometry.meeting import crossings
from parts.geometry.outline import bounds, signed_area
from parts.geometry.outline import edges as edges_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.geometry.edge import Edge, Point
    from parts.geometry.outline import Loop, Vertex

REACH = 0.02  # mm: ends that are no further apart are joined
SAME_PLACE = 1e-4  # mm: a crossing so near to the end that two edges share is that end
TWO = 2


@dataclass(frozen=True, slots=True)
class Flaw:
    """What is wrong at a place of the file [mm]."""

    says: str
    at: Point

    def __str__(self) -> str:
        """Say it, with its place."""
        return f"{self.says} at ({self.at[0]:.4g}, {self.at[1]:.4g}) mm"


def joined(edges: list[Edge]) -> tuple[list[Loop], list[Flaw]]:
    """Join edges into loops [mm], and say what can't be joined.

    >>> from parts.geometry.edge import Edge
    >>> joined([Edge(0, 0, 4, 0, 0), Edge(4, 3, 4.01, 0, 0), Edge(0, 0, 4, 3, 0)])
    ([((0, 0, 0), (4.01, 0, 0), (4, 3, 0))], [])
    >>> for flaw in joined([Edge(0, 0, 4, 0, 0), Edge(4, 0, 4, 3, 0)])[1]:
    ...     print(flaw)
    is open at (0, 0) mm
    is open at (4, 3) mm
    """
    edges, wrong = _without_doubles(edges)
    at = Nodes()
    ends = [(at.number((e.x0, e.y0)), at.number((e.x1, e.y1))) for e in edges]
    meeting: dict[int, list[int]] = {}
    for n, pair in enumerate(ends):
        for node in pair:
            meeting.setdefault(node, []).append(n)
    says = {node: "is open" if len(found) == 1 else "has more than two ends" for node, found in meeting.items()}
    wrong += [Flaw(says[node], at.points[node]) for node, found in meeting.items() if len(found) != TWO]
    if wrong:
        return [], wrong
    return list(_walked(edges, ends, meeting)), []


def _without_doubles(edges: list[Edge]) -> tuple[list[Edge], list[Flaw]]:
    kept: dict[tuple[Point, ...], Edge] = {}
    wrong = []
    for edge in edges:
        a, b, m = ((round(x, 2), round(y, 2)) for x, y in ((edge.x0, edge.y0), (edge.x1, edge.y1), edge.middle))
        if kept.setdefault((*sorted((a, b)), m), edge) is not edge:
            wrong.append(Flaw("is drawn twice", edge.middle))
    return list(kept.values()), wrong


class Nodes:
    """Ends, those within reach of each other as one."""

    def __init__(self) -> None:
        self.points: list[Point] = []
        self._cells: dict[tuple[int, int], list[int]] = {}

    def number(self, point: Point) -> int:
        """Number of the node at a point; a new one where none is in reach."""
        i, j = floor(point[0] / REACH), floor(point[1] / REACH)
        near = (n for di in (-1, 0, 1) for dj in (-1, 0, 1) for n in self._cells.get((i + di, j + dj), ()))
        for n in near:
            if hypot(self.points[n][0] - point[0], self.points[n][1] - point[1]) <= REACH:
                return n
        self.points.append(point)
        self._cells.setdefault((i, j), []).append(len(self.points) - 1)
        return len(self.points) - 1


def _walked(edges: list[Edge], ends: list[tuple[int, int]], meeting: dict[int, list[int]]) -> list[Loop]:
    """Follow each loop round; at every node just two edges meet."""
    loops, left = [], dict.fromkeys(range(len(edges)))
    while left:
        n = next(iter(left))
        node, loop = ends[n][0], list["Vertex"]()
        while n in left:
            del left[n]
            edge, forward = edges[n], ends[n][0] == node
            loop.append((edge.x0, edge.y0, edge.bulge) if forward else (edge.x1, edge.y1, -edge.bulge))
            node = ends[n][1] if forward else ends[n][0]
            n = next((m for m in meeting[node] if m in left), n)
        loops.append(tuple(loop))
    return loops


def crossed(loops: Sequence[Loop]) -> list[Flaw]:
    """Say where loops cross or touch themselves or each other, or lie on each other."""
    sides = [edges_of(loop) for loop in loops]
    sizes = [(*bounds(loop), sqrt(abs(signed_area(loop)))) for loop in loops]
    found = [Flaw("crosses itself", met) for own in sides if (met := _crossing(own, own, same=True))]
    for one, other in combinations(range(len(loops)), 2):
        if all(abs(a - b) <= REACH for a, b in zip(sizes[one], sizes[other], strict=True)):
            found.append(Flaw("is drawn twice", sides[other][0].middle))
        elif met := _crossing(sides[one], sides[other], same=False):
            found.append(Flaw("crosses another outline", met))
    return found


def _crossing(one: list[Edge], other: list[Edge], *, same: bool) -> Point | None:
    """First point at which edges of two loops, or of one loop with itself, meet otherwise than end to end."""
    boxes = [boxed(edge) for edge in other]
    for i, edge in enumerate(one):
        box = boxed(edge)
        for j in range(i + 1 if same else 0, len(other)):
            if boxes_apart(box, boxes[j]) > 0:
                continue
            for point in crossings(edge, other[j]):
                if not (same and _shared(point, edge, other[j])):
                    return point
    return None


def _shared(point: Point, one: Edge, other: Edge) -> bool:
    """Whether a point is an end of two edges that follow each other."""
    ends = [((e.x0, e.y0), (e.x1, e.y1)) for e in (one, other)]
    shared = [a for a in ends[0] for b in ends[1] if a == b]
    return any(hypot(x - point[0], y - point[1]) < SAME_PLACE for x, y in shared)
