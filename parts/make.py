"""Make a job: everything sized and shaped first, then written into a folder that is whole or not there at all."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any, NamedTuple

from parts.book import record
from parts.errors import Fault, JobError
from parts.files import keep, orders, write, write_records
from parts.findings import Finding, findings
from parts.folder import check_target, leftovers, new_folder, write_manifest
from parts.job import at_their_lines, load
from parts.kernel import kernel
from parts.plan import Options, plan, still_whole, whole
from parts.register import asked_for, shapes, to_build
from parts.shapes.assembly import assembly_shape
from parts.sizing import size_job

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from pathlib import Path

    from parts.book import Book
    from parts.job import Job
    from parts.register import Part
    from parts.shapes.assembly import Body


@dataclass(frozen=True)
class Checked:
    """A job as read, sized, judged and shaped: all that is known before anything is made."""

    job: Job
    book: Book
    findings: list[Finding]
    shapes: dict[str, Any]
    """of every part that has all its sizes, by its stem"""
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
        return record(self.book)


class Made(NamedTuple):
    """What came of a make."""

    findings: list[Finding]
    written: int
    """files"""
    kept: int
    """files of the old folder that stand as they were"""


def checked(text: str, as_made: Iterable[str] = ()) -> Checked:
    """Read, size, judge and shape a job; the one place where shapes are made.

    Parameters
    ----------
    text : str
        Of the job file
    as_made : iterable of str
        Stems of the parts that are made to the sizes as they came out, not to the plan

    Returns
    -------
    done : Checked

    Raises
    ------
    JobError
        With every fault; also where a part that could be shaped can't be.
    """
    job = load(text)
    with _lines_of(text):
        return judged(job, as_made)


def judged(job: Job, as_made: Iterable[str] = (), *, contact: bool = True, book: Book | None = None) -> Checked:
    """Size, judge and shape a job that was read; `contact` and `book` as in `size_job`."""
    book = size_job(job, contact=contact, book=book)
    plan, wanted = book.plan or book, asked_for(job, as_made, "--as-made") if as_made else []
    ready = [p for p in asked_for(job) if all(n in plan for n in p.needs)]
    done = Checked(job, plan, findings(plan, job), shapes(ready, plan, job))
    if job.made is None or job.made.job is None:
        if wanted:
            raise JobError(
                Fault("--as-made", "the job file tells nothing that was measured of the work: give it a [made]")
            )
        return done
    made = Checked(job.made.job, book, findings(book, job), shapes(wanted, book, job.made.job))
    return replace(done, made=made)


def check(text: str) -> tuple[Job, Book, list[Finding]]:
    """As `checked`: job, book and findings alone, as the job stands now."""
    done = checked(text)
    return done.job, done.now.book, done.now.findings


@contextmanager
def _lines_of(text: str) -> Iterator[None]:
    """Give the faults of sizing and shaping the lines of their keys."""
    try:
        yield
    except JobError as error:
        raise JobError(*at_their_lines(error.faults, text)) from None


def make(
    text: str,
    into: Path,
    only: Iterable[str] = (),
    threads: str = "simplified",
    say: Callable[[str], None] = lambda _: None,
    *,
    fresh: bool = False,
    as_made: Iterable[str] = (),
) -> Made:
    """Write the whole output folder of a job; what stands in the old one just as it would be made is kept.

    Parameters
    ----------
    text : str
        Of the job file
    into : Path
        Folder to write; replaced only if it is ours
    only : iterable of str
        Stems of the parts to make; the others are kept where they still match
    threads : str
        "simplified": plain cylinders; or "detailed": true helices in the solid, mesh and picture of a part that has
        any. Drawings, the assembly and the job sheet's 3D view show plain ones either way
    say : callable
        Told what is being done, a line at a time
    fresh : bool
        Make everything again
    as_made : iterable of str
        Stems of the parts that are made to the sizes as they came out, not to the plan

    Returns
    -------
    made : Made

    Raises
    ------
    JobError
        The input is wrong; nothing was written.
    BuildError, WriteError
        The old folder stands as it was.
    """
    options = Options(tuple(only), threads, tuple(as_made))
    made = whole(text, options)
    check_target(into)
    if not fresh and not leftovers(into) and (standing := still_whole(into, made)):
        return Made(*standing)
    with kernel() as ask:  # it loads while the job is read
        done = checked(text, options.as_made)
        wanted = _wanted(done, text, options)
        with new_folder(into) as new:
            (new / "parts").mkdir()
            planned = plan(done, wanted, options, into, fresh=fresh)
            kept = keep(into, new, planned)
            answers = ask(orders(new, done, planned, options.threads))
            written = write(new, done, planned, answers, say)
            written += write_records(new, text, done, made)
            write_manifest(new, [*kept, *written])
    return Made(done.now.findings, len(written), len(kept))


def _wanted(done: Checked, text: str, options: Options) -> list[Part]:
    """Return the parts to make; JobError where there is none, or one lacks its sizes."""
    wanted = asked_for(done.job, options.only)
    if not wanted:
        raise JobError(Fault("", "the job asks for no part: give it a [stud], [plug], [ring], [gasket] or [mandrel]"))
    with _lines_of(text):
        shapes([p for p in wanted if p.stem not in done.shapes], done.book, done.job)
        to_build(wanted, {p.stem: done.of(p.stem).shapes[p.stem] for p in wanted}, options.threads)
    return wanted
