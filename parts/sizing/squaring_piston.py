"""The squaring piston: a slide fit in the bore with a stop on the deck, and the gap as it is felt there."""

from __future__ import annotations

from math import ceil, floor
from typing import TYPE_CHECKING

from parts.relations import fixture
from parts.relations import squaring_piston as relation
from parts.relations.mandrel import hole_size
from parts.relations.stud import as_given
from parts.tables import PRACTICE
from parts.units import INCH

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

PLAY, PISTON_HELD = 0.05, 0.01  # mm on diameter
STOP, RIM = 5.0, 8.0  # mm: thickness of the stop, and how much wider than the bore
HELD = 0.1  # mm either way, of what nothing fits to
SAME = 1e-6  # of a step of the feelers


def size(book: Book, _: Job) -> None:
    """Add its sizes, and the gap that feelers should find."""
    own = "squaring_piston."
    book.enter(f"{own}play", PLAY, "mm", "assumed", f"slides by its own weight: {PRACTICE}")
    book.enter(f"{own}over_bore", RIM, "mm", "assumed", f"of the stop beyond the bore, on diameter: {PRACTICE}")
    book.enter(f"{own}stop", STOP, "mm", "assumed", f"thickness of the stop: {PRACTICE}", spread=HELD)
    bore, given = "job.engine.bore", "job.squaring_piston.depth"
    book.add(f"{own}diameter", fixture.under, PISTON_HELD, size_of=bore, by=f"{own}play")
    book.add(f"{own}stop_diameter", fixture.over, HELD, size_of=bore, by=f"{own}over_bore")
    if given in book:
        book.add(f"{own}depth", as_given, HELD, length=given)
    else:
        book.add(f"{own}depth", relation.depth, HELD, bore=bore)
    book.add(f"{own}hole", hole_size, HELD, inside=bore)
    book.add(f"{own}tilt", relation.tilt, play=f"{own}play", bore=bore, length=f"{own}depth")
    _gap(book, own, bore)


def leaves(book: Book, job: Job) -> tuple[float, float]:
    """Feelers as they are sold, to 0.01 mm or a thou, that lie within go and not-go."""
    step = 0.01 if job.job.print_units == "metric" else INCH / 1000
    go, not_go = (book[f"squaring_piston.{n}"].value / step for n in ("go", "not_go"))
    return step * ceil(go - SAME), step * floor(not_go + SAME)


def _gap(book: Book, own: str, bore: str) -> None:
    """Add the gap where it is felt: in the bore as it is there, where that was measured."""
    readings = {f"{h}_{w}": f"job.engine.bore_readings.{n}.{m}" for n, h in enumerate(("top", "middle"))
                for m, w in enumerate(("along", "across"))}  # fmt: skip
    there: str = bore
    if book.has(*readings.values(), "job.engine.stroke"):
        there = f"{own}bore_there"
        book.add(f"{own}half_stroke", fixture.share_of, size_of="job.engine.stroke", part=0.5)
        book.add(there, relation.bore_there, **readings, depth=f"{own}depth", half=f"{own}half_stroke")
    gap = {"closed_gap": "ring.closed_gap"}
    book.add(f"{own}gap", relation.gap_there, **gap, there=there, bore=bore)
    book.add(f"{own}correction", relation.correction, gap=f"{own}gap", **gap)
    if "ring.closed_gap" in book:
        within = book.spread("ring.closed_gap")
        book.enter(f"{own}gap_within", within, "mm", "computed", "what the blank's limits leave of the closed gap")
        book.add(f"{own}go", fixture.under, size_of=f"{own}gap", by=f"{own}gap_within")
        book.add(f"{own}not_go", fixture.over, size_of=f"{own}gap", by=f"{own}gap_within")
