"""The ring compressor: a cone from the free ring to the bore."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import fixture
from parts.relations import ring_compressor as relation
from parts.relations.deck import radius
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

ROOM, UNDER, OUTLET_HELD = 1.0, 0.02, 0.01  # mm on diameter: no step for a ring to catch on
ANGLE, FRICTION = 5.0, 0.15  # deg, oiled iron on steel
WALL, LAND = 3.0, 3.0  # mm
HELD = 0.1  # mm either way, of what nothing fits to


def size(book: Book, _: Job) -> None:
    """Add its sizes, the push that a ring takes, and its room between the studs."""
    own = "ring_compressor."
    for name, value, unit, says in (
        ("room", ROOM, "mm", "round the free ring"),
        ("under_bore", UNDER, "mm", "of its outlet inside the bore: no edge of the deck for a ring to catch on"),
        ("wall", WALL, "mm", "at its mouth"),
        ("angle", ANGLE, "deg", "of its cone"),
        ("friction", FRICTION, "1", "oiled"),
    ):
        book.enter(f"{own}{name}", value, unit, "assumed", f"{says}: {PRACTICE}")
    book.enter(f"{own}land", LAND, "mm", "assumed", f"straight at the outlet: {PRACTICE}", spread=HELD)
    bore = "job.engine.bore"
    book.add(f"{own}mouth_diameter", relation.mouth, HELD, free_width="ring.free_width_most", room=f"{own}room")
    book.add(f"{own}outlet_diameter", fixture.under, OUTLET_HELD, size_of=bore, by=f"{own}under_bore")
    book.add(f"{own}outside_diameter", fixture.walled, HELD, inside=f"{own}mouth_diameter", wall=f"{own}wall")
    ends = {"mouth": f"{own}mouth_diameter", "outlet": f"{own}outlet_diameter"}
    book.add(f"{own}cone_length", relation.cone_length, HELD, **ends, angle=f"{own}angle")
    pushed = {"width": "job.ring.axial_width", "pressure": "ring.contact_pressure", "friction": f"{own}friction"}
    book.add(f"{own}push", relation.push, bore=bore, angle=f"{own}angle", **pushed)
    _room(book, own)


def _room(book: Book, own: str) -> None:
    """Add the room to the nearest stud, where they stand in the barrel."""
    holes = [n for n in book.numbers("deck.hole") if f"deck.hole.{n}.y" in book]
    if not holes or "stud.widest_thread" not in book:
        return
    near = min(holes, key=lambda n: radius(book[f"deck.hole.{n}.x"].value, book[f"deck.hole.{n}.y"].value))
    place = {axis: f"deck.hole.{near}.{axis}" for axis in "xy"}
    book.add(f"{own}nearest", radius, **place)
    stud = {"stud": "stud.widest_thread", "outside": f"{own}outside_diameter"}
    book.add(f"{own}to_stud", relation.to_stud, hole=f"{own}nearest", **stud)
