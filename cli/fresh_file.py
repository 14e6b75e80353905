"""A file that a verb writes where there is none yet."""

from __future__ import annotations

import os
from pathlib import Path, PureWindowsPath

THERE = "{} is there already and is not overwritten: name another file"


def refuse_old(path: Path, key: str) -> None:
    """Refuse a file that is there already, by whom it is written otherwise."""
    from parts.errors import Fault, JobError

    if os.path.lexists(path):
        raise JobError(Fault(key, THERE.format(path)))


def write_fresh(path: Path, text: str, key: str = "", newline: str = "\n") -> None:
    """Write a text to a new file; JobError where one is there already or can't be, WriteError for the disk."""
    from parts.errors import Fault, JobError, WriteError
    from parts.making.names import forbidden

    if os.name == "nt" and (says := forbidden(PureWindowsPath(path))):
        raise JobError(Fault(key, f"{path} can't be a file: {says}; name another"))
    try:
        with path.open("x", encoding="utf-8", newline=newline) as out:
            out.write(text)
    except FileExistsError:
        raise JobError(Fault(key, THERE.format(path))) from None
    except OSError as error:
        raise WriteError(f"{path} could not be written: {error.strerror}") from None
