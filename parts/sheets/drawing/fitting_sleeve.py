"""The fitting sleeve's drawing: cut along its axis."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.drawing import fixture
from parts.sheets.drawing.words import figures

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.profile import Profile
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.sheets.drawing.compose import Content


def fitting_sleeve_content(shape: Profile, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    say, own = figures(job), "fitting_sleeve."
    cone, skirt = (book[f"{own}{n}"].value for n in ("cone_length", "reach"))
    along = [(-skirt, 0.0, f"{own}reach"), (0.0, cone, f"{own}cone_length")]
    sizes = [f"{own}bore_diameter", f"{own}skirt_diameter"], [f"{own}hole", f"{own}small_end"]
    view = fixture.section(shape, book, say, along, *sizes)
    wall = say.limit(book[f"{own}wall"].value)
    notes = [
        f"Cone {book[f'{own}angle'].value:g}° to the axis, polished; no corner where it meets the skirt.",
        f"Bore first, then turn the skirt to a wall of {wall} {say.unit} on a mandrel that fits the bore.",
    ]
    return fixture.content("fitting_sleeve", book, job, found, [view], notes, but=", the thin end only stoned")
