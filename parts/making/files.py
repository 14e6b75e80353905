"""The files of a job, as planned: what stands is copied, the rest written, paper, pictures, page and records."""

from __future__ import annotations

import json
import shutil
from typing import TYPE_CHECKING

from parts.job_text import drawings
from parts.judging.finding import as_records
from parts.making.manifest import entry
from parts.making.plan import PAGE, sheets
from parts.making.solids import Order
from parts.register import ASSEMBLY, asked_for, load
from parts.sheets.coordinates import coordinates_csv, counterbores, machine_csv, rows

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from parts.checked import Checked
    from parts.judging.finding import Finding
    from parts.making.manifest import Listed
    from parts.making.plan import Plan
    from parts.pictures.filled import Filled
    from parts.register import Piece

    Written = list[tuple[Path, str]]

FILES = (("step", "solid"), ("stl", "mesh"), ("3mf", "mesh"), ("preview.png", "picture"))  # of every part


def keep(old: Path, new: Path, planned: Plan) -> list[Listed]:
    """Copy what stands."""
    kept = [one for entries in planned.kept.values() for one in entries]
    for one in kept:
        shutil.copyfile(old / one["path"], new / one["path"])
    return kept


def orders(new: Path, done: Checked, planned: Plan, threads: str) -> list[Order]:
    """What the kernel is asked for: parts and assembly to write, and those that a new page shows."""
    title, show = done.job.job.title, planned.lacks(PAGE)
    parts = [p for p in asked_for(done.job) if p.stem in done.shapes]
    wanted = [(p.stem, p.part.stem, done.of(p.stem).shapes[p.stem], p.title) for p in parts]
    if done.bodies:
        wanted.append((ASSEMBLY, ASSEMBLY, done.bodies, ASSEMBLY))
    return [
        Order(stem, part, shape, f"{name}, {title}", new, planned.lacks(stem), show, threads)
        for stem, part, shape, name in reversed(wanted)  # whose pictures take longest come first
        if show or planned.lacks(stem)
    ]


def write(
    new: Path,
    done: Checked,
    planned: Plan,
    answers: Iterator[Filled],
    found: Sequence[Finding],
    say: Callable[[str], None],
) -> list[Listed]:
    """Write what is lacking: the paper while the kernel builds, then the pictures, the page last."""
    written: dict[str, Written] = {}
    for piece in asked_for(done.job):
        if planned.lacks(piece.stem):
            say(f"{piece.title}, on paper")
            written[piece.stem] = _write_paper(new, piece, done.of(piece.stem))
    for stem, sheet, book, job in sheets(done.book, done.job):
        if planned.lacks(stem):
            say(stem)
            written[stem] = load(sheet.write)(book, job, done.findings, new)
    filled = {}
    for one in answers:
        say(one.stem)
        filled[one.stem] = one
        if planned.lacks(one.stem):
            written[one.stem] = written.get(one.stem, []) + _write_picture(new, one)
    if planned.lacks(PAGE):
        say("job sheet")
        written[PAGE] = _write_page(new, done, filled, found)
    parts = {stem: sheet.part + book.suffix for stem, sheet, book, _ in sheets(done.book, done.job)}
    parts |= {ASSEMBLY: "job", PAGE: "job"}
    return [
        entry(new, path.relative_to(new).as_posix(), parts.get(name, name), kind, planned.hashes[name])
        for name, files in written.items()
        for path, kind in files
    ]


def _write_paper(new: Path, piece: Piece, done: Checked) -> Written:
    """Write a part's outlines and drawing."""
    part, shape, folder, written = piece.part, done.shapes[piece.stem], new / "parts", list[tuple["Path", str]]()
    book, job = piece.book(done.book), piece.job(done.job)
    if part.outlines:
        written += load(part.outlines)(shape, book, job, folder)
    if part.drawing:
        from parts.sheets.drawing.compose import write_drawing

        found = [f for f in done.findings if piece.about(f.name)]
        written += write_drawing(load(part.drawing)(shape, book, job, found), job, folder)
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


def _write_page(new: Path, done: Checked, filled: dict[str, Filled], found: Sequence[Finding]) -> Written:
    from parts.sheets.page import job_page
    from parts.sheets.page.models import model_data

    now = done.now
    models = model_data(done.job, done.bodies, filled)
    return job_page(now.book, done.job, found, done.shapes, models, new, now.unknowns)


def write_records(new: Path, text: str, done: Checked, found: Sequence[Finding], made: str) -> list[Listed]:
    """Write the job as read, its drawings, sizes, findings and coordinates; `made`: hash of all that went into them."""
    now = done.now
    holes = [*rows(now.book, now.job), *counterbores(now.book, now.job)]
    inch = now.job.job.print_units == "inch"
    files = {
        "job.toml": text,
        "sizes.json": as_json(now.record),
        "findings.json": as_json(as_records(found)),
        "coordinates.csv": coordinates_csv(holes, inch=inch),
    }
    if on_machine := machine_csv(now.book, holes, inch=inch):
        files["machine-coordinates.csv"] = on_machine
    written = {name: content.encode() for name, content in files.items()} | drawings(text)
    for name, data in written.items():
        (new / name).write_bytes(data)
    return [entry(new, name, "job", "record", made) for name in written]


def as_json(value: object) -> str:
    """Write JSON as it stands in the folder: one space of indent, UTF-8, no NaN."""
    return json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
