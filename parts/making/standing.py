"""What of an output folder still stands: told by what its files were made from, before anything is worked out.

Each part and sheet has a hash of all that its files show. It stands beside the file in the manifest as `made_from`, so
that a file of the old folder which has the hash and is untouched is what would be made again.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import parts
from parts import __version__
from parts.job_text import drawings
from parts.judging.finding import Finding
from parts.making.manifest import MANIFEST, Listed, read_manifest, unchanged

RECORDS = {"job.toml", "sizes.json", "findings.json", "coordinates.csv"}
HERE = Path(parts.__file__).parent  # the whole program, wherever this module lies in it
CODE = {".py", ".j2", ".css", ".js", ".ttf", ".txt"}


@dataclass(frozen=True, slots=True)
class Options:
    """What was asked for besides the job itself."""

    only: tuple[str, ...] = ()
    threads: str = "simplified"
    as_made: tuple[str, ...] = ()


class Outcome(NamedTuple):
    """What came of a make."""

    findings: list[Finding]
    written: int
    """files"""
    kept: int
    """files of the old folder that stand as they were"""
    made: tuple[str, ...] = ()
    """parts and sheets that were made, by name"""


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
    return source(text.encode(), sorted(drawings(text).items()), tables(), options)


def untouched(folder: Path, hashes: dict[str, str]) -> dict[str, list[Listed]]:
    """Files of a folder made from just this, by part or sheet; only where all of its files are as they were made."""
    by: dict[str, list[Listed]] = {}
    for one in read_manifest(folder) or []:
        by.setdefault(one["made_from"], []).append(one)
    found = {name: by[made] for name, made in hashes.items() if made in by}
    return {name: entries for name, entries in found.items() if all(unchanged(folder, one) for one in entries)}


def still_whole(folder: Path, made: str) -> Outcome | None:
    """What would come of making a folder again that was made from just this and is untouched; else None."""
    listed = read_manifest(folder) or []
    records = {one["path"] for one in listed if one["made_from"] == made}
    untouched_all = records >= RECORDS and all(unchanged(folder, one) for one in listed)
    if not untouched_all or program_is_newer(folder / MANIFEST):
        return None
    found = [Finding(**record) for record in json.loads((folder / "findings.json").read_bytes())]
    return Outcome(found, 0, len(listed))


def program_is_newer(manifest: Path) -> bool:
    """Tell whether the program itself was changed since; the tables are told by what they hold."""
    try:
        made = manifest.stat().st_mtime_ns
    except OSError:
        return True
    return any(file.stat().st_mtime_ns > made for file in HERE.rglob("*") if file.suffix in CODE)
