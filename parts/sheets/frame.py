"""The sheet that a gasket is laid on to be scanned or photographed: rings of known places round an empty field."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from parts.sheets.drawing.sheet import PAPER, SMALL, TEXT, Sheet
from parts.writers.fonts import plain, wrapped
from parts.writers.marks import Mark, Page, Step, Stroke, marks_of
from parts.writers.pdf import write_pdf

if TYPE_CHECKING:
    from pathlib import Path

    from parts.geometry.edge import Point

EDGE = 12.0  # mm from the paper's edge to the middle of the outer rings: printers leave some 5 mm white
SPANS = {"A4": (186.0, 273.0), "Letter": (191.9, 255.4)}
"""paper -> the two lengths to measure, across and along [mm]"""
RING, BAND = 4.0, 2.0  # mm, outer radius of a ring and the width of its line
SIDES = {  # paper -> shares of the spans along the lower, upper, left and right edge: no turn, no mirror image is alike
    "A4": ((0.0, 0.26, 0.56, 0.81, 1.0), (0.0, 0.32, 0.50, 0.72, 1.0), (0.27, 0.48, 0.75), (0.21, 0.55, 0.83)),
    "Letter": ((0.0, 0.17, 0.40, 0.66, 1.0), (0.0, 0.40, 0.63, 0.86, 1.0), (0.18, 0.62, 0.82), (0.36, 0.47, 0.70)),
}
CROSS, ARM, THICK = (0.11, 1.0), 4.0, 1.6
"""where the cross stands, half its width and the width of its lines [mm]: it shows which way up the sheet is"""
FIELD = (19.0, 34.0, 12.0, 18.0)  # mm that the field stays inside the rings: left, below, right, above
KAPPA = 0.5522847498307936  # of the radius: a quarter of a circle as a curve with two control points
WORDS = (
    "Print at 100 %, not fitted to the page. Measure both lengths with callipers or a steel rule, from tick to tick, "
    "and give what you read to topend trace. Lay the gasket flat inside the rings, or rub the face onto the field and "
    "fill it in with black ink. Scan it, or photograph it from straight above, half a metre away or more, every ring "
    "in sight, no flash."
)


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands on the sheet, X to the right and Y up from the paper's lower left corner [mm]."""

    paper: str

    @property
    def size(self) -> Point:
        """Width and height of the paper, upright."""
        height, width = PAPER[self.paper]
        return width, height

    @property
    def spans(self) -> Point:
        """The two lengths to measure."""
        return SPANS[self.paper]

    def at(self, x: float, y: float) -> Point:
        """Place of a share of both spans."""
        return EDGE + x * self.spans[0], EDGE + y * self.spans[1]

    @property
    def rings(self) -> list[Point]:
        """Middles of the rings."""
        low, high, left, right = SIDES[self.paper]
        level = [self.at(x, y) for y, shares in ((0.0, low), (1.0, high)) for x in shares]
        return level + [self.at(x, y) for x, shares in ((0.0, left), (1.0, right)) for y in shares]

    @property
    def field(self) -> tuple[float, float, float, float]:
        """Left, low, right, high of the empty field."""
        (left, low), (right, high) = self.at(0.0, 0.0), self.at(1.0, 1.0)
        return left + FIELD[0], low + FIELD[1], right - FIELD[2], high - FIELD[3]


def write_frame(path: Path, paper: str) -> None:
    """Write the sheet as PDF at 1:1."""
    frame = Frame(paper)
    sheet = Sheet(*frame.size, 1.0)
    _lengths(sheet, frame)
    left, low, right, _ = frame.field
    sheet.fitted("Frame for topend trace", left, low - 6, right - left, TEXT)
    for n, line in enumerate(wrapped(plain(WORDS), SMALL, right - left)):
        sheet.text(line, left, low - 11 - 4.0 * n, SMALL)
    marks: list[Mark] = [_ring(x, y, RING - BAND / 2, BAND) for x, y in frame.rings]
    write_pdf(
        [Page(*frame.size, [*marks, *_cross(frame), *marks_of(sheet.document, 1.0)])], path, "Frame for topend trace"
    )


def _lengths(sheet: Sheet, frame: Frame) -> None:
    """Draw both lengths, with a tick at each end."""
    (left, low), (right, high) = frame.at(0.0, 0.0), frame.at(1.0, 1.0)
    level, upright = high - 11.0, left + 10.0
    sheet.line(left, level, right, level, "THIN")
    sheet.line(upright, low, upright, high, "THIN")
    for x in (left, right):
        sheet.line(x, level - 2.5, x, level + 2.5, "THIN")
    for y in (low, high):
        sheet.line(upright - 2.5, y, upright + 2.5, y, "THIN")
    across, along = frame.spans
    sheet.text(f"across {across:.1f} mm", (left + right) / 2, level + 1.5, SMALL, align="CENTER")
    sheet.text(f"along {along:.1f} mm", upright - 1.5, (low + high) / 2, SMALL, align="CENTER", turned=90)


def _ring(x: float, y: float, radius: float, width: float) -> Stroke:
    """A circle as a broad line."""
    way = [(1, 0), (0, 1), (-1, 0), (0, -1), (1, 0)]
    steps: list[Step] = [("M", (x + radius, y))]
    for (ax, ay), (bx, by) in pairwise(way):
        first = (x + radius * (ax + KAPPA * bx), y + radius * (ay + KAPPA * by))
        second = (x + radius * (bx + KAPPA * ax), y + radius * (by + KAPPA * ay))
        steps.append(("C", (*first, *second, x + radius * bx, y + radius * by)))
    return Stroke(tuple(steps), width)


def _cross(frame: Frame) -> list[Mark]:
    x, y = frame.at(*CROSS)
    lines = (((x - ARM, y), (x + ARM, y)), ((x, y - ARM), (x, y + ARM)))
    return [Stroke((("M", a), ("L", b)), THICK) for a, b in lines]
