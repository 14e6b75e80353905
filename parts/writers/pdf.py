"""PDF: pages at 1:1, the same bytes each time, to be printed without fitting them to the paper."""

from __future__ import annotations

import os
import re
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from parts.errors import WriteError
from parts.writers import writing
from parts.writers.fonts import FILE, capital, plain
from parts.writers.marks import Letters, Stroke

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

    from parts.writers.marks import Mark, Page

POINT = 72 / 25.4  # points in a mm
BOX = re.compile(rb"/MediaBox \[\s*0 0 ([0-9.]+) ([0-9.]+)\s*\]")
CLOSE = 0.01  # mm, of a page's side read back
REACH = 5000 * POINT  # what is shared lies within this of its origin


def write_pdf(pages: Sequence[Page], path: Path, title: str) -> None:
    """Write pages [mm], each on paper of its own size.

    Uncompressed: what a compressor gives differs from machine to machine. WriteError unless the pages read back with
    their sizes.
    """
    with writing(path), own_date():
        if FILE.stem not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(TTFont(FILE.stem, str(FILE)))
        canvas = Canvas(str(path), invariant=1, pageCompression=0, initialFontName=FILE.stem)  # else it lists its own
        canvas.setTitle(plain(title))
        for entry in (canvas.setAuthor, canvas.setCreator, canvas.setProducer, canvas.setSubject):
            entry("topend")
        canvas.setViewerPreference("PrintScaling", "None")
        forms = _forms(canvas, pages)
        for page in pages:
            _page(canvas, page, forms)
        canvas.save()
        _check(path, pages)


@contextmanager
def own_date() -> Iterator[None]:
    """Keep a build's date out of the files: the library takes it before the fixed one that it is told."""
    kept = os.environ.pop("SOURCE_DATE_EPOCH", None)
    try:
        yield
    finally:
        if kept is not None:
            os.environ["SOURCE_DATE_EPOCH"] = kept


def _forms(canvas: Canvas, pages: Sequence[Page]) -> dict[int, str]:
    """Write what pages share, each of it once; return the names by which it is called up."""
    shared = {id(part.marks): part.marks for page in pages for part in page.shared}
    forms = {key: f"shared{n}" for n, key in enumerate(shared)}
    for key, marks in shared.items():
        canvas.beginForm(forms[key], -REACH, -REACH, REACH, REACH)
        _draw(canvas, marks)
        canvas.endForm()
    return forms


def _page(canvas: Canvas, page: Page, forms: dict[int, str]) -> None:
    canvas.setPageSize((page.width * POINT, page.height * POINT))
    for part in page.shared:
        canvas.saveState()
        if part.window:
            left, low, right, high = (v * POINT for v in part.window)
            frame = canvas.beginPath()
            frame.rect(left, low, right - left, high - low)
            canvas.clipPath(frame, stroke=0, fill=0)
        canvas.translate(part.x * POINT, part.y * POINT)
        canvas.doForm(forms[id(part.marks)])
        canvas.restoreState()
    _draw(canvas, page.marks)
    canvas.showPage()


def _draw(canvas: Canvas, marks: Iterable[Mark]) -> None:
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    for mark in marks:
        if isinstance(mark, Letters):
            _letters(canvas, mark)
            continue
        path = canvas.beginPath()
        for kind, values in mark.steps:
            {"M": path.moveTo, "L": path.lineTo, "C": path.curveTo}[kind](*(v * POINT for v in values))
        if isinstance(mark, Stroke):
            canvas.setLineWidth(mark.width * POINT)
            canvas.drawPath(path, stroke=1, fill=0)
        else:
            canvas.drawPath(path, stroke=0, fill=1)


def _letters(canvas: Canvas, line: Letters) -> None:
    text: Any = canvas.beginText()
    a, b = line.along
    text.setTextTransform(a, b, -b, a, line.x * POINT, line.y * POINT)
    text.setFont(FILE.stem, line.height * POINT / capital())
    text.textOut(line.text)
    canvas.drawText(text)


def _check(path: Path, pages: Sequence[Page]) -> None:
    """Read the file back; WriteError where a page has another size."""
    read = [tuple(float(v) / POINT for v in box) for box in BOX.findall(path.read_bytes())]
    wanted = [(page.width, page.height) for page in pages]
    same = len(read) == len(wanted) and all(
        abs(a - b) < CLOSE for one, other in zip(read, wanted, strict=True) for a, b in zip(one, other, strict=True)
    )
    if not same:
        raise WriteError(f"{path}: written on pages of {wanted} mm, read back with {read} mm")
