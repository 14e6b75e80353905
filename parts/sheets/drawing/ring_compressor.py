"""The ring compressor's drawing: cut along its axis."""

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


def ring_compressor_content(shape: Profile, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    say, own = figures(job), "ring_compressor."
    land, cone = (book[f"{own}{n}"].value for n in ("land", "cone_length"))
    along = [(0.0, land, f"{own}land"), (land, land + cone, f"{own}cone_length")]
    sizes = [f"{own}outlet_diameter"], [f"{own}mouth_diameter", f"{own}outside_diameter"]
    view = fixture.section(shape, book, say, along, *sizes)
    notes = [
        f"Cone {book[f'{own}angle'].value:g}° to the axis, polished; the edge at the outlet sharp, without a burr."
    ]
    return fixture.content("ring_compressor", book, job, found, [view], notes, but=", not that one")
