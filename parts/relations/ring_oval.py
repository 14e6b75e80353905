"""How a ring presses in a bore as oval as it was measured."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from parts.relations.contact import Bore, Lobe, Pressed, close_in
from parts.relations.ring_forms import free_ring, ring_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


PHASES = (0.0, 45.0, 90.0)
"""of the oval's crest from the ring's back [deg]"""
FIGURES: dict[str, tuple[str, str, str, Callable[..., float]]] = {
    "light_gap": ("gap", "mm", "greatest gap between ring and bore", max),
    "pressure_ratio_least": (
        "ratio",
        "1",
        "least mean pressure over any 10 degrees from the back to 170 degrees / pressure",
        min,
    ),
}
DECIMALS = 6
KEPT = 16
WORDS = """{what}, in the bore as measured.

    {word} = {what}; solved with one-sided contact in a bore of the measured mean with a lobe of order 2, the worst of
        the ring's back at its crest, half way and at its trough

    Returns
    -------
    {word} : float
        [{unit}]

    References
    ----------
    .. [1] Thin bar that bends and does not stretch, on walls that push and do not pull, solved numerically (derived).
    """


def pressed_in_oval(form: str, sizes: Mapping[str, float]) -> list[Pressed]:
    """Ring set on a form and closed into an oval bore, its gap at each of the phases.

    Parameters
    ----------
    form : str
        contoured, pin or round
    sizes : mapping
        Of ring and form, by the solver's names; `mean` and `lobe` of the bore [mm], nominal `pressure` [MPa]

    Returns
    -------
    pressed : list of Pressed
        One for each of PHASES

    Examples
    --------
    >>> ring = {"outside": 57.2, "thickness": 2.4, "width": 2.38, "slit": 0.2, "modulus": 1e5, "open_gap": 9.021}
    >>> oval = pressed_in_oval("pin", {**ring, "set_fraction": 0.95, "mean": 57.2, "lobe": 0.005, "pressure": 0.17})
    >>> max(p.light_gap for p in oval) < 0.001
    True
    """
    return _pressed(form, tuple(sorted(sizes.items())))


@lru_cache(KEPT)
def _pressed(form: str, given: tuple[tuple[str, float], ...]) -> list[Pressed]:
    sizes = dict(given)
    mean, lobe, pressure = (sizes.pop(n) for n in ("mean", "lobe", "pressure"))
    ring, free = ring_of(sizes), free_ring(form, sizes)
    bores = (Bore(mean, (Lobe(2, lobe, phase),)) for phase in PHASES)
    return [close_in(ring, free, bore, pressure) for bore in bores]


@lru_cache(None)
def worst_of(form: str, figure: str) -> Callable[..., float]:
    """Give the relation for the worst of one figure over the phases.

    >>> worst_of("pin", "light_gap").__doc__.partition(".")[0]
    'Greatest gap between ring and bore, in the bore as measured'
    """
    word, unit, what, worst = FIGURES[figure]

    def relation(**sizes: float) -> float:
        return round(worst(float(getattr(p, figure)) for p in pressed_in_oval(form, sizes)), DECIMALS)

    relation.__doc__ = WORDS.format(word=word, unit=unit, what=what).replace(what, what[0].upper() + what[1:], 1)
    return relation
