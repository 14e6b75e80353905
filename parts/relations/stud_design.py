"""The stud that is designed: its waist, how deep it screws in, how far its nut end is threaded. Lengths in mm."""

from __future__ import annotations

from math import floor, pi, tan

STEPS = (1.0, 1.5, 2.0, 2.5, 3.0)
FINE = 1e-9


def waist(tap_end: float, nut_end: float) -> float:
    """Diameter of a waisted shank, under the core of the smaller thread, in steps of 0.1 mm.

    diameter = floor(9.5 * min(tap_end, nut_end)) / 10

    Parameters
    ----------
    tap_end : float
        Core of the tap end's thread [mm]
    nut_end : float
        Core of the nut end's thread [mm]

    Returns
    -------
    diameter : float
        Between the threads [mm]

    Examples
    --------
    >>> waist(8.16, 6.466)
    6.1

    References
    ----------
    .. [1] Reduced shanks of springy studs: 0.9 of the core and up to it; 0.95 is common practice, no source.
    """
    return floor(9.5 * min(tap_end, nut_end)) / 10


def carried_multiple(
    load: float,
    strength: float,
    pitch: float,
    major: float,
    hole_pitch: float,
    half_angle: float,
    lost: float,
    nominal: float,
) -> float:
    """Length of thread in the parent metal that holds until the stud breaks.

    multiple = (load / (strength * pi / pitch * major * (pitch / 2 + tan(half_angle * pi / 180) * (major -
        hole_pitch))) + lost) / nominal

    Parameters
    ----------
    load : float
        That breaks the stud [N]
    strength : float
        Shear strength of the parent metal, hot [MPa]
    pitch : float
        Pitch [mm]
    major : float
        Diameter at which the parent's thread shears [mm]
    hole_pitch : float
        Pitch diameter of the hole [mm]
    half_angle : float
        Half the angle of the thread [deg]
    lost : float
        Length that does not carry: step, chamfer, set-down [mm]
    nominal : float
        Diameter of the stud's thread [mm]

    Returns
    -------
    multiple : float
        Length in diameters [d]

    Examples
    --------
    >>> round(carried_multiple(30000, 120, 1.5, 11.95, 10.97, 30, 1.125, 10), 2)
    0.87

    References
    ----------
    .. [1] FED-STD-H28/2, shear area of the internal thread, solved for the length.
    """
    each = pi / pitch * major * (pitch / 2 + tan(half_angle * pi / 180) * (major - hole_pitch))
    return (load / (strength * each) + lost) / nominal


def room_multiple(
    depth: float, skim: float, beyond: float, pitch: float, major: float, share: float, least: float, nominal: float
) -> float:
    """Length of thread that the metal below the deck has room for, its drilled hole and the point included.

    multiple = (depth - skim - beyond * pitch - major / (2 * tan(59 * pi / 180)) - max(share * major, least)) / nominal

    Parameters
    ----------
    depth : float
        Metal below the deck [mm]
    skim : float
        To come off the deck [mm]
    beyond : float
        Pitches that are drilled deeper than the length [1]
    pitch : float
        Pitch [mm]
    major : float
        Diameter of the tapped hole [mm]
    share : float
        Of it, that is to be left under the hole [1]
    least : float
        At least left under the hole [mm]
    nominal : float
        Diameter of the stud's thread [mm]

    Returns
    -------
    multiple : float
        Length in diameters [d]

    Examples
    --------
    >>> round(room_multiple(32, 0.12, 4, 1.5, 11.95, 0.2, 2.0, 10), 2)
    1.99

    References
    ----------
    .. [1] Plane geometry, a drill of 118 degrees; what is left under the hole is common practice, no source.
    """
    under = max(share * major, least)
    return (depth - skim - beyond * pitch - major / (2 * tan(59 * pi / 180)) - under) / nominal


def multiple(wanted: float, carried: float, room: float) -> float:
    """Length of an insert, or of the thread engaged: one of 1, 1.5, 2, 2.5 and 3 diameters.

    multiple = the shortest of at least wanted and carried, if there is room; else the longest that has room

    Parameters
    ----------
    wanted : float
        By the rule of the metal [d]
    carried : float
        That holds until the stud breaks [d]
    room : float
        That the metal has room for [d]

    Returns
    -------
    multiple : float
        Length in diameters [d]

    Examples
    --------
    >>> multiple(1.5, 1.2, 1.99), multiple(2.25, 2.6, 2.7), multiple(1.5, 1.2, 0.8)
    (1.5, 2.5, 1.0)

    References
    ----------
    .. [1] DIN 938, 939 and 835 by the metal; steps of the wire thread inserts that are sold; the rest is common
        practice, no source.
    """
    fitting = [step for step in STEPS if step <= room + FINE] or [STEPS[0]]
    return min((step for step in fitting if step >= max(wanted, carried) - FINE), default=fitting[-1])


def nut_end(standard: float, projection: float, step: float, plain: float, nominal: float) -> float:
    """Length of the thread at the nut end: the standard's, or less, so that a short stud keeps some plain shank.

    length = min(standard, projection + step - plain * nominal) if projection + step > plain * nominal else standard

    Parameters
    ----------
    standard : float
        By the stud standard [mm]
    projection : float
        Of the stud above the deck [mm]
    step : float
        How far the tap end stops below the deck [mm]
    plain : float
        Diameters of plain shank that are to stay [1]
    nominal : float
        Diameter of the thread [mm]

    Returns
    -------
    length : float
        From the end face to the last full thread [mm]

    Examples
    --------
    >>> nut_end(22, 58.1, 1.0, 0.6, 8), round(nut_end(22, 20, 1.0, 0.6, 8), 1)
    (22, 16.2)

    References
    ----------
    .. [1] DIN 938:1995, DIN 939: b2; the plain shank is common practice, no source.
    """
    room = projection + step - plain * nominal
    return min(standard, room) if room > 0 else standard
