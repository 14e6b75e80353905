"""How the ring presses with seat, blank and slit at their limits, and what its seat may miss."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import JobError
from parts.relations.ring_limits import FIGURES, WORST, allowed_of, worst_of
from parts.sizing.ring_design import BLANK_HELD
from parts.sizing.ring_held import LEAST_PRESSURE, SLIT_UNDER
from parts.sizing.ring_names import OWN, RING

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job

NO_LIMITS = 0.0
FORMS = ("contoured", "pin", "round")
JUDGED = ("pressure_ratio_least", "light_gap")
ERRORS = {"mandrel.seat_error": 6, "mandrel.seat_error_2": 2, "mandrel.seat_error_3": 3}
"""what the seat may miss: of all waves those of six lobes least; an oval, and three lobes as a chuck leaves them"""


def size_ring_limits(book: Book, job: Job) -> None:
    """Add how the ring presses at its limits: `ring.at_limits.` by the asked form, `ring.<form>.at_limits.` by each.

    Call it after ring and mandrel are sized.
    """
    if not book.contact:
        return
    form = None if job.mandrel is None else job.mandrel.form
    if form is None or (book.has("ring.closed_gap") and book["ring.closed_gap"].value < 0):
        for figure in FIGURES:
            book.lacks(f"ring.at_limits.{figure}", "job.mandrel.form" if form is None else "ring.closed_gap")
        return
    wide: dict[str, str | float] = {
        "seat": "job.mandrel.seat_within",
        "held": BLANK_HELD,
        "under": SLIT_UNDER,
        "pressure": "ring.contact_pressure",
    }
    for figure in FIGURES:
        _add(book, f"ring.at_limits.{figure}", worst_of(form, figure), {**RING, **OWN[form], **wide})
    for other in FORMS:
        for figure in JUDGED:
            relation = worst_of(other, figure, WORST[other])
            _add(book, f"ring.{other}.at_limits.{figure}", relation, {**RING, **OWN[other], **wide})
    _seat(book, form)


def _seat(book: Book, form: str) -> None:
    if form == "pin":  # nothing lies on a seat
        return
    even: dict[str, str | float] = {"wanted": LEAST_PRESSURE, "pressure": "ring.contact_pressure"}
    for name, lobes in ERRORS.items():
        _add(book, name, allowed_of(form, lobes), {**RING, **OWN[form], **even})


def _add(book: Book, name: str, relation: Callable[..., float], inputs: dict[str, str | float]) -> None:
    """Add a size, or leave it out where the ring is opened by less than its limits: then its pressure is judged."""
    try:
        book.add(name, relation, NO_LIMITS, **inputs)
    except JobError:
        book.lacks(name, "job.ring.free_gap")
