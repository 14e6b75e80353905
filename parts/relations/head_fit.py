"""How the other head's chamber, spark plug and valve gear fit this barrel. Lengths in mm."""

from __future__ import annotations


def mouth_over_bore(mouth: float, bore: float) -> float:
    """How far the chamber's mouth is wider than the bore.

    over = mouth - bore

    Parameters
    ----------
    mouth : float
        Diameter of the chamber at the gasket [mm]
    bore : float
        Bore [mm]

    Returns
    -------
    over : float
        On diameter; below 0 the head's face stands over the piston [mm]

    Examples
    --------
    >>> round(mouth_over_bore(58.0, 57.2), 2)
    0.8

    References
    ----------
    .. [1] Plane geometry.
    """
    return mouth - bore


def gasket_in_chamber(mouth: float, gasket: float, shift: float) -> float:
    """How far the gasket's edge stands bare in the chamber, the head to one side.

    bare = (mouth - gasket) / 2 + shift

    Parameters
    ----------
    mouth : float
        Diameter of the chamber at the gasket [mm]
    gasket : float
        Bore of the gasket [mm]
    shift : float
        How far the head can lie off the bore's centre [mm]

    Returns
    -------
    bare : float
        Below 0 it is covered [mm]

    Examples
    --------
    >>> round(gasket_in_chamber(58.0, 58.2, 0.3), 2)
    0.2

    References
    ----------
    .. [1] Plane geometry.
    """
    return (mouth - gasket) / 2 + shift


def valve_room(tried: float, drop: float) -> float:
    """Room from a valve to the piston, with the new gasket and the skim.

    room = tried - drop

    Parameters
    ----------
    tried : float
        New head on the old gasket, before the skim [mm]
    drop : float
        How far the head comes down [mm]

    Returns
    -------
    room : float
        Below 0 they meet [mm]

    Examples
    --------
    >>> round(valve_room(2.0, 0.52), 2)
    1.48

    References
    ----------
    .. [1] Plane geometry; a valve at a slant gains a little.
    """
    return tried - drop


def push_rod_change(drop: float) -> float:
    """By how much the push rods want to be longer.

    change = -drop

    Parameters
    ----------
    drop : float
        How far the head comes down [mm]

    Returns
    -------
    change : float
        Below 0 shorter [mm]

    Examples
    --------
    >>> push_rod_change(0.52)
    -0.52

    References
    ----------
    .. [1] Plane geometry, the rod upright.
    """
    return -drop


def chain_slack(drop: float) -> float:
    """Length of chain that comes free, on both its runs together.

    slack = 2 * drop

    Parameters
    ----------
    drop : float
        How far the head comes down [mm]

    Returns
    -------
    slack : float
        Below 0 the chain is too short by it [mm]

    Examples
    --------
    >>> chain_slack(0.52)
    1.04

    References
    ----------
    .. [1] Plane geometry, both runs upright.
    """
    return 2 * drop


def plug_short(hole: float, reach: float) -> float:
    """How far a spark plug's thread ends short of the chamber.

    short = hole - reach

    Parameters
    ----------
    hole : float
        Length of the thread in the head [mm]
    reach : float
        Of the spark plug [mm]

    Returns
    -------
    short : float
        Below 0 it stands into the chamber [mm]

    Examples
    --------
    >>> round(plug_short(13.2, 12.7), 1)
    0.5

    References
    ----------
    .. [1] Plane geometry.
    """
    return hole - reach
