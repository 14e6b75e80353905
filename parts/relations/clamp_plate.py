"""The clamp plate: flat on the stack of rings on the mandrel, drawn up by a bolt through both. Lengths in mm."""

from __future__ import annotations

from math import ceil


def plate_diameter(flange: float) -> float:
    """Diameter of the plate: no less than the mandrel's flange, so that it covers the opened rings all round.

    diameter = ceil(flange)

    Parameters
    ----------
    flange : float
        Diameter of the mandrel's flange, which reaches beyond the opened rings [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> plate_diameter(73.8)
    74

    References
    ----------
    .. [1] Common practice, no source.
    """
    return ceil(flange)


def plate_thickness(flange: float) -> float:
    """Thickness of the plate: as stiff as the flange it faces, for its own flatness keeps the rings flat.

    thickness = ceil(2 * flange) / 2

    Parameters
    ----------
    flange : float
        Thickness of the mandrel's flange [mm]

    Returns
    -------
    thickness : float
        Thickness [mm]

    Examples
    --------
    >>> plate_thickness(6.56)
    7.0

    References
    ----------
    .. [1] Common practice, no source.
    """
    return ceil(2 * flange) / 2


def grip(flange: float, stack: float, thickness: float, washers: float) -> float:
    """What the bolt holds together: flange, rings, plate, and a washer under head and nut.

    grip = flange + stack + thickness + 2 * washers

    Parameters
    ----------
    flange : float
        Thickness of the mandrel's flange [mm]
    stack : float
        Height of the rings [mm]
    thickness : float
        Of the plate [mm]
    washers : float
        Thickness of a washer [mm]

    Returns
    -------
    grip : float
        Length [mm]

    Examples
    --------
    >>> round(grip(6.56, 7.14, 6.56, 1.6), 2)
    23.46

    References
    ----------
    .. [1] Plane geometry.
    """
    return flange + stack + thickness + 2 * washers


def bolt_length(grip: float, nut: float, pitch: float) -> float:
    """Least length of the bolt under its head, with two threads beyond the nut.

    length = grip + nut + 2 * pitch

    Parameters
    ----------
    grip : float
        What it holds together [mm]
    nut : float
        Greatest height of the nut [mm]
    pitch : float
        Pitch [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(bolt_length(23.46, 6.8, 1.25), 2)
    32.76

    References
    ----------
    .. [1] Two threads beyond the nut: common practice, no source.
    """
    return grip + nut + 2 * pitch


def hot_slack(
    flange: float,
    stack: float,
    thickness: float,
    mandrel_expansion: float,
    ring_expansion: float,
    plate_expansion: float,
    bolt_expansion: float,
    temperature: float,
) -> float:
    """How much longer the bolt grows in the oven than what it holds: over 0 it hangs loose, below it is pulled.

    slack = ((flange + stack + thickness) * bolt_expansion - flange * mandrel_expansion - stack * ring_expansion
        - thickness * plate_expansion) * (temperature - 20)

    Parameters
    ----------
    flange : float
        Thickness of the mandrel's flange [mm]
    stack : float
        Height of the rings [mm]
    thickness : float
        Of the plate [mm]
    mandrel_expansion : float
        Of the mandrel [1/K]
    ring_expansion : float
        Of the rings [1/K]
    plate_expansion : float
        Of the plate [1/K]
    bolt_expansion : float
        Of the bolt [1/K]
    temperature : float
        Of the oven [degC]

    Returns
    -------
    slack : float
        Length [mm]

    Examples
    --------
    >>> round(hot_slack(6.56, 7.14, 7.0, 1.13e-5, 1.1e-5, 1.13e-5, 1.13e-5, 600.0), 4)
    0.0012

    References
    ----------
    .. [1] Thermal expansion of each layer from 20 degC; the washers are of the bolt's own steel.
    """
    held = flange * mandrel_expansion + stack * ring_expansion + thickness * plate_expansion
    return ((flange + stack + thickness) * bolt_expansion - held) * (temperature - 20)
