"""Where the deck lies on a machine's table: zero and turn of its scales from holes that were touched off."""

from __future__ import annotations

from itertools import combinations
from math import degrees, hypot, sqrt
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.relations import measured as relation
from parts.relations.least_squares import SIGMAS
from parts.relations.measured import size
from parts.relations.pattern_fit import Model, Place, Spot, fitted, frame_start
from parts.sizing.measured_record import enter_value
from parts.sizing.pattern_model import SCALES

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.fields import Measure

LEAST_APART = 1.0  # mm
KEY = "measured.machine.readings"
BASE = "measured.machine"


def size_machine(book: Book, job: Job) -> None:
    """Add zero, turn and residuals of the machine's scales, and what they read over each new hole."""
    machine = job.measured.machine if job.measured else None
    if machine is None:
        return
    names = [_place(book, touched.hole) for touched in machine.readings]
    if lacking := [n for n in names if n and f"{n}.x" not in book]:
        for size_name in ("x0", "y0", "turn"):
            book.lacks(f"{BASE}.{size_name}", *(f"{n}.x" for n in lacking))
        return
    spots = [
        Spot(
            n,
            n,
            float(t.at[0]),
            float(t.at[1]),
            *(_sigma(book, v, f"{name}.{k}") for v, k in zip(t.at, "xy", strict=True)),
        )
        for n, (t, name) in enumerate(zip(machine.readings, names, strict=True), 1)
    ]
    places = [(book[f"{n}.x"].value, book[f"{n}.y"].value) if n else (0.0, 0.0) for n in names]
    inputs: dict[str, str | float] = {}
    for number, name in enumerate(names):
        inputs |= {f"reading_{number + 1}_{k}": f"job.{KEY}.{number}.at.{i}" for i, k in enumerate("xy")}
        inputs |= {f"known_{number + 1}_{k}": f"{name}.{k}" for k in "xy"} if name else {}
    _enter_fit(book, spots, places, inputs)
    for number in book.numbers("deck.hole"):
        for axis, reads in (("x", relation.machine_x), ("y", relation.machine_y)):
            where = {k: f"deck.hole.{number}.{k}" for k in "xy"}
            book.add(f"{BASE}.hole.{number}.{axis}", reads, **where, zero=f"{BASE}.{axis}0", turned=f"{BASE}.turn")


def _sigma(book: Book, reading: Measure, known: str) -> float:
    """Standard deviation of a reading against a place that is itself not known exactly."""
    return hypot(reading.spread or SCALES, book.spread(known) if known in book else 0.0) / SIGMAS


def _place(book: Book, feature: str) -> str:
    """Name in the book of where a feature lies; none for the bore."""
    if feature == "bore":
        return ""
    kind, _, number = feature.partition(" ")
    name = f"deck.{'old' if kind == 'old' else 'hole'}.{number}"
    measured = f"measured.{kind}.hole.{number}"
    return measured if f"{name}.x" not in book and f"{measured}.x" in book else name


def _enter_fit(
    book: Book, spots: list[Spot], places: list[tuple[float, float]], inputs: dict[str, str | float]
) -> None:
    far = max(combinations(range(len(spots)), 2), key=lambda pair: hypot(*_way(places, *pair)))
    if (apart := hypot(*_way(places, *far))) < LEAST_APART:
        raise JobError(Fault(KEY, f"touches places that lie within {apart:.3f} mm: one farther off tells the turn"))
    reach = max(hypot(*place) for place in places)
    x, y, turn = frame_start([(p, (s.x, s.y)) for p, s in zip(places, spots, strict=True)])
    model = Model({n: Place(*p) for n, p in enumerate(places, 1)}, [x, y, turn * reach], 0, reach)
    fit = fitted(model, list(spots), KEY)
    spreads = [SIGMAS * fit.scatter * sqrt(fit.covariance[i][i]) for i in range(3)]
    enter_value(book, f"{BASE}.x0", fit.unknowns[0], "mm", inputs, spreads[0])
    enter_value(book, f"{BASE}.y0", fit.unknowns[1], "mm", inputs, spreads[1])
    enter_value(book, f"{BASE}.turn", degrees(fit.unknowns[2] / reach), "deg", inputs, degrees(spreads[2] / reach))
    for one in fit.told:
        enter_value(book, f"{BASE}.reading.{one.number}.residual", size(one.residual), "mm", inputs)
        if one.off is not None:
            enter_value(book, f"{BASE}.reading.{one.number}.off", size(one.off), "mm", inputs)
            enter_value(book, f"{BASE}.reading.{one.number}.misfit", one.misfit, "1", inputs)
    enter_value(book, f"{BASE}.rms", fit.rms, "mm", inputs)
    enter_value(book, f"{BASE}.together", fit.misfit, "1", inputs)
    read = hypot(*_way([(s.x, s.y) for s in spots], *far))
    enter_value(book, f"{BASE}.distance_off", read - apart, "mm", inputs)


def _way(places: list[tuple[float, float]], a: int, b: int) -> tuple[float, float]:
    return places[a][0] - places[b][0], places[a][1] - places[b][1]
