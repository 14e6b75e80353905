"""A job checked: read, sized, judged and shaped, which is all that is known before anything is made."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any

from parts.book import Book, record
from parts.errors import Fault, JobError
from parts.job import at_their_lines, load
from parts.judging.findings import judge
from parts.judging.limits import as_listed
from parts.register import asked_for, shapes
from parts.shapes.assembly import assembly_shape
from parts.sizing import size
from parts.sizing.placing import placed
from parts.unknowns.ranged import ranged
from parts.unknowns.states import first_book

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from parts.job import Job
    from parts.judging.finding import Finding
    from parts.shapes.bodies import Body
    from parts.unknowns.ranged import Ranged
    from parts.unknowns.unknown import Unknown


@dataclass(frozen=True)
class Checked:
    """A job as read, sized, judged and shaped: all that is known before anything is made."""

    job: Job
    book: Book
    findings: list[Finding]
    shapes: dict[str, Any]
    """of every part that has all its sizes, by its stem"""
    unknowns: list[Unknown] = field(default_factory=list)
    """what is not known, what decides most first"""
    ranges: dict[str, list[float]] = field(default_factory=dict)
    """size -> least and greatest that it can be, of those that rest on what is not known"""
    made: Checked | None = None
    """the same with the sizes as they came out, where any were measured; shapes of those parts that are made to them"""

    @property
    def now(self) -> Checked:
        """How the job stands: as made where anything was measured, else as planned."""
        return self.made or self

    def of(self, stem: str) -> Checked:
        """What a part is made to: the plan, or what was made where that is asked for."""
        return self.made if self.made and stem in self.made.shapes else self

    @cached_property
    def bodies(self) -> tuple[Body, ...]:
        """Of the assembly; none where there is no deck."""
        return assembly_shape(self.book, self.job, self.shapes)

    @cached_property
    def record(self) -> dict[str, dict[str, Any]]:
        """The book as it stands in sizes.json."""
        return record(
            self.book, limits=partial(as_listed, self.book, self.job), ranges={**self.book.meant, **self.ranges}
        )


def checked(text: str, as_made: Iterable[str] = (), *, ranges: bool = True) -> Checked:
    """Read, size, judge and shape a job; the one place where shapes are made.

    Parameters
    ----------
    text : str
        Of the job file
    as_made : iterable of str
        Stems of the parts that are made to the sizes as they came out, not to the plan
    ranges : bool
        Judge what is not known over its whole range, not just at the values taken

    Returns
    -------
    done : Checked

    Raises
    ------
    JobError
        With every fault; also where a part that could be shaped can't be.
    """
    job = load(text)
    with lines_of(text):
        return judged(job, as_made, ranges=ranges)


def judged(
    job: Job, as_made: Iterable[str] = (), *, contact: bool = True, book: Book | None = None, ranges: bool = True
) -> Checked:
    """Size, judge and shape a job that was read; `contact` and `book` as in `size`.

    What is not known is judged over its whole range, or without `ranges` at the values taken.
    """
    job = placed(job)
    book, found = sized(job, contact=contact, book=book, ranges=ranges)
    plan, wanted = book.plan or book, asked_for(job, as_made, "--as-made") if as_made else []
    ready = [p for p in asked_for(job) if all(n in p.book(plan) for n in p.part.needs)]
    done = Checked(job, plan, judge(plan, job), shapes(ready, plan, job))
    done = _over_ranges(done, found) if found else done
    if job.as_made is None:
        if wanted:
            raise JobError(
                Fault("--as-made", "the job file tells nothing that was measured of the work: give it a [made]")
            )
        return done
    made = Checked(job.as_made, book, judge(book, job), shapes(wanted, book, job.as_made))
    return replace(done, made=_over_ranges(made, ranged(job, book, as_made=True)) if found else made)


def sized(
    job: Job, *, contact: bool = True, book: Book | None = None, ranges: bool = True
) -> tuple[Book, Ranged | None]:
    """Size a job; also what comes of it over the range of what is not known, if anything is not and with `ranges`.

    What was designed at the values taken and does not hold in every state is designed once more, with what does.
    """
    varies = ranges and bool(job.unknown)
    if book is None and varies:
        book = first_book(job)
    book = size(job, contact=contact, book=book)
    found = ranged(job, book) if varies else None
    if found is None or not found.held or book.made:
        return book, found
    book = first_book(job) or Book()
    book.made = found.held
    return sized(job, contact=contact, book=book)


def _over_ranges(done: Checked, found: Ranged) -> Checked:
    """The same as judged over the whole range of what is not known."""
    return replace(done, findings=found.findings, ranges=found.ranges, unknowns=found.unknowns)


def check(text: str, *, ranges: bool = True) -> tuple[Job, Book, list[Finding]]:
    """As `checked`: job, book and findings alone, as the job stands now."""
    done = checked(text, ranges=ranges)
    return done.job, done.now.book, done.now.findings


@contextmanager
def lines_of(text: str) -> Iterator[None]:
    """Give the faults of sizing and shaping the lines of their keys."""
    try:
        yield
    except JobError as error:
        raise JobError(*at_their_lines(error.faults, text)) from None
