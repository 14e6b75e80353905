"""Sizing: one module per subject, plain numbers in mm, N, MPa, degC. Imports no CAD, no files."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.book import Book
from parts.errors import Fault, JobError

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.job import Job


def size_job(job: Job, *, contact: bool = True, book: Book | None = None) -> Book:
    """Size everything that the job gives the values for.

    Parameters
    ----------
    job : Job
        As read
    contact : bool
        Also work out what is followed along the ring step by step: how it presses and its free width, the contoured
        mandrel's curve, what a small error does; without it the closed forms alone, in a few milliseconds
    book : Book, optional
        Empty, to put the sizes in

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
    from parts.sizing import (
        compression,
        deck,
        gasket,
        hot,
        joint,
        mandrel,
        neighbours,
        plug,
        press,
        ring,
        ring_bore,
        ring_contact,
        ring_sensitivity,
        ring_shape,
        room,
        seal,
        strip,
        stud,
        turning,
    )
    from parts.sizing.materials import enter_castings

    book = Book() if book is None else book
    job = book.watch(job)
    enter_givens(book, job)
    book.work("castings", lambda: enter_castings(book, job))
    hole = book.work("threads", lambda: stud.size_threads(book, job))
    book.work("gasket hole", lambda: gasket.size_gasket_hole(book))
    book.work("deck", lambda: deck.size_deck(book, job, hole))
    faults: list[Fault] = []
    followed: list[Callable[[], None]] = [
        lambda: ring_contact.size_ring_contact(book, job),
        lambda: ring_bore.size_out_of_round(book, job),
        lambda: ring_sensitivity.size_sensitivities(book, job),
    ]
    subjects: list[Callable[[], None]] = [
        lambda: gasket.size_gasket(book, job),
        lambda: stud.size_stud(book, job, hole),
        lambda: plug.size_plug(book, job),
        lambda: joint.size_stiffness(book, job, hole),
        lambda: hot.size_heat(book, job),
        lambda: joint.size_preload(book, job),
        lambda: hot.size_hot_preload(book),
        lambda: strip.size_strip(book, job, hole),
        lambda: seal.size_seal(book, job),
        lambda: room.size_passages(book, job),
        lambda: room.size_head_room(book, job),
        lambda: press.size_hold(book, job),
        lambda: turning.size_turning(book, job),
        lambda: ring.size_ring(book, job),
        lambda: mandrel.size_mandrel(book, job, curve=contact),
        lambda: ring_bore.size_bore(book, job),
        lambda: ring_shape.size_ring_shape(book, job, solved=contact),
        lambda: ring_shape.size_mandrel_growth(book, job),
        *(followed if contact else ()),
        lambda: neighbours.size_neighbours(book, job),
        lambda: compression.size_compression(book),
    ]
    for number, subject in enumerate(subjects):
        try:
            book.work(str(number), subject)
        except JobError as error:
            faults += error.faults
    if faults:
        raise JobError(*dict.fromkeys(faults))
    return book
