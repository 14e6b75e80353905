"""The ring that is designed: by bore, groove, saw and what its iron stands. Lengths in mm."""

from __future__ import annotations

from math import ceil, floor, pi, sqrt
from typing import TYPE_CHECKING

from parts.relations.contour import free_gap_of
from parts.relations.mandrel import opened_stress, round_diameter, round_opened_stress

if TYPE_CHECKING:
    from collections.abc import Callable

SECANTS = 6
STEP = 0.05  # mm, of a radial thickness
FINE = 1e-9  # of a step, that a figure may lie past it and count as on it


def room_for_thickness(root: float, bore: float, room: float) -> float:
    """Radial thickness that leaves room behind the ring in its groove.

    thickness = (bore - root) / 2 - room

    Parameters
    ----------
    root : float
        Diameter at the root of the groove [mm]
    bore : float
        Bore [mm]
    room : float
        Wanted behind the ring [mm]

    Returns
    -------
    thickness : float
        Most that the groove takes [mm]

    Examples
    --------
    [1]_ makes the groove of a ring of 3.4 mm 3.8 mm deep:

    >>> round(room_for_thickness(100 - 2 * 3.8, 100, 0.4), 1)
    3.4

    References
    ----------
    .. [1] Khurmi and Gupta, A Textbook of Machine Design, ch. 32: groove deeper than the ring by 0.4 mm.
    """
    return (bore - root) / 2 - room


def thickness_over_piston(bore: float, modulus: float, strength: float, share: float) -> float:
    """Thickest ring whose stresses at work and over the piston together stay within what its iron stands.

    thickness = bore / (1 + sqrt(32 * modulus / (3 * pi * share * strength)))

    Parameters
    ----------
    bore : float
        Bore [mm]
    modulus : float
        Of the ring iron [MPa]
    strength : float
        Least bending strength of the iron [MPa]
    share : float
        Both stresses together, over that strength [1]

    Returns
    -------
    thickness : float
        Radial thickness [mm]

    Examples
    --------
    The two stresses of IS 8422-2's ring for 50 mm are 291 and 362 MPa:

    >>> round(thickness_over_piston(50, 100000, 300, (291.1 + 361.5) / 300), 2)
    2.1

    References
    ----------
    .. [1] Thin curved bar: the stress at work and that over the piston, opened to 8 times the thickness, together do
        not hang on the free gap (derived).
    """
    return bore / (1 + sqrt(32 * modulus / (3 * pi * share * strength)))


def thickness(room: float, bore: float, piston: float) -> float:
    """Radial thickness of a ring, in steps of 0.05 mm.

    thickness = 0.05 * floor(min(bore / 23.7 + 0.025, room, piston) / 0.05)

    Parameters
    ----------
    room : float
        Most that the groove takes [mm]
    bore : float
        Bore [mm]
    piston : float
        Most that goes over the piston [mm]

    Returns
    -------
    thickness : float
        Radial thickness; under a sixtieth of the bore it is no ring [mm]

    Examples
    --------
    [1]_ has 2.1 for 50 mm, 2.55 for 60 and 2.7 for 64:

    >>> [round(thickness(9, bore, 9), 2) for bore in (50, 60, 64)]
    [2.1, 2.55, 2.7]

    References
    ----------
    .. [1] IS 8422-2:1977, table 1: the bore over 23.3 to 24.1, no more than groove and piston take.
    """
    found = STEP * floor(min(bore / 23.7 + STEP / 2, room, piston) / STEP + FINE)
    if found < bore / 60:
        raise ValueError(f"{found} mm is too thin for {bore} mm")
    return found


def width(groove: float, least: float, most: float) -> float:
    """Axial width of a ring: the groove less the middle of the play that it may have.

    width = groove - (least + most) / 2

    Parameters
    ----------
    groove : float
        Height of the groove [mm]
    least : float
        Play that a ring in use wants [mm]
    most : float
        Play that it may have [mm]

    Returns
    -------
    width : float
        Axial width [mm]

    Examples
    --------
    >>> round(width(2.42, 0.02, 0.08), 2)
    2.37

    References
    ----------
    .. [1] The middle of the rule on play in the groove: common practice, no source.
    """
    return groove - (least + most) / 2


def gap_for_bore(bore: float) -> float:
    """Closed gap by the bore alone, in steps of 0.01 mm.

    gap = 0.01 * ceil(0.3 * bore)

    Parameters
    ----------
    bore : float
        Bore [mm]

    Returns
    -------
    gap : float
        Closed gap, cold [mm]

    Examples
    --------
    [1]_ takes 0.3 mm for 100 mm:

    >>> round(gap_for_bore(100), 2)
    0.3

    References
    ----------
    .. [1] Khurmi and Gupta, A Textbook of Machine Design, ch. 32: 0.002 to 0.004 of the bore, the middle of it.
    """
    return 0.01 * ceil(0.3 * bore - FINE)


def gap_for_heat(
    bore: float, ring_expansion: float, ring: float, wall_expansion: float, wall: float, left: float
) -> float:
    """Closed gap, cold, of which enough is left with the ring hot in the hot bore.

    gap = (left + pi * bore * (ring_expansion * (ring - 20) - wall_expansion * (wall - 20))) / (1 + ring_expansion *
        (ring - 20))

    Parameters
    ----------
    bore : float
        Bore [mm]
    ring_expansion : float
        Of the ring iron [1/K]
    ring : float
        Temperature of the ring [degC]
    wall_expansion : float
        Of the barrel or its liner [1/K]
    wall : float
        Temperature of the bore wall [degC]
    left : float
        Gap that is to be left hot [mm]

    Returns
    -------
    gap : float
        Closed gap, cold [mm]

    Examples
    --------
    >>> round(gap_for_heat(57.2, 11e-6, 200, 11.5e-6, 160, 0.05), 4)
    0.1163

    References
    ----------
    .. [1] Thermal expansion of ring and bore, solved for the cold gap.
    """
    grown = ring_expansion * (ring - 20)
    return (left + pi * bore * (grown - wall_expansion * (wall - 20))) / (1 + grown)


def wider_gap(bore: float, heat: float) -> float:
    """Closed gap that is wide enough by the bore and for the heat, in steps of 0.01 mm.

    gap = max(bore, 0.01 * ceil(100 * heat))

    Parameters
    ----------
    bore : float
        Gap by the bore alone [mm]
    heat : float
        Gap of which enough is left hot [mm]

    Returns
    -------
    gap : float
        Closed gap, cold [mm]

    Examples
    --------
    >>> wider_gap(0.18, 0.1163), round(wider_gap(0.18, 0.2163), 2)
    (0.18, 0.22)

    References
    ----------
    .. [1] The worst of both.
    """
    return max(bore, 0.01 * ceil(100 * heat - FINE))


def share_of_bore(bore: float, share: float) -> float:
    """Length that is a share of the bore.

    length = share * bore

    Parameters
    ----------
    bore : float
        Bore [mm]
    share : float
        Of it [1]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(share_of_bore(57.2, 0.006), 3)
    0.343

    References
    ----------
    .. [1] A limit of a rule on rings: common practice, no source.
    """
    return share * bore


def saw_for_gap(wanted: float, most: float, **saws: float) -> float:
    """Slitting saw for a ring: its width becomes the gap, so that the blank is turned to the bore.

    slit = the narrowest saw from wanted to most; else the widest under wanted; else the narrowest

    Parameters
    ----------
    wanted : float
        Least that the closed gap is to be [mm]
    most : float
        Most that it is to be [mm]
    **saws : float
        Widths of the saws [mm]

    Returns
    -------
    slit : float
        Width of the saw [mm]

    Examples
    --------
    >>> saw_for_gap(0.18, 0.34, a=0.3, b=0.5), saw_for_gap(0.18, 0.18, a=0.15, b=0.5), saw_for_gap(0.1, 0.2, a=0.5)
    (0.3, 0.15, 0.5)

    References
    ----------
    .. [1] A ring does not stretch (derived); which saw is taken is common practice, no source.
    """
    narrow = [saw for saw in saws.values() if saw <= most + FINE]
    enough = [saw for saw in narrow if saw >= wanted - FINE]
    return min(enough, default=max(narrow, default=min(saws.values())))


def gap_by_saw(slit: float, wanted: float, most: float) -> float:
    """Closed gap of a ring that is split by this saw.

    gap = slit if wanted <= slit <= most else wanted

    Parameters
    ----------
    slit : float
        Width of the saw [mm]
    wanted : float
        Least that the closed gap is to be [mm]
    most : float
        Most that it is to be [mm]

    Returns
    -------
    gap : float
        Closed gap, cold [mm]

    Examples
    --------
    >>> gap_by_saw(0.3, 0.18, 0.34), gap_by_saw(0.5, 0.18, 0.34)
    (0.3, 0.18)

    References
    ----------
    .. [1] A ring does not stretch: split by as much as its gap it is turned to the bore (derived).
    """
    return slit if wanted - FINE <= slit <= most + FINE else wanted


def gap_for_pressure(
    pressure: float, bore: float, radius: float, thickness: float, modulus: float, closed: float
) -> float:
    """Free gap of a ring that presses on the bore by this much.

    free_gap = closed + 3 * pi * radius * (1 - sqrt(max(0, 1 - 19.2 * pressure * bore * radius^2 / (modulus *
        thickness^3)))) / 1.6

    Parameters
    ----------
    pressure : float
        Mean pressure on the bore [MPa]
    bore : float
        Bore [mm]
    radius : float
        Mean radius in the bore [mm]
    thickness : float
        Radial thickness [mm]
    modulus : float
        Of the ring iron [MPa]
    closed : float
        Closed gap [mm]

    Returns
    -------
    free_gap : float
        On the mean line [mm]

    Examples
    --------
    The ring of [1]_ for 60 mm, which presses by 0.185 MPa, opens by 0.1495 of the bore before the correction for
    large opening, which adds 2.8 %:

    >>> round(gap_for_pressure(0.185, 60, 28.725, 2.55, 100000, 0) / 60, 4)
    0.1537

    References
    ----------
    .. [1] IS 8422-2:1977, table 1, for the pressure; thin curved bar, solved for the free gap (derived).
    """
    opened = 19.2 * pressure * bore * radius**2 / (modulus * thickness**3)
    return closed + 3 * pi * radius * (1 - sqrt(max(0, 1 - opened))) / 1.6


def gap_for_work(
    strength: float, share: float, modulus: float, thickness: float, radius: float, closed: float
) -> float:
    """Free gap at which the ring works at the stress that its iron stands.

    free_gap = closed + 3 * pi * radius * (1 - sqrt(max(0, 1 - 3.2 * share * strength * radius / (modulus *
        thickness)))) / 1.6

    Parameters
    ----------
    strength : float
        Least bending strength of the iron [MPa]
    share : float
        Of it, that rings work at [1]
    modulus : float
        Of the ring iron [MPa]
    thickness : float
        Radial thickness [mm]
    radius : float
        Mean radius in the bore [mm]
    closed : float
        Closed gap [mm]

    Returns
    -------
    free_gap : float
        On the mean line [mm]

    Examples
    --------
    >>> round(gap_for_work(300, 0.96, 100000, 2.4, 27.4, 0.2), 2)
    8.93

    References
    ----------
    .. [1] Thin curved bar, solved for the free gap (derived).
    """
    opened = 3.2 * share * strength * radius / (modulus * thickness)
    return closed + 3 * pi * radius * (1 - sqrt(max(0, 1 - opened))) / 1.6


def gap_for_contour(
    strength: float,
    share: float,
    modulus: float,
    thickness: float,
    radius: float,
    closed: float,
    outside: float,
    set_fraction: float,
) -> float:
    """Free gap at which the contoured mandrel opens the ring to the stress that its iron stands.

    free_gap = that of the exact shape of the ring parameter (1 - radius * (2 / (outside - thickness) - 2 * share *
        strength * set_fraction / (modulus * thickness))) / 2

    Parameters
    ----------
    strength : float
        Least bending strength of the iron [MPa]
    share : float
        Of it, that rings work at [1]
    modulus : float
        Of the ring iron, cold [MPa]
    thickness : float
        Radial thickness [mm]
    radius : float
        Mean radius in the bore [mm]
    closed : float
        Closed gap [mm]
    outside : float
        Outside diameter of the blank [mm]
    set_fraction : float
        Share of the opening that remains [1]

    Returns
    -------
    free_gap : float
        On the mean line [mm]

    Examples
    --------
    By `contoured_opened_stress` a gap of 8.58 mm takes 283.9 MPa:

    >>> round(gap_for_contour(283.9, 1.0, 100000, 2.4, 27.4, 0.2, 57.2955, 0.95), 2)
    8.58

    References
    ----------
    .. [1] Change of curvature of a thin bar, from the blank to the contour (derived).
    """
    bent = 2 * share * strength * set_fraction / (modulus * thickness)
    return free_gap_of(radius, (1 - radius * (2 / (outside - thickness) - bent)) / 2, closed)


def gap_for_pin(
    strength: float, share: float, modulus: float, thickness: float, slit: float, outside: float, set_fraction: float
) -> float:
    """Free gap at which the pin between its ends opens the ring to the stress that its iron stands.

    free_gap = that whose opened_stress, at an open gap of slit + (free_gap - slit) / set_fraction, is share * strength

    Parameters
    ----------
    strength : float
        Least bending strength of the iron [MPa]
    share : float
        Of it, that rings work at [1]
    modulus : float
        Of the ring iron, cold [MPa]
    thickness : float
        Radial thickness [mm]
    slit : float
        Width of the saw [mm]
    outside : float
        Outside diameter of the blank [mm]
    set_fraction : float
        Share of the opening that remains [1]

    Returns
    -------
    free_gap : float
        On the mean line [mm]

    Examples
    --------
    >>> gap = gap_for_pin(300, 0.96, 100000, 2.4, 0.5, 57.2955, 0.95)
    >>> round(opened_stress(100000, 0.5 + (gap - 0.5) / 0.95, 0.5, 57.2955, 2.4), 1)
    288.0

    References
    ----------
    .. [1] Thin inextensible curved bar held open at its ends, solved exactly (derived).
    """

    def stress(gap: float) -> float:
        return opened_stress(modulus, slit + (gap - slit) / set_fraction, slit, outside, thickness)

    return _solved(stress, share * strength, slit, outside)


def gap_for_round(
    strength: float, share: float, modulus: float, thickness: float, slit: float, inside: float, set_fraction: float
) -> float:
    """Free gap at which a plain round mandrel opens the ring to the stress that its iron stands.

    free_gap = that of which round_opened_stress, on the mandrel of round_diameter, is share * strength

    Parameters
    ----------
    strength : float
        Least bending strength of the iron [MPa]
    share : float
        Of it, that rings work at [1]
    modulus : float
        Of the ring iron, cold [MPa]
    thickness : float
        Radial thickness [mm]
    slit : float
        Width of the saw [mm]
    inside : float
        Inside diameter of the blank [mm]
    set_fraction : float
        Share of the opening that remains [1]

    Returns
    -------
    free_gap : float
        On the mean line [mm]

    Examples
    --------
    By `round_opened_stress` a mandrel of 55.1132 mm takes 236.0 MPa, and leaves a gap of 8.58 mm:

    >>> round(gap_for_round(236.0, 1.0, 100000, 2.4, 0.5, 52.4955, 0.95), 1)
    8.6

    References
    ----------
    .. [1] Thin inextensible curved bar round a disc, solved exactly (derived).
    """

    def stress(gap: float) -> float:
        on = round_diameter(inside, thickness, gap, slit, set_fraction)
        return round_opened_stress(modulus, thickness, inside, slit, on)

    return _solved(stress, share * strength, slit, inside)


def _solved(stress: Callable[[float], float], wanted: float, slit: float, across: float) -> float:
    """Gap [mm] of a wanted stress [MPa], which rises with it nearly on a line."""
    low, high = slit + 0.05 * across, slit + 0.12 * across
    at_low, at_high = stress(low) - wanted, stress(high) - wanted
    for _ in range(SECANTS):
        if at_high == at_low:
            break
        low, high = high, high - at_high * (high - low) / (at_high - at_low)
        at_low, at_high = at_high, stress(high) - wanted
    return high


def free_gap(**limits: float) -> float:
    """Free gap of a ring, in steps of 0.01 mm: the least of what its pressure wants and its iron stands.

    free_gap = 0.01 * floor(the least of all / 0.01)

    Parameters
    ----------
    **limits : float
        Free gap for the pressure aimed at, for the stress at work, for that on the mandrel [mm]

    Returns
    -------
    free_gap : float
        On the mean line [mm]

    Examples
    --------
    >>> round(free_gap(pressure=9.07, work=8.931, opening=8.7), 2)
    8.7

    References
    ----------
    .. [1] The worst of the limits; going over the piston wants more gap, not less, and is seen to by the thickness.
    """
    return 0.01 * floor(min(limits.values()) / 0.01 + FINE)
