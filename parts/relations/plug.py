"""Blanking plug: size for its fit, what its bond holds and what the gas pushes. Lengths in mm, forces in N."""

from __future__ import annotations

from math import pi


def bonded_diameter(hole: float, clearance: float) -> float:
    """Diameter of a bonded plug.

    diameter = hole - clearance

    Parameters
    ----------
    hole : float
        Diameter of the hole [mm]
    clearance : float
        On diameter, for the compound [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(bonded_diameter(8.5, 0.04), 2)
    8.46

    References
    ----------
    .. [1] ISO 10123: a pin in a collar with a gap.
    """
    return hole - clearance


def middle(high: float, low: float) -> float:
    """Middle of two limits.

    size = (high + low) / 2

    Parameters
    ----------
    high : float
        Upper limit [mm]
    low : float
        Lower limit [mm]

    Returns
    -------
    size : float
        To aim for [mm]

    Examples
    --------
    >>> round(middle(10.024, 10.015), 4)
    10.0195

    References
    ----------
    .. [1] The middle of the tolerance.
    """
    return (high + low) / 2


def greatest_interference(plug_max: float, hole: float) -> float:
    """Greatest interference of a press fit.

    interference = plug_max - hole

    Parameters
    ----------
    plug_max : float
        Largest plug [mm]
    hole : float
        Smallest H7 hole: its nominal diameter [mm]

    Returns
    -------
    interference : float
        On diameter [mm]

    Examples
    --------
    >>> round(greatest_interference(10.024, 10), 3)
    0.024

    References
    ----------
    .. [1] ISO 286-1.
    """
    return plug_max - hole


def least_interference(plug_min: float, hole: float, hole_tolerance: float) -> float:
    """Least interference of a press fit.

    interference = plug_min - hole - hole_tolerance

    Parameters
    ----------
    plug_min : float
        Smallest plug [mm]
    hole : float
        Nominal diameter of the H7 hole [mm]
    hole_tolerance : float
        IT7 [mm]

    Returns
    -------
    interference : float
        On diameter; below 0 it may be loose [mm]

    Examples
    --------
    >>> round(least_interference(10.015, 10, 0.015), 3)
    0.0

    References
    ----------
    .. [1] ISO 286-1.
    """
    return plug_min - hole - hole_tolerance


def whole_length(below: float, proud: float) -> float:
    """Plug as made, with what is faced off with the deck.

    length = below + proud

    Parameters
    ----------
    below : float
        Below the deck face [mm]
    proud : float
        Above it, faced off in one setting with the deck [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(whole_length(12, 0.3), 1)
    12.3

    References
    ----------
    .. [1] Plane geometry.
    """
    return below + proud


def hold_force(strength: float, diameter: float, length: float) -> float:
    """Force that shears the bond of a plug, without safety.

    force = strength * pi * diameter * length

    Parameters
    ----------
    strength : float
        Shear strength of the compound, hot [MPa]
    diameter : float
        Of the plug [mm]
    length : float
        Bonded length [mm]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    The specimen of the standard, 12.7 by 11.1, has 442.9 mm^2:

    >>> round(hold_force(1, 12.7, 11.1), 1)
    442.9

    References
    ----------
    .. [1] ISO 10123: shear strength is force over pi d L.
    """
    return strength * pi * diameter * length


def gas_force(diameter: float, pressure: float) -> float:
    """Force of the gas on a plug's face.

    force = pi / 4 * diameter^2 * pressure

    Parameters
    ----------
    diameter : float
        Of the passage [mm]
    pressure : float
        Peak pressure, if it gets past the gasket [MPa]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    >>> round(gas_force(12, 5), 1)
    565.5

    References
    ----------
    .. [1] Pressure times area.
    """
    return pi / 4 * diameter**2 * pressure


def hold_safety(hold: float, gas: float) -> float:
    """How many times over the bond holds against the gas.

    safety = hold / gas

    Parameters
    ----------
    hold : float
        Force that shears the bond [N]
    gas : float
        Force of the gas [N]

    Returns
    -------
    safety : float
        Before any loss by heat, gap or surface [1]

    Examples
    --------
    >>> round(hold_safety(3827.2, 215.6), 1)
    17.8

    References
    ----------
    .. [1] Ratio of the two forces.
    """
    return hold / gas
