"""Points whose places are not known, fitted to distances between them and to X Y off a machine's scales.

Each point lies where a few unknowns put it, all of them lengths. A distance tells of two points. X and Y tell of one
point, on scales of any zero and turn, which are three unknowns more. Gauss and Newton's steps, damped where they fail
(Levenberg). How far a reading is off what the others say follows from the fit itself, without a fit for each reading.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from math import atan2, cos, erfc, exp, fsum, hypot, inf, pi, sin, sqrt

from parts.errors import Fault, JobError
from parts.relations.least_squares import Equation, Matrix, dot, inverse, normal, solved, times, triangle

Key = int | str
"""number of a hole, or bore"""
CHANCE = 1e-3  # that honest readings are told as off
CHECKED = 0.01  # share of a reading's error that shows: below it no other reading checks it
STEPS, CLOSE, ROUNDING, HALVED = 300, 1e-11, 1e-12, 60


def chance_of(squares: float, freedom: int) -> float:
    """Chance that so many squares of a normal scatter add up to so much or more: chi-squared, in closed form.

    >>> round(chance_of(3.841, 1), 3), round(chance_of(18.307, 10), 3)
    (0.05, 0.05)
    """
    half, odd = squares / 2, freedom % 2
    if half <= 0:
        return 1.0
    part = 2 * exp(-half) * sqrt(half / pi) if odd else exp(-half)
    sums = []
    for step in range(freedom // 2):
        sums.append(part)
        part *= half / (step + (1.5 if odd else 1.0))
    return fsum([erfc(sqrt(half)) if odd else 0.0, *sums])


@lru_cache(None)
def limit_of(freedom: int) -> float:
    """Squares that CHANCE of honest readings exceed, by halving.

    >>> round(limit_of(1), 2), round(limit_of(2), 2), round(limit_of(5), 2)
    (10.83, 13.82, 20.52)
    """
    low, high = 0.0, 20.0 + 4 * freedom
    for _ in range(HALVED):
        middle = (low + high) / 2
        low, high = (middle, high) if chance_of(middle, freedom) > CHANCE else (low, middle)
    return high


@dataclass(frozen=True, slots=True)
class Place:
    """Where a point lies: a fixed place [mm], and how it follows the unknowns."""

    x: float
    y: float
    by_x: dict[int, float] = field(default_factory=dict)
    by_y: dict[int, float] = field(default_factory=dict)

    def at(self, unknowns: list[float]) -> tuple[float, float]:
        """Place by these unknowns."""
        return self.x + dot(self.by_x, unknowns), self.y + dot(self.by_y, unknowns)


@dataclass(frozen=True, slots=True)
class Span:
    """A distance between two points, as read [mm]."""

    number: int
    one: Key
    other: Key
    length: float
    sigma: float
    follows: dict[str, float] = field(default_factory=dict)
    """a size that this and other readings rest on -> by how much the length follows it"""


@dataclass(frozen=True, slots=True)
class Spot:
    """X and Y of a point on a machine's scales [mm]."""

    number: int
    one: Key
    x: float
    y: float
    sigma_x: float
    sigma_y: float


Reading = Span | Spot


@dataclass(frozen=True, slots=True)
class Model:
    """Points, and where to start from."""

    points: dict[Key, Place]
    start: list[float]
    frame: int | None
    """which unknown is the scales' X zero; Y zero and turn follow it"""
    reach: float
    """mm: the scales' turn is counted as the way of a point at this distance"""


@dataclass(frozen=True, slots=True)
class Residual:
    """What the fit says of one reading."""

    number: int
    residual: tuple[float, ...]
    """as read less fitted [mm]"""
    off: tuple[float, ...] | None
    """as read less what the other readings say [mm]; None where they say nothing"""
    misfit: float
    """that over what chance allows: above 1 it is off"""


@dataclass(frozen=True, slots=True)
class Fit:
    """Unknowns as fitted, and how well."""

    model: Model
    unknowns: list[float]
    covariance: Matrix
    told: list[Residual]
    spare: int
    """readings more than unknowns"""
    scatter: float
    """of the readings, over what their tolerances say; at least 1"""
    rms: float
    """of the residuals [mm]"""
    misfit: float
    """of all readings together, over what chance allows: above 1 they contradict each other in this form"""

    @property
    def worst(self) -> float:
        """Largest misfit, of one reading or of all together."""
        return max(self.misfit, *(one.misfit for one in self.told))


def blocks(model: Model, readings: list[Reading], unknowns: list[float]) -> list[list[Equation]]:
    """One row a distance, two rows an X and Y."""
    return [[_span(model, one, unknowns)] if isinstance(one, Span) else _spot(model, one, unknowns) for one in readings]


def _span(model: Model, span: Span, unknowns: list[float]) -> Equation:
    one, other = model.points[span.one], model.points[span.other]
    (x, y), (other_x, other_y) = one.at(unknowns), other.at(unknowns)
    apart = hypot(x - other_x, y - other_y) or 1e-9
    along, up = (x - other_x) / apart, (y - other_y) / apart
    slopes: dict[int, float] = {}
    for place, sign in ((one, 1), (other, -1)):
        for by, part in ((place.by_x, along), (place.by_y, up)):
            for i, slope in by.items():
                slopes[i] = slopes.get(i, 0.0) + sign * part * slope
    return Equation(slopes, span.length - apart, span.sigma)


def _spot(model: Model, spot: Spot, unknowns: list[float]) -> list[Equation]:
    place, frame = model.points[spot.one], model.frame
    if frame is None:
        raise TypeError("no frame to read X and Y in")
    x, y = place.at(unknowns)
    zero_x, zero_y, way = unknowns[frame : frame + 3]
    c, s = cos(way / model.reach), sin(way / model.reach)
    on_x = {i: c * place.by_x.get(i, 0.0) - s * place.by_y.get(i, 0.0) for i in {**place.by_x, **place.by_y}}
    on_y = {i: s * place.by_x.get(i, 0.0) + c * place.by_y.get(i, 0.0) for i in {**place.by_x, **place.by_y}}
    turn_x, turn_y = (-s * x - c * y) / model.reach, (c * x - s * y) / model.reach
    return [
        Equation({**on_x, frame: 1.0, frame + 2: turn_x}, spot.x - zero_x - c * x + s * y, spot.sigma_x),
        Equation({**on_y, frame + 1: 1.0, frame + 2: turn_y}, spot.y - zero_y - s * x - c * y, spot.sigma_y),
    ]


def frame_start(pairs: list[tuple[tuple[float, float], tuple[float, float]]]) -> tuple[float, float, float]:
    """Zero and turn [rad] of scales from places and what the scales read there: least squares in one step."""
    n = len(pairs)
    px, py, mx, my = (fsum(pair[i][j] for pair in pairs) / n for i in (0, 1) for j in (0, 1))
    cross = fsum((p[0] - px) * (m[1] - my) - (p[1] - py) * (m[0] - mx) for p, m in pairs)
    along = fsum((p[0] - px) * (m[0] - mx) + (p[1] - py) * (m[1] - my) for p, m in pairs)
    turn = atan2(cross, along)
    c, s = cos(turn), sin(turn)
    return mx - c * px + s * py, my - s * px - c * py, turn


def fitted(model: Model, readings: list[Reading], key: str) -> Fit:
    """Fit the unknowns to the readings.

    Parameters
    ----------
    model : Model
        Whose unknowns the readings tell: see `least_squares.rank`
    readings : list of Reading
        At least as many numbers as there are unknowns
    key : str
        Of the job file, for the fault

    Raises
    ------
    JobError
        The readings contradict each other so that no fit is found.
    """
    unknowns = _settled(model, readings, key)
    found = blocks(model, readings, unknowns)
    rows = [row for block in found for row in block]
    low = triangle(normal(rows, len(unknowns))[0])
    if low is None:
        raise JobError(Fault(key, f"contradict each other: {NO_FIT}"))
    covariance = inverse(low)
    squares = fsum((r.misfit / r.sigma) ** 2 for r in rows)
    spare = len(rows) - len(unknowns)
    return Fit(
        model,
        unknowns,
        covariance,
        [_told(one.number, block, covariance, squares, spare) for one, block in zip(readings, found, strict=True)],
        spare,
        max(1.0, sqrt(squares / spare)) if spare else 1.0,
        sqrt(fsum(r.misfit**2 for r in rows) / len(rows)),
        sqrt(squares / limit_of(spare)) if spare else 0.0,
    )


NO_FIT = "no pattern of this form comes near them; look at hole numbers, kinds and units"


def _settled(model: Model, readings: list[Reading], key: str) -> list[float]:
    unknowns, damping = list(model.start), 0.0
    cost = _cost(model, readings, unknowns)
    for _ in range(STEPS):
        rows = [row for block in blocks(model, readings, unknowns) for row in block]
        matrix, right = normal(rows, len(unknowns))
        most = max((matrix[i][i] for i in range(len(unknowns))), default=0.0)
        low = triangle(
            [[v + (damping * most if i == j else 0.0) for j, v in enumerate(m)] for i, m in enumerate(matrix)]
        )
        step = solved(low, right) if low else None
        tried = [u + s for u, s in zip(unknowns, step, strict=True)] if step else unknowns
        least = max(map(abs, step), default=0.0) if step else inf
        if least < CLOSE and damping == 0.0:
            return tried
        new = _cost(model, readings, tried)
        if step and new <= cost * (1 + ROUNDING) + ROUNDING:
            unknowns, cost, damping = tried, new, damping / 10 if damping > 1e-8 else 0.0  # noqa: PLR2004
        else:
            damping = max(10 * damping, 1e-6)
    raise JobError(Fault(key, f"contradict each other: {NO_FIT}"))


def _cost(model: Model, readings: list[Reading], unknowns: list[float]) -> float:
    return fsum((r.misfit / r.sigma) ** 2 for block in blocks(model, readings, unknowns) for r in block)


def _told(number: int, block: list[Equation], covariance: Matrix, squares: float, spare: int) -> Residual:
    """Compare a reading with what the others say of it.

    By the residual's own covariance: of a reading's error the share r shows in its residual, so the others say it is
    off by residual / r. The others' own scatter widens what chance allows.
    """
    residual = tuple(r.misfit for r in block)
    spread = [[_shown(a, b, covariance, same=a is b) for b in block] for a in block]
    directions = [d for d in _directions(spread) if d[0] > CHECKED]
    if not directions:
        return Residual(number, residual, None, 0.0)
    in_sigmas = [r.misfit / r.sigma for r in block]
    along = [(share, v, fsum(a * b for a, b in zip(v, in_sigmas, strict=True))) for share, v in directions]
    test = fsum(e * e / share for share, _, e in along)
    off = tuple(r.sigma * fsum(v[i] * e / share for share, v, e in along) for i, r in enumerate(block))
    left = spare - len(directions)
    others = max(1.0, (squares - test) / left) if left > 0 else 1.0
    return Residual(number, residual, off, sqrt(test / others / limit_of(len(directions))))


def _shown(a: Equation, b: Equation, covariance: Matrix, *, same: bool) -> float:
    """Covariance of two residuals, each in its reading's sigma."""
    return float(same) - dot(a.slopes, times(covariance, b.slopes)) / (a.sigma * b.sigma)


def _directions(m: Matrix) -> list[tuple[float, tuple[float, ...]]]:
    """Principal values and directions of a symmetric matrix of one or two rows."""
    if len(m) == 1:
        return [(m[0][0], (1.0,))]
    half, apart = (m[0][0] + m[1][1]) / 2, hypot((m[0][0] - m[1][1]) / 2, m[0][1])
    turn = atan2(2 * m[0][1], m[0][0] - m[1][1]) / 2
    c, s = cos(turn), sin(turn)
    return [(half + apart, (c, s)), (half - apart, (-s, c))]
