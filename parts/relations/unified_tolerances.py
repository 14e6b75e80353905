"""Tolerances and allowance of unified inch threads, classes 2A and 2B: one published relation each, in mm."""

from __future__ import annotations

from math import cbrt, sqrt


def unified_pitch_tolerance(nominal: float, pitch: float, engagement: float) -> float:
    """Pitch diameter tolerance of a unified bolt, class 2A.

    tolerance = 25.4 * 0.0015 * (cbrt(nominal / 25.4) + sqrt(engagement / 25.4) + 10 * cbrt((pitch / 25.4)^2))

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
    [1]_ gives 0.0037 in for 1/4-20 UNC (0.2164 to 0.2127):

    >>> round(unified_pitch_tolerance(6.35, 1.27, 6.35) / 25.4, 4)
    0.0037

    References
    ----------
    .. [1] ASME B1.1-2003, 5.8.1 and 5.8.2, class 2A.
    """
    return 25.4 * 0.0015 * (cbrt(nominal / 25.4) + sqrt(engagement / 25.4) + 10 * cbrt((pitch / 25.4) ** 2))


def unified_allowance(pitch_tolerance: float) -> float:
    """Gap that class 2A leaves above a unified bolt.

    allowance = 0.300 * pitch_tolerance

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
    [1]_ gives 0.0011 in for 1/4-20 UNC, tolerance 0.00373 in:

    >>> round(unified_allowance(0.00373), 4)
    0.0011

    References
    ----------
    .. [1] ASME B1.1-2003, 5.8.1 and 5.8.2, class 2A.
    """
    return 0.300 * pitch_tolerance


def unified_major_tolerance(pitch: float) -> float:
    """Major diameter tolerance of a unified bolt, class 2A.

    tolerance = 25.4 * 0.060 * cbrt((pitch / 25.4)^2)

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
    [1]_ gives 0.0081 in for 20 threads per inch (0.2489 to 0.2408):

    >>> round(unified_major_tolerance(1.27) / 25.4, 4)
    0.0081

    References
    ----------
    .. [1] ASME B1.1-2003, 5.8.1 and 5.8.2, class 2A.
    """
    return 25.4 * 0.060 * cbrt((pitch / 25.4) ** 2)


def unified_hole_pitch_tolerance(pitch_tolerance: float) -> float:
    """Pitch diameter tolerance of a unified hole, class 2B.

    tolerance = 1.300 * pitch_tolerance

    Parameters
    ----------
    pitch_tolerance : float
        Tolerance on the pitch diameter of the bolt [mm]

    Returns
    -------
    tolerance : float
        Tolerance [mm]

    Examples
    --------
    [1]_ prints 0.2175 to 0.2224 in for 1/4-20 UNC - 2B; its bolt has 0.00373 in:

    >>> round(0.2175240 + unified_hole_pitch_tolerance(0.00373), 4)
    0.2224

    References
    ----------
    .. [1] ASME B1.1-2003, 5.8.1 and 5.8.2, class 2B.
    """
    return 1.300 * pitch_tolerance


def unified_hole_minor_tolerance(pitch: float) -> float:
    """Minor diameter tolerance of a unified hole, class 2B, from 1/4 in diameter.

    tolerance = 25.4 * (0.25 * pitch / 25.4 - 0.40 * (pitch / 25.4)^2)

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
    [1]_ works out 0.0066 in for a pitch of 0.02777778 in:

    >>> round(unified_hole_minor_tolerance(25.4 / 36) / 25.4, 4)
    0.0066

    References
    ----------
    .. [1] ASME B1.1-2003, 5.8.1 and 5.8.2, class 2B, as in Machinery's Handbook, 31st ed.,
        table of internal inch screw thread calculations.
    """
    return 25.4 * (0.25 * pitch / 25.4 - 0.40 * (pitch / 25.4) ** 2)


def small_unified_hole_minor_tolerance(nominal: float, pitch: float) -> float:
    """Minor diameter tolerance of a unified hole, class 2B, below 1/4 in diameter.

    tolerance = 25.4 * max(0.25 * pitch / 25.4 - 0.40 * (pitch / 25.4)^2,
        min(0.394 * pitch / 25.4, 0.05 * cbrt((pitch / 25.4)^2) + 0.03 * pitch / nominal - 0.002))

    Parameters
    ----------
    nominal : float
        Nominal diameter d [mm]
    pitch : float
        Pitch P [mm]

    Returns
    -------
    tolerance : float
        Tolerance [mm]

    Examples
    --------
    [1]_ prints 0.156 to 0.164 in for #10-32 UNF - 2B:

    >>> round(small_unified_hole_minor_tolerance(4.826, 0.79375) / 25.4, 3)
    0.008

    References
    ----------
    .. [1] ASME B1.1-2003, 5.8.2, class 2B below 1/4 in (memory).
    """
    p = pitch / 25.4
    return 25.4 * max(0.25 * p - 0.40 * p**2, min(0.394 * p, 0.05 * cbrt(p**2) + 0.03 * pitch / nominal - 0.002))
