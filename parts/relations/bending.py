"""A head pulled down outside its raised face bends over it, as a ring that is twisted. Lengths in mm, forces in N."""

from __future__ import annotations

from math import log, pi


def lever(reach: float, face: float, bore: float) -> float:
    """How far a stud pulls outside the middle of the ring that presses.

    lever = reach - (face + bore) / 4

    Parameters
    ----------
    reach : float
        Stud from the centre of the bore [mm]
    face : float
        Outside of the raised face [mm]
    bore : float
        Bore of the gasket [mm]

    Returns
    -------
    lever : float
        Lever [mm]

    Examples
    --------
    >>> round(lever(41.725, 66, 58.2), 3)
    10.675

    References
    ----------
    .. [1] Plane geometry.
    """
    return reach - (face + bore) / 4


def outside(reach: float, boss: float) -> float:
    """Outside of the head taken as a ring: as far as the bosses go.

    outside = 2 * reach + boss

    Parameters
    ----------
    reach : float
        Stud from the centre of the bore [mm]
    boss : float
        Diameter of the metal round the stud [mm]

    Returns
    -------
    outside : float
        Diameter [mm]

    Examples
    --------
    >>> round(outside(41.725, 24), 2)
    107.45

    References
    ----------
    .. [1] Plane geometry.
    """
    return 2 * reach + boss


def twist(count: float, load: float, lever: float) -> float:
    """Moment that turns the head's ring over its raised face, all studs together.

    moment = count * load * lever / 1000

    Parameters
    ----------
    count : float
        Number of studs [1]
    load : float
        Greatest load on one [N]
    lever : float
        Stud outside the middle of the ring that presses [mm]

    Returns
    -------
    moment : float
        Moment [N m]

    Examples
    --------
    >>> round(twist(4, 23000, 10.675), 1)
    982.1

    References
    ----------
    .. [1] Statics: the studs pull down, the face presses up, inside them.
    """
    return count * load * lever / 1000


def bending_stress(moment: float, thickness: float, inside: float, outside: float) -> float:
    """Greatest stress in a ring that is twisted evenly all round: at its inner corner.

    stress = 6000 * moment / (pi * thickness^2 * inside * log(outside / inside))

    Parameters
    ----------
    moment : float
        All round together [N m]
    thickness : float
        Of the ring along the bore [mm]
    inside : float
        Diameter of the mouth [mm]
    outside : float
        Diameter [mm]

    Returns
    -------
    stress : float
        Along the circumference [MPa]

    Examples
    --------
    >>> round(bending_stress(982.1, 46, 58.2, 107.45), 1)
    24.8

    References
    ----------
    .. [1] Timoshenko, Strength of Materials, part II: ring of rectangular section twisted by couples along its
        circle (memory). The roof of the chamber, which helps, is not counted.
    """
    return 6000 * moment / (pi * thickness**2 * inside * log(outside / inside))


def face_lift(moment: float, thickness: float, inside: float, outside: float, modulus: float, width: float) -> float:
    """How far the inner edge of the raised face is lifted from the outer one as the head bends.

    lift = 6000 * moment * width / (pi * modulus * thickness^3 * log(outside / inside))

    Parameters
    ----------
    moment : float
        All round together [N m]
    thickness : float
        Of the ring along the bore [mm]
    inside : float
        Diameter of the mouth [mm]
    outside : float
        Diameter [mm]
    modulus : float
        Modulus of elasticity of the head [MPa]
    width : float
        Width of the ring that presses [mm]

    Returns
    -------
    lift : float
        The gasket is pressed that much less there [mm]

    Examples
    --------
    >>> round(face_lift(982.1, 46, 58.2, 107.45, 73500, 3.9), 5)
    0.00167

    References
    ----------
    .. [1] Timoshenko, Strength of Materials, part II: ring of rectangular section twisted by couples along its
        circle (memory). The roof of the chamber, which helps, is not counted.
    """
    return 6000 * moment * width / (pi * modulus * thickness**3 * log(outside / inside))
