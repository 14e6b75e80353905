"""The squaring piston: pushes a ring square to a set depth, where its gap is felt. Lengths in mm."""

from __future__ import annotations

from math import pi


def depth(bore: float) -> float:
    """How deep it sets the ring: below the mouth of the bore, above most of its wear.

    depth = max(6, 0.3 * bore)

    Parameters
    ----------
    bore : float
        Bore [mm]

    Returns
    -------
    depth : float
        Below the deck [mm]

    Examples
    --------
    >>> round(depth(57.2), 2)
    17.16

    References
    ----------
    .. [1] Common practice, no source.
    """
    return max(6, 0.3 * bore)


def bore_there(
    top_along: float, top_across: float, middle_along: float, middle_across: float, depth: float, half: float
) -> float:
    """Bore where it sets the ring, from the readings near the top and half way down.

    bore = (top_along + top_across) / 2 + ((middle_along + middle_across) - (top_along + top_across)) / 2 * min(1,
        depth / half)

    Parameters
    ----------
    top_along : float
        Along the crankshaft, near the top [mm]
    top_across : float
        Across it, near the top [mm]
    middle_along : float
        Along it, half way [mm]
    middle_across : float
        Across it, half way [mm]
    depth : float
        Where the ring is [mm]
    half : float
        Half the stroke [mm]

    Returns
    -------
    bore : float
        Mean diameter [mm]

    Examples
    --------
    >>> round(bore_there(57.20, 57.22, 57.19, 57.21, 15.875, 31.75), 4)
    57.205

    References
    ----------
    .. [1] Straight line between the readings.
    """
    return (top_along + top_across) / 2 + ((middle_along + middle_across) - (top_along + top_across)) / 2 * min(
        1, depth / half
    )


def gap_there(closed_gap: float, there: float, bore: float) -> float:
    """Gap of the ring where it is felt, for the gap that is wanted in the mean bore.

    gap = closed_gap + pi * (there - bore)

    Parameters
    ----------
    closed_gap : float
        Wanted [mm]
    there : float
        Bore where the ring is felt [mm]
    bore : float
        Bore that the ring is made to [mm]

    Returns
    -------
    gap : float
        Gap [mm]

    Examples
    --------
    >>> round(gap_there(0.2, 57.21, 57.2), 4)
    0.2314

    References
    ----------
    .. [1] A ring does not stretch: its gap grows by the bore's circumference (derived).
    """
    return closed_gap + pi * (there - bore)


def correction(gap: float, closed_gap: float) -> float:
    """What the gap is read larger by than in the mean bore.

    more = gap - closed_gap

    Parameters
    ----------
    gap : float
        Where the ring is felt [mm]
    closed_gap : float
        Wanted in the mean bore [mm]

    Returns
    -------
    more : float
        Below 0 smaller [mm]

    Examples
    --------
    >>> round(correction(0.2314, 0.2), 4)
    0.0314

    References
    ----------
    .. [1] Plane geometry.
    """
    return gap - closed_gap


def tilt(play: float, bore: float, length: float) -> float:
    """How far out of square the piston may push the ring, from side to side.

    tilt = play * bore / length

    Parameters
    ----------
    play : float
        Of the piston in the bore, on diameter [mm]
    bore : float
        Bore [mm]
    length : float
        Of the piston in the bore [mm]

    Returns
    -------
    tilt : float
        Along the bore [mm]

    Examples
    --------
    >>> round(tilt(0.05, 57.2, 17.16), 3)
    0.167

    References
    ----------
    .. [1] Plane geometry: the piston aslant from one side of the bore to the other.
    """
    return play * bore / length
