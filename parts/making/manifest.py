"""The manifest of the output folder: what topend made there, and from what."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import TYPE_CHECKING, Any, TypedDict

if TYPE_CHECKING:
    from collections.abc import Iterable

MANIFEST = "manifest.json"
FOREIGN = f"holds other files and no {MANIFEST} of topend"
TORN = f"holds a {MANIFEST} that is torn or no JSON, and without it nobody knows whose the files there are"
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
    return _read(folder)[0]


def not_ours(folder: Path) -> str:
    """Say why a folder's manifest is none of ours, in words that follow the folder's name; empty where it is one."""
    return _read(folder)[1]


def _read(folder: Path) -> tuple[list[Listed] | None, str]:
    """What the manifest lists, or why it is none of ours."""
    try:
        read = json.loads((folder / MANIFEST).read_bytes())
    except OSError:
        return None, FOREIGN
    except (ValueError, RecursionError):
        return None, TORN
    if not isinstance(read, list) or not read or not all(map(_is_entry, read)):
        return None, FOREIGN
    if (outside := next((one["path"] for one in read if not _is_inside(one["path"])), None)) is not None:
        return None, f"holds a {MANIFEST} that topend never wrote, forged: it lists {outside!r}, no file of the folder"
    return read, ""


def _is_entry(one: Any) -> bool:  # noqa: ANN401 - whatever the file holds
    if not isinstance(one, dict) or one.keys() != KINDS.keys():
        return False
    return all(type(one[key]) is kind for key, kind in KINDS.items())


def _is_inside(path: str) -> bool:
    """Tell whether a path stays in the folder, on every system."""
    posix, windows = PurePosixPath(path), PureWindowsPath(path)
    return bool(path) and ".." not in windows.parts and not (posix.is_absolute() or windows.anchor or "\\" in path)


def unchanged(folder: Path, one: Listed) -> bool:
    """Whether the file that the entry lists stands in the folder, byte for byte."""
    path = folder / one["path"]
    try:
        return path.is_file() and path.stat().st_size == one["bytes"] and digest(path) == one["sha256"]
    except OSError:
        return False
