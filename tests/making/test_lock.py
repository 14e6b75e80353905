"""One run at a time on a folder: the lock, here and as Windows has it, and what a run that waits says."""

import fcntl
import os
import sys
import time
from threading import Thread
from types import SimpleNamespace

import pytest

from parts.making.folder import at_work, new_folder
from parts.making.lock import is_held, let_go, take
from tests.conftest import JOBS
from tests.making.test_folder import start, wait_for
from tests.making.test_interruptions import WAITS
from tests.making.test_interruptions import start as start_make

WAITING = "another topend is at work on demo: this one waits until it is done"


@pytest.fixture(params=["here", "as on Windows"])
def system(request, monkeypatch):
    """The system's own lock; or its lock of a file's bytes behind the name and the error that Windows has for it."""
    if request.param == "here":
        return

    def locking(handle, mode, number):
        assert (mode, number) == (2, 1)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise PermissionError(13, "Permission denied") from None

    monkeypatch.setitem(sys.modules, "msvcrt", SimpleNamespace(locking=locking, LK_NBLCK=2))
    monkeypatch.setattr(sys, "platform", "win32")


@pytest.mark.usefixtures("system")
def test_who_comes_second_waits_and_says_so(tmp_path):
    path, told, order = tmp_path / "below" / "lock", [], []
    first = take(path, lambda: told.append("first"))
    assert is_held(path)

    def second():
        handle = take(path, lambda: told.append("second"))
        order.append("taken")
        let_go(path, handle)

    waits = Thread(target=second)
    waits.start()
    wait_for(lambda: told)
    order.append("let go")
    let_go(path, first)
    waits.join(10)
    assert order == ["let go", "taken"]
    assert set(told) == {"second"}
    assert not is_held(path)
    assert list(path.parent.iterdir()) == []


@pytest.mark.usefixtures("system")
def test_a_lock_that_was_left_is_free(tmp_path):
    path = tmp_path / "lock"
    path.touch()
    assert not is_held(path)
    let_go(path, take(path, lambda: pytest.fail("waits")))
    assert not path.exists()


def test_looking_for_the_lock_makes_no_file(tmp_path):
    assert not is_held(tmp_path / "lock")
    assert not at_work(tmp_path / "demo")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_tells_that_it_is_waited_for(tmp_path):
    into = tmp_path / "demo"
    run = start(into, "slow", pause=0.05)
    wait_for(lambda: at_work(into))
    told = []
    with new_folder(into, told.append):
        assert run.poll() is not None or run.wait(1) == 0
    run.communicate()
    assert set(told) == {WAITING}


def test_a_make_says_within_a_second_that_it_waits_and_says_it_once(tmp_path):
    """A second of the processor's own time: others may be at work here."""
    into = tmp_path / "out" / "demo"
    into.parent.mkdir()
    (tmp_path / "new.toml").write_bytes((JOBS / "gasket.toml").read_bytes())
    lock = into.with_name(".demo.topend-lock")
    handle = take(lock, lambda: None)
    before = os.times()
    run = start_make(tmp_path, "new", into)
    began = time.monotonic()
    assert run.stderr.readline() == WAITS
    took = time.monotonic() - began
    assert took < 1 or os.getloadavg()[0] > os.cpu_count(), took
    assert (os.times().user - before.user) < 1
    let_go(lock, handle)
    assert run.communicate(timeout=120)[1] == b""
    assert run.returncode in (0, 1)
    assert (into / "manifest.json").exists()
