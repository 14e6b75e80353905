"""What every sheet has: frame, title block after ISO 7200, the first-angle symbol, check bars, tables and notes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts.sheets.drawing.sheet import SMALL, TEXT
from parts.units import INCH
from parts.writers.fonts import plain, text_width, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.sheets.drawing.sheet import Sheet

MARGIN = 10.0  # mm of paper outside the frame
BLOCK = (170.0, 36.0)  # mm, of the title block
ROW = 6.0  # mm, of a table
LINE = 1.65  # from line to line, over the height of capitals
LEAST = 1.8  # mm, the smallest capitals that are printed


@dataclass(frozen=True)
class Title:
    """What the title block says."""

    title: str
    part: str
    number: str
    material: str
    quantity: str
    scale: str
    units: str
    tolerance: str
    page: str


@dataclass(frozen=True)
class Grid:
    """A table: its head, rows of text, and the width of its columns [mm]."""

    rows: Sequence[Sequence[str]]
    widths: Sequence[float]

    @property
    def height(self) -> float:
        """Paper that it takes [mm]."""
        return ROW * len(self.rows)


def frame(sheet: Sheet) -> tuple[float, float, float, float]:
    """Draw the frame; return left, low, right, high inside it."""
    box = (MARGIN, MARGIN, sheet.width - MARGIN, sheet.height - MARGIN)
    sheet.rectangle(*box, "FRAME")
    return box


def title_block(sheet: Sheet, title: Title) -> None:
    """Draw the title block into the frame's lower right corner."""
    right, low = sheet.width - MARGIN, MARGIN
    left, high = right - BLOCK[0], low + BLOCK[1]
    sheet.path([(left, low), (left, high), (right, high)], "FRAME")
    rows = [
        (("Title", title.title, 132.0, 3.5), ("Sheet", f"1/1, {title.page}", 38.0, SMALL)),
        (("Part", title.part, 92.0, 4.2), ("Drawing", title.number, 78.0, TEXT)),
        (
            ("Material", title.material, 92.0, TEXT),
            ("Quantity", title.quantity, 40.0, TEXT),
            ("Units", title.units, 38.0, TEXT),
        ),
        (
            ("Tolerances not shown", title.tolerance, 112.0, SMALL),
            ("Scale", title.scale, 20.0, 4.2),
            ("Projection", "", 38.0, SMALL),
        ),
    ]
    step = BLOCK[1] / len(rows)
    for n, row in enumerate(rows):
        if n:
            sheet.line(left, high - step * n, right, high - step * n, "FRAME THIN")
        _cells(sheet, left, high - step * (n + 1), step, row)
    first_angle(sheet, right - 13, low + step / 2)


def _cells(sheet: Sheet, x: float, y: float, high: float, row: Sequence[tuple[str, str, float, float]]) -> None:
    """Write a row of the title block: label, value, width and height of the letters of each cell."""
    for n, (label, value, width, height) in enumerate(row):
        if n:
            sheet.line(x, y, x, y + high, "FRAME THIN")
        sheet.text(label, x + 1.2, y + high - 2.5, LEAST - 0.2)
        sheet.fitted(value, x + 1.2, y + 1.2, width - 2.4, height)
        x += width


def first_angle(sheet: Sheet, x: float, y: float, size: float = 5.6) -> None:
    """Draw the symbol of first-angle projection (ISO 5456-2): the cone, and to its right its view from the left."""
    half, small = size / 2, size / 4
    cone = x - 1.4 * size
    sheet.path(
        [(cone, y - small), (cone, y + small), (cone + size, y + half), (cone + size, y - half)], "THIN", close=True
    )
    for radius in (small, half):
        sheet.circle(x + half, y, radius, "THIN")
    sheet.line(cone - 1, y, cone + size + 1, y, "CENTRE")
    sheet.line(x - 1, y, x + size + 1, y, "CENTRE")
    sheet.line(x + half, y - half - 0.8, x + half, y + half + 0.8, "CENTRE")


def check_bars(sheet: Sheet, x: float, y: float, system: str) -> None:
    """Draw a level and an upright bar to lay a rule on, their corner at a point."""
    length, label = (2 * INCH, "2 in") if system == "inch" else (50.0, "50 mm")
    bar(sheet, x + 4, y, length, label)
    bar(sheet, x, y + 4, length, label, upright=True)
    for n, line in enumerate((f"Both bars measure {label}", "on a print at 100 %.")):
        sheet.text(line, x + 8, y + 16 - 4 * n, SMALL - 0.3)


def bar(sheet: Sheet, x: float, y: float, length: float, label: str, *, upright: bool = False) -> None:
    """Draw a black bar of a known length, its label beside it."""
    if upright:
        sheet.black(x, y, x + 1.2, y + length)
        sheet.text(label, x + 4.4, y + length / 2, SMALL, align="CENTER", turned=90)
    else:
        sheet.black(x, y, x + length, y + 1.2)
        sheet.text(label, x + length / 2, y + 2.2, SMALL, align="CENTER")


def table(sheet: Sheet, x: float, top: float, content: Grid) -> None:
    """Draw a table, its upper left corner at a point; the first row is its head."""
    right = x + sum(content.widths)
    sheet.rectangle(x, top - content.height, right, top, "FRAME THIN")
    for n, row in enumerate(content.rows):
        y = top - ROW * (n + 1)
        if n:
            sheet.line(x, y + ROW, right, y + ROW, "FRAME THIN")
        at = x
        for m, (cell, width) in enumerate(zip(row, content.widths, strict=True)):
            if m:
                sheet.line(at, y, at, y + ROW, "FRAME THIN")
            sheet.fitted(cell, at + 1.2, y + 1.7, width - 2.4, 2.8)
            at += width


def notes(sheet: Sheet, x: float, top: float, width: float, height: float, says: Sequence[str]) -> None:
    """Write notes, each beginning on a line of its own, as large as the room allows; what has no room is told."""
    size, lines = set_notes(width, height, says)
    for n, (indent, line) in enumerate(lines):
        sheet.text(line, x + indent, top - size - LINE * size * n, size)


def set_notes(width: float, height: float, says: Sequence[str]) -> tuple[float, list[tuple[float, str]]]:
    """Choose the size of numbered notes, and break them into lines, each with its indent [mm]."""
    for size in (3.0, 2.8, SMALL, 2.3, 2.1, 2.0, 1.9, LEAST):
        lines = [line for n, note in enumerate(says, 1) for line in _note(f"{n}. ", note, size, width)]
        if LINE * size * (len(lines) - 1) + 1.4 * size <= height:
            return size, lines
    room = int((height - 1.4 * LEAST) / (LINE * LEAST))
    return LEAST, [*lines[:room], (0.0, "More notes on the job sheet.")]


def _note(head: str, note: str, size: float, width: float) -> list[tuple[float, str]]:
    """Break one note into lines, hanging from its number."""
    indent = text_width("00. " if len(head) > 3 else "0. ", size)  # noqa: PLR2004 - two figures, a stop, a space
    first, *others = wrapped(plain(note), size, width - indent)
    return [(0.0, head + first), *((indent, line) for line in others)]
