"""The turned washer's drawing: cut through its axis."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from parts.judging.limits import PLATE_FLAT
from parts.sheets.drawing import fixture
from parts.sheets.drawing.words import figures

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.profile import Profile
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.sheets.drawing.compose import Content


def turned_washer_content(shape: Profile, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    say, own = figures(job), "turned_washer."
    thick = book[f"{own}thickness"].value
    along = [(0.0, thick, f"{own}thickness")]
    view = fixture.section(shape, book, say, along, [f"{own}hole_diameter"], [f"{own}outside_diameter"])
    notes = [f"Both faces flat and parallel within {say.limit(PLATE_FLAT)} {say.unit}, one for each stud."]
    sheet = fixture.content("turned_washer", book, job, found, [view], notes)
    return replace(sheet, quantity=str(len(book.numbers("deck.hole")) or 1))
