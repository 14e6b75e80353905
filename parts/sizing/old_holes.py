"""The old holes themselves: the plugs screwed into them; what metal lies round them, and below them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.job.models import SCREWED
from parts.relations import deck as relation
from parts.relations import fills
from parts.relations.thread_forms import minor_diameter
from parts.sizing.deck import MAJOR, OLD, bore_in, old_diameters, others, to_edge, to_nearest, to_passage
from parts.sizing.materials import metals
from parts.sizing.room import cut_into
from parts.sizing.scenes import by_old_hole
from parts.sizing.stud import CHAMFER_THREADS
from parts.sizing.threads import FORMS, size_tapped_hole
from parts.tables.read import table
from parts.thread import Thread, read_thread

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

AROUND = {"bore": 1.0, "edge": 1.0, "passage": 1.0, "new": 1.0, "next": 2.0}
"""what metal a screwed plug lies in -> sides of it that have such a plug"""


def size_screwed(book: Book, job: Job) -> None:
    """Add thread, tapping drill and length of the plugs that are screwed into old holes."""
    if job.old is None or job.old.fill != SCREWED or OLD not in book:
        return
    hole, system, thread = book[OLD].value, job.job.print_units, thread_of_plugs(book, job)
    if thread is None:
        book.lacks("screwed.nominal", "job.barrel.old_holes.thread")
        return
    size_tapped_hole(
        book, "screwed", thread, system, soft="steel" not in metals(job.barrel.material if job.barrel else None)
    )
    widest = book["screwed.tapped_minor_max"].value
    if hole > widest:
        says = f"leaves no thread in a hole of {hole:g} mm: {thread.label} wants {widest:.2f} mm at most"
        raise JobError(Fault("barrel.old_holes.thread", says))
    source = "job file" if job.old.thread else table("plug_threads").source
    book.enter(
        "screwed.nominal", thread.nominal, "mm", "given" if job.old.thread else "assumed", f"{thread.label}: {source}"
    )
    deep, chamfer = "job.barrel.old_holes.depth", CHAMFER_THREADS["bottoming"]
    book.add("screwed.length", fills.screwed_length, depth=deep, chamfer_threads=chamfer, pitch="screwed.pitch")


def thread_of_plugs(book: Book, job: Job) -> Thread | None:
    """The thread of the plugs that are screwed into old holes: the job's, else the next screw plug's."""
    if job.old is None or OLD not in book:
        return None
    return job.old.thread or next_plug(job.job.print_units, book[OLD].value)


def next_plug(system: str, hole: float) -> Thread | None:
    """The smallest thread of a screw plug whose core takes away the whole hole [mm]; None where none listed does.

    >>> next_plug("metric", 9.6).label, next_plug("inch", 7.94).label, next_plug("metric", 30)
    ('M12x1.5', '3/8-24 UNF', None)
    """
    threads = (read_thread(row["thread"]) for row in table("plug_threads").rows if row["system"] == system)
    return next((t for t in threads if minor_diameter(t.nominal, t.pitch, FORMS[t.family].hole) >= hole), None)


def size_old_holes(book: Book, job: Job) -> None:
    """Add the metal round each old hole."""
    olds = old_diameters(book, job)
    near = others(job, 0, 0, olds)
    for number, wide in enumerate(olds, 1):
        name = f"deck.old.{number}"
        book.add(f"{name}.to_bore", relation.metal_to_bore, radius=f"{name}.radius", bore=bore_in(book), diameter=wide)
        to_edge(book, job, name, wide)
        to_nearest(book, name, "next", [c for n, c in enumerate(near["old"], 1) if n != number], wide)
        to_passage(book, job, name, near["passage"], wide)
    _below(book, job)
    for number, view, _ in by_old_hole(book, job):
        _round_plug(book, job, number, view.real("screwed.nominal"), olds[number - 1])


def _round_plug(book: Book, job: Job, number: int, thread: str, hole: str) -> None:
    """Add the least metal round the thread of a screwed plug; a new hole that is cut into it has a rule of its own."""
    if thread not in book:
        return
    name = f"deck.old.{number}"
    beside = [n for n in book.numbers("deck.hole") if number not in cut_into(book, job, n)]
    new = [(f"deck.hole.{n}.x", f"deck.hole.{n}.y", job.of_hole(n, MAJOR)) for n in beside]
    to_nearest(book, name, "new", [centre for centre in new if book.has(*centre)], hole)
    more = (book[thread].value - book[hole].value) / 2
    near = {f"{name}.to_{what}": sides for what, sides in AROUND.items() if f"{name}.to_{what}" in book}
    if near:
        least = min(near, key=lambda size: book[size].value - near[size] * more)
        book.add(f"{name}.round_plug", fills.metal_round_plug, metal=least, thread=thread, hole=hole, sides=near[least])


def _below(book: Book, job: Job) -> None:
    """Add the metal below each old hole, by the depth of its own table."""
    depths = {"deck_depth": "job.barrel.deck_depth", "skim": "job.barrel.skim"}
    for number, view, _ in by_old_hole(book, job):
        deep = view.real("job.barrel.old_holes.depth")
        book.add(f"deck.old.{number}.floor", fills.below_old_hole, **depths, depth=deep)
