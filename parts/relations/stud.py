"""Stepped stud: lengths, and the stiffness of its sections in series. Lengths in mm, areas in mm^2."""

from __future__ import annotations

from math import floor, pi


def in_diameters(multiple: float, nominal: float) -> float:
    """A thread length given in multiples of the nominal diameter.

    length = multiple * nominal

    Parameters
    ----------
    multiple : float
        Multiple of the diameter [1]
    nominal : float
        Nominal diameter of the thread [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(in_diameters(1.5, 10), 1)
    15.0

    References
    ----------
    .. [1] The trade's usual way to give it.
    """
    return multiple * nominal


def as_given(length: float) -> float:
    """A length taken as it stands.

    size = length

    Parameters
    ----------
    length : float
        Length [mm]

    Returns
    -------
    size : float
        The same [mm]

    Examples
    --------
    >>> round(as_given(22.0), 1)
    22.0

    References
    ----------
    .. [1] Taken over unchanged.
    """
    return length


def reach_in_insert(set_down: float, insert_length: float, pitch: float) -> float:
    """How deep the tap end of a stud reaches below the deck where it screws into a wire thread insert.

    reach = set_down + insert_length - 0.75 * pitch

    Parameters
    ----------
    set_down : float
        Of the insert's first coil below the deck [mm]
    insert_length : float
        Nominal length of the insert [mm]
    pitch : float
        Pitch of the thread [mm]

    Returns
    -------
    reach : float
        Below the deck [mm]

    Examples
    --------
    >>> round(reach_in_insert(1.5, 15, 1.5), 3)
    15.375

    References
    ----------
    .. [1] ASME B18.29.2M notes: an insert's installed length is nominal less 0.5 to 0.75 pitch.
    """
    return set_down + insert_length - 0.75 * pitch


def tap_end_length(reach: float, step: float) -> float:
    """Tap end of a stud, from its end face to where the waist begins.

    length = reach - step

    Parameters
    ----------
    reach : float
        Of the tap end below the deck [mm]
    step : float
        How far below the deck the tap end stops [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(tap_end_length(15.375, 1), 3)
    14.375

    References
    ----------
    .. [1] Plane geometry.
    """
    return reach - step


def projection(gasket: float, head: float, washer: float, nut: float, pitch: float) -> float:
    """How far a stud stands above the deck.

    projection = gasket + head + washer + nut + 2 * pitch

    Parameters
    ----------
    gasket : float
        Thickness of the gasket [mm]
    head : float
        Through the head at the stud [mm]
    washer : float
        Thickness of the washer [mm]
    nut : float
        Greatest height of the nut [mm]
    pitch : float
        Pitch of the nut end [mm]

    Returns
    -------
    projection : float
        Deck face to the stud's end [mm]

    Examples
    --------
    >>> round(projection(1.2, 46, 1.6, 6.8, 1.25), 3)
    58.1

    References
    ----------
    .. [1] Two threads proud of the nut: common practice, no source.
    """
    return gasket + head + washer + nut + 2 * pitch


def shank_length(projection: float, step: float, nut_end: float) -> float:
    """Plain length between the two threads of a stud.

    length = projection + step - nut_end

    Parameters
    ----------
    projection : float
        Above the deck [mm]
    step : float
        How far below the deck the tap end stops [mm]
    nut_end : float
        Thread at the nut end [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(shank_length(58.1, 1, 22), 3)
    37.1

    References
    ----------
    .. [1] Plane geometry.
    """
    return projection + step - nut_end


def length(tap_end: float, shank: float, nut_end: float) -> float:
    """Whole length of a stud.

    length = tap_end + shank + nut_end

    Parameters
    ----------
    tap_end : float
        Tap end [mm]
    shank : float
        Shank [mm]
    nut_end : float
        Nut end [mm]

    Returns
    -------
    length : float
        End face to end face [mm]

    Examples
    --------
    >>> round(length(14.375, 37.1, 22), 3)
    73.475

    References
    ----------
    .. [1] Plane geometry.
    """
    return tap_end + shank + nut_end


def nut_face(gasket: float, head: float, washer: float) -> float:
    """Height of the nut's bearing face above the deck.

    height = gasket + head + washer

    Parameters
    ----------
    gasket : float
        Thickness of the gasket [mm]
    head : float
        Through the head at the stud [mm]
    washer : float
        Thickness of the washer [mm]

    Returns
    -------
    height : float
        Above the deck [mm]

    Examples
    --------
    >>> round(nut_face(1.2, 46, 1.6), 3)
    48.8

    References
    ----------
    .. [1] Plane geometry.
    """
    return gasket + head + washer


def free_nut_thread(nut_end: float, nut_face: float, projection: float) -> float:
    """Thread of the nut end that is left below the nut.

    free = nut_end + nut_face - projection

    Parameters
    ----------
    nut_end : float
        Thread at the nut end [mm]
    nut_face : float
        Nut's bearing face above the deck [mm]
    projection : float
        Stud above the deck [mm]

    Returns
    -------
    free : float
        Below 0 the nut runs onto the shank before it clamps [mm]

    Examples
    --------
    >>> round(free_nut_thread(22, 48.8, 58.1), 3)
    12.7

    References
    ----------
    .. [1] Plane geometry.
    """
    return nut_end + nut_face - projection


def free_tap_thread(first_coil: float, step: float) -> float:
    """Thread of the tap end above the first coil that carries.

    free = max(0, first_coil - step)

    Parameters
    ----------
    first_coil : float
        First coil of the tapped hole or insert below the deck [mm]
    step : float
        How far below the deck the tap end stops [mm]

    Returns
    -------
    free : float
        Length [mm]

    Examples
    --------
    >>> round(free_tap_thread(1.5, 1), 3)
    0.5

    References
    ----------
    .. [1] Plane geometry.
    """
    return max(0.0, first_coil - step)


def first_thread(first_coil: float, step: float) -> float:
    """First thread of a tapped hole that carries: below its own first coil, and below the step of the stud.

    depth = max(first_coil, step)

    Parameters
    ----------
    first_coil : float
        First coil of the tapped hole or insert below the deck [mm]
    step : float
        How far below the deck the tap end stops [mm]

    Returns
    -------
    depth : float
        Below the deck [mm]

    Examples
    --------
    >>> first_thread(1.5, 1), first_thread(1.5, 6)
    (1.5, 6)

    References
    ----------
    .. [1] Plane geometry.
    """
    return max(first_coil, step)


def circle_area(diameter: float) -> float:
    """Area of a round section.

    area = pi / 4 * diameter^2

    Parameters
    ----------
    diameter : float
        Diameter [mm]

    Returns
    -------
    area : float
        Area [mm^2]

    Examples
    --------
    >>> round(circle_area(6.2), 3)
    30.191

    References
    ----------
    .. [1] Plane geometry.
    """
    return pi / 4 * diameter**2


def least_of(first: float, second: float) -> float:
    """The smaller of two, which gives first.

    least = min(first, second)

    Parameters
    ----------
    first : float
        One of them [N]
    second : float
        The other [N]

    Returns
    -------
    least : float
        The smaller [N]

    Examples
    --------
    >>> least_of(-300.0, 0.0)
    -300.0

    References
    ----------
    .. [1] The lesser of the two.
    """
    return min(first, second)


def weakest(**areas: float) -> float:
    """Section of a stud that gives first.

    area = the least of the stress areas of both ends, the shank and the undercuts

    Parameters
    ----------
    **areas : float
        Area of each section that the load goes through [mm^2]

    Returns
    -------
    area : float
        The least [mm^2]

    Examples
    --------
    >>> weakest(nut_end=36.6, tap_end=58.0, shank=50.27, undercut=28.27)
    28.27

    References
    ----------
    .. [1] VDI 2230-1: the least section of a bolt decides, a reduced shank or a groove like a thread.
    """
    return min(areas.values())


def wider(tap_end: float, nut_end: float) -> float:
    """The larger of a stud's two threads: the one that tires at the lower stress.

    nominal = max(tap_end, nut_end)

    Parameters
    ----------
    tap_end : float
        Nominal diameter of the tap end [mm]
    nut_end : float
        Nominal diameter of the nut end [mm]

    Returns
    -------
    nominal : float
        The larger [mm]

    Examples
    --------
    >>> wider(10, 8)
    10

    References
    ----------
    .. [1] VDI 2230-1: the endurance limit of a thread falls with its diameter; the section may be of either end.
    """
    return max(tap_end, nut_end)


def corner_radius(thread: float, shank: float) -> float:
    """Largest radius that fits the corners of a waist, in steps that tools are ground to.

    radius = floor(2.5 * (thread - shank)) / 5

    Parameters
    ----------
    thread : float
        Nominal diameter of the smaller thread: the lower of the two steps [mm]
    shank : float
        Diameter of the waist [mm]

    Returns
    -------
    radius : float
        Radius [mm]

    Examples
    --------
    A waist of 6.2 mm beside M8 has a step of 0.9:

    >>> corner_radius(8, 6.2)
    0.8

    References
    ----------
    .. [1] A corner as round as fits: common practice, no source.
    """
    return floor(2.5 * (thread - shank)) / 5


def bar_compliance(length: float, modulus: float, area: float) -> float:
    """How much a straight length of a bar gives under load.

    compliance = 1e6 * length / (modulus * area)

    Parameters
    ----------
    length : float
        Length under load [mm]
    modulus : float
        Modulus of elasticity [MPa]
    area : float
        Section that carries [mm^2]

    Returns
    -------
    compliance : float
        Growth for each kilonewton [um/kN]

    Examples
    --------
    >>> round(bar_compliance(37.1, 210000, 30.19), 3)
    5.852

    References
    ----------
    .. [1] Hooke's law; VDI 2230-1, resilience of one section.
    """
    return 1e6 * length / (modulus * area)


def grooved_compliance(
    length: float,
    modulus: float,
    area: float,
    tap_groove: float,
    tap_groove_area: float,
    nut_groove: float,
    nut_groove_area: float,
) -> float:
    """How much a shank gives that has an undercut at one of its ends, or at both.

    compliance = 1e6 / modulus * ((length - tap_groove - nut_groove) / area + tap_groove / tap_groove_area + nut_groove
    / nut_groove_area)

    Parameters
    ----------
    length : float
        From thread to thread, undercuts and all [mm]
    modulus : float
        Modulus of elasticity [MPa]
    area : float
        Section of the shank [mm^2]
    tap_groove : float
        Width of the undercut at the tap end, 0 where there is none [mm]
    tap_groove_area : float
        Section in it [mm^2]
    nut_groove : float
        Width of that at the nut end [mm]
    nut_groove_area : float
        Section in it [mm^2]

    Returns
    -------
    compliance : float
        Growth for each kilonewton [um/kN]

    Examples
    --------
    A shank of 30 mm and 60 mm^2, 6 mm of it turned down to 30 mm^2, is as one of 36 mm; 36e6/(200e3*60) = 3:

    >>> round(grooved_compliance(30, 200000, 60, 6, 30, 0, 60), 9)
    3.0

    References
    ----------
    .. [1] VDI 2230-1: the resilience of a bolt is the sum over its cylindrical sections, each by Hooke's law.
    """
    return (
        1e6
        / modulus
        * ((length - tap_groove - nut_groove) / area + tap_groove / tap_groove_area + nut_groove / nut_groove_area)
    )


def nut_end_compliance(nominal: float, modulus: float, stress_area: float) -> float:
    """How much the threads inside the nut give, as a length of bar.

    compliance = 1e6 * 0.4 * nominal / (modulus * stress_area)

    Parameters
    ----------
    nominal : float
        Nominal diameter of the nut end [mm]
    modulus : float
        Modulus of elasticity [MPa]
    stress_area : float
        Of the nut end [mm^2]

    Returns
    -------
    compliance : float
        Growth for each kilonewton [um/kN]

    Examples
    --------
    >>> round(nut_end_compliance(8, 210000, 36.6), 3)
    0.416

    References
    ----------
    .. [1] VDI 2230-1, substitution length 0.4 d at the nut (from memory).
    """
    return 1e6 * 0.4 * nominal / (modulus * stress_area)


def tap_end_compliance(nominal: float, modulus: float, root_area: float, stress_area: float) -> float:
    """How much the threads inside the tapped hole give, as two lengths of bar.

    compliance = 1e6 * (0.5 * nominal / root_area + 0.4 * nominal / stress_area) / modulus

    Parameters
    ----------
    nominal : float
        Nominal diameter of the tap end [mm]
    modulus : float
        Modulus of elasticity [MPa]
    root_area : float
        At the thread's root [mm^2]
    stress_area : float
        Of the tap end [mm^2]

    Returns
    -------
    compliance : float
        Growth for each kilonewton [um/kN]

    Examples
    --------
    >>> round(tap_end_compliance(10, 210000, 52.3, 58.0), 3)
    0.784

    References
    ----------
    .. [1] VDI 2230-1, substitution lengths 0.5 d and 0.4 d at a tapped hole (from memory).
    """
    return 1e6 * (0.5 * nominal / root_area + 0.4 * nominal / stress_area) / modulus


def stiffness(nut_end: float, nut_thread: float, shank: float, tap_thread: float, tap_end: float) -> float:
    """Stiffness of a stepped stud, its sections in series.

    stiffness = 1e6 / (nut_end + nut_thread + shank + tap_thread + tap_end)

    Parameters
    ----------
    nut_end : float
        Compliance inside the nut [um/kN]
    nut_thread : float
        Of the free thread below the nut [um/kN]
    shank : float
        Of the shank [um/kN]
    tap_thread : float
        Of the free thread above the first coil [um/kN]
    tap_end : float
        Inside the tapped hole [um/kN]

    Returns
    -------
    stiffness : float
        Load for each millimetre of growth [N/mm]

    Examples
    --------
    >>> round(stiffness(1, 2, 3, 1, 1), 0)
    125000.0

    References
    ----------
    .. [1] VDI 2230-1 and Shigley, Mechanical Engineering Design, ch. 8: sections in series.
    """
    return 1e6 / (nut_end + nut_thread + shank + tap_thread + tap_end)


def drill_depth(full_thread: float, chamfer_threads: float, pitch: float) -> float:
    """Full-diameter depth of a drilled hole that is to be tapped.

    depth = full_thread + chamfer_threads * pitch

    Parameters
    ----------
    full_thread : float
        Depth of full thread [mm]
    chamfer_threads : float
        Pitches that the tap's chamfer and the clearance take: 3 bottoming, 5 plug [1]
    pitch : float
        Pitch of the thread [mm]

    Returns
    -------
    depth : float
        From the deck, the drill's point not counted [mm]

    Examples
    --------
    >>> round(drill_depth(20, 3, 1.5), 3)
    24.5

    References
    ----------
    .. [1] ASME B18.29.2M notes, chamfer and clearance of the tap, taken over to a plain tapped hole.
    """
    return full_thread + chamfer_threads * pitch


def full_thread_depth(engagement: float, pitch: float) -> float:
    """Full thread that a tapped hole without insert needs.

    depth = engagement + pitch

    Parameters
    ----------
    engagement : float
        Thread of the stud in the hole [mm]
    pitch : float
        Pitch of the thread [mm]

    Returns
    -------
    depth : float
        From the deck [mm]

    Examples
    --------
    >>> round(full_thread_depth(20, 1.5), 3)
    21.5

    References
    ----------
    .. [1] One pitch so that the stud never bottoms: common practice, no source.
    """
    return engagement + pitch
