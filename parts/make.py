"""Make a job: everything sized and shaped first, then written into a folder that is whole or not there at all."""

from __future__ import annotations

import json
import shutil
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any, NamedTuple

from parts.book import record
from parts.errors import Fault, JobError
from parts.findings import Finding, as_records, findings
from parts.folder import check_target, entry, new_folder, write_manifest
from parts.job import at_their_lines, load
from parts.kernel import kernel
from parts.plan import PAGE, Options, Plan, plan, still_whole, whole
from parts.register import SHEETS, asked_for, shapes
from parts.register import load as load_function
from parts.shapes.assembly import ASSEMBLY, assembly_shape
from parts.sheets.coordinates import coordinates_csv, rows
from parts.sizing import size_job
from parts.solids import Order

FILES = (("step", "solid"), ("stl", "mesh"), ("preview.png", "picture"))  # of every part

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from pathlib import Path

    from parts.book import Book
    from parts.job import Job
    from parts.manifest import Entry
    from parts.register import Part
    from parts.shapes.assembly import Body
    from parts.solids import Filled

    Written = list[tuple[Path, str]]


@dataclass(frozen=True)
class Checked:
    """A job as read, sized, judged and shaped: all that is known before anything is made."""

    job: Job
    book: Book
    findings: list[Finding]
    shapes: dict[str, Any]
    """of every part that has all its sizes, by its stem"""

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


def checked(text: str) -> Checked:
    """Read, size, judge and shape a job; the one place where shapes are made.

    Parameters
    ----------
    text : str
        Of the job file

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
        book = size_job(job)
        ready = [p for p in asked_for(job) if all(n in book for n in p.needs)]
        shaped = shapes(ready, book, job)
    return Checked(job, book, findings(book, job), shaped)


def check(text: str) -> tuple[Job, Book, list[Finding]]:
    """As `checked`: job, book and findings alone."""
    done = checked(text)
    return done.job, done.book, done.findings


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
        "simplified"
    say : callable
        Told what is being done, a line at a time
    fresh : bool
        Make everything again

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
    options = Options(tuple(only), threads)
    made = whole(text, options)
    check_target(into)
    if not fresh and (standing := still_whole(into, made)):
        return Made(*standing)
    with kernel() as ask:  # it loads while the job is read
        done = checked(text)
        wanted = _wanted(done, text, options)
        with new_folder(into) as new:
            (new / "parts").mkdir()
            planned = plan(done, wanted, options, into, fresh=fresh)
            kept = _keep(into, new, planned)
            answers = ask(_orders(new, done, planned, options.threads))
            written = _write(new, done, planned, answers, say)
            written += _write_records(new, text, done, made)
            write_manifest(new, [*kept, *written])
    return Made(done.findings, len(written), len(kept))


def _wanted(done: Checked, text: str, options: Options) -> list[Part]:
    """Return the parts to make; JobError where there is none, or one lacks its sizes."""
    wanted = asked_for(done.job, options.only)
    if not wanted:
        raise JobError(Fault("", "the job asks for no part: give it a [stud], [plug], [ring], [gasket] or [mandrel]"))
    with _lines_of(text):
        shapes([p for p in wanted if p.stem not in done.shapes], done.book, done.job)
    if options.threads != "simplified":
        says = f"{options.threads} threads are not made yet: leave it away, or say simplified"
        raise JobError(Fault("--threads", says))
    return wanted


def _keep(old: Path, new: Path, planned: Plan) -> list[Entry]:
    """Copy what stands."""
    kept = [one for entries in planned.kept.values() for one in entries]
    for one in kept:
        shutil.copyfile(old / one["path"], new / one["path"])
    return kept


def _orders(new: Path, done: Checked, planned: Plan, threads: str) -> list[Order]:
    """What the kernel is asked for: parts and assembly to write, and those that a new page shows."""
    title, show = done.job.job.title, planned.lacks(PAGE)
    wanted = [(p.stem, done.shapes[p.stem], p.title) for p in asked_for(done.job) if p.stem in done.shapes]
    if done.bodies:
        wanted.append((ASSEMBLY, done.bodies, ASSEMBLY))
    return [
        Order(stem, shape, f"{name}, {title}", new, planned.lacks(stem), show, threads)
        for stem, shape, name in wanted
        if show or planned.lacks(stem)
    ]


def _write(
    new: Path, done: Checked, planned: Plan, answers: Iterator[Filled], say: Callable[[str], None]
) -> list[Entry]:
    """Write what is lacking: the paper while the kernel builds, then the pictures, the page last."""
    written: dict[str, Written] = {}
    for part in asked_for(done.job):
        if planned.lacks(part.stem):
            say(f"{part.title}, on paper")
            written[part.stem] = _write_paper(new, part, done)
    for sheet in SHEETS:
        if planned.lacks(sheet.stem):
            say(sheet.stem)
            written[sheet.stem] = load_function(sheet.write)(done.book, done.job, done.findings, new)
    filled = {}
    for one in answers:
        say(one.stem)
        filled[one.stem] = one
        if planned.lacks(one.stem):
            written[one.stem] = written.get(one.stem, []) + _write_picture(new, one)
    if planned.lacks(PAGE):
        say("job sheet")
        written[PAGE] = _write_page(new, done, filled)
    return [_entry(new, path, name, kind, planned) for name, files in written.items() for path, kind in files]


def _write_paper(new: Path, part: Part, done: Checked) -> Written:
    """Write a part's outlines and drawing."""
    shape, folder, written = done.shapes[part.stem], new / "parts", list[tuple["Path", str]]()
    if part.outlines:
        written += load_function(part.outlines)(shape, done.book, done.job, folder)
    if part.drawing:
        written += load_function(part.drawing)(shape, done.book, done.job, done.findings, folder)
    return written


def _write_picture(new: Path, one: Filled) -> Written:
    """Write the picture of what the kernel has written; return all these files."""
    from parts.pictures import write_exploded, write_preview

    if one.stem == ASSEMBLY:
        path, picture = new / "assembly.step", new / "assembly.preview.png"
        write_exploded(one.meshes, picture)
        return [(path, ASSEMBLY), (picture, "picture")]
    base = new / "parts" / one.stem
    write_preview(one.meshes[0], base.with_suffix(".preview.png"))
    return [(base.with_suffix(f".{end}"), kind) for end, kind in FILES]


def _write_page(new: Path, done: Checked, filled: dict[str, Filled]) -> Written:
    from parts.sheets.page import job_page
    from parts.sheets.page.models import model_data

    return job_page(done.book, done.job, done.findings, done.shapes, model_data(done.bodies, filled), new)


def _entry(new: Path, path: Path, name: str, kind: str, planned: Plan) -> Entry:
    parts = {sheet.stem: sheet.part for sheet in SHEETS} | {ASSEMBLY: "job", PAGE: "job"}
    return entry(new, path.relative_to(new).as_posix(), parts.get(name, name), kind, planned.hashes[name])


def _write_records(new: Path, text: str, done: Checked, made: str) -> list[Entry]:
    files = {
        "job.toml": text,
        "sizes.json": as_json(done.record),
        "findings.json": as_json(as_records(done.findings)),
        "coordinates.csv": coordinates_csv(rows(done.book, done.job)),
    }
    for name, content in files.items():
        (new / name).write_bytes(content.encode())
    return [entry(new, name, "job", "record", made) for name in files]


def as_json(value: object) -> str:
    """Write JSON as it stands in the folder: one space of indent, UTF-8, no NaN."""
    return json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
