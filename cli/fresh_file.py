"""A file that a verb writes where there is none yet."""

from __future__ import annotations

import os
from contextlib import contextmanager
from pathlib import Path, PureWindowsPath
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

THERE = "{} is there already and is not overwritten: name another file"


def refuse_old(path: Path, key: str) -> None:
    """Refuse a file that is there already, by whom it is written otherwise."""
    from parts.errors import Fault, JobError

    if os.path.lexists(path):
        raise JobError(Fault(key, THERE.format(path)))


def write_fresh(path: Path, lines: Iterable[str], key: str = "", newline: str = "\n") -> None:
    """Write lines to a new file as they come; JobError where one is there or can't be, WriteError for the disk."""
    from parts.errors import Fault, JobError, WriteError
    from parts.making.names import forbidden

    if os.name == "nt" and (says := forbidden(PureWindowsPath(path))):
        raise JobError(Fault(key, f"{path} can't be a file: {says}; name another"))
    try:
        with path.open("x", encoding="utf-8", newline=newline) as out:
            out.writelines(lines)
    except FileExistsError:
        raise JobError(Fault(key, THERE.format(path))) from None
    except OSError as error:
        raise WriteError(f"{path} could not be written: {error.strerror}") from None


@contextmanager
def fresh(path: Path, *endings: str) -> Iterator[list[Path]]:
    """Give a place for each of these endings of a name; what stands there at the end is moved to where it belongs.

    JobError where the name has not the first ending or one of the files is there already, WriteError for the disk.
    """
    from parts.errors import Fault, JobError, WriteError

    if path.suffix.lower() != endings[0]:
        raise JobError(Fault("", f"{path} is to be a file that ends in {endings[0]}"))
    ends = [path.with_suffix(ending) for ending in endings]
    for end in ends:
        if end.exists():
            raise JobError(Fault("", f"{end} is there already and is not overwritten: name another file"))
    try:
        with TemporaryDirectory(dir=path.parent, prefix=".topend-") as place:
            drafts = [Path(place) / end.name for end in ends]
            yield drafts
            for draft, end in zip(drafts, ends, strict=True):
                draft.rename(end)
    except OSError as error:
        raise WriteError(f"{path} could not be written: {error.strerror}") from None
