"""The free ring by callipers, and how it lies in its groove."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import ring_shape as relation
from parts.relations.ring_forms import EVEN
from parts.relations.ring_width import width_of
from parts.sizing.ring_names import OWN, RING

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

LEAST, EVENLY, MOST = 0.34, 0.38, 0.41
"""shape numbers: under it a round mandrel's ring; that presses evenly; over it too sharp at the back"""
NO_LIMITS = 0.0


def size_ring_shape(book: Book, job: Job) -> None:
    """Add what callipers read on a good free ring, where it is to be solved; its limits; its place in its groove."""
    if job.ring is None:
        return
    gaps = {"bore": "job.engine.bore", "free_gap": "ring.free_gap", "closed_gap": "ring.closed_gap"}
    if book.contact:
        form = EVEN if job.mandrel is None else job.mandrel.form
        book.add("ring.free_width", width_of(form), NO_LIMITS, **RING, **OWN[form])
        book.add("ring.shape_number", relation.shape_number, NO_LIMITS, width="ring.free_width", **gaps)
        book.add("ring.free_width_right", width_of(EVEN), NO_LIMITS, **RING, **OWN[EVEN])
    for name, number in (("least", LEAST), ("most", MOST)):
        book.add(f"ring.free_width_{name}", relation.width_for, NO_LIMITS, number=number, **gaps)
    outside = {"bore": "job.engine.bore", "outside": "ring.outside_diameter"}
    book.add("ring.under_size", relation.under_size, **outside)
    opened = {"free_gap": "ring.free_gap", "closed_gap": "ring.closed_gap"}
    book.add("ring.under_size_light", relation.light_of_undersize, NO_LIMITS, under="ring.under_size", **opened)
    _in_the_groove(book)


def _in_the_groove(book: Book) -> None:
    piston, thickness = "job.ring.piston_diameter", "job.ring.radial_thickness"
    root = "job.ring.groove.root_diameter"
    book.add("ring.under_land", relation.under_land, piston=piston, root=root, thickness=thickness)
    book.add("ring.piston_play", relation.piston_play, bore="job.engine.bore", piston=piston)
    book.add("ring.above_land", relation.above_land, bore="job.engine.bore", piston=piston)
    book.add("ring.held_share", relation.held_share, bore="job.engine.bore", piston=piston, thickness=thickness)


def size_mandrel_growth(book: Book, job: Job) -> None:
    """Add the gap that a mandrel of an unlike material opens or closes in the oven."""
    if job.mandrel is None:
        return
    heat = {
        "mandrel_expansion": "mandrel.expansion",
        "ring_expansion": "ring.expansion",
        "temperature": "job.ring.heat_set.temperature",
    }
    if job.mandrel.purpose == "fit check":
        return
    if job.mandrel.form == "round":
        book.add("mandrel.growth", relation.growth_on_round, mandrel="mandrel.diameter", **heat)
    elif job.mandrel.form == "pin":
        book.add("mandrel.growth", relation.growth_of_pin, open_gap="mandrel.open_gap", **heat)
    else:
        blank = {"outside": "ring.outside_diameter", "thickness": "job.ring.radial_thickness"}
        book.add("mandrel.growth", relation.growth_on_contour, **blank, **heat)
