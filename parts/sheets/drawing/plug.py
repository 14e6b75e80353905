"""The blanking plug's drawing: lower end on the left, the deck face near its head."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.limits import EDGES
from parts.sheets.drawing import turned
from parts.sheets.drawing.compose import Content
from parts.sheets.drawing.items import Item, Length, Plane, Pointer
from parts.sheets.drawing.view import View
from parts.sheets.drawing.words import TURNED, Figures, cautions, figures, material_name, named, thread_name
from parts.sizing.plug import tolerance_of

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.profile import Profile
    from parts.job import Job
    from parts.job.part_models import Plug
    from parts.judging.finding import Finding
    from parts.sheets.drawing.pen import Pen

TO_THE_HOLE = "Measure the hole first, then turn the plug to it."


def plug_content(shape: Profile, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    if job.plug is None:
        raise AssertionError("asked for a plug that was not sized")
    say = figures(job)
    notes = [*_fit(book, job.plug, say), *_notes(book, job.plug, say), *cautions(found)]
    views = [_view(shape, book, job.plug, say)]
    return Content(
        named("Blanking plug", book), f"blanking-plug{book.suffix}", material_name(job.plug), "1", views, notes
    )


def _view(shape: Profile, book: Book, plug: Plug, say: Figures) -> View:
    bottom, proud = -book["plug.length"].value, book["job.plug.stands_proud"].value
    radius = book["plug.diameter"].value / 2
    head = max(r for _, r in shape.points)
    below: list[Item] = []
    if plug.shoulder:
        below.append(say.between((-float(plug.shoulder.thickness), -head), (proud, -head)))
    if proud:
        below.append(say.between((bottom, -radius), (0.0, -head), "(<>) below the deck"))
    below.append(say.between((bottom, -radius), (proud, -head)))
    above: list[Item] = [
        Plane(0.0, -head, head, "Deck face, after facing" if proud else "Deck face"),
        *_chamfer(shape, say),
    ]
    above.append(Pointer((bottom + 0.6 * (-bottom), radius), say.rough(TURNED), texture=True))
    left: list[Item] = [_diameter(shape, book, plug, say)]
    right: list[Item] = []
    if plug.shoulder:
        off = say.held(book, "job.plug.shoulder.diameter")
        right.append(say.across((proud, -head), (proud, head), f"Ø<>{off}", 2 * head, exact=False))
    if shape.bores:
        floor = shape.bores[0][0][0]
        below.insert(0, say.between((floor, -shape.bores[0][1][1]), (proud, -head)))
    return View(turned.box(shape), lambda pen: _draw(pen, shape, book, plug), above, below, left, right)


def _draw(pen: Pen, shape: Profile, book: Book, plug: Plug) -> None:
    if not shape.bores:
        turned.outside(pen, shape)
        return
    turned.cut(pen, shape)
    z, r = shape.points[2]
    if plug.chamfer:
        pen.line((z, r), (z, -r))
    nominal, top, floor = book["plug.extraction.nominal"].value / 2, shape.points[-1][0], shape.bores[0][0][0]
    deep = thread_floor(floor, top, 2 * nominal)
    for side in (1, -1):
        pen.line((deep, side * nominal), (top, side * nominal), "THIN")
    pen.line((deep, -nominal), (deep, nominal))


def thread_floor(floor: float, top: float, nominal: float) -> float:
    """Depth to which the hole is tapped: all but the tap's lead, a quarter of the diameter [mm]."""
    return floor + min(nominal / 4, (top - floor) / 3)


def _chamfer(shape: Profile, say: Figures) -> list[Item]:
    (z0, r0), (z1, r1) = shape.points[1:3]
    if r1 <= r0 or z1 <= z0:
        return []
    return [Pointer(((z0 + z1) / 2, (r0 + r1) / 2), f"{say.length(z1 - z0)} × 45°")]


def _diameter(shape: Profile, book: Book, plug: Plug, say: Figures) -> Item:
    """The diameter that makes the fit, with its limits."""
    radius, z = book["plug.diameter"].value / 2, shape.points[1][0]
    ends = (z, -radius), (z, radius)
    if plug.fit == "press":
        text = f"Ø{say.both(book['plug.diameter_max'].value, book['plug.diameter_min'].value)}"
        return Length(*ends, text)
    return say.across(*ends, f"Ø<>{say.held(book, 'plug.diameter')}", 2 * radius)


def _fit(book: Book, plug: Plug, say: Figures) -> list[str]:
    unit = say.unit
    if plug.fit == "press":
        high, low = (book[f"plug.hole_{end}"].value for end in ("max", "min"))
        tight, loose = (book[f"plug.interference_{end}"].value for end in ("max", "min"))
        hole = "the hole as measured" if book["plug.hole_lower"].status == "given" else "a hole reamed H7"
        return [
            f"Press fit, {tolerance_of(book, plug)} in {hole}: {say.both(high, low)} {unit}, max / min.",
            f"Interference {say.limit(loose)} to {say.limit(tight)} {unit}. {TO_THE_HOLE}",
        ]
    gap = book["job.plug.bond_clearance"].value
    hole = book["plug.diameter"].value + gap
    return [
        f"Bonded into a hole reamed to {say.diameter(hole)} {unit}: {say.limit(gap)} {unit} of gap. {TO_THE_HOLE}",
        "Leave the turned surface as it is for the bond, and degrease it.",
    ]


def _notes(book: Book, plug: Plug, say: Figures) -> list[str]:
    unit = say.unit
    notes = [f"Break sharp edges {say.length(EDGES)} {unit}."]
    proud = book["job.plug.stands_proud"].value
    if proud:
        notes.insert(0, f"Stands {say.length(proud)} {unit} proud, and is faced off with the deck in one setting.")
    if plug.extraction_thread:
        name, drill = thread_name(plug.extraction_thread, hole=True), book["plug.extraction.tap_drill"].value
        notes.append(
            f"Hole to draw it out: {name}, drill {say.diameter(drill)} {unit}, tapped as deep as the tap goes."
        )
    return notes
