"""The lock beside a target: one run at a time writes there, and a run that is killed lets go of it by itself."""

from __future__ import annotations

import os
import sys
import time
from contextlib import suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

PAUSE = 0.05  # s between two tries


def take(path: Path, waits: Callable[[], None]) -> int:
    """Open and lock a file, its folders made where they are missing; `waits` is called where another run has it."""
    while True:
        path.parent.mkdir(parents=True, exist_ok=True)  # a run that failed may have removed it meanwhile
        handle, held = os.open(path, os.O_RDWR | os.O_CREAT, 0o666), False
        try:
            free = _locks(handle)
            held = free and _stands(path, handle)
            if held:
                return handle
        finally:
            if not held:
                os.close(handle)
        if not free:
            waits()
            time.sleep(PAUSE)


def let_go(path: Path, handle: int) -> None:
    """Remove the file, and let go of it."""
    if sys.platform == "win32":  # where no open file can be removed, ours or that of a run which waits
        os.close(handle)
        with suppress(OSError):
            path.unlink()
    else:
        path.unlink(missing_ok=True)  # while still held: whoever waits finds it gone and starts over
        os.close(handle)


def is_held(path: Path) -> bool:
    """Tell whether another run has the lock; makes no file."""
    try:
        handle = os.open(path, os.O_RDWR)
    except OSError:
        return False
    try:
        return not _locks(handle)
    except OSError:
        return False
    finally:
        os.close(handle)


def _locks(handle: int) -> bool:
    """Lock an open file if it is free."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):  # flock, and locking, of one that another has
        return False
    return True


def _stands(path: Path, handle: int) -> bool:
    """Tell whether the open file still is the one of that name."""
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except FileNotFoundError:
        return False
