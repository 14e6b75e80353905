"""What is the user's in an output folder comes into the new one: their own files, and ours that they have changed.

A file of theirs keeps its name where that is free. Ours that was changed since it was written stands beside the new one
as `NAME.kept-1.dxf`, with the next free number, and so does a file of theirs where a new one wants its name.
"""

from __future__ import annotations

import filecmp
import os
import shutil
from contextlib import suppress
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from parts.making.manifest import MANIFEST, read_manifest, unchanged

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.making.manifest import Listed


def carry_over(old: Path, new: Path) -> list[str]:
    """Bring what is the user's into the new folder; it stays in the old one as well.

    Returns
    -------
    kept : list of str
        A sentence on each file that bears another name now
    """
    listed = {one["path"]: one for one in read_manifest(old) or []}
    moved: dict[Path, Path] = {}
    kept = []
    for path in sorted(_leaves(old)):
        name = path.relative_to(old)
        ours = listed.get(name.as_posix())
        if _stays(path, new / name, old, ours) or name == Path(MANIFEST):
            continue
        goes = _place(old, new, name, moved, changed=ours is not None)
        (new / goes).parent.mkdir(parents=True, exist_ok=True)
        _copy(path, new / goes)
        if goes != name:
            was = "was changed since topend wrote it" if ours else "stood where topend writes"
            kept.append(f"{name.as_posix()} {was}: kept as {goes.as_posix()}")
    _dress(old, new, moved, {Path(path).parent for path in listed} | {Path()})
    return kept


def _stays(path: Path, stands: Path, old: Path, ours: Listed | None) -> bool:
    """Tell whether nothing is to be kept: ours as it was written, or the same as what stands in the new folder."""
    if ours and unchanged(old, ours):
        return True
    if _is_folder(path):
        return _is_folder(stands)
    return not path.is_symlink() and stands.is_file() and path.is_file() and filecmp.cmp(path, stands, shallow=False)


def _leaves(folder: Path) -> Iterator[Path]:
    """Yield files, links and empty folders below a folder; an OSError for one that cannot be read."""
    if not folder.is_dir():
        return
    for path in folder.iterdir():
        below = list(_leaves(path)) if _is_folder(path) else []
        yield from below or [path]


def _is_folder(path: Path) -> bool:
    return path.is_dir() and not path.is_symlink()


def _place(old: Path, new: Path, name: Path, moved: dict[Path, Path], *, changed: bool) -> Path:
    """Where a file goes: its own name, or one with a number for that part of it which is taken."""
    here = Path()
    for n, part in enumerate(name.parts, 1):
        source, wanted, last = Path(*name.parts[:n]), here / part, n == len(name.parts)
        taken = os.path.lexists(new / wanted) and (last or not _is_folder(new / wanted))
        if source not in moved and (taken or (last and changed)):
            moved[source] = _numbered(old, new, wanted)
        here = moved.get(source, wanted)
    return here


def _numbered(old: Path, new: Path, wanted: Path) -> Path:
    """The name with the next number that is free in both folders."""
    names = (wanted.with_name(f"{wanted.stem}.kept-{n}{wanted.suffix}") for n in count(1))
    return next(name for name in names if not any(os.path.lexists(folder / name) for folder in (old, new)))


def _copy(path: Path, target: Path) -> None:
    """Link a file a second time, which keeps all of it; copy where the file system has no links."""
    if _is_folder(path):
        target.mkdir()
        return
    try:
        os.link(path, target, follow_symlinks=False)
    except (OSError, NotImplementedError):
        shutil.copy2(path, target, follow_symlinks=False)


def _dress(old: Path, new: Path, moved: dict[Path, Path], ours: set[Path]) -> None:
    """Give folders the mode and the dates they had; the date of one that topend writes into is today's."""
    folders = [path for path in old.rglob("*") if _is_folder(path)] if old.is_dir() else []
    for path in [*sorted(folders, key=lambda p: -len(p.parts)), *([old] if old.is_dir() else [])]:
        name = path.relative_to(old)
        goes = new / _moved(name, moved)
        if _is_folder(goes):
            with suppress(OSError):
                shutil.copystat(path, goes)
                if name in ours:
                    os.utime(goes)


def _moved(name: Path, moved: dict[Path, Path]) -> Path:
    """Where a folder went."""
    for above in (name, *name.parents):
        if above in moved:
            return moved[above] / name.relative_to(above)
    return name
