"""Where a head lies best on studs that stand off their places, and which of its holes to open."""

from __future__ import annotations

from math import cos, hypot, sin

Point = tuple[float, float]
SURE = 1e-12
ROUNDS = 60
GOLDEN = 0.6180339887498949


def circle_round(points: list[Point]) -> tuple[Point, float]:
    """Smallest circle that holds all points: centre and radius.

    >>> circle_round([(0.0, 0.0), (2.0, 0.0), (1.0, 0.5)])
    ((1.0, 0.0), 1.0)
    """
    centre, radius = points[0], 0.0
    for i, p in enumerate(points):
        if _holds(centre, radius, p):
            continue
        centre, radius = p, 0.0
        for j, q in enumerate(points[:i]):
            if _holds(centre, radius, q):
                continue
            centre, radius = _between(p, q)
            for s in points[:j]:
                if not _holds(centre, radius, s):
                    centre, radius = _through(p, q, s)
    return centre, radius


def _holds(centre: Point, radius: float, point: Point) -> bool:
    return hypot(point[0] - centre[0], point[1] - centre[1]) <= radius + SURE


def _between(p: Point, q: Point) -> tuple[Point, float]:
    return ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2), hypot(p[0] - q[0], p[1] - q[1]) / 2


def _through(p: Point, q: Point, s: Point) -> tuple[Point, float]:
    """Circle through three points; of points in a line the widest pair's."""
    (bx, by), (cx, cy) = (q[0] - p[0], q[1] - p[1]), (s[0] - p[0], s[1] - p[1])
    twice = 2 * (bx * cy - by * cx)
    if abs(twice) < SURE:
        return max((_between(a, b) for a, b in ((p, q), (p, s), (q, s))), key=lambda c: c[1])
    x = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / twice
    y = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / twice
    return (p[0] + x, p[1] + y), hypot(x, y)


Place = tuple[float, float, float]
"""shift along X and Y [mm], turn [rad]"""


def best_place(holes: list[Point], studs: list[Point], held: str) -> Place:
    """Where the head lies so that the stud that is farthest off in its hole is as little off as can be.

    Parameters
    ----------
    holes : list of (x, y)
        Of the head, as drawn [mm]
    studs : list of (x, y)
        As they stand [mm]
    held : str
        "dowels": it can neither shift nor turn; "spigot": it can turn; else both

    Returns
    -------
    place : Place
        Shift [mm] and turn [rad] of the head

    Examples
    --------
    >>> [round(v, 3) for v in best_place([(30.0, 0.0), (-30.0, 0.0)], [(30.2, 0.0), (-30.0, 0.0)], "studs")]
    [0.1, 0.0, 0.0]
    """
    if held == "dowels":
        return (0.0, 0.0, 0.0)

    def at(turn: float) -> Place:
        if held == "spigot":
            return (0.0, 0.0, turn)
        return (
            *circle_round([(s[0] - x, s[1] - y) for s, (x, y) in zip(studs, _turned(holes, turn), strict=True)])[0],
            turn,
        )

    def worst(turn: float) -> float:
        return max(offs(holes, studs, at(turn)))

    reach = max(offs(holes, studs, (0.0, 0.0, 0.0))) / max(1.0, *(hypot(*h) for h in holes))
    low, high = -2 * reach, 2 * reach
    for _ in range(ROUNDS):  # golden section: the worst is a convex function of a small turn
        first, second = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        low, high = (low, second) if worst(first) <= worst(second) else (first, high)
    turn = (low + high) / 2
    return at(turn if worst(turn) < worst(0.0) - 1e-9 else 0.0)


def _turned(points: list[Point], turn: float) -> list[Point]:
    c, s = cos(turn), sin(turn)
    return [(c * x - s * y, s * x + c * y) for x, y in points]


def offs(holes: list[Point], studs: list[Point], place: Place) -> list[float]:
    """How far each stud stands off the middle of its hole with the head at a place [mm]."""
    dx, dy, turn = place
    return [hypot(s[0] - x - dx, s[1] - y - dy) for s, (x, y) in zip(studs, _turned(holes, turn), strict=True)]


def to_open(holes: list[Point], studs: list[Point], held: str, room: float) -> dict[int, float]:
    """Which holes to open so that the head goes on: one alone if that does, else all that foul.

    Parameters
    ----------
    holes, studs : list of (x, y)
        Of the head as drawn, and as they stand [mm]
    held : str
        As for `best_place`
    room : float
        Hole less stud, to each side [mm]

    Returns
    -------
    opened : dict
        Number of the hole from 0 -> how far its stud stands off its middle [mm]; empty where the head goes on

    Examples
    --------
    >>> to_open([(30.0, 0.0), (-30.0, 0.0)], [(31.4, 0.0), (-30.0, 0.0)], "dowels", 0.5)
    {0: 1.4}
    """
    off = offs(holes, studs, best_place(holes, studs, held))
    if max(off) <= room:
        return {}
    alone = {}
    if held not in ("dowels", "spigot"):
        for k in range(len(holes)):
            if (least := _alone(holes, studs, k, room)) is not None:
                alone[k] = least
    if alone:
        k = min(alone, key=alone.__getitem__)
        return {k: alone[k]}
    return {k: round(o, 9) for k, o in enumerate(off) if o > room}


def _alone(holes: list[Point], studs: list[Point], k: int, room: float) -> float | None:
    """How far stud k is off when the others just fit and the head has been pushed towards it; None where they don't."""
    others = [n for n in range(len(holes)) if n != k]
    rest, there = [holes[n] for n in others], [studs[n] for n in others]
    if not others:
        return None
    dx, dy, turn = best_place(rest, there, "studs")
    if max(offs(rest, there, (dx, dy, turn))) > room:
        return None
    ((x, y),) = _turned([holes[k]], turn)
    ax, ay = studs[k][0] - x - dx, studs[k][1] - y - dy
    low, high = 0.0, 1.0
    for _ in range(ROUNDS):
        middle = (low + high) / 2
        fits = max(offs(rest, there, (dx + middle * ax, dy + middle * ay, turn))) <= room
        low, high = (middle, high) if fits else (low, middle)
    return round((1 - low) * hypot(ax, ay), 9)
