"""A drawing put together: the largest scale of ISO 5455 at which everything fits, and the files."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts.errors import BuildError
from parts.judging.limits import ISO_2768
from parts.sheets.drawing import furniture
from parts.sheets.drawing.furniture import BLOCK, MARGIN, Grid, Title
from parts.sheets.drawing.items import Care, NoRoomError
from parts.sheets.drawing.sheet import PAPER, Sheet
from parts.sheets.drawing.view import Laid, View, draw, lay
from parts.sizing.general import GENERAL
from parts.units import INCH
from parts.writers.drawing import save_drawing
from parts.writers.marks import Page, marks_of
from parts.writers.pdf import write_pdf
from parts.writers.svg import write_svg

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from parts.job import Job

SCALES = (50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05)
"""ISO 5455, the largest first"""
EDGE = 3.0  # mm between the frame and what stands in it
BESIDE = 2.0  # mm between two views
WORDS = 84.0  # mm, width of a column of words
RANGES = 3  # of the general tolerances, that the title block shows
BAND = 58.0  # mm, height of a band of words


@dataclass(frozen=True)
class Content:
    """What stands on a sheet."""

    part: str
    """in words"""
    stem: str
    material: str
    quantity: str
    views: Sequence[View]
    notes: Sequence[str]
    tables: Sequence[Grid] = ()
    wide: bool = False
    """words always below the views; else beside them where that leaves as much room"""


@dataclass(frozen=True)
class Zone:
    """A rectangle of the paper [mm]."""

    left: float
    low: float
    right: float
    high: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From low to high."""
        return self.high - self.low


def write_drawing(content: Content, job: Job, folder: Path) -> list[tuple[Path, str]]:
    """Write a part's drawing as DXF, SVG and PDF of one document."""
    scale, sheet = drawn(content, job)
    base = folder / content.stem
    title = f"{job.job.title}: {content.part}, drawing"
    dxf, svg, pdf = (base.with_suffix(ending) for ending in (".dxf", ".svg", ".pdf"))
    box = (*sheet.at(MARGIN, MARGIN), *sheet.at(sheet.width - MARGIN, sheet.height - MARGIN))  # the frame, all in it
    save_drawing(sheet.document, dxf, title, sheet.at(sheet.width, sheet.height), box)
    page = Page(sheet.width, sheet.height, marks_of(sheet.document, scale))
    write_svg(page, svg, title, f"{content.part}, {content.material}, {content.quantity}; scale {scale_name(scale)}")
    write_pdf([page], pdf, title)
    return [(dxf, "drawing"), (svg, "drawing"), (pdf, "drawing")]


def drawn(content: Content, job: Job) -> tuple[float, Sheet]:
    """Return the scale, and the sheet with everything on it."""
    width, height = PAPER[job.job.page]
    ways = [zones(width, height, wide=wide) for wide in ((True,) if content.wide else (False, True))]
    laid, scale, views, words = _laid(content, ways)
    if not laid:
        raise BuildError(f"{content.part}: no scale of ISO 5455 fits it on a sheet of {width:g} x {height:g} mm")
    sheet = Sheet(width, height, scale)
    furniture.frame(sheet)
    furniture.title_block(sheet, _title(content, job, scale))
    furniture.check_bars(sheet, MARGIN + EDGE, MARGIN + EDGE, job.job.print_units)
    _place(sheet, laid, views)
    _write(sheet, content, words, below=words.high < views.low)
    return scale, sheet


def zones(width: float, height: float, *, wide: bool) -> tuple[Zone, Zone]:
    """Return where the views stand, and where the words."""
    inner = Zone(MARGIN + EDGE, MARGIN + EDGE, width - MARGIN - EDGE, height - MARGIN - EDGE)
    top = MARGIN + BLOCK[1] + EDGE
    if wide:
        return (
            Zone(inner.left, top + BAND + EDGE, inner.right, inner.high),
            Zone(inner.left + 14, top, inner.right, top + BAND),
        )
    return (
        Zone(inner.left + 8, top + EDGE, inner.right - WORDS - EDGE, inner.high),
        Zone(inner.right - WORDS, top, inner.right, inner.high),
    )


def _laid(content: Content, ways: Sequence[tuple[Zone, Zone]]) -> tuple[list[Laid], float, Zone, Zone]:
    """The views laid out with the most care that fits, at the largest scale; it, and where views and words go."""
    for care in sorted(Care, reverse=True):
        scales = [choose(content.views, views, care) for views, _ in ways]
        scale, laid = max(scales, key=lambda one: one[0])
        if laid:
            break
    return laid, scale, *ways[scales.index((scale, laid))]


def choose(views: Sequence[View], zone: Zone, care: Care) -> tuple[float, list[Laid]]:
    """Return the largest scale at which the views fit side by side, and the views laid out at it."""
    for scale in SCALES:
        if _too_large(views, scale, zone):
            continue
        with suppress(NoRoomError):
            laid = [lay(view, scale, care) for view in views]
            if _wide(laid) <= zone.width and _high(laid) <= zone.height:
                return scale, laid
    return 0.0, []


def _too_large(views: Sequence[View], scale: float, zone: Zone) -> bool:
    """Tell at once whether the bare parts are larger than the zone, before anything is laid out round them."""
    sizes = [(view.scale or scale, view.box) for view in views]
    wide = sum(ratio * (right - left) for ratio, (left, _, right, _) in sizes)
    return wide > zone.width or any(ratio * (high - low) > zone.height for ratio, (_, low, _, high) in sizes)


def _wide(laid: Sequence[Laid]) -> float:
    return sum(one.box[2] - one.box[0] for one in laid) + BESIDE * (len(laid) - 1)


def _high(laid: Sequence[Laid]) -> float:
    return max(one.box[3] for one in laid) - min(one.box[1] for one in laid)


def _place(sheet: Sheet, laid: Sequence[Laid], zone: Zone) -> None:
    """Draw the views, spread over the zone, their axes on one line."""
    spare = (zone.width - _wide(laid)) / (len(laid) + 1)
    low, high = min(one.box[1] for one in laid), max(one.box[3] for one in laid)
    y = zone.low - low + (zone.height - (high - low)) / 2
    x = zone.left + spare
    for one in laid:
        draw(sheet, one, x - one.box[0], y)
        x += one.box[2] - one.box[0] + BESIDE + spare


def _write(sheet: Sheet, content: Content, zone: Zone, *, below: bool) -> None:
    """Write tables and notes: side by side in a band, one under the other in a column."""
    left, top = zone.left, zone.high
    for table in content.tables:
        furniture.table(sheet, left, top, table)
        if below:
            left += sum(table.widths) + 2 * EDGE
        else:
            top -= table.height + EDGE
    furniture.notes(sheet, left, top, zone.right - left, top - zone.low, content.notes)


def scale_name(scale: float) -> str:
    """Return a scale as it is written: 2:1, 1:5."""
    return f"{scale:g}:1" if scale >= 1 else f"1:{1 / scale:g}"


def _general(system: str) -> Iterator[str]:
    """General tolerances, as far as there is room."""
    for upto, half in GENERAL[:RANGES]:
        if system == "inch":
            yield "±{} to {}".format(*(f"{value / INCH:.3f}".removeprefix("0") for value in (half, upto)))
        else:
            yield f"±{half:g} to {upto:g}"


def _title(content: Content, job: Job, scale: float) -> Title:
    inch = job.job.print_units == "inch"
    return Title(
        job.job.title,
        content.part,
        content.stem,
        content.material,
        content.quantity,
        scale_name(scale),
        "inches" if inch else "mm",
        f"{ISO_2768}: {', '.join(_general(job.job.print_units))}",
        job.job.page,
    )
