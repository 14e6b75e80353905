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
        mandrel's curve, what a small error does, other gaskets; without it the closed forms, in a few milliseconds
    book : Book, optional
        Empty, to put the sizes in

    Returns
    -------
    book : Book
        Every given, assumption and size; `left_out` says what could not be sized and what it needs. Where the job tells
        what was made, the sizes are as made, and `plan` is the book as it was meant.

    Raises
    ------
    JobError
        Values that each may stand, but together allow no such part; all of them at once.
    """
    from parts.sizing.as_made import follow, overrides

    plan = _sized(job, Book() if book is None else book, contact=contact)
    if job.made is None:
        return plan
    book = Book()
    book.plan, book.made = plan, overrides(plan, job.made)
    follow(book)
    return _sized(job.made.job or job, book, contact=contact)


def _sized(job: Job, book: Book, *, contact: bool) -> Book:
    from parts.sizing import (
        as_made,
        compression,
        deck,
        drop,
        gasket,
        hot,
        joint,
        machine_zero,
        mandrel,
        measured,
        measured_record,
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
    from parts.sizing.givens import enter_givens
    from parts.sizing.materials import enter_castings

    job = book.watch(job)
    found = measured.fit_measured(job)
    job = measured.with_measured(job, found)
    enter_givens(book, job)
    book.work("castings", lambda: enter_castings(book, job))
    measured_record.enter_measured(book, found)
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
        lambda: compression.size_compression(book, others=contact),
        lambda: machine_zero.size_machine(book, job),
        lambda: drop.size_drop(book, job),
        lambda: as_made.size_made(book, job),
    ]
    for number, subject in enumerate(subjects):
        try:
            book.work(str(number), subject)
        except JobError as error:
            faults += error.faults
    book.cannot = list(dict.fromkeys(faults))
    if faults and book.plan is None:
        raise JobError(*book.cannot)
    return book
