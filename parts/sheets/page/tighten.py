"""Tightening: crosswise order of the nuts, three stages, and a small plan of the order."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, pi
from typing import TYPE_CHECKING

from markupsafe import Markup

from parts.shapes.assembly import holes

if TYPE_CHECKING:
    from parts.geometry.edge import Point
    from parts.sheets.page.words import Words

STAGES = ((1 / 3, "1 of 3"), (2 / 3, "2 of 3"), (1.0, "3 of 3"))
FIRST = 1  # hole number


@dataclass(frozen=True, slots=True)
class Tightening:
    """How the nuts are tightened."""

    order: tuple[int, ...]
    """hole numbers, first to last"""
    stages: tuple[tuple[str, str], ...]
    """name, torque; empty where the torque is not known"""
    plan: str


def tightening(words: Words) -> Tightening | None:
    """Return order and stages, None where there is no pattern of studs."""
    places = holes(words.book, "deck.hole")
    if len(places) < 2 or words.job.stud is None:  # noqa: PLR2004 - a pair
        return None
    order = crosswise(places)
    stages: tuple[tuple[str, str], ...] = ()
    if words.has("joint.torque"):
        torque = words.value("joint.torque")
        stages = tuple((name, _torque(words, share * torque)) for share, name in STAGES)
    return Tightening(order, stages, _plan(places, order))


def _torque(words: Words, torque: float) -> str:
    """Print a torque as a wrench shows it."""
    return f"{torque:.1f} N m" if words.system == "metric" else words.show(torque, "N m")


def crosswise(places: list[Point]) -> tuple[int, ...]:
    """Order holes so that each second one lies opposite the first, and pairs lie apart.

    >>> crosswise([(1, 0), (0, 1), (-1, 0), (0, -1)])
    (1, 3, 2, 4)
    >>> from math import cos, radians, sin
    >>> crosswise([(cos(radians(60 * n)), sin(radians(60 * n))) for n in range(6)])
    (1, 4, 2, 5, 3, 6)
    """
    angles = {number: atan2(y, x) for number, (x, y) in enumerate(places, FIRST)}
    order = [FIRST]
    while len(order) < len(places):
        free = [n for n in angles if n not in order]
        from_last = {n: _apart(angles[n], angles[order[-1]]) for n in free}
        if len(order) % 2:
            order.append(max(free, key=lambda n: (from_last[n], -n)))
        else:
            nearest = {n: min(_apart(angles[n], angles[o]) for o in order) for n in free}
            order.append(max(free, key=lambda n: (nearest[n], from_last[n], -n)))
    return tuple(order)


def _apart(a: float, b: float) -> float:
    """Angle between two directions, rounded so that equal ones are equal."""
    turn = abs(a - b) % (2 * pi)
    return round(min(turn, 2 * pi - turn), 3)


def _plan(places: list[Point], order: tuple[int, ...]) -> str:
    """Draw the holes with their place in the order, joined by a line from each to the next."""
    reach = max(max(abs(x), abs(y)) for x, y in places)
    r = 0.19 * reach
    half = reach + 2.6 * r
    steps = [places[n - 1] for n in order]
    line = "".join(f"{'L' if n else 'M'}{x:.2f} {-y:.2f}" for n, (x, y) in enumerate(steps))
    parts = [f'<path class="join" d="{line}"/>']
    for turn, (x, y) in enumerate(steps, 1):
        parts.append(f'<circle class="nut" cx="{x:.2f}" cy="{-y:.2f}" r="{r:.2f}"/>')
        parts.append(f'<text class="turn" x="{x:.2f}" y="{-y + 0.4 * r:.2f}" font-size="{1.15 * r:.2f}">{turn}</text>')
        below = -y + (1.85 if y <= 0 else -1.25) * r
        parts.append(
            f'<text class="hole" x="{x:.2f}" y="{below:.2f}" font-size="{0.78 * r:.2f}">hole {order[turn - 1]}</text>'
        )
    says = f"Order of tightening: holes {', '.join(map(str, order))}"
    box = f"{-half:.2f} {-half:.2f} {2 * half:.2f} {2 * half:.2f}"
    svg = f'<svg class="order" viewBox="{box}" role="img" aria-label="{says}">{"".join(parts)}</svg>'
    return Markup(svg)  # noqa: S704 - numbers only
