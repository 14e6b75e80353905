"""The clamp plate's drawing: its face, its section, and where its hole is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.limits import PLATE_FLAT
from parts.sheets.drawing import fixture, flat
from parts.sheets.drawing.words import figures
from parts.sizing.clamp_plate import bolt_label

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.shapes.pieces import Flat
    from parts.sheets.drawing.compose import Content


def clamp_plate_content(shape: Flat, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    say = figures(job)
    held = {n: say.off(book.spread(f"clamp_plate.{n}"), -book.spread(f"clamp_plate.{n}")) for n in ("diameter", "hole")}
    thick = book.spread("clamp_plate.thickness")
    views = [
        flat.face(shape.sheet, say, held["diameter"]),
        flat.edge(shape.sheet, shape.thickness, say, say.off(thick, -thick) if thick else ""),
    ]
    bolt, long = bolt_label(book, job), book["clamp_plate.bolt_length"].value
    flat_within = f"{say.limit(PLATE_FLAT)} {say.unit}"
    notes = [f"For the mandrel of drawing expander-mandrel{book.suffix}."] if book.suffix else []
    notes += [
        f"The face that bears on the rings flat within {flat_within}, the other parallel to it and stamped.",
        f"Drawn up snug by a bolt {bolt}, {say.length(long)} {say.unit} or longer, a washer under head and nut.",
    ]
    tables = [flat.hole_table(shape.sheet, say, [held["hole"]])]
    return fixture.content("clamp_plate", book, job, found, views, notes, tables)
