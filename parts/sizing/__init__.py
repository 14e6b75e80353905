"""Sizing: one module per subject, plain numbers in mm, N, MPa, degC. Imports no CAD, no files."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from parts.book import Book
from parts.errors import Fault, JobError
from parts.sizing.scenes import placed, scenes_of

if TYPE_CHECKING:
    from parts.job import Job


def size(job: Job, *, contact: bool = True, book: Book | None = None) -> Book:
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
    from parts.sizing.as_made import FOLLOWED, follow, overrides, through_too
    from parts.sizing.placing import placed as drawings_placed

    job = drawings_placed(job)
    book = Book() if book is None else book
    book.contact = contact
    plan = _sized(job, book)
    if job.made is None:
        return plan
    book = Book()
    book.contact, book.plan, book.made = contact, plan, overrides(plan, job.made)
    through_too(book, job)
    for view in (book, *map(book.at, (one for one in job.named() if one.kind in FOLLOWED))):
        follow(view)
    return _sized(job.as_made or job, book)


def _sized(job: Job, book: Book) -> Book:
    from parts.sizing import measured, measured_record
    from parts.sizing.givens import enter_givens
    from parts.sizing.order import LAYOUT, SUBJECTS

    found = measured.fit_measured(job)
    job = measured.with_measured(job, found)
    book.starts(job)
    enter_givens(book, book.watch(job))
    measured_record.enter_measured(book, found)
    of_kind = scenes_of(book, job)
    for name, step, kind in LAYOUT:
        for view, own, _ in of_kind(kind):
            view.work(name, partial(step, view, view.watch(own)))
    faults: list[Fault] = []
    for name, step, kind in SUBJECTS:
        for view, own, instance in of_kind(kind):
            try:
                view.work(name, partial(step, view, view.watch(own)))
            except JobError as error:
                faults += [placed(fault, instance) for fault in error.faults]
    book.cannot = list(dict.fromkeys(faults))
    if faults and book.plan is None:
        raise JobError(*book.cannot)
    return book
