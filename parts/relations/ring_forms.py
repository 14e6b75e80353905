"""The ring and what holds it open for the heat, put together for the contact solver from sizes by their names."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from parts.relations.contact import Blank, ContourForm, Form, Free, PinForm, RoundForm, open_on, set_by_heat
from parts.relations.contour import ring_law

if TYPE_CHECKING:
    from collections.abc import Mapping

    from parts.relations.contour import Law

KEPT = 64
EVEN = "even"
"""no form: the ring that presses evenly"""


def ring_of(sizes: Mapping[str, float]) -> Blank:
    """Return the split blank.

    >>> ring_of({"outside": 57.2, "thickness": 2.4, "width": 2.38, "slit": 0.2, "modulus": 1e5}).slit
    0.2
    """
    return Blank(*(sizes[n] for n in ("outside", "thickness", "width", "slit", "modulus")))


def form_of(form: str, sizes: Mapping[str, float]) -> Form:
    """Return what holds the ring open: its own sizes, and for the contour those that it was designed by.

    >>> form_of("pin", {"open_gap": 9.0})
    PinForm(gap=9.0)
    """
    if form == "pin":
        return PinForm(sizes["open_gap"])
    if form == "round":
        return RoundForm(sizes["mandrel"])
    return ContourForm(law_of(sizes), bound=True)


def law_of(sizes: Mapping[str, float]) -> Law:
    """Return the curve of the contoured form; of the evenly pressing ring itself where no share of it is set."""
    by = {n: sizes[n] for n in ("bore", "thickness", "outside", "free_gap", "closed_gap")}
    return ring_law(**by, set_fraction=sizes.get("set_fraction", 1.0))


def free_ring(form: str, sizes: Mapping[str, float]) -> Free:
    """Return the ring after the heat, by itself.

    >>> sizes = {"outside": 57.2, "thickness": 2.4, "width": 2.38, "slit": 0.2, "modulus": 1e5}
    >>> round(free_ring("pin", {**sizes, "open_gap": 9.0, "set_fraction": 0.95}).gap, 2)
    8.55
    """
    return _free(form, tuple(sorted(sizes.items())))


@lru_cache(KEPT)
def _free(form: str, given: tuple[tuple[str, float], ...]) -> Free:
    sizes = dict(given)
    ring = ring_of(sizes)
    return set_by_heat(ring, open_on(ring, form_of(form, sizes)), sizes.get("set_fraction", 1.0))
