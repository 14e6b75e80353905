"""The free ring by callipers, and how it lies in its groove."""

from __future__ import annotations

from functools import lru_cache
from math import cos
from typing import TYPE_CHECKING

from parts.sizing import ring_shape_relations as relation
from parts.sizing.contact.opening import chord
from parts.sizing.ring_forms import EVEN, OWN, RING, free_ring, ring_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job
    from parts.sizing.contact import Free, Ring

LEAST, MOST = 0.34, 0.41
"""shape numbers: under it a round mandrel's ring, over it too sharp at the back; 0.38 to 0.39 presses evenly"""
DECIMALS = 6
NO_LIMITS = 0.0
WORDS = """Free width of the ring, {what}.

    width = widest of the ring's outside at right angles to the gap, {what}

    Returns
    -------
    width : float
        [mm]

    References
    ----------
    .. [1] Shape of the thin bar after the heat, from its curvature along its length (derived).
    """
SET_ON = {
    "contoured": "set on the contoured mandrel, its ends bound down",
    "pin": "set with a pin between its ends",
    "round": "set on a plain round mandrel",
    EVEN: "of the shape that presses evenly",
}


def across(ring: Ring, free: Free) -> float:
    """Free width of a ring over its outside, at right angles to the gap.

    width = 2 * greatest height of its mean line over the gap's direction + thickness

    Parameters
    ----------
    ring : Ring
        Blank, split
    free : Free
        After the heat

    Returns
    -------
    width : float
        What callipers read [mm]

    Examples
    --------
    >>> from parts.sizing.contact import Pin, Ring, open_on, set_by_heat
    >>> ring = Ring(57.2, 2.4, 2.38, 0.2, 100000)
    >>> round(across(ring, set_by_heat(ring, open_on(ring, Pin(9.0)), 0.95)), 1)
    60.4
    """
    step = free.arc[1]
    link, turn, height, highest = chord(ring, step), -free.curvature[0] * step / 2, 0.0, 0.0
    for k in free.curvature[:-1]:
        turn += k * step
        height += link * cos(turn)
        highest = max(highest, height)
    return 2 * highest + ring.thickness


@lru_cache(None)
def width_of(form: str) -> Callable[..., float]:
    """Give the relation for the free width of a ring set in one way.

    >>> sizes = {"bore": 57.2, "outside": 57.2, "thickness": 2.4, "width": 2.38, "slit": 0.2, "modulus": 1e5}
    >>> round(width_of("even")(**sizes, free_gap=8.58, closed_gap=0.2), 1)
    60.4
    """

    def relation(**sizes: float) -> float:
        return round(across(ring_of(sizes), free_ring(form, sizes)), DECIMALS)

    relation.__doc__ = WORDS.format(what=SET_ON[form])
    return relation


def size_ring_shape(book: Book, job: Job, *, solved: bool = True) -> None:
    """Add what callipers read on a good free ring, where it is to be solved; its limits; its place in its groove."""
    if job.ring is None:
        return
    gaps = {"bore": "job.engine.bore", "free_gap": "ring.free_gap", "closed_gap": "ring.closed_gap"}
    if solved:
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
