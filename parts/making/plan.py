"""What a folder will hold, what each part and sheet of it is made from, and what of the old one still stands.

Sizes come into the hash of what a file is made from as the book has them, hence a changed table makes again what its
figures changed, and nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import TYPE_CHECKING

from parts.judging.finding import as_records
from parts.making.manifest import MANIFEST
from parts.making.standing import program_is_newer, source, untouched
from parts.register import ASSEMBLY, SHEETS, THREADS, asked_for
from parts.sizing.scenes import scenes

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

    from parts.book import Book
    from parts.checked import Checked
    from parts.job import Job
    from parts.making.manifest import Listed
    from parts.making.standing import Options
    from parts.register import Overview, Piece

PAGE = "page"


@dataclass(frozen=True, slots=True)
class Plan:
    """Parts and sheets of the folder by name: what each is made from, and the files of those that stand."""

    hashes: dict[str, str]
    kept: dict[str, list[Listed]]

    def lacks(self, name: str) -> bool:
        """Tell whether a part or sheet is to be made."""
        return name in self.hashes and name not in self.kept


def sheets(book: Book, job: Job) -> Iterator[tuple[str, Overview, Book, Job]]:
    """Name of every sheet about the whole job, with book and job as it sees them."""
    for sheet in SHEETS:
        for view, own, _ in scenes(book, job, sheet.kind):
            yield sheet.stem + view.suffix, sheet, view, own


# what things are made from --------------------------------------------------------------------------------------------


def made_from(piece: Piece, done: Checked, threads: str = "simplified") -> str:
    """Hash of what a part's files show: shape, sizes, findings, the job's head, the options that bear on it."""
    part = piece.part
    threads = threads if part.threaded else THREADS[0]
    says = [(f.verdict, f.says) for f in done.findings if piece.about(f.name)]
    own = shown(piece.book(done.book), piece.job(done.job), (part.table, *part.shows))
    return source(piece.stem, done.shapes[piece.stem], threads, says, own)


def shown(book: Book, job: Job, shows: Sequence[str]) -> list[object]:
    """What stands under these beginnings of names: sizes with their limits, and whole tables of the job."""
    given = [job.job, *(getattr(job, table, None) for table in shows), *(job.others(shows))]
    names = (n for n in book if not book.is_of_another(n))
    sizes = [n for n in names if any(fnmatchcase(f"{n.removeprefix('job.')}.", f"{start}.*") for start in shows)]
    return [repr(given), [(n, book[n].value, book[n].unit, book.limits(n)) for n in sizes]]


def plan(done: Checked, wanted: Iterable[Piece], options: Options, old: Path, *, fresh: bool = False) -> Plan:
    """Plan the folder of a job: the parts wanted, those others of the old folder that still match, the sheets."""
    asked, now = [p for p in asked_for(done.job) if p.stem in done.shapes], done.now
    parts = {p.stem: made_from(p, done.of(p.stem), options.threads) for p in asked}
    every = sheets(done.book, done.job)
    whole = {stem: source(stem, shown(book, job, sheet.shows)) for stem, sheet, book, job in every}
    if done.bodies:
        whole[ASSEMBLY] = source(ASSEMBLY, done.job.job.title, done.bodies)
    stems = {p.stem for p in wanted}
    standing = untouched(old, {**parts, **whole})
    hashes = {name: made for name, made in parts.items() if name in stems or name in standing} | whole
    unknown = [now.unknowns, done.job.absent] if now.unknowns or done.job.absent else []
    page = source(PAGE, done.job.whole(), now.record, as_records(now.findings), sorted(hashes.items()), *unknown)
    standing |= untouched(old, {PAGE: page})
    if fresh or program_is_newer(old / MANIFEST):
        standing = {name: entries for name, entries in standing.items() if name in parts.keys() - stems}
    return Plan({**hashes, PAGE: page}, standing)
