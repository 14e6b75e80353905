"""The contoured seat by hand: of swung arcs, how many it takes until the light closes as the ring runs in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations.mandrel import open_gap
from parts.relations.ring_contact import figure_of
from parts.relations.seat_arcs import COUNTS, FIGURES, arc_table, swung_figure
from parts.sizing.ring_held import CLOSES
from parts.sizing.ring_names import OWN, RING, SET

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

NO_LIMITS = 0.0
HELD = "ring.at_limits.light_gap"
PRESSURE = {"pressure": "ring.contact_pressure"}


def size_seat_arcs(book: Book, job: Job) -> None:
    """Add how the ring presses on a seat of 3, 5, 7 arcs and so on, up to the first whose light closes; those arcs.

    Where the seat, as it is held, leaves more light by itself, no arcs are laid: none of them would pass.
    """
    if not book.contact or job.mandrel is None or job.mandrel.form != "contoured" or "mandrel.profile" not in book:
        return
    _fine_saw(book)
    if HELD not in book or book[HELD].value > CLOSES:
        return
    shape = {**RING, **OWN["contoured"]}
    for count in COUNTS:
        name = f"mandrel.arcs_{count}"
        for figure in FIGURES:
            book.add(f"{name}.{figure}", swung_figure(count, figure), NO_LIMITS, **shape, **PRESSURE)
        if f"{name}.light_gap" in book and book[f"{name}.light_gap"].value <= CLOSES:
            why = f"the fewest whose light, at most {CLOSES:g} mm, closes as the ring runs in"
            book.enter("mandrel.arcs", count, "1", "computed", why)
            book.add("mandrel.arc_table", arc_table, NO_LIMITS, count="mandrel.arcs", **shape)
            break


def _fine_saw(book: Book) -> None:
    """Add how the ring presses by the pin where the saw is no wider than the gap, the blank as large as the bore."""
    saw = {"slit": "ring.closed_gap", **SET}
    book.add("ring.fine_saw.open_gap", open_gap, free_gap="job.ring.free_gap", **saw)
    own = {**RING, **saw, **PRESSURE, "outside": "job.engine.bore", "open_gap": "ring.fine_saw.open_gap"}
    for figure in ("pressure_ratio_least", "tip_force", "light_gap"):
        book.add(f"ring.fine_saw.{figure}", figure_of("pin", figure), NO_LIMITS, **own)
