"""Joint on the crankcase where the head's studs reach it: head, barrel and both gaskets in series; heat at the foot."""

from __future__ import annotations

from math import fsum, pi


def as_warm(temperature: float) -> float:
    """Temperature at the barrel's foot, taken as that of another place.

    foot = temperature

    Parameters
    ----------
    temperature : float
        There [degC]

    Returns
    -------
    foot : float
        At the foot [degC]

    Examples
    --------
    >>> as_warm(160.0)
    160.0

    References
    ----------
    .. [1] The foot runs cooler than the deck: taken as hot, what does not grow alike shows at its worst; common
       practice, no source.
    """
    return temperature


def stack_height(head: float, gasket: float, barrel: float) -> float:
    """What through studs clamp above the gasket on the crankcase.

    height = head + gasket + barrel

    Parameters
    ----------
    head : float
        Head at the stud bosses [mm]
    gasket : float
        Head gasket [mm]
    barrel : float
        Barrel from its foot to the deck [mm]

    Returns
    -------
    height : float
        All three [mm]

    Examples
    --------
    >>> round(stack_height(46.0, 1.2, 92.0), 1)
    139.2

    References
    ----------
    .. [1] Layer on layer.
    """
    return head + gasket + barrel


def ring_area_each(outside: float, bore: float, count: float) -> float:
    """Each stud's share of a round wall.

    area = pi / 4 * (outside^2 - bore^2) / count

    Parameters
    ----------
    outside : float
        Outside diameter [mm]
    bore : float
        Inside diameter [mm]
    count : float
        Studs [1]

    Returns
    -------
    area : float
        Section [mm^2]

    Examples
    --------
    >>> round(ring_area_each(70.0, 57.2, 4), 1)
    319.7

    References
    ----------
    .. [1] Area of a ring; fins carry nothing along the axis (common practice, no source).
    """
    return pi / 4 * (outside**2 - bore**2) / count


def series_stiffness(**layers: float) -> float:
    """Stiffness of all that through studs clamp.

    stiffness = 1e6 / sum of the compliances

    Parameters
    ----------
    **layers : float
        Compliance of each layer [um/kN]

    Returns
    -------
    stiffness : float
        Load for each millimetre [N/mm]

    Examples
    --------
    >>> round(series_stiffness(head=2.0, body=2.5, gasket=0.5))
    200000

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-18: springs in series.
    """
    return 1e6 / fsum(layers.values())


def series_growth(**layers: float) -> float:
    """Growth by heat of all that through studs clamp.

    growth = sum of the layers' growths

    Parameters
    ----------
    **layers : float
        Growth of each layer [um]

    Returns
    -------
    growth : float
        Together [um]

    Examples
    --------
    >>> round(series_growth(head=150.1, body=120.4), 1)
    270.5

    References
    ----------
    .. [1] Layer on layer.
    """
    return fsum(layers.values())
