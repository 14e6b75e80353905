"""The hoop of wire that holds a ring's ends in on the contoured seat, where the saw is wider than the gap.

Such a blank is turned over the bore, so near its ends the seat is sharper than the ring by itself: left free the ends
stand off it. Wire wound round the ring and twisted at the back crosses the gap straight and so pulls both ends in, and
lies on the ring as a pressure besides; between, over a few mm, the ring bends as these two bend it. Lengths in mm,
forces in N.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil, degrees, exp, pi, sin
from typing import TYPE_CHECKING

from parts.relations.contact import Bore, Opened, close_in, set_by_heat
from parts.relations.contact.opening import curvature_of, gap_of
from parts.relations.contact.shapes import LINKS
from parts.relations.ring_forms import law_of, ring_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from parts.relations.contact import Pressed

DECIMALS, KEPT = 6, 16
FIGURES = {  # the solver's figure -> word, unit, in words
    "pressure_ratio_least": ("ratio", "1", "Least mean pressure over any 10 degrees, over pressure"),
    "tip_force": ("force", "N", "What an end presses by itself, beyond the pressure beside it"),
    "light_gap": ("gap", "mm", "Greatest gap between ring and bore"),
}
WORDS = """{start}, set on the contour with a hoop of wire round it.

    {word} = of a ring that lies on the contour but for its ends, which pull * sin(lean) and a pressure of
        2 * pull / outside along the ring bend towards it; set by the heat; one-sided contact in a true bore

    Returns
    -------
    {word} : float
        [{unit}]

    References
    ----------
    .. [1] Thin bar that bends and does not stretch, on walls that push and do not pull, solved numerically (derived).
    """


def hoop_length(turns: float, flange: float) -> float:
    """Wire to cut for a hoop: so often round the mandrel's flange, and what is twisted.

    length = 10 * ceil((turns * pi * flange + 100) / 10)

    Parameters
    ----------
    turns : float
        Times round the ring [1]
    flange : float
        Diameter of the mandrel's flange, which reaches beyond the opened rings [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> hoop_length(2.0, 73.8)
    570

    References
    ----------
    .. [1] Common practice, no source.
    """
    return 10 * ceil((turns * pi * flange + 100) / 10)


def hoop_wrap(
    tip_length: float, radius: float, parameter: float, outside: float, thickness: float, set_fraction: float
) -> float:
    """Angle that the wire lies on the ring, from its twist at the back to an end.

    wrap = 2 * tip_length / (outside - thickness) + (tip_length / radius * (1 - parameter)
        - parameter * sin(tip_length / radius) - 2 * tip_length / (outside - thickness)) / set_fraction

    Parameters
    ----------
    tip_length : float
        Half length of the ring on its mean line [mm]
    radius : float
        Mean radius in the bore [mm]
    parameter : float
        Ring parameter K, of exactly the free gap [1]
    outside : float
        Outside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]
    set_fraction : float
        Share of the opening that remains [1]

    Returns
    -------
    wrap : float
        By as much less than pi each end leans [rad]

    Examples
    --------
    >>> round(hoop_wrap(85.98, 27.4, 0.0316571, 57.2955, 2.4, 0.95), 3)
    3.034

    References
    ----------
    .. [1] Curvature of the contoured seat, integrated from the back to the end (derived).
    """
    blank = 2 * tip_length / (outside - thickness)
    free = tip_length / radius * (1 - parameter) - parameter * sin(tip_length / radius)
    return blank + (free - blank) / set_fraction


def hoop_pull(turns: float, wire: float, strength: float, share: float, friction: float, wrap: float) -> float:
    """Pull that a hoop twisted to its yield keeps at the ring's ends in the oven, of all its turns.

    Of two turns each crosses the gap once, as far from one end of the twist as the other from the other.

    pull = turns * pi / 4 * wire^2 * strength * share * exp(-friction * wrap)

    Parameters
    ----------
    turns : float
        Times round the ring, one or two [1]
    wire : float
        Diameter of the wire [mm]
    strength : float
        Yield strength of the wire, cold [MPa]
    share : float
        Of it that is left at the heat [1]
    friction : float
        Of wire on ring [1]
    wrap : float
        Angle from the twist to an end [rad]

    Returns
    -------
    pull : float
        Along the wire [N]

    Examples
    --------
    >>> round(hoop_pull(2.0, 0.8, 180.0, 0.15, 0.3, 3.034), 1)
    10.9

    References
    ----------
    .. [1] Belt friction, Shigley, Mechanical Engineering Design, chapter on flexible elements.
    """
    return turns * pi / 4 * wire**2 * strength * share * exp(-friction * wrap)


def hooped(pull: float, pressure: float, sizes: Mapping[str, float]) -> Pressed:
    """Ring set on the contour with a hoop round it, in a true bore.

    Parameters
    ----------
    pull : float
        Of the wire, at the ring's ends [N]
    pressure : float
        Nominal, for the ratios [MPa]
    sizes : mapping
        Of ring and contour, by the solver's names

    Returns
    -------
    pressed : Pressed
        Pressure, light and forces round the bore
    """
    return _hooped(pull, pressure, tuple(sorted(sizes.items())))


@lru_cache(KEPT)
def _hooped(pull: float, pressure: float, given: tuple[tuple[str, float], ...]) -> Pressed:
    sizes = dict(given)
    ring = ring_of(sizes)
    free = set_by_heat(ring, held_by_hoop(pull, sizes), sizes["set_fraction"])
    return close_in(ring, free, Bore(sizes["bore"]), pressure)


def held_by_hoop(pull: float, sizes: Mapping[str, float]) -> Opened:
    """Ring on the contour, its ends bent towards it as far as a hoop bends them; no pull: as they stand by themselves.

    Parameters
    ----------
    pull : float
        Of the wire, at the ring's ends [N]
    sizes : mapping
        Of ring and contour, by the solver's names

    Returns
    -------
    opened : Opened
        Its curvature; the seat's forces are not worked out
    """
    law, ring = law_of(sizes), ring_of(sizes)
    arc = tuple(n * ring.half / LINKS for n in range(LINKS + 1))
    curvature = [curvature_of(law, s) for s in arc]
    inward, along = pull * sin(pi - law.direction(ring.half)), 2 * pull / ring.outside
    for n in range(LINKS, -1, -1):
        over = ring.half - arc[n]
        bent = 1 / ring.radius + (inward * over + along * over**2 / 2) / ring.stiffness
        if bent >= curvature[n]:
            break
        curvature[n] = bent
    zone = (0.0, degrees(arc[n] / ring.radius))
    return Opened(arc, tuple(curvature), (0.0,) * len(arc), 0.0, (zone,), gap_of(ring, curvature), "hoop")


@lru_cache(None)
def hooped_figure(figure: str) -> Callable[..., float]:
    """Give the relation for one figure of a ring set with a hoop round it.

    >>> sizes = {"bore": 57.2, "outside": 57.295493, "thickness": 2.4, "width": 2.38, "slit": 0.5, "modulus": 1e5}
    >>> set_on = {"free_gap": 8.58, "closed_gap": 0.2, "set_fraction": 0.95, "pressure": 0.169584}
    >>> figures = [hooped_figure(n) for n in ("pressure_ratio_least", "tip_force")]
    >>> [round(figure(pull=10.9, **sizes, **set_on), 2) for figure in figures]
    [1.0, 1.93]
    """
    word, unit, start = FIGURES[figure]

    def relation(pull: float, pressure: float, **sizes: float) -> float:
        return round(float(getattr(hooped(pull, pressure, sizes), figure)), DECIMALS)

    relation.__doc__ = WORDS.format(start=start, word=word, unit=unit)
    return relation
