"""What heat does to the joint: growth of its layers, rise of the stud's load, strength of the head alloy."""

from __future__ import annotations


def growth(length: float, expansion: float, temperature: float) -> float:
    """Growth of one layer, or of the stud, from 20 degC to its working temperature.

    growth = 1000 * length * expansion * (temperature - 20)

    Parameters
    ----------
    length : float
        Length [mm]
    expansion : float
        Mean thermal expansion from 20 degC [1/K]
    temperature : float
        Working temperature [degC]

    Returns
    -------
    growth : float
        Growth [um]

    Examples
    --------
    >>> round(growth(46, 21.75e-6, 170), 2)
    150.07

    References
    ----------
    .. [1] Mean expansion from 20 degC times length times rise.
    """
    return 1000 * length * expansion * (temperature - 20)


def between(head: float, barrel: float) -> float:
    """Temperature of the gasket, between head and barrel.

    temperature = (head + barrel) / 2

    Parameters
    ----------
    head : float
        Temperature of the head [degC]
    barrel : float
        Temperature of the barrel at the deck [degC]

    Returns
    -------
    temperature : float
        Of the gasket [degC]

    Examples
    --------
    >>> round(between(170, 160), 1)
    165.0

    References
    ----------
    .. [1] The mean of what it lies between: common practice, no source.
    """
    return (head + barrel) / 2


def stud_length(above: float, below: float) -> float:
    """Length of stud that heat stretches, from the nut's face to the first thread that carries.

    length = above + below

    Parameters
    ----------
    above : float
        Nut's bearing face above the deck [mm]
    below : float
        First thread that carries, below the deck [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> round(stud_length(48.8, 1.5), 1)
    50.3

    References
    ----------
    .. [1] Plane geometry.
    """
    return above + below


def whole_growth(washer: float, head: float, gasket: float, barrel: float) -> float:
    """Growth of all that the stud clamps.

    growth = washer + head + gasket + barrel

    Parameters
    ----------
    washer : float
        Growth of the washer [um]
    head : float
        Growth of the head [um]
    gasket : float
        Growth of the gasket [um]
    barrel : float
        Growth of the barrel down to the first thread that carries [um]

    Returns
    -------
    growth : float
        Growth [um]

    Examples
    --------
    >>> round(whole_growth(2.8, 150.1, 3.0, 2.5), 1)
    158.4

    References
    ----------
    .. [1] Sum of the layers.
    """
    return washer + head + gasket + barrel


def rise(parts: float, stud: float, stud_stiffness: float, clamped_stiffness: float) -> float:
    """Rise of a stud's load because the parts it clamps grow more than it does.

    rise = (parts - stud) / (1000 / stud_stiffness + 1000 / clamped_stiffness)

    Parameters
    ----------
    parts : float
        Growth of the clamped parts [um]
    stud : float
        Growth of the stud between nut face and first thread that carries [um]
    stud_stiffness : float
        Stiffness of the stud [N/mm]
    clamped_stiffness : float
        Stiffness of the clamped parts [N/mm]

    Returns
    -------
    rise : float
        Below 0 the load falls [N]

    Examples
    --------
    >>> round(rise(158.3, 72.3, 114354, 462290))
    7884

    References
    ----------
    .. [1] VDI 2230-1, change of preload by heat; both springs give, so no trial and error is needed.
    """
    return (parts - stud) / (1000 / stud_stiffness + 1000 / clamped_stiffness)


def hot_preload(preload: float, rise: float) -> float:
    """Preload of one stud at working temperature, without gas.

    hot = preload + rise

    Parameters
    ----------
    preload : float
        Preload, cold, nominal [N]
    rise : float
        Rise of the load by heat [N]

    Returns
    -------
    hot : float
        Run in [N]

    Examples
    --------
    >>> round(hot_preload(9782, 7881))
    17663

    References
    ----------
    .. [1] VDI 2230-1, change of preload by heat.
    """
    return preload + rise


def greatest(run_in: float, run_up: float, hot_stop: float) -> float:
    """Greatest rise of a stud's load in any state; cold is one of them.

    rise = max(0, run_in, run_up, hot_stop)

    Parameters
    ----------
    run_in : float
        Rise, run in [N]
    run_up : float
        In the first minutes, 0 where not given [N]
    hot_stop : float
        Just after a hot stop, 0 where not given [N]

    Returns
    -------
    rise : float
        Rise [N]

    Examples
    --------
    >>> round(greatest(7881, 10366, 0))
    10366

    References
    ----------
    .. [1] The worst of the states.
    """
    return max(0, run_in, run_up, hot_stop)


def least(run_in: float, run_up: float, hot_stop: float) -> float:
    """Greatest fall of a stud's load in any state; cold is one of them.

    rise = min(0, run_in, run_up, hot_stop)

    Parameters
    ----------
    run_in : float
        Rise, run in [N]
    run_up : float
        In the first minutes, 0 where not given [N]
    hot_stop : float
        Just after a hot stop, 0 where not given [N]

    Returns
    -------
    rise : float
        0 or below [N]

    Examples
    --------
    >>> round(least(7881, 10366, 0))
    0

    References
    ----------
    .. [1] The worst of the states.
    """
    return min(0, run_in, run_up, hot_stop)


def hottest(run_in: float, run_up: float, hot_stop: float) -> float:
    """Greatest temperature of a casting in any state.

    temperature = max(run_in, run_up, hot_stop)

    Parameters
    ----------
    run_in : float
        Run in [degC]
    run_up : float
        In the first minutes, 20 where not given [degC]
    hot_stop : float
        Just after a hot stop, 20 where not given [degC]

    Returns
    -------
    temperature : float
        Temperature [degC]

    Examples
    --------
    >>> round(hottest(170, 180, 20))
    180

    References
    ----------
    .. [1] The worst of the states.
    """
    return max(run_in, run_up, hot_stop)


def share_between(temperature: float, cooler: float, hotter: float, before: float, after: float) -> float:
    """Share of its cold strength that a metal keeps, between two temperatures of the table.

    share = max(0.01, min(1, before + (after - before) * (temperature - cooler) / (hotter - cooler)))

    Parameters
    ----------
    temperature : float
        Temperature [degC]
    cooler : float
        Of the table, below it [degC]
    hotter : float
        Of the table, above it [degC]
    before : float
        Share that is left at the cooler one [1]
    after : float
        Share that is left at the hotter one [1]

    Returns
    -------
    share : float
        Of the strength at 20 degC [1]

    Examples
    --------
    ISO 898-1:1999, annex A (memory) has 540 MPa at 200 and 510 at 250 degC for class 8.8, 640 MPa cold:

    >>> round(640 * share_between(225, 200, 250, 540 / 640, 510 / 640))
    525

    References
    ----------
    .. [1] The least of the table's range, on a straight line between its rows.
    """
    return max(0.01, min(1, before + (after - before) * (temperature - cooler) / (hotter - cooler)))


def hot_strength(strength: float, share: float) -> float:
    """Strength that is left hot.

    hot = strength * share

    Parameters
    ----------
    strength : float
        At 20 degC [MPa]
    share : float
        Share that heat leaves [1]

    Returns
    -------
    hot : float
        Hot [MPa]

    Examples
    --------
    >>> round(hot_strength(190, 0.575), 1)
    109.2

    References
    ----------
    .. [1] Share of the cold strength.
    """
    return strength * share


def proof_left(proof_load: float, share: float) -> float:
    """Load that a stud takes hot without a lasting stretch.

    load = proof_load * share

    Parameters
    ----------
    proof_load : float
        Proof load, cold [N]
    share : float
        Share of its proof stress that the steel keeps at the stud's temperature [1]

    Returns
    -------
    load : float
        Proof load, hot [N]

    Examples
    --------
    ISO 898-1:1999, annex A (memory): 540 MPa of 640 are left to class 8.8 at 200 degC:

    >>> round(proof_left(48894, 540 / 640))
    41254

    References
    ----------
    .. [1] ISO 898-1:1999, annex A: the proof stress falls as Rp0.2 does.
    """
    return proof_load * share


def load_in_state(hardest: float, rise: float, share: float, gas: float) -> float:
    """Load on a stud in one state of heat: tightened too hard, with the gas on it.

    load = hardest + rise + share * gas

    Parameters
    ----------
    hardest : float
        Preload where the tightening comes out high [N]
    rise : float
        Rise of the load by heat in this state, below 0 a fall [N]
    share : float
        Share of the gas force that the stud feels [1]
    gas : float
        Gas force on one stud [N]

    Returns
    -------
    load : float
        Load on the stud [N]

    Examples
    --------
    >>> round(load_in_state(12227, 7766, 0.198, 2527))
    20493

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-24, with the growth of the parts added.
    """
    return hardest + rise + share * gas


def greatest_use(**states: float) -> float:
    """Greatest load on a stud in any state, against the proof load that this state leaves it.

    share = the greatest of all states

    Parameters
    ----------
    **states : float
        Share of the proof load that each state uses [1]

    Returns
    -------
    share : float
        Over 1 it stretches for good [1]

    Examples
    --------
    >>> greatest_use(cold=0.52, run_in=0.95, run_up=1.04)
    1.04

    References
    ----------
    .. [1] The worst of the states; cold is one of them.
    """
    return max(states.values())
