"""The ring pot's drawing: cut through its axis, and the recess with the slit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.shapes.ring_pot import body
from parts.sheets.drawing import fixture
from parts.sheets.drawing.words import figures

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.shapes.pieces import Pieces
    from parts.sheets.drawing.compose import Content


def ring_pot_content(_: Pieces, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    say, own = figures(job), "ring_pot."
    deep, floor, recess, hole, wide, slit = (
        book[f"{own}{n}"].value for n in ("depth", "floor", "recess", "hole", "diameter", "slit")
    )
    along = [(-deep, 0.0, f"{own}depth"), (0.0, floor, f"{own}floor")]
    views = [
        fixture.section(body(book), book, say, along, [f"{own}recess"], [f"{own}hole", f"{own}diameter"]),
        fixture.face((wide / 2, recess / 2, hole / 2), (slit, hole / 2)),
    ]
    notes = [
        f"Slit {fixture.size(book, say, f'{own}slit')} {say.unit} wide, right through one side, between two jaws.",
        "Bore recess and ledge last, in the chuck where it is used, a strip in the slit holding it open; mark jaw 1.",
    ]
    return fixture.content("ring_pot", book, job, found, views, notes)
