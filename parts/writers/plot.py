"""A plot as lines, areas and words on paper: x to the right, y down, in dots of the picture. Knows no file format."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import floor, log10
from typing import Literal, TypeAlias

Point: TypeAlias = tuple[float, float]
Anchor: TypeAlias = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Polyline:
    """A line through points."""

    points: tuple[Point, ...]
    width: float
    color: str
    """#rrggbb"""
    dash: tuple[float, float] | None = None
    """drawn, left out"""


@dataclass(frozen=True, slots=True)
class Area:
    """A filled area."""

    points: tuple[Point, ...]
    color: str


@dataclass(frozen=True, slots=True)
class Label:
    """A line of text; its foot at (x, y)."""

    text: str
    x: float
    y: float
    size: float
    color: str
    anchor: Anchor = "start"
    upright: bool = False
    """runs upwards"""


Mark: TypeAlias = Polyline | Area | Label


@dataclass
class Picture:
    """One plot, with what a screen reader says of it."""

    width: float
    height: float
    title: str
    note: str
    marks: list[Mark] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Scale:
    """From a value to a place: `low` at `start`, `high` at `end`."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Place of a value; one off the scale lies on its end.

        >>> Scale(0, 10, 100, 200).at(2.5), Scale(0, 10, 100, 200).at(12)
        (125.0, 200.0)
        """
        share = (min(max(value, self.low), self.high) - self.low) / (self.high - self.low)
        return self.start + share * (self.end - self.start)


def nice_step(span: float, most: int) -> float:
    """Step of 1, 2 or 5 times a power of ten that divides a span into no more than `most` parts.

    >>> nice_step(1.7, 4), nice_step(45, 5), nice_step(6, 6)
    (0.5, 10.0, 1.0)
    """
    power = 10.0 ** floor(log10(span / most))
    for step in (1, 2, 5, 10):
        if span / (step * power) <= most * (1 + 1e-9):
            break
    return step * power


def steps(low: float, high: float, step: float) -> list[float]:
    """Values from low to high, both among them where they are multiples.

    >>> steps(0, 1, 0.25)
    [0.0, 0.25, 0.5, 0.75, 1.0]
    """
    first, last = round(low / step), floor(high / step + 1e-9)
    return [n * step + 0.0 for n in range(first, last + 1)]
