"""The manifest of the output folder: what topend made there, and from what."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any, TypedDict

if TYPE_CHECKING:
    from collections.abc import Iterable

MANIFEST = "manifest.json"
KINDS = {"path": str, "part": str, "kind": str, "bytes": int, "sha256": str, "made_from": str}


class Listed(TypedDict):
    """One file of the output folder, as its manifest lists it."""

    path: str
    """from the folder on, with forward slashes"""
    part: str
    kind: str
    bytes: int
    sha256: str
    made_from: str


def digest(path: Path) -> str:
    """SHA-256 of a file, in hex."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def entry(folder: Path, path: str, part: str, kind: str, made_from: str) -> Listed:
    """Describe a file that stands in the folder."""
    file = folder / path
    return Listed(path=path, part=part, kind=kind, bytes=file.stat().st_size, sha256=digest(file), made_from=made_from)


def manifest(entries: Iterable[Listed]) -> str:
    """Return the text of manifest.json, sorted by path."""
    listed = sorted(entries, key=lambda e: e["path"])
    return json.dumps([{key: one[key] for key in KINDS} for one in listed], indent=1, ensure_ascii=False) + "\n"  # type: ignore[literal-required]


def write_manifest(folder: Path, entries: Iterable[Listed]) -> None:
    """Write manifest.json into the folder."""
    (folder / MANIFEST).write_bytes(manifest(entries).encode())


def read_manifest(folder: Path) -> list[Listed] | None:
    """Return what the folder's manifest lists, None where there is none of ours."""
    try:
        read = json.loads((folder / MANIFEST).read_bytes())
    except (OSError, ValueError, RecursionError):
        return None
    ours = isinstance(read, list) and read and all(map(_is_entry, read))
    return read if ours else None


def _is_entry(one: Any) -> bool:  # noqa: ANN401 - whatever the file holds
    if not isinstance(one, dict) or one.keys() != KINDS.keys():
        return False
    path = PurePosixPath(str(one["path"]))
    return (
        all(type(one[key]) is kind for key, kind in KINDS.items()) and not path.is_absolute() and ".." not in path.parts
    )


def unchanged(folder: Path, one: Listed) -> bool:
    """Whether the file that the entry lists stands in the folder, byte for byte."""
    path = folder / one["path"]
    try:
        return path.is_file() and path.stat().st_size == one["bytes"] and digest(path) == one["sha256"]
    except OSError:
        return False
