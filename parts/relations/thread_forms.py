"""Diameters and limits of screw threads: one published relation each, in mm."""

from __future__ import annotations


def pitch_diameter(nominal: float, pitch: float, factor: float) -> float:
    """Pitch diameter, on a basic or an effective size.

    pitch_diameter = nominal - factor * pitch

    Parameters
    ----------
    nominal : float
        Nominal diameter d [mm]
    pitch : float
        Pitch P [mm]
    factor : float
        Twice the depth from the major to the pitch diameter, over P [1]

    Returns
    -------
    pitch_diameter : float
        Pitch diameter [mm]

    Examples
    --------
    [1]_ prints 9.026 for M10 x 1.5 (factor 0.649519) and 0.2180 in for 1/4 BSW (factor 0.640327):

    >>> round(pitch_diameter(10, 1.5, 0.649519053), 3), round(pitch_diameter(6.35, 1.27, 0.640327) / 25.4, 4)
    (9.026, 0.218)

    References
    ----------
    .. [1] ISO 724 and ASME B1.1 (0.649519), BS 84 (0.640327), BS 93 (0.6), BS 811 (0.5327, memory).
    """
    return nominal - factor * pitch


def minor_diameter(nominal: float, pitch: float, factor: float) -> float:
    """Minor diameter: of a hole's basic profile, or at the root of a bolt.

    minor_diameter = nominal - factor * pitch

    Parameters
    ----------
    nominal : float
        Nominal diameter d [mm]
    pitch : float
        Pitch P [mm]
    factor : float
        Twice the depth from the major to the minor diameter, over P [1]

    Returns
    -------
    minor_diameter : float
        Minor diameter [mm]

    Examples
    --------
    [1]_ prints 8.376 for the hole of M10 x 1.5 (factor 1.082532) and 4.80 for 0 BA (factor 1.2):

    >>> round(minor_diameter(10, 1.5, 1.082531755), 3), minor_diameter(6, 1, 1.2)
    (8.376, 4.8)

    References
    ----------
    .. [1] ISO 724 (1.082532 in the hole, 1.226869 at a bolt's root), ASME B1.1 (1.082532, 1.190785), BS 84 (1.280654),
        BS 93 (1.2), BS 811 (1.0654, memory).
    """
    return nominal - factor * pitch


def upper_limit(basic: float, allowance: float) -> float:
    """Greatest diameter of an external thread.

    limit = basic - allowance

    Parameters
    ----------
    basic : float
        Basic diameter [mm]
    allowance : float
        Distance of the greatest bolt below basic [mm]

    Returns
    -------
    limit : float
        Greatest diameter [mm]

    Examples
    --------
    [1]_ prints 9.968 for M10 - 6g, allowance 0.032:

    >>> upper_limit(10, 0.032)
    9.968

    References
    ----------
    .. [1] ISO 965-1; ASME B1.1, BS 84 and BS 93 place their limits in the same way.
    """
    return basic - allowance


def lower_limit(basic: float, allowance: float, tolerance: float) -> float:
    """Least diameter of an external thread.

    limit = basic - allowance - tolerance

    Parameters
    ----------
    basic : float
        Basic diameter [mm]
    allowance : float
        Distance of the greatest bolt below basic [mm]
    tolerance : float
        Tolerance [mm]

    Returns
    -------
    limit : float
        Least diameter [mm]

    Examples
    --------
    [1]_ prints 9.732 for M10 - 6g, allowance 0.032, tolerance 0.236:

    >>> round(lower_limit(10, 0.032, 0.236), 3)
    9.732

    References
    ----------
    .. [1] ISO 965-1; ASME B1.1, BS 84 and BS 93 place their limits in the same way.
    """
    return basic - allowance - tolerance


def internal_limit(least: float, tolerance: float) -> float:
    """Greatest diameter of an internal thread.

    limit = least + tolerance

    Parameters
    ----------
    least : float
        Least diameter of the hole's thread [mm]
    tolerance : float
        Tolerance [mm]

    Returns
    -------
    limit : float
        Greatest diameter [mm]

    Examples
    --------
    [1]_ prints 8.676 for the minor diameter of M10 - 6H, least 8.376, tolerance 0.300:

    >>> round(internal_limit(8.376, 0.3), 3)
    8.676

    References
    ----------
    .. [1] ISO 965-1; ASME B1.1, BS 84 and BS 93 place their limits in the same way.
    """
    return least + tolerance


def thread_share(nominal: float, drill: float, pitch: float, factor: float) -> float:
    """Share of the full thread that a tapping drill leaves in a hole.

    share = (nominal - drill) / (factor * pitch)

    Parameters
    ----------
    nominal : float
        Nominal diameter d [mm]
    drill : float
        Tapping drill [mm]
    pitch : float
        Pitch P [mm]
    factor : float
        Twice the depth of the full thread, over P [1]

    Returns
    -------
    share : float
        Of the full depth [1]

    Examples
    --------
    [1]_ has 77 % for M10 x 1.5 drilled 8.5 mm:

    >>> round(thread_share(10, 8.5, 1.5, 1.299038), 2)
    0.77

    References
    ----------
    .. [1] Machinery's Handbook, tap drill sizes: share of a depth of 0.6495 P (memory); BS 84 and BS 93: of their own.
    """
    return (nominal - drill) / (factor * pitch)


def blank_diameter(nominal: float, pitch: float) -> float:
    """Bar turned before a thread is cut on it.

    diameter = nominal - 0.1 * pitch

    Parameters
    ----------
    nominal : float
        Nominal diameter d [mm]
    pitch : float
        Pitch P [mm]

    Returns
    -------
    diameter : float
        Diameter of the blank [mm]

    Examples
    --------
    Inside the limits 9.732 to 9.968 that ISO 965-2 prints for M10 - 6g:

    >>> blank_diameter(10, 1.5)
    9.85

    References
    ----------
    .. [1] common practice, no source; lies inside the major diameter's limits of every thread listed here.
    """
    return nominal - 0.1 * pitch


def lead_in(nominal: float, minor_diameter: float) -> float:
    """Length of the 45 degree chamfer that leads a nut on, down to the root.

    length = (nominal - minor_diameter) / 2

    Parameters
    ----------
    nominal : float
        Nominal diameter d [mm]
    minor_diameter : float
        Minor diameter at the root [mm]

    Returns
    -------
    length : float
        Length of the chamfer [mm]

    Examples
    --------
    Depth of thread 0.9202 that ISO 68-1 gives as 0.613435 P for P = 1.5 (memory):

    >>> round(lead_in(10, 10 - 1.22687 * 1.5), 4)
    0.9202

    References
    ----------
    .. [1] ISO 4753, chamfered end: 45 degrees to just under the root (memory).
    """
    return (nominal - minor_diameter) / 2
