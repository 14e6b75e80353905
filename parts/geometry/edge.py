"""One edge of a plane outline, a line or an arc, and where straight edges cross. Imports no CAD."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, atan2, ceil, copysign, cos, floor, hypot, inf, pi, sin
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

Point: TypeAlias = tuple[float, float]
Side: TypeAlias = tuple[Point, Point]
TINY = 1e-9  # rad: a point so far before an arc's first end is at that end


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of a loop, from (x0, y0) to (x1, y1) [mm]."""

    x0: float
    y0: float
    x1: float
    y1: float
    bulge: float

    @property
    def chord(self) -> float:
        """Straight distance between the ends [mm]."""
        return hypot(self.x1 - self.x0, self.y1 - self.y0)

    @property
    def sweep(self) -> float:
        """Angle of the arc, positive to the left [rad]."""
        return 4 * atan(self.bulge)

    @property
    def radius(self) -> float:
        """Radius of the arc, `inf` for a line [mm]."""
        return self.chord * (1 + self.bulge**2) / (4 * abs(self.bulge)) if self.bulge else inf

    @property
    def centre(self) -> Point:
        """Centre of the arc [mm]; a line has none."""
        share = (1 - self.bulge**2) / (4 * self.bulge)
        dx, dy = self.x1 - self.x0, self.y1 - self.y0
        return (self.x0 + self.x1) / 2 - share * dy, (self.y0 + self.y1) / 2 + share * dx

    @property
    def middle(self) -> Point:
        """Point half way along [mm]."""
        dx, dy = self.x1 - self.x0, self.y1 - self.y0
        return (self.x0 + self.x1 + self.bulge * dy) / 2, (self.y0 + self.y1 - self.bulge * dx) / 2

    @property
    def starts_at(self) -> float:
        """Direction from the centre of the arc to its first end [rad]."""
        cx, cy = self.centre
        return atan2(self.y0 - cy, self.x0 - cx)

    @property
    def length(self) -> float:
        """Way along it from end to end [mm]."""
        return self.radius * abs(self.sweep) if self.bulge else self.chord

    def along(self, x: float, y: float) -> float:
        """Way along it from its first end to a point of what it lies on [mm], negative before a line's first end."""
        if not self.bulge:
            return ((x - self.x0) * (self.x1 - self.x0) + (y - self.y0) * (self.y1 - self.y0)) / (self.chord or 1.0)
        cx, cy = self.centre
        turned = (atan2(y - cy, x - cx) - self.starts_at) * copysign(1, self.bulge)
        return self.radius * ((turned + TINY) % (2 * pi) - TINY)

    def heading(self, end: int) -> float:
        """Direction of travel at the first (0) or the last (1) end [rad]."""
        return atan2(self.y1 - self.y0, self.x1 - self.x0) + (end - 0.5) * self.sweep

    def foot(self, x: float, y: float) -> Point:
        """Point of the whole line or circle that it lies on which is nearest to another point [mm]."""
        if self.bulge:
            return self.at([atan2(y - self.centre[1], x - self.centre[0])])[0]
        share = self.along(x, y) / (self.chord or 1.0)
        return self.x0 + share * (self.x1 - self.x0), self.y0 + share * (self.y1 - self.y0)

    def beside(self, out: float) -> Edge:
        """The edge moved to its right, as far as it goes [mm]."""
        a, b = self.heading(0), self.heading(1)
        return Edge(
            self.x0 + out * sin(a), self.y0 - out * cos(a), self.x1 + out * sin(b), self.y1 - out * cos(b), self.bulge
        )

    def at(self, angles: Sequence[float]) -> list[Point]:
        """Points of the arc's circle in these directions from its centre [mm]."""
        (cx, cy), r = self.centre, self.radius
        return [(cx + r * cos(a), cy + r * sin(a)) for a in angles]

    def stations(self) -> list[Point]:
        """Both ends and, between them, the points of the arc right, left, above and below its centre [mm]."""
        between: list[Point] = []
        if self.bulge:
            low, high = sorted((self.starts_at, self.starts_at + self.sweep))
            quarters = range(floor(low / (pi / 2)) + 1, ceil(high / (pi / 2)))
            between = self.at([k * pi / 2 for k in quarters][:: 1 if self.bulge > 0 else -1])
        return [(self.x0, self.y0), *between, (self.x1, self.y1)]

    def distance(self, x: float, y: float) -> float:
        """Least distance from a point to this edge [mm]."""
        if self.bulge:
            cx, cy = self.centre
            along = (atan2(y - cy, x - cx) - self.starts_at) * copysign(1, self.bulge) % (2 * pi)
            if along <= abs(self.sweep):
                return abs(hypot(x - cx, y - cy) - self.radius)
            return min(hypot(x - self.x0, y - self.y0), hypot(x - self.x1, y - self.y1))
        dx, dy = self.x1 - self.x0, self.y1 - self.y0
        share = ((x - self.x0) * dx + (y - self.y0) * dy) / (dx * dx + dy * dy or 1.0)
        share = min(1.0, max(0.0, share))
        return hypot(x - self.x0 - share * dx, y - self.y0 - share * dy)


def crosses_itself(points: Sequence[Point]) -> bool:
    """Whether a closed polygon crosses, touches or folds back on itself, or has a point twice."""
    sides = list(zip(points, [*points[1:], points[0]], strict=True))
    return any(a == b for a, b in sides) or any(
        _folds(sides[i], sides[j]) if (i + 1) % len(sides) == j else _meet(sides[i], sides[j])
        for i, j in _abreast(sides)
    )


def _abreast(sides: Sequence[Side]) -> Iterator[tuple[int, int]]:
    """Pairs of sides over a common stretch of x; of two that join, the one that goes first stands first."""
    order = sorted(range(len(sides)), key=lambda k: min(sides[k][0][0], sides[k][1][0]))
    for n, i in enumerate(order):
        right = max(sides[i][0][0], sides[i][1][0])
        for j in order[n + 1 :]:
            if min(sides[j][0][0], sides[j][1][0]) > right:
                break
            yield (j, i) if (j + 1) % len(sides) == i else (i, j)


def _turn(a: Point, b: Point, c: Point) -> float:
    """Twice the area of the triangle a, b, c, positive where c lies to the left of a to b."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _folds(first: Side, then: Side) -> bool:
    """Whether a side goes straight back along the one before it."""
    (a, b), (_, c) = first, then
    return _turn(a, b, c) == 0 and (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) < 0


def _meet(one: Side, other: Side) -> bool:
    """Whether two sides have a point in common."""
    (a, b), (c, d) = one, other
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    return _turn(a, b, c) * _turn(a, b, d) <= 0 and _turn(c, d, a) * _turn(c, d, b) <= 0
