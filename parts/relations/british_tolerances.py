"""Tolerances and allowance of Whitworth and BA threads: one published relation each, in mm."""

from __future__ import annotations

from math import cbrt, sqrt


def whitworth_pitch_tolerance(nominal: float, pitch: float, engagement: float) -> float:
    """Effective diameter tolerance T of a Whitworth thread, medium class.

    tolerance = 25.4 * (0.002 * cbrt(nominal / 25.4) + 0.003 * sqrt(engagement / 25.4) + 0.005 * sqrt(pitch / 25.4))

    Parameters
    ----------
    nominal : float
        Nominal diameter d [mm]
    pitch : float
        Pitch P [mm]
    engagement : float
        Length of engagement [mm], by the standard the nominal diameter

    Returns
    -------
    tolerance : float
        Tolerance [mm]

    Examples
    --------
    [1]_ leads to 0.0039 in for 1/4 BSW, worked by hand:

    >>> round(whitworth_pitch_tolerance(6.35, 1.27, 6.35) / 25.4, 4)
    0.0039

    References
    ----------
    .. [1] BS 84, bases of tolerances, medium class (T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 p^(1/2) in inches), as in
        Machinery's Handbook.
    """
    return 25.4 * (0.002 * cbrt(nominal / 25.4) + 0.003 * sqrt(engagement / 25.4) + 0.005 * sqrt(pitch / 25.4))


def whitworth_major_tolerance(pitch_tolerance: float, pitch: float) -> float:
    """Major diameter tolerance of a Whitworth bolt, medium class.

    tolerance = pitch_tolerance + 25.4 * 0.01 * sqrt(pitch / 25.4)

    Parameters
    ----------
    pitch_tolerance : float
        Tolerance on the pitch diameter of the bolt [mm]
    pitch : float
        Pitch P [mm]

    Returns
    -------
    tolerance : float
        Tolerance [mm]

    Examples
    --------
    [1]_ leads to 0.0061 in for 1/4 BSW, T = 0.00388 in, worked by hand:

    >>> round(whitworth_major_tolerance(0.00388 * 25.4, 1.27) / 25.4, 4)
    0.0061

    References
    ----------
    .. [1] BS 84, bases of tolerances, medium class (T + 0.01 p^(1/2) in inches), as in Machinery's Handbook.
    """
    return pitch_tolerance + 25.4 * 0.01 * sqrt(pitch / 25.4)


def whitworth_allowance(pitch_tolerance: float) -> float:
    """Gap that the medium class leaves above a Whitworth bolt of 1/4 to 3/4 in.

    allowance = 0.3 * pitch_tolerance

    Parameters
    ----------
    pitch_tolerance : float
        Tolerance on the pitch diameter of the bolt [mm]

    Returns
    -------
    allowance : float
        Allowance [mm]

    Examples
    --------
    [1]_ leads to 0.0012 in for 1/4 BSW, T = 0.00388 in, worked by hand:

    >>> round(whitworth_allowance(0.00388), 4)
    0.0012

    References
    ----------
    .. [1] BS 84, medium class bolts of 3/4 in and under: 30 % of T; smaller than 1/4 in: that of 1/4 in (memory).
    """
    return 0.3 * pitch_tolerance


def whitworth_hole_minor_tolerance(pitch: float, addition: float) -> float:
    """Minor diameter tolerance of a Whitworth hole.

    tolerance = 0.2 * pitch + addition

    Parameters
    ----------
    pitch : float
        Pitch P [mm]
    addition : float
        0.1016 mm from 26 threads per inch, 0.127 for 24 and 22, 0.1778 to 20 [mm]

    Returns
    -------
    tolerance : float
        Tolerance [mm]

    Examples
    --------
    [1]_ leads to 0.017 in for 1/4 BSW, 20 threads per inch, worked by hand:

    >>> round(whitworth_hole_minor_tolerance(1.27, 0.1778) / 25.4, 4)
    0.017

    References
    ----------
    .. [1] BS 84, bases of tolerances, nuts (0.2 p + 0.004, 0.005 or 0.007 in), as in Machinery's Handbook.
    """
    return 0.2 * pitch + addition


def ba_pitch_tolerance(pitch: float) -> float:
    """Effective diameter tolerance of a BA bolt, 0 to 10 BA, normal class.

    tolerance = 0.10 * pitch + 0.025

    Parameters
    ----------
    pitch : float
        Pitch P [mm]

    Returns
    -------
    tolerance : float
        Tolerance [mm]

    Examples
    --------
    [1]_ leads to 0.106 for 2 BA, worked by hand:

    >>> round(ba_pitch_tolerance(0.81), 3)
    0.106

    References
    ----------
    .. [1] BS 93, normal class, as in Machinery's Handbook, 31st ed., p. 2115.
    """
    return 0.10 * pitch + 0.025


def ba_major_tolerance(pitch: float) -> float:
    """Major diameter tolerance of a BA bolt, 0 to 10 BA, normal class.

    tolerance = 0.20 * pitch

    Parameters
    ----------
    pitch : float
        Pitch P [mm]

    Returns
    -------
    tolerance : float
        Tolerance [mm]

    Examples
    --------
    [1]_ leads to 0.162 for 2 BA, worked by hand:

    >>> round(ba_major_tolerance(0.81), 3)
    0.162

    References
    ----------
    .. [1] BS 93, normal class, as in Machinery's Handbook, 31st ed., p. 2115; BS 93:2008, B.4.1.
    """
    return 0.20 * pitch


def ba_hole_pitch_tolerance(pitch: float) -> float:
    """Effective diameter tolerance of a BA hole.

    tolerance = 0.12 * pitch + 0.03

    Parameters
    ----------
    pitch : float
        Pitch P [mm]

    Returns
    -------
    tolerance : float
        Tolerance [mm]

    Examples
    --------
    [1]_ leads to 0.127 for 2 BA, worked by hand:

    >>> round(ba_hole_pitch_tolerance(0.81), 3)
    0.127

    References
    ----------
    .. [1] BS 93:2008, B.3.2.
    """
    return 0.12 * pitch + 0.03


def ba_hole_minor_tolerance(pitch: float) -> float:
    """Minor diameter tolerance of a BA hole.

    tolerance = 0.375 * pitch

    Parameters
    ----------
    pitch : float
        Pitch P [mm]

    Returns
    -------
    tolerance : float
        Tolerance [mm]

    Examples
    --------
    [1]_ leads to 0.304 for 2 BA, worked by hand:

    >>> round(ba_hole_minor_tolerance(0.81), 3)
    0.304

    References
    ----------
    .. [1] BS 93:2008, B.5.2.
    """
    return 0.375 * pitch
