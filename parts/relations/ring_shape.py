"""The free ring's shape by callipers, light at a blank off size, hold in the groove, growth of an unlike mandrel.

Lengths in mm, temperatures in degC.
"""

from __future__ import annotations

from math import pi


def shape_number(width: float, bore: float, free_gap: float, closed_gap: float) -> float:
    """Shape of a free ring by callipers: how much wider than the bore it is, over how far its gap opened.

    number = (width - bore) / (free_gap - closed_gap)

    Parameters
    ----------
    width : float
        Free width at right angles to the gap, over the outside [mm]
    bore : float
        Bore [mm]
    free_gap : float
        Total free gap on the mean line [mm]
    closed_gap : float
        Gap in the bore [mm]

    Returns
    -------
    number : float
        0.38 to 0.39 presses evenly; over 0.41 the back is too sharp, under 0.34 it is a round mandrel's [1]

    Examples
    --------
    A small opening gives (2 + pi/2) / (3 pi) = 0.379:

    >>> round(shape_number(60.38, 57.2, 8.58, 0.2), 2)
    0.38

    References
    ----------
    .. [1] Free shape of the thin curved bar that presses evenly (derived).
    """
    return (width - bore) / (free_gap - closed_gap)


def width_for(bore: float, number: float, free_gap: float, closed_gap: float) -> float:
    """Free width at right angles to the gap that belongs to a shape number.

    width = bore + number * (free_gap - closed_gap)

    Parameters
    ----------
    bore : float
        Bore [mm]
    number : float
        Shape number [1]
    free_gap : float
        Total free gap on the mean line [mm]
    closed_gap : float
        Gap in the bore [mm]

    Returns
    -------
    width : float
        Over the outside [mm]

    Examples
    --------
    >>> round(width_for(57.2, 0.38, 8.58, 0.2), 2)
    60.38

    References
    ----------
    .. [1] Free shape of the thin curved bar that presses evenly (derived).
    """
    return bore + number * (free_gap - closed_gap)


def light_of_undersize(under: float, free_gap: float, closed_gap: float) -> float:
    """Light at the ends of a ring whose blank is smaller than its size, where it is opened by a pin.

    light = 1.178 * under^2 / (free_gap - closed_gap)

    Parameters
    ----------
    under : float
        Blank under its size, on diameter [mm]
    free_gap : float
        Total free gap on the mean line [mm]
    closed_gap : float
        Gap in the bore [mm]

    Returns
    -------
    light : float
        Gap between the end and the bore [mm]

    Examples
    --------
    >>> round(light_of_undersize(0.05, 8.58, 0.2), 5)
    0.00035

    References
    ----------
    .. [1] The end stands off over the last part of the ring, integrated twice: 3 pi / 8 = 1.178 (derived).
    """
    return 1.178 * under**2 / (free_gap - closed_gap)


def under_size(bore: float, outside: float) -> float:
    """How far the blank is smaller than the bore.

    under = max(0, bore - outside)

    Parameters
    ----------
    bore : float
        Bore [mm]
    outside : float
        Outside diameter of the blank [mm]

    Returns
    -------
    under : float
        On diameter [mm]

    Examples
    --------
    >>> round(under_size(57.2, 57.168), 3), under_size(57.2, 57.295)
    (0.032, 0.0)

    References
    ----------
    .. [1] Plane geometry.
    """
    return max(0.0, bore - outside)


def under_land(piston: float, root: float, thickness: float) -> float:
    """How far the ring goes below the piston's land when it is pushed to the groove's root.

    depth = (piston - root) / 2 - thickness

    Parameters
    ----------
    piston : float
        Diameter of the piston over its lands [mm]
    root : float
        Diameter at the root of the groove [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    depth : float
        Below 0 the ring, not the land, carries the piston's side thrust [mm]

    Examples
    --------
    >>> round(under_land(57.1, 51.4, 2.4), 2)
    0.45

    References
    ----------
    .. [1] Plane geometry.
    """
    return (piston - root) / 2 - thickness


def piston_play(bore: float, piston: float) -> float:
    """Play of the piston in the bore.

    play = bore - piston

    Parameters
    ----------
    bore : float
        Bore [mm]
    piston : float
        Piston [mm]

    Returns
    -------
    play : float
        On diameter, cold [mm]

    Examples
    --------
    >>> round(piston_play(57.2, 57.1), 3)
    0.1

    References
    ----------
    .. [1] Geometry.
    """
    return bore - piston


def above_land(bore: float, piston: float) -> float:
    """How far the ring stands above the land all round while the piston is in the middle of the bore.

    height = (bore - piston) / 2

    Parameters
    ----------
    bore : float
        Bore [mm]
    piston : float
        Diameter of the piston over its lands [mm]

    Returns
    -------
    height : float
        On one side it is twice this, on the other none, where the piston lies to one side [mm]

    Examples
    --------
    >>> round(above_land(57.2, 57.1), 3)
    0.05

    References
    ----------
    .. [1] Plane geometry.
    """
    return (bore - piston) / 2


def held_share(bore: float, piston: float, thickness: float) -> float:
    """Share of the ring's thickness that its groove still holds where the piston lies to the other side.

    share = 1 - (bore - piston) / thickness

    Parameters
    ----------
    bore : float
        Bore [mm]
    piston : float
        Diameter of the piston over its lands [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    share : float
        Of the radial thickness [1]

    Examples
    --------
    >>> round(held_share(57.2, 57.1, 2.4), 3)
    0.958

    References
    ----------
    .. [1] Plane geometry.
    """
    return 1 - (bore - piston) / thickness


def growth_on_contour(
    outside: float, thickness: float, mandrel_expansion: float, ring_expansion: float, temperature: float
) -> float:
    """Gap by which a contoured mandrel opens the ring further, hot, where the two grow unlike.

    growth = pi * (outside - thickness) * (mandrel_expansion - ring_expansion) * (temperature - 20)

    Parameters
    ----------
    outside : float
        Outside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]
    mandrel_expansion : float
        Of the mandrel [1/K]
    ring_expansion : float
        Of the ring [1/K]
    temperature : float
        Of the oven [degC]

    Returns
    -------
    growth : float
        Below 0 the ring is opened less [mm]

    Examples
    --------
    >>> round(growth_on_contour(57.2955, 2.4, 11.3e-6, 11e-6, 600), 3)
    0.03

    References
    ----------
    .. [1] The ring lies on the mandrel from end to end (derived); mean expansions from 20 degC, those to 200 degC taken
       for the whole way.
    """
    return pi * (outside - thickness) * (mandrel_expansion - ring_expansion) * (temperature - 20)


def growth_on_round(mandrel: float, mandrel_expansion: float, ring_expansion: float, temperature: float) -> float:
    """Gap by which a plain round mandrel opens the ring further, hot, where the two grow unlike.

    growth = 3.2491 * mandrel * (mandrel_expansion - ring_expansion) * (temperature - 20)

    Parameters
    ----------
    mandrel : float
        Diameter of the mandrel [mm]
    mandrel_expansion : float
        Of the mandrel [1/K]
    ring_expansion : float
        Of the ring [1/K]
    temperature : float
        Of the oven [degC]

    Returns
    -------
    growth : float
        Below 0 the ring is opened less [mm]

    Examples
    --------
    >>> round(growth_on_round(55.113, 17e-6, 11e-6, 600), 3)
    0.623

    References
    ----------
    .. [1] Rule of the round mandrel, m - s = 3.2491 times the difference of the diameters (derived); mean expansions
       from 20 degC, those to 200 degC taken for the whole way.
    """
    return 3.2491 * mandrel * (mandrel_expansion - ring_expansion) * (temperature - 20)


def growth_of_pin(open_gap: float, mandrel_expansion: float, ring_expansion: float, temperature: float) -> float:
    """Gap by which a pin between the ends opens the ring further, hot, where the two grow unlike.

    growth = open_gap * (mandrel_expansion - ring_expansion) * (temperature - 20)

    Parameters
    ----------
    open_gap : float
        That the pin holds [mm]
    mandrel_expansion : float
        Of the pin [1/K]
    ring_expansion : float
        Of the ring [1/K]
    temperature : float
        Of the oven [degC]

    Returns
    -------
    growth : float
        Below 0 the ring is opened less [mm]

    Examples
    --------
    >>> round(growth_of_pin(9.005, 17e-6, 11e-6, 600), 3)
    0.031

    References
    ----------
    .. [1] Thermal expansion (derived); mean expansions from 20 degC, those to 200 degC taken for the whole way.
    """
    return open_gap * (mandrel_expansion - ring_expansion) * (temperature - 20)
