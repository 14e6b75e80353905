"""How a ring presses, opened and set in each of the ways, by the contact solver."""

from __future__ import annotations

from functools import lru_cache, wraps
from typing import TYPE_CHECKING

from parts.relations.contact import Blank, Bore, ContourForm, PinForm, Pressed, RoundForm, press
from parts.relations.contour import ring_law

if TYPE_CHECKING:
    from collections.abc import Callable


FIGURES = {  # the solver's figure -> word, unit, in words
    "pressure_ratio_back": ("ratio", "1", "mean pressure over the 10 degrees at the back / pressure"),
    "pressure_ratio_least": (
        "ratio",
        "1",
        "least mean pressure over any 10 degrees from the back to 170 degrees / pressure",
    ),
    "tip_force": ("force", "N", "what an end presses by itself, beyond the pressure beside it"),
    "light_gap": ("gap", "mm", "greatest gap between ring and bore"),
}
DECIMALS = 6  # the last digits of a solved figure may depend on the processor
KEPT = 64
WORDS = """{what}.

    {word} = {what}; the ring is {opened} and set, {links} links with one-sided contact, then closed into a true bore

    Returns
    -------
    {word} : float
        [{unit}]

    References
    ----------
    .. [1] Thin bar that bends and does not stretch, on walls that push and do not pull, solved numerically (derived).
    """
OPENED = {
    "contoured": "held open on the contour, its ends bound down to it,",
    "unbound": "held open on the contour, its ends left free,",
    "pin": "held open by a pin of open_gap at mid-thickness",
    "round": "held open on a round mandrel",
}


@lru_cache(KEPT)
def pressed_by_contour(
    bore: float,
    thickness: float,
    width: float,
    modulus: float,
    outside: float,
    slit: float,
    set_fraction: float,
    pressure: float,
    free_gap: float,
    closed_gap: float,
) -> Pressed:
    """Ring set on the contoured mandrel, its ends bound down to the seat, in a true bore.

    Parameters
    ----------
    bore : float
        Bore [mm]
    thickness, width : float
        Of the ring, radial and axial [mm]
    modulus : float
        Of the ring iron [MPa]
    outside : float
        Outside diameter of the blank [mm]
    slit : float
        Width of the saw [mm]
    set_fraction : float
        Share of the opening that remains [1]
    pressure : float
        Nominal, for the ratios [MPa]
    free_gap, closed_gap : float
        That the contour is made for, on the mean line [mm]

    Returns
    -------
    pressed : Pressed
        Pressure, light and forces round the bore

    Examples
    --------
    >>> even = pressed_by_contour(57.2, 2.4, 2.38, 1e5, 57.295493, 0.5, 0.95, 0.16985, 8.58, 0.2)
    >>> round(even.pressure_ratio_back, 2), round(even.pressure_ratio_least, 2)
    (1.0, 1.0)
    """
    ring = Blank(outside, thickness, width, slit, modulus)
    law = ring_law(bore, thickness, outside, free_gap, closed_gap, set_fraction)
    return press(ring, ContourForm(law, bound=True), set_fraction, Bore(bore), pressure)


@lru_cache(KEPT)
def pressed_by_contour_unbound(
    bore: float,
    thickness: float,
    width: float,
    modulus: float,
    outside: float,
    slit: float,
    set_fraction: float,
    pressure: float,
    free_gap: float,
    closed_gap: float,
) -> Pressed:
    """Ring set on the contoured mandrel with its ends left free, in a true bore.

    Parameters
    ----------
    bore : float
        Bore [mm]
    thickness, width : float
        Of the ring, radial and axial [mm]
    modulus : float
        Of the ring iron [MPa]
    outside : float
        Outside diameter of the blank [mm]
    slit : float
        Width of the saw [mm]
    set_fraction : float
        Share of the opening that remains [1]
    pressure : float
        Nominal, for the ratios [MPa]
    free_gap, closed_gap : float
        That the contour is made for, on the mean line [mm]

    Returns
    -------
    pressed : Pressed
        Pressure, light and forces round the bore

    Examples
    --------
    With a slit no wider than the closed gap it presses evenly, with a wider one its ends lift off the seat:

    >>> even = pressed_by_contour_unbound(57.2, 2.4, 2.38, 1e5, 57.2, 0.2, 0.95, 0.16985, 8.58, 0.2)
    >>> lifted = pressed_by_contour_unbound(57.2, 2.4, 2.38, 1e5, 57.295493, 0.5, 0.95, 0.16985, 8.58, 0.2)
    >>> round(even.pressure_ratio_least, 2), round(lifted.pressure_ratio_least, 2)
    (1.0, 0.0)
    """
    ring = Blank(outside, thickness, width, slit, modulus)
    law = ring_law(bore, thickness, outside, free_gap, closed_gap, set_fraction)
    return press(ring, ContourForm(law), set_fraction, Bore(bore), pressure)


@lru_cache(KEPT)
def pressed_by_pin(
    bore: float,
    thickness: float,
    width: float,
    modulus: float,
    outside: float,
    slit: float,
    set_fraction: float,
    pressure: float,
    open_gap: float,
) -> Pressed:
    """Ring set with a pin between its ends, in a true bore.

    Parameters
    ----------
    bore : float
        Bore [mm]
    thickness, width : float
        Of the ring, radial and axial [mm]
    modulus : float
        Of the ring iron [MPa]
    outside : float
        Outside diameter of the blank [mm]
    slit : float
        Width of the saw [mm]
    set_fraction : float
        Share of the opening that remains [1]
    pressure : float
        Nominal, for the ratios [MPa]
    open_gap : float
        That the pin holds, on the mean line [mm]

    Returns
    -------
    pressed : Pressed
        Pressure, light and forces round the bore

    Examples
    --------
    >>> pin = pressed_by_pin(57.2, 2.4, 2.38, 1e5, 57.2, 0.2, 0.95, 0.16985, 9.021)
    >>> round(pin.pressure_ratio_back, 2), round(pin.pressure_ratio_least, 2)
    (1.07, 0.94)
    """
    return press(Blank(outside, thickness, width, slit, modulus), PinForm(open_gap), set_fraction, Bore(bore), pressure)


@lru_cache(KEPT)
def pressed_by_round(
    bore: float,
    thickness: float,
    width: float,
    modulus: float,
    outside: float,
    slit: float,
    set_fraction: float,
    pressure: float,
    mandrel: float,
) -> Pressed:
    """Ring set on a plain round mandrel, in a true bore.

    Parameters
    ----------
    bore : float
        Bore [mm]
    thickness, width : float
        Of the ring, radial and axial [mm]
    modulus : float
        Of the ring iron [MPa]
    outside : float
        Outside diameter of the blank [mm]
    slit : float
        Width of the saw [mm]
    set_fraction : float
        Share of the opening that remains [1]
    pressure : float
        Nominal, for the ratios [MPa]
    mandrel : float
        Diameter [mm]

    Returns
    -------
    pressed : Pressed
        Pressure, light and forces round the bore

    Examples
    --------
    >>> poor = pressed_by_round(57.2, 2.4, 2.38, 1e5, 57.2, 0.2, 0.95, 0.16985, 55.115)
    >>> round(poor.pressure_ratio_back, 2), round(poor.pressure_ratio_least, 2)
    (1.42, 0.04)
    """
    return press(
        Blank(outside, thickness, width, slit, modulus), RoundForm(mandrel), set_fraction, Bore(bore), pressure
    )


PRESSED: dict[str, Callable[..., Pressed]] = {
    "contoured": pressed_by_contour,
    "unbound": pressed_by_contour_unbound,
    "pin": pressed_by_pin,
    "round": pressed_by_round,
}


@lru_cache(None)
def figure_of(form: str, figure: str) -> Callable[..., float]:
    """Give the relation for one figure of a ring opened in one way, with its own equation, unit and source.

    Parameters
    ----------
    form : str
        contoured, pin or round
    figure : str
        One of FIGURES

    Returns
    -------
    relation : callable
        Of the same inputs as the solver's, to the figure

    Examples
    --------
    >>> ratio = figure_of("pin", "pressure_ratio_back")
    >>> round(ratio(57.2, 2.4, 2.38, 1e5, 57.2, 0.2, 0.95, 0.16985, 9.021), 2)
    1.07
    """
    solve = PRESSED[form]
    word, unit, what = FIGURES[figure]

    @wraps(solve)
    def relation(*values: float, **inputs: float) -> float:
        return round(float(getattr(solve(*values, **inputs), figure)), DECIMALS)

    relation.__doc__ = WORDS.format(word=word, unit=unit, what=what, opened=OPENED[form], links=360)
    return relation
