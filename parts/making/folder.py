"""The output folder: whole or not at all.

A run writes into a hidden folder beside the target, `.NAME.topend-PID`, and exchanges the two at the end. Beside them
stands `.NAME.topend-lock` while a run is at work; whoever holds it may clear away what a killed run left behind.
`.NAME.topend-ready` is a whole new folder that only has to take its place, where the file system cannot exchange.
"""

from __future__ import annotations

import ctypes
import errno
import os
import re
import shutil
import sys
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError, WriteError
from parts.making.manifest import MANIFEST, digest, entry, manifest, read_manifest, unchanged, write_manifest

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = [
    "MANIFEST",
    "check_target",
    "digest",
    "entry",
    "is_utf8",
    "manifest",
    "new_folder",
    "read_manifest",
    "unchanged",
    "write_manifest",
]

READY = "ready"
HERE, EXCHANGE = -100, 2  # AT_FDCWD and RENAME_EXCHANGE of Linux
NO_EXCHANGE = {errno.ENOSYS, errno.EINVAL, errno.EXDEV, errno.ENOTSUP, errno.EPERM}


# the target -----------------------------------------------------------------------------------------------------------


def check_target(into: Path) -> None:
    """Refuse a target that must not be replaced.

    JobError unless it does not exist, is an empty folder or holds our manifest; WriteError where nothing can be written
    beside it. Writes nothing.
    """
    into = _absolute(into)
    with _for_disk(into):
        _check(into)


def is_utf8(text: str) -> bool:
    """Tell whether a text that was typed came as UTF-8: bytes in another encoding come as lone surrogates."""
    return not any("\ud800" <= c <= "\udfff" for c in text)


def _check(into: Path) -> None:
    if not is_utf8(str(into)):
        raise _refused(into, "is no UTF-8 text, and the CAD kernel takes no other name: name another folder")
    if into.is_symlink():
        raise _refused(into, f"is a link to {into.readlink()}: name the folder itself")
    if into.exists():
        _check_folder(into)
    parent = next(folder for folder in into.parents if os.path.lexists(folder))
    if not parent.is_dir():
        raise _refused(into, f"cannot be a folder, {parent} is a file")
    if not os.access(parent, os.W_OK | os.X_OK):
        raise WriteError(f"{into}: nothing can be written in {parent}, choose another folder with --into")


def _check_folder(into: Path) -> None:
    if not into.is_dir():
        raise _refused(into, "is a file, not a folder")
    here = Path.cwd()
    if into.samefile(here) or any(into.samefile(folder) for folder in here.parents):
        raise _refused(into, "is the folder you are in, or holds it: go up, it is replaced as a whole")
    try:
        empty = not any(into.iterdir())
    except OSError as error:
        raise WriteError(f"{into}: cannot be read ({error.strerror})") from error
    if not empty and read_manifest(into) is None and not _beside(into, READY).exists():
        raise _refused(into, f"holds other files and no {MANIFEST} of topend: choose a new or an empty folder")


def _absolute(into: Path) -> Path:
    """Full path without following a link at its end."""
    return Path(os.path.abspath(into))  # noqa: PTH100 - resolve() would follow the link


def _refused(into: Path, says: str) -> JobError:
    return JobError(Fault("--into", f"{into} {says}"))


# whole or not at all --------------------------------------------------------------------------------------------------


@contextmanager
def new_folder(into: Path) -> Iterator[Path]:
    """Yield a fresh folder that takes the place of `into` when the block ends, and vanishes if it fails.

    Files of the old folder that its manifest does not list are carried over; where the new folder has a file of that
    name, under the name with `.kept` behind it. A second run on the same folder waits for the first. Inside the block
    the old folder stands unchanged. Raises as `check_target`, and WriteError for the disk.
    """
    into = _absolute(into)
    check_target(into)
    made = [folder for folder in into.parents if not os.path.lexists(folder)]
    new = _beside(into, str(os.getpid()))
    try:
        with _locked(into):
            with _for_disk(into):
                _heal(into)
                check_target(into)
                new.mkdir()
            try:
                with _for_disk(into):
                    yield new
                    _carry_over(into, new)
                    _exchange(new, into)
            finally:
                shutil.rmtree(new, ignore_errors=True)
    except BaseException:
        _remove_empty(made)
        raise


@contextmanager
def _for_disk(into: Path) -> Iterator[None]:
    """Turn an OSError into a WriteError that names the target."""
    try:
        yield
    except (JobError, WriteError):
        raise
    except OSError as error:
        raise WriteError(f"{into}: could not be written ({error.strerror or error})") from error


def _beside(into: Path, what: str) -> Path:
    return into.with_name(f".{into.name}.topend-{what}")


def _remove_empty(folders: list[Path]) -> None:
    """Remove the parents this run made, innermost first, as far as they are empty."""
    with suppress(OSError):
        for folder in folders:
            folder.rmdir()


@contextmanager
def _locked(into: Path) -> Iterator[None]:
    """Hold the target's lock; a killed run lets go of it by itself."""
    path = _beside(into, "lock")
    with _for_disk(into):
        handle = _take(path)
    try:
        yield
    finally:
        path.unlink(missing_ok=True)  # while still held: whoever waits finds it gone and starts over
        os.close(handle)


def _take(path: Path) -> int:
    """Open and lock a file, again if it was removed while we waited."""
    while True:
        path.parent.mkdir(parents=True, exist_ok=True)  # a run that failed may have removed it meanwhile
        handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
        try:
            _lock(handle)
            with suppress(FileNotFoundError):
                if os.path.samestat(os.fstat(handle), path.stat()):
                    return handle
        except BaseException:
            os.close(handle)
            raise
        os.close(handle)


def _lock(handle: int) -> None:
    """Wait for the lock; without one (not a Unix) only one run at a time is safe."""
    with suppress(ImportError):
        import fcntl

        fcntl.flock(handle, fcntl.LOCK_EX)


def leftovers(into: Path) -> bool:
    """Tell whether a run is at work beside a folder, or was killed there."""
    with suppress(OSError):
        return any(path.name.startswith(f".{into.name}.topend-") for path in _absolute(into).parent.iterdir())
    return False


def _heal(into: Path) -> None:
    """Finish or clear away what a killed run left; only with the lock held."""
    ready = _beside(into, READY)
    if ready.exists():
        _take_place(ready, into)
    ours = re.compile(re.escape(f".{into.name}.topend-") + r"(\d+|aside)")
    for folder in into.parent.iterdir():
        if ours.fullmatch(folder.name):
            shutil.rmtree(folder, ignore_errors=True)


def _carry_over(old: Path, new: Path) -> None:
    """Bring the user's own files and folders into the new folder; they stay in the old one as well."""
    listed = {one["path"] for one in read_manifest(old) or []} | {MANIFEST}
    for path in sorted(_leaves(old)):
        name = path.relative_to(old)
        if name.as_posix() not in listed and not (_is_folder(path) and _is_folder(new / name)):
            target = _free(new, name)
            target.parent.mkdir(parents=True, exist_ok=True)
            _copy(path, target)


def _leaves(folder: Path) -> Iterator[Path]:
    """Yield files, links and empty folders below a folder; an OSError for one that cannot be read."""
    if not folder.is_dir():
        return
    for path in folder.iterdir():
        below = list(_leaves(path)) if _is_folder(path) else []
        yield from below or [path]


def _is_folder(path: Path) -> bool:
    return path.is_dir() and not path.is_symlink()


def _free(new: Path, name: Path) -> Path:
    """Return where a carried file goes: its own name, or with `.kept` behind the part of it that is taken."""
    here = new
    for n, part in enumerate(name.parts, 1):
        wanted, last = here / part, n == len(name.parts)
        while os.path.lexists(wanted) and (last or not _is_folder(wanted)):
            wanted = wanted.with_name(wanted.name + ".kept")
        here = wanted
    return here


def _copy(path: Path, target: Path) -> None:
    """Link a file a second time, which keeps all of it; copy where the file system has no links."""
    if _is_folder(path):
        target.mkdir()
        return
    try:
        os.link(path, target, follow_symlinks=False)
    except (OSError, NotImplementedError):
        shutil.copy2(path, target, follow_symlinks=False)


def _exchange(new: Path, into: Path) -> None:
    """Put the new folder in the place of the old, in one call where the system has one."""
    if not into.exists():
        new.rename(into)
    elif not _exchanged(new, into):
        ready = _beside(into, READY)
        new.rename(ready)
        _take_place(ready, into)


def _exchanged(new: Path, into: Path) -> bool:
    """Exchange two folders by renameat2; False where the system or its file system cannot."""
    call = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None) if sys.platform == "linux" else None
    if call is None:
        return False
    if call(HERE, os.fsencode(new), HERE, os.fsencode(into), EXCHANGE) == 0:
        return True
    number = ctypes.get_errno()
    if number in NO_EXCHANGE:
        return False
    raise OSError(number, os.strerror(number))


def _take_place(ready: Path, into: Path) -> None:
    """Two renames; a run killed between them is finished by the next."""
    aside = _beside(into, "aside")
    shutil.rmtree(aside, ignore_errors=True)
    if into.exists():
        try:
            into.rename(aside)
        except OSError as error:
            if error.errno != errno.EXDEV:  # a folder from a lower layer of an overlay cannot be renamed
                shutil.rmtree(ready, ignore_errors=True)
                raise
            shutil.rmtree(into)
    ready.rename(into)
    shutil.rmtree(aside, ignore_errors=True)
