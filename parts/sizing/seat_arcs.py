"""The contoured seat by hand: of swung arcs, how many it takes until the light closes as the ring runs in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations.seat_arcs import COUNTS, FIGURES, arc_table, swung_figure
from parts.sizing.ring_held import CLOSES
from parts.sizing.ring_names import OWN, RING

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

NO_LIMITS = 0.0


def size_seat_arcs(book: Book, job: Job) -> None:
    """Add how the ring presses on a seat of 3, 5, 7 arcs and so on, up to the first whose light closes; those arcs."""
    if not book.contact or job.mandrel is None or job.mandrel.form != "contoured" or "mandrel.profile" not in book:
        return
    shape: dict[str, str | float] = {**RING, **OWN["contoured"]}
    for count in COUNTS:
        name = f"mandrel.arcs_{count}"
        for figure in FIGURES:
            book.add(
                f"{name}.{figure}", swung_figure(count, figure), NO_LIMITS, **shape, pressure="ring.contact_pressure"
            )
        if f"{name}.light_gap" in book and book[f"{name}.light_gap"].value <= CLOSES:
            why = f"the fewest whose light, at most {CLOSES:g} mm, closes as the ring runs in"
            book.enter("mandrel.arcs", count, "1", "computed", why)
            book.add("mandrel.arc_table", arc_table, NO_LIMITS, count="mandrel.arcs", **shape)
            return
