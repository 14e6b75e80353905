"""The fitting sleeve: a ring slides down its cone and over the lands. Lengths in mm."""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi, tan

from parts.relations.contact.chain import near
from parts.relations.contact.one_sided import settle
from parts.relations.contact.opening import START


def free_inside(outside: float, free_gap: float, slit: float, thickness: float) -> float:
    """Inside of the set ring as it lies free, taken as round.

    inside = outside + (free_gap - slit) / pi - 2 * thickness

    Parameters
    ----------
    outside : float
        Of the blank [mm]
    free_gap : float
        On the mean line [mm]
    slit : float
        What the saw took [mm]
    thickness : float
        Radial [mm]

    Returns
    -------
    inside : float
        Diameter [mm]

    Examples
    --------
    >>> round(free_inside(57.2955, 8.58, 0.5, 2.4), 2)
    55.07

    References
    ----------
    .. [1] A ring does not stretch: its mean line and its gap make one circle (derived).
    """
    return outside + (free_gap - slit) / pi - 2 * thickness


def outside(piston: float, play: float, wall: float) -> float:
    """Outside of the skirt that a ring slides over.

    diameter = piston + play + 2 * wall

    Parameters
    ----------
    piston : float
        Over the lands [mm]
    play : float
        Of the sleeve on the piston, on diameter [mm]
    wall : float
        Of the sleeve [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(outside(57.1, 0.1, 0.5), 2)
    58.2

    References
    ----------
    .. [1] Plane geometry.
    """
    return piston + play + 2 * wall


def cone_length(outside: float, small: float, angle: float) -> float:
    """Length of the cone that opens the ring.

    length = (outside - small) / (2 * tan(angle * pi / 180))

    Parameters
    ----------
    outside : float
        Where it ends [mm]
    small : float
        Where a free ring slips on [mm]
    angle : float
        Between its side and its axis [deg]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(cone_length(58.2, 54.6, 8.0), 1)
    12.8

    References
    ----------
    .. [1] Plane geometry.
    """
    return (outside - small) / (2 * tan(angle * pi / 180))


def reach(width: float) -> float:
    """From the crown to the groove, where it is not given.

    length = 5 * width

    Parameters
    ----------
    width : float
        Axial width of the ring [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(reach(2.38), 1)
    11.9

    References
    ----------
    .. [1] Common practice, no source.
    """
    return 5 * width


LINKS, KEPT = 120, 256  # of half a ring; shapes that are remembered


def ring_stress(modulus: float, thickness: float, radius: float, parameter: float, half: float, sleeve: float) -> float:
    """Greatest bending stress of a set ring while it lies round the sleeve: some 80 degrees from its back.

    stress = modulus * thickness / 2 * greatest change of curvature from the free ring, (1 - parameter
        * (1 + cos(s / radius))) / radius, to its shape round the sleeve, by one-sided contact

    Parameters
    ----------
    modulus : float
        Of the ring iron [MPa]
    thickness : float
        Radial [mm]
    radius : float
        Mean radius in the bore [mm]
    parameter : float
        Ring parameter K, of exactly the free gap [1]
    half : float
        Half length of the ring on its mean line [mm]
    sleeve : float
        Diameter of the sleeve [mm]

    Returns
    -------
    stress : float
        0 where the sleeve does not open the ring [MPa]

    Examples
    --------
    Opened by its ends over the piston the same ring has 360:

    >>> round(ring_stress(100000, 2.4, 27.4, 0.0316571, 85.98, 57.5))
    277

    References
    ----------
    .. [1] Thin bar that bends and does not stretch, on a wall that pushes and does not pull, solved numerically
       (derived).
    """
    return modulus * thickness / 2 * _bend((sleeve + thickness) / 2, radius, parameter, half)


@lru_cache(KEPT)
def _bend(wall: float, radius: float, parameter: float, half: float) -> float:
    """Greatest change of curvature of a ring round a wall [1/mm]: much the same is asked for many times over."""
    free = [(1 - parameter * (1 + cos(n * half / LINKS / radius))) / radius for n in range(LINKS + 1)]
    lack = [*(k * wall - 1 for k in free[:-1]), 0.0]
    most, step = max(lack), half / LINKS / wall
    if most <= 0:
        return 0.0
    bar = near(step, lack, half=True)
    gaps, _ = settle(bar, bar, START * most, most * step, LINKS + 1)
    return float(max(bar.moments(gaps)) / wall)
