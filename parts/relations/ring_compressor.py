"""The ring compressor: a cone that closes the rings into the bore. Lengths in mm."""

from __future__ import annotations

from math import pi, tan


def mouth(free_width: float, room: float) -> float:
    """Mouth that a free ring goes into.

    diameter = free_width + room

    Parameters
    ----------
    free_width : float
        Greatest width of the free ring [mm]
    room : float
        On diameter [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> mouth(60.64, 1.0)
    61.64

    References
    ----------
    .. [1] Plane geometry.
    """
    return free_width + room


def cone_length(mouth: float, outlet: float, angle: float) -> float:
    """Length of the cone.

    length = (mouth - outlet) / (2 * tan(angle * pi / 180))

    Parameters
    ----------
    mouth : float
        Diameter [mm]
    outlet : float
        Diameter at the deck [mm]
    angle : float
        Between its side and its axis [deg]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(cone_length(61.64, 57.18, 5.0), 1)
    25.5

    References
    ----------
    .. [1] Plane geometry.
    """
    return (mouth - outlet) / (2 * tan(angle * pi / 180))


def push(bore: float, width: float, pressure: float, angle: float, friction: float) -> float:
    """Push that one ring takes through the cone, at its end.

    force = pi * bore * width * pressure * (tan(angle * pi / 180) + friction)

    Parameters
    ----------
    bore : float
        Diameter [mm]
    width : float
        Axial width of a ring [mm]
    pressure : float
        Of the ring on the bore [MPa]
    angle : float
        Between side and axis [deg]
    friction : float
        Oiled [1]

    Returns
    -------
    force : float
        Along the axis [N]

    Examples
    --------
    >>> round(push(57.2, 2.38, 0.1696, 5.0, 0.15), 1)
    17.2

    References
    ----------
    .. [1] Balance of forces on a small cone, friction against the push.
    """
    return pi * bore * width * pressure * (tan(angle * pi / 180) + friction)


def to_stud(hole: float, stud: float, outside: float) -> float:
    """Room beside the nearest stud.

    room = hole - stud / 2 - outside / 2

    Parameters
    ----------
    hole : float
        Centre of the nearest stud from that of the bore [mm]
    stud : float
        Its larger thread [mm]
    outside : float
        Of the compressor [mm]

    Returns
    -------
    room : float
        Below 0 they meet [mm]

    Examples
    --------
    >>> round(to_stud(41.7, 10.0, 70.0), 1)
    1.7

    References
    ----------
    .. [1] Plane geometry.
    """
    return hole - stud / 2 - outside / 2
