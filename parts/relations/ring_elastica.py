"""The exact shape of a ring that is held open: an inextensible bar of one natural curvature, bent however far.

Lengths over the blank's mean radius. Along the free part the ends' force F bends the bar, and one integral is
known: by a pin `k^2 = back^2 + 2 F (1 - cos(turn))`, by a round mandrel `k^2 = 1 + 2 F (sin(end + to) -
sin(turn + to))`, `to` being the direction of the force. The other one gives length and place, by Gauss's rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import atan2, cos, fsum, hypot, pi, sin, sqrt
from typing import TYPE_CHECKING

from parts.relations.contour import GAUSS

if TYPE_CHECKING:
    from collections.abc import Callable

Numbers = list[float]
PANELS = 8  # of the free part: with three Gauss points each the error is below 1e-10
STEPS = 30
CLOSE = 1e-12
NUDGE = 1e-6
KEPT = 64
WRAPPED = pi * 57.434 / 180  # of a small opening: to where the ring leaves a round mandrel


@dataclass(frozen=True, slots=True)
class OnPin:
    """A ring held open by a pin between its ends, at mid-thickness [mm, rad]."""

    back: float
    """curvature at the back [1/mm]"""
    lean: float
    """of each end from the slit's own direction"""
    reach: float
    """of the ends' mean line from that of the back, along the axis of symmetry"""


@dataclass(frozen=True, slots=True)
class OnRound:
    """A ring that hugs a plain round mandrel [mm]."""

    mandrel: float
    """diameter"""
    gap: float
    """between its ends, on the mean line"""
    straightest: float
    """least curvature anywhere [1/mm]"""
    at: float
    """where that is: along the mean line from the back, over the blank's mean radius [rad]"""


@lru_cache(KEPT)
def on_pin(open_gap: float, slit: float, outside: float, thickness: float) -> OnPin:
    """Ring held open by a pin: the gap of its ends and its length decide.

    Parameters
    ----------
    open_gap, slit : float
        On the mean line [mm]
    outside, thickness : float
        Of the blank [mm]

    Returns
    -------
    held : OnPin
        Its shape

    Examples
    --------
    >>> held = on_pin(9.005, 0.5, 57.2955, 2.4)
    >>> round(held.lean, 4), round(held.reach, 3)
    (0.1024, 56.499)
    """
    radius = (outside - thickness) / 2
    length, opening = pi - slit / 2 / radius, (open_gap - slit) / (3 * pi * radius)

    def miss(unknown: Numbers) -> Numbers:
        along, _, across = _by_pin(*unknown)
        return [along - length, across - open_gap / 2 / radius]

    back, end = solved(miss, [1 - 2 * opening, length - pi * opening])
    return OnPin(back / radius, length - end, radius * _by_pin(back, end)[1])


def _by_pin(back: float, end: float) -> tuple[float, float, float]:
    """Length, way along the axis and across it, to where the bar has turned so far and bends by nature again."""
    pull = (1 - back * back) / (1 - cos(end))
    return _followed(0.0, end, lambda turn: back * back + pull * (1 - cos(turn)))


def _followed(start: float, end: float, square: Callable[[float], float]) -> tuple[float, float, float]:
    """Length and way of a bar between two of its directions, by the square of its curvature."""
    half = (end - start) / PANELS / 2
    along = x = y = 0.0
    for panel in range(PANELS):
        for node, weight in GAUSS:
            turn = start + half * (2 * panel + 1 + node)
            step = weight * half / sqrt(square(turn))
            along, x, y = along + step, x + step * sin(turn), y + step * cos(turn)
    return along, x, y


@lru_cache(KEPT)
def on_round(inside: float, thickness: float, slit: float, mandrel: float) -> OnRound:
    """Ring that hugs a round mandrel: about its back it wraps it, its ends lie on it again.

    Parameters
    ----------
    inside, thickness, slit : float
        Of the blank [mm]
    mandrel : float
        Diameter [mm]

    Returns
    -------
    held : OnRound
        Its gap and where it is straightest

    Examples
    --------
    >>> round(on_round(52.4955, 2.4, 0.5, 55.1132).gap, 3)
    8.983
    """
    radius = (inside + thickness) / 2
    wide = (mandrel + thickness) / 2 / radius
    unknown = solved(lambda u: _off_round(wide, slit / radius, u), _first(radius, slit))
    return _hugging(radius, mandrel, wide, unknown)


@lru_cache(KEPT)
def round_for(inside: float, thickness: float, slit: float, open_gap: float) -> OnRound:
    """Round mandrel on which the ring's ends stand so far apart.

    Parameters
    ----------
    inside, thickness, slit : float
        Of the blank [mm]
    open_gap : float
        On the mean line [mm]

    Returns
    -------
    held : OnRound
        The mandrel, and the ring on it

    Examples
    --------
    >>> round(round_for(52.4955, 2.4, 0.5, 9.005).mandrel, 3)
    55.12
    """
    radius = (inside + thickness) / 2

    def miss(unknown: Numbers) -> Numbers:
        wide, to = unknown[0], unknown[3]
        return [*_off_round(wide, slit / radius, unknown[1:]), 2 * wide * sin(to) - open_gap / radius]

    wide = 1 + (open_gap - slit) / 3.2491 / 2 / radius
    wide, *unknown = solved(miss, [wide, *_first(radius, slit)])
    return _hugging(radius, 2 * wide * radius - thickness, wide, unknown)


def _first(radius: float, slit: float) -> Numbers:
    """Where to start: angle wrapped, direction of the bar at its end and that of the force on it."""
    return [WRAPPED, pi - 0.1, 0.1 + slit / 2 / radius]


def _off_round(wide: float, slit: float, unknown: Numbers) -> Numbers:
    """By how much length and place of the end are wrong; it lies on the mandrel, and is pushed straight outwards."""
    wrapped, end, to = unknown
    along, x, y = _followed(wrapped, end, _free_of(wide, wrapped, end, to))
    x, y = x - wide * cos(wrapped), y + wide * sin(wrapped)
    return [wrapped * wide + along - pi + slit / 2, hypot(x, y) - wide, atan2(y, x) - to]


def _free_of(wide: float, wrapped: float, end: float, to: float) -> Callable[[float], float]:
    """Square of the curvature between mandrel and end, by the direction: that of the mandrel first, by nature last."""
    push = (1 / wide**2 - 1) / (sin(end + to) - sin(wrapped + to))
    return lambda turn: 1 + push * (sin(end + to) - sin(turn + to))


def _hugging(radius: float, mandrel: float, wide: float, unknown: Numbers) -> OnRound:
    wrapped, end, to = unknown
    square, lever = _free_of(wide, wrapped, end, to), pi / 2 - to
    at = wrapped * wide + _followed(wrapped, lever, square)[0]
    return OnRound(mandrel, 2 * radius * wide * sin(to), sqrt(square(lever)) / radius, at)


def solved(miss: Callable[[Numbers], Numbers], guess: Numbers) -> Numbers:
    """Solve as many equations as unknowns by Newton's method, the slopes by differences.

    Parameters
    ----------
    miss : callable
        What is left of each equation
    guess : list of float
        Near the answer

    Returns
    -------
    unknowns : list of float
        The answer

    Raises
    ------
    ArithmeticError
        None was found.

    Examples
    --------
    >>> [round(x, 9) for x in solved(lambda u: [u[0] * u[1] - 6, u[0] + u[1] - 5], [1.0, 4.0])]
    [2.0, 3.0]
    """
    at, off = guess, miss(guess)
    for _ in range(STEPS):
        if max(map(abs, off)) < CLOSE:
            return at
        rows = [miss([x + NUDGE * (i == n) for i, x in enumerate(at)]) for n in range(len(at))]
        slopes = [[(row[i] - off[i]) / NUDGE for row in rows] for i in range(len(at))]
        at = [x - d for x, d in zip(at, eliminated(slopes, off), strict=True)]
        off = miss(at)
    if max(map(abs, off)) < CLOSE * 1e3:
        return at
    raise ArithmeticError("the shape of the opened ring was not found")


def eliminated(matrix: list[Numbers], right: Numbers) -> Numbers:
    """Solve linear equations by elimination.

    >>> eliminated([[0.0, 2.0], [1.0, 1.0]], [4.0, 5.0])
    [3.0, 2.0]
    """
    rows = [[*row, r] for row, r in zip(matrix, right, strict=True)]
    for n in range(len(rows)):
        rows[n:] = sorted(rows[n:], key=lambda row: -abs(row[n]))
        for m in range(n + 1, len(rows)):
            share = rows[m][n] / rows[n][n]
            rows[m] = [p - share * q for p, q in zip(rows[m], rows[n], strict=True)]
    out: Numbers = []
    for n in range(len(rows) - 1, -1, -1):
        known = fsum(p * q for p, q in zip(rows[n][n + 1 : -1], out, strict=True))
        out.insert(0, (rows[n][-1] - known) / rows[n][n])
    return out
