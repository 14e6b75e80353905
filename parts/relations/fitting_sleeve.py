"""The fitting sleeve: a ring slides down its cone and over the lands. Lengths in mm."""

from __future__ import annotations

from math import pi, tan


def free_inside(outside: float, free_gap: float, slit: float, thickness: float) -> float:
    """Inside of the set ring as it lies free, taken as round.

    inside = outside + (free_gap - slit) / pi - 2 * thickness

    Parameters
    ----------
    outside : float
        Of the blank [mm]
    free_gap : float
        On the mean line [mm]
    slit : float
        What the saw took [mm]
    thickness : float
        Radial [mm]

    Returns
    -------
    inside : float
        Diameter [mm]

    Examples
    --------
    >>> round(free_inside(57.2955, 8.58, 0.5, 2.4), 2)
    55.07

    References
    ----------
    .. [1] A ring does not stretch: its mean line and its gap make one circle (derived).
    """
    return outside + (free_gap - slit) / pi - 2 * thickness


def outside(piston: float, play: float, wall: float) -> float:
    """Outside of the skirt that a ring slides over.

    diameter = piston + play + 2 * wall

    Parameters
    ----------
    piston : float
        Over the lands [mm]
    play : float
        Of the sleeve on the piston, on diameter [mm]
    wall : float
        Of the sleeve [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(outside(57.1, 0.1, 0.5), 2)
    58.2

    References
    ----------
    .. [1] Plane geometry.
    """
    return piston + play + 2 * wall


def cone_length(outside: float, small: float, angle: float) -> float:
    """Length of the cone that opens the ring.

    length = (outside - small) / (2 * tan(angle * pi / 180))

    Parameters
    ----------
    outside : float
        Where it ends [mm]
    small : float
        Where a free ring slips on [mm]
    angle : float
        Between its side and its axis [deg]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(cone_length(58.2, 54.6, 8.0), 1)
    12.8

    References
    ----------
    .. [1] Plane geometry.
    """
    return (outside - small) / (2 * tan(angle * pi / 180))


def reach(width: float) -> float:
    """From the crown to the groove, where it is not given.

    length = 5 * width

    Parameters
    ----------
    width : float
        Axial width of the ring [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(reach(2.38), 1)
    11.9

    References
    ----------
    .. [1] Common practice, no source.
    """
    return 5 * width
