"""Sizes of the three mandrels that hold a ring open for the heat. Lengths in mm, angles in rad."""

from __future__ import annotations

from math import cos, pi, sin, tan


def open_gap(slit: float, free_gap: float, set_fraction: float) -> float:
    """Gap on the mean line while the mandrel holds the ring open.

    gap = slit + (free_gap - slit) / set_fraction

    Parameters
    ----------
    slit : float
        Width of the saw [mm]
    free_gap : float
        Total free gap wanted [mm]
    set_fraction : float
        Share of the opening that remains after the heat [1]

    Returns
    -------
    gap : float
        Open gap [mm]

    Examples
    --------
    >>> round(open_gap(0.5, 8.58, 0.95), 3)
    9.005

    References
    ----------
    .. [1] The ring keeps its set fraction of what the mandrel opened (derived).
    """
    return slit + (free_gap - slit) / set_fraction


def contoured_opened_stress(
    modulus: float, thickness: float, parameter: float, radius: float, outside: float, set_fraction: float
) -> float:
    """Bending stress at the back while the contoured mandrel holds the ring open.

    stress = modulus * thickness / 2 * abs((1 - 2 * parameter) / radius - 2 / (outside - thickness)) /
        set_fraction

    Parameters
    ----------
    modulus : float
        Of the ring iron, cold [MPa]
    thickness : float
        Radial thickness [mm]
    parameter : float
        Ring parameter K [1]
    radius : float
        Mean radius in the bore [mm]
    outside : float
        Outside diameter of the blank [mm]
    set_fraction : float
        Share of the opening that remains [1]

    Returns
    -------
    stress : float
        Bending stress [MPa]

    Examples
    --------
    >>> round(contoured_opened_stress(100000, 2.4, 0.031608, 27.4, 57.2955, 0.95), 1)
    283.4

    References
    ----------
    .. [1] Change of curvature of a thin bar, from the blank to the contour (derived).
    """
    return modulus * thickness / 2 * abs((1 - 2 * parameter) / radius - 2 / (outside - thickness)) / set_fraction


def opened_stress(modulus: float, thickness: float, open_gap: float, slit: float, outside: float) -> float:
    """Bending stress at the back while a pin holds the ring open at its ends.

    stress = 4 * modulus * thickness * (open_gap - slit) / (3 * pi * (outside - thickness)^2)

    Parameters
    ----------
    modulus : float
        Of the ring iron, cold [MPa]
    thickness : float
        Radial thickness [mm]
    open_gap : float
        Open gap [mm]
    slit : float
        Width of the saw [mm]
    outside : float
        Outside diameter of the blank [mm]

    Returns
    -------
    stress : float
        Bending stress; a small-opening formula, 2 to 3 % high [MPa]

    Examples
    --------
    >>> round(opened_stress(100000, 2.4, 9.005, 0.5, 57.2955), 1)
    287.5

    References
    ----------
    .. [1] Thin inextensible curved bar, derived.
    """
    return 4 * modulus * thickness * (open_gap - slit) / (3 * pi * (outside - thickness) ** 2)


def round_opened_stress(modulus: float, thickness: float, inside: float, mandrel: float) -> float:
    """Bending stress while the ring hugs a plain round mandrel.

    stress = modulus * thickness / 2 * abs(2 / (inside + thickness) - 2 / (mandrel + thickness))

    Parameters
    ----------
    modulus : float
        Of the ring iron, cold [MPa]
    thickness : float
        Radial thickness [mm]
    inside : float
        Inside diameter of the blank [mm]
    mandrel : float
        Diameter of the mandrel [mm]

    Returns
    -------
    stress : float
        Over the back, where it wraps [MPa]

    Examples
    --------
    >>> round(round_opened_stress(100000, 2.4, 52.4955, 55.1132), 1)
    199.0

    References
    ----------
    .. [1] Change of curvature of a thin bar.
    """
    return modulus * thickness / 2 * abs(2 / (inside + thickness) - 2 / (mandrel + thickness))


def round_diameter(inside: float, free_gap: float, slit: float, set_fraction: float) -> float:
    """Plain round mandrel that leaves the wanted free gap.

    diameter = inside + (free_gap - slit) / (3.2491 * set_fraction)

    Parameters
    ----------
    inside : float
        Inside diameter of the blank [mm]
    free_gap : float
        Total free gap wanted [mm]
    slit : float
        Width of the saw [mm]
    set_fraction : float
        Share of the opening that remains [1]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(round_diameter(52.4955, 8.58, 0.5, 0.95), 3)
    55.113

    References
    ----------
    .. [1] The ring wraps the mandrel 57.4 degrees either side of the back and touches again at its ends; 3.2491 is
       the same for every ring (derived).
    """
    return inside + (free_gap - slit) / (3.2491 * set_fraction)


def disc_diameter(inside: float, free_gap: float, slit: float, set_fraction: float) -> float:
    """Largest disc that lies free inside a ring held open at its ends.

    diameter = inside + 0.2122 * (free_gap - slit) / set_fraction

    Parameters
    ----------
    inside : float
        Inside diameter of the blank [mm]
    free_gap : float
        Total free gap wanted [mm]
    slit : float
        Width of the saw [mm]
    set_fraction : float
        Share of the opening that remains [1]

    Returns
    -------
    diameter : float
        A larger one touches the ring and spoils its shape [mm]

    Examples
    --------
    >>> round(disc_diameter(52.4955, 8.58, 0.5, 0.95), 3)
    54.3

    References
    ----------
    .. [1] Free shape of the ring under end forces: 2/(3 pi) of the opening (derived).
    """
    return inside + 0.2122 * (free_gap - slit) / set_fraction


def disc_turned(disc: float) -> float:
    """Diameter to which the disc is turned, clear of the ring.

    diameter = disc - 0.4

    Parameters
    ----------
    disc : float
        Largest disc that lies free [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(disc_turned(54.3003), 2)
    53.9

    References
    ----------
    .. [1] Common practice, no source.
    """
    return disc - 0.4


def tip_angle(open_gap: float, slit: float, outside: float, thickness: float) -> float:
    """Lean of each end while a pin holds the ring open.

    angle = (open_gap - slit) / (3 * (outside - thickness) / 2)

    Parameters
    ----------
    open_gap : float
        Open gap [mm]
    slit : float
        Width of the saw [mm]
    outside : float
        Outside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    angle : float
        From the slit's own direction [rad]

    Examples
    --------
    >>> round(tip_angle(9.005, 0.5, 57.2955, 2.4), 4)
    0.1033

    References
    ----------
    .. [1] Turning of the thin curved bar under end forces (derived).
    """
    return (open_gap - slit) / (3 * (outside - thickness) / 2)


def pin_diameter(open_gap: float, lean: float) -> float:
    """Round pin that bears on both ends at mid-thickness.

    diameter = open_gap / cos(lean)

    Parameters
    ----------
    open_gap : float
        Open gap on the mean line [mm]
    lean : float
        Lean of each end [rad]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(pin_diameter(9.005, 0.1033), 3)
    9.053

    References
    ----------
    .. [1] Plane geometry.
    """
    return open_gap / cos(lean)


def pin_position(outside: float, thickness: float, open_gap: float, slit: float, lean: float) -> float:
    """Centre of the pin from the centre of the disc.

    position = (outside - thickness) / 2 + (open_gap - slit) / (3 * pi) + open_gap / 2 * tan(lean)

    Parameters
    ----------
    outside : float
        Outside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]
    open_gap : float
        Open gap [mm]
    slit : float
        Width of the saw [mm]
    lean : float
        Lean of each end [rad]

    Returns
    -------
    position : float
        On +X [mm]

    Examples
    --------
    >>> round(pin_position(57.2955, 2.4, 9.005, 0.5, 0.1033), 2)
    28.82

    References
    ----------
    .. [1] Ends of the opened ring move out by the ring parameter times the mean radius (derived).
    """
    return (outside - thickness) / 2 + (open_gap - slit) / (3 * pi) + open_gap / 2 * tan(lean)


def bar_width(open_gap: float, thickness: float, lean: float) -> float:
    """Flat bar in the gap, which bears on the inner corners.

    width = open_gap - thickness * sin(lean)

    Parameters
    ----------
    open_gap : float
        Open gap on the mean line [mm]
    thickness : float
        Radial thickness [mm]
    lean : float
        Lean of each end [rad]

    Returns
    -------
    width : float
        Width [mm]

    Examples
    --------
    >>> round(bar_width(9.005, 2.4, 0.1033), 2)
    8.76

    References
    ----------
    .. [1] Plane geometry.
    """
    return open_gap - thickness * sin(lean)


def stack(rings: float, width: float) -> float:
    """Height of the rings that lie on each other on the mandrel.

    height = rings * width

    Parameters
    ----------
    rings : float
        Rings on the mandrel at a time [1]
    width : float
        Axial width [mm]

    Returns
    -------
    height : float
        Above Z = 0 [mm]

    Examples
    --------
    >>> round(stack(3, 2.38), 2)
    7.14

    References
    ----------
    .. [1] Plane geometry.
    """
    return rings * width


def under_stack(width: float) -> float:
    """How far the mandrel's top stands below the stack, so that a flat plate bears on the rings alone.

    under = min(0.3, width / 8)

    Parameters
    ----------
    width : float
        Axial width of a ring [mm]

    Returns
    -------
    under : float
        Length [mm]

    Examples
    --------
    >>> round(under_stack(2.38), 4), under_stack(4.0)
    (0.2975, 0.3)

    References
    ----------
    .. [1] Common practice, no source.
    """
    return min(0.3, width / 8)


def seat_height(stack: float, under: float, lead_in: float) -> float:
    """Height of the seat that the rings stand on, up to its lead-in.

    height = stack - under - lead_in

    Parameters
    ----------
    stack : float
        Height of the rings [mm]
    under : float
        From the top of the stack down to the mandrel's top [mm]
    lead_in : float
        Length of the taper at the mandrel's top [mm]

    Returns
    -------
    height : float
        Above Z = 0 [mm]

    Examples
    --------
    >>> round(seat_height(7.14, 0.2975, 0.952), 4)
    5.8905

    References
    ----------
    .. [1] Plane geometry.
    """
    return stack - under - lead_in


def hole_size(inside: float) -> float:
    """Hole through the mandrel for an arbor or a clamping bolt.

    diameter = min(10, 0.35 * inside)

    Parameters
    ----------
    inside : float
        Inside diameter of the blank [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(hole_size(52.4955), 1)
    10.0

    References
    ----------
    .. [1] Common practice, no source.
    """
    return min(10.0, 0.35 * inside)


def lead_in(inside: float, width: float) -> float:
    """Length of the taper over which a ring is slipped on to the seat: it lies within the top ring.

    length = min(2, inside / 12, 0.4 * width)

    Parameters
    ----------
    inside : float
        Inside diameter of the blank [mm]
    width : float
        Axial width of a ring: half of it and more stays on the seat [mm]

    Returns
    -------
    length : float
        Length, tapered by half of it a side [mm]

    Examples
    --------
    >>> round(lead_in(52.4955, 2.38), 3)
    0.952

    References
    ----------
    .. [1] Common practice, no source.
    """
    return min(2.0, inside / 12, 0.4 * width)


def flange_thickness(inside: float) -> float:
    """Thickness of the flange under the seat.

    thickness = max(4, inside / 8)

    Parameters
    ----------
    inside : float
        Inside diameter of the blank [mm]

    Returns
    -------
    thickness : float
        Thickness [mm]

    Examples
    --------
    >>> round(flange_thickness(52.4955), 2)
    6.56

    References
    ----------
    .. [1] Common practice, no source.
    """
    return max(4.0, inside / 8)


def tip_length(outside: float, thickness: float, slit: float) -> float:
    """Half length of the ring on its mean line, from the back to an end.

    length = pi / 2 * (outside - thickness) - slit / 2

    Parameters
    ----------
    outside : float
        Outside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]
    slit : float
        Width of the saw [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(tip_length(57.2955, 2.4, 0.5), 3)
    85.98

    References
    ----------
    .. [1] Plane geometry.
    """
    return pi / 2 * (outside - thickness) - slit / 2


def flange_diameter(outside: float, open_gap: float) -> float:
    """Flange that the rings rest on.

    diameter = outside + max(open_gap / 2 + 12, 1.3 * open_gap + 3)

    Parameters
    ----------
    outside : float
        Outside diameter of the blank [mm]
    open_gap : float
        Open gap [mm]

    Returns
    -------
    diameter : float
        Reaches 3 mm and more beyond the opened rings, and round a pin in a wide gap [mm]

    Examples
    --------
    >>> round(flange_diameter(57.2955, 9.005), 2)
    73.8

    References
    ----------
    .. [1] Common practice, no source.
    """
    return outside + max(open_gap / 2 + 12, 1.3 * open_gap + 3)
