"""The ring's drawing: the blank as parted off, its section, and the ring split and closed in the bore."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import JobError
from parts.geometry.outline import transformed
from parts.judging.limits import RING_EDGES, RING_FLAT, TO_LAP, limits_of
from parts.shapes.ring import ring_split
from parts.sheets.drawing import turned
from parts.sheets.drawing.compose import Content
from parts.sheets.drawing.items import Length, Pointer
from parts.sheets.drawing.view import View
from parts.sheets.drawing.words import LAPPED, TURNED, Figures, cautions, figures, material_name, named
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.profile import Profile
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.shapes.pieces import Flat
    from parts.sheets.drawing.pen import Pen

OVERSIZE = (
    "The blank is larger than the bore by what the saw takes beyond the gap: measure the gap in the bore, then file."
)
DETAILS = (50.0, 20.0, 10.0, 5.0, 2.0, 1.0)
DETAIL = 30.0  # mm of paper, the most of a section's sides


def ring_content(shape: Profile, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    if job.ring is None:
        raise AssertionError("asked for a ring that was not sized")
    say, split = figures(job), _split(book, job)
    views = [_blank(shape, book, say), *([_closed(split, book, say)] if split else []), _section(book, say)]
    notes = [*_notes(book, job, say), *cautions(found)]
    return Content(
        named("Piston ring", book),
        f"ring-blank{book.suffix}",
        material_name(job.ring),
        f"{job.ring.count}",
        views,
        notes,
    )


def _split(book: Book, job: Job) -> Flat | None:
    if "ring.closed_gap" not in book:
        return None
    try:
        return ring_split(book, job)
    except JobError:
        return None


def _blank(shape: Profile, book: Book, say: Figures) -> View:
    """The blank, cut along its axis."""
    outside, inside = (book[f"ring.{n}_diameter"].value for n in ("outside", "inside"))
    width = book["job.ring.axial_width"].value
    right = [
        say.across((width, -inside / 2), (width, inside / 2), f"Ø<>{say.held(book, 'ring.inside_diameter')}", inside),
        say.across(
            (width, -outside / 2), (width, outside / 2), f"Ø<>{say.held(book, 'ring.outside_diameter')}", outside
        ),
    ]

    def drawn(pen: Pen) -> None:
        turned.cut(pen, shape)
        pen.letter("A", (0.0, outside / 2), -4.0)

    return View(turned.box(shape), drawn, right=right, caption="Blank")


def _closed(split: Flat, book: Book, say: Figures) -> View:
    """The ring, split and closed in the bore, from the left, its gap on top."""
    outside, gap = book["job.engine.bore"].value / 2, book["ring.closed_gap"].value
    loop = transformed(split.sheet.outer, turned=90)

    def drawn(pen: Pen) -> None:
        pen.loop(loop)
        pen.axis((-outside, 0.0), (outside, 0.0))
        pen.axis((0.0, -outside), (0.0, outside))

    return View(
        (-outside, -outside, outside, outside),
        drawn,
        above=[Length((-gap / 2, outside), (gap / 2, outside), _gap(book, say))],
        caption="Split, closed in the bore",
    )


def _gap(book: Book, say: Figures) -> str:
    """Between what the gap comes out; below nought the ring's ends meet."""
    limits, gap = limits_of(book, "ring.closed_gap"), book["ring.closed_gap"].value
    if limits is None or limits.low is None or limits.high is None:
        return f"Gap {say.limit(gap)}"
    if limits.low < 0:
        return f"Gap at most {say.limit(limits.high)}: ends may meet"
    return f"Gap {say.limit(limits.low)} to {say.limit(limits.high)}"


def _section(book: Book, say: Figures) -> View:
    """The section, enlarged."""
    width, thick = book["job.ring.axial_width"].value, book["job.ring.radial_thickness"].value
    scale = next((s for s in DETAILS if s * max(width, thick) <= DETAIL), DETAILS[-1])
    corners = [(0.0, -thick / 2), (width, -thick / 2), (width, thick / 2), (0.0, thick / 2)]

    def drawn(pen: Pen) -> None:
        pen.path(corners, close=True)
        pen.hatch([corners])

    broad = f"<>{say.held(book, 'job.ring.axial_width')}"
    return View(
        (0.0, -thick / 2, width, thick / 2),
        drawn,
        above=[Pointer((0.6 * width, thick / 2), say.rough(TURNED), texture=True)],
        below=[say.across(corners[0], corners[1], broad, width)],
        left=[say.across((0.0, -thick / 2), (0.0, thick / 2), "(<>)", thick)],
        caption=f"Detail A, {scale:g}:1",
        scale=scale,
    )


def _notes(book: Book, job: Job, say: Figures) -> list[str]:
    unit, ring = say.unit, job.ring
    if ring is None:
        return []
    stock, edge = say.length(book["ring.stock_length"].value + ring.count * TO_LAP), say.length(RING_EDGES)
    flat = f"{say.limit(RING_FLAT)} {unit}"
    notes = [
        f"Turn and bore {ring.count} from one bar in one chucking: {stock} {unit}, beside what the chuck holds.",
        f"Part off {say.limit(TO_LAP)} {unit} too high, face side two held all round, lap both, {say.rough(LAPPED)}.",
        f"Sides flat and parallel within {flat} ({PRACTICE}). Break edges {edge} {unit} at most.",
        f"Split with a saw of {say.diameter(book['job.ring.slit'].value)} {unit}. {OVERSIZE}",
    ]
    if "ring.free_gap_inside" in book:
        notes.append(f"Free, after heat: gap {_free(book, say, 'free_gap_inside')} between the inner corners.")
    if "ring.free_width" in book:
        notes.append(f"Free width at right angles to the gap: {_free(book, say, 'free_width')}.")
    if ring.groove and "ring.side_clearance" in book:
        groove, play = say.diameter(ring.groove.width), say.limit(book["ring.side_clearance"].value)
        notes.append(f"Play in the groove of {groove} {unit}: {play} {unit} at the full width.")
    return notes


def _free(book: Book, say: Figures, name: str) -> str:
    """A size of the free ring, and between what it may come out, or would have to where its mandrel can't give it."""
    limits, value = limits_of(book, f"ring.{name}"), book[f"ring.{name}"].value
    size = say.limit(value)
    if limits is None or limits.low is None or limits.high is None:
        return f"{size} {say.unit}"
    ends = f"{say.limit(limits.low)} to {say.limit(limits.high)} {say.unit}"
    return f"{size} by this mandrel, {ends} would press evenly" if limits.miss(value) else f"{size}, {ends}"
