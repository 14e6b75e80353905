"""The studs of a joint: whether they surround the bore, what each takes of the gas force, what all do together [N]."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import atan2, cos, fsum, hypot, sin, sqrt

LEAST = 1e-3
RESISTED = 1e-9  # of the stiffness, under which nothing resists a tilt
OFF_LINE = 0.01  # of the studs' spread: so near to their line the face they clamp holds what is left of the moment
SAME = 1e-9  # mm

Point = tuple[float, float]


def bore_inside(**places: float) -> float:
    """How far the line of the gas force, the bore's axis, lies inside the polygon of the studs.

    inside = least distance from the bore's axis to a side of the polygon round all studs; outside it is below 0

    Parameters
    ----------
    **places : float
        x_n and y_n of each stud from the bore's axis [mm]

    Returns
    -------
    inside : float
        0 where studs stand on one line through the bore [mm]

    Examples
    --------
    >>> bore_inside(x_1=30, y_1=29, x_2=-30, y_2=29, x_3=-30, y_3=-29, x_4=30, y_4=-29)
    29.0
    >>> bore_inside(x_1=30, y_1=29, x_2=30, y_2=-29)
    -30.0

    References
    ----------
    .. [1] Statics: parallel forces that all pull can balance a force only inside the polygon round them.
    """
    studs = sorted({(x, places[f"y_{n.removeprefix('x_')}"]) for n, x in places.items() if n.startswith("x_")})
    hull = _half(studs) + _half(studs[::-1])
    sides = list(pairwise([*hull, hull[0]])) if hull else [(studs[0], studs[0])]
    near = min(_from_side(a, b) for a, b in sides)
    outside = any(_turn(a, b, (0.0, 0.0)) < -SAME * hypot(b[0] - a[0], b[1] - a[1]) for a, b in sides)
    return -near if outside or not hull or len(hull) == 2 else near  # noqa: PLR2004 - two have no inside


def _half(points: list[Point]) -> list[Point]:
    """One half of the hull, without its last corner (A. M. Andrew's monotone chain)."""
    out: list[Point] = []
    for p in points:
        while len(out) > 1 and _turn(out[-2], out[-1], p) <= 0:
            out.pop()
        out.append(p)
    return out[:-1]


def _turn(a: Point, b: Point, p: Point) -> float:
    """Above 0 where p lies to the left of the way from a to b."""
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def _from_side(a: Point, b: Point) -> float:
    """Distance of the origin from a side."""
    along = (b[0] - a[0], b[1] - a[1])
    whole = along[0] ** 2 + along[1] ** 2
    part = min(1.0, max(0.0, -(a[0] * along[0] + a[1] * along[1]) / whole)) if whole else 0.0
    return hypot(a[0] + part * along[0], a[1] + part * along[1])


def farthest(**reaches: float) -> float:
    """Greatest distance of a stud from the centre of the bore.

    reach = the greatest

    Parameters
    ----------
    **reaches : float
        Of each stud [mm]

    Returns
    -------
    reach : float
        Distance [mm]

    Examples
    --------
    >>> farthest(hole_1=41.7, hole_2=42.0)
    42.0

    References
    ----------
    .. [1] The stud that stands farthest out decides.
    """
    return max(reaches.values())


def spring(stud: float, clamped: float) -> float:
    """Stiffness of one stud with the metal it clamps, against a head that lifts: side by side until the joint opens.

    spring = stud + clamped

    Parameters
    ----------
    stud : float
        Stiffness of the stud [N/mm]
    clamped : float
        Stiffness of the clamped parts [N/mm]

    Returns
    -------
    spring : float
        Load for each millimetre [N/mm]

    Examples
    --------
    >>> spring(100e3, 400e3)
    500000.0

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8: bolt and members share the load by their stiffness.
    """
    return stud + clamped


def share_on_springs(number: float, **springs: float) -> float:
    """Share of the force over the bore that one stud takes, the head stiff and free to tilt.

    share = spring_number * lift at the stud, where the head lifts by a + b x + c y so that forces and moments balance

    Parameters
    ----------
    number : float
        Of the hole [1]
    **springs : float
        x_n and y_n of each hole in mm, and spring_n there [N/mm]

    Returns
    -------
    share : float
        Of the whole; below 0 where the tilt presses the stud's place down [1]

    Raises
    ------
    ValueError
        The studs stand on one line, and the bore's centre lies off it by more than 1 % of their spread.

    Examples
    --------
    >>> even = {f"x_{n}": x for n, x in enumerate((30, -30, -30, 30), 1)} | {f"spring_{n}": 5e5 for n in (1, 2, 3, 4)}
    >>> share_on_springs(1, **even, y_1=29, y_2=29, y_3=-29, y_4=-29)
    0.25

    References
    ----------
    .. [1] Statics of a stiff plate on springs; the 1 % is common practice, no source.
    """
    holes = [n.removeprefix("spring_") for n in springs if n.startswith("spring_")]
    rows = [(springs[f"spring_{n}"], (1.0, springs[f"x_{n}"], springs[f"y_{n}"])) for n in holes]
    lift = _balanced(tuple(rows))
    here = f"{number:g}"
    place = (1.0, springs[f"x_{here}"], springs[f"y_{here}"])
    return springs[f"spring_{here}"] * fsum(a * p for a, p in zip(lift, place, strict=True))


def balanced(**springs: float) -> bool:
    """Tell whether springs at these places hold a stiff plate that is lifted at the origin, against any tilt.

    >>> balanced(x_1=30, y_1=0, spring_1=5e5, x_2=-30, y_2=0, spring_2=4e5)
    True
    >>> balanced(x_1=30, y_1=9, spring_1=5e5, x_2=-30, y_2=9, spring_2=4e5)
    False
    """
    first = next(n.removeprefix("spring_") for n in springs if n.startswith("spring_"))
    try:
        share_on_springs(float(first), **springs)
    except ValueError:
        return False
    return True


@lru_cache(16)
def _balanced(rows: tuple[tuple[float, tuple[float, float, float]], ...]) -> list[float]:
    """Lift and tilts of a stiff plate under a unit force at the origin, about the springs' principal axes."""
    whole = fsum(k for k, _ in rows)
    x, y = (fsum(k * p[i] for k, p in rows) / whole for i in (1, 2))
    xx, yy, xy = (
        fsum(k * (p[i] - o) * (p[j] - q) for k, p in rows) for i, j, o, q in ((1, 1, x, x), (2, 2, y, y), (1, 2, x, y))
    )
    turn = atan2(2 * xy, xx - yy) / 2
    lift = [1.0 / whole, 0.0, 0.0]
    for c, s in ((cos(turn), sin(turn)), (-sin(turn), cos(turn))):
        held, arm = xx * c * c + yy * s * s + 2 * xy * c * s, -(x * c + y * s)
        if held <= RESISTED * (xx + yy):
            if abs(arm) > OFF_LINE * sqrt((xx + yy) / whole):
                raise ValueError("nothing holds the head against tilting")
            continue
        tilt = arm / held
        lift = [lift[0] + tilt * arm, lift[1] + tilt * c, lift[2] + tilt * s]
    return lift


def largest_share_of(**shares: float) -> float:
    """Largest share of the gas force among studs of one kind.

    share = the largest, and no less than 0.001: what the tilt presses down can't open

    Parameters
    ----------
    **shares : float
        Of each stud [1]

    Returns
    -------
    share : float
        Of the whole [1]

    Examples
    --------
    >>> largest_share_of(hole_1=0.2, hole_3=0.3)
    0.3

    References
    ----------
    .. [1] The stud that is loaded most decides.
    """
    return max(LEAST, *shares.values())


def mean_load(**kinds: float) -> float:
    """Load of a stud, the mean over studs of several kinds.

    load = sum of count times load / sum of counts

    Parameters
    ----------
    **kinds : float
        count_n of each kind, a plain number, and load_n [N]

    Returns
    -------
    load : float
        Mean [N]

    Examples
    --------
    >>> mean_load(count_0=1, load_0=10e3, count_1=3, load_1=6e3)
    7000.0

    References
    ----------
    .. [1] Statics: the forces add.
    """
    counts = {n.removeprefix("count_"): c for n, c in kinds.items() if n.startswith("count_")}
    return fsum(c * kinds[f"load_{n}"] for n, c in counts.items()) / fsum(counts.values())


def mean_stiffness_share(**studs: float) -> float:
    """Share of the gas force that all studs together take; the rest comes off the clamped parts.

    share = sum of what each takes of the force times the stud's own part of that

    Parameters
    ----------
    **studs : float
        share_n of each hole in the force, and stud_n, its stud's own part of that [1]

    Returns
    -------
    share : float
        Of the whole force [1]

    Examples
    --------
    >>> round(mean_stiffness_share(share_1=0.5, stud_1=0.2, share_2=0.5, stud_2=0.1), 3)
    0.15

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, for each stud.
    """
    holes = {n.removeprefix("share_"): share for n, share in studs.items() if n.startswith("share_")}
    return fsum(share * studs[f"stud_{n}"] for n, share in holes.items())


def least_float(**kinds: float) -> float:
    """How far a head can shift on studs of several kinds: as far as those with the least play let it.

    float = the least

    Parameters
    ----------
    **kinds : float
        Of each kind of stud [mm]

    Returns
    -------
    float : float
        Either way [mm]

    Examples
    --------
    >>> least_float(kind_0=0.5, kind_1=0.25)
    0.25

    References
    ----------
    .. [1] Plane geometry.
    """
    return min(kinds.values())
