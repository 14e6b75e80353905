"""Writers: one module per file format.

Each takes a finished solid or outline and a path, writes mm, name and layers, reads the file back and compares: what
is missing or differs is a WriteError. The same part gives the same bytes on every run. A writer never builds or sizes.
"""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from parts.errors import TopendError, WriteError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from cadquery import Shape


@contextmanager
def writing(path: Path) -> Iterator[None]:
    """Turn whatever fails while `path` is written or read back into a WriteError that names it."""
    if not path.parent.is_dir():
        raise WriteError(f"{path}: could not be written, there is no folder {path.parent}")
    try:
        yield
    except TopendError:
        raise
    except Exception as error:
        says = getattr(error, "strerror", None) or f"{type(error).__name__}: {error}"
        raise WriteError(f"{path}: could not be written ({says})") from error


def whole(solid: Shape, path: Path) -> float:
    """Return the volume of what is to be written [mm^3]; WriteError unless it is one valid solid."""
    solids = solid.Solids()
    volume = float(solids[0].Volume()) if len(solids) == 1 else 0.0
    if not solid.isValid() or not volume > 0:
        raise WriteError(f"{path}: nothing to write, {len(solids)} solids of {volume:g} mm^3 where one is needed")
    return volume
