"""What a small error does: a wrong blank, slit, thickness, modulus or mandrel, on gaps, tension and light.

The mandrel is made as designed and the ring a little off, or the other way round. Differences of the closed forms; the
contour's free gap is the ring's curvature along its length, integrated.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import ring_shape as shape
from parts.relations.mandrel import seat_cost, seat_held
from parts.relations.ring_errors import EFFECTS, ERRORS, change_of
from parts.sizing.ring_held import OPEN_HELD
from parts.sizing.ring_names import OWN, RING, SET

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

NO_LIMITS = 0.0
SIDES = {"contoured": 2.0, "round": 1.0}
"""form with a seat -> 2 where that is measured from its axis, 1 on its diameter"""


def size_sensitivities(book: Book, job: Job) -> None:
    """Add `ring.sensitivity.<cause>.<effect>` for the form that the job asks for; light where the blank is smaller."""
    if not book.contact or job.ring is None or job.mandrel is None:
        return
    form = job.mandrel.form
    for cause, (error, _, _) in ERRORS.items():
        for effect in EFFECTS:
            inputs: dict[str, str | float] = {**RING, **OWN[form], "error": error}
            book.add(f"ring.sensitivity.{cause}.{effect}", change_of(form, cause, effect), NO_LIMITS, **inputs)
    opened = {"free_gap": "ring.free_gap", "closed_gap": "ring.closed_gap"}
    error = ERRORS["blank"][0]
    book.add("ring.sensitivity.blank.light", shape.light_of_undersize, NO_LIMITS, under=error, **opened)
    if form in SIDES:
        cost: dict[str, str | float] = {"change": "ring.sensitivity.mandrel.free_gap", "error": ERRORS["mandrel"][0]}
        book.add("mandrel.seat_cost", seat_cost, NO_LIMITS, **cost, **SET, sides=SIDES[form])
        held: dict[str, str | float] = {"open_gap": "mandrel.open_gap", "share": OPEN_HELD}
        book.add("mandrel.seat_held", seat_held, NO_LIMITS, **held, cost="mandrel.seat_cost")
