"""Head gasket: holes, cutting offset, mass. Lengths in mm."""

from __future__ import annotations


def bore_diameter(bore: float, clearance: float) -> float:
    """Hole of the gasket over the bore.

    diameter = bore + clearance

    Parameters
    ----------
    bore : float
        Bore [mm]
    clearance : float
        On diameter [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(bore_diameter(57.2, 1), 1)
    58.2

    References
    ----------
    .. [1] Common practice, no source.
    """
    return bore + clearance


def hole_diameter(nominal: float, clearance: float) -> float:
    """Stud hole of the gasket.

    diameter = nominal + clearance

    Parameters
    ----------
    nominal : float
        Nominal diameter of the nut end [mm]
    clearance : float
        On diameter [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(hole_diameter(8, 0.5), 1)
    8.5

    References
    ----------
    .. [1] Common practice, no source.
    """
    return nominal + clearance


def cut_outside(cutter: float) -> float:
    """How far the cutter's path runs outside the part's edge.

    offset = cutter / 2

    Parameters
    ----------
    cutter : float
        Width of cut [mm]

    Returns
    -------
    offset : float
        Outward at the outer edge, inward into holes [mm]

    Examples
    --------
    >>> round(cut_outside(0.2), 2)
    0.1

    References
    ----------
    .. [1] Plane geometry.
    """
    return cutter / 2


def mass(area: float, thickness: float, density: float) -> float:
    """Mass of the gasket.

    mass = area * thickness * density / 1000

    Parameters
    ----------
    area : float
        Area [mm^2]
    thickness : float
        Thickness [mm]
    density : float
        Density [g/cm^3]

    Returns
    -------
    mass : float
        Mass [g]

    Examples
    --------
    >>> round(mass(6964.7, 1.2, 8.94), 1)
    74.7

    References
    ----------
    .. [1] Volume times density.
    """
    return area * thickness * density / 1000
