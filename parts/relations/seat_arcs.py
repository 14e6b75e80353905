"""A contoured seat made of swung arcs instead of its curve, and the ring's sizes across: ways that need no CNC.

One arc lies over the back, the others in pairs, the longer the less the curvature changes, each tangent to the next;
they are laid to the curve by least squares. A ring bound down on them is set by the heat and closed in its bore by the
contact solver, as on the true curve. Lengths in mm, angles in degrees from the back.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import cos, degrees, pi, radians, sin, sqrt
from typing import TYPE_CHECKING, NamedTuple

from parts.relations.contact import Bore, Opened, close_in, set_by_heat
from parts.relations.contact.opening import gap_of
from parts.relations.contour import from_back, walk
from parts.relations.least_squares import Equation, normal, solved, triangle
from parts.relations.ring_forms import law_of, ring_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from parts.relations.contact import Pressed
    from parts.relations.contour import Law

    Point = tuple[float, float, float]
    """along the line, X, Y [mm]"""

COUNTS = (3, 5, 7, 9, 11, 13)
LINKS, STEPS, DECIMALS, KEPT = 180, 720, 6, 64
POINTS, FITS, NUDGE = 90, 2, 1e-3  # of the curve that the arcs are laid to; mm
FIGURES = {  # the solver's figure -> word, unit, in words
    "pressure_ratio_least": ("ratio", "1", "Least mean pressure over any 10 degrees, over pressure"),
    "light_gap": ("gap", "mm", "Greatest gap between ring and bore"),
}
WORDS = """{start}, set on a seat of {count} swung arcs.

    {word} = of a ring bound down on {count} arcs laid to the curve by least squares, set by the heat; one-sided contact
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


class Stretch(NamedTuple):
    """One arc along the mean line of half a ring."""

    start: float
    """along the line [mm]"""
    end: float
    bend: float
    """curvature of the mean line [1/mm]"""


def cuts(law: Law, half: float, count: int) -> list[float]:
    """Return where the arcs begin and end along half the mean line: the longer the less the curvature changes [mm].

    >>> from parts.relations.contour import Law
    >>> [round(cut, 1) for cut in cuts(Law(27.4, 27.4, 0.03, 0.95), 85.9, 3)]
    [0.0, 32.0, 85.9]
    """
    weights = [sqrt(max(sin((n + 0.5) / STEPS * half / law.radius), 0.0)) for n in range(STEPS)]
    part, sums, ends = sum(weights) / count, 0.0, list[float]()
    for n, weight in enumerate(weights, 1):
        sums += weight
        if len(ends) < count // 2 and sums >= part * (2 * len(ends) + 1):
            ends.append(n / STEPS * half)
    return [0.0, *ends, half]


def stretches(law: Law, half: float, count: int) -> tuple[list[Stretch], float]:
    """Return the arcs that lie nearest to the curve, each tangent to the next, and how far they are shifted along X.

    Parameters
    ----------
    law : Law
        Of the curve
    half : float
        Length of half the mean line [mm]
    count : int
        Arcs round the whole seat

    Returns
    -------
    arcs : list of Stretch, shift : float
        From the back; the shift towards the gap [mm]
    """
    ends = cuts(law, half, count)
    bends = [(law.direction(b) - law.direction(a)) / (b - a) for a, b in pairwise(ends)]
    true, shift = walk(law, half, POINTS), 0.0
    for _ in range(FITS):
        rows = [_row(law, ends, bends, shift, point) for point in true]
        matrix, right = normal(rows, len(ends), weighted=False)
        low = triangle(matrix)
        if low is None:
            break
        *more, along = solved(low, right)
        bends = [bend + change / law.radius**2 for bend, change in zip(bends, more, strict=True)]
        shift += along
    return [Stretch(a, b, bend) for (a, b), bend in zip(pairwise(ends), bends, strict=True)], shift


def _row(law: Law, ends: list[float], bends: list[float], shift: float, point: Point) -> Equation:
    """How far the arcs lie beside a point of the curve, and how that follows each curvature and the shift."""
    s, x, y = point
    turn = law.direction(s)

    def beside(bent: list[float]) -> float:
        px, py = _place(law, ends, bent, s)
        return (px + shift - x) * cos(turn) - (py - y) * sin(turn)

    here, unit = beside(bends), NUDGE / law.radius**2
    moved = ([bend + unit * (m == n) for m, bend in enumerate(bends)] for n in range(len(bends)))
    slopes = {n: (beside(bent) - here) / NUDGE for n, bent in enumerate(moved)}
    return Equation({**slopes, len(bends): cos(turn)}, -here, 1.0)


def _place(law: Law, ends: list[float], bends: list[float], s: float) -> tuple[float, float]:
    """Point of the arcs' mean line after an arc length [mm]."""
    x, y, turn = -law.blank_radius, 0.0, 0.0
    for (start, end), bend in zip(pairwise(ends), bends, strict=True):
        after = turn + bend * (min(s, end) - start)
        x, y = x + (cos(turn) - cos(after)) / bend, y + (sin(after) - sin(turn)) / bend
        turn = after
        if s <= end:
            break
    return x, y


def arcs(sizes: Mapping[str, float], count: int) -> list[Arc]:
    """Return the arcs of half a seat, from the back."""
    law, ring = law_of(sizes), ring_of(sizes)
    some, shift = stretches(law, ring.half, count)
    x, y, turn, under, out = shift - law.blank_radius, 0.0, 0.0, ring.thickness / 2, list[Arc]()
    for start, end, bend in some:
        cx, cy = x + cos(turn) / bend, y - sin(turn) / bend
        turn += bend * (end - start)
        x, y = cx - cos(turn) / bend, cy + sin(turn) / bend
        out.append(Arc(from_back(x + under * cos(turn), y - under * sin(turn)), 1 / bend - under, cx, cy))
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
    .. [1] Tangent arcs laid to the contour by least squares (derived).
    """
    return [[round(v, DECIMALS) for v in arc] for arc in arcs(sizes, int(count))]


def swung(count: int, pressure: float, sizes: Mapping[str, float]) -> Pressed:
    """Ring set on so many arcs, closed in a true bore."""
    return _swung(count, pressure, tuple(sorted(sizes.items())))


@lru_cache(KEPT)
def _swung(count: int, pressure: float, given: tuple[tuple[str, float], ...]) -> Pressed:
    sizes = dict(given)
    law, ring = law_of(sizes), ring_of(sizes)
    (some, _), step = stretches(law, ring.half, count), ring.half / LINKS

    def turned(s: float) -> float:
        return sum(bend * (min(s, end) - start) for start, end, bend in some if s > start)

    edges = [0.0, *((n + 0.5) * step for n in range(LINKS)), ring.half]
    curvature = tuple((turned(b) - turned(a)) / (b - a) for a, b in pairwise(edges))
    arc = tuple(n * step for n in range(LINKS + 1))
    all_round = ((0.0, degrees(ring.half / ring.radius)),)
    held = Opened(arc, curvature, (0.0,) * (LINKS + 1), 0.0, all_round, gap_of(ring, list(curvature)), "arcs")
    return close_in(ring, set_by_heat(ring, held, sizes["set_fraction"]), Bore(sizes["bore"]), pressure)


@lru_cache(None)
def swung_figure(count: int, figure: str) -> Callable[..., float]:
    """Give the relation for one figure of a ring set on so many arcs.

    >>> sizes = {"bore": 57.2, "outside": 57.295493, "thickness": 2.4, "width": 2.38, "slit": 0.5, "modulus": 1e5}
    >>> set_on = {"free_gap": 8.58, "closed_gap": 0.2, "set_fraction": 0.95, "pressure": 0.169584}
    >>> round(swung_figure(9, "light_gap")(**sizes, **set_on), 4)
    0.0026
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
