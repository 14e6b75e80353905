"""A ring held open for the heat on the mandrel that was made for another ring of the same bore."""

from __future__ import annotations

from functools import lru_cache, wraps
from typing import TYPE_CHECKING

from parts.relations.contact import (
    Blank,
    Bore,
    ContourForm,
    Form,
    Free,
    PinForm,
    Pressed,
    RoundForm,
    close_in,
    open_on,
    set_by_heat,
)
from parts.relations.contour import ring_law

if TYPE_CHECKING:
    from collections.abc import Callable

FIGURES = {  # figure -> word, unit, in words
    "free_gap": (
        "gap",
        "mm",
        "free gap on the mean line that the ring comes out with; its slit where it is not opened",
    ),
    "pressure_ratio_least": (
        "ratio",
        "1",
        "least mean pressure over any 10 degrees from the back to 170 degrees / pressure wanted; 0 where none is left",
    ),
    "light_gap": ("light", "mm", "greatest gap between ring and bore; 0 where it does not press at all"),
}
DECIMALS = 6  # the last digits of a solved figure may depend on the processor
KEPT = 64
WORDS = """{what}.

    {word} = {what}; the ring is held open on the other ring's {form} mandrel, set, and closed into a true bore

    Returns
    -------
    {word} : float
        [{unit}]

    References
    ----------
    .. [1] Thin bar that bends and does not stretch, on walls that push and do not pull, solved numerically (derived).
    """


def _contoured(
    bore: float, thickness: float, *, own_thickness: float, own_outside: float, own_free_gap: float,
    own_closed_gap: float, own_set_fraction: float,
) -> Form:  # fmt: skip
    """The other ring's contour, beside which the mean line of a thicker or thinner ring lies."""
    law = ring_law(bore, own_thickness, own_outside, own_free_gap, own_closed_gap, own_set_fraction)
    return ContourForm(law, bound=True, outside=(thickness - own_thickness) / 2)


def _pin(_bore: float, _thickness: float, *, open_gap: float) -> Form:
    """The other ring's pin."""
    return PinForm(open_gap)


def _round(_bore: float, _thickness: float, *, mandrel: float) -> Form:
    """The other ring's round mandrel."""
    return RoundForm(mandrel)


FORMS: dict[str, Callable[..., Form]] = {"contoured": _contoured, "pin": _pin, "round": _round}


@lru_cache(KEPT)
def _set(
    form: str, bore: float, ring: Blank, set_fraction: float, pressure: float, own: tuple[tuple[str, float], ...]
) -> tuple[Free | None, Pressed | None]:
    """The ring after the heat, and in the bore; None where it is not opened, or does not press."""
    try:
        free = set_by_heat(ring, open_on(ring, FORMS[form](bore, ring.thickness, **dict(own))), set_fraction)
    except ValueError:
        return None, None
    try:
        return free, close_in(ring, free, Bore(bore), pressure)
    except ValueError:
        return free, None


@lru_cache(None)
def on_mandrel_of(form: str, figure: str) -> Callable[..., float]:
    """Give the relation for one figure of a ring set on another ring's mandrel, with its own equation and source.

    Parameters
    ----------
    form : str
        contoured, pin or round
    figure : str
        One of FIGURES

    Returns
    -------
    relation : callable
        Of the ring's sizes, and those of the mandrel: of the contour what the other ring is made by

    Examples
    --------
    On a contour for a free gap of 8.58 mm, a ring that wants 8.4 mm comes out as that one would:

    >>> ring = dict(bore=57.2, thickness=2.4, width=2.38, modulus=1e5, outside=57.295493, slit=0.5, set_fraction=0.95)
    >>> top = dict(own_thickness=2.4, own_outside=57.295493, own_closed_gap=0.2, own_set_fraction=0.95)
    >>> round(on_mandrel_of("contoured", "free_gap")(**ring, **top, own_free_gap=8.58, pressure=0.166), 2)
    8.58
    """
    word, unit, what = FIGURES[figure]

    @wraps(FORMS[form])
    def relation(
        *, bore: float, thickness: float, width: float, modulus: float, outside: float, slit: float,
        set_fraction: float, pressure: float, **own: float,
    ) -> float:  # fmt: skip
        ring = Blank(outside, thickness, width, slit, modulus)
        free, pressed = _set(form, bore, ring, set_fraction, pressure, tuple(sorted(own.items())))
        if figure == "free_gap":
            return round(free.gap if free else slit, DECIMALS)
        return round(float(getattr(pressed, figure)), DECIMALS) if pressed else 0.0

    relation.__doc__ = WORDS.format(word=word, unit=unit, what=what, form=form)
    return relation
