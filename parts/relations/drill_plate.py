"""The drill plate: bushes over the new holes, a spigot in the bore. Lengths in mm."""

from __future__ import annotations

from math import ceil, hypot


def spigot_diameter(bore: float, play: float) -> float:
    """Spigot that goes into the bore without shake.

    diameter = bore - play

    Parameters
    ----------
    bore : float
        Bore of the barrel [mm]
    play : float
        On diameter [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(spigot_diameter(57.2, 0.03), 2)
    57.17

    References
    ----------
    .. [1] A close sliding fit by hand: common practice, no source.
    """
    return bore - play


def spigot_length(bore: float) -> float:
    """Length of the spigot: enough to be square by its shoulder, clear of the piston.

    length = max(3, bore / 8)

    Parameters
    ----------
    bore : float
        Bore of the barrel [mm]

    Returns
    -------
    length : float
        Below the plate [mm]

    Examples
    --------
    >>> spigot_length(57.2)
    7.15

    References
    ----------
    .. [1] Common practice, no source.
    """
    return max(3.0, bore / 8)


def plate_diameter(reach: float, wall: float) -> float:
    """Diameter of the plate, with metal outside each bush.

    diameter = ceil(2 * (reach + wall))

    Parameters
    ----------
    reach : float
        Furthest edge of a bush from the centre of the bore [mm]
    wall : float
        Metal outside it [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> plate_diameter(50.7, 5.0)
    112

    References
    ----------
    .. [1] Common practice, no source.
    """
    return ceil(2 * (reach + wall))


def edge_of_bush(x: float, y: float, bush: float) -> float:
    """Furthest edge of a bush from the centre of the bore.

    reach = sqrt(x^2 + y^2) + bush / 2

    Parameters
    ----------
    x : float
        Of its hole [mm]
    y : float
        Of its hole [mm]
    bush : float
        Outside diameter [mm]

    Returns
    -------
    reach : float
        Radius [mm]

    Examples
    --------
    >>> edge_of_bush(30.0, 40.0, 18.0)
    59.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return hypot(x, y) + bush / 2


def bush_wall(x: float, y: float, bush: float, other_x: float, other_y: float, other: float) -> float:
    """Metal of the plate between two bushes.

    wall = sqrt((x - other_x)^2 + (y - other_y)^2) - (bush + other) / 2

    Parameters
    ----------
    x : float
        Of one hole [mm]
    y : float
        Of one hole [mm]
    bush : float
        Its outside diameter [mm]
    other_x : float
        Of the other hole [mm]
    other_y : float
        Of the other hole [mm]
    other : float
        Its outside diameter [mm]

    Returns
    -------
    wall : float
        Below 0 where they meet [mm]

    Examples
    --------
    >>> bush_wall(30.0, 29.0, 18.0, 30.0, -29.0, 18.0)
    40.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return hypot(x - other_x, y - other_y) - (bush + other) / 2


def drill_play(over: float, under: float) -> float:
    """Greatest play of a drill in its bush, on diameter.

    play = over + under

    Parameters
    ----------
    over : float
        By which the bush may be larger than the drill's nominal diameter [mm]
    under : float
        By which the drill may be smaller [mm]

    Returns
    -------
    play : float
        On diameter [mm]

    Examples
    --------
    Bush F7 and drill h8, both over 10 to 18 mm:

    >>> drill_play(0.034, 0.027)
    0.061

    References
    ----------
    .. [1] ISO 286-2, F7; ISO 235, drills h8 (both from memory).
    """
    return over + under


def drift(play: float, length: float, deep: float) -> float:
    """How far a drill may stray at the bottom of its hole: it lies aslant from one side of its bush to the other.

    drift = play / 2 + play * deep / length

    Parameters
    ----------
    play : float
        Greatest play in the bush, on diameter [mm]
    length : float
        Of the bush [mm]
    deep : float
        From the bush's lower end to the bottom of the hole [mm]

    Returns
    -------
    drift : float
        Sideways [mm]

    Examples
    --------
    >>> round(drift(0.061, 20.0, 21.0), 4)
    0.0945

    References
    ----------
    .. [1] Plane geometry: a straight drill between the two ends of the bush.
    """
    return play / 2 + play * deep / length


def hole_off(drift: float, spigot: float, placed: float) -> float:
    """How far a hole drilled through the plate may come out from its place, all at its worst.

    off = drift + spigot / 2 + placed

    Parameters
    ----------
    drift : float
        Of the drill [mm]
    spigot : float
        Play of the spigot in the bore, on diameter [mm]
    placed : float
        By which the bush's own hole may be out of place [mm]

    Returns
    -------
    off : float
        Sideways [mm]

    Examples
    --------
    >>> round(hole_off(0.0946, 0.03, 0.02), 4)
    0.1296

    References
    ----------
    .. [1] Sum of the worst of each.
    """
    return drift + spigot / 2 + placed


def worst(**holes: float) -> float:
    """The hole that comes out furthest from its place.

    off = greatest of the holes

    Parameters
    ----------
    **holes : float
        Of each hole [mm]

    Returns
    -------
    off : float
        Sideways [mm]

    Examples
    --------
    >>> worst(hole_1=0.12, hole_2=0.1)
    0.12

    References
    ----------
    .. [1] The worst of them.
    """
    return max(holes.values())
