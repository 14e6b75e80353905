"""The ring pot: a slit pot that the jaws close round a blank. Lengths in mm, forces in N."""

from __future__ import annotations

from math import pi, sqrt


def grip(safety: float, cutting: float, inside: float, friction: float, outside: float) -> float:
    """Force of each of three jaws, so that the cut does not turn the blank.

    force = safety * cutting * inside / (3 * friction * outside)

    Parameters
    ----------
    safety : float
        For a cut that is heavier than it should be [1]
    cutting : float
        Cutting force while the inside is bored [N]
    inside : float
        Diameter that is cut [mm]
    friction : float
        Of the blank in the pot [1]
    outside : float
        Diameter that is held [mm]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    >>> round(grip(2.5, 12.6, 52.5, 0.12, 57.3), 1)
    80.2

    References
    ----------
    .. [1] Balance of moments about the axis; the safety is common practice, no source.
    """
    return safety * cutting * inside / (3 * friction * outside)


def jaw_ovality(force: float, radius: float, modulus: float, moment: float) -> float:
    """How far three jaws squeeze a thin ring out of round: greatest radius less the least.

    ovality = force * radius^3 / (modulus * moment) * (pi / 18 - sqrt(3) / 12)

    Parameters
    ----------
    force : float
        Of each jaw [N]
    radius : float
        Mean radius of the ring [mm]
    modulus : float
        Of its metal [MPa]
    moment : float
        Second moment of its section, against bending in its plane [mm^4]

    Returns
    -------
    ovality : float
        Length [mm]

    Examples
    --------
    A blank of 57.3 by 2.4 and 2.38 mm, three jaws of 80 N: a fifth of a millimetre.

    >>> round(jaw_ovality(80.0, 27.4, 1e5, 2.742), 3)
    0.181

    References
    ----------
    .. [1] Roark's Formulas for Stress and Strain, circular rings, equal radial loads equally spaced: inwards at a
       load (theta / 2 + s c / 2) / s^2 / 2 - 1 / (2 theta), outwards midway 1 / (2 theta) - 1 / (4 s) - theta c / (4
       s^2), with theta = 60 deg (memory).
    """
    return force * radius**3 / (modulus * moment) * (pi / 18 - sqrt(3) / 12)


def pot_ovality(
    force: float, radius: float, pot_modulus: float, pot_moment: float, modulus: float, moment: float
) -> float:
    """The same of a blank in a slit pot: pot and blank bend together, the slit pot counts half.

    ovality = force * radius^3 / (pot_modulus * pot_moment / 2 + modulus * moment) * (pi / 18 - sqrt(3) / 12)

    Parameters
    ----------
    force : float
        Of each jaw [N]
    radius : float
        Mean radius of the pot [mm]
    pot_modulus : float
        Of the pot [MPa]
    pot_moment : float
        Second moment of the pot's section [mm^4]
    modulus : float
        Of the blank [MPa]
    moment : float
        Second moment of the blank's section [mm^4]

    Returns
    -------
    ovality : float
        Length [mm]

    Examples
    --------
    >>> round(pot_ovality(80.0, 33.0, 73500.0, 870.0, 1e5, 2.742), 4)
    0.0027

    References
    ----------
    .. [1] The thin ring under three loads as in Roark, two of them side by side; that a slit halves the pot is
       common practice, no source.
    """
    return force * radius**3 / (pot_modulus * pot_moment / 2 + modulus * moment) * (pi / 18 - sqrt(3) / 12)


def wall_moment(height: float, wall: float) -> float:
    """Second moment of a wall, against bending in the plane of its ring.

    moment = height * wall^3 / 12

    Parameters
    ----------
    height : float
        Along the axis [mm]
    wall : float
        Radial [mm]

    Returns
    -------
    moment : float
        Second moment [mm^4]

    Examples
    --------
    >>> round(wall_moment(20.0, 8.0), 1)
    853.3

    References
    ----------
    .. [1] Rectangle about its middle.
    """
    return height * wall**3 / 12


def mean_radius(outside: float, inside: float) -> float:
    """Mean radius of the wall.

    radius = (outside + inside) / 4

    Parameters
    ----------
    outside : float
        Diameter [mm]
    inside : float
        Diameter [mm]

    Returns
    -------
    radius : float
        Radius [mm]

    Examples
    --------
    >>> mean_radius(74.0, 58.0)
    33.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return (outside + inside) / 4
