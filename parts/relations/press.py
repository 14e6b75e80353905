"""The press-fit plug by Lame: pressure, stress in the iron, push-out force, heat. Lengths in mm, stresses in MPa."""

from __future__ import annotations

from math import pi


def thinnest(**metal: float) -> float:
    """Thinnest of several walls.

    wall = least of the walls

    Parameters
    ----------
    **metal : float
        Metal to each neighbour [mm]

    Returns
    -------
    wall : float
        The thinnest [mm]

    Examples
    --------
    >>> thinnest(bore=9.15, edge=9.75)
    9.15

    References
    ----------
    .. [1] The worst of them.
    """
    return min(metal.values())


def collar(hole: float, wall: float) -> float:
    """Diameter of the ring of iron round the plug, by its thinnest wall.

    outside = max(hole + 2 * wall, 1.02 * hole)

    Parameters
    ----------
    hole : float
        Hole [mm]
    wall : float
        Thinnest metal next to the hole [mm]

    Returns
    -------
    outside : float
        Diameter [mm]

    Examples
    --------
    >>> round(collar(8.5, 9.15), 2)
    26.8

    References
    ----------
    .. [1] A ring no thicker than the thinnest wall, on the safe side, and some where there is none: common
        practice, no source.
    """
    return max(hole + 2 * wall, 1.02 * hole)


def fit_pressure(
    interference: float,
    diameter: float,
    outside: float,
    outer_modulus: float,
    outer_poisson: float,
    inside: float,
    inner_modulus: float,
    inner_poisson: float,
) -> float:
    """Pressure between a pressed plug and its hole.

    pressure = max(0, interference) / (diameter * (((outside^2 + diameter^2) / (outside^2 - diameter^2) +
    outer_poisson) / outer_modulus + ((diameter^2 + inside^2) / (diameter^2 - inside^2) - inner_poisson) /
    inner_modulus))

    Parameters
    ----------
    interference : float
        On diameter [mm]
    diameter : float
        Of the fit [mm]
    outside : float
        Of the ring round it [mm]
    outer_modulus : float
        Modulus of the ring [MPa]
    outer_poisson : float
        Poisson's ratio of the ring [1]
    inside : float
        Hole in the plug, 0 if solid [mm]
    inner_modulus : float
        Modulus of the plug [MPa]
    inner_poisson : float
        Poisson's ratio of the plug [1]

    Returns
    -------
    pressure : float
        0 where it is loose [MPa]

    Examples
    --------
    >>> round(fit_pressure(0.02, 12, 30, 110000, 0.26, 0, 210000, 0.3), 3)
    91.319

    References
    ----------
    .. [1] Lame; Shigley, Mechanical Engineering Design, eqs. 3-56 and 3-57; DIN 7190-1 (memory).
    """
    if not inside < diameter < outside:
        raise ValueError("there is no wall")
    ring = ((outside**2 + diameter**2) / (outside**2 - diameter**2) + outer_poisson) / outer_modulus
    plug = ((diameter**2 + inside**2) / (diameter**2 - inside**2) - inner_poisson) / inner_modulus
    return max(0.0, interference) / (diameter * (ring + plug))


def hoop_stress(pressure: float, outside: float, diameter: float) -> float:
    """Stress that would split the iron round a pressed plug.

    stress = pressure * (outside^2 + diameter^2) / (outside^2 - diameter^2)

    Parameters
    ----------
    pressure : float
        Between plug and hole [MPa]
    outside : float
        Of the ring round it [mm]
    diameter : float
        Of the fit [mm]

    Returns
    -------
    stress : float
        At the edge of the hole [MPa]

    Examples
    --------
    >>> round(hoop_stress(51.188, 80, 50), 2)
    116.81

    References
    ----------
    .. [1] Lame; Shigley, Mechanical Engineering Design, eqs. 3-56 and 3-57; DIN 7190-1 (memory).
    """
    return pressure * (outside**2 + diameter**2) / (outside**2 - diameter**2)


def push_out_force(pressure: float, diameter: float, length: float, friction: float) -> float:
    """Force that pushes a pressed plug out.

    force = pressure * pi * diameter * length * friction

    Parameters
    ----------
    pressure : float
        Between plug and hole [MPa]
    diameter : float
        Of the fit [mm]
    length : float
        Of the fit [mm]
    friction : float
        Friction of the fit [1]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    >>> round(push_out_force(51.188, 50, 40, 0.12))
    38595

    References
    ----------
    .. [1] Lame; Shigley, Mechanical Engineering Design, eqs. 3-56 and 3-57; DIN 7190-1 (memory).
    """
    return pressure * pi * diameter * length * friction


def hot_interference(cold: float, diameter: float, plug: float, iron: float, temperature: float) -> float:
    """Interference at working temperature.

    hot = cold + diameter * (plug - iron) * (temperature - 20)

    Parameters
    ----------
    cold : float
        On diameter, at 20 degC [mm]
    diameter : float
        Of the fit [mm]
    plug : float
        Mean expansion of the plug [1/K]
    iron : float
        Mean expansion of the iron [1/K]
    temperature : float
        Of both [degC]

    Returns
    -------
    hot : float
        On diameter [mm]

    Examples
    --------
    >>> round(hot_interference(0.02, 12, 21.15e-6, 11.7e-6, 160), 4)
    0.0359

    References
    ----------
    .. [1] Lame; Shigley, Mechanical Engineering Design, eqs. 3-56 and 3-57; DIN 7190-1 (memory).
    """
    return cold + diameter * (plug - iron) * (temperature - 20)


def greatest_of(**states: float) -> float:
    """The greatest over all states, cold and hot.

    value = greatest of the states

    Parameters
    ----------
    **states : float
        The same in each state [MPa]

    Returns
    -------
    value : float
        The worst for the iron [MPa]

    Examples
    --------
    >>> greatest_of(cold=100.0, hot=120.0)
    120.0

    References
    ----------
    .. [1] The worst of the states.
    """
    return max(states.values())


def least_of(**states: float) -> float:
    """The least over all states, cold and hot.

    value = least of the states

    Parameters
    ----------
    **states : float
        The same in each state [N]

    Returns
    -------
    value : float
        The worst for the hold [N]

    Examples
    --------
    >>> least_of(cold=100.0, hot=120.0)
    100.0

    References
    ----------
    .. [1] The worst of the states.
    """
    return min(states.values())


def most_growth(**states: float) -> float:
    """Most that a fit tightens by heat, over all states.

    growth = greatest of 0 and of the states

    Parameters
    ----------
    **states : float
        In each state [mm]

    Returns
    -------
    growth : float
        On diameter [mm]

    Examples
    --------
    >>> most_growth(hot=-0.01)
    0.0

    References
    ----------
    .. [1] The worst of the states; cold it is 0.
    """
    return max(0.0, *states.values())


def least_growth(**states: float) -> float:
    """Least that a fit tightens by heat, over all states.

    growth = least of 0 and of the states

    Parameters
    ----------
    **states : float
        In each state [mm]

    Returns
    -------
    growth : float
        On diameter; below 0 it slackens [mm]

    Examples
    --------
    >>> least_growth(hot=-0.01)
    -0.01

    References
    ----------
    .. [1] The worst of the states; cold it is 0.
    """
    return min(0.0, *states.values())


def plug_stress(pressure: float, diameter: float, inside: float) -> float:
    """Greatest stress in a pressed plug.

    stress = pressure * max(1, (inside > 0) * 2 * diameter^2 / (diameter^2 - inside^2))

    Parameters
    ----------
    pressure : float
        Between plug and hole [MPa]
    diameter : float
        Of the fit [mm]
    inside : float
        Hole in the plug, 0 if solid [mm]

    Returns
    -------
    stress : float
        Squeeze; at the wall of its own hole where it has one [MPa]

    Examples
    --------
    >>> round(plug_stress(100.0, 8.5, 4.0), 1), plug_stress(100.0, 8.5, 0.0)
    (256.9, 100.0)

    References
    ----------
    .. [1] Lame; Shigley, Mechanical Engineering Design, ch. 3.
    """
    return pressure * max(1, (inside > 0) * 2 * diameter**2 / (diameter**2 - inside**2))


def shoulder_force(diameter: float, hole: float, thickness: float, plug: float, iron: float) -> float:
    """Force that a plug's shoulder bears in its counterbore: until it shears off, or is pressed into the seat.

    force = min(pi * hole * thickness * 0.6 * plug, pi / 4 * (diameter^2 - hole^2) * iron)

    Parameters
    ----------
    diameter : float
        Of the shoulder [mm]
    hole : float
        Of the passage under it [mm]
    thickness : float
        Of the shoulder [mm]
    plug : float
        Tensile strength of the plug [MPa]
    iron : float
        Strength of the barrel under it [MPa]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    >>> round(shoulder_force(12.0, 8.5, 3.0, 460.0, 200.0))
    11270

    References
    ----------
    .. [1] Shear strength 0.6 of the tensile strength, as for threads.
    """
    return min(pi * hole * thickness * 0.6 * plug, pi / 4 * (diameter**2 - hole**2) * iron)


def held_by_both(fit: float, shoulder: float) -> float:
    """Force that a plug stands, of its fit and its shoulder.

    force = fit + shoulder

    Parameters
    ----------
    fit : float
        Of the fit or the bond [N]
    shoulder : float
        Of the shoulder [N]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    >>> held_by_both(500.0, 1500.0)
    2000.0

    References
    ----------
    .. [1] Both must give way.
    """
    return fit + shoulder


def interference_wanted(
    gas: float,
    shoulder: float,
    diameter: float,
    length: float,
    friction: float,
    stiffness: float,
    loss: float,
    growth: float,
) -> float:
    """Least interference over the peaks with which a pressed plug stands the gas in every state.

    interference = max(0, gas - shoulder) / (pi * diameter * length * friction * stiffness) + loss - growth

    Parameters
    ----------
    gas : float
        Force of the gas [N]
    shoulder : float
        What the shoulder takes of it [N]
    diameter : float
        Of the fit [mm]
    length : float
        Of the fit [mm]
    friction : float
        Of the fit [1]
    stiffness : float
        Pressure of the fit at 1 mm of interference [MPa]
    loss : float
        By smoothing [mm]
    growth : float
        Least that the fit tightens by heat [mm]

    Returns
    -------
    interference : float
        On diameter [mm]

    Examples
    --------
    >>> round(interference_wanted(215.6, 0.0, 8.5, 12.0, 0.11, 6000.0, 0.01, 0.0), 5)
    0.01102

    References
    ----------
    .. [1] Lame, turned round; DIN 7190-1 (memory).
    """
    return max(0.0, gas - shoulder) / (pi * diameter * length * friction * stiffness) + loss - growth


def interference_allowed(strength: float, outside: float, diameter: float, stiffness: float, growth: float) -> float:
    """Greatest interference at which the iron round a pressed plug is not loaded to its strength in any state.

    interference = strength * (outside^2 - diameter^2) / (outside^2 + diameter^2) / stiffness - growth

    Parameters
    ----------
    strength : float
        Of the iron [MPa]
    outside : float
        Of the ring round it [mm]
    diameter : float
        Of the fit [mm]
    stiffness : float
        Pressure of the fit at 1 mm of interference [MPa]
    growth : float
        Most that the fit tightens by heat [mm]

    Returns
    -------
    interference : float
        On diameter [mm]

    Examples
    --------
    >>> round(interference_allowed(200.0, 26.8, 8.5, 6000.0, 0.002), 4)
    0.0252

    References
    ----------
    .. [1] Lame, turned round.
    """
    return strength * (outside**2 - diameter**2) / (outside**2 + diameter**2) / stiffness - growth


def stress_share(stress: float, strength: float) -> float:
    """Stress against strength.

    share = stress / strength

    Parameters
    ----------
    stress : float
        Stress [MPa]
    strength : float
        Strength [MPa]

    Returns
    -------
    share : float
        Over 1 it breaks [1]

    Examples
    --------
    >>> round(stress_share(206, 229), 2)
    0.9

    References
    ----------
    .. [1] Ratio of the two.
    """
    return stress / strength


def hold_times(hold: float, gas: float) -> float:
    """How many times over a plug holds against the gas.

    times = hold / gas

    Parameters
    ----------
    hold : float
        Force that moves it [N]
    gas : float
        Force of the gas [N]

    Returns
    -------
    times : float
        Times [1]

    Examples
    --------
    >>> round(hold_times(1360.7, 215.6), 1)
    6.3

    References
    ----------
    .. [1] Ratio of the two forces.
    """
    return hold / gas


def allowed_force(hold: float, heat: float, gap: float, surface: float) -> float:
    """Force that a bond may be trusted with.

    allowed = hold / (heat * gap * surface)

    Parameters
    ----------
    hold : float
        Force that shears it, without safety [N]
    heat : float
        Safety for heat [1]
    gap : float
        Safety for the gap [1]
    surface : float
        Safety for the surface [1]

    Returns
    -------
    allowed : float
        Force [N]

    Examples
    --------
    >>> round(allowed_force(5655, 1.5, 1.25, 1.6))
    1885

    References
    ----------
    .. [1] ISO 10123 measures a clean steel pin at room temperature; safety for what is different here, in the way
        of the makers' design sheets (memory).
    """
    return hold / (heat * gap * surface)
