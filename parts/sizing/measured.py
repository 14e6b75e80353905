"""Hole patterns from readings at the bench: fitted, told in the book, and used where the job gives no pattern."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import atan2, cos, degrees, fsum, hypot, radians, sin, sqrt
from typing import TYPE_CHECKING

from parts.book import DECIMALS
from parts.errors import Fault, JobError
from parts.job.fields import Measure
from parts.job.measured_models import AS_READ, FittedPattern
from parts.job.models import Head
from parts.relations.least_squares import SIGMAS, rank
from parts.relations.pattern_fit import NO_FIT, Fit, Span, blocks, fitted
from parts.sizing.pattern_model import as_points, model_of, readings_of, refuse_what_is_open

if TYPE_CHECKING:
    from parts.job import Job
    from parts.job.measured_models import MeasuredPattern
    from parts.job.models import Pattern
    from parts.relations.pattern_fit import Reading

LEAST = 0.01  # mm, of a pattern
STEP = 1e-4  # mm and deg, for slopes; the values bend by 1/30 of a mm at the most


@dataclass(frozen=True, slots=True)
class Turn:
    """How a pattern's turn is known."""

    value: float | None
    """deg; None: as read on the scales"""
    spread: float
    status: str
    source: str


@dataclass(frozen=True, slots=True)
class Found:
    """A pattern as fitted."""

    name: str
    """old or new"""
    given: MeasuredPattern
    fit: Fit
    turn: Turn
    values: dict[str, float]
    """of circle or sides, centre, turn, holes [mm, deg]"""
    spreads: dict[str, float]
    centred: bool
    """no reading tells where the bore lies: taken at the centre"""
    moves: float | None = None
    """how far the worst reading moves a hole [mm]; None where the others alone leave the pattern open"""
    rest: float | None = None
    """largest misfit of the others once it is left out"""
    as_points: float | None = None
    """largest misfit where the holes may lie anywhere; None where the form fits, or the readings leave points open"""

    @property
    def off_centre(self) -> bool:
        """Tell whether the bore lies off the pattern's centre by more than the readings leave open."""
        v, s = self.values, self.spreads
        return "centre.x" in v and hypot(v["centre.x"], v["centre.y"]) > hypot(s["centre.x"], s["centre.y"])

    @property
    def worst(self) -> int:
        """Place in the list of the reading that fits least, the first of equals on every processor."""
        return max(range(len(self.fit.told)), key=lambda i: round(self.fit.told[i].misfit, 6))


def fit_measured(job: Job) -> dict[str, Found]:
    """Fit each pattern that was measured.

    Raises
    ------
    JobError
        Readings that leave a pattern open, with those that are lacking; or that contradict each other.
    """
    found: dict[str, Found] = {}
    faults: list[Fault] = []
    for name in ("old", "new") if job.measured else ():
        try:
            if pattern := getattr(job.measured, name):
                found[name] = _found(job, name, pattern)
        except JobError as error:
            faults += error.faults
    if faults:
        raise JobError(*faults)
    return found


def _found(job: Job, name: str, pattern: MeasuredPattern) -> Found:
    key = f"measured.{name}.readings"
    wall = pattern.round_wall or (job.engine.bore if job.engine else None)
    readings = readings_of(pattern, float(wall or 0.0))
    model = model_of(pattern, readings)
    refuse_what_is_open(key, pattern, model, readings)
    fit = fitted(model, readings, key)
    turn = _turn(pattern, given_pattern(job, name))
    shared = {"diameter": pattern.diameter.spread if pattern.diameter else 0.0, "wall": wall.spread if wall else 0.0}
    values = values_of(pattern, fit, turn)
    if any(values.get(name, LEAST) < LEAST for name in ("circle", "side_x", "side_y")):
        raise JobError(Fault(key, f"contradict each other: {NO_FIT}"))
    spreads = _spreads(pattern, fit, turn, readings, shared)
    centred = not model.points["bore"].by_x
    bare = Found(name, pattern, fit, turn, values, spreads, centred)
    return _without_worst(_as_points(bare, readings, key), readings, key)


def _as_points(found: Found, readings: list[Reading], key: str) -> Found:
    """Fit readings that contradict each other in their form once more, the holes anywhere."""
    if found.fit.misfit <= 1 or found.given.form == "points":
        return found
    model = as_points(found.given, readings, found.fit.model, found.fit.unknowns)
    rows = [row for block in blocks(model, readings, model.start) for row in block]
    if len(rows) == len(model.start) or rank(rows, len(model.start)) < len(model.start):
        return found
    try:
        return replace(found, as_points=fitted(model, readings, key).worst)
    except JobError:
        return found


def _without_worst(found: Found, readings: list[Reading], key: str) -> Found:
    """Fit once more without the reading that fits least, and see what it did."""
    worst, model = found.fit.told[found.worst], found.fit.model
    left = [r for r in readings if r.number != worst.number]
    rows = [row for block in blocks(model, left, found.fit.unknowns) for row in block]
    if worst.off is None or rank(rows, len(model.start)) < len(model.start):
        return found
    try:
        others = fitted(model, left, key)
    except JobError:
        return found
    after = values_of(found.given, others, found.turn)
    holes = range(1, found.given.holes + 1)
    ways = [hypot(*(after[f"hole.{n}.{k}"] - found.values[f"hole.{n}.{k}"] for k in "xy")) for n in holes]
    return replace(found, moves=max(ways), rest=others.worst)


def given_pattern(job: Job, name: str) -> Pattern | None:
    """Return the pattern that the job itself gives."""
    if name == "new":
        return job.head.holes if job.head else None
    return job.old.pattern if job.old else None


def _turn(pattern: MeasuredPattern, given: Pattern | None) -> Turn:
    if pattern.turned == AS_READ:
        return Turn(None, 0.0, "computed", "the part was set square to the machine")
    if isinstance(pattern.turned, Measure):
        return Turn(float(pattern.turned), pattern.turned.spread, "given", "job file")
    known = (given.first if pattern.form == "circle" else given.turned) if given else None
    if known is not None:
        return Turn(float(known), known.spread, "given", "the pattern that the job gives: the readings don't tell it")
    if pattern.form == "points" and given and given.points:
        x, y = given.points[0]
        return Turn(degrees(atan2(y, x)), 0.0, "given", "hole 1 of the pattern that the job gives")
    says = "no reading tells the turn: of a rectangle or circle 0, of points as sketched or as the scales lie"
    return Turn(None if pattern.form == "points" else 0.0, 0.0, "assumed", says)


def values_of(pattern: MeasuredPattern, fit: Fit, turn: Turn) -> dict[str, float]:
    """Return circle or sides, centre, turn and holes on the deck, by name [mm, deg]."""
    model, unknowns = fit.model, fit.unknowns
    x0, y0 = model.points["bore"].at(unknowns)
    turned = _turned(pattern, fit, turn)
    c, s = cos(radians(turned)), sin(radians(turned))

    def on_deck(x: float, y: float) -> tuple[float, float]:
        return c * (x - x0) - s * (y - y0), s * (x - x0) + c * (y - y0)

    out: dict[str, float] = {}
    if pattern.form == "circle":
        out["circle"] = unknowns[0]
    elif pattern.form == "rectangle":
        out["side_x"], out["side_y"] = unknowns[:2]
    if pattern.form != "points" and model.points["bore"].by_x:
        out["centre.x"], out["centre.y"] = on_deck(0.0, 0.0)
    if pattern.form != "points":
        out["first" if pattern.form == "circle" else "turned"] = turned
    for number in range(1, pattern.holes + 1):
        out[f"hole.{number}.x"], out[f"hole.{number}.y"] = on_deck(*model.points[number].at(unknowns))
    return out


def _turned(pattern: MeasuredPattern, fit: Fit, turn: Turn) -> float:
    """Turn of the pattern's own frame against the deck [deg]."""
    model, unknowns = fit.model, fit.unknowns
    if turn.value is None:
        as_read = turn.status == "computed" or pattern.roughly is None
        return degrees(unknowns[model.frame + 2] / model.reach) if as_read and model.frame is not None else 0.0
    if pattern.form != "points":
        return turn.value
    (x, y), (x0, y0) = model.points[1].at(unknowns), model.points["bore"].at(unknowns)
    return turn.value - degrees(atan2(y - y0, x - x0))


def _spreads(
    pattern: MeasuredPattern, fit: Fit, turn: Turn, readings: list[Reading], shared: dict[str, float]
) -> dict[str, float]:
    """Two standard errors of each value: from the readings, from what they share, and from the turn that is given."""
    parts = dict.fromkeys(values_of(pattern, fit, turn), 0.0)
    slopes = [
        _slopes(
            pattern, turn, replace(fit, unknowns=_moved(fit, i, STEP)), replace(fit, unknowns=_moved(fit, i, -STEP))
        )
        for i in range(len(fit.unknowns))
    ]
    for name in parts:
        g = [slope[name] for slope in slopes]
        parts[name] = fit.scatter**2 * fsum(
            a * b * v for a, line in zip(g, fit.covariance, strict=True) for b, v in zip(g, line, strict=True)
        )
    for common, spread in shared.items():
        moved = _moved_by(fit, readings, common) if spread else []
        for name in parts if spread else ():
            parts[name] += (fsum(s[name] * m for s, m in zip(slopes, moved, strict=True)) * spread / SIGMAS) ** 2
    if turn.value is not None and turn.spread:
        up, down = (replace(turn, value=turn.value + d) for d in (STEP, -STEP))
        for name, slope in _difference(values_of(pattern, fit, up), values_of(pattern, fit, down)).items():
            parts[name] += (slope * turn.spread / SIGMAS) ** 2
    return {name: SIGMAS * sqrt(max(square, 0.0)) for name, square in parts.items()}


def _moved(fit: Fit, which: int, step: float) -> list[float]:
    return [u + step * (i == which) for i, u in enumerate(fit.unknowns)]


def _slopes(pattern: MeasuredPattern, turn: Turn, up: Fit, down: Fit) -> dict[str, float]:
    return _difference(values_of(pattern, up, turn), values_of(pattern, down, turn))


def _difference(up: dict[str, float], down: dict[str, float]) -> dict[str, float]:
    """Slope of each value; a turn that passes 180 degrees between the two is no jump."""
    return {
        name: ((value - down[name] + 180) % 360 - 180 if name in ("first", "turned") else value - down[name])
        / (2 * STEP)
        for name, value in up.items()
    }


def _moved_by(fit: Fit, readings: list[Reading], common: str) -> list[float]:
    """By how much the unknowns follow a size that several readings rest on."""
    right = [0.0] * len(fit.unknowns)
    for one, block in zip(readings, blocks(fit.model, readings, fit.unknowns), strict=True):
        follows = one.follows.get(common, 0.0) if isinstance(one, Span) else 0.0
        for i, slope in block[0].slopes.items():
            right[i] += slope * follows / block[0].sigma ** 2
    return [fsum(a * b for a, b in zip(line, right, strict=True)) for line in fit.covariance]


def with_measured(job: Job, found: dict[str, Found]) -> Job:
    """Return the job with the fitted patterns where it gives none."""
    new, old = found.get("new"), found.get("old")
    if new and given_pattern(job, "new") is None:
        head = job.head or Head()
        job = job.model_copy(update={"head": head.model_copy(update={"holes": as_pattern(new)})})
    barrel = job.barrel
    if old and barrel and job.old and job.old.pattern is None:
        holes = job.old.model_copy(update={"pattern": as_pattern(old)})
        job = job.model_copy(update={"barrel": barrel.model_copy(update={"old_holes": holes})})
    return job


def as_pattern(found: Found) -> FittedPattern:
    """Return the fitted pattern as a job file has it; by points where the bore lies off its centre."""

    def measure(name: str, unit: str = "mm") -> Measure:
        value, spread = round(found.values[name], DECIMALS), round(found.spreads[name], DECIMALS)
        return Measure(value, unit, spread, f"{value:.3f} {unit}")

    form = found.given.form
    if form == "points" or found.off_centre:
        holes = range(1, found.given.holes + 1)
        return FittedPattern.model_construct(points=[[measure(f"hole.{n}.x"), measure(f"hole.{n}.y")] for n in holes])
    if form == "circle":
        return FittedPattern.model_construct(
            circle=measure("circle"), count=found.given.holes, first=measure("first", "deg")
        )
    return FittedPattern.model_construct(
        rectangle=[measure("side_x"), measure("side_y")], turned=measure("turned", "deg")
    )
