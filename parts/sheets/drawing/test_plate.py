"""The test plate's drawing: its joint face with the holes, and a section through the groove."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.geometry.profile import Profile
from parts.shapes.test_plate import plate
from parts.sheets.drawing import fixture, flat
from parts.sheets.drawing.words import figures

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.shapes.pieces import Pieces
    from parts.sheets.drawing.compose import Content
    from parts.sheets.drawing.view import View
    from parts.sheets.drawing.words import Figures

WATER = "For WATER alone, never air or gas: compressed gas that lets go throws the plate."


def test_plate_content(_: Pieces, book: Book, job: Job, found: list[Finding]) -> Content:  # noqa: PT019 - no test
    """Say what stands on the sheet."""
    say, own, sheet = figures(job), "test_plate.", plate(book)
    held = [
        say.off(book.spread(f"{own}hole.{n}.diameter"), -book.spread(f"{own}hole.{n}.diameter"))
        for n in book.numbers("deck.hole")
    ]
    views = [flat.face(sheet, say, caption="From above", numbered=len(held)), _section(book, say)]
    depth = fixture.size(book, say, f"{own}depth")
    cord, inside = (say.diameter(book[f"{own}{n}"].value) for n in ("cord", "cord_inside"))
    notes = [
        WATER,
        f"Groove {depth} {say.unit} deep, its floor and walls fine turned, corners broken by a touch of a stone.",
        f"O-ring: cord {cord}, inside {inside} {say.unit} or the next size under; or cord cut square and bonded.",
        "Hole in the middle tapped 1/8 in pipe, for pump and gauge.",
    ]
    table = flat.hole_table(sheet, say, [*held, ""], last="middle")
    return fixture.content("test_plate", book, job, found, views, notes, [table])


def _section(book: Book, say: Figures) -> View:
    """The plate cut through its middle, groove and all; the bolts' holes are left out."""
    own = "test_plate."
    thick, wide, fill, deep, inner, outer = (
        book[f"{own}{n}"].value
        for n in ("thickness", "diameter", "fill_hole", "depth", "groove_inside", "groove_outside")
    )
    body = Profile(
        (
            *((0.0, 0.0), (0.0, inner / 2), (deep, inner / 2), (deep, outer / 2), (0.0, outer / 2)),
            *((0.0, wide / 2), (thick, wide / 2), (thick, 0.0)),
        ),
        (((0.0, 0.0), (0.0, fill / 2), (thick, fill / 2), (thick, 0.0)),),
    )
    along = [(0.0, deep, f"{own}depth"), (0.0, thick, f"{own}thickness")]
    left, right = [f"{own}groove_inside", f"{own}groove_outside"], [f"{own}fill_hole", f"{own}diameter"]
    return fixture.section(body, book, say, along, left, right)
