"""The contact solver: a ring opened on its form, set by heat and closed into its bore, with the contact found.

The ring is a thin bar that bends and does not stretch, on its mean line; walls push and do not pull, and do not rub.
`press` does all three stages; `open_on`, `set_by_heat` and `close_in` are the stages.
"""

from __future__ import annotations

from parts.relations.contact.closing import close_in, closed_gap, even_pressure
from parts.relations.contact.opening import gap_of, open_on, set_by_heat
from parts.relations.contact.shapes import (
    Blank,
    Bore,
    ContourForm,
    Form,
    Free,
    Lobe,
    Opened,
    PinForm,
    Pressed,
    RoundForm,
)

__all__ = [
    "Blank",
    "Bore",
    "ContourForm",
    "Form",
    "Free",
    "Lobe",
    "Opened",
    "PinForm",
    "Pressed",
    "RoundForm",
    "close_in",
    "closed_gap",
    "even_pressure",
    "gap_of",
    "open_on",
    "press",
    "set_by_heat",
]


def press(ring: Blank, form: Form, set_fraction: float, bore: Bore, nominal: float | None = None) -> Pressed:
    """Ring opened on a form, set by heat and closed into a bore.

    Parameters
    ----------
    ring : Blank
        Blank, split
    form : ContourForm, PinForm or RoundForm
        What held it open
    set_fraction : float
        Share of the opening that remains [1]
    bore : Bore
        Where it works
    nominal : float, optional
        Pressure to refer to [MPa]

    Returns
    -------
    pressed : Pressed
        How it presses

    Examples
    --------
    >>> pressed = press(Blank(57.2, 2.4, 2.38, 0.2, 100000), RoundForm(55.0), 0.95, Bore(57.2))
    >>> round(pressed.pressure_ratio_back, 2), round(pressed.pressure_ratio_least, 2)
    (1.42, 0.04)
    """
    return close_in(ring, set_by_heat(ring, open_on(ring, form), set_fraction), bore, nominal)
