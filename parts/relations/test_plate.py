"""The test plate: closes the head joint for a test by water. Lengths in mm, forces in N, pressures in MPa."""

from __future__ import annotations

from math import ceil, log, pi, sqrt


def groove_inside(bore: float, land: float) -> float:
    """Inside of the groove, with a land round the bore.

    diameter = bore + 2 * land

    Parameters
    ----------
    bore : float
        Bore of the barrel [mm]
    land : float
        Between bore and groove [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> groove_inside(57.2, 2.0)
    61.2

    References
    ----------
    .. [1] Plane geometry.
    """
    return bore + 2 * land


def groove_outside(inside: float, width: float) -> float:
    """Outside of the groove, on which the ring rests under pressure from inside.

    diameter = inside + 2 * width

    Parameters
    ----------
    inside : float
        Of the groove [mm]
    width : float
        Of the groove [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> groove_outside(61.2, 3.5)
    68.2

    References
    ----------
    .. [1] Plane geometry.
    """
    return inside + 2 * width


def cord_inside(outside: float, cord: float) -> float:
    """Inside of the O-ring that lies on the groove's outer wall.

    diameter = outside - 2 * cord

    Parameters
    ----------
    outside : float
        Of the groove [mm]
    cord : float
        Diameter of its cord [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(cord_inside(68.2, 2.62), 2)
    62.96

    References
    ----------
    .. [1] ISO 3601-2, face seal with pressure from inside (memory).
    """
    return outside - 2 * cord


def fill(cord: float, depth: float, width: float) -> float:
    """Share of the groove that the cord fills.

    share = pi / 4 * cord^2 / (depth * width)

    Parameters
    ----------
    cord : float
        Diameter [mm]
    depth : float
        Of the groove [mm]
    width : float
        Of the groove [mm]

    Returns
    -------
    share : float
        Share [1]

    Examples
    --------
    >>> round(fill(2.62, 1.95, 3.55), 3)
    0.779

    References
    ----------
    .. [1] Area of cord and groove; ISO 3601-2 wants it under 0.85 (memory).
    """
    return pi / 4 * cord**2 / (depth * width)


def squeeze(depth: float, cord: float) -> float:
    """Share of the cord that is squeezed.

    share = 1 - depth / cord

    Parameters
    ----------
    depth : float
        Of the groove [mm]
    cord : float
        Diameter [mm]

    Returns
    -------
    share : float
        Share [1]

    Examples
    --------
    >>> round(squeeze(1.95, 2.62), 3)
    0.256

    References
    ----------
    .. [1] ISO 3601-2, static face seal: 0.15 to 0.30 (memory).
    """
    return 1 - depth / cord


def force(diameter: float, pressure: float) -> float:
    """Force of the water on the plate.

    force = pi / 4 * diameter^2 * pressure

    Parameters
    ----------
    diameter : float
        Outside of the groove [mm]
    pressure : float
        Of the test [MPa]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    >>> round(force(68.2, 0.5))
    1827

    References
    ----------
    .. [1] Pressure by area.
    """
    return pi / 4 * diameter**2 * pressure


def each(force: float, count: float) -> float:
    """Share of one bolt.

    load = force / count

    Parameters
    ----------
    force : float
        On the plate [N]
    count : float
        Bolts [1]

    Returns
    -------
    load : float
        Load [N]

    Examples
    --------
    >>> each(1827.0, 4.0)
    456.75

    References
    ----------
    .. [1] Statics of bolts evenly round the bore.
    """
    return force / count


def moment(pressure: float, loaded: float, reach: float, poisson: float) -> float:
    """Bending moment in the middle of the plate, by length.

    moment = pressure * loaded^2 / 16 * (1 + (1 + poisson) * log(reach / loaded) - (1 - poisson) * loaded^2 / (4 *
        reach^2))

    Parameters
    ----------
    pressure : float
        Of the test [MPa]
    loaded : float
        Diameter under pressure [mm]
    reach : float
        Diameter of the circle of bolts [mm]
    poisson : float
        Poisson's ratio [1]

    Returns
    -------
    moment : float
        Moment by length [N]

    Examples
    --------
    >>> round(moment(0.5, 68.2, 83.4, 0.3), 1)
    166.4

    References
    ----------
    .. [1] Roark's Formulas for Stress and Strain, circular plate simply supported at its edge, pressure over a
       circle in the middle (memory); bolts hold it there, what stands out beyond is left out.
    """
    return (
        pressure
        * loaded**2
        / 16
        * (1 + (1 + poisson) * log(reach / loaded) - (1 - poisson) * loaded**2 / (4 * reach**2))
    )


def thickness(depth: float, moment: float, safety: float, strength: float) -> float:
    """Thickness by bending, over the bottom of the groove, in half millimetres.

    thickness = ceil(2 * max(8, depth + sqrt(6 * moment * safety / strength))) / 2

    Parameters
    ----------
    depth : float
        Of the groove [mm]
    moment : float
        By length [N]
    safety : float
        Against yielding [1]
    strength : float
        Yield strength [MPa]

    Returns
    -------
    thickness : float
        Thickness [mm]

    Examples
    --------
    >>> thickness(1.95, 166.4, 3.0, 305.0)
    8.0

    References
    ----------
    .. [1] Elastic bending of a plate; at least 8 mm is common practice, no source.
    """
    return ceil(2 * max(8, depth + sqrt(6 * moment * safety / strength))) / 2


def bulge(pressure: float, reach: float, poisson: float, modulus: float, thickness: float) -> float:
    """How far the plate lifts in the middle, its whole circle taken as loaded.

    lift = pressure * (reach / 2)^4 * (5 + poisson) * 12 * (1 - poisson^2) / (64 * (1 + poisson) * modulus *
        thickness^3)

    Parameters
    ----------
    pressure : float
        Of the test [MPa]
    reach : float
        Diameter of the circle of bolts [mm]
    poisson : float
        Poisson's ratio [1]
    modulus : float
        Of the plate [MPa]
    thickness : float
        Over the groove [mm]

    Returns
    -------
    lift : float
        Length [mm]

    Examples
    --------
    >>> round(bulge(0.5, 83.4, 0.3, 210000.0, 6.0), 4)
    0.0232

    References
    ----------
    .. [1] Roark's Formulas for Stress and Strain, circular plate simply supported, pressure all over (memory).
    """
    return (
        pressure
        * (reach / 2) ** 4
        * (5 + poisson)
        * 12
        * (1 - poisson**2)
        / (64 * (1 + poisson) * modulus * thickness**3)
    )


def inner_edge(radius: float, diameter: float) -> float:
    """Edge of a bolt's hole towards the bore, from its centre.

    edge = radius - diameter / 2

    Parameters
    ----------
    radius : float
        Of the hole's centre [mm]
    diameter : float
        Of the hole [mm]

    Returns
    -------
    edge : float
        Radius [mm]

    Examples
    --------
    >>> inner_edge(41.7, 9.0)
    37.2

    References
    ----------
    .. [1] Plane geometry.
    """
    return radius - diameter / 2


def outer_edge(radius: float, diameter: float) -> float:
    """Edge of a bolt's hole away from the bore, from its centre.

    edge = radius + diameter / 2

    Parameters
    ----------
    radius : float
        Of the hole's centre [mm]
    diameter : float
        Of the hole [mm]

    Returns
    -------
    edge : float
        Radius [mm]

    Examples
    --------
    >>> outer_edge(41.7, 9.0)
    46.2

    References
    ----------
    .. [1] Plane geometry.
    """
    return radius + diameter / 2


def plate_diameter(outer: float, rim: float) -> float:
    """Diameter of the plate, in whole millimetres.

    diameter = ceil(2 * (outer + rim))

    Parameters
    ----------
    outer : float
        Furthest edge of a hole [mm]
    rim : float
        Outside it [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> plate_diameter(46.2, 8.0)
    109

    References
    ----------
    .. [1] Common practice, no source.
    """
    return ceil(2 * (outer + rim))


def circle(radius: float) -> float:
    """Circle on which the bolts hold the plate.

    diameter = 2 * radius

    Parameters
    ----------
    radius : float
        Of the bolt furthest out [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> circle(41.7)
    83.4

    References
    ----------
    .. [1] Plane geometry.
    """
    return 2 * radius
