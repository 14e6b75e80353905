"""Tightening: crosswise order of the nuts, three stages, and a small plan of the order."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, pi
from typing import TYPE_CHECKING

from markupsafe import Markup

from parts.shapes.assembly import holes
from parts.sheets.page.marks import marked, stud_holes
from parts.sheets.page.words import hole_list
from parts.writers import svg_marks

if TYPE_CHECKING:
    from parts.geometry.edge import Point
    from parts.sheets.page.words import Words

STAGES = ((1 / 3, "1 of 3"), (2 / 3, "2 of 3"), (1.0, "3 of 3"))
FIRST = 1  # hole number
TORQUE = "joint.torque"


@dataclass(frozen=True, slots=True)
class Tightening:
    """How the nuts are tightened."""

    order: tuple[int, ...]
    """hole numbers, first to last"""
    kinds: tuple[Words, ...]
    """of the studs whose torque is known"""
    stages: tuple[tuple[str, ...], ...]
    """name, torque of each of these kinds"""
    plan: str

    @property
    def heads(self) -> tuple[str, ...]:
        """Over the columns of torque."""
        return tuple(
            f"{own.named('torque')}: {hole_list(stud_holes(own))}" if own.name else "torque" for own in self.kinds
        )

    @property
    def names(self) -> list[str]:
        """Of the torques, in the book."""
        return [own.book.real(TORQUE) for own in self.kinds]


def tightening(words: Words) -> Tightening | None:
    """Return order and stages, None where there is no pattern of studs."""
    places = holes(words.book, "deck.hole")
    if len(places) < 2 or not words.job.instances("stud"):  # noqa: PLR2004 - a pair
        return None
    order = crosswise(places)
    kinds = tuple(own for own in words.each("stud") if own.has(TORQUE))
    stages = tuple((name, *(torque_shown(own, share * own.value(TORQUE)) for own in kinds)) for share, name in STAGES)
    return Tightening(order, kinds, stages if kinds else (), _plan(words, places, order))


def torque_shown(words: Words, torque: float) -> str:
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


def _plan(words: Words, places: list[Point], order: tuple[int, ...]) -> str:
    """Draw the holes by their numbers, as on the plan, joined in the order of the nuts, with each one's turn beside it."""
    reach = max(max(abs(x), abs(y)) for x, y in places)
    r = 0.19 * reach
    half = reach + 2.6 * r
    steps, mark = [places[n - 1] for n in order], marked(words)
    line = "".join(f"{'L' if n else 'M'}{x:.2f} {-y:.2f}" for n, (x, y) in enumerate(steps))
    parts = [svg_marks.path("join", line)]
    for turn, (x, y) in enumerate(steps, 1):
        below = -y + (1.85 if y <= 0 else -1.25) * r
        hole = str(order[turn - 1])
        letter = f" {mark[hole].letter}" if hole in mark else ""
        parts += [
            svg_marks.circle("nut", _n(x), _n(-y), _n(r)),
            svg_marks.text("number", _n(x), _n(-y + 0.4 * r), _n(1.15 * r), hole),
            svg_marks.text("turn", _n(x), _n(below), _n(0.78 * r), f"{ordinal(turn)}{letter}"),
        ]
    says = f"Order of tightening: holes {', '.join(map(str, order))}"
    box = map(_n, (-half, -half, 2 * half, 2 * half))
    return Markup(svg_marks.inline("order", box, says, parts))  # noqa: S704 - numbers only


def ordinal(number: int) -> str:
    """Write which in a row.

    >>> [ordinal(n) for n in (1, 2, 3, 4, 11, 22)]
    ['1st', '2nd', '3rd', '4th', '11th', '22nd']
    """
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th") if number % 100 not in (11, 12, 13) else "th"
    return f"{number}{ending}"


def _n(value: float) -> str:
    return f"{value:.2f}"
