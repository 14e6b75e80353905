"""Between which shares of the proof load a preload has to lie: each limit solved for the share."""

from __future__ import annotations

from math import log, pi


def share_at_load(
    limit: float,
    times: float,
    rise: float,
    counted: float,
    stud_share: float,
    gas: float,
    scatter: float,
    proof_load: float,
) -> float:
    """Preload, as a share of the proof load, whose greatest load in a state reaches a limit.

    share = (times * limit - rise - counted * stud_share * gas) / ((1 + scatter) * proof_load)

    Parameters
    ----------
    limit : float
        Load that is allowed [N]
    times : float
        Of it, by the rule [1]
    rise : float
        Rise of the load by heat in that state [N]
    counted : float
        Times that the gas counts [1]
    stud_share : float
        Share of the gas force that the stud feels [1]
    gas : float
        Gas force on one stud [N]
    scatter : float
        Scatter of the tightening [1]
    proof_load : float
        Proof load of the weakest section, cold [N]

    Returns
    -------
    share : float
        Of the proof load [1]

    Examples
    --------
    The stud of [1]_, 8-22, proof load 50.58 kN, feels 0.2346 of 10.6 kN; 37.9 kN of preload leave a load factor of 5.1:

    >>> round(share_at_load(50580, 1, 0, 5.08, 0.2346, 10600, 0, 50580), 2)
    0.75

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8; VDI 2230-1 for heat and scatter; solved for the share.
    """
    return (times * limit - rise - counted * stud_share * gas) / ((1 + scatter) * proof_load)


def share_left(
    times: float,
    wanted: float,
    to_come: float,
    embedding: float,
    gasket: float,
    head: float,
    hot: float,
    rise: float,
    scatter: float,
    proof_load: float,
) -> float:
    """Preload, as a share of the proof load, of which enough is left in its lowest state.

    share = (times * wanted + to_come * (embedding + (gasket + head) * max(0, hot)) - rise) / ((1 - to_come * (gasket +
        head)) * (1 - scatter) * proof_load)

    Parameters
    ----------
    times : float
        Of what is wanted, by the rule [1]
    wanted : float
        Load of one stud that is wanted [N]
    to_come : float
        Part of what embedding and creep take that comes after the nut was last tightened [1]
    embedding : float
        Lost as the faces embed [N]
    gasket : float
        Share of the load that the gasket gives way by [1]
    head : float
        Share of it that the head gives way by [1]
    hot : float
        Rise of the load, run in, at which they creep [N]
    rise : float
        Rise of the load in that state, below 0 a fall [N]
    scatter : float
        Scatter of the tightening [1]
    proof_load : float
        Proof load of the weakest section, cold [N]

    Returns
    -------
    share : float
        Of the proof load [1]

    Examples
    --------
    The joint of [1]_, 8-22, opens at 10.6 kN times 1 - 0.2346; twice that, with nothing lost:

    >>> round(share_left(2, 10600 * (1 - 0.2346), 0, 0, 0, 0, 0, 0, 0, 50580), 3)
    0.321

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8; VDI 2230-1 for heat and scatter; solved for the share.
    """
    lost, creep = to_come * (embedding + (gasket + head) * max(0, hot)), to_come * (gasket + head)
    return (times * wanted + lost - rise) / ((1 - creep) * (1 - scatter) * proof_load)


def load_for_stress(stress: float, area: float) -> float:
    """Load of one stud that gives a stress on its area.

    load = stress * area

    Parameters
    ----------
    stress : float
        Stress [MPa]
    area : float
        Area that one stud presses on [mm^2]

    Returns
    -------
    load : float
        Of one stud [N]

    Examples
    --------
    >>> load_for_stress(150, 137.4)
    20610.0

    References
    ----------
    .. [1] Force over area.
    """
    return stress * area


def load_for_working(stress: float, area: float, opening: float) -> float:
    """Load of one stud that leaves a stress on the gasket at peak pressure.

    load = stress * area + opening

    Parameters
    ----------
    stress : float
        Stress [MPa]
    area : float
        Area that one stud presses on [mm^2]
    opening : float
        Gas force on one stud that the clamped parts feel [N]

    Returns
    -------
    load : float
        Of one stud [N]

    Examples
    --------
    >>> round(load_for_working(18.05, 190.2, 2026), 1)
    5459.1

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8: the gas takes its share off the clamped parts.
    """
    return stress * area + opening


def load_that_bends(
    stress: float, thickness: float, inside: float, outside: float, count: float, lever: float
) -> float:
    """Load of one stud that bends the head over its raised face up to a stress.

    load = stress * pi * thickness^2 * inside * log(outside / inside) / (6 * count * lever)

    Parameters
    ----------
    stress : float
        Stress [MPa]
    thickness : float
        Of the head at the studs [mm]
    inside : float
        Diameter where it begins [mm]
    outside : float
        Diameter where it ends [mm]
    count : float
        Studs [1]
    lever : float
        From the face to the studs [mm]

    Returns
    -------
    load : float
        Of one stud [N]

    Examples
    --------
    >>> from parts.relations.bending import bending_stress, twist
    >>> round(bending_stress(twist(4, load_that_bends(80, 46, 58.2, 107.4, 4, 10.7), 10.7), 46, 58.2, 107.4), 6)
    80.0

    References
    ----------
    .. [1] Timoshenko, Strength of Materials, part II, twisted ring (memory), solved for the load.
    """
    return stress * pi * thickness**2 * inside * log(outside / inside) / (6 * count * lever)


def load_that_lifts(
    lift: float,
    modulus: float,
    thickness: float,
    inside: float,
    outside: float,
    width: float,
    count: float,
    lever: float,
) -> float:
    """Load of one stud that bends the head until its raised face lifts so far at the bore.

    load = lift * pi * modulus * thickness^3 * log(outside / inside) / (6 * width * count * lever)

    Parameters
    ----------
    lift : float
        Lift [mm]
    modulus : float
        Of the head [MPa]
    thickness : float
        Of the head at the studs [mm]
    inside : float
        Diameter where it begins [mm]
    outside : float
        Diameter where it ends [mm]
    width : float
        Of the ring that is pressed [mm]
    count : float
        Studs [1]
    lever : float
        From the face to the studs [mm]

    Returns
    -------
    load : float
        Of one stud [N]

    Examples
    --------
    >>> from parts.relations.bending import face_lift, twist
    >>> load = load_that_lifts(0.01, 71000, 46, 58.2, 107.4, 3.9, 4, 10.7)
    >>> round(face_lift(twist(4, load, 10.7), 46, 58.2, 107.4, 71000, 3.9), 6)
    0.01

    References
    ----------
    .. [1] Timoshenko, Strength of Materials, part II, twisted ring (memory), solved for the load.
    """
    return lift * pi * modulus * thickness**3 * log(outside / inside) / (6 * width * count * lever)


def least_allowed(**limits: float) -> float:
    """Share of the proof load that every lower limit asks for.

    share = the greatest of all limits

    Parameters
    ----------
    **limits : float
        Share that each asks for [1]

    Returns
    -------
    share : float
        Of the proof load [1]

    Examples
    --------
    >>> least_allowed(separation=0.22, settling=0.31)
    0.31

    References
    ----------
    .. [1] The worst of the limits.
    """
    return max(limits.values())


def most_allowed(**limits: float) -> float:
    """Share of the proof load that every upper limit allows.

    share = the least of all limits

    Parameters
    ----------
    **limits : float
        Share that each allows [1]

    Returns
    -------
    share : float
        Of the proof load [1]

    Examples
    --------
    >>> most_allowed(tightening=0.7, run_up=0.42)
    0.42

    References
    ----------
    .. [1] The worst of the limits.
    """
    return min(limits.values())


def share_between(least: float, most: float, opens: float, breaks: float, low: float) -> float:
    """Share of the proof load: the middle of what is asked for and allowed, or what is safest where there is none.

    share = (least + most) / 2 if least <= most else max(min(opens, low), min(breaks, max(most, (opens + breaks) / 2)))

    Parameters
    ----------
    least : float
        Least that no lower limit cautions at [1]
    most : float
        Most that no upper limit cautions at [1]
    opens : float
        Least at which no lower limit stops the job [1]
    breaks : float
        Most at which no upper limit stops the job [1]
    low : float
        Least that is tightened to at all, where even that is too much [1]

    Returns
    -------
    share : float
        Of the proof load [1]

    Examples
    --------
    >>> share_between(0.3, 0.5, 0.15, 0.6, 0.2), share_between(0.4, 0.3, 0.15, 0.35, 0.2)
    (0.4, 0.3)
    >>> share_between(0.4, 0.1, 0.2, 0.3, 0.2), share_between(0.5, -0.3, 0.3, -0.1, 0.2)
    (0.25, 0.2)

    References
    ----------
    .. [1] The middle of both; where they cross the upper one, but no nearer to opening the joint than to stretching
        the stud: common practice, no source.
    """
    crossed = max(min(opens, low), min(breaks, max(most, (opens + breaks) / 2)))
    return (least + most) / 2 if least <= most else crossed
