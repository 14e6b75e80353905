"""What a folder will hold, from what, and what of the old one still stands.

Each part and sheet has a hash of all that its files show. It stands beside the file in the manifest as `made_from`, so
that a file of the old folder which has the hash and is untouched is what would be made again. Sizes come into the hash
as the book has them, hence a changed table makes again what its figures changed, and nothing else.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from parts import __version__
from parts.findings import Finding, as_records
from parts.manifest import MANIFEST, read_manifest, unchanged
from parts.register import SHEETS, THREADS, about, asked_for
from parts.shapes.assembly import ASSEMBLY

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from parts.make import Checked
    from parts.manifest import Entry
    from parts.register import Part

PAGE = "page"
RECORDS = {"job.toml", "sizes.json", "findings.json", "coordinates.csv"}
HERE = Path(__file__).parent
CODE = {".py", ".j2", ".css", ".js", ".ttf", ".txt"}


@dataclass(frozen=True, slots=True)
class Options:
    """What was asked for besides the job itself."""

    only: tuple[str, ...] = ()
    threads: str = "simplified"
    as_made: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """Parts and sheets of the folder by name: what each is made from, and the files of those that stand."""

    hashes: dict[str, str]
    kept: dict[str, list[Entry]]

    def lacks(self, name: str) -> bool:
        """Tell whether a part or sheet is to be made."""
        return name in self.hashes and name not in self.kept


# what things are made from --------------------------------------------------------------------------------------------


def source(*what: object) -> str:
    """Hash of plain values, and of the code's version."""
    return hashlib.sha256(repr((__version__, *what)).encode()).hexdigest()


@lru_cache(1)
def tables() -> str:
    """Hash of the published tables, all their files."""
    files = sorted((HERE / "tables").glob("*.csv"))
    return source([(file.name, hashlib.sha256(file.read_bytes()).hexdigest()) for file in files])


def whole(text: str, options: Options) -> str:
    """Hash of what a whole folder is made from: its records bear it."""
    return source(text.encode(), tables(), options)


def made_from(part: Part, done: Checked, threads: str = "simplified") -> str:
    """Hash of what a part's files show: shape, sizes, findings, the job's head, the options that bear on it."""
    threads = threads if part.detailed else THREADS[0]
    says = [(f.verdict, f.says) for f in done.findings if about(part, f.name)]
    return source(part.stem, done.shapes[part.stem], threads, says, shown(done, (part.table, *part.shows)))


def shown(done: Checked, shows: Sequence[str]) -> list[object]:
    """What stands under these beginnings of names: sizes with their limits, and whole tables of the job."""
    given = [done.job.job, *(getattr(done.job, table, None) for table in shows)]
    sizes = [n for n in done.book if any(f"{n.removeprefix('job.')}.".startswith(f"{start}.") for start in shows)]
    return [repr(given), [(n, done.book[n].value, done.book[n].unit, done.book.limits(n)) for n in sizes]]


def plan(done: Checked, wanted: Iterable[Part], options: Options, old: Path, *, fresh: bool = False) -> Plan:
    """Plan the folder of a job: the parts wanted, those others of the old folder that still match, the sheets."""
    asked, now = [p for p in asked_for(done.job) if p.stem in done.shapes], done.now
    parts = {p.stem: made_from(p, done.of(p.stem), options.threads) for p in asked}
    sheets = {s.stem: source(s.stem, shown(done, s.shows)) for s in SHEETS}
    if done.bodies:
        sheets[ASSEMBLY] = source(ASSEMBLY, done.job.job.title, done.bodies)
    stems = {p.stem for p in wanted}
    standing = untouched(old, {**parts, **sheets})
    hashes = {name: made for name, made in parts.items() if name in stems or name in standing} | sheets
    page = source(PAGE, repr(done.job), now.record, as_records(now.findings), sorted(hashes.items()))
    standing |= untouched(old, {PAGE: page})
    if fresh or program_is_newer(old / MANIFEST):
        standing = {name: entries for name, entries in standing.items() if name in parts.keys() - stems}
    return Plan({**hashes, PAGE: page}, standing)


# what still stands ----------------------------------------------------------------------------------------------------


def untouched(folder: Path, hashes: dict[str, str]) -> dict[str, list[Entry]]:
    """Files of a folder made from just this, by part or sheet; only where all of its files are as they were made."""
    by: dict[str, list[Entry]] = {}
    for one in read_manifest(folder) or []:
        by.setdefault(one["made_from"], []).append(one)
    found = {name: by[made] for name, made in hashes.items() if made in by}
    return {name: entries for name, entries in found.items() if all(unchanged(folder, one) for one in entries)}


def still_whole(folder: Path, made: str) -> tuple[list[Finding], int, int] | None:
    """Findings of a folder that was made from just this and is untouched, files written (none) and kept; else None."""
    listed = read_manifest(folder) or []
    records = {one["path"] for one in listed if one["made_from"] == made}
    untouched_all = records >= RECORDS and all(unchanged(folder, one) for one in listed)
    if not untouched_all or program_is_newer(folder / MANIFEST):
        return None
    found = [Finding(**record) for record in json.loads((folder / "findings.json").read_bytes())]
    return found, 0, len(listed)


def program_is_newer(manifest: Path) -> bool:
    """Tell whether the program itself was changed since; the tables are told by what they hold."""
    try:
        made = manifest.stat().st_mtime_ns
    except OSError:
        return True
    return any(file.stat().st_mtime_ns > made for file in HERE.rglob("*") if file.suffix in CODE)
