"""Filled old holes: how much sound metal a thread beside them has, and what is left below them. Lengths in mm."""

from __future__ import annotations

from math import fsum, sqrt


def wall_behind(major: float, share: float) -> float:
    """Sound metal that a thread wants behind it.

    wall = share * major

    Parameters
    ----------
    major : float
        Greatest diameter of the tapped hole [mm]
    share : float
        Of it [1]

    Returns
    -------
    wall : float
        Thickness [mm]

    Examples
    --------
    >>> wall_behind(12.0, 0.5)
    6.0

    References
    ----------
    .. [1] Common practice, no source.
    """
    return share * major


def leaning_circle(distance: float, pitch_diameter: float, major: float, wall: float, old_diameter: float) -> float:
    """Circle round a thread, from its pitch line to the back of the sound metal wanted, of which most lies in a filler.

    circle = min(max(sqrt(max(0, 4 * distance^2 - old_diameter^2)), pitch_diameter), major + 2 * wall)

    Parameters
    ----------
    distance : float
        Between the two centres [mm]
    pitch_diameter : float
        Of the tapped hole [mm]
    major : float
        Greatest diameter of the tapped hole [mm]
    wall : float
        Sound metal wanted outside it [mm]
    old_diameter : float
        Of the filled old hole [mm]

    Returns
    -------
    circle : float
        Its diameter [mm]

    Examples
    --------
    An old hole of 6 mm, 10 mm off, is seen widest along its tangents, sqrt(10^2 - 3^2) long:

    >>> round(leaning_circle(10.0, 9.0, 10.0, 5.0, 6.0), 3)
    19.079

    References
    ----------
    .. [1] A ray from the thread's centre meets the old hole between pitch line and the wall's back where one of the
        circles there does; the arcs all lie about the line of centres, the widest at the tangents' length.
    """
    tangents = sqrt(max(0.0, 4 * distance**2 - old_diameter**2))
    return min(max(tangents, pitch_diameter), major + 2 * wall)


def leaning_on_all(**shares: float) -> float:
    """Share of a thread without sound metal, of all the old holes near it together.

    share = sum of the shares by each old hole, at most 1

    Parameters
    ----------
    **shares : float
        Share by each old hole [1]

    Returns
    -------
    share : float
        0 all in sound metal [1]

    Examples
    --------
    >>> leaning_on_all(old_1=0.75, old_2=0.5)
    1.0

    References
    ----------
    .. [1] Where two arcs lie over each other it counts double, on the safe side.
    """
    return min(1.0, fsum(shares.values()))


def below_old_hole(deck_depth: float, skim: float, depth: float) -> float:
    """Metal left below an old hole, its drill's point not counted, whichever deck its depth was taken from.

    floor = deck_depth - skim - depth

    Parameters
    ----------
    deck_depth : float
        Metal below the deck before it is skimmed [mm]
    skim : float
        To come off the deck [mm]
    depth : float
        As drilled out [mm]

    Returns
    -------
    floor : float
        Below 0 the hole is deeper than the deck [mm]

    Examples
    --------
    >>> round(below_old_hole(32.0, 0.12, 22.0), 3)
    9.88

    References
    ----------
    .. [1] Plane geometry.
    """
    return deck_depth - skim - depth


def screwed_length(depth: float, chamfer_threads: float, pitch: float) -> float:
    """Length of a plug that is screwed into a blind hole, as far as a bottoming tap cuts full thread.

    length = depth - chamfer_threads * pitch

    Parameters
    ----------
    depth : float
        Of the hole, its point not counted [mm]
    chamfer_threads : float
        Pitches that the tap's chamfer and the room below it take [1]
    pitch : float
        Pitch of the thread [mm]

    Returns
    -------
    length : float
        Below the deck [mm]

    Examples
    --------
    >>> screwed_length(22, 3, 1.5)
    17.5

    References
    ----------
    .. [1] ASME B18.29.2M notes, chamfer and clearance of a bottoming tap, taken over to a plain tapped hole.
    """
    return depth - chamfer_threads * pitch


def metal_round_plug(metal: float, thread: float, hole: float, sides: float) -> float:
    """Metal that is left round the thread of a screwed plug, which is larger than the hole that it closes.

    left = metal - sides * (thread - hole) / 2

    Parameters
    ----------
    metal : float
        From the hole to what is nearest [mm]
    thread : float
        Nominal diameter of the plug's thread [mm]
    hole : float
        Diameter of the hole [mm]
    sides : float
        1; 2 where a hole with a plug of the same size lies on the other side of the metal [1]

    Returns
    -------
    left : float
        Metal [mm]

    Examples
    --------
    >>> metal_round_plug(5, 12, 9, 1), metal_round_plug(5, 12, 9, 2)
    (3.5, 2.0)

    References
    ----------
    .. [1] Plane geometry.
    """
    return metal - sides * (thread - hole) / 2
