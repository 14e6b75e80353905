"""A contoured seat made of swung arcs instead of its curve, and the ring's sizes across: ways that need no CNC.

Each arc turns as far as the stretch of the curve that it stands for, so that one runs smoothly into the next: one over
the back, the others in pairs, the longer the less the curvature changes. A ring bound down on them is set by the heat
and closed in its bore by the contact solver, as on the true curve. Lengths in mm, angles in degrees from the back.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import cos, degrees, pi, radians, sin
from typing import TYPE_CHECKING, NamedTuple

from parts.relations.contact import Bore, Opened, close_in, set_by_heat
from parts.relations.contact.opening import gap_of
from parts.relations.contour import from_back
from parts.relations.ring_forms import law_of, ring_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from parts.relations.contact import Pressed
    from parts.relations.contour import Law

COUNTS = (3, 5, 7, 9, 11, 13)
LINKS, STEPS, DECIMALS, KEPT = 180, 720, 6, 64
FIGURES = {  # the solver's figure -> word, unit, in words
    "pressure_ratio_least": ("ratio", "1", "Least mean pressure over any 10 degrees, over pressure"),
    "light_gap": ("gap", "mm", "Greatest gap between ring and bore"),
}
WORDS = """{start}, set on a seat of {count} swung arcs.

    {word} = of a ring bound down on {count} arcs that turn as far as the curve does, set by the heat; one-sided contact
        in a true bore

    Returns
    -------
    {word} : float
        [{unit}]

    References
    ----------
    .. [1] Thin bar that bends and does not stretch, on walls that push and do not pull, solved numerically (derived).
    """


class Arc(NamedTuple):
    """One arc of half a seat."""

    ends: float
    """where it ends, as an angle about the mandrel's axis from the back [deg]"""
    radius: float
    """of the seat [mm]"""
    x: float
    """its centre from the axis, +X towards the gap [mm]"""
    y: float


def stretches(law: Law, half: float, count: int) -> list[tuple[float, float, float]]:
    """Return start, end and curvature of the mean line on each arc of half a seat [mm, 1/mm].

    >>> from parts.relations.contour import Law
    >>> [round(end, 1) for _, end, _ in stretches(Law(27.4, 27.4, 0.03, 0.95), 85.9, 3)]
    [29.8, 85.9]
    """
    weights = [max(sin((n + 0.5) / STEPS * half / law.radius), 0.0) ** (1 / 3) for n in range(STEPS)]
    part, sums, ends = sum(weights) / count, 0.0, list[float]()
    for n, weight in enumerate(weights, 1):
        sums += weight
        if len(ends) < count // 2 and sums >= part * (2 * len(ends) + 1):
            ends.append(n / STEPS * half)
    cuts = [0.0, *ends, half]
    return [(a, b, (law.direction(b) - law.direction(a)) / (b - a)) for a, b in pairwise(cuts)]


def arcs(sizes: Mapping[str, float], count: int) -> list[Arc]:
    """Return the arcs of half a seat, from the back."""
    law, ring = law_of(sizes), ring_of(sizes)
    x, y, turn, out = -law.blank_radius, 0.0, 0.0, list[Arc]()
    for start, end, bend in stretches(law, ring.half, count):
        cx, cy = x + cos(turn) / bend, y - sin(turn) / bend
        turn += bend * (end - start)
        x, y = cx - cos(turn) / bend, cy + sin(turn) / bend
        under = ring.thickness / 2
        edge = x + under * cos(turn), y - under * sin(turn)
        out.append(Arc(from_back(*edge), 1 / bend - under, cx, cy))
    return out


def arc_table(count: float, **sizes: float) -> list[list[float]]:
    """Arcs of half the seat: end angle, radius, centre along the gap's axis and across it.

    table = for each arc the angle where it ends, its radius, and X and Y of its centre

    Returns
    -------
    table : list of lists
        [deg, mm]

    References
    ----------
    .. [1] Each arc turns as far as the contour's curvature does over its stretch (derived).
    """
    return [[round(v, DECIMALS) for v in arc] for arc in arcs(sizes, int(count))]


def swung(count: int, pressure: float, sizes: Mapping[str, float]) -> Pressed:
    """Ring set on so many arcs, closed in a true bore."""
    return _swung(count, pressure, tuple(sorted(sizes.items())))


@lru_cache(KEPT)
def _swung(count: int, pressure: float, given: tuple[tuple[str, float], ...]) -> Pressed:
    sizes = dict(given)
    law, ring = law_of(sizes), ring_of(sizes)
    some, step = stretches(law, ring.half, count), ring.half / LINKS

    def turned(s: float) -> float:
        return sum(bend * (min(s, end) - start) for start, end, bend in some if s > start)

    edges = [0.0, *((n + 0.5) * step for n in range(LINKS)), ring.half]
    curvature = tuple((turned(b) - turned(a)) / (b - a) for a, b in pairwise(edges))
    arc = tuple(n * step for n in range(LINKS + 1))
    all_round = ((0.0, degrees(ring.half / ring.radius)),)
    held = Opened(arc, curvature, (0.0,) * (LINKS + 1), 0.0, all_round, gap_of(ring, list(curvature)))
    return close_in(ring, set_by_heat(ring, held, sizes["set_fraction"]), Bore(sizes["bore"]), pressure)


@lru_cache(None)
def swung_figure(count: int, figure: str) -> Callable[..., float]:
    """Give the relation for one figure of a ring set on so many arcs.

    >>> sizes = {"bore": 57.2, "outside": 57.295493, "thickness": 2.4, "width": 2.38, "slit": 0.5, "modulus": 1e5}
    >>> set_on = {"free_gap": 8.58, "closed_gap": 0.2, "set_fraction": 0.95, "pressure": 0.169584}
    >>> round(swung_figure(9, "light_gap")(**sizes, **set_on), 4)
    0.0027
    """
    word, unit, says = FIGURES[figure]

    def relation(pressure: float, **sizes: float) -> float:
        return round(float(getattr(swung(count, pressure, sizes), figure)), DECIMALS)

    relation.__doc__ = WORDS.format(start=says, count=count, word=word, unit=unit)
    return relation


def sizes_across(profile: list[list[float]], every: float = 10.0) -> list[tuple[float, float]]:
    """Return what a micrometer reads across the seat through its axis, by the angle of either end from the back.

    >>> sizes_across([[0.0, 27.0], [80.0, 27.5], [90.0, 27.6], [100.0, 27.7]])
    [(80.0, 55.2), (90.0, 55.2)]
    """
    radius = {round(angle, 6): r for angle, r in profile}
    angles = sorted(a for a in radius if 0 < a <= degrees(pi / 2) and abs(a / every - round(a / every)) < radians(1e-6))
    return [(a, radius[a] + radius[round(180 - a, 6)]) for a in angles if round(180 - a, 6) in radius]
