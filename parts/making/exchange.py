"""A new folder in the place of an old one: in one call where the system has one, else by two renames.

`.NAME.topend-ready` is a whole new folder that only has to take its place. A run that is killed between the two renames
leaves it there, and the next run finishes.
"""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
import sys
from contextlib import suppress
from pathlib import Path

READY, ASIDE = "ready", "aside"
HERE, EXCHANGE = -100, 2  # AT_FDCWD and RENAME_EXCHANGE of Linux
NO_EXCHANGE = {errno.ENOSYS, errno.EINVAL, errno.EXDEV, errno.ENOTSUP, errno.EPERM}


def absolute(into: Path) -> Path:
    """Full path without following a link at its end."""
    return Path(os.path.abspath(into))  # noqa: PTH100 - resolve() would follow the link


def beside(into: Path, what: str) -> Path:
    """Name of what stands hidden beside a target."""
    return into.with_name(f".{into.name}.topend-{what}")


def exchange(new: Path, into: Path) -> None:
    """Put the new folder in the place of the old; the old one is gone, or stands where the new one was."""
    if not into.exists():
        new.rename(into)
    elif not _exchanged(new, into):
        ready = beside(into, READY)
        new.rename(ready)
        take_place(ready, into)


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


def take_place(ready: Path, into: Path) -> None:
    """Two renames; a run killed between them is finished by the next."""
    aside = beside(into, ASIDE)
    remove(aside)
    try:
        _clear(into, aside)
    except OSError:
        remove(ready)
        raise
    finally:  # also where the run is told to stop just now
        if ready.exists() and not into.exists():
            _settle(ready, into, aside)
    put_away(aside)


def _clear(into: Path, aside: Path) -> None:
    """Take the old folder out of the way."""
    if not into.exists():
        return
    try:
        into.rename(aside)
    except OSError as error:
        if error.errno != errno.EXDEV:  # a folder from a lower layer of an overlay cannot be renamed
            raise
        shutil.rmtree(into)


def _settle(ready: Path, into: Path, aside: Path) -> None:
    """Rename the new folder; the old one comes back where that fails."""
    try:
        ready.rename(into)
    except OSError:
        if aside.exists():
            aside.rename(into)
            remove(ready)
        raise


def put_away(folder: Path) -> bool:
    """Remove a folder, however often the run is told to stop meanwhile; tell whether it was."""
    stopped = False
    while True:
        try:
            remove(folder)
        except KeyboardInterrupt:
            stopped = True
        else:
            return stopped


def remove(folder: Path) -> None:
    """Remove a folder with all that is in it, as far as that can be done."""
    shutil.rmtree(folder, ignore_errors=True)
    if not folder.is_dir():
        return
    for path in (folder, *folder.rglob("*")):  # what is set to be read only; files only where they have no second link
        if not path.is_symlink() and (path.is_dir() or sys.platform == "win32"):
            with suppress(OSError):
                path.chmod(0o700)
    shutil.rmtree(folder, ignore_errors=True)
