"""Holes in the deck: where they are and what metal they leave. Lengths in mm."""

from __future__ import annotations

from math import acos, atan2, cos, fsum, hypot, pi, sin, tan


def circle_x(circle: float, first: float, number: float, count: float) -> float:
    """X of a hole on a hole circle, numbered anticlockwise from 1.

    x = circle / 2 * cos((first + 360 * (number - 1) / count) * pi / 180)

    Parameters
    ----------
    circle : float
        Diameter of the hole circle [mm]
    first : float
        Angle of hole 1 from +X [deg]
    number : float
        Number of the hole [1]
    count : float
        Holes on the circle [1]

    Returns
    -------
    x : float
        From the centre of the bore [mm]

    Examples
    --------
    >>> round(circle_x(78, 45, 1, 3), 3)
    27.577

    References
    ----------
    .. [1] Machinery's Handbook, coordinates of hole circles.
    """
    return circle / 2 * cos((first + 360 * (number - 1) / count) * pi / 180)


def circle_y(circle: float, first: float, number: float, count: float) -> float:
    """Y of a hole on a hole circle, numbered anticlockwise from 1.

    y = circle / 2 * sin((first + 360 * (number - 1) / count) * pi / 180)

    Parameters
    ----------
    circle : float
        Diameter of the hole circle [mm]
    first : float
        Angle of hole 1 from +X [deg]
    number : float
        Number of the hole [1]
    count : float
        Holes on the circle [1]

    Returns
    -------
    y : float
        From the centre of the bore [mm]

    Examples
    --------
    >>> round(circle_y(1, 90, 2, 3), 5)
    -0.25

    References
    ----------
    .. [1] Machinery's Handbook, coordinates of hole circles.
    """
    return circle / 2 * sin((first + 360 * (number - 1) / count) * pi / 180)


def corner_x(across: float, up: float, turned: float, side_x: float, side_y: float) -> float:
    """X of a corner of a turned rectangle.

    x = (side_x * across * cos(turned * pi / 180) - side_y * up * sin(turned * pi / 180)) / 2

    Parameters
    ----------
    across : float
        Side of the rectangle along X before it is turned [mm]
    up : float
        Side along Y before it is turned [mm]
    turned : float
        Turn, anticlockwise [deg]
    side_x : float
        +1 right of the centre, -1 left [1]
    side_y : float
        +1 above the centre, -1 below [1]

    Returns
    -------
    x : float
        From the centre of the bore [mm]

    Examples
    --------
    >>> round(corner_x(60, 58, 0, 1, 1), 3)
    30.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return (side_x * across * cos(turned * pi / 180) - side_y * up * sin(turned * pi / 180)) / 2


def corner_y(across: float, up: float, turned: float, side_x: float, side_y: float) -> float:
    """Y of a corner of a turned rectangle.

    y = (side_x * across * sin(turned * pi / 180) + side_y * up * cos(turned * pi / 180)) / 2

    Parameters
    ----------
    across : float
        Side of the rectangle along X before it is turned [mm]
    up : float
        Side along Y before it is turned [mm]
    turned : float
        Turn, anticlockwise [deg]
    side_x : float
        +1 right of the centre, -1 left [1]
    side_y : float
        +1 above the centre, -1 below [1]

    Returns
    -------
    y : float
        From the centre of the bore [mm]

    Examples
    --------
    >>> round(corner_y(60, 58, 0, 1, 1), 3)
    29.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return (side_x * across * sin(turned * pi / 180) + side_y * up * cos(turned * pi / 180)) / 2


def as_measured(reading: float) -> float:
    """A position taken as it was measured.

    position = reading

    Parameters
    ----------
    reading : float
        Coordinate as given [mm]

    Returns
    -------
    position : float
        From the centre of the bore [mm]

    Examples
    --------
    >>> round(as_measured(30.0), 1)
    30.0

    References
    ----------
    .. [1] The job file.
    """
    return reading


def radius(x: float, y: float) -> float:
    """Distance of a hole from the centre of the bore.

    radius = sqrt(x^2 + y^2)

    Parameters
    ----------
    x : float
        X of the hole [mm]
    y : float
        Y of the hole [mm]

    Returns
    -------
    radius : float
        Centre to centre [mm]

    Examples
    --------
    >>> round(radius(30, 40), 1)
    50.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return hypot(x, y)


def angle(x: float, y: float) -> float:
    """Angle of a hole from +X, anticlockwise.

    angle = atan2(y, x) * 180 / pi + 360 * (atan2(y, x) < 0)

    Parameters
    ----------
    x : float
        X of the hole [mm]
    y : float
        Y of the hole [mm]

    Returns
    -------
    angle : float
        From 0 to 360 [deg]

    Examples
    --------
    >>> round(angle(0, -10), 1)
    270.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return atan2(y, x) * 180 / pi % 360


def metal_to_bore(radius: float, bore: float, diameter: float) -> float:
    """Metal left between a hole and the bore.

    metal = radius - bore / 2 - diameter / 2

    Parameters
    ----------
    radius : float
        Centre of the hole from the centre of the bore [mm]
    bore : float
        Bore [mm]
    diameter : float
        Greatest diameter of the hole's thread [mm]

    Returns
    -------
    metal : float
        Thickness of the wall; below 0 they run into each other [mm]

    Examples
    --------
    >>> round(metal_to_bore(41.725, 57.2, 11.949), 3)
    7.151

    References
    ----------
    .. [1] Plane geometry.
    """
    return radius - bore / 2 - diameter / 2


def metal_to_circle(deck: float, radius: float, diameter: float) -> float:
    """Metal left between a hole and the edge of a round deck.

    metal = deck / 2 - radius - diameter / 2

    Parameters
    ----------
    deck : float
        Diameter of the deck face [mm]
    radius : float
        Centre of the hole from the centre of the bore [mm]
    diameter : float
        Greatest diameter of the hole's thread [mm]

    Returns
    -------
    metal : float
        Thickness of the wall; below 0 the hole runs out [mm]

    Examples
    --------
    >>> round(metal_to_circle(112, 41.725, 11.949), 3)
    8.3

    References
    ----------
    .. [1] Plane geometry.
    """
    return deck / 2 - radius - diameter / 2


def metal_between(x: float, y: float, diameter: float, other_x: float, other_y: float, other_diameter: float) -> float:
    """Metal left between two holes.

    metal = sqrt((x - other_x)^2 + (y - other_y)^2) - diameter / 2 - other_diameter / 2

    Parameters
    ----------
    x : float
        X of the hole [mm]
    y : float
        Y of the hole [mm]
    diameter : float
        Its greatest diameter [mm]
    other_x : float
        X of the other hole [mm]
    other_y : float
        Y of the other hole [mm]
    other_diameter : float
        Its diameter [mm]

    Returns
    -------
    metal : float
        Thickness of the wall; below 0 they overlap [mm]

    Examples
    --------
    >>> round(metal_between(0, 0, 6, 30, 40, 8), 1)
    43.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return hypot(x - other_x, y - other_y) - diameter / 2 - other_diameter / 2


def distance(x: float, y: float, other_x: float, other_y: float) -> float:
    """Distance between two centres.

    distance = sqrt((x - other_x)^2 + (y - other_y)^2)

    Parameters
    ----------
    x : float
        X of one [mm]
    y : float
        Y of one [mm]
    other_x : float
        X of the other [mm]
    other_y : float
        Y of the other [mm]

    Returns
    -------
    distance : float
        Centre to centre [mm]

    Examples
    --------
    >>> round(distance(0, 0, 30, 40), 1)
    50.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return hypot(x - other_x, y - other_y)


def share_in_filler(distance: float, pitch_diameter: float, old_diameter: float) -> float:
    """Share of a thread's pitch circle that lies in a filled old hole.

    share = acos(max(-1, min(1, (4 * distance^2 + pitch_diameter^2 - old_diameter^2) / max(4 * distance *
        pitch_diameter, 1e-9)))) / pi

    Parameters
    ----------
    distance : float
        Between the two centres [mm]
    pitch_diameter : float
        Of the tapped hole [mm]
    old_diameter : float
        Of the filled old hole [mm]

    Returns
    -------
    share : float
        0 clear of it, 1 wholly in it [1]

    Examples
    --------
    Two circles of one size, each through the other's centre, share a third of their circumference:

    >>> round(share_in_filler(5.0, 10.0, 10.0), 4)
    0.3333

    References
    ----------
    .. [1] Law of cosines: the two circles cut at the angle acos(share of the pitch radius) on either side.
    """
    cosine = (4 * distance**2 + pitch_diameter**2 - old_diameter**2) / max(4 * distance * pitch_diameter, 1e-9)
    return acos(max(-1.0, min(1.0, cosine))) / pi


def point_depth(drill: float) -> float:
    """Length of a twist drill's point beyond its full diameter.

    depth = drill / 2 / tan(59 * pi / 180)

    Parameters
    ----------
    drill : float
        Diameter of the drill [mm]

    Returns
    -------
    depth : float
        Of a 118 degree point [mm]

    Examples
    --------
    >>> round(point_depth(10.4), 3)
    3.124

    References
    ----------
    .. [1] ISO 5419, point angle 118 degrees.
    """
    return drill / 2 / tan(59 * pi / 180)


def floor(deck_depth: float, skim: float, drill_depth: float, point: float) -> float:
    """Metal left under a blind hole, drill point included.

    floor = deck_depth - skim - drill_depth - point

    Parameters
    ----------
    deck_depth : float
        Metal below the deck before it is skimmed [mm]
    skim : float
        To come off the deck [mm]
    drill_depth : float
        Of the full diameter, from the skimmed deck [mm]
    point : float
        Length of the drill's point [mm]

    Returns
    -------
    floor : float
        Below 0 the drill breaks through [mm]

    Examples
    --------
    >>> round(floor(32, 0.12, 21, 3.1245), 3)
    7.755

    References
    ----------
    .. [1] Plane geometry.
    """
    return deck_depth - skim - drill_depth - point


def widest_of(**kinds: float) -> float:
    """Widest tapped hole of those for studs of several kinds: what is common to them is judged by it.

    diameter = the widest

    Parameters
    ----------
    **kinds : float
        Tapped major diameter for each kind of stud [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> widest_of(front=10.0, rear=8.0)
    10.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return max(kinds.values())


def share_in_all(**shares: float) -> float:
    """Share of a thread's pitch circle that lies in any filled old hole.

    share = sum of the shares in each old hole, at most 1

    Parameters
    ----------
    **shares : float
        Share in each old hole that it touches [1]

    Returns
    -------
    share : float
        0 clear of them all [1]

    Examples
    --------
    >>> share_in_all(old_1=0.25, old_2=0.125)
    0.375

    References
    ----------
    .. [1] Where old holes overlap each other, what lies in both counts twice: it is no less than it should be.
    """
    return min(1.0, fsum(shares.values()))
