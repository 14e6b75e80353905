"""One run at a time on a folder: the lock, here and as Windows has it, and what a run that waits says."""

import fcntl
import os
import sys
import time
from threading import Thread
from types import SimpleNamespace

import pytest

import parts.making.make
from parts.making import lock
from parts.making.folder import at_work, new_folder
from parts.making.lock import is_held, let_go, take
from parts.making.make import make
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


def test_a_lock_whose_file_was_removed_meanwhile_is_taken_anew(tmp_path, monkeypatch):
    """As by the run that had it: else two runs would each have a file of their own."""
    path, locks, opened = tmp_path / "lock", lock._locks, []

    def removed(handle):
        if not opened:
            path.unlink()
        opened.append(handle)
        return locks(handle)

    monkeypatch.setattr(lock, "_locks", removed)
    handle = take(path, lambda: pytest.fail("waits"))
    assert os.path.samestat(os.fstat(handle), path.stat())
    assert len(opened) == 2
    let_go(path, handle)


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
    """Where others are at work on the machine, it may take longer."""
    into = tmp_path / "out" / "demo"
    into.parent.mkdir()
    (tmp_path / "new.toml").write_bytes((JOBS / "gasket.toml").read_bytes())
    path = into.with_name(".demo.topend-lock")
    handle = take(path, lambda: None)
    run = start_make(tmp_path, "new", into)
    began = time.monotonic()
    assert run.stderr.readline() == WAITS
    took = time.monotonic() - began
    assert took < 1 or os.getloadavg()[0] > os.cpu_count(), took
    time.sleep(2)  # until it has come to the folder, and waits there
    let_go(path, handle)
    assert run.communicate(timeout=120)[1] == b""
    assert run.returncode in (0, 1)
    assert (into / "manifest.json").exists()


def test_it_is_said_before_anything_is_loaded_or_worked_out(tmp_path, monkeypatch):
    class SaidError(Exception):
        pass

    def tell(says):
        raise SaidError(says)

    monkeypatch.setattr(parts.making.make, "kernel", lambda: pytest.fail("the kernel was started"))
    path = tmp_path / ".demo.topend-lock"
    handle = take(path, lambda: None)
    with pytest.raises(SaidError, match=WAITING):
        make("no job at all", tmp_path / "demo", tell=tell)
    let_go(path, handle)
