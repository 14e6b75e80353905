"""Turning a slender bar: cutting force, deflection, how long a section may be. Lengths in mm, forces in N."""

from __future__ import annotations

from math import cbrt, ceil, pi, sqrt


def specific_force(kc11: float, feed: float, mc: float) -> float:
    """Specific cutting force at a thin chip.

    specific = kc11 * feed^(-mc)

    Parameters
    ----------
    kc11 : float
        At a chip of 1 by 1 mm [MPa]
    feed : float
        Feed per turn: thickness of the chip of a tool square to the work [mm]
    mc : float
        Kienzle's exponent [1]

    Returns
    -------
    specific : float
        kc [MPa]

    Examples
    --------
    >>> round(specific_force(2220, 0.1, 0.14))
    3064

    References
    ----------
    .. [1] Kienzle; Tabellenbuch Metall (memory, 15 % either way).
    """
    return float(kc11 * feed**-mc)


def cutting_force(specific: float, depth: float, feed: float) -> float:
    """Cutting force.

    force = specific * depth * feed

    Parameters
    ----------
    specific : float
        Specific cutting force [MPa]
    depth : float
        Depth of cut [mm]
    feed : float
        Feed per turn [mm]

    Returns
    -------
    force : float
        Down on the tool [N]

    Examples
    --------
    >>> round(cutting_force(3064, 0.5, 0.1), 1)
    153.2

    References
    ----------
    .. [1] Kienzle; Tabellenbuch Metall (memory, 15 % either way).
    """
    return specific * depth * feed


def push_off(share: float, force: float) -> float:
    """Force with which the tool pushes the bar away.

    push = share * force

    Parameters
    ----------
    share : float
        Share of the cutting force [1]
    force : float
        Cutting force [N]

    Returns
    -------
    push : float
        Square to the bar [N]

    Examples
    --------
    >>> round(push_off(0.4, 153.2), 1)
    61.3

    References
    ----------
    .. [1] Textbooks of metal cutting: 0.4 of the cutting force, more where the nose cuts (memory).
    """
    return share * force


def second_moment(diameter: float) -> float:
    """Stiffness of a round section in bending.

    moment = pi * diameter^4 / 64

    Parameters
    ----------
    diameter : float
        Diameter turned [mm]

    Returns
    -------
    moment : float
        Second moment of area [mm^4]

    Examples
    --------
    >>> round(second_moment(10), 1)
    490.9

    References
    ----------
    .. [1] Plane geometry.
    """
    return pi * diameter**4 / 64


def deflection_chuck(push: float, length: float, modulus: float, moment: float) -> float:
    """Bend of a bar held in the chuck alone, tool at its free end.

    deflection = push * length^3 / (3 * modulus * moment)

    Parameters
    ----------
    push : float
        Force of the tool on the bar [N]
    length : float
        Free length [mm]
    modulus : float
        Modulus of elasticity [MPa]
    moment : float
        Second moment of area [mm^4]

    Returns
    -------
    deflection : float
        Bend; the diameter is wrong by twice that [mm]

    Examples
    --------
    >>> round(deflection_chuck(61.3, 120, 210000, 490.9), 3)
    0.343

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, table A-9; beam tables (memory): cantilever.
    """
    return push * length**3 / (3 * modulus * moment)


def deflection_tailstock(push: float, length: float, modulus: float, moment: float) -> float:
    """Bend of a bar between chuck and centre, tool where it bends most.

    deflection = (17 - 12 * sqrt(2)) / 3 * push * length^3 / (modulus * moment)

    Parameters
    ----------
    push : float
        Force of the tool on the bar [N]
    length : float
        Free length [mm]
    modulus : float
        Modulus of elasticity [MPa]
    moment : float
        Second moment of area [mm^4]

    Returns
    -------
    deflection : float
        Bend; the diameter is wrong by twice that [mm]

    Examples
    --------
    >>> round(deflection_tailstock(61.3, 120, 210000, 490.9), 4)
    0.0101

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, table A-9; beam tables (memory): fixed at one end, supported at
        the other, 0.0098 F L^3/(E I) at 0.586 L.
    """
    return (17 - 12 * sqrt(2)) / 3 * push * length**3 / (modulus * moment)


def reach_chuck(taper: float, modulus: float, moment: float, push: float) -> float:
    """Greatest free length that keeps the taper inside its limit, chuck alone.

    reach = cbrt(3 * taper / 2 * modulus * moment / push)

    Parameters
    ----------
    taper : float
        Limit on diameter [mm]
    modulus : float
        Modulus of elasticity [MPa]
    moment : float
        Second moment of area [mm^4]
    push : float
        Force of the tool on the bar [N]

    Returns
    -------
    reach : float
        From chuck to tool [mm]

    Examples
    --------
    >>> round(reach_chuck(0.684, 210000, 490.9, 61.3))
    120

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, table A-9; beam tables (memory): cantilever, solved for the
        length.
    """
    return cbrt(3 * taper / 2 * modulus * moment / push)


def reach_tailstock(taper: float, modulus: float, moment: float, push: float) -> float:
    """Greatest free length that keeps the taper inside its limit, chuck and centre.

    reach = cbrt(3 / (17 - 12 * sqrt(2)) * taper / 2 * modulus * moment / push)

    Parameters
    ----------
    taper : float
        Limit on diameter [mm]
    modulus : float
        Modulus of elasticity [MPa]
    moment : float
        Second moment of area [mm^4]
    push : float
        Force of the tool on the bar [N]

    Returns
    -------
    reach : float
        From chuck to centre [mm]

    Examples
    --------
    >>> round(reach_tailstock(0.0202, 210000, 490.9, 61.3))
    120

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, table A-9; beam tables (memory): fixed at one end, supported at
        the other, solved for the length.
    """
    return cbrt(3 / (17 - 12 * sqrt(2)) * taper / 2 * modulus * moment / push)


def sections(length: float, reach: float) -> float:
    """Least number of sections in which a slender length is turned.

    sections = max(1, ceil(length / reach))

    Parameters
    ----------
    length : float
        Whole length of the diameter [mm]
    reach : float
        Greatest free length [mm]

    Returns
    -------
    sections : float
        Each finished before the bar is drawn out further [1]

    Examples
    --------
    >>> sections(60, 22)
    3.0

    References
    ----------
    .. [1] The next whole number.
    """
    return float(max(1, ceil(length / reach)))


def section_length(length: float, sections: float) -> float:
    """Free length of one section.

    free = length / sections

    Parameters
    ----------
    length : float
        Whole length of the diameter [mm]
    sections : float
        Number of sections [1]

    Returns
    -------
    free : float
        From support to tool [mm]

    Examples
    --------
    >>> round(section_length(60, 3), 1)
    20.0

    References
    ----------
    .. [1] Equal parts.
    """
    return length / sections


def slenderness(length: float, diameter: float) -> float:
    """Free length against diameter.

    ratio = length / diameter

    Parameters
    ----------
    length : float
        Free length [mm]
    diameter : float
        Diameter turned [mm]

    Returns
    -------
    ratio : float
        L/D [1]

    Examples
    --------
    >>> round(slenderness(37.1, 6.2), 2)
    5.98

    References
    ----------
    .. [1] Workshop rule: 3 in the chuck, 6 to 10 with a centre, then a steady (memory).
    """
    return length / diameter
