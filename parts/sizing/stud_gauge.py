"""The stud gauge: the projection with its limits as a step, and a split holder for a stud's first thread."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import fixture
from parts.relations import stud_gauge as relation
from parts.sizing.general import general
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

ROOM, WALL, SLIT = 1.0, 4.0, 1.5  # mm
STEP_HELD = 0.02  # mm either way, a tenth of what it judges and less
HELD = 0.1  # mm either way, of what nothing fits to


def size(book: Book, _: Job) -> None:
    """Add both heights, the hole, and the holder."""
    own = "stud_gauge."
    for name, value, says in (("room", ROOM, "round the stud"), ("wall", WALL, "of its foot, beside the stud")):
        book.enter(f"{own}{name}", value, "mm", "assumed", f"{says}: {PRACTICE}")
    book.enter(f"{own}slit", SLIT, "mm", "assumed", f"so that the holder closes: {PRACTICE}", spread=HELD)
    if "stud.projection" in book:
        half = general(book["stud.projection"].value)
        book.enter(f"{own}within", half, "mm", "published", "ISO 2768-m, of the projection")
    limits = {"size_of": "stud.projection", "by": f"{own}within"}
    book.add(f"{own}high_step", fixture.over, STEP_HELD, **limits)
    book.add(f"{own}low_step", fixture.under, STEP_HELD, **limits)
    book.add(f"{own}bore", relation.bore, HELD, nominal="stud.widest_thread", room=f"{own}room")
    book.add(f"{own}outside_diameter", fixture.walled, HELD, inside=f"{own}bore", wall=f"{own}wall")
    thread = {"nominal": "stud.nut_end_nominal"}
    book.add(f"{own}holder_core", relation.core, HELD, **thread, pitch="stud.nut_end_pitch")
    book.add(f"{own}holder_outside", relation.holder_outside, HELD, **thread)
    book.add(f"{own}holder_length", relation.holder_length, HELD, **thread)
