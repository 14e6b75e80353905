"""The turned washer: wide enough for the head's alloy, thick enough not to dish. Lengths in mm."""

from __future__ import annotations

from math import ceil, pi, sqrt


def yield_load(strength: float, area: float) -> float:
    """Load at which the weakest section of a stud yields: no stud pulls harder, whatever the heat.

    load = strength * area

    Parameters
    ----------
    strength : float
        Yield or proof strength [MPa]
    area : float
        Weakest section [mm^2]

    Returns
    -------
    load : float
        Load [N]

    Examples
    --------
    >>> round(yield_load(900.0, 30.19))
    27171

    References
    ----------
    .. [1] Definition of the yield strength.
    """
    return strength * area


def outside(hole: float, load: float, bearing: float, nut: float) -> float:
    """Outside that spreads the load over what the head bears hot, and takes all of the nut, in half millimetres.

    diameter = ceil(2 * max(nut, sqrt(hole^2 + 4 * load / (pi * bearing)))) / 2

    Parameters
    ----------
    hole : float
        Hole in the head [mm]
    load : float
        On the washer [N]
    bearing : float
        Pressure that the head stands hot [MPa]
    nut : float
        Diameter on which the nut bears [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> outside(9.0, 22000.0, 107.2, 11.6), outside(9.0, 22000.0, 1000.0, 11.6)
    (19.0, 12.0)

    References
    ----------
    .. [1] Pressure evenly over the ring outside the hole.
    """
    return ceil(2 * max(nut, sqrt(hole**2 + 4 * load / (pi * bearing)))) / 2


def pressure(load: float, outside: float, hole: float) -> float:
    """Pressure on the head under the washer.

    pressure = load / (pi / 4 * (outside^2 - hole^2))

    Parameters
    ----------
    load : float
        On the washer [N]
    outside : float
        Of the washer [mm]
    hole : float
        Hole in the head [mm]

    Returns
    -------
    pressure : float
        Pressure [MPa]

    Examples
    --------
    >>> round(pressure(22000.0, 18.5, 9.0), 1)
    107.2

    References
    ----------
    .. [1] Pressure evenly over the ring outside the hole.
    """
    return load / (pi / 4 * (outside**2 - hole**2))


def moment(pressure: float, outside: float, nut: float) -> float:
    """Bending moment at the edge of the nut, by length of that edge.

    moment = pressure * (outside - nut)^2 * (2 * outside + nut) / (24 * nut)

    Parameters
    ----------
    pressure : float
        On the head [MPa]
    outside : float
        Of the washer [mm]
    nut : float
        Bearing face of the nut, diameter [mm]

    Returns
    -------
    moment : float
        Moment by length [N]

    Examples
    --------
    A strip alone, 3.45 mm long under 107.2 MPa, has 638 N:

    >>> round(moment(107.2, 18.5, 11.6))
    891

    References
    ----------
    .. [1] Statics of a narrow sector of the ring that stands out beyond the nut, held at its edge; what the ring
       carries round itself is left out, on the safe side (derived).
    """
    return pressure * (outside - nut) ** 2 * (2 * outside + nut) / (24 * nut)


def thickness(moment: float, safety: float, strength: float) -> float:
    """Thickness by bending at the edge of the nut, in half millimetres.

    thickness = ceil(2 * max(2, sqrt(6 * moment * safety / strength))) / 2

    Parameters
    ----------
    moment : float
        By length of the edge [N]
    safety : float
        Against yielding [1]
    strength : float
        Yield strength [MPa]

    Returns
    -------
    thickness : float
        Thickness [mm]

    Examples
    --------
    >>> thickness(891.0, 1.5, 305.0)
    5.5

    References
    ----------
    .. [1] Elastic bending of a plate; at least 2 mm is common practice, no source.
    """
    return ceil(2 * max(2, sqrt(6 * moment * safety / strength))) / 2


def hardness(strength: float) -> float:
    """Hardness that goes with a tensile strength of steel.

    hardness = strength / 3.2

    Parameters
    ----------
    strength : float
        Tensile [MPa]

    Returns
    -------
    hardness : float
        Vickers hardness [1]

    Examples
    --------
    >>> round(hardness(580.0))
    181

    References
    ----------
    .. [1] ISO 18265, steel (memory).
    """
    return strength / 3.2


def longer(thickness: float, washer: float) -> float:
    """How much longer a stud comes out with the turned washer than with the one that it is sized for.

    more = thickness - washer

    Parameters
    ----------
    thickness : float
        Of the turned washer [mm]
    washer : float
        Of the other [mm]

    Returns
    -------
    more : float
        Length [mm]

    Examples
    --------
    >>> round(longer(5.5, 1.6), 1)
    3.9

    References
    ----------
    .. [1] Plane geometry.
    """
    return thickness - washer
