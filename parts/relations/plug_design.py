"""The plug that is designed: how long it has to be. Lengths in mm."""

from __future__ import annotations

from math import ceil, pi


def length_to_hold(
    times: float, heat: float, gap: float, surface: float, gas: float, strength: float, diameter: float
) -> float:
    """Length of a bonded plug that holds the gas this many times over, its safeties taken off.

    length = times * heat * gap * surface * gas / (strength * pi * diameter)

    Parameters
    ----------
    times : float
        Bond over gas force [1]
    heat : float
        Safety for heat [1]
    gap : float
        Safety for the gap [1]
    surface : float
        Safety for the surface [1]
    gas : float
        Gas force on the plug [N]
    strength : float
        Shear strength of the bond, hot [MPa]
    diameter : float
        Of the plug [mm]

    Returns
    -------
    length : float
        Below the deck [mm]

    Examples
    --------
    >>> round(length_to_hold(2.0, 1.5, 1.25, 1.5, 215.6, 12.0, 8.46), 2)
    3.8

    References
    ----------
    .. [1] ISO 10123 for the bond, solved for its length; the safeties are common practice, no source.
    """
    return times * heat * gap * surface * gas / (strength * pi * diameter)


def long_enough(hole: float, hold: float) -> float:
    """Length of a plug, in steps of 0.5 mm.

    length = ceil(2 * max(hole, hold)) / 2

    Parameters
    ----------
    hole : float
        Length that guides it in its hole [mm]
    hold : float
        Length that holds it [mm]

    Returns
    -------
    length : float
        Below the deck [mm]

    Examples
    --------
    >>> long_enough(12.75, 3.8), long_enough(12.75, 14.1)
    (13.0, 14.5)

    References
    ----------
    .. [1] One and a half diameters, or what holds: common practice, no source.
    """
    return ceil(2 * max(hole, hold)) / 2


def no_deeper(length: float, depth: float) -> float:
    """Length of a plug that ends in its passage.

    below = min(length, depth)

    Parameters
    ----------
    length : float
        Wanted below the deck [mm]
    depth : float
        Of the passage [mm]

    Returns
    -------
    below : float
        Below the deck [mm]

    Examples
    --------
    >>> no_deeper(13.0, 18.0), no_deeper(13.0, 9.0)
    (13.0, 9.0)

    References
    ----------
    .. [1] Geometry; of what is wanted, as much as there is room for.
    """
    return min(length, depth)
