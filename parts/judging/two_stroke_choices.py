"""The rules on choices about a two-stroke's ports and rings, and about a liner; all of them in TWO_STROKE_CHOICES."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.finding import Finding
from parts.tables import PRACTICE
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job


def ports_given(_: Book, job: Job) -> Iterator[Finding]:
    """What a two-stroke compresses, and what its rings run over, is told by its ports alone."""
    if job.engine is None or job.engine.cycle != "two-stroke" or job.engine.ports:
        return
    says = (
        "not judged: what the piston compresses, and whether rings and ports suit each other; measure each port, its "
        "two angles from +X and its top and bottom below the deck, and give [[engine.ports]]"
    )
    yield Finding("engine.ports", "caution", None, None, "1", says, PRACTICE)


def ring_is_pegged(_: Book, job: Job) -> Iterator[Finding]:
    """A two-stroke's ring is held by a peg, or its ends find a port."""
    if job.engine is None or job.engine.cycle != "two-stroke" or job.ring is None or job.ring.peg is not None:
        return
    says = (
        "not judged: whether the ring's ends run over a port; give peg, the angle from +X of the peg in the piston's "
        "groove: a ring that may turn, or whose ends meet a port, breaks"
    )
    yield Finding("ring.peg", "caution", None, None, "1", says, PRACTICE)


def timing_after_the_skim(book: Book, job: Job) -> Iterator[Finding]:
    """A skim moves the deck, not the ports against the piston."""
    if job.engine is None or not job.engine.ports or "compression.trapped_stroke" not in book:
        return
    left = printed(book["compression.trapped_stroke"].value, "mm", job.job.print_units)
    says = (
        f"The skim leaves the timing as it is, {left} of the stroke are compressed; ports measured from the skimmed "
        "deck read less by the skim, and only a gasket under the barrel moves them"
    )
    yield Finding("port.timing", "ok", None, None, "1", says, "geometry")


def liner_is_tight(_: Book, job: Job) -> Iterator[Finding]:
    """A liner of another metal than its barrel may come loose when hot."""
    liner = job.barrel.liner if job.barrel else None
    if liner is None or liner.interference is not None:
        return
    says = (
        "not judged: whether the liner stays tight when hot; give its interference, from the maker's sheet, or from "
        "its outside and its seat as measured when it was fitted"
    )
    yield Finding("liner.interference", "caution", None, None, "1", says, PRACTICE)


TWO_STROKE_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("", ports_given),
    ("ring", ring_is_pegged),
    ("", timing_after_the_skim),
    ("", liner_is_tight),
]
