"""The squaring piston's drawing: cut along its axis."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.drawing import fixture
from parts.sheets.drawing.words import figures
from parts.sheets.page.squaring_piston import felt

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.profile import Profile
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.sheets.drawing.compose import Content


def squaring_piston_content(shape: Profile, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    say, own = figures(job), "squaring_piston."
    deep, stop = (book[f"{own}{n}"].value for n in ("depth", "stop"))
    along = [(0.0, deep, f"{own}depth"), (deep, deep + stop, f"{own}stop")]
    view = fixture.section(shape, book, say, along, [f"{own}diameter"], [f"{own}hole", f"{own}stop_diameter"])
    notes = ["Turn piston and stop in one setting, its end square. The hole lets the air out and takes a bar."]
    if book.has(f"{own}go", f"{own}not_go"):
        notes.append(f"Gap of the ring under it: {felt(book, job, lambda leaf: f'{say.diameter(leaf)} {say.unit}')}.")
    return fixture.content("squaring_piston", book, job, found, [view], notes)
