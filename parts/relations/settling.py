"""What a preload loses after tightening: faces that embed, metal that creeps. Forces in N, lengths in mm."""

from __future__ import annotations


def embedded(threads: float, bearings: float, inner: float) -> float:
    """How far the faces of a joint work into each other, turned or milled ones.

    depth = 3 * threads + 3 * bearings + 2 * inner

    Parameters
    ----------
    threads : float
        Pairs of threads under load: nut, tap end, and an insert's outside [1]
    bearings : float
        Faces under nut and washer [1]
    inner : float
        Faces between what is clamped: two with a gasket [1]

    Returns
    -------
    depth : float
        Together [um]

    Examples
    --------
    VDI 2230-1 (memory), one bolt and nut through two plates, Rz 10 to 40: thread 3, two bearing faces 6, one inner 2:

    >>> embedded(1, 2, 1)
    11

    References
    ----------
    .. [1] VDI 2230-1, guide values of embedding for axial load and roughness Rz of 10 to 40 um (memory).
    """
    return 3 * threads + 3 * bearings + 2 * inner


def embedding_loss(depth: float, stud_stiffness: float, clamped_stiffness: float) -> float:
    """Preload that is lost as the faces embed.

    loss = depth / (1000 / stud_stiffness + 1000 / clamped_stiffness)

    Parameters
    ----------
    depth : float
        How far they embed [um]
    stud_stiffness : float
        Stiffness of the stud [N/mm]
    clamped_stiffness : float
        Stiffness of the clamped parts [N/mm]

    Returns
    -------
    loss : float
        Loss [N]

    Examples
    --------
    >>> round(embedding_loss(19, 114354, 451000))
    1733

    References
    ----------
    .. [1] VDI 2230-1: embedding over the sum of both compliances.
    """
    return depth / (1000 / stud_stiffness + 1000 / clamped_stiffness)


def creep_loss(gasket: float, head: float, preload: float, rise: float) -> float:
    """Preload that is lost as gasket and head creep at work.

    loss = (gasket + head) * (preload + max(0, rise))

    Parameters
    ----------
    gasket : float
        Share of the load that the gasket's creep takes [1]
    head : float
        Share that the head's takes [1]
    preload : float
        Preload, cold [N]
    rise : float
        Rise of the load by heat, run in [N]

    Returns
    -------
    loss : float
        Loss [N]

    Examples
    --------
    >>> round(creep_loss(0.05, 0.05, 7336, 7700))
    1504

    References
    ----------
    .. [1] Creep takes its share of the load that it comes under: common practice, no source.
    """
    return (gasket + head) * (preload + max(0, rise))


def still_to_come(loss: float, share: float) -> float:
    """Part of a loss that comes again after the cold re-torque.

    later = share * loss

    Parameters
    ----------
    loss : float
        In the first run [N]
    share : float
        Part that comes later [1]

    Returns
    -------
    later : float
        Loss [N]

    Examples
    --------
    >>> still_to_come(1700, 0.25)
    425.0

    References
    ----------
    .. [1] Most embedding and creep comes in the first run: common practice, no source.
    """
    return share * loss


def preload_left(least: float, embedding: float, creep: float, rise: float) -> float:
    """Preload that is left at the least: tightened too little, embedded, crept, at the worst heat or cold.

    left = least - embedding - creep + rise

    Parameters
    ----------
    least : float
        Preload where the tightening comes out low [N]
    embedding : float
        Lost as faces embed [N]
    creep : float
        Lost as gasket and head creep [N]
    rise : float
        Greatest fall of the load by heat or cold, below 0 [N]

    Returns
    -------
    left : float
        Without gas; below 0 the nut is loose [N]

    Examples
    --------
    >>> preload_left(7336, 1733, 1504, 0)
    4099

    References
    ----------
    .. [1] VDI 2230-1: what is left is what was tightened less embedding and what heat takes.
    """
    return least - embedding - creep + rise


def lower(first: float, later: float) -> float:
    """Least preload of one stud in any state: before the cold re-torque, or after it.

    lowest = min(first, later)

    Parameters
    ----------
    first : float
        Before it, in the first run [N]
    later : float
        After it, and started in the frost [N]

    Returns
    -------
    lowest : float
        Without gas [N]

    Examples
    --------
    >>> lower(4099, 4891)
    4099

    References
    ----------
    .. [1] The worst of the states.
    """
    return min(first, later)
