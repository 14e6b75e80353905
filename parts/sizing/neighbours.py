"""Room between neighbours once everything is in place: `assembly.<one>.<other>`, below 0 where they share metal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import neighbours as relation
from parts.relations import stud as lengths
from parts.relations.press import thinnest

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

STUD = {"first": "stud.nut_end_nominal", "second": "stud.shank_diameter"}


def size_stud_room(book: Book, _: Job) -> None:
    """Add the room of the stud, its nuts and its washers, as far as their sizes are there."""
    _add(book, "assembly.stud.gasket", relation.play, hole="gasket.hole_diameter", **STUD)
    _add(book, "assembly.stud.head", relation.play, hole="job.head.hole_diameter", **STUD)
    if book.has("stud.tap_end_nominal", "gasket.hole_diameter") and _wider(book):
        _add(book, "assembly.tap_end.gasket", lengths.as_given, length="stud.step_depth")
    _nuts_and_washers(book)


def size_ring_room(book: Book, job: Job) -> None:
    """Add the room of the ring in the bore."""
    if job.ring is not None:
        _add(book, "assembly.ring.bore", lengths.as_given, length="ring.closed_gap")


def _add(book: Book, name: str, rule: object, **inputs: str) -> None:
    """Add a size where all its inputs are there; it is no size that the user would miss."""
    if book.has(*inputs.values()):
        book.add(name, rule, **inputs)  # type: ignore[arg-type]


def _wider(book: Book) -> bool:
    return bool(book["stud.tap_end_nominal"].value > book["gasket.hole_diameter"].value)


def _nuts_and_washers(book: Book) -> None:
    major = "deck.tapped_major"
    for name, kind, rule, inputs in (
        ("assembly.nut.nut", "to_next", relation.nut_to_nut, {"flats": "stud.nut_across_flats"}),
        ("assembly.washer.deck", "to_edge", relation.washer_to_edge, {"washer": "stud.washer_outside"}),
    ):
        walls = {f"hole_{n}": f"deck.hole.{n}.{kind}" for n in book.numbers("deck.hole", kind)}
        if walls and book.has(major, *inputs.values()):
            least = f"deck.least_{kind}"
            book.add(least, thinnest, **walls)
            book.add(name, rule, metal=least, major=major, **inputs)


def size_plug_room(book: Book, job: Job) -> None:
    """Add the room of the plug in its passage, and to the studs."""
    if job.plug is None or job.plug.passage is None or job.barrel is None:
        return
    number = [p.name for p in job.barrel.passages].index(job.plug.passage)
    passage = f"job.barrel.passages.{number}.diameter"
    if job.plug.fit == "bonded":
        _add(book, "assembly.plug.passage", relation.plug_play, hole=passage, plug="plug.diameter")
    widest = "job.plug.shoulder.diameter" if job.plug.shoulder else "plug.diameter"
    metal = f"deck.passage.{number}.to_hole"
    _add(book, "assembly.plug.stud", relation.plug_to_stud, metal=metal, passage=passage, plug=widest)
