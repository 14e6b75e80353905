"""What was saved: the job file and the drawings that it names, looked at again and again.

By size and dates, which costs little. What a system tells by itself of a file, it tells of that one file, while most
editors put a new one in its place; and of a folder in the net it tells nothing.
"""

from __future__ import annotations

from time import monotonic
from typing import TYPE_CHECKING

from parts.job_text import drawing_names, read_file

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from parts.job_text import JobText

    Mark = tuple[int, ...] | None
    """of a file: which it is, its size and dates; None where there is none"""

EVERY = 0.02  # s between two looks; what is the same at two of them is saved
PATIENCE = 0.5  # s that a file may be gone or empty amid a save
EMPTY = 0


class Saves:
    """A job file under an editor."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._drawings: list[Path] = []
        self._read: list[Mark] = []
        """marks of what was read last"""
        self._seen, self._since = self._read, monotonic()
        """marks at the last look, and since when they are these"""

    def look(self) -> JobText | None:
        """The text, once after each save that is done; the first time at once.

        Raises
        ------
        JobError
            Once, where the file can't be read: it stayed away, or is no text.
        """
        now = self._marks()
        if now != self._seen:
            self._seen, self._since = now, monotonic()
        if now == self._read or (self._read and monotonic() - self._since < self._wait(now)):
            return None
        self._read = now
        text = read_file(self._path)
        self._drawings = [text.folder / name for name in sorted(drawing_names(text))]
        self._read = [now[0], *_marks(self._drawings)]
        return text

    def _marks(self) -> list[Mark]:
        return _marks([self._path, *self._drawings])

    def _wait(self, now: list[Mark]) -> float:
        """How long a state has to stand: longer where a file was there and is not, or is empty."""
        lost = any(_is_lost(one) and not _is_lost(before) for one, before in zip(now, self._read, strict=True))
        return PATIENCE if lost else EVERY


def _marks(paths: Iterable[Path]) -> list[Mark]:
    return [_mark(path) for path in paths]


def _mark(path: Path) -> Mark:
    try:
        now = path.stat()
    except (OSError, ValueError):
        return None
    return now.st_size, now.st_mtime_ns, now.st_ctime_ns, now.st_ino, now.st_dev


def _is_lost(mark: Mark) -> bool:
    return mark is None or mark[0] == EMPTY
