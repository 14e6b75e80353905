"""The gasket's thickness turned round: for the squish or the compression ratio that is wanted. Lengths in mm."""

from __future__ import annotations

from math import pi


def thickness_for_squish(wanted: float, before: float, old_gasket: float, skim: float) -> float:
    """Thickness of the gasket that gives a wanted squish.

    thickness = wanted - before + old_gasket + skim

    Parameters
    ----------
    wanted : float
        Squish wanted [mm]
    before : float
        Squish with the old gasket [mm]
    old_gasket : float
        Thickness of the old gasket [mm]
    skim : float
        Taken off the deck [mm]

    Returns
    -------
    thickness : float
        Of the new gasket [mm]

    Examples
    --------
    >>> round(thickness_for_squish(1.2, 1.6, 1.6, 0.12), 2)
    1.32

    References
    ----------
    .. [1] Plane geometry.
    """
    return wanted - before + old_gasket + skim


def thickness_for_ratio(
    wanted: float,
    swept: float,
    before: float,
    old_chamber: float,
    new_chamber: float,
    old_gasket: float,
    skim: float,
    bore: float,
) -> float:
    """Thickness of the gasket that gives a wanted compression ratio.

    thickness = (swept / (wanted - 1) - before + old_chamber - new_chamber + old_gasket + skim) / (pi / 4 * bore^2)

    Parameters
    ----------
    wanted : float
        Compression ratio wanted [1]
    swept : float
        Swept volume [mm^3]
    before : float
        Volume above the piston at top dead centre, old head and old gasket [mm^3]
    old_chamber : float
        Chamber of the old head [mm^3]
    new_chamber : float
        Chamber of the new head [mm^3]
    old_gasket : float
        Volume in the old gasket [mm^3]
    skim : float
        Volume that the skim takes away [mm^3]
    bore : float
        Bore of the new gasket [mm]

    Returns
    -------
    thickness : float
        Of the new gasket [mm]

    Examples
    --------
    An engine of 123.15 cm^3 has a ratio of 6 with 24.63 cm^3; 1.5 mm of gasket at 56.5 mm, 3.761 cm^3, are in it, and
    [1]_ has 5.538 with 1 mm more:

    >>> round(thickness_for_ratio(5.5384, 123150, 24630, 0, 0, 3761, 0, 56.5), 2)
    2.5

    References
    ----------
    .. [1] ISO 2710-1, compression ratio, solved for the gasket (derived).
    """
    room = swept / (wanted - 1) - before + old_chamber - new_chamber + old_gasket + skim
    return room / (pi / 4 * bore**2)


def nearest_sheet(wanted: float, least: float, **sheets: float) -> float:
    """Thickness of the sheet sold that comes nearest, of those that leave the piston its room.

    thickness = the nearest to wanted of all sheets of at least least

    Parameters
    ----------
    wanted : float
        Thickness wanted [mm]
    least : float
        Thickness under which the squish stops the job [mm]
    **sheets : float
        Thicknesses that are sold [mm]

    Returns
    -------
    thickness : float
        Of the sheet [mm]

    Examples
    --------
    >>> nearest_sheet(1.32, 0.5, a=0.4, b=1.2, c=1.5), nearest_sheet(0.4, 0.5, a=0.4, b=1.2)
    (1.2, 1.2)

    References
    ----------
    .. [1] Sheets that are sold: common practice, no source.
    """
    return min((sheet for sheet in sheets.values() if sheet >= least), key=lambda sheet: abs(sheet - wanted))
