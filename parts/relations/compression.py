"""Compression before and after. Lengths in mm, volumes in mm^3."""

from __future__ import annotations

from math import pi


def swept_volume(bore: float, stroke: float) -> float:
    """Volume the piston sweeps.

    volume = pi / 4 * bore^2 * stroke

    Parameters
    ----------
    bore : float
        Bore [mm]
    stroke : float
        Stroke [mm]

    Returns
    -------
    volume : float
        Swept volume [mm^3]

    Examples
    --------
    >>> round(swept_volume(56, 50), 0)
    123150.0

    References
    ----------
    .. [1] ISO 2710-1, terms for swept volume, clearance volume and compression ratio.
    """
    return pi / 4 * bore**2 * stroke


def ratio(swept: float, clearance: float) -> float:
    """Compression ratio.

    ratio = (swept + clearance) / clearance

    Parameters
    ----------
    swept : float
        Swept volume [mm^3]
    clearance : float
        Volume above the piston at top dead centre [mm^3]

    Returns
    -------
    ratio : float
        Compression ratio [1]

    Examples
    --------
    >>> round(ratio(123150, 24630), 2)
    6.0

    References
    ----------
    .. [1] ISO 2710-1, terms for swept volume, clearance volume and compression ratio.
    """
    return (swept + clearance) / clearance


def gasket_volume(bore: float, thickness: float) -> float:
    """Volume inside a gasket's bore.

    volume = pi / 4 * bore^2 * thickness

    Parameters
    ----------
    bore : float
        Bore of the gasket [mm]
    thickness : float
        Thickness [mm]

    Returns
    -------
    volume : float
        Volume [mm^3]

    Examples
    --------
    >>> round(gasket_volume(56.5, 1.5), 0)
    3761.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return pi / 4 * bore**2 * thickness


def skim_volume(bore: float, skim: float) -> float:
    """Volume that skimming the deck takes off above the piston.

    volume = pi / 4 * bore^2 * skim

    Parameters
    ----------
    bore : float
        Bore of the cylinder [mm]
    skim : float
        Taken off the deck [mm]

    Returns
    -------
    volume : float
        Volume [mm^3]

    Examples
    --------
    >>> round(skim_volume(57.2, 0.12), 1)
    308.4

    References
    ----------
    .. [1] Plane geometry.
    """
    return pi / 4 * bore**2 * skim


def clearance_after(
    before: float, old_chamber: float, new_chamber: float, old_gasket: float, new_gasket: float, skim: float
) -> float:
    """Volume above the piston with the new head and gasket.

    clearance = before - old_chamber + new_chamber - old_gasket + new_gasket - skim

    Parameters
    ----------
    before : float
        Clearance volume with the old head and gasket [mm^3]
    old_chamber : float
        Chamber of the old head [mm^3]
    new_chamber : float
        Chamber of the new head [mm^3]
    old_gasket : float
        Inside the old gasket [mm^3]
    new_gasket : float
        Inside the new gasket [mm^3]
    skim : float
        Taken off by skimming the deck [mm^3]

    Returns
    -------
    clearance : float
        Clearance volume [mm^3]

    Examples
    --------
    >>> round(clearance_after(31000, 26500, 24800, 4257, 3192, 308), 0)
    27927

    References
    ----------
    .. [1] ISO 2710-1, terms for swept volume, clearance volume and compression ratio.
    """
    return before - old_chamber + new_chamber - old_gasket + new_gasket - skim


def ratio_change(after: float, before: float) -> float:
    """Change of the compression ratio.

    change = after - before

    Parameters
    ----------
    after : float
        With the new head [1]
    before : float
        With the old one [1]

    Returns
    -------
    change : float
        Above 0 it is raised [1]

    Examples
    --------
    >>> round(ratio_change(6.84, 6.26), 2)
    0.58

    References
    ----------
    .. [1] ISO 2710-1, terms for swept volume, clearance volume and compression ratio.
    """
    return after - before


def squish_after(before: float, old_gasket: float, new_gasket: float, skim: float) -> float:
    """Piston crown to head face at top dead centre, new gasket and skimmed deck.

    squish = before - (old_gasket - new_gasket) - skim

    Parameters
    ----------
    before : float
        With the old gasket [mm]
    old_gasket : float
        Thickness of the old gasket [mm]
    new_gasket : float
        Thickness of the new gasket [mm]
    skim : float
        Taken off the deck [mm]

    Returns
    -------
    squish : float
        Gap [mm]

    Examples
    --------
    >>> round(squish_after(1.6, 1.6, 1.2, 0.12), 2)
    1.08

    References
    ----------
    .. [1] Plane geometry.
    """
    return before - (old_gasket - new_gasket) - skim


def head_drop(old_gasket: float, new_gasket: float, skim: float) -> float:
    """How far the head comes down with the new gasket and the skim.

    drop = old_gasket - new_gasket + skim

    Parameters
    ----------
    old_gasket : float
        Thickness of the old gasket [mm]
    new_gasket : float
        Thickness of the new gasket [mm]
    skim : float
        Taken off the deck [mm]

    Returns
    -------
    drop : float
        Below 0 it goes up [mm]

    Examples
    --------
    >>> round(head_drop(1.6, 1.2, 0.12), 2)
    0.52

    References
    ----------
    .. [1] Plane geometry.
    """
    return old_gasket - new_gasket + skim


def gasket_to_try(thickness: float, multiple: float) -> float:
    """Thickness of another gasket to compare with.

    other = thickness * multiple

    Parameters
    ----------
    thickness : float
        Of the gasket [mm]
    multiple : float
        Of it [1]

    Returns
    -------
    other : float
        Thickness [mm]

    Examples
    --------
    >>> round(gasket_to_try(1.2, 0.5), 2)
    0.6

    References
    ----------
    .. [1] A row of the table.
    """
    return thickness * multiple


def cranking_pressure(ratio: float, exponent: float) -> float:
    """Pressure that a gauge shows when the engine is turned over, throttle open.

    pressure = 0.101325 * (ratio^exponent - 1)

    Parameters
    ----------
    ratio : float
        Compression ratio [1]
    exponent : float
        Of the compression: 1.4 without any loss, less with leaks, cold walls and a late inlet valve [1]

    Returns
    -------
    pressure : float
        Above that of the air [MPa]

    Examples
    --------
    Air without any loss comes to 18.62 bar absolute at 8 to 1:

    >>> round(cranking_pressure(8, 1.4) + 0.101325, 3)
    1.862

    References
    ----------
    .. [1] Ideal gas, p V^n constant.
    """
    return float(0.101325 * (ratio**exponent - 1))
