"""The output folder is whole or not at all: failures, kills, two runs at once, other people's files."""

import json
import os
import random
import re
import signal
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path

import pytest

from parts.errors import JobError, WriteError
from parts.making import exchange, folder
from parts.making.folder import check_target, new_folder
from parts.making.manifest import (
    MANIFEST,
    digest,
    entry,
    manifest,
    read_manifest,
    unchanged,
    write_manifest,
)
from tests.conftest import ROOT

RUN = """
import sys, time
from pathlib import Path
from parts.making import exchange
from parts.making.folder import new_folder
from parts.making.manifest import entry, write_manifest
into, word, times, pause = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]), float(sys.argv[4])
if sys.argv[5] == "two renames":
    exchange._exchanged = lambda *_: False
for n in range(times):
    with new_folder(into) as new:
        (new / "parts").mkdir()
        for k in range(20):
            (new / "parts" / f"{k}.txt").write_text(f"{word} {n}")
            time.sleep(pause)
        write_manifest(new, [entry(new, f"parts/{k}.txt", "", "text", "x") for k in range(20)])
"""


def make(into, word="old", names=("parts/a.txt", "b.txt")):
    with new_folder(into) as new:
        for name in names:
            (new / name).parent.mkdir(exist_ok=True)
            (new / name).write_text(word)
        write_manifest(new, [entry(new, name, "stud", "text", "x") for name in names])


def held(into):
    return {
        p.relative_to(into).as_posix(): p.read_text() for p in into.rglob("*") if p.is_file() and p.name != MANIFEST
    }


def alone(into):
    """Nothing hidden is left beside the folder."""
    return [p.name for p in into.parent.iterdir()] == [into.name]


def start(into, word, times=1, pause=0.0, way="one call"):
    command = [sys.executable, "-c", RUN, str(into), word, str(times), str(pause), way]
    return subprocess.Popen(command, cwd=ROOT, stderr=subprocess.PIPE)


def wait_for(condition):
    end = time.monotonic() + 60
    while not condition():
        assert time.monotonic() < end
        time.sleep(0.005)


@pytest.fixture
def into(tmp_path):
    return tmp_path / "demo"


@pytest.fixture(params=["one call", "two renames"])
def way(request, monkeypatch):
    if request.param == "two renames":
        monkeypatch.setattr(exchange, "_exchanged", lambda *_: False)


both_ways = pytest.mark.usefixtures("way")


# whole or not at all --------------------------------------------------------------------------------------------------


@both_ways
def test_a_new_folder_appears_whole(into):
    with new_folder(into) as new:
        assert not into.exists()
        assert new.parent == into.parent
        assert new.name.startswith(".")
        assert str(os.getpid()) in new.name
        (new / "a.txt").write_text("a")
    assert held(into) == {"a.txt": "a"}
    assert alone(into)


@both_ways
def test_the_old_folder_stands_until_the_end_and_goes_then(into):
    make(into)
    with new_folder(into) as new:
        assert held(into) == {"parts/a.txt": "old", "b.txt": "old"}
        (new / "c.txt").write_text("new")
    assert held(into) == {"c.txt": "new"}
    assert alone(into)


def fail_in(new, failure):
    (new / "b.txt").write_text("new")
    raise failure("half way")


@both_ways
@pytest.mark.parametrize("failure", [ValueError, KeyboardInterrupt, SystemExit, OSError, WriteError])
def test_a_failure_leaves_the_old_folder_as_it_was(into, failure):
    make(into)
    number = into.stat().st_ino
    with pytest.raises(failure, match="half way"), new_folder(into) as new:
        fail_in(new, failure)
    assert held(into) == {"parts/a.txt": "old", "b.txt": "old"}
    assert into.stat().st_ino == number
    assert alone(into)


def test_a_failure_leaves_no_folder_where_there_was_none(tmp_path):
    with pytest.raises(ValueError, match="half way"), new_folder(tmp_path / "outputs" / "here" / "demo"):
        raise ValueError("half way")
    assert not any(tmp_path.iterdir())


def test_parents_are_made(tmp_path):
    make(tmp_path / "outputs" / "here" / "demo")
    assert (tmp_path / "outputs" / "here" / "demo" / "b.txt").read_text() == "old"


@both_ways
def test_an_empty_folder_is_taken(into):
    into.mkdir()
    make(into)
    assert len(held(into)) == 2
    assert alone(into)


def test_files_get_the_usual_permissions(into):
    before = os.umask(0o027)
    try:
        make(into)
    finally:
        os.umask(before)
    assert into.stat().st_mode & 0o777 == 0o750
    assert (into / "b.txt").stat().st_mode & 0o777 == 0o640


def test_a_disk_that_fails_at_the_end_leaves_the_old_folder(into, monkeypatch):
    make(into)

    def fails(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(folder, "exchange", fails)
    with pytest.raises(WriteError, match="demo: could not be written \\(No space left on device\\)"):
        make(into, "new")
    assert held(into)["b.txt"] == "old"
    assert alone(into)


def test_the_exchange_is_one_call_here(tmp_path):
    for name in "ab":
        (tmp_path / name).mkdir()
        (tmp_path / name / name).write_text(name)
    if sys.platform == "linux":
        assert exchange._exchanged(tmp_path / "a", tmp_path / "b")
        assert (tmp_path / "a" / "b").exists()
        with pytest.raises(FileNotFoundError):
            exchange._exchanged(tmp_path / "a", tmp_path / "nowhere")


# what two renames can leave -------------------------------------------------------------------------------------------


def spoilt(into):
    """What a run leaves that was killed while it took the old folder away."""
    make(into)
    with suppress(KeyboardInterrupt), new_folder(into.with_name("other")) as new:
        (new / "b.txt").write_text("new")
        write_manifest(new, [entry(new, "b.txt", "stud", "text", "x")])
        new.rename(into.with_name(".demo.topend-ready"))
        raise KeyboardInterrupt


def test_the_next_run_finishes_what_was_ready(into):
    spoilt(into)
    into.rename(into.with_name(".demo.topend-aside"))
    with new_folder(into) as new:
        assert held(into) == {"b.txt": "new"}
        (new / "b.txt").write_text("newer")
    assert held(into) == {"b.txt": "newer"}
    assert alone(into)


def test_an_old_folder_half_removed_is_no_obstacle(into):
    spoilt(into)
    (into / MANIFEST).unlink()
    check_target(into)
    with new_folder(into):
        assert held(into) == {"b.txt": "new"}


def test_a_folder_that_cannot_be_renamed_is_emptied(into, monkeypatch):
    make(into)
    (into / "notes.txt").write_text("mine")
    rename = Path.rename

    def overlay(self, target):
        if self == into:
            raise OSError(18, "Invalid cross-device link")
        return rename(self, target)

    monkeypatch.setattr(exchange, "_exchanged", lambda *_: False)
    monkeypatch.setattr(Path, "rename", overlay)
    make(into, "new")
    assert held(into) == {"parts/a.txt": "new", "b.txt": "new", "notes.txt": "mine"}
    assert alone(into)


def test_a_folder_in_use_is_left_alone(into, monkeypatch):
    make(into)
    rename = Path.rename

    def busy(self, target):
        if self == into:
            raise OSError(16, "Device or resource busy")
        return rename(self, target)

    monkeypatch.setattr(exchange, "_exchanged", lambda *_: False)
    monkeypatch.setattr(Path, "rename", busy)
    with pytest.raises(WriteError, match="busy"):
        make(into, "new")
    assert held(into) == {"parts/a.txt": "old", "b.txt": "old"}
    assert alone(into)


# the user's own files -------------------------------------------------------------------------------------------------


@both_ways
def test_files_the_manifest_does_not_list_are_carried_over(into):
    make(into)
    (into / "notes.txt").write_text("mine")
    (into / "parts" / "toolpath.nc").write_text("mine")
    (into / "photos" / "july").mkdir(parents=True)
    (into / "photos" / "july" / "1.txt").write_text("mine")
    (into / "empty").mkdir()
    (into / "link").symlink_to("nowhere")
    os.utime(into / "notes.txt", (1e9, 1e9))
    make(into, "new", ("b.txt",))
    assert held(into) == {"b.txt": "new", "notes.txt": "mine", "parts/toolpath.nc": "mine", "photos/july/1.txt": "mine"}
    assert (into / "empty").is_dir()
    assert (into / "link").readlink() == Path("nowhere")
    assert (into / "notes.txt").stat().st_mtime == 1e9
    assert [one["path"] for one in read_manifest(into)] == ["b.txt"]
    make(into, "newer", ("b.txt",))
    assert len(held(into)) == 4
    assert alone(into)


def test_a_file_in_the_way_of_a_new_one_is_kept_beside_it(into):
    make(into, names=("b.txt",))
    (into / "c.txt").write_text("mine")
    (into / "d").write_text("mine")
    (into / "e.txt").mkdir()
    (into / "e.txt" / "f").write_text("mine")
    names = ("b.txt", "c.txt", "d/g.txt", "e.txt")
    make(into, "new", names)
    mine = {"c.kept-1.txt": "mine", "d.kept-1": "mine", "e.kept-1.txt/f": "mine"}
    assert held(into) == dict.fromkeys(names, "new") | mine
    make(into, "newer", names)
    assert held(into) == dict.fromkeys(names, "newer") | mine


def test_files_are_copied_where_there_are_no_links(into, monkeypatch):
    def no_links(*_, **__):
        raise OSError(1, "Operation not permitted")

    make(into)
    (into / "notes.txt").write_text("mine")
    monkeypatch.setattr(os, "link", no_links)
    make(into, "new")
    assert held(into)["notes.txt"] == "mine"


def test_a_failure_does_not_touch_the_users_files(into, monkeypatch):
    make(into)
    (into / "notes.txt").write_text("mine")

    def stopped(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(folder, "exchange", stopped)
    with pytest.raises(KeyboardInterrupt):
        make(into, "new")
    assert held(into)["notes.txt"] == "mine"


# what is refused ------------------------------------------------------------------------------------------------------


def refused(into, says):
    for attempt in (check_target, make):
        with pytest.raises(JobError, match=says) as caught:
            attempt(into)
        assert [fault.key for fault in caught.value.faults] == ["--into"]


def test_a_foreign_folder_is_refused(into):
    into.mkdir()
    (into / "photo.txt").write_text("mine")
    refused(into, "holds other files and no manifest.json of topend")
    (into / MANIFEST).write_text('{"name": "someone else\'s"}')
    refused(into, "holds other files and no manifest.json of topend")
    assert len(list(into.iterdir())) == 2
    assert alone(into)


def test_a_file_a_link_and_a_path_through_a_file_are_refused(into, tmp_path):
    into.write_text("mine")
    refused(into, "is a file")
    refused(into / "deeper" / "still", "cannot be a folder, .*demo is a file")
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "link").symlink_to("elsewhere")
    refused(tmp_path / "link", "is a link to elsewhere")
    (tmp_path / "dangling").symlink_to("nowhere")
    refused(tmp_path / "dangling", "is a link to nowhere")
    assert into.read_text() == "mine"


def test_the_folder_one_is_in_is_refused(into, monkeypatch):
    make(into)
    monkeypatch.chdir(into / "parts")
    refused(Path(), "is the folder you are in")
    refused(into, "is the folder you are in")
    refused(Path("/"), "is the folder you are in")
    assert held(into)["b.txt"] == "old"


def test_a_parent_that_cannot_be_written_is_a_write_error(into, monkeypatch):
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(WriteError, match="nothing can be written in"):
        check_target(into)
    with pytest.raises(WriteError, match="choose another folder"):
        make(into)


def test_a_disk_that_takes_nothing_is_a_write_error(into, monkeypatch):
    def fails(*_, **__):
        raise OSError(30, "Read-only file system")

    monkeypatch.setattr(os, "open", fails)
    with pytest.raises(WriteError, match="demo: could not be written \\(Read-only file system\\)"):
        make(into)


def test_check_target_writes_nothing(into, tmp_path):
    check_target(into)
    check_target(tmp_path / "a" / "b")
    assert not any(tmp_path.iterdir())


# the manifest ---------------------------------------------------------------------------------------------------------


def test_the_manifest_is_sorted_and_read_back(tmp_path):
    (tmp_path / "ä.txt").write_text("ä")
    (tmp_path / "a.txt").write_text("aa")
    entries = [entry(tmp_path, name, "stud", "text", "x") for name in ("ä.txt", "a.txt")]
    write_manifest(tmp_path, entries)
    text = (tmp_path / MANIFEST).read_bytes().decode()
    assert text == manifest(reversed(entries))
    assert text.startswith('[\n {\n  "path": "a.txt",\n  "part": "stud",\n  "kind": "text",\n  "bytes": 2,\n')
    assert text.endswith("}\n]\n")
    assert "ä.txt" in text
    assert read_manifest(tmp_path) == entries[::-1]


ONE = {"path": "a", "part": "", "kind": "text", "bytes": 1, "sha256": "0", "made_from": "x"}

OUTSIDE = ["../a", "/a", "a/../../b", "C:a", "C:/a", "..\\a", "\\a", "a\\b", "//host/share/a", ""]
"""not below the folder, on one system or the other"""


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("[{", id="malformed"),
        pytest.param("[" * 100_000, id="deep"),
        pytest.param(b"\xff\xfe\x00", id="not text"),
        pytest.param("[]", id="empty"),
        pytest.param(json.dumps(ONE), id="no list"),
        pytest.param(json.dumps([1]), id="no entry"),
        pytest.param(json.dumps([{**ONE, "more": 1}]), id="a key too many"),
        pytest.param(json.dumps([{k: v for k, v in ONE.items() if k != "kind"}]), id="a key too few"),
        pytest.param(json.dumps([{**ONE, "bytes": "1"}]), id="wrong type"),
        pytest.param(json.dumps([{**ONE, "bytes": True}]), id="no number"),
        *(pytest.param(json.dumps([ONE, {**ONE, "path": path}]), id=f"path {path}") for path in OUTSIDE),
    ],
)
def test_a_manifest_that_is_not_ours_is_none(tmp_path, text):
    (tmp_path / MANIFEST).write_bytes(text if isinstance(text, bytes) else text.encode())
    assert read_manifest(tmp_path) is None


def test_no_manifest_is_none_and_a_right_one_is_read(tmp_path):
    assert read_manifest(tmp_path) is None
    (tmp_path / MANIFEST).mkdir()
    assert read_manifest(tmp_path) is None
    (tmp_path / MANIFEST).rmdir()
    (tmp_path / MANIFEST).write_text(json.dumps([ONE]))
    assert read_manifest(tmp_path) == [ONE]


@pytest.mark.parametrize("path", OUTSIDE)
def test_a_forged_manifest_is_told_as_such(into, path):
    make(into)
    listed = read_manifest(into)
    (into / MANIFEST).write_text(json.dumps([*listed, {**ONE, "path": path}]))
    refused(into, f"topend never wrote, forged: it lists {re.escape(repr(path))}, no file of the folder")
    assert held(into)["b.txt"] == "old"


@pytest.mark.parametrize("share", [0.0, 0.3, 0.99])
def test_a_torn_manifest_is_told_as_such(into, share):
    make(into)
    whole = (into / MANIFEST).read_bytes()
    (into / MANIFEST).write_bytes(whole[: int(share * len(whole))])
    refused(into, "holds a manifest.json that is torn or no JSON")
    assert held(into)["b.txt"] == "old"


def test_unchanged_compares_the_bytes(tmp_path):
    path = tmp_path / "a.txt"
    path.write_text("one")
    one = entry(tmp_path, "a.txt", "stud", "text", "x")
    assert (one["bytes"], one["sha256"]) == (3, digest(path))
    assert digest(path) == "7692c3ad3540bb803c020b3aee66cd8887123234ea0c6e7143c0add73ff431ed"
    assert unchanged(tmp_path, one)
    path.write_text("two")
    assert not unchanged(tmp_path, one)
    path.write_text("longer")
    assert not unchanged(tmp_path, one)
    path.unlink()
    assert not unchanged(tmp_path, one)


# other runs -----------------------------------------------------------------------------------------------------------


def is_whole(into):
    words = [(into / "parts" / f"{k}.txt").read_text() for k in range(20)]
    return len(set(words)) == 1 and len(read_manifest(into)) == 20


def first_word(into):
    """Of the folder that stands; empty in the moment between two renames."""
    with suppress(FileNotFoundError):
        return (into / "parts" / "0.txt").read_text()
    return ""


@pytest.mark.parametrize("way", ["one call", "two renames"])
def test_kills_at_any_moment_leave_a_whole_folder(into, way):
    start(into, "first").communicate()
    (into / "notes.txt").write_text("mine")
    rolls, seen = random.Random(7), set()  # noqa: S311 - moments, not secrets
    for n in range(30):
        run = start(into, f"run {n}", times=10_000, way=way)
        wait_for(lambda word=f"run {n} ": first_word(into).startswith(word))
        time.sleep(rolls.uniform(0, 0.01))
        run.kill()
        run.communicate()
        assert run.returncode == -signal.SIGKILL
        if not into.exists():  # between the two renames: both stand beside, and the next run finishes
            assert way == "two renames"
            assert is_whole(into.with_name(".demo.topend-ready"))
            start(into, "healed").communicate()
        assert is_whole(into)
        assert (into / "notes.txt").read_text() == "mine"
        seen |= {p.name.rstrip("0123456789") for p in into.parent.iterdir()}
    assert ".demo.topend-" in seen  # some were killed with their new folder half written
    start(into, "last").communicate()
    assert is_whole(into)
    assert alone(into)


def test_an_interrupt_from_the_keyboard_leaves_the_old_folder(into):
    start(into, "first").communicate()
    run = start(into, "second", pause=0.2)
    wait_for(lambda: any(p.name == f".demo.topend-{run.pid}" for p in into.parent.iterdir()))
    run.send_signal(signal.SIGINT)
    assert b"KeyboardInterrupt" in run.communicate()[1]
    assert (into / "parts" / "0.txt").read_text() == "first 0"
    assert is_whole(into)
    assert alone(into)


def test_two_runs_at_once_take_turns(into):
    runs = [start(into, word, times=8, pause=0.001) for word in "abc"]
    assert [run.communicate()[1] for run in runs] == [b""] * 3
    assert is_whole(into)
    assert alone(into)


def test_the_folder_of_a_live_run_is_not_cleared_away(into):
    run = start(into, "slow", pause=0.03)
    wait_for(lambda: any(p.name == f".demo.topend-{run.pid}" for p in into.parent.iterdir()))
    make(into, "second", ("b.txt",))  # waits
    assert run.wait() == 0
    run.communicate()
    assert held(into) == {"b.txt": "second"}
    assert alone(into)


def test_what_belongs_to_others_is_not_cleared_away(into):
    for name in (".demo.topend-x1", ".demo.topend-12.bak", ".demo2.topend-12", "demo.topend-12", ".demo.topend-12"):
        into.with_name(name).mkdir()
    make(into)
    left = {p.name for p in into.parent.iterdir()}
    assert left == {"demo", ".demo.topend-x1", ".demo.topend-12.bak", ".demo2.topend-12", "demo.topend-12"}
