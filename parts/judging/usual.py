"""What no engine has, or few: by the table of usual ranges, with the slip of the pen that would explain it."""

from __future__ import annotations

import re
from fnmatch import translate
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from parts.judging.finding import WORST, Finding
from parts.tables import PRACTICE
from parts.tables.read import table
from parts.units import INCH, printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from parts.book import Book
    from parts.job import Job

POINT = "is the decimal point in its place"
SLIPS: dict[str, tuple[tuple[float, str], ...]] = {  # kind -> what the value would have to be taken times, and the slip
    "length": (
        (0.1, POINT),
        (10.0, POINT),
        (2.0, "is it a radius, where a diameter is asked for"),
        (INCH, "is it in inches"),
        (1 / INCH, "is it in millimetres"),
        (0.5, "is it a diameter, where a radius is asked for, or twice the length"),
        (0.01, POINT),
        (100.0, POINT),
    ),
    "volume": (
        (0.1, POINT),
        (10.0, POINT),
        (1e3, "is it in cm^3"),
        (1e-3, "is it in mm^3"),
        (INCH**3 / 1e3, "is it in in^3"),
    ),
    "pressure": ((10.0, POINT), (0.1, POINT), (14.504, "is it in bar, not psi"), (1 / 14.504, "is it in psi, not bar")),
}
FREEZING, DEGREE = 32.0, 1.8
KEPT = 128  # of many variants most have the same sizes


class Usual(NamedTuple):
    """A row of the table; an end that is open is None."""

    what: str
    kind: str
    of: str
    bounds: tuple[float | None, ...]
    """least, low, high, most"""


def usual_values(book: Book, job: Job) -> Iterator[Finding]:
    """Every value outside what engines of its kind have; one that rests on such a value is not told again."""
    odd: dict[str, Finding] = {}
    for name, row in _rows(tuple(book), job.engine.cycle if job.engine else None):
        if row.of and row.of not in book:
            continue
        others = [other for other in odd if other != name]
        if others and any(book.rests_on(n, others) for n in (row.of or name, name)):
            continue
        scale = book[row.of].value if row.of else 1.0
        bounds = tuple(None if bound is None else bound * scale for bound in row.bounds)
        found = _outside(book, job, name, row, bounds)
        if found is not None and (name not in odd or WORST[found.verdict] > WORST[odd[name].verdict]):
            odd[name] = found
    yield from odd.values()


@lru_cache(KEPT)
def _rows(names: tuple[str, ...], cycle: str | None) -> list[tuple[str, Usual]]:
    """Names of the book with the row that each falls under."""
    found, known = [], set(names)
    for cells in table("usual_ranges").rows:
        own = cells["key"] if cells["key"].startswith("compression.") else f"job.{cells['key']}"
        bounds = tuple(float(cells[end]) if cells[end] else None for end in ("least", "low", "high", "most"))
        row = Usual(cells["what"], cells["kind"], cells["of"], bounds)
        if cells["cycle"] in ("", cycle):
            some = filter(re.compile(translate(own)).match, names) if "*" in own else known & {own}
            found += [(name, row) for name in some]
    return found


def _outside(book: Book, job: Job, name: str, row: Usual, bounds: Sequence[float | None]) -> Finding | None:
    """The finding on a value outside its usual range."""
    value, unit = float(book[name].value), book[name].unit
    least, low, high, most = bounds
    below, above = low is not None and value < low, high is not None and value > high
    if not below and not above:
        return None
    never = (least is not None and value < least) or (most is not None and value > most)
    bound = (least if never else low) if below else (most if never else high)
    have = "no engine has" if never else "few engines have"
    ends = " to ".join(_printed(end, unit, job) for end in (low, high) if end is not None)
    ends = ends if None not in (low, high) else f"{'at least' if high is None else 'at most'} {ends}"
    says = f"{row.what}, {name.removeprefix('job.')}: {_printed(value, unit, job)} is what {have}, usual is {ends}"
    slip = _slip(value, row.kind, low, high)
    says += (
        f"; probably {_printed(slip[0], unit, job)}: {slip[1]}?" if slip else ": look at it and at what it goes with"
    )
    return Finding(
        f"usual.{name.removeprefix('job.')}", "stop" if never else "caution", value, bound, unit, says, PRACTICE
    )


def _printed(value: float, unit: str, job: Job) -> str:
    return f"{value:.3g}" if unit == "1" else printed(value, unit, job.job.print_units)


def _slip(value: float, kind: str, low: float | None, high: float | None) -> tuple[float, str] | None:
    """What the value would be without the likeliest slip, and that slip."""
    tries = [(value * times, slip) for times, slip in SLIPS.get(kind, ())]
    if kind == "temperature":
        tries = [((value - FREEZING) / DEGREE, "is it in degF"), (value * DEGREE + FREEZING, "is it in degC")]
    return next((t for t in tries if (low is None or t[0] >= low) and (high is None or t[0] <= high)), None)


USUAL_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [("", usual_values)]
