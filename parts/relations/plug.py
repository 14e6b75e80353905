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
        Smallest hole: of H7, or of the reading's own tolerance [mm]

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


def least_interference(plug_min: float, hole_max: float) -> float:
    """Least interference of a press fit, as measured over the peaks of both faces.

    interference = plug_min - hole_max

    Parameters
    ----------
    plug_min : float
        Smallest plug [mm]
    hole_max : float
        Largest hole: of H7, or of the reading's own tolerance [mm]

    Returns
    -------
    interference : float
        On diameter; below 0 it may be loose [mm]

    Examples
    --------
    >>> round(least_interference(10.015, 10.015), 3)
    0.0

    References
    ----------
    .. [1] ISO 286-1.
    """
    return plug_min - hole_max


def smoothing(plug: float, hole: float) -> float:
    """What of an interference is lost as the peaks of both faces are pressed flat.

    loss = 0.8 * (plug + hole)

    Parameters
    ----------
    plug : float
        Roughness Rz of the plug [mm]
    hole : float
        Roughness Rz of the hole [mm]

    Returns
    -------
    loss : float
        On diameter [mm]

    Examples
    --------
    >>> round(smoothing(0.0063, 0.0063), 5)
    0.01008

    References
    ----------
    .. [1] DIN 7190-1: 0.8 of both roughnesses together (memory).
    """
    return 0.8 * (plug + hole)


def interference_left(least: float, loss: float) -> float:
    """Least interference that presses, after the peaks are flat.

    left = least - loss

    Parameters
    ----------
    least : float
        Least interference over the peaks [mm]
    loss : float
        By smoothing [mm]

    Returns
    -------
    left : float
        On diameter; below 0 the plug may be loose [mm]

    Examples
    --------
    >>> round(interference_left(0.013, 0.01008), 5)
    0.00292

    References
    ----------
    .. [1] DIN 7190-1 (memory).
    """
    return least - loss


def hole_end(diameter: float, deviation: float) -> float:
    """Limit of a hole by its reading's own tolerance.

    limit = diameter + deviation

    Parameters
    ----------
    diameter : float
        As measured [mm]
    deviation : float
        Half the width of the tolerance, below 0 for the lower limit [mm]

    Returns
    -------
    limit : float
        Diameter [mm]

    Examples
    --------
    >>> round(hole_end(8.5, -0.002), 3)
    8.498

    References
    ----------
    .. [1] The job file.
    """
    return diameter + deviation


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


def bond_gap_hot(clearance: float, growth: float) -> float:
    """Gap of a bond at its widest, where the hole grows more than the plug.

    gap = clearance - growth

    Parameters
    ----------
    clearance : float
        Cold, on diameter [mm]
    growth : float
        Least that plug and hole close up on each other by heat, below 0 where they part [mm]

    Returns
    -------
    gap : float
        On diameter [mm]

    Examples
    --------
    >>> round(bond_gap_hot(0.04, -0.012), 3)
    0.052

    References
    ----------
    .. [1] Thermal expansion.
    """
    return clearance - growth


def counterbore_diameter(shoulder: float, room: float) -> float:
    """Counterbore that a plug's shoulder drops into.

    diameter = shoulder + room

    Parameters
    ----------
    shoulder : float
        Diameter of the shoulder [mm]
    room : float
        On diameter [mm]

    Returns
    -------
    diameter : float
        Of the counterbore [mm]

    Examples
    --------
    >>> counterbore_diameter(12, 0.2)
    12.2

    References
    ----------
    .. [1] Plane geometry.
    """
    return shoulder + room


def counterbore_depth(thickness: float, skim: float) -> float:
    """Depth of that counterbore below the deck as it is before it is skimmed.

    depth = thickness + skim

    Parameters
    ----------
    thickness : float
        Of the shoulder, below the finished deck [mm]
    skim : float
        Still to come off the deck [mm]

    Returns
    -------
    depth : float
        Of the counterbore [mm]

    Examples
    --------
    >>> counterbore_depth(3, 0.12)
    3.12

    References
    ----------
    .. [1] Plane geometry.
    """
    return thickness + skim
