"""The drill plate's drawing: its face from above with the bushes numbered as the holes, and a section."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.geometry.profile import Profile
from parts.shapes.drill_plate import plate
from parts.sheets.drawing import fixture, flat
from parts.sheets.drawing.furniture import Grid
from parts.sheets.drawing.words import figures

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.shapes.pieces import Pieces
    from parts.sheets.drawing.compose import Content
    from parts.sheets.drawing.words import Figures

PRINTED = (
    "Printed: only to guide a drill in metal bushes. NO HEAT, no clamping by force, and no reamer or boring bar in it."
)


def drill_plate_content(_: Pieces, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    say, sheet = figures(job), plate(book)
    thick, long, wide, spigot, bolt = (
        book[f"drill_plate.{n}"].value
        for n in ("thickness", "spigot_length", "diameter", "spigot_diameter", "centre_hole")
    )
    steps = ((-long, 0.0), (-long, spigot / 2), (0.0, spigot / 2), (0.0, wide / 2), (thick, wide / 2), (thick, 0.0))
    bore = ((-long, 0.0), (-long, bolt / 2), (thick, bolt / 2), (thick, 0.0))
    along = [(-long, 0.0, "drill_plate.spigot_length"), (0.0, thick, "drill_plate.thickness")]
    left, right = ["drill_plate.spigot_diameter"], ["drill_plate.centre_hole", "drill_plate.diameter"]
    views = [
        flat.face(sheet, say, caption="From above", numbered=len(book.numbers("deck.hole"))),
        fixture.section(Profile(steps, (bore,)), book, say, along, left, right, "Spigot"),
    ]
    placed = say.limit(book["drill_plate.placed"].value)
    notes = [
        f"Bush holes H7, in place within ±{placed} {say.unit}; bushes ISO 4247, or turned and hardened, flush.",
        "The flat marks the front, +Y; the spigot is under it. Stamp TOP on the other face, and a number at each bush.",
        "Turned over, its upper face on the head's joint face, it checks the head's holes by stepped pins.",
    ]
    return fixture.content("drill_plate", book, job, found, views, notes, [_table(book, say)])


def _table(book: Book, say: Figures) -> Grid:
    """Place of each bush, its hole in the plate, and its drill."""
    rows = [["Bush", f"X {say.unit}", f"Y {say.unit}", "Ø H7", "Drill"]]
    for n in book.numbers("deck.hole"):
        x, y = (say.limit(book[f"deck.hole.{n}.{a}"].value) for a in "xy")
        bush, drill = (say.diameter(book[f"drill_plate.hole.{n}.{s}"].value) for s in ("bush", "drill"))
        rows.append([str(n), x, y, bush, drill])
    return Grid(rows, (10.0, 18.0, 18.0, 16.0, 16.0))
