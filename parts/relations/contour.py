"""The contoured mandrel's curve: hold a ring on it, set it by heat, and it presses evenly in the bore.

The mean line of the ring on the mandrel has the curvature `k0 + (free - k0) / set_fraction` along its length, where
`k0` is the blank's and `free` that of the free ring, `(1 - K (1 + cos(s / r))) / r`. The mandrel's surface lies half
the ring's thickness inside that line. All plain numbers, so that it can be followed and checked.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache
from math import atan2, cos, degrees, fsum, hypot, pi, radians, sin, sqrt

STEPS = 240  # of the half curve; with three Gauss points each, the error is far below 1e-9 mm
GAUSS = ((-sqrt(0.6), 5 / 9), (0.0, 8 / 9), (sqrt(0.6), 5 / 9))
FIVE = (
    (0.0, 128 / 225),
    *((side * sqrt(5 - 2 * sqrt(10 / 7)) / 3, (322 + 13 * sqrt(70)) / 900) for side in (1, -1)),
    *((side * sqrt(5 + 2 * sqrt(10 / 7)) / 3, (322 - 13 * sqrt(70)) / 900) for side in (1, -1)),
)
"""places and weights of five Gauss points, in closed form (any handbook of numerical methods)"""
FEW = 6  # steps of five Gauss points that give the gap to 1e-11 of the radius
SECANTS = 8
LAST = 170.0  # deg from the back


@dataclass(frozen=True, slots=True)
class Law:
    """Curvature along the ring, as its integral: the direction after an arc length."""

    radius: float
    """mean radius in the bore [mm]"""
    blank_radius: float
    """mean radius of the blank [mm]"""
    parameter: float
    """ring parameter K, for exactly the free gap [1]"""
    set_fraction: float
    """share of the opening that remains [1]"""

    def direction(self, s: float) -> float:
        """Turning from the back after an arc length s [mm]; [rad]."""
        free = s / self.radius * (1 - self.parameter) - self.parameter * sin(s / self.radius)
        blank = s / self.blank_radius
        return blank + (free - blank) / self.set_fraction


def walk(law: Law, length: float, steps: int = STEPS) -> list[tuple[float, float, float]]:
    """Follow the mean line from the back.

    Parameters
    ----------
    law : Law
        Curvature
    length : float
        Arc length [mm]
    steps : int
        Equal steps

    Returns
    -------
    points : list of (s, x, y)
        Arc length and place [mm]; the back is at (-blank radius, 0), the curve rises towards +Y
    """
    step, x, y = length / steps, -law.blank_radius, 0.0
    points = [(0.0, x, y)]
    for n in range(steps):
        dx, dy = _stretch(law, n * step, step)
        x, y = x + dx, y + dy
        points.append(((n + 1) * step, x, y))
    return points


def _stretch(law: Law, start: float, length: float) -> tuple[float, float]:
    dx = dy = 0.0
    for node, weight in GAUSS:
        turn = law.direction(start + length / 2 * (1 + node))
        dx += weight * sin(turn)
        dy += weight * cos(turn)
    return dx * length / 2, dy * length / 2


def on_surface(law: Law, depth: float, start: tuple[float, float, float], length: float) -> tuple[float, float]:
    """Point of the surface a little further along than a point of the mean line.

    Parameters
    ----------
    law : Law
        Curvature
    depth : float
        Of the surface inside the mean line [mm]
    start : tuple
        s, x, y of the mean line [mm]
    length : float
        Further along [mm]

    Returns
    -------
    x, y : float
        [mm]
    """
    s, x, y = start
    dx, dy = _stretch(law, s, length) if length else (0.0, 0.0)
    turn = law.direction(s + length)
    return x + dx + depth * cos(turn), y + dy - depth * sin(turn)


@lru_cache(64)
def free_gap_of(radius: float, parameter: float, closed_gap: float) -> float:
    """Gap on the mean line [mm] of the exact free shape of a ring parameter; other lengths too [mm].

    Twice what `walk` rises, and no place between.
    """
    half = (pi - closed_gap / (2 * radius)) / FEW / 2
    rises = [
        weight * cos(at - parameter * (at + sin(at)))
        for n in range(FEW)
        for node, weight in FIVE
        for at in [half * (2 * n + 1 + node)]
    ]
    return 2 * radius * half * fsum(rises)


def exact_parameter(radius: float, free_gap: float, closed_gap: float) -> float:
    """Ring parameter whose free shape has exactly this gap on the mean line.

    parameter = K of the curve of curvature (1 - K * (1 + cos(s / radius))) / radius whose ends stand open by free_gap

    Parameters
    ----------
    radius : float
        Mean radius in the bore [mm]
    free_gap, closed_gap : float
        On the mean line [mm]

    Returns
    -------
    parameter : float
        K [1]

    Examples
    --------
    Within 0.2 % of the corrected closed form 0.031608:

    >>> round(exact_parameter(27.4, 8.58, 0.2), 6)
    0.031657

    References
    ----------
    .. [1] Free shape of the thin inextensible curved bar that presses evenly (derived).
    """

    def short(parameter: float) -> float:
        return free_gap - free_gap_of(radius, parameter, closed_gap)

    low, high = 0.0, (free_gap - closed_gap) / (3 * pi * radius)
    at_low, at_high = short(low), short(high)
    for _ in range(SECANTS):
        if at_high == at_low:
            break
        low, high = high, high - at_high * (high - low) / (at_high - at_low)
        at_low, at_high = at_high, short(high)
    return high


def mandrel_profile(
    bore: float,
    thickness: float,
    outside: float,
    free_gap: float,
    closed_gap: float,
    set_fraction: float,
    less: float,
) -> list[list[float]]:
    """Contoured mandrel's surface as angle and radius about the solid's origin, from the back to 170 degrees.

    profile = surface half a thickness, and less, inside the curve of curvature
        k0 + ((1 - K (1 + cos(s/r))) / r - k0) / set_fraction

    Parameters
    ----------
    bore : float
        Bore [mm]
    thickness : float
        Radial thickness of the ring [mm]
    outside : float
        Outside diameter of the blank [mm]
    free_gap : float
        Total free gap on the mean line [mm]
    closed_gap : float
        Gap in the bore [mm]
    set_fraction : float
        Share of the opening that remains after the heat [1]
    less : float
        Room left all round where it is printed, to try a ring on [mm]

    Returns
    -------
    profile : list of angle and radius
        Every 2 degrees from the back [deg, mm]

    Examples
    --------
    >>> profile = mandrel_profile(57.2, 2.4, 57.295493, 8.58, 0.2, 0.95, 0)
    >>> [round(profile[n][1], 3) for n in (0, 45, 85)]
    [26.248, 27.873, 28.149]

    References
    ----------
    .. [1] Held so and set by heat, the ring presses evenly: its bending moment in the bore is that of uniform
       pressure (derived).
    """
    law = ring_law(bore, thickness, outside, free_gap, closed_gap, set_fraction)
    line = walk(law, pi * law.blank_radius)
    depth = thickness / 2 + less
    places = [on_surface(law, depth, point, 0.0) for point in line]
    angles = [from_back(x, y) for x, y in places]
    return [
        [angle, _radius_at(law, depth, line, angles, angle)] for angle in (2.0 * n for n in range(int(LAST / 2) + 1))
    ]


def ring_law(
    bore: float, thickness: float, outside: float, free_gap: float, closed_gap: float, set_fraction: float
) -> Law:
    """Curvature of the opened ring for these sizes [mm]."""
    radius = (bore - thickness) / 2
    return Law(radius, (outside - thickness) / 2, exact_parameter(radius, free_gap, closed_gap), set_fraction)


def from_back(x: float, y: float) -> float:
    """Angle of a point about the origin, 0 at -X, 90 at +Y [deg]."""
    return degrees(atan2(y, -x)) if y > 0 or x < 0 else 180.0


def _radius_at(
    law: Law, depth: float, line: list[tuple[float, float, float]], angles: list[float], angle: float
) -> float:
    """Radius at an angle: secant steps from the nearest point before it."""
    before = max(0, min(bisect_right(angles, angle) - 1, len(line) - 2))
    step = line[before + 1][0] - line[before][0]

    def place(part: float) -> tuple[float, float]:
        return on_surface(law, depth, line[before], part * step)

    def miss(part: float) -> float:
        x, y = place(part)
        return -x * sin(radians(angle)) - y * cos(radians(angle))  # 0 on the ray; sign changes across it

    low, high = 0.0, 1.0
    part = low
    at_low, at_high = miss(low), miss(high)
    for _ in range(SECANTS):
        if at_high == at_low:
            break
        part = low - at_low * (high - low) / (at_high - at_low)
        low, at_low, high, at_high = high, at_high, part, miss(part)
    return hypot(*place(part))
