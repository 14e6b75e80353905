"""Templates at 1:1 on paper: on one sheet where the part fits, else on several that are laid over each other."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from parts.sheets.drawing.furniture import LEAST, LINE, bar
from parts.sheets.drawing.sheet import PAPER, SMALL, TEXT, Sheet
from parts.units import INCH
from parts.writers.fonts import plain, wrapped
from parts.writers.marks import Page, Shared, marks_of
from parts.writers.pdf import write_pdf
from parts.writers.svg import write_svg

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from parts.geometry.edge import Point
    from parts.writers.marks import Mark

MARGIN = 8.0  # mm that printers leave white, and a little
STRIP = 14.0  # mm on the left, for the upright bars
FOOT = 38.0  # mm below, for words and the level bars
AROUND = 4.0  # mm of white round the part
OVERLAP = 16.0  # mm that two sheets share
NOTES = 16.0  # mm from the first line of the notes to the last
LAID = "Lay the sheets over each other so that the diamonds meet, and glue them."
DIAMOND, ARM = 3.0, 5.0  # mm, of a register mark: nothing that could be taken for a hole


@dataclass(frozen=True)
class Template:
    """What is drawn at 1:1; sizes in mm, about the centre of the bore."""

    title: str
    notes: Sequence[str]
    box: tuple[float, float, float, float]
    """left, low, right, high"""
    draw: Callable[[Sheet, Point], None]
    """onto a sheet, its origin at a point of the paper"""


@dataclass(frozen=True)
class Tiling:
    """How a template is spread over sheets: paper, number of columns and rows, and the window of each [mm]."""

    width: float
    height: float
    columns: int
    rows: int
    left: float
    low: float

    @property
    def window(self) -> tuple[float, float, float, float]:
        """Where the part shows on a sheet: left, low, right, high."""
        return window(self.width, self.height)

    def origin(self, column: int, row: int) -> Point:
        """Where the bore's centre lies on the paper of a tile, often beside it."""
        left, low, right, high = self.window
        return (
            left - self.left - column * (right - left - OVERLAP),
            low - self.low - row * (high - low - OVERLAP),
        )

    def marks(self) -> list[Point]:
        """Register marks, about the centre of the bore: in the middle of what two neighbours share."""
        left, low, right, high = self.window
        wide, tall = right - left - OVERLAP, high - low - OVERLAP
        upright = [
            (self.left + n * wide + OVERLAP / 2, self.low + m * tall + OVERLAP + share * (tall - OVERLAP))
            for n in range(1, self.columns) for m in range(self.rows) for share in (0.15, 0.85)
        ]  # fmt: skip
        level = [
            (self.left + n * wide + OVERLAP + share * (wide - OVERLAP), self.low + m * tall + OVERLAP / 2)
            for n in range(self.columns) for m in range(1, self.rows) for share in (0.15, 0.85)
        ]  # fmt: skip
        return upright + level


def window(width: float, height: float) -> tuple[float, float, float, float]:
    """Where the part shows on a sheet: left, low, right, high [mm]."""
    return MARGIN + STRIP, MARGIN + FOOT, width - MARGIN, height - MARGIN


def tiling(box: tuple[float, float, float, float], paper: str) -> Tiling:
    """Choose the paper's way round that takes the fewest sheets, upright where both take as many."""
    long, short = PAPER[paper]
    return min((_spread(box, *size) for size in ((short, long), (long, short))), key=lambda t: t.columns * t.rows)


def _spread(box: tuple[float, float, float, float], width: float, height: float) -> Tiling:
    left, low, right, high = window(width, height)
    counts = []
    for size, room in ((box[2] - box[0], right - left), (box[3] - box[1], high - low)):
        size += 2 * AROUND  # noqa: PLW2901
        counts.append(1 if size <= room else ceil((size - OVERLAP) / (room - OVERLAP)))
    columns, rows = counts
    wide, tall = columns * (right - left - OVERLAP) + OVERLAP, rows * (high - low - OVERLAP) + OVERLAP
    return Tiling(width, height, columns, rows, (box[0] + box[2] - wide) / 2, (box[1] + box[3] - tall) / 2)


def write_template(template: Template, base: Path, paper: str) -> list[tuple[Path, str]]:
    """Write a template as PDF, tiled where it must be, and as SVG on one sheet as large as it needs."""
    tiles = tiling(template.box, paper)
    pdf, svg = base.with_suffix(".pdf"), base.with_suffix(".svg")
    write_pdf(pages(template, tiles), pdf, template.title)
    write_svg(whole(template, tiles), svg, template.title, " ".join(template.notes))
    return [(pdf, "template"), (svg, "template")]


def pages(template: Template, tiles: Tiling) -> list[Page]:
    """Return every sheet, row by row from the top, each row from the left."""
    count = tiles.columns * tiles.rows
    part, blank = _part(template, tiles), Sheet(tiles.width, tiles.height, 1.0)
    _furniture(blank, template, many=count > 1)
    furniture = marks_of(blank.document, 1.0)
    places = [(column, row) for row in reversed(range(tiles.rows)) for column in range(tiles.columns)]
    out: list[Page] = []
    for n, place in enumerate(places, 1):
        sheet = Sheet(tiles.width, tiles.height, 1.0)
        _number(sheet, n, count)
        shared = [Shared(part, *tiles.origin(*place), tiles.window), Shared(furniture)]
        out.append(Page(tiles.width, tiles.height, marks_of(sheet.document, 1.0), shared))
    return out


def _part(template: Template, tiles: Tiling) -> list[Mark]:
    """The part with its register marks, about the centre of the bore."""
    sheet = Sheet(tiles.width, tiles.height, 1.0)
    template.draw(sheet, (0.0, 0.0))
    for x, y in tiles.marks():
        sheet.path([(x + DIAMOND, y), (x, y + DIAMOND), (x - DIAMOND, y), (x, y - DIAMOND)], "CUT", close=True)
        sheet.line(x - ARM, y, x + ARM, y, "CUT")
        sheet.line(x, y - ARM, x, y + ARM, "CUT")
    return marks_of(sheet.document, 1.0)


def whole(template: Template, tiles: Tiling) -> Page:
    """Return one sheet that holds the whole part."""
    left, low, right, high = template.box
    frame = window(0.0, 0.0)
    width = max(tiles.width, right - left + 2 * AROUND + frame[0] - frame[2])
    height = max(tiles.height, high - low + 2 * AROUND + frame[1] - frame[3])
    sheet = Sheet(width, height, 1.0)
    _furniture(sheet, template, many=False)
    _number(sheet, 1, 1)
    inner = window(width, height)
    template.draw(sheet, ((inner[0] + inner[2] - left - right) / 2, (inner[1] + inner[3] - low - high) / 2))
    return Page(width, height, marks_of(sheet.document, 1.0))


def _number(sheet: Sheet, n: int, count: int) -> None:
    sheet.text(f"Sheet {n} of {count}", window(sheet.width, sheet.height)[2], MARGIN, SMALL, align="RIGHT")


def _furniture(sheet: Sheet, template: Template, *, many: bool) -> None:
    """Draw title, notes and check bars; with several sheets, the edge of this one's window."""
    left, low, right, high = window(sheet.width, sheet.height)
    bar(sheet, left, MARGIN, 50.0, "50 mm")
    bar(sheet, left + 60, MARGIN, 2 * INCH, "2 in")
    bar(sheet, MARGIN, low, 50.0, "50 mm", upright=True)
    bar(sheet, MARGIN, low + 58, 2 * INCH, "2 in", upright=True)
    sheet.fitted(template.title, left, low - 8, right - left, TEXT)
    if many:
        sheet.rectangle(left, low, right, high, "HIDDEN")
    notes = [*template.notes, *([LAID] if many else [])]
    height, lines = _fitting([plain(note) for note in notes], right - left)
    for n, line in enumerate(lines):
        sheet.text(line, left, low - 13 - LINE * height * n, height)


def _fitting(notes: Sequence[str], wide: float) -> tuple[float, list[str]]:
    """Letters as large as all of the notes have room for over the bars, and their lines."""
    height, lines = SMALL, [line for note in notes for line in wrapped(note, SMALL, wide)]
    while LINE * height * (len(lines) - 1) > NOTES and height > LEAST:
        height = max(LEAST, height - 0.1)
        lines = [line for note in notes for line in wrapped(note, height, wide)]
    return height, lines
