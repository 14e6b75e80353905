"""Holes for helically coiled wire thread inserts, and how deep they go."""

from __future__ import annotations


def tapped_major(nominal: float, pitch: float) -> float:
    """Least major diameter of the hole's thread.

    diameter = nominal + 1.299038 * pitch

    Parameters
    ----------
    nominal : float
        Nominal diameter d of the thread inside the insert [mm]
    pitch : float
        Pitch P [mm]

    Returns
    -------
    diameter : float
        Least major diameter [mm]

    Examples
    --------
    [1]_ has 9.624 for M8 x 1.25:

    >>> round(tapped_major(8, 1.25), 3)
    9.624

    References
    ----------
    .. [1] ASME B18.29.1, B18.29.2M and DIN 8140-2 (memory); Whitworth, BA and cycle threads by analogy, no standard
        covers them.
    """
    return nominal + 1.299038 * pitch


def tapped_pitch_diameter(nominal: float, pitch: float) -> float:
    """Least pitch diameter of the hole's thread.

    diameter = nominal + 0.649519 * pitch

    Parameters
    ----------
    nominal : float
        Nominal diameter d of the thread inside the insert [mm]
    pitch : float
        Pitch P [mm]

    Returns
    -------
    diameter : float
        Least pitch diameter [mm]

    Examples
    --------
    [1]_ has 8.812 for M8 x 1.25:

    >>> round(tapped_pitch_diameter(8, 1.25), 3)
    8.812

    References
    ----------
    .. [1] ASME B18.29.1, B18.29.2M and DIN 8140-2 (memory); Whitworth, BA and cycle threads by analogy, no standard
        covers them.
    """
    return nominal + 0.649519 * pitch


def tapped_minor(nominal: float, pitch: float) -> float:
    """Least minor diameter of the hole's thread.

    diameter = nominal + 0.216506 * pitch

    Parameters
    ----------
    nominal : float
        Nominal diameter d of the thread inside the insert [mm]
    pitch : float
        Pitch P [mm]

    Returns
    -------
    diameter : float
        Least minor diameter [mm]

    Examples
    --------
    [1]_ has 8.271 for M8 x 1.25:

    >>> round(tapped_minor(8, 1.25), 3)
    8.271

    References
    ----------
    .. [1] ASME B18.29.1, B18.29.2M and DIN 8140-2 (memory); Whitworth, BA and cycle threads by analogy, no standard
        covers them.
    """
    return nominal + 0.216506 * pitch


def set_down(pitch: float, turns: float) -> float:
    """Depth of the insert's first coil below the surface.

    depth = turns * pitch

    Parameters
    ----------
    pitch : float
        Pitch P [mm]
    turns : float
        Turns below the surface [1]

    Returns
    -------
    depth : float
        Set-down [mm]

    Examples
    --------
    [1]_ allows 0.75 to 1.5 pitches; one pitch of M10:

    >>> set_down(1.5, 1)
    1.5

    References
    ----------
    .. [1] ASME B18.29.2M-2005, notes on lengths and depths; DIN 8140.
    """
    return turns * pitch


def installed_length(nominal_length: float, pitch: float) -> float:
    """Least length of an insert once it is in.

    length = nominal_length - 0.75 * pitch

    Parameters
    ----------
    nominal_length : float
        Nominal length of the insert [mm]
    pitch : float
        Pitch P [mm]

    Returns
    -------
    length : float
        Installed length [mm]

    Examples
    --------
    [1]_ gives nominal - 0.5 P to nominal - 0.75 P; the shorter for M10 x 15:

    >>> installed_length(15, 1.5)
    13.875

    References
    ----------
    .. [1] ASME B18.29.2M-2005, notes on lengths and depths.
    """
    return nominal_length - 0.75 * pitch


def full_thread_depth(nominal_length: float, pitch: float) -> float:
    """Least depth of full thread in the hole.

    depth = nominal_length + 1 * pitch

    Parameters
    ----------
    nominal_length : float
        Nominal length of the insert [mm]
    pitch : float
        Pitch P [mm]

    Returns
    -------
    depth : float
        Depth of full thread [mm]

    Examples
    --------
    [1]_ gives nominal + 1 P, 16.5 for M10 x 15:

    >>> full_thread_depth(15, 1.5)
    16.5

    References
    ----------
    .. [1] ASME B18.29.2M-2005, notes on lengths and depths.
    """
    return nominal_length + 1 * pitch


def drill_depth(nominal_length: float, pitch: float, turns: float) -> float:
    """Least depth of the drilled hole, its point not counted.

    depth = nominal_length + turns * pitch

    Parameters
    ----------
    nominal_length : float
        Nominal length of the insert [mm]
    pitch : float
        Pitch P [mm]
    turns : float
        4 with a bottoming tap, 6 with a plug tap [1]

    Returns
    -------
    depth : float
        Depth of the drilled hole [mm]

    Examples
    --------
    [1]_ gives nominal + 4 P with a bottoming tap, 21 for M10 x 15, and nominal + 6 P with a plug tap:

    >>> drill_depth(15, 1.5, 4), drill_depth(15, 1.5, 6)
    (21.0, 24.0)

    References
    ----------
    .. [1] ASME B18.29.2M-2005, notes on lengths and depths; a plug tap up to 8 mm with a male centre: 0.5 d more.
    """
    return nominal_length + turns * pitch
