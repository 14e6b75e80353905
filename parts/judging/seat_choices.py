"""The rules on how true a mandrel's seat is: as it is held, and made by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from parts.judging.finding import Finding
from parts.judging.rules import caution_of
from parts.relations.seat_arcs import COUNTS
from parts.sizing.ring_held import LEAST_PRESSURE
from parts.sizing.seat_arcs import HELD
from parts.units import INCH, printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job

SOLVED = "thin bar on one-sided walls, solved numerically (derived)"


def seat_held(book: Book, job: Job) -> Iterator[Finding]:
    """What a seat that is held so true leaves of the pressure on the wall."""
    names = ("mandrel.seat_error", "mandrel.seat_error_2", "mandrel.seat_error_3", "ring.at_limits.light_gap")
    if not book.has(*names, "job.mandrel.seat_within"):
        return
    within = book["job.mandrel.seat_within"].value
    held, six, two, three, light = (fine(v, job) for v in (within, *(book[n].value for n in names)))
    least = book["ring.at_limits.pressure_ratio_least"].value
    says = (
        f"The seat held true within {held} either way leaves {least:.2f} of the mean pressure where it is least, and "
        f"light of {light}: for {LEAST_PRESSURE:g} of it everywhere, waves of at most {two} with two lobes, {three} "
        f"with three, {six} with six. Light up to {fine(caution_of('ring.light_gap'), job)} closes as it runs in"
    )
    verdict = "caution" if within > book[names[0]].value else "ok"
    yield Finding(names[0], verdict, book[names[0]].value, within, "mm", says, SOLVED)


class ByHand(NamedTuple):
    """Ways to a contoured seat that need no CNC."""

    arcs: dict[int, float]
    """light that so many swung arcs leave [mm]"""
    fewest: int
    """of them that pass; 0: none"""
    steps: bool
    """whether steps filed to the sizes across pass"""


def ways_by_hand(book: Book) -> ByHand | None:
    """Which ways pass: the light that is left closes as the ring runs in. None where that was not solved."""
    if HELD not in book:
        return None
    closes, filed = caution_of("ring.light_gap"), book[HELD].value
    tried = {n: book[f"mandrel.arcs_{n}.light_gap"].value for n in COUNTS if f"mandrel.arcs_{n}.light_gap" in book}
    passes = [count for count, light in tried.items() if light + filed <= closes]
    return ByHand(tried, min(passes, default=0), filed <= closes)


def seat_by_hand(book: Book, job: Job) -> Iterator[Finding]:
    """The contoured seat without a machine that follows its outline: what each way leaves, by the solver."""
    if job.mandrel is None or job.mandrel.form != "contoured" or job.mandrel.purpose == "fit check":
        return
    if job.workshop is not None and job.workshop.cnc:
        return
    ways = ways_by_hand(book)
    if ways is None:
        return
    closes, filed = caution_of("ring.light_gap"), book[HELD].value
    within = fine(book["job.mandrel.seat_within"].value, job)
    arcs = "".join(f"{count} swung arcs leave light of {fine(light, job)}; " for count, light in ways.arcs.items())
    taken = f"take {ways.fewest} arcs, or steps" if ways.fewest else "steps pass, arcs do not" if ways.steps else ""
    says = (
        f"Without a CNC: {arcs}a seat held within {within} either way adds {fine(filed, job)}, by arcs as by steps "
        f"on a rotary table filed to the sizes across; up to {fine(closes, job)} closes as it runs in, so "
        f"{taken or 'no way by hand is true enough'}. {_pin_instead(book, job)}"
    )
    yield Finding("mandrel.by_hand", "ok" if taken else "caution", filed, closes, "mm", says, SOLVED)


def _pin_instead(book: Book, job: Job) -> str:
    """What the pin form, which needs no contour, costs in its place."""
    told = "The pin form needs no contour"
    for name, saw in (("pin", "with this saw"), ("fine_saw", "with a saw as wide as the gap")):
        names = [f"ring.{name}.{n}" for n in ("light_gap", "tip_force", "pressure_ratio_least")]
        if book.has(*names):
            light, force, least = (book[n].value for n in names)
            tips = printed(force, "N", job.job.print_units)
            told += (
                f"; {saw} it leaves light of {fine(light, job)}, {least:.2f} of the mean pressure, {tips} on each end"
            )
    return f"{told}. It costs a trial: a ring that sets more where it is stressed more comes out sharp at the back"


def fine(length: float, job: Job) -> str:
    """Print a length too small for the sheets' last place.

    >>> from types import SimpleNamespace as Of
    >>> fine(0.00024, Of(job=Of(print_units="metric"))), fine(0.0254, Of(job=Of(print_units="inch")))
    ('0.24 um', '1 thou')
    """
    return f"{1000 * length:.3g} um" if job.job.print_units == "metric" else f"{1000 * length / INCH:.3g} thou"


SEAT_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("ring", seat_held),
    ("ring", seat_by_hand),
]
