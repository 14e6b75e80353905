"""Sizes of the three mandrels that hold a ring open for the heat. Lengths in mm, angles in rad."""

from __future__ import annotations

from math import cos, pi, sin, tan

from parts.relations.ring_elastica import on_pin, on_round, round_for

COSTED = 0.01  # mm of a seat's error, whose cost is told
LARGE = 0.25  # of the ring's mean diameter: where the rule of the round mandrel is by 0.7 % off


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
    """Greatest bending stress while the contoured mandrel holds the ring open: at its back.

    stress = modulus * thickness / 2 * max(abs((1 - 2 * parameter) / radius - 2 / (outside - thickness)),
        abs(1 / radius - 2 / (outside - thickness))) / set_fraction

    Parameters
    ----------
    modulus : float
        Of the ring iron, cold [MPa]
    thickness : float
        Radial thickness [mm]
    parameter : float
        Ring parameter K, of exactly the free gap [1]
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
    >>> round(contoured_opened_stress(100000, 2.4, 0.0316571, 27.4, 57.2955, 0.95), 1)
    283.9

    References
    ----------
    .. [1] Change of curvature of a thin bar, from the blank to the contour (derived).
    """
    by_nature = 2 / (outside - thickness)
    bent = max(abs((1 - 2 * parameter) / radius - by_nature), abs(1 / radius - by_nature))
    return modulus * thickness / 2 * bent / set_fraction


def opened_stress(modulus: float, open_gap: float, slit: float, outside: float, thickness: float) -> float:
    """Greatest bending stress while a pin holds the ring open at its ends: at its back.

    stress = modulus * thickness / 2 * (2 / (outside - thickness) - curvature at the back of the exact shape)

    Parameters
    ----------
    modulus : float
        Of the ring iron, cold [MPa]
    open_gap : float
        Open gap on the mean line [mm]
    slit : float
        Width of the saw [mm]
    outside : float
        Outside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    stress : float
        Bending stress [MPa]

    Examples
    --------
    The closed form for a small opening, 4 E a (w - s) / (3 pi (D - a)^2), reads 287.5:

    >>> round(opened_stress(100000, 9.005, 0.5, 57.2955, 2.4), 1)
    274.6

    References
    ----------
    .. [1] Thin inextensible curved bar held open at its ends, solved exactly (derived).
    """
    held = on_pin(open_gap, slit, outside, thickness)
    return modulus * thickness / 2 * (2 / (outside - thickness) - held.back)


def round_opened_stress(modulus: float, thickness: float, inside: float, slit: float, mandrel: float) -> float:
    """Greatest bending stress while the ring hugs a plain round mandrel: off it, some 80 to 90 degrees from the back.

    stress = modulus * thickness / 2 * (2 / (inside + thickness) - least curvature of the exact shape)

    Parameters
    ----------
    modulus : float
        Of the ring iron, cold [MPa]
    thickness : float
        Radial thickness [mm]
    inside : float
        Inside diameter of the blank [mm]
    slit : float
        Width of the saw [mm]
    mandrel : float
        Diameter of the mandrel [mm]

    Returns
    -------
    stress : float
        Of a small opening 1.1866 times that of the back, where the ring wraps the mandrel [MPa]

    Examples
    --------
    Over the back it is 199.0:

    >>> round(round_opened_stress(100000, 2.4, 52.4955, 0.5, 55.1132), 1)
    236.0

    References
    ----------
    .. [1] Thin inextensible curved bar round a disc, solved exactly; 1.1866 is 1 / sin(122.566 deg) (derived).
    """
    held = on_round(inside, thickness, slit, mandrel)
    return modulus * thickness / 2 * (2 / (inside + thickness) - held.straightest)


def round_diameter(inside: float, thickness: float, free_gap: float, slit: float, set_fraction: float) -> float:
    """Plain round mandrel that leaves the wanted free gap.

    diameter = inside + (free_gap - slit) / (3.2491 * set_fraction); where it opens the ring by over a quarter of its
        mean diameter: that on which the exact shape stands open by slit + (free_gap - slit) / set_fraction

    Parameters
    ----------
    inside : float
        Inside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]
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
    >>> round(round_diameter(52.4955, 2.4, 8.58, 0.5, 0.95), 3)
    55.113
    >>> round(round_diameter(52.4955, 2.4, 14.5, 0.5, 0.75), 3), round(52.4955 + 14 / (3.2491 * 0.75), 3)
    (58.32, 58.241)

    References
    ----------
    .. [1] The ring wraps the mandrel 57.4 degrees either side of the back and touches again at its ends; 3.2491 is
       the same for every ring (derived). The gap comes out up to 0.7 % small by it; beyond, the exact bar is solved.
    """
    opening = (free_gap - slit) / set_fraction
    if opening > LARGE * (inside + thickness):
        return round_for(inside, thickness, slit, slit + opening).mandrel
    return inside + (free_gap - slit) / (3.2491 * set_fraction)


def disc_diameter(open_gap: float, slit: float, outside: float, thickness: float) -> float:
    """Largest disc that lies free inside a ring held open at its ends: it touches the back and both inner corners.

    diameter = 2 * (centre - thickness / 2), with the centre as far from the back's inside as from the inner corners of
        the exact shape

    Parameters
    ----------
    open_gap : float
        Open gap on the mean line [mm]
    slit : float
        Width of the saw [mm]
    outside : float
        Outside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    diameter : float
        A larger one touches the ring and spoils its shape [mm]

    Examples
    --------
    To first order it is 54.3, inside + 2/(3 pi) of the opening:

    >>> round(disc_diameter(9.005, 0.5, 57.2955, 2.4), 3)
    54.46

    References
    ----------
    .. [1] Thin inextensible curved bar held open at its ends, solved exactly (derived).
    """
    return 2 * _disc_centre(open_gap, slit, outside, thickness) - thickness


def _disc_centre(open_gap: float, slit: float, outside: float, thickness: float) -> float:
    """Centre of that disc, from the mean line of the ring's back [mm]."""
    held, half = on_pin(open_gap, slit, outside, thickness), thickness / 2
    x, y = held.reach - half * cos(held.lean), open_gap / 2 - half * sin(held.lean)
    return (x * x + y * y - half * half) / (2 * (x - half))


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

    angle = (outside - thickness) / 2 * integral of what the pin takes from the curvature of the exact shape

    Parameters
    ----------
    open_gap : float
        Open gap on the mean line [mm]
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
    To first order it is 0.1033, (w - s) / (3 r):

    >>> round(tip_angle(9.005, 0.5, 57.2955, 2.4), 4)
    0.1024

    References
    ----------
    .. [1] Thin inextensible curved bar held open at its ends, solved exactly (derived).
    """
    return on_pin(open_gap, slit, outside, thickness).lean


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


def pin_position(open_gap: float, slit: float, outside: float, thickness: float) -> float:
    """Centre of the pin from the centre of the disc, so that the ring's back keeps as clear of the disc as its ends do.

    position = reach of the ends from the back in the exact shape + open_gap / 2 * tan(lean) - centre of the disc from
        the back

    Parameters
    ----------
    open_gap : float
        Open gap on the mean line [mm]
    slit : float
        Width of the saw [mm]
    outside : float
        Outside diameter of the blank [mm]
    thickness : float
        Radial thickness [mm]

    Returns
    -------
    position : float
        On +X [mm]

    Examples
    --------
    To first order it is 28.82, by which the back would lie on a disc of 53.9:

    >>> round(pin_position(9.005, 0.5, 57.2955, 2.4), 2)
    28.53

    References
    ----------
    .. [1] Thin inextensible curved bar held open at its ends, solved exactly (derived).
    """
    held = on_pin(open_gap, slit, outside, thickness)
    ends = held.reach + open_gap / 2 * tan(held.lean)
    return ends - _disc_centre(open_gap, slit, outside, thickness)


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


def seat_cost(change: float, error: float, set_fraction: float, sides: float) -> float:
    """What 0.01 mm by which a seat is larger costs: the open gap wider by so much.

    cost = 0.01 * sides * abs(change) / (error * set_fraction)

    Parameters
    ----------
    change : float
        Of the free gap by an error of the seat [mm]
    error : float
        By which that seat is larger on diameter [mm]
    set_fraction : float
        Share of the opening that remains [1]
    sides : float
        2 where the seat is measured from its axis, 1 on its diameter [1]

    Returns
    -------
    cost : float
        Of the open gap [mm]

    Examples
    --------
    A ring that wraps its seat opens by some 2 pi times what that stands further out:

    >>> round(seat_cost(0.295736, 0.1, 0.95, 2.0), 4)
    0.0623

    References
    ----------
    .. [1] Differences of the closed forms (derived).
    """
    return COSTED * sides * abs(change) / (error * set_fraction)


def seat_held(open_gap: float, share: float, cost: float) -> float:
    """By how much a seat may be larger or smaller: as far as the open gap allows, no finer than it is made.

    held = max(0.01, 0.01 * share * open_gap / cost)

    Parameters
    ----------
    open_gap : float
        Open gap on the mean line [mm]
    share : float
        Of it that the gap may miss [1]
    cost : float
        Of the open gap by 0.01 mm of the seat [mm]

    Returns
    -------
    held : float
        Either way [mm]

    Examples
    --------
    >>> round(seat_held(9.005, 0.01, 0.0623), 4), seat_held(3.0, 0.01, 0.0623)
    (0.0145, 0.01)

    References
    ----------
    .. [1] What is allowed over what it costs; that 0.01 mm is turned and filed is common practice, no source.
    """
    return max(0.01, COSTED * share * open_gap / cost)


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
