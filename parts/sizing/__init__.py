"""Sizing: one module per subject, plain numbers in mm, N, MPa, degC. Imports no CAD, no files."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.book import Book
from parts.errors import Fault, JobError

if TYPE_CHECKING:
    from parts.job import Job


def size_job(job: Job) -> Book:
    """Size everything that the job gives the values for.

    Parameters
    ----------
    job : Job
        As read

    Returns
    -------
    book : Book
        Every given, assumption and size; `left_out` says what could not be sized and what it needs

    Raises
    ------
    JobError
        Values that each may stand, but together allow no such part; all of them at once.
    """
    from parts.givens import enter_givens
    from parts.sizing import compression, deck, gasket, mandrel, plug, ring, stud
    from parts.sizing.materials import enter_material

    book = Book()
    enter_givens(book, job)
    barrel, head = job.barrel, job.head
    enter_material(book, "barrel", barrel.material if barrel else None, section=barrel.deck_depth if barrel else None)
    enter_material(book, "head", head.material if head else None)
    hole = stud.size_threads(book, job)
    gasket.size_gasket_hole(book)
    deck.size_deck(book, job, hole)
    faults: list[Fault] = []
    for subject in (
        lambda: gasket.size_gasket(book, job),
        lambda: stud.size_stud(book, job, hole),
        lambda: plug.size_plug(book, job),
        lambda: ring.size_ring(book, job),
        lambda: mandrel.size_mandrel(book, job),
        lambda: compression.size_compression(book),
    ):
        try:
            subject()
        except JobError as error:
            faults += error.faults
    if faults:
        raise JobError(*dict.fromkeys(faults))
    return book
