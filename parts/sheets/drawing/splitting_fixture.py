"""The splitting fixture's drawing: cut through its axis, and the recess with the slot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.shapes.splitting_fixture import body, slot_start
from parts.sheets.drawing import fixture
from parts.sheets.drawing.words import figures
from parts.sizing.clamp_plate import bolt_through, short

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.shapes.pieces import Pieces
    from parts.sheets.drawing.compose import Content


def splitting_fixture_content(_: Pieces, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    say, own = figures(job), "splitting_fixture."
    deep, floor, recess, hole, slot, under = (
        book[f"{own}{n}"].value for n in ("depth", "floor", "recess", "hole", "slot", "slot_under")
    )
    along = [(-deep, 0.0, f"{own}depth"), (0.0, floor, f"{own}floor")]
    radii, start = (book[f"{own}diameter"].value / 2, recess / 2, hole / 2), slot_start(book)
    views = [
        fixture.section(body(book), book, say, along, [f"{own}recess"], [f"{own}hole", f"{own}diameter"]),
        fixture.face(radii, (slot, start)),
    ]
    cap, wide = fixture.size(book, say, f"{own}cap", "Ø"), fixture.size(book, say, f"{own}slot")
    below, inner = say.length(under), say.length(start)
    u, bolt = say.unit, short(bolt_through(hole, job.job.print_units))
    disc = f"a flat disc {cap} by {say.length(book[f'{own}cap_thickness'].value)} {u} with the same hole"
    notes = [
        "Turn the recess to the blank as it is, floor and recess in one setting.",
        f"Slot {wide} {u} wide, {below} {u} below the floor, from {inner} {u} off the axis outwards.",
        f"Cap: {disc}; a bolt {bolt} through both; sawn with the first blank.",
        f"With this saw the gap in the bore comes out {say.limit(book[f'{own}gap'].value)} {u}.",
    ]
    return fixture.content("splitting_fixture", book, job, found, views, notes)
