"""Ring mechanics by closed forms: thin curved bar of mean radius r, width h, thickness a. In mm and N."""

from __future__ import annotations

from math import pi, sin


def blank_outside(bore: float, slit: float, gap: float) -> float:
    """Turned diameter of a ring blank, so that the split ring closes round in the bore with the gap that is wanted.

    diameter = bore + (slit - gap) / pi

    Parameters
    ----------
    bore : float
        Bore [mm]
    slit : float
        Width of the saw that splits the ring [mm]
    gap : float
        Gap wanted in the bore [mm]

    Returns
    -------
    diameter : float
        Outside diameter [mm]

    Examples
    --------
    >>> round(blank_outside(57.2, 0.5, 0.2), 3)
    57.295

    References
    ----------
    .. [1] A ring does not stretch: what the saw takes beyond the gap is added to the circumference (derived).
    """
    return bore + (slit - gap) / pi


def blank_inside(outside: float, thickness: float) -> float:
    """Inside diameter of a ring blank.

    diameter = outside - 2 * thickness

    Parameters
    ----------
    outside : float
        Outside diameter [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    diameter : float
        Inside diameter [mm]

    Examples
    --------
    >>> round(blank_inside(57.2955, 2.4), 4)
    52.4955

    References
    ----------
    .. [1] Plane geometry.
    """
    return outside - 2 * thickness


def closed_gap(slit: float, bore: float, outside: float) -> float:
    """Gap of a split ring in the bore.

    gap = slit + pi * (bore - outside)

    Parameters
    ----------
    slit : float
        Width of the saw that splits the ring [mm]
    bore : float
        Bore [mm]
    outside : float
        Outside diameter of the blank [mm]

    Returns
    -------
    gap : float
        Below 0 the ends meet [mm]

    Examples
    --------
    >>> round(closed_gap(0.5, 57.2, 57.2955), 3)
    0.2

    References
    ----------
    .. [1] A ring does not stretch (derived).
    """
    return slit + pi * (bore - outside)


def hot_gap(
    closed: float, bore: float, ring_expansion: float, ring: float, wall_expansion: float, wall: float
) -> float:
    """Gap at working temperature: the ring grows along its length, the bore grows round it.

    gap = closed * (1 + ring_expansion * (ring - 20)) + pi * bore * (wall_expansion * (wall - 20) -
        ring_expansion * (ring - 20))

    Parameters
    ----------
    closed : float
        Gap in the bore, cold [mm]
    bore : float
        Bore, cold [mm]
    ring_expansion : float
        Of the ring [1/K]
    ring : float
        Temperature of the ring [degC]
    wall_expansion : float
        Of the barrel [1/K]
    wall : float
        Temperature of the bore wall [degC]

    Returns
    -------
    gap : float
        Below 0 the ends butt and the ring breaks or scores [mm]

    Examples
    --------
    >>> round(hot_gap(0.2, 57.2, 11e-6, 200, 11.7e-6, 160), 3)
    0.139

    References
    ----------
    .. [1] Thermal expansion along the ring's circumference (derived).
    """
    return closed * (1 + ring_expansion * (ring - 20)) + pi * bore * (
        wall_expansion * (wall - 20) - ring_expansion * (ring - 20)
    )


def mean_radius(bore: float, thickness: float) -> float:
    """Mean radius of the ring closed in the bore.

    radius = (bore - thickness) / 2

    Parameters
    ----------
    bore : float
        Bore [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    radius : float
        Of the mean line [mm]

    Examples
    --------
    >>> round(mean_radius(57.2, 2.4), 2)
    27.4

    References
    ----------
    .. [1] Plane geometry.
    """
    return (bore - thickness) / 2


def first_parameter(free_gap: float, closed_gap: float, radius: float) -> float:
    """Ring parameter for a small opening.

    parameter = (free_gap - closed_gap) / (3 * pi * radius)

    Parameters
    ----------
    free_gap : float
        Total free gap on the mean line [mm]
    closed_gap : float
        Gap in the bore [mm]
    radius : float
        Mean radius [mm]

    Returns
    -------
    parameter : float
        Before the correction for a large opening [1]

    Examples
    --------
    >>> round(first_parameter(8.58, 0.2, 27.4), 5)
    0.03245

    References
    ----------
    .. [1] Thin inextensible curved bar, derived; the quantities are those of ISO 6621-4.
    """
    return (free_gap - closed_gap) / (3 * pi * radius)


def parameter(first: float) -> float:
    """Ring parameter K, corrected for a large opening.

    parameter = first * (1 - 0.8 * first)

    Parameters
    ----------
    first : float
        Parameter for a small opening [1]

    Returns
    -------
    parameter : float
        K [1]

    Examples
    --------
    >>> round(parameter(0.03245), 5)
    0.03161

    References
    ----------
    .. [1] Thin curved bar at large opening, fitted to its exact solution within 0.2 % (derived).
    """
    return first * (1 - 0.8 * first)


def second_moment(width: float, thickness: float) -> float:
    """Second moment of the ring's section.

    moment = width * thickness^3 / 12

    Parameters
    ----------
    width : float
        Axial width [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    moment : float
        About the mean line [mm^4]

    Examples
    --------
    >>> round(second_moment(2.38, 2.4), 3)
    2.742

    References
    ----------
    .. [1] Rectangular section.
    """
    return width * thickness**3 / 12


def tangential_force(parameter: float, modulus: float, moment: float, radius: float) -> float:
    """Force at the ring's ends that holds it closed to its gap.

    force = parameter * modulus * moment / radius^2

    Parameters
    ----------
    parameter : float
        Ring parameter K [1]
    modulus : float
        Of the ring iron [MPa]
    moment : float
        Second moment of the section [mm^4]
    radius : float
        Mean radius [mm]

    Returns
    -------
    force : float
        Tangential force Ft [N]

    Examples
    --------
    >>> round(tangential_force(0.033, 100000, 1.5435, 23.95), 1)
    8.9

    References
    ----------
    .. [1] IS 8422-2:1977, rings for small engines; relation of the thin curved bar. The table prints 8.9 N +- 20 %
       for 50 x 2.1 x 2.0.
    """
    return parameter * modulus * moment / radius**2


def contact_pressure(force: float, bore: float, width: float) -> float:
    """Mean pressure of the ring on the bore.

    pressure = 2 * force / (bore * width)

    Parameters
    ----------
    force : float
        Tangential force [N]
    bore : float
        Bore [mm]
    width : float
        Axial width [mm]

    Returns
    -------
    pressure : float
        Nominal contact pressure p0 [MPa]

    Examples
    --------
    >>> round(contact_pressure(8.9, 50, 2), 3)
    0.178

    References
    ----------
    .. [1] IS 8422-2:1977, rings for small engines; relation of the thin curved bar.
    """
    return 2 * force / (bore * width)


def working_stress(modulus: float, thickness: float, parameter: float, radius: float) -> float:
    """Greatest bending stress of the ring at work, opposite the gap.

    stress = modulus * thickness * parameter / radius

    Parameters
    ----------
    modulus : float
        Of the ring iron [MPa]
    thickness : float
        Radial thickness [mm]
    parameter : float
        Ring parameter K [1]
    radius : float
        Mean radius [mm]

    Returns
    -------
    stress : float
        Bending stress [MPa]

    Examples
    --------
    >>> round(working_stress(100000, 2.35, 0.03353, 26.825), 1)
    293.7

    References
    ----------
    .. [1] Thin inextensible curved bar, derived; the quantities are those of ISO 6621-4.
    """
    return modulus * thickness * parameter / radius


def fitting_stress(modulus: float, thickness: float, free_gap: float, bore: float) -> float:
    """Bending stress when the ring is opened by eight times its thickness to slip over the piston.

    stress = 4 * modulus * thickness * (8 * thickness - free_gap) / (3 * pi * (bore - thickness)^2)

    Parameters
    ----------
    modulus : float
        Of the ring iron [MPa]
    thickness : float
        Radial thickness [mm]
    free_gap : float
        Total free gap [mm]
    bore : float
        Bore [mm]

    Returns
    -------
    stress : float
        Bending stress; the linear formula, which reads 1 to 18 % high [MPa]

    Examples
    --------
    >>> round(fitting_stress(100000, 2.35, 8.478, 56), 1)
    357.7

    References
    ----------
    .. [1] Thin curved bar; opening by 8 a as textbooks have it (from memory).
    """
    return 4 * modulus * thickness * (8 * thickness - free_gap) / (3 * pi * (bore - thickness) ** 2)


def tip_lean(
    parameter: float, closed_gap: float, radius: float, slit: float, outside: float, thickness: float
) -> float:
    """Angle by which the ends lean towards each other at their inner corners, free.

    angle = pi * parameter + closed_gap / (2 * radius) - slit / (outside - thickness)

    Parameters
    ----------
    parameter : float
        Ring parameter K [1]
    closed_gap : float
        Gap in the bore [mm]
    radius : float
        Mean radius in the bore [mm]
    slit : float
        Width of the saw, cut parallel [mm]
    outside : float
        Outside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    angle : float
        Of each end from the slit's own direction [rad]

    Examples
    --------
    >>> round(tip_lean(0.03161, 0.2, 27.4, 0.5, 57.2955, 2.4), 4)
    0.0938

    References
    ----------
    .. [1] Turning of the thin curved bar from the back to its end (derived).
    """
    return pi * parameter + closed_gap / (2 * radius) - slit / (outside - thickness)


def free_gap_inside(free_gap: float, thickness: float, lean: float) -> float:
    """Free gap at the inner corners, where callipers touch.

    gap = free_gap - thickness * sin(lean)

    Parameters
    ----------
    free_gap : float
        Free gap on the mean line [mm]
    thickness : float
        Radial thickness [mm]
    lean : float
        Lean of each end [rad]

    Returns
    -------
    gap : float
        Gap [mm]

    Examples
    --------
    >>> round(free_gap_inside(8.58, 2.4, 0.0938), 2)
    8.36

    References
    ----------
    .. [1] Thin inextensible curved bar, derived; the quantities are those of ISO 6621-4.
    """
    return free_gap - thickness * sin(lean)


def side_clearance(groove: float, width: float) -> float:
    """Play of the ring in the height of its groove.

    clearance = groove - width

    Parameters
    ----------
    groove : float
        Width of the groove [mm]
    width : float
        Axial width of the ring [mm]

    Returns
    -------
    clearance : float
        Play [mm]

    Examples
    --------
    >>> round(side_clearance(2.42, 2.38), 2)
    0.04

    References
    ----------
    .. [1] Plane geometry.
    """
    return groove - width


def back_clearance(bore: float, root: float, thickness: float) -> float:
    """Room behind the ring in its groove.

    clearance = (bore - root) / 2 - thickness

    Parameters
    ----------
    bore : float
        Bore [mm]
    root : float
        Diameter at the root of the groove [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    clearance : float
        Radial room [mm]

    Examples
    --------
    >>> round(back_clearance(57.2, 51.4, 2.4), 2)
    0.5

    References
    ----------
    .. [1] Plane geometry.
    """
    return (bore - root) / 2 - thickness


def stock_length(count: float, width: float, parting: float, facing: float) -> float:
    """Bar or casting that the rings take.

    length = count * (width + parting) + facing

    Parameters
    ----------
    count : float
        Rings [1]
    width : float
        Axial width [mm]
    parting : float
        Width of the parting tool [mm]
    facing : float
        To face the end [mm]

    Returns
    -------
    length : float
        Beyond the chuck jaws [mm]

    Examples
    --------
    >>> round(stock_length(3, 2.38, 2, 1), 2)
    14.14

    References
    ----------
    .. [1] Common practice, no source.
    """
    return count * (width + parting) + facing


def slenderness(bore: float, thickness: float) -> float:
    """Bore over radial thickness.

    ratio = bore / thickness

    Parameters
    ----------
    bore : float
        Bore [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    ratio : float
        D/a [1]

    Examples
    --------
    >>> round(slenderness(60, 2.55), 2)
    23.53

    References
    ----------
    .. [1] IS 8422-2:1977: 60 by 2.55.
    """
    return bore / thickness


def stress_share(stress: float, strength: float) -> float:
    """Fitting stress over the least bending strength of the iron.

    share = stress / strength

    Parameters
    ----------
    stress : float
        Fitting stress [MPa]
    strength : float
        Least bending strength [MPa]

    Returns
    -------
    share : float
        Over 1 the iron may break on the piston [1]

    Examples
    --------
    >>> round(stress_share(360, 350), 2)
    1.03

    References
    ----------
    .. [1] Ratio of the two.
    """
    return stress / strength
