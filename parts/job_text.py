"""A job file's text off the disk."""

from __future__ import annotations

from typing import TYPE_CHECKING, Self

from parts.errors import Fault, JobError

if TYPE_CHECKING:
    from pathlib import Path

LARGEST = 100_000  # bytes; the worked job has five thousand
LARGEST_DRAWING = 20_000_000
DXF = "dxf"
"""key under which a table names a drawing, which stands beside the job file"""


class JobText(str):
    """A job file's text, and the folder that the drawings it names stand in."""

    __slots__ = ("folder",)
    folder: Path

    def __new__(cls, text: str, folder: Path) -> Self:
        """Make one."""
        self = super().__new__(cls, text)
        self.folder = folder
        return self


def read_file(path: Path) -> JobText:
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
        return JobText(data.decode("utf-8"), path.parent)
    except UnicodeDecodeError as error:
        raise JobError(Fault("", f"{path} is not UTF-8 text: byte {error.start} can't be read")) from None


def drawings(text: str, raw: object = None) -> dict[str, bytes]:
    """Read the drawings that a job file names, by name; none of a text that is of no file.

    Those that can't be read are left away: whoever looks for one tells of it by its key.
    """
    if not isinstance(text, JobText) or DXF not in text:
        return {}
    found = {}
    for name in sorted(_named(_data(text) if raw is None else raw)):
        path = text.folder / name
        try:
            if path.stat().st_size <= LARGEST_DRAWING:
                found[name] = path.read_bytes()
        except (OSError, ValueError):
            continue
    return found


def _data(text: str) -> object:
    import tomllib

    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return {}


def _named(data: object, deep: int = 8) -> set[str]:
    """Names of drawings anywhere in a file's data: plain ones, which lie in the folder itself."""
    if isinstance(data, dict):
        own = {v for k, v in data.items() if k == DXF and isinstance(v, str) and not set(v) & set("/\\:")}
        return own.union(*(_named(v, deep - 1) for v in data.values() if deep))
    return set[str]().union(*(_named(v, deep - 1) for v in data if deep)) if isinstance(data, list) else set()
