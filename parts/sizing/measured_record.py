"""What was measured and fitted, as it stands in the book: patterns, residuals, and what the worst reading does."""

from __future__ import annotations

from math import atan2, degrees
from typing import TYPE_CHECKING

from parts.book import DECIMALS, Entry
from parts.relations.least_squares import SIGMAS
from parts.relations.measured import size
from parts.sizing.pattern_model import CALLIPER, SCALES
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job.measured_models import Reading
    from parts.sizing.measured import Found

SOURCE = f"Gauss: weighted least squares; that a tolerance is {SIGMAS:g} standard deviations is {PRACTICE}"
SUMS = "K. Pearson, chi-squared: the sum of squares of a normal scatter, 1 in 1000 by chance"
TEST = "W. Baarda, A testing procedure for use in geodetic networks, 1968 (memory)"
FORMULAS = {  # last word of the name -> formula, source
    "residual": ("as read - as fitted; of X and Y together how far", SOURCE),
    "off": ("as read - what the other readings say; of X and Y together how far", SOURCE),
    "misfit": ("how far off / what chance allows, 1 in 1000", TEST),
    "rms": ("root of the mean square of the residuals", SOURCE),
    "spare": ("numbers read - unknowns", SOURCE),
    "scatter": (
        "max(1, sqrt(sum of (residual / sigma)^2 / spare)), which widens all spreads",
        "R. T. Birge, The calculation of errors by the method of least squares, 1932 (memory)",
    ),
    "reading": ("number of the reading with the largest misfit", TEST),
    "moves": ("farthest that a hole moves when this reading is left out", SOURCE),
    "rest": ("largest misfit of the others, alone or together, when this reading is left out", TEST),
    "together": ("sqrt(sum of (residual / sigma)^2 / what chance allows, 1 in 1000)", SUMS),
    "as_points": ("largest misfit, alone or together, where the holes may lie anywhere", SUMS),
    "distance_off": ("distance of the farthest two on the scales - on the deck", "plane geometry"),
}
USUAL = {"callipers": CALLIPER, "scales": SCALES}


def enter_measured(book: Book, found: dict[str, Found]) -> None:
    """Put what was fitted into the book: pattern, residuals, and what the worst reading does."""
    for name, usual in USUAL.items():
        if any(_bare(given) == name for one in found.values() for given in one.given.readings):
            book.enter(f"measured.{name}", usual, "mm", "assumed", f"tolerance where none is given: {PRACTICE}")
    for name, one in found.items():
        base = f"measured.{name}"
        inputs = _inputs(one)
        for key, value in one.values.items():
            unit = "deg" if key in ("first", "turned") else "mm"
            enter_value(book, f"{base}.{key}", value, unit, inputs, one.spreads[key])
        if one.turn.status != "computed" and one.given.form != "points":
            key = "first" if one.given.form == "circle" else "turned"
            book.enter(
                f"{base}.{key}", one.values[key], "deg", one.turn.status, one.turn.source, spread=one.turn.spread
            )
        elif one.turn.status == "assumed":
            angle = degrees(atan2(one.values["hole.1.y"], one.values["hole.1.x"]))
            book.enter(f"{base}.first", round(angle, DECIMALS), "deg", "assumed", one.turn.source)
        if one.centred:
            for axis in "xy":
                book.enter(f"{base}.centre.{axis}", 0.0, "mm", "assumed", "no reading tells where the bore lies")
        _enter_readings(book, base, one, inputs)


def _bare(given: Reading) -> str:
    """Tell which usual tolerance a reading has that gives none."""
    if given.at is not None:
        return "scales" if not all(value.spread for value in given.at) else ""
    return "callipers" if given.reads is not None and not given.reads.spread else ""


def _inputs(found: Found) -> dict[str, str | float]:
    """Names of everything that the fit rests on."""
    base = f"job.measured.{found.name}"
    out: dict[str, str | float] = {}
    for number, one in enumerate(found.given.readings):
        keys = ["at.0", "at.1"] if one.at is not None else ["reads"]
        for key, end in zip(keys, ("", "") if len(keys) == 1 else ("_x", "_y"), strict=False):
            out[f"reading_{number + 1}{end}"] = f"{base}.readings.{number}.{key}"
    if any(one.kind in ("over", "between", "wall") for one in found.given.readings):
        out["diameter"] = f"{base}.diameter"
    if any(one.kind == "wall" for one in found.given.readings):
        out["wall"] = f"{base}.round_wall" if found.given.round_wall else "job.engine.bore"
    return out


def enter_value(
    book: Book, name: str, value: float, unit: str, inputs: dict[str, str | float], spread: float = 0.0
) -> None:
    """Put down a value that all readings together give."""
    least = "what makes the sum of (residual / sigma)^2 least; limits: two standard errors"
    word = name.rpartition(".")[2]
    formula, source = FORMULAS.get(word, (least, SOURCE))
    book[name] = Entry(
        round(value, DECIMALS) + 0.0, unit, "computed", source, f"{word} = {formula}", inputs, round(spread, DECIMALS)
    )


def _enter_readings(book: Book, base: str, found: Found, inputs: dict[str, str | float]) -> None:
    fit = found.fit
    for one in fit.told:
        name = f"{base}.reading.{one.number}"
        enter_value(book, f"{name}.residual", size(one.residual), "mm", inputs)
        if one.off is not None:
            enter_value(book, f"{name}.off", size(one.off), "mm", inputs)
            enter_value(book, f"{name}.misfit", one.misfit, "1", inputs)
    enter_value(book, f"{base}.rms", fit.rms, "mm", inputs)
    enter_value(book, f"{base}.scatter", fit.scatter, "1", inputs)
    enter_value(book, f"{base}.spare", fit.spare, "1", inputs)
    if fit.spare:
        enter_value(book, f"{base}.together", fit.misfit, "1", inputs)
    if found.as_points is not None:
        enter_value(book, f"{base}.as_points", found.as_points, "1", inputs)
    if fit.told[found.worst].off is not None:
        enter_value(book, f"{base}.worst.reading", found.worst + 1, "1", inputs)
    if found.moves is not None and found.rest is not None:
        enter_value(book, f"{base}.worst.moves", found.moves, "mm", inputs)
        enter_value(book, f"{base}.worst.rest", found.rest, "1", inputs)
