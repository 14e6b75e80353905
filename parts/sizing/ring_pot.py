"""The ring pot, and how far it squeezes a blank out of round against three jaws on the blank itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import fixture, turning
from parts.relations import ring_pot as relation
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

PLAY, RECESS_HELD = 0.02, 0.01  # mm on diameter, open
WALL, FLOOR, SLIT = 10.0, 15.0, 2.0  # mm
DEEP = 0.75  # of the blank's height: the rest stands out to be faced
LEDGE = 0.8  # of the blank's thickness that the floor's hole is wider than the blank's: room for the boring tool
CUT, FEED = 0.1, 0.05  # mm, the last cut in a blank
SAFETY, FRICTION = 2.5, 0.12
HELD = 0.1  # mm either way, of what nothing fits to


def size(book: Book, _: Job) -> None:
    """Add its sizes, the force that it takes, and what becomes of the blank's roundness."""
    own = "ring_pot."
    for name, value, unit, says in (
        ("play", PLAY, "mm", "of the blank in the open pot"),
        ("wall", WALL, "mm", "stiff beside the blank"),
        ("cut", CUT, "mm", "depth of the last cut"),
        ("last_feed", FEED, "mm", "of the last cut"),
        ("safety", SAFETY, "1", "for a cut that is heavier"),
        ("friction", FRICTION, "1", "iron in aluminium, dry"),
    ):
        book.enter(f"{own}{name}", value, unit, "assumed", f"{says}: {PRACTICE}")
    book.enter(f"{own}floor", FLOOR, "mm", "assumed", f"for the jaws to hold: {PRACTICE}", spread=HELD)
    book.enter(f"{own}slit", SLIT, "mm", "assumed", f"so that it closes: {PRACTICE}", spread=HELD)
    book.add(f"{own}recess", fixture.over, RECESS_HELD, size_of="ring.outside_diameter", by=f"{own}play")
    book.add(f"{own}diameter", fixture.walled, HELD, inside=f"{own}recess", wall=f"{own}wall")
    book.add(f"{own}depth", fixture.share_of, HELD, size_of="job.ring.axial_width", part=DEEP)
    book.add(f"{own}ledge", fixture.share_of, size_of="job.ring.radial_thickness", part=LEDGE)
    book.add(f"{own}hole", fixture.over, HELD, size_of="ring.inside_diameter", by=f"{own}ledge")
    _roundness(book, own)


def _roundness(book: Book, own: str) -> None:
    specific, cutting, force = f"{own}specific_force", f"{own}cutting_force", f"{own}grip"
    book.add(specific, turning.specific_force, kc11="ring.kc11", feed=f"{own}last_feed", mc="ring.mc")
    book.add(cutting, turning.cutting_force, specific=specific, depth=f"{own}cut", feed=f"{own}last_feed")
    blank = {"inside": "ring.inside_diameter", "outside": "ring.outside_diameter"}
    book.add(force, relation.grip, safety=f"{own}safety", cutting=cutting, friction=f"{own}friction", **blank)
    book.add(f"{own}blank_radius", relation.mean_radius, **blank)
    section = {"modulus": "ring.modulus", "moment": "ring.second_moment"}
    book.add(f"{own}ovality_in_jaws", relation.jaw_ovality, force=force, radius=f"{own}blank_radius", **section)
    book.add(f"{own}height", fixture.over, size_of=f"{own}floor", by=f"{own}depth")
    book.add(f"{own}moment", relation.wall_moment, height=f"{own}height", wall=f"{own}wall")
    book.add(f"{own}radius", relation.mean_radius, outside=f"{own}diameter", inside=f"{own}recess")
    pot = {"radius": f"{own}radius", "pot_modulus": f"{own}modulus", "pot_moment": f"{own}moment"}
    book.add(f"{own}ovality", relation.pot_ovality, force=force, **pot, **section)
