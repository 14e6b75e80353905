"""The splitting fixture: recess to the blank, slot to the saw, and the gap by what the saw really cuts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import fixture as relation
from parts.relations.mandrel import hole_size
from parts.relations.ring import closed_gap
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

PLAY, RECESS_HELD = 0.02, 0.01  # mm on diameter: the blank goes in by hand and can't turn aslant
WALL, FLOOR, UNDER = 8.0, 12.0, 2.0  # mm
SAW_PLAY, SLOT_HELD = 0.1, 0.05  # mm
DEEP = 0.75  # of the blank's height: the cap bears on the blank, not on the rim
CAP = 0.5  # mm on diameter, by which the cap is smaller than the blank
THIN = 0.5  # of the floor: a fine saw goes through the cap as well
HELD = 0.1  # mm either way, of what nothing fits to


def size(book: Book, _: Job) -> None:
    """Add its sizes."""
    for name, value, says in (
        ("play", PLAY, "the blank goes in by hand"),
        ("wall", WALL, "metal round the recess"),
        ("saw_play", SAW_PLAY, "of the saw in its slot, both sides together"),
        ("slot_under", UNDER, "of the slot under the blank"),
        ("cap_less", CAP, "of the cap inside the blank's edge"),
    ):
        book.enter(f"splitting_fixture.{name}", value, "mm", "assumed", f"{says}: {PRACTICE}")
    book.enter("splitting_fixture.floor", FLOOR, "mm", "assumed", f"to hold it by: {PRACTICE}", spread=HELD)
    blank, own = "ring.outside_diameter", "splitting_fixture."
    book.add(f"{own}recess", relation.over, RECESS_HELD, size_of=blank, by=f"{own}play")
    book.add(f"{own}diameter", relation.walled, HELD, inside=f"{own}recess", wall=f"{own}wall")
    book.add(f"{own}depth", relation.share_of, HELD, size_of="job.ring.axial_width", part=DEEP)
    cut = "job.splitting_fixture.saw_cut" if "job.splitting_fixture.saw_cut" in book else "job.ring.slit"
    book.add(f"{own}slot", relation.over, SLOT_HELD, size_of=cut, by=f"{own}saw_play")
    book.add(f"{own}hole", hole_size, HELD, inside="ring.inside_diameter")
    book.add(f"{own}cap", relation.under, HELD, size_of=blank, by=f"{own}cap_less")
    book.add(f"{own}cap_thickness", relation.share_of, size_of=f"{own}floor", part=THIN)
    book.add(f"{own}gap", closed_gap, slit=cut, bore="job.engine.bore", outside=blank)
