"""Make a job: everything sized and shaped first, then written into a folder that is whole or not there at all."""

from __future__ import annotations

import hashlib
import json
import shutil
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from parts import __version__
from parts.book import record
from parts.errors import Fault, JobError
from parts.findings import Finding, as_records, findings
from parts.folder import check_target, entry, new_folder, read_manifest, unchanged, write_manifest
from parts.job import at_their_lines, load
from parts.register import asked_for, made_from, shapes, to_build
from parts.register import load as load_function
from parts.sheets.coordinates import coordinates_csv, machine_csv, rows
from parts.sizing import size_job

JOB_SHEETS = (
    "parts.sheets.templates:deck_template",
    "parts.sheets.assembly:assembly_sheets",
    "parts.sheets.ring_plot:ring_pressure",
    "parts.sheets.page:job_page",  # the last: it shows what the others wrote
)
"""module:function of every sheet about the whole job, each called as f(book, job, findings, shapes, solids, folder)"""
PLOTS = ("ring-pressure",)  # sheets that the manifest lists as a part of their own
FILES = (("step", "solid"), ("stl", "mesh"), ("preview.png", "picture"))  # of every part

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from pathlib import Path

    from parts.book import Book
    from parts.job import Job
    from parts.manifest import Entry
    from parts.register import Part

    Told = tuple[Book, Job, list[Finding]]


def check(text: str) -> tuple[Job, Book, list[Finding]]:
    """Read, size and judge a job.

    Parameters
    ----------
    text : str
        Of the job file

    Returns
    -------
    job, book, findings : Job, Book, list of Finding

    Raises
    ------
    JobError
        With every fault; also where a part that could be shaped can't be.
    """
    job = load(text)
    with _lines_of(text):
        return job, *judge(job)


def judge(job: Job, *, contact: bool = True, book: Book | None = None) -> tuple[Book, list[Finding]]:
    """Size, shape and judge a job that was read; `contact` and `book` as in `size_job`."""
    book = size_job(job, contact=contact, book=book)
    _shapes_that_can_be(book.plan or book, job)
    return book, findings(book, job)


@contextmanager
def _lines_of(text: str) -> Iterator[None]:
    """Give the faults of sizing and shaping the lines of their keys."""
    try:
        yield
    except JobError as error:
        raise JobError(*at_their_lines(error.faults, text)) from None


def _shapes_that_can_be(book: Book, job: Job) -> dict[str, Any]:
    """Shape what has all its sizes: what can't be made is told at once, not only when it is made."""
    ready = [p for p in asked_for(job) if all(n in book for n in p.needs)]
    return shapes(ready, book, job)


def make(
    text: str,
    into: Path,
    only: Iterable[str] = (),
    threads: str = "simplified",
    say: Callable[[str], None] = lambda _: None,
) -> list[Finding]:
    """Write the whole output folder of a job.

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

    Returns
    -------
    findings : list of Finding

    Raises
    ------
    JobError
        The input is wrong; nothing was written.
    BuildError, WriteError
        The old folder stands as it was.
    """
    job, book, found = check(text)
    wanted = asked_for(job, only)
    if not wanted:
        raise JobError(Fault("", "the job asks for no part: give it a [stud], [plug], [ring], [gasket] or [mandrel]"))
    with _lines_of(text):
        shaped = shapes(wanted, book, job)
        forms = to_build(wanted, shaped, threads)
    check_target(into)
    with new_folder(into) as new:
        (new / "parts").mkdir()
        entries = _keep(into, new, (book, job, found), {p.stem for p in wanted}, threads)
        solids: dict[str, Any] = {}
        for part in wanted:
            say(part.title)
            form, build = forms[part.stem]
            solids[part.stem] = load_function(build)(form, part.title)
            entries += _write_part(new, part, shaped[part.stem], (book, job, found), solids[part.stem], threads)
        say("sheets")
        entries += _write_sheets(new, text, (book, job, found), _shapes_that_can_be(book, job), solids)
        say("sizes, findings, coordinates")
        entries += _write_records(new, text, book, job, found)
        write_manifest(new, entries)
    return found


def _keep(old: Path, new: Path, told: Told, wanted: set[str], threads: str) -> list[Entry]:
    """Copy files of parts that were not named, where they are what this job would give."""
    book, job, _ = told
    listed = read_manifest(old) or []
    others = [p for p in asked_for(job) if p.stem not in wanted and all(n in book for n in p.needs)]
    hashes = {p.stem: made_from(p, shapes([p], book, job)[p.stem], told, threads) for p in others}
    kept = [e for e in listed if e["made_from"] == hashes.get(e["part"]) and unchanged(old, e)]
    for e in kept:
        shutil.copyfile(old / e["path"], new / e["path"])
    return kept


def _write_part(
    new: Path,
    part: Part,
    shape: Any,  # noqa: ANN401
    told: Told,
    solid: Any,  # noqa: ANN401
    threads: str,
) -> list[Entry]:
    """Write a part's own files."""
    from parts.pictures import THREADED, write_preview
    from parts.pictures.mesh import TURN
    from parts.writers import step, stl

    book, job, found = told
    base = new / "parts" / part.stem
    name = f"{part.title}, {job.job.title}"
    step.write_step(solid, name, getattr(step, part.color), base.with_suffix(".step"))
    true = threads == "detailed" and part.detailed is not None
    stl.write_stl(solid, base.with_suffix(".stl"), stl.THREADED if true else stl.SAGITTA)
    write_preview(solid, getattr(step, part.color), base.with_suffix(".preview.png"), THREADED if true else TURN)
    written = [(base.with_suffix(f".{end}"), kind) for end, kind in FILES]
    if part.outlines:
        written += load_function(part.outlines)(shape, book, job, new / "parts")
    if part.drawing:
        written += load_function(part.drawing)(shape, book, job, found, new / "parts")
    source = made_from(part, shape, told, threads)
    return [entry(new, path.relative_to(new).as_posix(), part.stem, kind, source) for path, kind in written]


def _write_sheets(new: Path, text: str, told: Told, shaped: dict[str, Any], solids: dict[str, Any]) -> list[Entry]:
    """Write the sheets about the whole job."""
    written = [pair for sheet in JOB_SHEETS for pair in load_function(sheet)(*told, shaped, solids, new)]
    source = _source(text)
    of = {path: path.stem if path.stem in PLOTS else "job" for path, _ in written}
    return [entry(new, path.relative_to(new).as_posix(), of[path], kind, source) for path, kind in written]


def _write_records(new: Path, text: str, book: Book, job: Job, found: list[Finding]) -> list[Entry]:
    files = {
        "job.toml": text,
        "sizes.json": as_json(record(book)),
        "findings.json": as_json(as_records(found)),
        "coordinates.csv": coordinates_csv(rows(book, job)),
    }
    if on_machine := machine_csv(book, rows(book, job)):
        files["machine-coordinates.csv"] = on_machine
    source = _source(text)
    for name, content in files.items():
        (new / name).write_bytes(content.encode())
    return [entry(new, name, "job", "record", source) for name in files]


def _source(text: str) -> str:
    return hashlib.sha256(f"{__version__}\n{text}".encode()).hexdigest()


def as_json(value: object) -> str:
    """Write JSON as it stands in the folder: one space of indent, UTF-8, no NaN."""
    return json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
