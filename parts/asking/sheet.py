"""Paper of a measuring sheet: lines, words and boxes in mm, Y upwards, and small drawings put on it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from parts.asking.ink import LETTERS, Arrow, Label, fitted
from parts.writers.fonts import WIDER, plain, text_width, wrapped
from parts.writers.marks import Fill, Letters, Stroke

if TYPE_CHECKING:
    from parts.asking.ink import Ink, Point
    from parts.writers.marks import Mark, Step

LINE, FRAME = 0.18, 0.35  # mm, width of lines
SMALL, TEXT, LARGE = 1.8, 2.4, 4.0  # mm, height of capitals
LEADING = 1.7  # from line to line, over the height of capitals
TICK = 3.4  # mm, a box to tick
CAPITAL = 0.72  # of a line's height


@dataclass
class Sheet:
    """One page as far as it is written."""

    marks: list[Mark] = field(default_factory=list)

    def line(self, *points: Point, width: float = LINE, close: bool = False) -> None:
        """Draw a line from point to point."""
        self.marks.append(Stroke(_steps([*points, points[0]] if close else list(points)), width))

    def box(self, x: float, y: float, wide: float, high: float, width: float = FRAME) -> None:
        """Draw a box, its lower left corner at a point."""
        self.line((x, y), (x + wide, y), (x + wide, y + high), (x, y + high), width=width, close=True)

    def text(self, text: str, x: float, y: float, height: float = TEXT, room: float = 0.0) -> None:
        """Write a line, its foot at the point; smaller where it would be wider than its room."""
        text = plain(text.replace("^3", "³"))
        if not text:
            return
        wide = text_width(text, height) / WIDER
        height = height * room / wide if room and wide > room else height
        self.marks.append(Letters(text, round(x, 3), round(y, 3), (1.0, 0.0), round(height, 3)))

    def lines(self, text: str, x: float, top: float, wide: float, height: float) -> float:
        """Write a text over as many lines as it takes; return where the next begins."""
        for line in wrapped(plain(text), height, wide * WIDER):
            self.text(line, x, top - height, height)
            top -= LEADING * height
        return top

    def tick(self, text: str, x: float, y: float, *, on: bool = False) -> float:
        """Draw a box to tick and its word; return where the next may stand."""
        self.box(x, y, TICK, TICK)
        if on:
            self.line((x + 0.6, y + 1.6), (x + 1.4, y + 0.7), (x + 2.9, y + 2.9), width=2 * FRAME)
        self.text(text, x + TICK + 1.2, y + 0.6, SMALL + 0.2)
        return x + TICK + 4.0 + text_width(text, SMALL + 0.2) / WIDER

    def picture(self, ink: Ink, x: float, y: float, times: float) -> None:
        """Put a small drawing on the page, its lower left corner at a point."""

        def to(point: Point) -> Point:
            return x + point[0] * times, y + point[1] * times

        for one in fitted(ink):
            if isinstance(one, Label):
                height = LETTERS * CAPITAL * times
                (left, middle), wide = to(one.at), text_width(one.text, height) / WIDER
                self.text(one.text, left - one.share * wide, middle - height / 2, height)
            elif isinstance(one, Arrow):
                self.marks.append(Fill(_steps([to(p) for p in one.points])))
            else:
                self.line(*map(to, one.points), width=max(one.width * times * 0.6, LINE / 2))


def lines_of(text: str, wide: float, height: float) -> float:
    """Height that a text takes [mm]."""
    return len(wrapped(plain(text), height, wide * WIDER)) * LEADING * height


def _steps(points: list[Point]) -> tuple[Step, ...]:
    return tuple(("L" if n else "M", (round(x, 3), round(y, 3))) for n, (x, y) in enumerate(points))
