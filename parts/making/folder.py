"""The output folder: whole or not at all.

A run writes into a hidden folder beside the target, `.NAME.topend-PID`, and exchanges the two at the end. Beside them
stands `.NAME.topend-lock` while a run is at work; whoever holds it may clear away what a killed run left behind.
"""

from __future__ import annotations

import os
import re
from contextlib import contextmanager, suppress
from pathlib import Path, PureWindowsPath
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError, WriteError
from parts.making.exchange import ASIDE, READY, absolute, beside, exchange, put_away, remove, take_place
from parts.making.kept import carry_over
from parts.making.lock import is_held, let_go, take
from parts.making.manifest import not_ours
from parts.making.names import forbidden, is_utf8

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

LOCK = "lock"
WINDOWS = os.name == "nt"


# the target -----------------------------------------------------------------------------------------------------------


def check_target(into: Path) -> None:
    """Refuse a target that must not be replaced.

    JobError unless it does not exist, is an empty folder or holds our manifest; WriteError where nothing can be written
    beside it. Writes nothing.
    """
    into = absolute(into)
    with _for_disk(into):
        _check(into)


def _check(into: Path) -> None:
    if not is_utf8(str(into)):
        raise _refused(into, "is no UTF-8 text, and the CAD kernel takes no other name: name another folder")
    if WINDOWS and (says := forbidden(PureWindowsPath(into))):
        raise _refused(into, f"can't be a folder: {says}; name another")
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
    if not os.access(into, os.W_OK | os.X_OK):
        raise WriteError(f"{into}: is set to be read only: set it to be written, or choose another folder with --into")
    try:
        empty = not any(into.iterdir())
    except OSError as error:
        raise WriteError(f"{into}: cannot be read ({error.strerror})") from error
    if not empty and not beside(into, READY).exists() and (says := not_ours(into)):
        raise _refused(into, f"{says}: choose a new or an empty folder")


def _refused(into: Path, says: str) -> JobError:
    return JobError(Fault("--into", f"{into} {says}"))


# whole or not at all --------------------------------------------------------------------------------------------------


@contextmanager
def new_folder(into: Path, tell: Callable[[str], None] = lambda _: None) -> Iterator[Path]:
    """Yield a fresh folder that takes the place of `into` when the block ends, and vanishes if it fails.

    What is the user's in the old folder is carried over (`parts.making.kept`). A second run on the same folder waits
    for the first. Inside the block the old folder stands unchanged. `tell` is told of both, a sentence at a time.
    Raises as `check_target`, and WriteError for the disk.
    """
    into = absolute(into)
    check_target(into)
    made = [folder for folder in into.parents if not os.path.lexists(folder)]
    new, kept, done = beside(into, str(os.getpid())), list[str](), False
    try:
        with _locked(into, tell):
            try:
                with _for_disk(into):
                    _heal(into)
                    check_target(into)
                    new.mkdir()
                    yield new
                    kept = carry_over(into, new)
                    exchange(new, into)
                    done = True
            finally:
                if put_away(new) and not done:
                    raise KeyboardInterrupt
    except BaseException:
        _remove_empty(made)
        raise
    for says in kept:
        tell(says)


@contextmanager
def _for_disk(into: Path) -> Iterator[None]:
    """Turn an OSError into a WriteError that names the target."""
    try:
        yield
    except (JobError, WriteError):
        raise
    except OSError as error:
        raise WriteError(f"{into}: could not be written ({error.strerror or error})") from error


def _remove_empty(folders: list[Path]) -> None:
    """Remove the parents this run made, innermost first, as far as they are empty."""
    with suppress(OSError):
        for folder in folders:
            folder.rmdir()


@contextmanager
def _locked(into: Path, tell: Callable[[str], None]) -> Iterator[None]:
    """Hold the target's lock; a killed run lets go of it by itself."""
    path = beside(into, LOCK)
    with _for_disk(into):
        handle = take(path, lambda: tell(waiting(into)))
    try:
        yield
    finally:
        let_go(path, handle)


def waiting(into: Path) -> str:
    """Say that a run waits for another."""
    return f"another topend is at work on {into.name}: this one waits until it is done"


def at_work(into: Path) -> bool:
    """Tell whether another run is at work on a folder."""
    return is_held(beside(absolute(into), LOCK))


def leftovers(into: Path) -> bool:
    """Tell whether a run is at work beside a folder, or was killed there."""
    with suppress(OSError):
        return any(path.name.startswith(f".{into.name}.topend-") for path in absolute(into).parent.iterdir())
    return False


def _heal(into: Path) -> None:
    """Finish or clear away what a killed run left; only with the lock held."""
    ready = beside(into, READY)
    if ready.exists():
        take_place(ready, into)
    ours = re.compile(re.escape(f".{into.name}.topend-") + rf"(\d+|{ASIDE})")
    for folder in into.parent.iterdir():
        if ours.fullmatch(folder.name):
            remove(folder)
