"""What the bore's readings say of it, and how the ring presses in a bore so oval."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import ring_bore as relation
from parts.relations.ring_oval import FIGURES, pressed_in_oval, worst_of
from parts.sizing.ring_names import OWN, RING

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.relations.contact import Pressed

OVAL = "oval"
"""the asked form's curve in the bore as measured"""
NO_LIMITS = 0.0
READINGS = {
    f"{height}_{way}": f"job.engine.bore_readings.{n}.{m}"
    for n, height in enumerate(("top", "middle", "bottom"))
    for m, way in enumerate(("along", "across"))
}


def size_bore(book: Book, job: Job) -> None:
    """Add mean, taper and ovality of the bore's readings, where they are given."""
    if job.engine is None or job.engine.bore_readings is None:
        return
    book.add("ring.bore_mean", relation.mean_bore, **READINGS)
    book.add("ring.bore_taper", relation.taper, **READINGS)
    book.add("ring.bore_ovality", relation.ovality, **READINGS)
    book.add("ring.bore_lobe", relation.oval_lobe, ovality="ring.bore_ovality")
    book.add("ring.bore_over", relation.over_bore, mean="ring.bore_mean", bore="job.engine.bore")
    if job.ring is not None:
        given = {"slit": "job.ring.slit", "outside": "ring.outside_diameter"}
        book.add("ring.out_of_round.closed_gap", relation.gap_as_measured, mean="ring.bore_mean", **given)


def size_out_of_round(book: Book, job: Job) -> None:
    """Add how the ring presses in the bore as measured. Call it after ring, mandrel and bore are sized."""
    if not book.contact or "ring.bore_lobe" not in book or job.ring is None:
        return
    form = None if job.mandrel is None else job.mandrel.form
    ends_meet = any(n in book and book[n].value < 0 for n in ("ring.closed_gap", "ring.out_of_round.closed_gap"))
    bore = {"mean": "ring.bore_mean", "lobe": "ring.bore_lobe", "pressure": "ring.contact_pressure"}
    for figure in FIGURES:
        name = f"ring.out_of_round.{figure}"
        if form is None or ends_meet:
            book.lacks(name, "job.mandrel.form" if form is None else "ring.out_of_round.closed_gap")
        else:
            book.add(name, worst_of(form, figure), NO_LIMITS, **RING, **OWN[form], **bore)


def oval_curve(book: Book, job: Job) -> Pressed | None:
    """How the ring presses in the bore as measured, at the phase that leaves it least pressure."""
    if job.mandrel is None or "ring.out_of_round.light_gap" not in book:
        return None
    inputs = book["ring.out_of_round.light_gap"].inputs
    sizes = {argument: float(book.number(name)) for argument, name in inputs.items()}
    return min(pressed_in_oval(job.mandrel.form, sizes), key=lambda p: p.pressure_ratio_least)
