"""What strips a thread: shear areas, strip forces, engagement. Lengths in mm, areas in mm^2, forces in N."""

from __future__ import annotations

from math import pi, tan


def external_area(
    pitch: float, engagement: float, hole_minor: float, pitch_diameter: float, half_angle: float
) -> float:
    """Shear area of a stud's thread, at the tips of the hole's thread.

    area = pi / pitch * engagement * hole_minor * (pitch / 2 + tan(half_angle * pi / 180) * (pitch_diameter -
    hole_minor))

    Parameters
    ----------
    pitch : float
        Pitch [mm]
    engagement : float
        Length of engagement [mm]
    hole_minor : float
        Greatest minor diameter of the hole's thread [mm]
    pitch_diameter : float
        Least pitch diameter of the stud [mm]
    half_angle : float
        Half the angle of the thread [deg]

    Returns
    -------
    area : float
        Shear area [mm^2]

    Examples
    --------
    >>> round(external_area(1.25, 8, 6.912, 7.042, 30), 1)
    97.3

    References
    ----------
    .. [1] FED-STD-H28/2; ASME B1.1 appendix B; Machinery's Handbook, strength of threads.
    """
    return (
        pi / pitch * engagement * hole_minor * (pitch / 2 + tan(half_angle * pi / 180) * (pitch_diameter - hole_minor))
    )


def internal_area(pitch: float, engagement: float, major: float, hole_pitch: float, half_angle: float) -> float:
    """Shear area of a hole's thread, at the tips of what screws into it.

    area = pi / pitch * engagement * major * (pitch / 2 + tan(half_angle * pi / 180) * (major - hole_pitch))

    Parameters
    ----------
    pitch : float
        Pitch [mm]
    engagement : float
        Length of engagement [mm]
    major : float
        Least major diameter of what screws in: stud, or insert at the least tapped size [mm]
    hole_pitch : float
        Pitch diameter of the hole: its greatest for a stud, its least round an insert, which is sprung into
        it [mm]
    half_angle : float
        Half the angle of the thread [deg]

    Returns
    -------
    area : float
        Shear area [mm^2]

    Examples
    --------
    >>> round(internal_area(1.25, 8, 7.76, 7.348, 30), 1)
    134.6

    References
    ----------
    .. [1] FED-STD-H28/2; ASME B1.1 appendix B; Machinery's Handbook, strength of threads.
    """
    return pi / pitch * engagement * major * (pitch / 2 + tan(half_angle * pi / 180) * (major - hole_pitch))


def shear_strength(tensile: float) -> float:
    """Shear strength of a thread's metal.

    strength = 0.6 * tensile

    Parameters
    ----------
    tensile : float
        Tensile strength Rm of the bar, or of the casting at this section [MPa]

    Returns
    -------
    strength : float
        Shear strength [MPa]

    Examples
    --------
    >>> round(shear_strength(1100))
    660

    References
    ----------
    .. [1] Textbooks of machine design: 0.5 to 0.6 of the tensile strength for steel, more for iron; 0.6 taken
        (memory).
    """
    return 0.6 * tensile


def strip_force(area: float, strength: float) -> float:
    """Force that strips a thread.

    force = area * strength

    Parameters
    ----------
    area : float
        Shear area [mm^2]
    strength : float
        Shear strength [MPa]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    >>> round(strip_force(155.8, 660))
    102828

    References
    ----------
    .. [1] FED-STD-H28/2; ASME B1.1 appendix B; Machinery's Handbook, strength of threads.
    """
    return area * strength


def weaker(stud: float, other: float) -> float:
    """The thread that strips first.

    force = min(stud, other)

    Parameters
    ----------
    stud : float
        Force that strips the stud's thread [N]
    other : float
        Force that strips the thread of the hole or the nut [N]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    >>> round(weaker(120000, 49219))
    49219

    References
    ----------
    .. [1] The weaker of the two.
    """
    return min(stud, other)


def in_sound_metal(whole: float, share: float) -> float:
    """Force that strips a hole's thread where the part in an old hole's filler is not trusted.

    force = whole * (1 - share)

    Parameters
    ----------
    whole : float
        Force that strips the whole thread [N]
    share : float
        Greatest share of a thread that lies in filler [1]

    Returns
    -------
    force : float
        Force [N]

    Examples
    --------
    >>> round(in_sound_metal(49219, 0.339))
    32534

    References
    ----------
    .. [1] The rest of the circle alone: common practice, no source.
    """
    return whole * (1 - share)


def countersink(major: float, minor: float) -> float:
    """Depth of the 90 degree countersink that takes a tapped hole's first thread.

    depth = (major - minor) / 2

    Parameters
    ----------
    major : float
        Major diameter of the hole [mm]
    minor : float
        Minor diameter of the hole [mm]

    Returns
    -------
    depth : float
        Below the deck [mm]

    Examples
    --------
    >>> round(countersink(10, 8.376), 3)
    0.812

    References
    ----------
    .. [1] DIN 76-1: no wider than the thread needs (memory); 90 degrees to the major diameter taken.
    """
    return (major - minor) / 2


def engagement(reach: float, chamfer: float, step: float, first: float, last: float) -> float:
    """Length over which a stud's full thread lies in the hole's full thread.

    engagement = max(0.01, min(reach - chamfer, last) - max(step, first))

    Parameters
    ----------
    reach : float
        Of the tap end below the deck [mm]
    chamfer : float
        Of its end, down to the root [mm]
    step : float
        How far below the deck the tap end stops [mm]
    first : float
        First full thread of the hole below the deck: under its countersink, or the insert's first coil [mm]
    last : float
        Last full thread of the hole below the deck, or the insert's end [mm]

    Returns
    -------
    engagement : float
        Full thread in full thread; 0.01 mm stands for none [mm]

    Examples
    --------
    A plain hole of 3/8 BSW, 1 d deep: chamfer and countersink take 1.0165 mm each, the step lies inside the latter:

    >>> round(engagement(9.525, 1.0165, 1, 1.0165, 11.11), 3)
    7.492

    References
    ----------
    .. [1] FED-STD-H28/2: length of engagement of complete threads.
    """
    return max(0.01, min(reach - chamfer, last) - max(step, first))


def nut_engagement(height: float, pitch: float, above: float, chamfer: float) -> float:
    """Full thread of the stud in the full thread of a nut.

    engagement = max(0.01, min(height - pitch, above - chamfer - pitch / 2))

    Parameters
    ----------
    height : float
        Least height of the nut [mm]
    pitch : float
        Pitch [mm]
    above : float
        Stud above the nut's bearing face [mm]
    chamfer : float
        Of the stud's end [mm]

    Returns
    -------
    engagement : float
        Both countersinks left out, and what of the stud does not reach through [mm]

    Examples
    --------
    >>> round(nut_engagement(6.44, 1.25, 9.3, 0.767), 2), round(nut_engagement(6.44, 1.25, 5, 0.767), 3)
    (5.19, 3.608)

    References
    ----------
    .. [1] FED-STD-H28/2: length of engagement of complete threads; half a pitch for each countersink: common
        practice, no source.
    """
    return max(0.01, min(height - pitch, above - chamfer - pitch / 2))


def least_nut_height(height: float) -> float:
    """Least height of a nut of which only the greatest is known.

    least = 0.93 * height

    Parameters
    ----------
    height : float
        Greatest height [mm]

    Returns
    -------
    least : float
        Least height [mm]

    Examples
    --------
    ISO 4032 has 4.7 and 4.4 mm for M5:

    >>> round(least_nut_height(4.7), 2)
    4.37

    References
    ----------
    .. [1] ISO 4032: the least height is 0.936 of the greatest or more, M5 to M16; 0.93 taken.
    """
    return 0.93 * height


def above_nut_face(projection: float, nut_face: float) -> float:
    """How far a stud stands above its nut's bearing face.

    above = projection - nut_face

    Parameters
    ----------
    projection : float
        Stud above the deck [mm]
    nut_face : float
        Nut's bearing face above the deck [mm]

    Returns
    -------
    above : float
        Length [mm]

    Examples
    --------
    >>> round(above_nut_face(58.1, 48.8), 2)
    9.3

    References
    ----------
    .. [1] Plane geometry.
    """
    return projection - nut_face


def insert_end(set_down: float, installed: float) -> float:
    """Where the last coil of an insert lies.

    depth = set_down + installed

    Parameters
    ----------
    set_down : float
        First coil below the deck [mm]
    installed : float
        Least length of the insert once it is in [mm]

    Returns
    -------
    depth : float
        Below the deck [mm]

    Examples
    --------
    >>> round(insert_end(1.5, 13.875), 3)
    15.375

    References
    ----------
    .. [1] Plane geometry.
    """
    return set_down + installed


def engagement_to_break(
    area: float, pitch: float, hole_minor: float, pitch_diameter: float, half_angle: float
) -> float:
    """Engagement at which a stud of full section breaks rather than strips its own thread.

    engagement = 2 * area / (pi * hole_minor * (1 / 2 + tan(half_angle * pi / 180) / pitch * (pitch_diameter -
    hole_minor)))

    Parameters
    ----------
    area : float
        Stress area of the thread [mm^2]
    pitch : float
        Pitch [mm]
    hole_minor : float
        Greatest minor diameter of the hole's thread [mm]
    pitch_diameter : float
        Least pitch diameter of the stud [mm]
    half_angle : float
        Half the angle of the thread [deg]

    Returns
    -------
    engagement : float
        Where both metals are as strong [mm]

    Examples
    --------
    >>> round(engagement_to_break(58.0, 1.5, 8.676, 8.862, 30), 2)
    7.45

    References
    ----------
    .. [1] FED-STD-H28/2; ASME B1.1 appendix B; Machinery's Handbook, strength of threads.
    """
    return 2 * area / (pi * hole_minor * (1 / 2 + tan(half_angle * pi / 180) / pitch * (pitch_diameter - hole_minor)))


def strength_ratio(stud: float, other: float) -> float:
    """How much stronger the stud's thread is than the thread of the hole.

    ratio = stud / other

    Parameters
    ----------
    stud : float
        Force that strips the stud's thread [N]
    other : float
        Force that strips the thread of the hole [N]

    Returns
    -------
    ratio : float
        J; over 1 the engagement must grow by it [1]

    Examples
    --------
    >>> round(strength_ratio(150000, 49219), 2)
    3.05

    References
    ----------
    .. [1] FED-STD-H28/2; ASME B1.1 appendix B; Machinery's Handbook, strength of threads.
    """
    return stud / other


def engagement_with_ratio(engagement: float, ratio: float) -> float:
    """Engagement at which a stud of full section breaks before either thread strips.

    longer = engagement * max(1, ratio)

    Parameters
    ----------
    engagement : float
        For metals of one strength [mm]
    ratio : float
        J [1]

    Returns
    -------
    longer : float
        Engagement [mm]

    Examples
    --------
    >>> round(engagement_with_ratio(7.44, 3), 2)
    22.32

    References
    ----------
    .. [1] FED-STD-H28/2; ASME B1.1 appendix B; Machinery's Handbook, strength of threads.
    """
    return engagement * max(1, ratio)


def bottom_room(full_thread: float, reach: float) -> float:
    """Full thread left below the end of the stud: it may not bottom.

    room = full_thread - reach

    Parameters
    ----------
    full_thread : float
        Depth of full thread in the hole [mm]
    reach : float
        Of the stud's tap end below the deck [mm]

    Returns
    -------
    room : float
        Depth [mm]

    Examples
    --------
    >>> round(bottom_room(16.5, 15.375), 3)
    1.125

    References
    ----------
    .. [1] Plane geometry.
    """
    return full_thread - reach


def least_engagement(engagement: float, breaking: float, strip: float) -> float:
    """Engagement at which the stud breaks at its weakest section before a thread strips.

    least = engagement * breaking / strip

    Parameters
    ----------
    engagement : float
        As it is [mm]
    breaking : float
        Load that breaks the stud [N]
    strip : float
        Force that strips the weaker thread [N]

    Returns
    -------
    least : float
        Engagement [mm]

    Examples
    --------
    >>> round(least_engagement(13.875, 33210, 49219), 2)
    9.36

    References
    ----------
    .. [1] Strip force grows with the length: FED-STD-H28/2; ASME B1.1 appendix B; Machinery's Handbook, strength
        of threads.
    """
    return engagement * breaking / strip
