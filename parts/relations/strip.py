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


def nut_engagement(height: float, pitch: float) -> float:
    """Thread that engages in a nut.

    engagement = height - pitch

    Parameters
    ----------
    height : float
        Greatest height of the nut [mm]
    pitch : float
        Pitch [mm]

    Returns
    -------
    engagement : float
        Both countersinks left out [mm]

    Examples
    --------
    >>> round(nut_engagement(6.8, 1.25), 2)
    5.55

    References
    ----------
    .. [1] Half a pitch for each countersink: common practice, no source.
    """
    return height - pitch


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
