"""What a miss at the bench leaves, and what makes it good: one relation a function."""

from __future__ import annotations

from math import pi, sqrt


def moved_with(planned: float, made: float, was: float) -> float:
    """Size that moves by as much as the one that was measured.

    size = planned + made - was

    Parameters
    ----------
    planned : float
        The size as planned [mm]
    made : float
        What was measured of the other [mm]
    was : float
        The other as planned [mm]

    Returns
    -------
    size : float
        The size that goes with the measured one [mm]

    Examples
    --------
    A pitch diameter of 7.188 mm goes with 8.243 mm over wires; measured 0.1 mm less:

    >>> round(moved_with(7.188, 8.143, 8.243), 3)
    7.088

    References
    ----------
    .. [1] The two differ by a constant (derived).
    """
    return planned + made - was


def in_proportion(planned: float, made: float, was: float) -> float:
    """Preload that goes with the torque that was really put on, or with the stretch or angle.

    preload = planned * made / was

    Parameters
    ----------
    planned : float
        Preload as planned [N]
    made : float
        Torque on the wrench; stretch and angle in their own units [N m]
    was : float
        Torque as planned [N m]

    Returns
    -------
    preload : float
        Preload of one stud, friction as assumed [N]

    Examples
    --------
    >>> in_proportion(10000, 18, 15)
    12000.0

    References
    ----------
    .. [1] VDI 2230-1 and ISO 16047: torque and preload are in proportion.
    """
    return planned * made / was


def area_of_thin_thread(planned: float, miss: float) -> float:
    """Stress area of a thread cut under its lower limit.

    area = pi / 4 * (sqrt(4 * planned / pi) - miss)^2

    Parameters
    ----------
    planned : float
        Stress area of a thread in its limits [mm^2]
    miss : float
        Pitch diameter under its lower limit [mm]

    Returns
    -------
    area : float
        Stress area that is left [mm^2]

    Examples
    --------
    [1]_ has 36.6 mm^2 for M8; 0.08 mm off it leaves a little over 35:

    >>> round(area_of_thin_thread(36.609, 0.08), 2)
    35.76

    References
    ----------
    .. [1] ISO 898-1, the stress diameter (d2 + d3)/2: both are smaller by the miss (derived).
    """
    return pi / 4 * (sqrt(4 * planned / pi) - miss) ** 2


def thread_left(planned: float, made: float, was: float) -> float:
    """Length that a hole tapped less deep than planned leaves for the thread in it.

    length = planned - (was - made)

    Parameters
    ----------
    planned : float
        Insert or engagement as planned [mm]
    made : float
        Full thread as tapped [mm]
    was : float
        Full thread as planned [mm]

    Returns
    -------
    length : float
        Nominal length of the insert, or engagement, that has room [mm]

    Examples
    --------
    >>> thread_left(15, 12, 16.5)
    10.5

    References
    ----------
    .. [1] What is beyond the thread, set-down and run-out, stays the same (derived).
    """
    return planned - (was - made)


def set_fraction(free_gap: float, slit: float, open_gap: float) -> float:
    """Share of the opening that a trial ring kept.

    share = (free_gap - slit) / (open_gap - slit)

    Parameters
    ----------
    free_gap : float
        Free gap of the trial ring on the mean line, after the heat [mm]
    slit : float
        Width of the saw [mm]
    open_gap : float
        Gap of the ring on the expander, on the mean line [mm]

    Returns
    -------
    share : float
        Share of the opening that the heat set [1]

    Examples
    --------
    >>> round(set_fraction(8.58, 0.5, 9.005), 3)
    0.95

    References
    ----------
    .. [1] Definition of the set: what is not set springs back (derived).
    """
    return (free_gap - slit) / (open_gap - slit)


def gasket_for_squish(thickness: float, planned: float, squish: float) -> float:
    """Gasket that gives the planned squish again.

    gasket = thickness + planned - squish

    Parameters
    ----------
    thickness : float
        Gasket of the job [mm]
    planned : float
        Squish as planned [mm]
    squish : float
        Squish as it came out with that gasket [mm]

    Returns
    -------
    gasket : float
        To take instead [mm]

    Examples
    --------
    0.28 mm more off the deck than meant wants 0.28 mm more gasket:

    >>> round(gasket_for_squish(1.2, 1.08, 0.8), 3)
    1.48

    References
    ----------
    .. [1] The gasket lifts the head by what it is thicker (geometry).
    """
    return thickness + planned - squish


def gasket_for_ratio(thickness: float, planned: float, clearance: float, bore: float) -> float:
    """Gasket that gives the planned compression ratio again.

    gasket = thickness + 4 * (planned - clearance) / (pi * bore^2)

    Parameters
    ----------
    thickness : float
        Gasket of the job [mm]
    planned : float
        Clearance volume as planned [mm^3]
    clearance : float
        Clearance volume as it came out with that gasket [mm^3]
    bore : float
        Bore of the gasket [mm]

    Returns
    -------
    gasket : float
        To take instead [mm]

    Examples
    --------
    >>> round(gasket_for_ratio(1.2, 28000, 27254, 58.2), 2)
    1.48

    References
    ----------
    .. [1] ISO 2710-1, clearance volume; the gasket's share is a cylinder (geometry).
    """
    return thickness + 4 * (planned - clearance) / (pi * bore**2)


def depth_of_pocket(below: float, diameter: float) -> float:
    """Volume of the pocket over a plug that lies below the deck.

    volume = pi / 4 * diameter^2 * below

    Parameters
    ----------
    below : float
        Face of the plug below the deck [mm]
    diameter : float
        Diameter of the hole [mm]

    Returns
    -------
    volume : float
        Filler that it takes [mm^3]

    Examples
    --------
    >>> round(depth_of_pocket(0.5, 8), 2)
    25.13

    References
    ----------
    .. [1] Geometry: a cylinder.
    """
    return pi / 4 * diameter**2 * below


def pressed_over(passage_radius: float, diameter: float, face: float) -> float:
    """How far a passage reaches under the face that the head presses on.

    reach = face / 2 - (passage_radius - diameter / 2)

    Parameters
    ----------
    passage_radius : float
        Centre of the passage from the centre of the bore [mm]
    diameter : float
        Diameter of the passage [mm]
    face : float
        Outside diameter of the raised face [mm]

    Returns
    -------
    reach : float
        Below 0: clear of the face by as much [mm]

    Examples
    --------
    >>> pressed_over(42, 8.5, 66)
    -4.75

    References
    ----------
    .. [1] Geometry.
    """
    return face / 2 - (passage_radius - diameter / 2)
