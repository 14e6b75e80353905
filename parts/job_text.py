"""A job file's text off the disk."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Self

from parts.errors import Fault, JobError

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

LARGEST = 100_000  # bytes; the worked job has five thousand
LARGEST_DRAWING = 20_000_000
DEEPEST = 8  # no table that names a drawing lies deeper
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


class DrawingName(str):
    """A drawing's name in a job file's data, and what it holds: whoever reads the data again has it with it."""

    __slots__ = ("content",)
    content: bytes

    def __new__(cls, name: str, content: bytes = b"") -> Self:
        """Make one."""
        self = super().__new__(cls, name)
        self.content = content
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


def read_drawing(path: Path) -> bytes:
    """Read a drawing; JobError where it can't be, or is larger than a job may name."""
    try:
        if path.stat().st_size > LARGEST_DRAWING:
            raise JobError(Fault("", f"{path} is too large: a drawing has at most {LARGEST_DRAWING // 1_000_000} MB"))
        return path.read_bytes()
    except (OSError, ValueError) as error:
        raise JobError(Fault("", f"{path} can't be read: {getattr(error, 'strerror', None) or error}")) from None


def drawings(text: str, raw: object = None) -> dict[str, bytes]:
    """Read the drawings that a job file names, by name; none of a text that is of no file.

    Those that can't be read are left away: whoever looks for one tells of it by its key.
    """
    if not isinstance(text, JobText):
        return {}
    found = {}
    for name in sorted(drawing_names(text, raw)):
        path = text.folder / name
        try:
            if path.stat().st_size <= LARGEST_DRAWING:
                found[name] = path.read_bytes()
        except (OSError, ValueError):
            continue
    return found


def drawing_names(text: str, raw: object = None) -> set[str]:
    """Names of the drawings that a job file's text names, there or not."""
    return _named(_data(text) if raw is None else raw) if DXF in text else set()


def with_drawings(raw: Any, text: str) -> Any:  # noqa: ANN401 - TOML data
    """Return a job file's data with what its drawings hold; the data itself where it names none that can be read."""
    found = drawings(text, raw)
    return _with(raw, found) if found else raw


def _with(data: Any, found: Mapping[str, bytes], deep: int = DEEPEST) -> Any:  # noqa: ANN401 - TOML data
    if isinstance(data, list) and deep:
        return [_with(one, found, deep - 1) for one in data]
    if not isinstance(data, dict) or not deep:
        return data
    held = {key: _with(value, found, deep - 1) for key, value in data.items()}
    if isinstance(name := held.get(DXF), str) and name in found:
        held[DXF] = DrawingName(name, found[name])
    return held


def carried(data: object, deep: int = DEEPEST) -> dict[str, bytes]:
    """The drawings that a job file's data have with them, by name."""
    if isinstance(data, DrawingName):
        return {str(data): data.content}
    inside = data.values() if isinstance(data, dict) else data if isinstance(data, list) else ()
    return {name: content for one in inside for name, content in carried(one, deep - 1).items()} if deep else {}


def _data(text: str) -> object:
    import tomllib

    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return {}


def _named(data: object, deep: int = DEEPEST) -> set[str]:
    """Names of drawings anywhere in a file's data: plain ones, which lie in the folder itself."""
    if isinstance(data, dict):
        own = {v for k, v in data.items() if k == DXF and isinstance(v, str) and not set(v) & set("/\\:")}
        return own.union(*(_named(v, deep - 1) for v in data.values() if deep))
    return set[str]().union(*(_named(v, deep - 1) for v in data if deep)) if isinstance(data, list) else set()
