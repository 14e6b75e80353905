"""A job file's text off the disk."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError

if TYPE_CHECKING:
    from pathlib import Path

LARGEST = 100_000  # bytes; the worked job has five thousand


def read_file(path: Path) -> str:
    """Read a job file's text.

    Raises
    ------
    JobError
        It is not there, not a file, too large or not UTF-8.
    """
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except IsADirectoryError:
        raise JobError(Fault("", f"{path} is a folder, not a job file")) from None
    except (OSError, ValueError) as error:
        raise JobError(Fault("", f"{path} can't be read: {getattr(error, 'strerror', None) or error}")) from None
    if len(data) > LARGEST:
        raise JobError(Fault("", f"{path} is too large: a job file has at most {LARGEST} bytes"))
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise JobError(Fault("", f"{path} is not UTF-8 text: byte {error.start} can't be read")) from None
