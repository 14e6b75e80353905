"""The test plate: the largest O-ring that has room between bore and bolts, and in the plate; thickness by bending."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.errors import Fault, JobError
from parts.relations import fixture
from parts.relations import test_plate as relation
from parts.relations.deck import radius
from parts.sizing.clamp_plate import through
from parts.sizing.scenes import by_hole
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.thread import Thread

LAND = 1.5  # mm of face inside the groove, and outside it up to the bolts' holes
DEEPEST = 2.7  # mm, a third of the thinnest plate: common practice, no source
GROOVE_HELD = 0.05  # mm either way
SAFETY = 3.0
RIM = 8.0  # mm of plate outside the bolts' holes
FILL = 8.8  # mm
HELD = 0.1  # mm either way, of what nothing fits to
OWN = "test_plate."


def size(book: Book, job: Job) -> None:
    """Add plate, groove and load."""
    book.enter(f"{OWN}land", LAND, "mm", "assumed", f"between bore and groove: {PRACTICE}")
    book.enter(f"{OWN}rim", RIM, "mm", "assumed", f"outside the bolts' holes: {PRACTICE}")
    book.enter(f"{OWN}safety", SAFETY, "1", "assumed", f"against yielding: {PRACTICE}")
    book.enter(f"{OWN}fill_hole", FILL, "mm", "memory", "tapping drill of a 1/8 in pipe thread", spread=HELD)
    holes = [n for n, view, own in by_hole(book, job) if own.stud and _hole(book, n, own.stud.tap_end)]
    if not holes or "job.engine.bore" not in book:
        for name in ("diameter", "thickness", "groove_outside"):
            book.lacks(f"{OWN}{name}", "job.head.holes", "job.engine.bore")
        return
    nearest = min(holes, key=lambda n: book[f"{OWN}hole.{n}.inner"].value)
    furthest = max(holes, key=lambda n: book[f"{OWN}hole.{n}.outer"].value)
    _groove(book, book[f"{OWN}hole.{nearest}.inner"].value)
    _plate(book, holes, f"{OWN}hole.{furthest}")


def _hole(book: Book, number: int, thread: Thread) -> bool:
    """Enter the hole for a bolt into the tapped hole below; False where its place is not known."""
    name, place = f"{OWN}hole.{number}", {axis: f"deck.hole.{number}.{axis}" for axis in "xy"}
    if not book.has(*place.values()):
        return False
    fit = through(thread)
    book.enter(f"{name}.diameter", fit.value, "mm", fit.status, fit.source, spread=HELD)
    book.add(f"{name}.radius", radius, **place)
    sizes = {"radius": f"{name}.radius", "diameter": f"{name}.diameter"}
    book.add(f"{name}.inner", relation.inner_edge, **sizes)
    book.add(f"{name}.outer", relation.outer_edge, **sizes)
    return True


def _groove(book: Book, room: float) -> None:
    """Enter the largest groove between bore and holes; JobError where there is room for none."""
    book.add(f"{OWN}groove_inside", relation.groove_inside, GROOVE_HELD, bore="job.engine.bore", land=f"{OWN}land")
    inside, grooves = book[f"{OWN}groove_inside"].value, tables.o_ring_grooves()
    fits = [g for g in grooves if inside / 2 + g.width + LAND <= room and g.depth <= DEEPEST]
    if not fits:
        left, least = room - inside / 2 - LAND, grooves[0].width
        says = f"has no room for an O-ring between bore and bolts: {left:.2f} mm, and the thinnest wants {least:g} mm"
        says += "; leave it out, naming the others in fixtures.make"
        raise JobError(Fault("test_plate", says))
    groove = fits[-1]
    for name, value, held in (
        ("cord", groove.cord, 0.0),
        ("depth", groove.depth, GROOVE_HELD),
        ("width", groove.width, HELD),
    ):
        book.enter(f"{OWN}{name}", value, "mm", groove.status, f"{groove.source}: the largest with room", spread=held)
    ends = {"inside": f"{OWN}groove_inside", "width": f"{OWN}width"}
    book.add(f"{OWN}groove_outside", relation.groove_outside, GROOVE_HELD, **ends)
    cord = {"cord": f"{OWN}cord"}
    book.add(f"{OWN}cord_inside", relation.cord_inside, outside=f"{OWN}groove_outside", **cord)
    book.add(f"{OWN}fill", relation.fill, **cord, depth=f"{OWN}depth", width=f"{OWN}width")
    book.add(f"{OWN}squeeze", relation.squeeze, **cord, depth=f"{OWN}depth")


def _plate(book: Book, holes: list[int], furthest: str) -> None:
    book.add(f"{OWN}diameter", relation.plate_diameter, HELD, outer=f"{furthest}.outer", rim=f"{OWN}rim")
    water = {"pressure": "job.test_plate.pressure"}
    book.add(f"{OWN}force", relation.force, diameter=f"{OWN}groove_outside", **water)
    book.add(f"{OWN}circle", relation.circle, radius=f"{furthest}.radius")
    bent = {"reach": f"{OWN}circle", "poisson": f"{OWN}poisson", **water}
    book.add(f"{OWN}moment", relation.moment, loaded=f"{OWN}groove_outside", **bent)
    steel = {"safety": f"{OWN}safety", "strength": f"{OWN}yield_strength"}
    book.add(f"{OWN}thickness", relation.thickness, HELD, depth=f"{OWN}depth", moment=f"{OWN}moment", **steel)
    book.add(f"{OWN}over_groove", fixture.under, size_of=f"{OWN}thickness", by=f"{OWN}depth")
    book.add(f"{OWN}bulge", relation.bulge, **bent, modulus=f"{OWN}modulus", thickness=f"{OWN}over_groove")
    book.add(f"{OWN}bolt_load", relation.each, force=f"{OWN}force", count=float(len(holes)))
