"""Tightening: stretch and angle of a preload, and the pull that tries a thread. Lengths in mm, forces in N."""

from __future__ import annotations


def stretch(preload: float, stiffness: float) -> float:
    """Growth of a stud under its preload: what a clock on its end shows, its stand on the barrel.

    stretch = preload / stiffness

    Parameters
    ----------
    preload : float
        Preload of one stud [N]
    stiffness : float
        Stiffness of the stud from nut face to first thread that carries [N/mm]

    Returns
    -------
    stretch : float
        Growth, cold [mm]

    Examples
    --------
    A plain bar of 10 mm, 100 mm long, under 10 kN: 10000 * 100/(210000 * 78.54) = 0.0606 mm:

    >>> round(stretch(10000, 210000 * 78.54 / 100), 4)
    0.0606

    References
    ----------
    .. [1] Hooke's law; VDI 2230-1, resilience of the bolt.
    """
    return preload / stiffness


def hot_stretch(preload: float, stiffness: float, growth: float) -> float:
    """How much longer a stud is at working temperature than cold and slack.

    stretch = preload / stiffness + growth / 1000

    Parameters
    ----------
    preload : float
        Preload hot, run in [N]
    stiffness : float
        Stiffness of the stud [N/mm]
    growth : float
        Growth of the stud by heat alone [um]

    Returns
    -------
    stretch : float
        Growth, hot [mm]

    Examples
    --------
    The bar of `stretch` with 60 um of heat in it:

    >>> round(hot_stretch(10000, 210000 * 78.54 / 100, 60), 4)
    0.1206

    References
    ----------
    .. [1] Hooke's law, and mean expansion from 20 degC.
    """
    return preload / stiffness + growth / 1000


def nut_angle(preload: float, stud_stiffness: float, clamped_stiffness: float, pitch: float) -> float:
    """Angle that the nut turns from snug to the preload: it takes up the stud and what is clamped.

    angle = 360 * preload * (1 / stud_stiffness + 1 / clamped_stiffness) / pitch

    Parameters
    ----------
    preload : float
        Preload of one stud [N]
    stud_stiffness : float
        Stiffness of the stud [N/mm]
    clamped_stiffness : float
        Stiffness of the clamped parts [N/mm]
    pitch : float
        Pitch of the nut end [mm]

    Returns
    -------
    angle : float
        From where the faces just bear [deg]

    Examples
    --------
    0.1 mm of stud and 0.025 mm of parts are a tenth of a turn at 1.25 mm a turn:

    >>> round(nut_angle(10000, 100000, 400000, 1.25), 6)
    36.0

    References
    ----------
    .. [1] VDI 2230-1, angle-controlled tightening: both springs give, one pitch a turn.
    """
    return 360 * preload * (1 / stud_stiffness + 1 / clamped_stiffness) / pitch


def spacer(gasket: float, head: float) -> float:
    """Length of the tube that stands for head and gasket while a thread is tried.

    length = gasket + head

    Parameters
    ----------
    gasket : float
        Thickness of the gasket [mm]
    head : float
        Through the head at the stud [mm]

    Returns
    -------
    length : float
        Under the stud's own washer and nut [mm]

    Examples
    --------
    >>> round(spacer(1.2, 46), 2)
    47.2

    References
    ----------
    .. [1] Plane geometry.
    """
    return gasket + head


def pull(greatest: float, thread: float, stud: float, scatter: float) -> float:
    """Pull that tries a tapped thread on the bench and harms neither a good one nor the stud.

    pull = min(greatest, thread / 1.25 / (1 + scatter), stud / (1 + scatter))

    Parameters
    ----------
    greatest : float
        Greatest load that the engine puts on the stud [N]
    thread : float
        Force that strips the weakest thread by calculation [N]
    stud : float
        Pull at which the stud yields while its nut is turned [N]
    scatter : float
        Scatter of a torque wrench [1]

    Returns
    -------
    pull : float
        Pull of one stud [N]

    Examples
    --------
    The stud decides: 20000/1.25; then a thread of 15 kN, 15000/1.25/1.25:

    >>> pull(23000, 40000, 20000, 0.25), pull(23000, 15000, 20000, 0.25)
    (16000.0, 9600.0)

    References
    ----------
    .. [1] No more than the engine asks, and 0.8 of what a sound thread holds, the wrench reading low: common practice,
        no source.
    """
    return min(greatest, thread / 1.25 / (1 + scatter), stud / (1 + scatter))


def least_pull(pull: float, scatter: float) -> float:
    """Pull that the thread has surely stood once the wrench has clicked.

    least = (1 - scatter) * pull

    Parameters
    ----------
    pull : float
        Pull by the torque [N]
    scatter : float
        Scatter of a torque wrench [1]

    Returns
    -------
    least : float
        A thread that holds less shows [N]

    Examples
    --------
    >>> least_pull(16000, 0.25)
    12000.0

    References
    ----------
    .. [1] VDI 2230-1, scatter of the tightening (memory).
    """
    return (1 - scatter) * pull


def most_pull(pull: float, scatter: float) -> float:
    """Greatest pull that the torque may have put on.

    most = (1 + scatter) * pull

    Parameters
    ----------
    pull : float
        Pull by the torque [N]
    scatter : float
        Scatter of a torque wrench [1]

    Returns
    -------
    most : float
        Pull [N]

    Examples
    --------
    >>> most_pull(16000, 0.25)
    20000.0

    References
    ----------
    .. [1] VDI 2230-1, scatter of the tightening (memory).
    """
    return (1 + scatter) * pull
