"""The job file under a page that writes it: whole or not at all, by one page at a time."""

from __future__ import annotations

import os
import stat
from contextlib import contextmanager, suppress
from glob import escape
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError, WriteError
from parts.job_text import LARGEST, read_file
from parts.making.lock import let_go, take

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@contextmanager
def alone(path: Path) -> Iterator[Path]:
    """Hold a job file for this page; yield where it really stands, behind any link.

    JobError where another page has it or its folder is not there; WriteError where nothing can be written beside it.
    """
    path = path.resolve()
    if not path.parent.is_dir():
        raise JobError(Fault("", f"{path} can't be written: there is no folder {path.parent}"))
    lock = beside(path, "ask")
    try:
        handle = take(lock, lambda: _refuse(path))
    except OSError as error:
        raise WriteError(f"{path}: nothing can be written in {path.parent} ({error.strerror})") from None
    try:
        _clear(path)
        yield path
    finally:
        with suppress(OSError):  # its folder may be gone
            let_go(lock, handle)


def _refuse(path: Path) -> None:
    raise JobError(Fault("", f"{path} is open in another topend ask or watch: use that page, or end it with Ctrl-C"))


def _clear(path: Path) -> None:
    """Remove what a killed run left half written; only with the lock held."""
    for left in path.parent.glob(f"{escape(beside(path, '').name)}*"):
        if left.name.rpartition("-")[2].isdecimal():
            left.unlink(missing_ok=True)


def beside(path: Path, what: str) -> Path:
    """Name of what stands hidden beside a file."""
    return path.with_name(f".{path.name}.topend-{what}")


def read(path: Path) -> str:
    """Read a job file, empty where it is not there yet; JobError as `read_file`."""
    return read_file(path) if os.path.lexists(path) else ""


def write(path: Path, text: str) -> None:
    """Put a text in the place of a file, which keeps its mode: a run that is killed leaves the old one or the new.

    JobError for what could not be read again; WriteError for the disk, and for a file that is set to be read only.
    """
    data = text.encode("utf-8")
    if len(data) > LARGEST:
        raise JobError(Fault("", f"{path.name} would be too large: a job file has at most {LARGEST} bytes"))
    try:
        replace(path, data)
    except OSError as error:
        raise WriteError(f"{path.name} could not be written, it stands as it was ({error.strerror or error})") from None


def replace(path: Path, data: bytes) -> None:
    """Put bytes in the place of a file, or of none; OSError leaves what was there."""
    new = beside(path, str(os.getpid()))
    try:
        with new.open("wb") as out:
            out.write(data)
            out.flush()
            _take_mode(path, new)
            os.fsync(out.fileno())
        new.replace(path)
    finally:
        with suppress(OSError):
            new.unlink(missing_ok=True)


def _take_mode(old: Path, new: Path) -> None:
    if old.exists():
        if not os.access(old, os.W_OK):
            raise PermissionError(0, "it is set to be read only")
        new.chmod(stat.S_IMODE(old.stat().st_mode))
