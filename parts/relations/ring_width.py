"""How wide a ring stands free, by the shape that each way of opening it leaves."""

from __future__ import annotations

from functools import lru_cache
from math import cos
from typing import TYPE_CHECKING

from parts.relations.contact.opening import chord
from parts.relations.ring_forms import EVEN, free_ring, ring_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.relations.contact import Blank, Free

DECIMALS = 6
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


def across(ring: Blank, free: Free) -> float:
    """Free width of a ring over its outside, at right angles to the gap.

    width = 2 * greatest height of its mean line over the gap's direction + thickness

    Parameters
    ----------
    ring : Blank
        Blank, split
    free : Free
        After the heat

    Returns
    -------
    width : float
        What callipers read [mm]

    Examples
    --------
    >>> from parts.relations.contact import Blank, PinForm, open_on, set_by_heat
    >>> ring = Blank(57.2, 2.4, 2.38, 0.2, 100000)
    >>> round(across(ring, set_by_heat(ring, open_on(ring, PinForm(9.0)), 0.95)), 1)
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
