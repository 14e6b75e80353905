"""Room between parts that lie side by side once assembled: one relation each. Lengths in mm."""

from __future__ import annotations

from math import sqrt


def play(hole: float, first: float, second: float) -> float:
    """Play of a stud in a hole, on diameter.

    play = hole - max(first, second)

    Parameters
    ----------
    hole : float
        Hole that the stud passes [mm]
    first : float
        Nut-end thread [mm]
    second : float
        Shank [mm]

    Returns
    -------
    play : float
        Below 0 they share metal [mm]

    Examples
    --------
    >>> play(8.5, 8.0, 6.2)
    0.5

    References
    ----------
    .. [1] Plane geometry.
    """
    return hole - max(first, second)


def plug_play(hole: float, plug: float) -> float:
    """Play of a bonded plug in its passage, on diameter.

    play = hole - plug

    Parameters
    ----------
    hole : float
        Passage as reamed [mm]
    plug : float
        Plug [mm]

    Returns
    -------
    play : float
        Below 0 they share metal [mm]

    Examples
    --------
    >>> round(plug_play(8.50, 8.46), 3)
    0.04

    References
    ----------
    .. [1] Plane geometry.
    """
    return hole - plug


def nut_to_nut(metal: float, major: float, flats: float) -> float:
    """Gap between two nuts whose corners point at each other.

    gap = metal + major - 2 / sqrt(3) * flats

    Parameters
    ----------
    metal : float
        Between the two tapped holes [mm]
    major : float
        Of the tapped holes [mm]
    flats : float
        Nut across flats [mm]

    Returns
    -------
    gap : float
        Below 0 the nuts can't both turn [mm]

    Examples
    --------
    Two M8 nuts, 13 mm across flats, 15.01 mm across corners, 58 mm apart:

    >>> round(nut_to_nut(48.0, 10.0, 13.0), 2)
    42.99

    References
    ----------
    .. [1] Geometry of the hexagon.
    """
    return metal + major - 2 / sqrt(3) * flats


def washer_to_edge(metal: float, major: float, washer: float) -> float:
    """How far a washer stays inside the edge of the deck.

    inside = metal + major / 2 - washer / 2

    Parameters
    ----------
    metal : float
        Between the tapped hole and the edge [mm]
    major : float
        Of the tapped hole [mm]
    washer : float
        Outside diameter [mm]

    Returns
    -------
    inside : float
        Below 0 it hangs over [mm]

    Examples
    --------
    >>> round(washer_to_edge(8.3, 11.95, 16.0), 3)
    6.275

    References
    ----------
    .. [1] Plane geometry.
    """
    return metal + major / 2 - washer / 2


def plug_to_stud(metal: float, passage: float, plug: float) -> float:
    """Metal between a plug, at its widest, and the nearest tapped hole.

    wall = metal + passage / 2 - plug / 2

    Parameters
    ----------
    metal : float
        Between the passage and the tapped hole [mm]
    passage : float
        Diameter of the passage [mm]
    plug : float
        Widest diameter of the plug [mm]

    Returns
    -------
    wall : float
        Below 0 the tap cuts into the plug [mm]

    Examples
    --------
    >>> plug_to_stud(5.0, 8.5, 12.5)
    3.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return metal + passage / 2 - plug / 2
