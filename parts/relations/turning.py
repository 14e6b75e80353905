"""Turning a slender bar: cutting force, deflection, how long a section may be. Lengths in mm, forces in N."""

from __future__ import annotations

from math import acos, cbrt, ceil, cos, pi, sqrt


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


def whole_length(length: float, end: float) -> float:
    """Bar between chuck and centre.

    whole = length + end

    Parameters
    ----------
    length : float
        Slender diameter [mm]
    end : float
        Other diameter between it and the centre [mm]

    Returns
    -------
    whole : float
        Length [mm]

    Examples
    --------
    >>> round(whole_length(37.1, 22), 1)
    59.1

    References
    ----------
    .. [1] Plane geometry.
    """
    return length + end


def held(length: float, end: float, moment: float, end_moment: float) -> float:
    """How the centre holds a bar of two diameters: for one diameter the cube of its length.

    held = (length + end)^3 - end^3 + end^3 * moment / end_moment

    Parameters
    ----------
    length : float
        Slender diameter, from the chuck to where the bar's end begins [mm]
    end : float
        Other diameter between it and the centre [mm]
    moment : float
        Second moment of area of the slender diameter [mm^4]
    end_moment : float
        Second moment of area of the end [mm^4]

    Returns
    -------
    held : float
        Three times the slender stiffness over what a force of 1 N at the centre bends the bar by there [mm^3]

    Examples
    --------
    >>> held(40, 20, 70, 140), held(60, 0, 70, 70)
    (212000.0, 216000.0)

    References
    ----------
    .. [1] Bernoulli beam, energy theorem: the square of the moment over each length in turn (derived).
    """
    return (length + end) ** 3 - end**3 + end**3 * moment / end_moment


def worst_place(section: float, whole: float, held: float) -> float:
    """Where between chuck and centre the tool bends the bar most, inside the section by the chuck that it turns.

    place = section if held > 1.056 * whole^3 else min(section, whole * (5 / 3 - 2 * sqrt(7) / 3 * cos(acos(max(-1,
    (10 / 27 - held / whole^3) * (9 / 7)^1.5)) / 3)))

    Parameters
    ----------
    section : float
        Length that the tool turns, from the chuck [mm]
    whole : float
        From chuck to centre [mm]
    held : float
        How the centre holds the bar [mm^3]

    Returns
    -------
    place : float
        From the chuck [mm]

    Examples
    --------
    [1]_ has 0.586 of the length for a bar of one diameter:

    >>> round(worst_place(100, 100, 100**3), 1), worst_place(20, 100, 100**3)
    (58.6, 20)

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, table A-9, for one diameter; root of the slope of the bend (derived).
    """
    if held > 1.056 * whole**3:
        return section
    return min(
        section,
        whole * (5 / 3 - 2 * sqrt(7) / 3 * cos(acos(max(-1, (10 / 27 - held / whole**3) * (9 / 7) ** 1.5)) / 3)),
    )


def deflection_tailstock(push: float, place: float, whole: float, held: float, modulus: float, moment: float) -> float:
    """Bend of a bar between chuck and centre under the tool, the whole bar as it stands.

    deflection = push / (3 * modulus * moment) * (place^3 - (place^2 * (3 * whole - place))^2 / (4 * held))

    Parameters
    ----------
    push : float
        Force of the tool on the bar [N]
    place : float
        Of the tool, from the chuck, on the slender diameter [mm]
    whole : float
        From chuck to centre [mm]
    held : float
        How the centre holds the bar [mm^3]
    modulus : float
        Modulus of elasticity [MPa]
    moment : float
        Second moment of area of the slender diameter [mm^4]

    Returns
    -------
    deflection : float
        Bend; the diameter is wrong by twice that [mm]

    Examples
    --------
    [1]_ has 0.0098 F L^3/(E I) at 0.586 L for a bar of one diameter:

    >>> round(deflection_tailstock(61.3, 70.3, 120, 120**3, 210000, 490.9), 4)
    0.0101

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, table A-9, for one diameter; Bernoulli beam, fixed in the chuck and
        held by the centre (derived).
    """
    return push / (3 * modulus * moment) * (place**3 - (place**2 * (3 * whole - place)) ** 2 / (4 * held))


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


def sections_tailstock(
    taper: float, push: float, length: float, whole: float, held: float, modulus: float, moment: float
) -> float:
    """Least number of sections in which a slender length is turned between chuck and centre.

    sections = the least whole number at which twice the bend in one section is no more than the taper

    Parameters
    ----------
    taper : float
        Limit on diameter [mm]
    push : float
        Force of the tool on the bar [N]
    length : float
        Whole length of the diameter [mm]
    whole : float
        From chuck to centre [mm]
    held : float
        How the centre holds the bar [mm^3]
    modulus : float
        Modulus of elasticity [MPa]
    moment : float
        Second moment of area of the slender diameter [mm^4]

    Returns
    -------
    sections : float
        Each finished by the chuck before the bar is drawn out further [1]

    Examples
    --------
    0.0101 mm of bend are 0.0202 mm on diameter:

    >>> bar = {"length": 120, "whole": 120, "held": 120**3, "modulus": 210000, "moment": 490.9}
    >>> sections_tailstock(0.0205, 61.3, **bar), sections_tailstock(0.0195, 61.3, **bar)
    (1.0, 2.0)

    References
    ----------
    .. [1] The next whole number; the bar is longest out of the chuck, and bends most, in the last section.
    """
    for sections in range(1, MOST_SECTIONS):
        place = worst_place(length / sections, whole, held)
        if 2 * deflection_tailstock(push, place, whole, held, modulus, moment) <= taper:
            return float(sections)
    return float(MOST_SECTIONS)


MOST_SECTIONS = 1000


def taken(sections: float) -> float:
    """Number of sections with the support that the lathe has.

    count = sections

    Parameters
    ----------
    sections : float
        Least number of sections [1]

    Returns
    -------
    count : float
        The same [1]

    Examples
    --------
    >>> taken(2.0)
    2.0

    References
    ----------
    .. [1] Taken over unchanged.
    """
    return sections


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
