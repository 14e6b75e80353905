"""The questions as a measuring sheet for the bench: drawings, boxes for a pencil, what is known filled in."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from parts.asking.cells import GAP, cells, draw_cells, height_of
from parts.asking.drawn import FAMILIES, drawing
from parts.asking.ink import HIGH, WIDE
from parts.asking.places import at
from parts.asking.questions import opened, questions
from parts.asking.sheet import LARGE, SMALL, TEXT, Sheet, lines_of
from parts.sheets.drawing.sheet import PAPER
from parts.writers.marks import Page
from parts.writers.pdf import write_pdf

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence
    from pathlib import Path

    from parts.asking.questions import Question

MARGIN, HEAD, FOOT = 10.0, 11.0, 6.0  # mm: round the page, of its head and foot
PICTURE, UNDER = 50.0, 5.5  # mm, width of a drawing, and how far it stands below what it is called
BOXES = 54.0  # mm, width of the boxes
BESIDE = 5  # questions beside one drawing
NUMBER = 6.5  # mm, room for a number
TITLE = "Measuring sheet"
NOTES = (
    "X to the right, Y up, seen from above the deck, from the centre of the bore; tick which way up the part lay. "
    "Write all readings, with their unit; leave open what is not there."
)


@dataclass(frozen=True)
class Strip:
    """A drawing with the questions beside it, each with its number."""

    family: str
    asked: Sequence[tuple[int, Question]]
    raw: Mapping[str, Any]

    @cached_property
    def rows(self) -> list[float]:
        """Height of each question [mm]."""
        return [_row_height(one, self.raw, self.words) for _, one in self.asked]

    @property
    def left(self) -> float:
        """Where the questions begin, from the margin [mm]."""
        return PICTURE + 4.0 if self.family else 0.0

    @property
    def words(self) -> float:
        """Room for the words of a question [mm]."""
        return PAPER["A4"][1] - 2 * MARGIN - BOXES - self.left - NUMBER - 2 * GAP

    @property
    def height(self) -> float:
        """Paper that it takes [mm]."""
        return max(sum(self.rows), PICTURE * HIGH / WIDE + UNDER if self.family else 0.0) + 2 * GAP


def write_form(raw: Mapping[str, Any], make: Collection[str], path: Path) -> None:
    """Write the measuring sheet as PDF, on the job's paper; WriteError where it can't be.

    Parameters
    ----------
    raw : mapping
        Data of the job file as far as it stands
    make : collection of str
        Stems of the parts that are wanted
    path : Path
        Of the PDF
    """
    paper = "Letter" if at(raw, "job.page") == "Letter" else "A4"
    high, wide = PAPER[paper]
    title = str(at(raw, "job.title") or "")
    sheets = list(_filled(strips(raw, make), wide, high))
    for number, sheet in enumerate(sheets, 1):
        _frame(sheet, title, f"{number} of {len(sheets)}", wide, high)
    write_pdf([Page(wide, high, sheet.marks) for sheet in sheets], path, f"{TITLE} {title}".strip())


def strips(raw: Mapping[str, Any], make: Collection[str]) -> list[Strip]:
    """What stands on the form: questions of one drawing together, few beside each; nothing designed, no plain yes."""
    whole = opened(raw, make)
    asked = [one for one in questions(whole, make) if not one.designed]
    asked = [one for one in asked if not any(other.key.startswith(f"{one.key}.") for other in asked)]
    families: dict[str, list[Question]] = {}
    for one in asked:
        families.setdefault(one.picture.partition(" ")[0], []).append(one)
    found, number = list[Strip](), 1
    for family, some in families.items():
        for few in _few(some):
            found.append(Strip(family, list(enumerate(few, number)), raw))
            number += len(few)
    return found


def _few(some: Sequence[Question]) -> Iterator[Sequence[Question]]:
    """So many as stand beside one drawing, as even as can be."""
    pieces = -(-len(some) // BESIDE)
    for n in range(pieces):
        yield some[n * len(some) // pieces : (n + 1) * len(some) // pieces]


def _row_height(one: Question, raw: Mapping[str, Any], wide: float) -> float:
    text = lines_of(one.asks, wide, TEXT) + lines_of(_how(one), wide, SMALL)
    return max(text, height_of(cells(one, raw))) + 1.5 * GAP


def _how(one: Question) -> str:
    return f"{one.how} ({one.why}.)" if one.why else one.how


def _filled(strips: Sequence[Strip], wide: float, high: float) -> Iterator[Sheet]:
    """Pages, filled from the top."""
    sheet, top = Sheet(), high - MARGIN - HEAD
    for strip in strips:
        if top - strip.height < MARGIN + FOOT:
            yield sheet
            sheet, top = Sheet(), high - MARGIN - HEAD
        _draw(sheet, strip, top, wide - 2 * MARGIN)
        top -= strip.height
    yield sheet


def _draw(sheet: Sheet, strip: Strip, top: float, room: float) -> None:
    """Draw a strip: its drawing on the left, beside it its questions."""
    sheet.line((MARGIN, top), (MARGIN + room, top))
    if strip.family:
        marks: dict[str, str] = {}
        for number, one in strip.asked:
            name = one.picture.partition(" ")[2]
            marks[name] = f"{marks[name]}, {number}" if name in marks else str(number)
        sheet.text(FAMILIES[strip.family][0], MARGIN, top - 4.0, SMALL)
        ink = drawing(strip.family, marks, strip.raw, strip.asked[0][1].key)
        sheet.picture(ink, MARGIN, top - UNDER - PICTURE * HIGH / WIDE, PICTURE / WIDE)
    y = top - GAP
    for (number, one), high in zip(strip.asked, strip.rows, strict=True):
        x = MARGIN + strip.left
        sheet.text(str(number), x, y - GAP - TEXT, TEXT + 0.6)
        below = sheet.lines(one.asks, x + NUMBER, y - GAP, strip.words, TEXT)
        sheet.lines(_how(one), x + NUMBER, below, strip.words, SMALL)
        draw_cells(sheet, cells(one, strip.raw), MARGIN + room - BOXES, y - GAP, BOXES)
        y -= high


def _frame(sheet: Sheet, title: str, page: str, wide: float, high: float) -> None:
    """Write head and foot of a page."""
    y = high - MARGIN - 6.0
    sheet.text(TITLE, MARGIN, y, LARGE)
    sheet.text(title, MARGIN + 52.0, y, TEXT, wide - 2 * MARGIN - 112.0)
    sheet.text("Measured by, on", wide - MARGIN - 56.0, y, SMALL)
    sheet.line((wide - MARGIN - 34.0, y - 0.6), (wide - MARGIN, y - 0.6))
    sheet.text(NOTES, MARGIN, MARGIN, SMALL, wide - 2 * MARGIN - 22.0)
    sheet.text(f"Page {page}", wide - MARGIN - 17.0, MARGIN, SMALL)
