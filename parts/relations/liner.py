"""A liner in the barrel: its wall, and how tight it stays. Lengths in mm."""

from __future__ import annotations


def wall(outside: float, bore: float) -> float:
    """Wall of a liner.

    wall = (outside - bore) / 2

    Parameters
    ----------
    outside : float
        Of the liner [mm]
    bore : float
        Bore [mm]

    Returns
    -------
    wall : float
        Thickness [mm]

    Examples
    --------
    >>> round(wall(64.0, 57.2), 2)
    3.4

    References
    ----------
    .. [1] Plane geometry.
    """
    return (outside - bore) / 2


def growth(outside: float, liner: float, barrel: float, temperature: float) -> float:
    """How much a liner tightens in the barrel by heat.

    growth = outside * (liner - barrel) * (temperature - 20)

    Parameters
    ----------
    outside : float
        Of the liner [mm]
    liner : float
        Mean expansion of the liner [1/K]
    barrel : float
        Mean expansion of the barrel [1/K]
    temperature : float
        Of both [degC]

    Returns
    -------
    growth : float
        On diameter; below 0 it slackens [mm]

    Examples
    --------
    Iron in aluminium at 160 degC:

    >>> round(growth(64.0, 11.7e-6, 21.75e-6, 160.0), 4)
    -0.09

    References
    ----------
    .. [1] Thermal expansion; the liner as cool as the barrel, on the safe side.
    """
    return outside * (liner - barrel) * (temperature - 20)


def interference_hot(cold: float, growth: float) -> float:
    """Tightness of a liner that is left at heat.

    interference = cold + growth

    Parameters
    ----------
    cold : float
        On diameter, cold [mm]
    growth : float
        Least that it tightens in any state [mm]

    Returns
    -------
    interference : float
        On diameter; below 0 it is loose [mm]

    Examples
    --------
    >>> round(interference_hot(0.1, -0.09), 2)
    0.01

    References
    ----------
    .. [1] Thermal expansion.
    """
    return cold + growth
