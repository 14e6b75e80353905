"""What small drawings are drawn with: lines, metal that is cut, dimensions; shown as SVG in a page, or put on paper."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import pairwise
from math import cos, hypot, radians, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

Point = tuple[float, float]
WIDE, HIGH = 320.0, 200.0
"""of every drawing, in its own units; Y upwards"""
LETTERS = 15.0  # height of a line of text
WIDTH = 0.7  # of a letter at most, over that: of the widest bold face that browsers have here
EDGE, THIN, MARKED = 1.8, 0.8, 2.0  # width of lines
HATCH = 6.0  # between lines
HEAD = 8.0  # length of an arrow
DASHES = {"dash": (6.0, 4.0), "centre": (14.0, 3.0, 2.0, 3.0)}
LARGEST, SMALLEST = 1.35, 0.5  # times, of a drawing that is fitted
FINE = 6  # deg, from corner to corner of a circle


@dataclass(frozen=True)
class Stroke:
    """A line from point to point."""

    points: tuple[Point, ...]
    width: float
    marked: bool = False


@dataclass(frozen=True)
class Arrow:
    """A filled triangle, its point first."""

    points: tuple[Point, Point, Point]


@dataclass(frozen=True)
class Label:
    """A word, the middle of its height at the point; `share` of its width stands to the left of that."""

    text: str
    at: Point
    share: float
    marked: bool = True


@dataclass
class Ink:
    """A drawing as far as it is drawn."""

    marks: Mapping[str, str]
    """dimension that is shown -> its figure"""
    drawn: list[Stroke | Arrow | Label] = field(default_factory=list)

    def line(self, *points: Point, kind: str = "edge", close: bool = False) -> None:
        """Draw a line: an edge, thin, a dash for what is hidden, or a centre line."""
        points = (*points, points[0]) if close else points
        width = EDGE if kind == "edge" else THIN
        pieces = dashed(points, DASHES[kind]) if kind in DASHES else [points]
        self.drawn += [Stroke(tuple(piece), width) for piece in pieces]

    def circle(self, x: float, y: float, radius: float, kind: str = "edge") -> None:
        """Draw a circle."""
        self.line(*arc((x, y), radius, 0, 360), kind=kind)

    def metal(self, *points: Point) -> None:
        """Draw metal that is cut: its edge, and hatched."""
        self.line(*points, close=True)
        self.drawn += [Stroke(ends, THIN / 2) for ends in hatched(points)]

    def word(self, text: str, x: float, y: float, share: float = 0.5) -> None:
        """Write what is no dimension."""
        self.drawn.append(Label(text, (x, y), share, marked=False))

    def between(self, name: str, start: Point, end: Point, off: float = 0.0) -> None:
        """Mark a dimension from point to point, so far off to the left of its way; its figure outside."""
        if name not in self.marks:
            return
        (x0, y0), (x1, y1) = start, end
        far = hypot(x1 - x0, y1 - y0)
        if far < EDGE:
            return  # nothing to see
        along, aside = ((x1 - x0) / far, (y1 - y0) / far), ((y0 - y1) / far, (x1 - x0) / far)
        a, b = _moved(start, aside, off), _moved(end, aside, off)
        if off:
            self.drawn += [Stroke((p, _moved(p, aside, off + 4 * (1 if off > 0 else -1))), THIN) for p in (start, end)]
        outside = far < 3 * HEAD
        tails = (_moved(a, along, -2 * HEAD), _moved(b, along, 2 * HEAD)) if outside else (a, b)
        self._arrowed(a, b, tails, outside=outside)
        way, upright = 1 if off >= 0 else -1, abs(along[1]) > abs(along[0])
        middle = _moved(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), aside, way * (LETTERS * 0.75))
        share = (0.0 if aside[0] * way > 0 else 1.0) if upright else 0.5
        if outside and not off:
            middle, share = _moved(tails[1], along, LETTERS * 0.6), 0.5 if upright else 0.0
        self.drawn.append(Label(self.marks[name], middle, share))

    def lead(self, name: str, at: Point, text: Point) -> None:
        """Mark a place by an arrow from its figure."""
        if name not in self.marks:
            return
        far = max(hypot(at[0] - text[0], at[1] - text[1]), 1e-9)
        along = ((at[0] - text[0]) / far, (at[1] - text[1]) / far)
        self.drawn.append(Stroke((text, at), MARKED, marked=True))
        self.drawn.append(_head(at, along))
        right = text[0] > at[0]
        self.drawn.append(Label(self.marks[name], (text[0] + (4 if right else -4), text[1]), 0.0 if right else 1.0))

    def across(self, name: str, centre: Point, radius: float, turned: float = 0.0) -> None:
        """Mark the diameter of a circle, its figure beyond it."""
        if name not in self.marks:
            return
        along = (cos(radians(turned)), sin(radians(turned)))
        a, b = _moved(centre, along, -radius), _moved(centre, along, radius)
        tail = _moved(centre, along, radius + 16)
        self._arrowed(a, b, (a, tail), outside=False)
        right = along[0] >= 0
        self.drawn.append(Label(self.marks[name], (tail[0] + (4 if right else -4), tail[1]), 0.0 if right else 1.0))

    def _arrowed(self, a: Point, b: Point, tails: tuple[Point, Point], *, outside: bool) -> None:
        """Draw a line with arrows at two of its points, which look at each other from outside where it is short."""
        far = max(hypot(b[0] - a[0], b[1] - a[1]), 1e-9)
        along = ((b[0] - a[0]) / far, (b[1] - a[1]) / far)
        back = (-along[0], -along[1])
        self.drawn.append(Stroke(tails, MARKED, marked=True))
        self.drawn += [_head(a, along if outside else back), _head(b, back if outside else along)]


def arc(centre: Point, radius: float, start: float, end: float) -> list[Point]:
    """Points along an arc, anticlockwise [deg]."""
    steps = max(2, int(abs(end - start) / FINE))
    turns = [radians(start + (end - start) * n / steps) for n in range(steps + 1)]
    return [(centre[0] + radius * cos(t), centre[1] + radius * sin(t)) for t in turns]


def _moved(point: Point, way: Point, far: float) -> Point:
    return point[0] + way[0] * far, point[1] + way[1] * far


def _head(tip: Point, along: Point) -> Arrow:
    foot, half = _moved(tip, along, -HEAD), (-along[1] * HEAD / 4, along[0] * HEAD / 4)
    return Arrow((tip, _moved(foot, half, 1), _moved(foot, half, -1)))


def dashed(points: Sequence[Point], pattern: Sequence[float]) -> Iterator[list[Point]]:
    """Cut a line into dashes.

    >>> list(dashed([(0, 0), (10, 0)], (6, 4)))
    [[(0, 0), (6.0, 0.0)]]
    """
    number, left, piece = 0, pattern[0], [points[0]]
    for a, b in pairwise(points):
        far, done = hypot(b[0] - a[0], b[1] - a[1]), 0.0
        while far - done > left:
            done += left
            here = (a[0] + (b[0] - a[0]) * done / far, a[1] + (b[1] - a[1]) * done / far)
            if number % 2 == 0:
                yield [*piece, here]
            number, piece = number + 1, [here]
            left = pattern[number % len(pattern)]
        left -= far - done
        piece.append(b)
    if number % 2 == 0 and len(piece) > 1:
        yield piece


def hatched(corners: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    """Lines at 45 degrees inside a polygon.

    >>> [len(list(hatched([(0, 0), (side, 0), (side, side), (0, side)]))) for side in (6, 60)]
    [2, 20]
    """
    sums = [x - y for x, y in corners]
    level = HATCH * (int(min(sums) / HATCH) - 1)
    while (level := level + HATCH) < max(sums):
        hits = sorted(_crossings(corners, level))
        yield from zip(hits[::2], hits[1::2], strict=False)


def _crossings(corners: Sequence[Point], level: float) -> Iterator[Point]:
    """Where the line x - y = level crosses a polygon's sides."""
    for (x0, y0), (x1, y1) in zip(corners, [*corners[1:], corners[0]], strict=True):
        a, b = x0 - y0 - level, x1 - y1 - level
        if (a > 0) != (b > 0):
            share = a / (a - b)
            yield x0 + (x1 - x0) * share, y0 + (y1 - y0) * share


def fitted(ink: Ink) -> list[Stroke | Arrow | Label]:
    """A drawing moved and scaled to fill its frame with all its letters inside; these keep their height."""
    times = LARGEST
    while times > SMALLEST and not _fits(ink, times):
        times *= 0.97
    left, low, right, high = _bounds(ink, times)
    dx, dy = (WIDE - left - right) / 2, (HIGH - low - high) / 2

    def to(point: Point) -> Point:
        return point[0] * times + dx, point[1] * times + dy

    return [_placed(one, to) for one in ink.drawn]


def _placed(one: Stroke | Arrow | Label, to: Callable[[Point], Point]) -> Stroke | Arrow | Label:
    if isinstance(one, Label):
        return replace(one, at=to(one.at))
    if isinstance(one, Arrow):
        return Arrow((to(one.points[0]), to(one.points[1]), to(one.points[2])))
    return replace(one, points=tuple(map(to, one.points)))


def _fits(ink: Ink, times: float) -> bool:
    left, low, right, high = _bounds(ink, times)
    return right - left <= WIDE - 2 * EDGE and high - low <= HIGH - 2 * EDGE


def _bounds(ink: Ink, times: float) -> tuple[float, float, float, float]:
    """Left, low, right, high of a drawing so many times as large, its letters as they are."""
    labels = [one for one in ink.drawn if isinstance(one, Label)]
    points = [p for one in ink.drawn if not isinstance(one, Label) for p in one.points]
    half = LETTERS / 2 / times
    wide = [(one.at, len(one.text) * LETTERS * WIDTH / times, one.share) for one in labels]
    xs = [p[0] for p in points] + [x + w * (end - share) for (x, _), w, share in wide for end in (0, 1)]
    ys = [p[1] for p in points] + [y + way * half for (_, y), _, _ in wide for way in (-1, 1)]
    return min(xs) * times, min(ys) * times, max(xs) * times, max(ys) * times


def svg(ink: Ink, says: str) -> str:
    """Return a drawing as SVG inside a page, in the page's own colour; what is marked is of the class `marked`."""
    from parts.writers import svg_marks

    drawn = fitted(ink)
    plain = "".join(_element(one) for one in drawn if not _marked(one))
    marked = "".join(_element(one) for one in drawn if _marked(one))
    group = f'<g class="marked">{marked}</g>'
    box = (f"{v:g}" for v in (0, 0, WIDE, HIGH))
    return svg_marks.inline("picture", box, says, [plain, group])


def _marked(one: Stroke | Arrow | Label) -> bool:
    return isinstance(one, Arrow) or one.marked


def _element(one: Stroke | Arrow | Label) -> str:
    from html import escape

    if isinstance(one, Label):
        anchor = {0.0: "start", 0.5: "middle", 1.0: "end"}[one.share]
        place = f'x="{one.at[0]:.1f}" y="{HIGH - one.at[1] + LETTERS * 0.34:.1f}"'
        weight = ' font-weight="600"' if one.marked else ""
        look = f'font-size="{LETTERS:g}"{weight} text-anchor="{anchor}" fill="currentColor"'
        return f"<text {place} {look}>{escape(one.text)}</text>"
    data = "M" + "L".join(f"{x:.1f} {HIGH - y:.1f}" for x, y in one.points)
    if isinstance(one, Arrow):
        return f'<path d="{data}Z" fill="currentColor"/>'
    return f'<path d="{data}" fill="none" stroke="currentColor" stroke-width="{one.width:g}" stroke-linejoin="round"/>'
