"""The bore as it was measured: three heights, each along the crankshaft and across it. Lengths in mm."""

from __future__ import annotations

from math import pi


def mean_bore(
    top_along: float,
    top_across: float,
    middle_along: float,
    middle_across: float,
    bottom_along: float,
    bottom_across: float,
) -> float:
    """Mean of the six readings of a bore.

    diameter = (top_along + top_across + middle_along + middle_across + bottom_along + bottom_across) / 6

    Parameters
    ----------
    top_along : float
        Near the top, along the crankshaft [mm]
    top_across : float
        There, across it [mm]
    middle_along : float
        Half way down, along [mm]
    middle_across : float
        There, across [mm]
    bottom_along : float
        Near the bottom, along [mm]
    bottom_across : float
        There, across [mm]

    Returns
    -------
    diameter : float
        Mean diameter [mm]

    Examples
    --------
    >>> round(mean_bore(57.20, 57.21, 57.19, 57.20, 57.20, 57.22), 4)
    57.2033

    References
    ----------
    .. [1] Arithmetic mean.
    """
    return (top_along + top_across + middle_along + middle_across + bottom_along + bottom_across) / 6


def taper(
    top_along: float,
    top_across: float,
    middle_along: float,
    middle_across: float,
    bottom_along: float,
    bottom_across: float,
) -> float:
    """Taper of a bore: the widest height's mean diameter over the narrowest's.

    taper = (max(top_along + top_across, middle_along + middle_across, bottom_along + bottom_across) -
        min(top_along + top_across, middle_along + middle_across, bottom_along + bottom_across)) / 2

    Parameters
    ----------
    top_along : float
        Near the top, along the crankshaft [mm]
    top_across : float
        There, across it [mm]
    middle_along : float
        Half way down, along [mm]
    middle_across : float
        There, across [mm]
    bottom_along : float
        Near the bottom, along [mm]
    bottom_across : float
        There, across [mm]

    Returns
    -------
    taper : float
        On diameter [mm]

    Examples
    --------
    >>> round(taper(57.20, 57.21, 57.19, 57.20, 57.20, 57.22), 4)
    0.015

    References
    ----------
    .. [1] Plane geometry.
    """
    sums = (top_along + top_across, middle_along + middle_across, bottom_along + bottom_across)
    return (max(sums) - min(sums)) / 2


def ovality(
    top_along: float,
    top_across: float,
    middle_along: float,
    middle_across: float,
    bottom_along: float,
    bottom_across: float,
) -> float:
    """Ovality of a bore: the largest difference across and along at one height.

    ovality = max(abs(top_across - top_along), abs(middle_across - middle_along), abs(bottom_across - bottom_along))

    Parameters
    ----------
    top_along : float
        Near the top, along the crankshaft [mm]
    top_across : float
        There, across it [mm]
    middle_along : float
        Half way down, along [mm]
    middle_across : float
        There, across [mm]
    bottom_along : float
        Near the bottom, along [mm]
    bottom_across : float
        There, across [mm]

    Returns
    -------
    ovality : float
        On diameter [mm]

    Examples
    --------
    >>> round(ovality(57.20, 57.21, 57.19, 57.20, 57.20, 57.22), 4)
    0.02

    References
    ----------
    .. [1] Plane geometry.
    """
    return max(abs(top_across - top_along), abs(middle_across - middle_along), abs(bottom_across - bottom_along))


def oval_lobe(ovality: float) -> float:
    """Wave of an oval bore: twice round, its crest so far outside the mean radius and its trough so far inside.

    amplitude = ovality / 4

    Parameters
    ----------
    ovality : float
        Difference of the diameters across and along [mm]

    Returns
    -------
    amplitude : float
        Of the radius [mm]

    Examples
    --------
    >>> round(oval_lobe(0.02), 4)
    0.005

    References
    ----------
    .. [1] Plane geometry: the radius swings by the amplitude either way, the diameter by twice that.
    """
    return ovality / 4


def over_bore(mean: float, bore: float) -> float:
    """How far the measured bore lies over the one that the rings are made to.

    over = mean - bore

    Parameters
    ----------
    mean : float
        Mean of the readings [mm]
    bore : float
        That the rings are made to [mm]

    Returns
    -------
    over : float
        On diameter, below 0 where it is smaller [mm]

    Examples
    --------
    >>> round(over_bore(57.2033, 57.20), 4)
    0.0033

    References
    ----------
    .. [1] Plane geometry.
    """
    return mean - bore


def gap_as_measured(slit: float, mean: float, outside: float) -> float:
    """Gap of the ring in the bore as it was measured.

    gap = slit + pi * (mean - outside)

    Parameters
    ----------
    slit : float
        Width of the saw that splits the ring [mm]
    mean : float
        Mean of the readings [mm]
    outside : float
        Outside diameter of the blank [mm]

    Returns
    -------
    gap : float
        Below 0 the ends meet [mm]

    Examples
    --------
    >>> round(gap_as_measured(0.5, 57.2033, 57.2955), 3)
    0.21

    References
    ----------
    .. [1] A ring does not stretch (derived).
    """
    return slit + pi * (mean - outside)
