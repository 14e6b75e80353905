"""What stands beside a view, row upon row, and how the rows are chosen so that nothing overlaps.

Places are along the side of the view [mm of paper, from its origin]; row 0 is next to the view. An item has legs, lines
that run from the view out to its row; a leg may cross other lines but no text.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from itertools import islice
from typing import TYPE_CHECKING

from parts.sheets.drawing.sheet import TEXT
from parts.writers.fonts import WIDER, plain, text_width

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from parts.geometry.edge import Point

ARROW = 2.5  # mm
APART = 1.2  # mm between two texts, or a text and a line
MOST = 400  # ways of placing all texts that are compared
SYMBOL = 5.0  # mm that the symbol of surface texture takes before its text


@dataclass(frozen=True, slots=True)
class Length:
    """A distance between two points of the part, along the side."""

    start: Point
    end: Point
    text: str


@dataclass(frozen=True, slots=True)
class Across:
    """A diameter, shown where it is; its text stands on a shelf at the end of a line."""

    x: float
    low: float
    high: float
    text: str


@dataclass(frozen=True, slots=True)
class Pointer:
    """A text on a shelf, with an arrow to a point of the part."""

    at: Point
    text: str
    texture: bool = False
    """with the symbol of surface texture"""


@dataclass(frozen=True, slots=True)
class Plane:
    """A line across the view, from one point to its other side, and its name on a shelf."""

    x: float
    low: float
    high: float
    text: str


Item = Length | Across | Pointer | Plane


@dataclass(frozen=True, slots=True)
class Place:
    """Where an item goes."""

    row: int
    text: tuple[float, float]
    """from, to"""
    taken: tuple[float, float]
    legs: tuple[float, ...]


class NoRoomError(Exception):
    """The items can't stand beside the view at this scale."""


class Care(IntEnum):
    """How much room texts are given, where they can't have all."""

    CROSSED = 0
    """legs may run through texts"""
    SNUG = 1
    """room for texts in our own font alone"""
    ROOMY = 2


def pack(items: Sequence[Item], ratio: float, *, upright: bool = False, care: Care = Care.ROOMY) -> list[Place]:
    """Give every item its row, so that there are few rows and little stands out at the ends.

    `ratio` mm of paper to a mm of the part; `upright` for the sides left and right. NoRoomError where it can't be done.
    """
    share = 1.0 if care is Care.ROOMY else 1 / WIDER
    for more, tight in ((False, True), (True, True), (True, care is not Care.CROSSED)):
        ways = [list(_choices(item, ratio, share * width(item), upright=upright, more=more)) for item in items]
        choices = islice(_choose(ways, tight=tight), MOST)
        laid = [places for choice in choices if (places := _rows(choice, tight=tight)) is not None]
        if laid:
            return min(laid, key=_cost)
    raise NoRoomError


def _choose(ways: Sequence[Sequence[Place]], *, tight: bool) -> Iterator[list[Place]]:
    """Choose a way for each item, leaving out those that would each have to be nearer than the other."""
    if not ways:
        yield []
        return
    for before in _choose(ways[:-1], tight=tight):
        for place in ways[-1]:
            if not tight or not any(_covers(place, other) and _covers(other, place) for other in before):
                yield [*before, place]


def _cost(places: Sequence[Place]) -> tuple[float, ...]:
    """Paper that the rows take: how many, how far from end to end, and how high the texts stand."""
    if not places:
        return (0.0,)
    ends = [v for place in places for v in place.taken]
    rows = [place.row for place in places]
    return max(rows) * 8 + (max(ends) - min(ends)) / 4, sum(rows)


def _rows(choice: Sequence[Place], *, tight: bool) -> list[Place] | None:
    """Row of each item, those that must be nearer first; None where they must each be nearer than the other."""
    nearer = [
        {m for m, other in enumerate(choice) if tight and m != n and _covers(one, other)}
        for n, one in enumerate(choice)
    ]
    rows: dict[int, int] = {}
    while len(rows) < len(choice):
        ready = [n for n in range(len(choice)) if n not in rows and nearer[n] <= rows.keys()]
        if not ready:
            return None
        n = ready[0]
        row = max((rows[m] + 1 for m in nearer[n]), default=0)
        while any(rows[m] == row and _overlap(choice[n], choice[m]) for m in rows):
            row += 1
        rows[n] = row
    return [Place(rows[n], place.text, place.taken, place.legs) for n, place in enumerate(choice)]


def _covers(one: Place, other: Place) -> bool:
    """Whether a leg of another item would run through this one's text, were it further out."""
    return any(one.text[0] - APART < leg < one.text[1] + APART for leg in other.legs)


def _overlap(one: Place, other: Place) -> bool:
    """Whether two items can't share a row."""
    return one.taken[0] < other.taken[1] - 0.01 and other.taken[0] < one.taken[1] - 0.01


def along(item: Item, *, upright: bool) -> tuple[float, ...]:
    """Where an item's legs stand, in mm of the part."""
    if isinstance(item, Length):
        axis = 1 if upright else 0
        return tuple(sorted((item.start[axis], item.end[axis])))
    return (item.at[0],) if isinstance(item, Pointer) else (item.x,)


def width(item: Item) -> float:
    """Width of an item's text, with its symbol [mm]."""
    more = SYMBOL if isinstance(item, Pointer) and item.texture else 0.0
    return text_width(plain(item.text), TEXT) + more


def _choices(item: Item, ratio: float, wide: float, *, upright: bool, more: bool) -> Iterator[Place]:
    """Ways to place the text of an item, the best first; with `more`, also off the middle of a dimension line."""
    legs = tuple(v * ratio for v in along(item, upright=upright))
    if not isinstance(item, Length):
        (leg,) = legs
        for low, high in ((leg + 1, leg + 1 + wide), (leg - 1 - wide, leg - 1)):
            yield Place(0, (low, high), (min(leg, low) - APART, max(leg, high) + APART), legs)
        return
    low, high = legs
    stub = 2 * ARROW if high - low < 2 * ARROW + 1 else 0.0  # arrows from outside
    if wide + 2 <= high - low and not stub:
        room = (high - low - wide) / 2 - ARROW - 1
        for shift in (0.0, room, -room) if more and room > 0 else (0.0,):
            middle = (low + high) / 2 + shift
            yield Place(0, (middle - wide / 2, middle + wide / 2), (low, high), legs)
        if not more:
            return
    for gap in (stub or 1.0, 12.0, 24.0)[: 3 if more else 1]:
        yield Place(0, (high + gap, high + gap + wide), (low - stub, high + gap + wide + APART), legs)
        yield Place(0, (low - gap - wide, low - gap), (low - gap - wide - APART, high + stub), legs)
