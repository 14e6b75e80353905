"""A folder takes another's place by two renames where no call exchanges them; ended between any two steps, the next run heals it.

What a system without that call does (Windows, macOS) is done here with the call taken away.
"""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from parts.errors import WriteError
from parts.making import exchange, folder
from tests.conftest import ROOT
from tests.making.test_folder import alone, held, make

STEPS = """
import os, signal, sys
from pathlib import Path
from parts.making import exchange
from parts.making.folder import new_folder
from parts.making.manifest import entry, write_manifest
into, last, end = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3]
exchange._exchanged = lambda *_: False
rename, done = Path.rename, []
def step(self, target):
    if end == "after":
        rename(self, target)
    done.append(target)
    if len(done) == last:
        os.kill(os.getpid(), signal.SIGKILL)
    return target if end == "after" else rename(self, target)
Path.rename = step
with new_folder(into) as new:
    (new / "b.txt").write_text("new")
    write_manifest(new, [entry(new, "b.txt", "stud", "text", "x")])
"""


@pytest.fixture
def into(tmp_path):
    make(tmp_path / "demo")
    (tmp_path / "demo" / "notes.txt").write_text("mine")
    return tmp_path / "demo"


@pytest.fixture
def without_the_call(monkeypatch):
    monkeypatch.setattr(exchange, "_exchanged", lambda *_: False)


@pytest.mark.parametrize("end", ["before", "after"])
@pytest.mark.parametrize("step", [1, 2, 3])
def test_killed_at_every_step_the_next_run_heals_it(into, step, end):
    """To ready, the old one aside, ready in its place: three renames, killed before and after each."""
    command = [sys.executable, "-c", STEPS, str(into), str(step), end]
    assert subprocess.run(command, cwd=ROOT, check=False).returncode == -signal.SIGKILL
    ready = (step, end) not in ((1, "before"), (3, "after"))
    assert into.with_name(".demo.topend-ready").exists() == ready
    assert into.exists() == ((step, end) not in ((2, "after"), (3, "before")))
    with folder.new_folder(into):
        stands = {"b.txt": "new"} if ready or step == 3 else {"parts/a.txt": "old", "b.txt": "old"}
        assert held(into) == stands | {"notes.txt": "mine"}
    assert held(into)["notes.txt"] == "mine"
    assert alone(into)


@pytest.mark.usefixtures("without_the_call")
def test_a_folder_that_somebody_has_open_stays_and_nothing_is_left(into, monkeypatch):
    """As on Windows, where no folder is renamed that a program has a file open in."""
    rename = Path.rename

    def in_use(self, target):
        if self == into:
            raise PermissionError(13, "Permission denied")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", in_use)
    with pytest.raises(WriteError, match="demo: could not be written \\(Permission denied\\)"):
        make(into, "new")
    assert held(into) == {"parts/a.txt": "old", "b.txt": "old", "notes.txt": "mine"}
    assert alone(into)


@pytest.mark.usefixtures("without_the_call")
def test_a_new_folder_that_cannot_take_its_place_brings_the_old_one_back(into, monkeypatch):
    rename = Path.rename

    def in_use(self, target):
        if self.name == ".demo.topend-ready":
            raise PermissionError(13, "Permission denied")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", in_use)
    with pytest.raises(WriteError, match="Permission denied"):
        make(into, "new")
    assert held(into) == {"parts/a.txt": "old", "b.txt": "old", "notes.txt": "mine"}
    assert alone(into)


@pytest.mark.usefixtures("without_the_call")
def test_told_to_stop_between_the_renames_it_finishes(into, monkeypatch):
    rename = Path.rename

    def stopped(self, target):
        moved = rename(self, target)
        if self == into:
            raise KeyboardInterrupt
        return moved

    monkeypatch.setattr(Path, "rename", stopped)
    with pytest.raises(KeyboardInterrupt):
        make(into, "new", ("b.txt",))
    monkeypatch.undo()
    assert held(into) == {"b.txt": "new", "notes.txt": "mine"}
    make(into, "newer", ("b.txt",))
    assert alone(into)


def test_told_to_stop_while_it_clears_up_it_clears_up(into, monkeypatch):
    """As often as it is told; what is done by then stays done."""
    remove, told = exchange.remove, []

    def stopped(path):
        if len(told) < 3 and path.exists():
            told.append(path)
            raise KeyboardInterrupt
        remove(path)

    monkeypatch.setattr(exchange, "remove", stopped)
    make(into, "new", ("b.txt",))
    assert len(told) == 3
    assert held(into) == {"b.txt": "new", "notes.txt": "mine"}
    assert alone(into)


def test_the_call_is_looked_for_on_linux_alone(tmp_path, monkeypatch):
    for name in "ab":
        (tmp_path / name).mkdir()
    for system in ("win32", "darwin"):
        monkeypatch.setattr(sys, "platform", system)
        assert not exchange._exchanged(tmp_path / "a", tmp_path / "b")


def test_a_system_that_knows_no_such_call_takes_the_other_way(into, monkeypatch):
    class Library:
        def __init__(self, *_, **__):
            pass

    monkeypatch.setattr(exchange.ctypes, "CDLL", Library)
    make(into, "new", ("b.txt",))
    assert held(into) == {"b.txt": "new", "notes.txt": "mine"}
    assert alone(into)
