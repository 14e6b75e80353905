"""Drawings put where two of their circles lie on two holes of the job: moved, turned, scaled by what was measured."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import permutations
from math import atan2, cos, fsum, hypot, sin
from typing import TYPE_CHECKING, Any

from parts.book import DECIMALS, Entry
from parts.errors import Fault, JobError
from parts.job.outline_models import Passage
from parts.job.shaped import Shaped, around
from parts.relations import deck as relation
from parts.sizing.measured import fit_measured, with_measured

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.book import Book
    from parts.drawn import Drawing
    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop
    from parts.job import Job
    from parts.job.models import Pattern

SCALED = 0.02  # share by which a picture may be off in scale: more is another pair of holes
OFF = 2.0  # mm that the drawn bore may come to lie off the centre: more is another pair of holes
EXACT = 2  # circles that a placing fits whatever they are
NEAR = 2.0  # mm: a circle that lies no further from a hole is that hole
ALIKE = 0.3  # mm: placings that fit no worse than this are alike, and the one that turns the drawing least is taken
HOW = "Moved, turned and scaled by least squares."


@dataclass(frozen=True, slots=True)
class Placing:
    """How a drawing is moved: scaled and turned about its origin, then shifted."""

    scale: float
    turn: float
    """rad"""
    x: float
    y: float

    def point(self, x: float, y: float) -> Point:
        """Where a point of the drawing comes to lie [mm]."""
        c, s = self.scale * cos(self.turn), self.scale * sin(self.turn)
        return c * x - s * y + self.x, s * x + c * y + self.y

    def loop(self, loop: Loop) -> Loop:
        """Where a loop comes to lie [mm]."""
        return tuple((*self.point(x, y), bulge) for x, y, bulge in loop)


def placed(job: Job) -> Job:
    """Return the job with its drawings where `at_holes` puts them; the job itself where none asks for it.

    JobError where no two circles of a drawing are as far apart as the two holes.
    """
    shapes = [(path, shape) for path, shape in drawn_shapes(job) if shape.waits]
    if not shapes:
        return job
    holes = centres(with_measured(job, fit_measured(job)))
    changed: dict[tuple[str | int, ...], Shaped] = {}
    for path, shape in shapes:
        key = ".".join(map(str, (*path, "at_holes")))
        placing, off, unjudged = placing_of(shape, holes, key)
        loops = tuple(placing.loop(loop) for loop in shape.on_layer())
        try:
            changed[path] = shape.placed(around(shape, loops) if isinstance(shape, Passage) else loops, off, unjudged)
        except JobError as error:
            raise JobError(Fault(".".join(map(str, path)), error.faults[0].says)) from None
    return _with(job, changed)


def size_drawings(book: Book, job: Job) -> None:
    """Add how far the holes of a drawing lie from those that it is put on, and of how many it does not tell."""
    put = [shape.put for _, shape in drawn_shapes(job) if shape.put]
    if put:
        off, unjudged = max(off for off, _ in put), max(len(names) for _, names in put)
        told = "largest distance from a hole of the job to its circle in the drawing"
        book["deck.drawing_off"] = Entry(round(off, DECIMALS), "mm", "computed", HOW, told, {})
        told = f"holes with no circle of the drawing within {NEAR:g} mm; all, where no third circle tells of two"
        book["deck.drawing_unjudged"] = Entry(unjudged, "1", "computed", HOW, told, {})


def drawn_shapes(job: Job) -> Iterator[tuple[tuple[str | int, ...], Shaped]]:
    """Every outline and passage that is drawn in a file, with its place."""
    for name, key in (("barrel", "outline"), ("head", "outline"), ("head", "joint_face"), ("base", "outline")):
        shape = getattr(getattr(job, name), key, None)
        if isinstance(shape, Shaped) and shape.form == "dxf":
            yield (name, key), shape
    for n, passage in enumerate(job.barrel.passages if job.barrel else ()):
        if passage.form == "dxf":
            yield ("barrel", "passages", n), passage


def _with(job: Job, changed: dict[tuple[str | int, ...], Shaped]) -> Job:
    """Put shapes in the places of others."""
    tables: dict[str, Any] = {}
    for (name, key, *number), shape in changed.items():
        table = tables.get(str(name), getattr(job, str(name)))
        value: Any = shape
        if number:
            value = list(getattr(table, str(key)))
            value[int(number[0])] = shape
        tables[str(name)] = table.model_copy(update={str(key): value})
    job = job.with_tables(tables)
    if job.as_made is not None:
        job._as_made = placed(job.as_made)  # noqa: SLF001 - the same drawings, by holes as they came out
    return job


def centres(job: Job) -> dict[str, Point]:
    """Centres of the bore and of every hole of the job's patterns, by name [mm]."""
    found = {"bore": (0.0, 0.0)}
    new = job.head.holes if job.head else None
    olds = [one.tables["old_holes"].pattern for one in job.instances("old")]
    if job.old and job.old.pattern:
        olds = [job.old.pattern]
    for kind, patterns in (("new", [new]), ("old", olds)):
        places = [place for pattern in patterns if pattern for place in pattern_places(pattern)]
        found |= {f"{kind} {n}": place for n, place in enumerate(places, 1)}
    return found


def pattern_places(pattern: Pattern) -> list[Point]:
    """Centres of a pattern as it is given [mm]."""
    if pattern.points:
        return [(float(x), float(y)) for x, y in pattern.points]
    if pattern.rectangle:
        (across, up), turned = map(float, pattern.rectangle), float(pattern.turned or 0.0)
        sides = ((1, 1), (-1, 1), (-1, -1), (1, -1))
        return [
            (relation.corner_x(across, up, turned, sx, sy), relation.corner_y(across, up, turned, sx, sy))
            for sx, sy in sides
        ]
    circle, first, count = float(pattern.circle or 0.0), float(pattern.first or 0.0), pattern.count or 0
    return [
        (relation.circle_x(circle, first, n, count), relation.circle_y(circle, first, n, count))
        for n in range(1, count + 1)
    ]


def placing_of(shape: Any, holes: dict[str, Point], key: str) -> tuple[Placing, float, tuple[str, ...]]:  # noqa: ANN401 - an outline or a passage
    """Return how a drawing is put on its holes, how far the worst of them is off [mm], and which it does not judge.

    Of all pairs of its circles that may lie on the two holes the pair is taken that fits the other holes and the bore
    best; then all circles that lie on a hole pull alike, by least squares.
    """
    drawing: Drawing = shape.drawing
    lacking = [name for name in shape.at_holes if name not in holes]
    if lacking or shape.at_holes[0] == shape.at_holes[1]:
        says = f"names {lacking[0]!r}, and the job has no such hole" if lacking else "wants two different holes"
        raise JobError(Fault(key, says))
    one, two = (holes[name] for name in shape.at_holes)
    circles = [(x, y) for x, y, _ in drawing.circles] + [(0.0, 0.0)] * drawing.bored
    fits = [(p, _pairs(p, circles, holes)) for p in _placings(circles, one, two)]
    fits = [(p, pairs) for p, pairs in fits if not drawing.bored or hypot(p.x, p.y) <= OFF]
    if not fits:
        names = " and ".join(map(repr, shape.at_holes))
        apart = hypot(one[0] - two[0], one[1] - two[1])
        says = (
            f"{drawing.name} has no two circles {apart:.2f} mm apart, as {names} are, "
            f"to {SCALED * 100:g} %{', with its bore on the centre' * drawing.bored}"
        )
        raise JobError(Fault(key, says))
    misfits = [fsum(min(_off(p, *pair), OFF) for pair in pairs) for p, pairs in fits]
    alike = [fit for fit, misfit in zip(fits, misfits, strict=True) if misfit <= min(misfits) + ALIKE]
    placing, _ = min(alike, key=lambda fit: round(abs(fit[0].turn), 6))
    met = _met(placing, circles, holes)
    best = _fitted([(circle, holes[name]) for name, circle in met.items()])
    kinds, exact = {name.partition(" ")[0] for name in shape.at_holes}, len(set(met.values())) <= EXACT
    unjudged = tuple(name for name in holes if name.partition(" ")[0] in kinds and (exact or name not in met))
    return best, max(_off(best, circle, holes[name]) for name, circle in met.items()), unjudged


def _met(placing: Placing, circles: list[Point], holes: dict[str, Point]) -> dict[str, Point]:
    """Each hole that a circle comes to lie on, with it: the nearest, and nearer to no other hole."""
    nearest = {name: min(circles, key=lambda one, at=at: _off(placing, one, at)) for name, at in holes.items()}  # type: ignore[misc]
    return {
        name: circle
        for name, circle in nearest.items()
        if _off(placing, circle, holes[name]) <= min(NEAR, *(_off(placing, circle, other) for other in holes.values()))
    }


def _placings(circles: list[Point], one: Point, two: Point) -> Iterator[Placing]:
    """Every way to put two circles on two places without much change of scale."""
    apart = hypot(two[0] - one[0], two[1] - one[1])
    for a, b in permutations(circles, 2):
        drawn = hypot(b[0] - a[0], b[1] - a[1])
        if drawn and abs(apart / drawn - 1) <= SCALED:
            yield _fitted([(a, one), (b, two)])


def _pairs(placing: Placing, circles: list[Point], holes: dict[str, Point]) -> list[tuple[Point, Point]]:
    """The circle of the drawing that comes to lie nearest to each hole, and the hole."""
    return [(min(circles, key=lambda circle, hole=hole: _off(placing, circle, hole)), hole) for hole in holes.values()]  # type: ignore[misc]


def _off(placing: Placing, circle: Point, hole: Point) -> float:
    """How far a circle comes to lie from a hole [mm]."""
    x, y = placing.point(*circle)
    return hypot(x - hole[0], y - hole[1])


def _fitted(pairs: list[tuple[Point, Point]]) -> Placing:
    """The move, turn and scale that carry points to others with the least squares [mm]."""
    count = len(pairs)
    (ax, ay), (bx, by) = (
        (fsum(pair[side][0] for pair in pairs) / count, fsum(pair[side][1] for pair in pairs) / count)
        for side in (0, 1)
    )
    moved = [((x - ax, y - ay), (u - bx, v - by)) for (x, y), (u, v) in pairs]
    along = fsum(x * u + y * v for (x, y), (u, v) in moved)
    across = fsum(x * v - y * u for (x, y), (u, v) in moved)
    bare = Placing(hypot(along, across) / fsum(x * x + y * y for (x, y), _ in moved), atan2(across, along), 0.0, 0.0)
    x, y = bare.point(ax, ay)
    return Placing(bare.scale, bare.turn, bx - x, by - y)
