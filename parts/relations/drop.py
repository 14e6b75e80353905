"""Does the head drop onto its studs: the room that is left, the chance by tolerances, what to open a hole to.

A place's tolerance is along X and along Y, each either way, and stands for SIGMAS standard deviations.
"""

from __future__ import annotations

from functools import lru_cache
from math import exp, hypot, sqrt
from random import Random
from typing import TYPE_CHECKING

from parts.relations import drop_place as place
from parts.relations.least_squares import SIGMAS

if TYPE_CHECKING:
    from collections.abc import Callable

DRAWS = 2000
RUNNING = 0.1  # mm a side, that an opened hole gets beyond what it needs: common practice, no source


def room_left(room: float, drilled: float, holes: float, fitted: float) -> float:
    """Room that is left round a stud where both patterns are as far off as they may be, the worst way.

    left = room - sqrt(2) * (drilled + holes + fitted)

    Parameters
    ----------
    room : float
        Hole less stud, to each side [mm]
    drilled : float
        How far a tapped hole may lie from its place, along X and along Y [mm]
    holes : float
        How far a hole of the head may lie from its place, the same [mm]
    fitted : float
        How far the places themselves are left open by their readings, the same [mm]

    Returns
    -------
    left : float
        Room to each side, below 0 where they could foul [mm]

    Examples
    --------
    >>> round(room_left(0.5, 0.1, 0.1, 0), 3)
    0.217

    References
    ----------
    .. [1] ISO 2692, floating fastener: the worst case of both positions, each in the corner of its square (memory).
    """
    return room - sqrt(2) * (drilled + holes + fitted)


def room_as_drilled(room: float, off: float) -> float:
    """Room that is left round a stud that stands off the middle of its hole.

    left = room - off

    Parameters
    ----------
    room : float
        Hole less stud, to each side [mm]
    off : float
        How far it stands off [mm]

    Returns
    -------
    left : float
        Room to the nearer side, below 0 where it fouls [mm]

    Examples
    --------
    >>> round(room_as_drilled(0.5, 0.6), 3)
    -0.1

    References
    ----------
    .. [1] Geometry.
    """
    return room - off


def chance_fixed(room: float, drilled: float, holes: float, fitted: float, count: float) -> float:
    """Chance that a head held by dowels or a spigot drops over its studs.

    chance = (1 - exp(-4 * room^2 / (2 * (drilled^2 + holes^2 + fitted^2))))^count

    Parameters
    ----------
    room : float
        Hole less stud, to each side [mm]
    drilled : float
        How far a tapped hole may lie from its place, along X and along Y [mm]
    holes : float
        How far a hole of the head may lie from its place, the same [mm]
    fitted : float
        How far the places themselves are left open by their readings, the same [mm]
    count : float
        Studs [1]

    Returns
    -------
    chance : float
        0 to 1 [1]

    Examples
    --------
    >>> round(chance_fixed(0.5, 0.2, 0.2, 0, 4), 4)
    0.9923

    References
    ----------
    .. [1] Rayleigh's distribution of the distance of a normal scatter in two directions; a tolerance taken as two
        standard deviations of each is common practice, no source.
    """
    spread = (drilled**2 + holes**2 + fitted**2) / SIGMAS**2
    if room <= 0:
        return 0.0
    return (1 - exp(-(room**2) / (2 * spread))) ** count if spread else 1.0


@lru_cache(64)
def chance_floating(room: float, drilled: float, holes: float, fitted: float, count: float) -> float:
    """Chance that a head that may shift on its studs drops over them.

    chance = share of 2000 drawn patterns whose studs and holes all agree after a shift; no turn

    Parameters
    ----------
    room : float
        Hole less stud, to each side [mm]
    drilled : float
        How far a tapped hole may lie from its place, along X and along Y [mm]
    holes : float
        How far a hole of the head may lie from its place, the same [mm]
    fitted : float
        How far the places themselves are left open by their readings, the same [mm]
    count : float
        Studs [1]

    Returns
    -------
    chance : float
        0 to 1 [1]

    Examples
    --------
    It is more than for a head that is held:

    >>> chance_floating(0.5, 0.3, 0.3, 0, 4) > chance_fixed(0.5, 0.3, 0.3, 0, 4)
    True

    References
    ----------
    .. [1] Drawn with a fixed start; a tolerance taken as two standard deviations of each direction is common
        practice, no source.
    """
    if room <= 0:
        return 0.0
    spread, draw = hypot(drilled, holes, fitted) / SIGMAS, Random(0)  # noqa: S311 - no secret: the same draw on every machine
    fits = 0
    for _ in range(DRAWS):
        off = [(draw.gauss(0.0, spread), draw.gauss(0.0, spread)) for _ in range(round(count))]
        fits += max(hypot(x, y) for x, y in off) <= room or place.circle_round(off)[1] <= room
    return fits / DRAWS


def opened_to(stud: float, off: float) -> float:
    """Diameter to which a hole of the head is opened.

    diameter = stud + 2 * (off + 0.1)

    Parameters
    ----------
    stud : float
        Stud in the hole [mm]
    off : float
        How far it stands off the middle of the hole [mm]

    Returns
    -------
    diameter : float
        To drill or file it to [mm]

    Examples
    --------
    >>> opened_to(8.0, 0.9)
    10.0

    References
    ----------
    .. [1] Geometry; the 0.1 mm to spare is common practice, no source.
    """
    return stud + 2 * (off + RUNNING)


OFF = """How far a stud stands off the middle of its hole, the head where it fits best.

    off = distance of stud {number} from its hole, the head at the place where the greatest of them is least

    Returns
    -------
    off : float
        Distance [mm]

    References
    ----------
    .. [1] Smallest circle round the differences of both patterns, over all small turns (derived)."""


def patterns(count: int, at: dict[str, float]) -> tuple[list[place.Point], list[place.Point]]:
    """Holes of the head as drawn, and studs as they stand, of their coordinates by name."""
    numbers = range(1, count + 1)
    holes = [(at[f"hole_x{n}"], at[f"hole_y{n}"]) for n in numbers]
    return holes, [(at[f"x{n}"], at[f"y{n}"]) for n in numbers]


def off_of(number: int, count: int, held: str) -> Callable[..., float]:
    """Give the relation for one stud of a pattern.

    Parameters
    ----------
    number : int
        Of the stud, from 1
    count : int
        Studs
    held : str
        What locates the head

    Returns
    -------
    relation : callable
        Of x1, y1, hole_x1, hole_y1 and so on [mm], to the distance [mm]
    """

    def off(**at: float) -> float:
        holes, studs = patterns(count, at)
        return place.offs(holes, studs, place.best_place(holes, studs, held))[number - 1]

    off.__doc__ = OFF.format(number=number)
    return off
