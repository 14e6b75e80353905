"""Whatever dies while topend writes, the folder is the old one or the new one, whole; the next run clears away what is left.

Seen from outside: real processes, files and exit codes. A few moments each here; by hand (`tests/run_long kills`) two hundred.
"""

import contextlib
import json
import os
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import time

import pytest

from parts.making.manifest import digest
from tests.conftest import ROOT

JOB = """[engine]
bore = "57.20 mm"
[plug]
hole = "{hole}"
fit = "bonded"
length = "12 mm"
bond_clearance = "0.04 mm"
"""
OLD, NEW = JOB.format(hole="8.50 mm"), JOB.format(hole="8.60 mm")
WAITS = b"topend: another topend is at work on demo: this one waits until it is done\n"
SENTENCE = re.compile(r"topend: .+\n")


@pytest.fixture
def place(tmp_path):
    """Two jobs, and a folder that the old one was made into once for all tests."""
    (tmp_path / "old.toml").write_text(OLD)
    (tmp_path / "new.toml").write_text(NEW)
    (tmp_path / "out").mkdir()
    return tmp_path


@pytest.fixture(scope="module")
def first(tmp_path_factory):
    """The old folder, how long it takes to make, and how long of that its files are being written."""
    base = tmp_path_factory.mktemp("first")
    (base / "new.toml").write_text(OLD)
    started = time.monotonic()
    found, _ = at_work(base, base / "made", 0)
    writes = time.monotonic()
    assert found.communicate()[1] == b""
    assert found.returncode == 0
    return base / "made", time.monotonic() - started, time.monotonic() - writes


def start(place, job, into, **more):
    """Make a job in a process of its own."""
    return subprocess.Popen(
        [sys.executable, "-m", "cli.main", "make", place / f"{job}.toml", "--into", into],
        cwd=place, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env={**os.environ, "PYTHONPATH": str(ROOT)}, **more,
    )  # fmt: skip


def whole(into):
    """Assert that all that the manifest lists stands there and nothing else; return the job it was made from."""
    listed = json.loads((into / "manifest.json").read_text(encoding="utf-8"))
    there = {p.relative_to(into).as_posix() for p in into.rglob("*") if p.is_file()} - {"manifest.json"}
    assert there == {one["path"] for one in listed}
    assert [one["path"] for one in listed if digest(into / one["path"]) != one["sha256"]] == []
    return (into / "job.toml").read_text(encoding="utf-8")


def alone(into):
    return [p.name for p in into.parent.iterdir()] == [into.name]


def put(first, place):
    """The old folder where the new one is to go."""
    into = place / "out" / "demo"
    shutil.copytree(first[0], into)
    return into


def killed(place, into, with_signal, moment):
    """Make the new job, end it at a moment; return its exit code and what it said."""
    run = start(place, "new", into)
    with contextlib.suppress(subprocess.TimeoutExpired):
        run.wait(moment)
    run.send_signal(with_signal)
    out, err = run.communicate(timeout=120)
    return run.returncode, out.decode(), err.decode()


def at_work(place, into, after):
    """Start the new job; return it a while after it began to write."""
    run = start(place, "new", into)
    hidden = into.with_name(f".{into.name}.topend-{run.pid}")
    end = time.monotonic() + 60
    while not hidden.exists() and run.poll() is None:
        assert time.monotonic() < end
        time.sleep(0.005)
    time.sleep(after)
    return run, hidden


def healed(place, into):
    """A run to the end leaves the new folder and nothing beside it."""
    run = start(place, "new", into)
    assert run.communicate(timeout=120)[1] == b""
    assert run.returncode == 0
    assert whole(into) == NEW
    assert alone(into)


# killed ---------------------------------------------------------------------------------------------------------------


def kill_often(first, place, times, seed):
    """Kill at random moments; after each the folder is whole, after the last run it is alone."""
    into, rolls, seen = put(first, place), random.Random(seed), {"old": 0, "new": 0, "left": 0}  # noqa: S311
    for _ in range(times):
        code, _, _ = killed(place, into, signal.SIGKILL, rolls.uniform(0.02, 1.15) * first[1])
        made = whole(into)
        assert made in (OLD, NEW)
        assert code in (-signal.SIGKILL, 0)
        if code == 0:
            assert made == NEW
        seen["new" if made == NEW else "old"] += 1
        seen["left"] += not alone(into)
        if made == NEW:
            shutil.rmtree(into)
            shutil.copytree(first[0], into)
    healed(place, into)
    return seen


def interrupt_often(first, place, times, seed):
    """Interrupt from the keyboard at random moments: the same, and a run that was heard leaves nothing beside the folder."""
    into, rolls, seen = put(first, place), random.Random(seed), {}  # noqa: S311
    for n in range(times):
        run, _ = at_work(place, into, rolls.uniform(0.0, 0.9) * first[2] if n else 0.0)
        run.send_signal(signal.SIGINT)
        _, err = (text.decode() for text in run.communicate(timeout=120))
        assert "Traceback" not in err, err
        made = whole(into)
        seen[run.returncode] = seen.get(run.returncode, 0) + 1
        assert alone(into), [p.name for p in into.parent.iterdir()]
        if run.returncode in (0, -signal.SIGINT):  # too late: it was done, or even on its way out
            assert (made, err) == (NEW, "")
            shutil.rmtree(into)
            shutil.copytree(first[0], into)
        else:
            assert (run.returncode, err) == (130, "topend: stopped: nothing was changed\n"), err
            assert made == OLD
    healed(place, into)
    return seen


def test_a_run_that_is_killed_leaves_the_old_folder_or_the_new(first, place):
    kill_often(first, place, 3, seed=1)


def test_a_run_that_is_interrupted_says_so_and_leaves_the_old_folder(first, place):
    assert interrupt_often(first, place, 2, seed=2)[130]


# the disk -------------------------------------------------------------------------------------------------------------


def refused(run, into):
    """A run that could not write: exit code 3, a sentence, the old folder."""
    _, err = (text.decode() for text in run.communicate(timeout=120))
    assert run.returncode == 3, err
    assert SENTENCE.fullmatch(err), err
    assert "in a way it should not" not in err
    assert whole(into) == OLD
    return err


def test_files_that_may_not_grow(first, place):
    into = put(first, place)
    largest = max(p.stat().st_size for p in into.rglob("*"))
    for most in (int(0.01 * largest), int(0.95 * largest)):
        limits = (resource.RLIMIT_FSIZE, (most, most))
        refused(start(place, "new", into, preexec_fn=lambda limits=limits: resource.setrlimit(*limits)), into)
        assert alone(into)
    healed(place, into)


@pytest.fixture
def small_disk(place):
    """A disk of its own in the place of the output's folder."""
    disk = place / "out"

    def mounted(*options):
        found = subprocess.run(["mount", "-t", "tmpfs", *options, "tmpfs", disk], capture_output=True, check=False)
        if found.returncode:
            pytest.skip(f"no disk can be mounted here: {found.stderr.decode().strip()}")

    if not shutil.which("mount"):
        pytest.skip("no mount here")
    yield mounted
    subprocess.run(["umount", disk], capture_output=True, check=False)


def test_a_disk_that_is_full_or_read_only(first, place, small_disk):
    needed = sum(p.stat().st_size // 4096 + 1 for p in first[0].rglob("*")) * 4
    small_disk("-o", f"size={2 * needed}k")
    into = put(first, place)

    def mounted_as(how):
        subprocess.run(["mount", "-o", f"remount,{how}", place / "out"], check=True)

    for share in (0.05, 0.7):
        mounted_as(f"size={needed + int(share * needed)}k")
        assert str(into.name) in refused(start(place, "new", into), into)
        assert alone(into)
    mounted_as("ro")
    refused(start(place, "new", into), into)
    assert alone(into)
    mounted_as(f"rw,size={4 * needed}k")
    healed(place, into)


def chattr(*what):
    """Change attributes of files; whether it could be done: some machines have no such tool, some disks no attributes."""
    tool = shutil.which("chattr")
    return tool is not None and subprocess.run([tool, *what], capture_output=True, check=False).returncode == 0


def test_a_parent_that_may_not_be_written(first, place):
    into = put(first, place)
    if os.geteuid() == 0:
        if not chattr("+i", into.parent):
            pytest.skip("root writes everywhere, and chattr does not work here")
        undo = ["chattr", "-i", into.parent]
    else:
        into.parent.chmod(0o555)
        undo = ["chmod", "755", into.parent]
    try:
        refused(start(place, "new", into), into)
        assert alone(into)
    finally:
        subprocess.run(undo, check=True)
    healed(place, into)


# what vanishes --------------------------------------------------------------------------------------------------------


def vanish(folder):
    """Take a folder away that is being written into."""
    while folder.exists():
        shutil.rmtree(folder, ignore_errors=True)


def test_the_new_folder_vanishes_while_it_is_written_then_everything(first, place):
    into = put(first, place)
    run, hidden = at_work(place, into, 0.0)
    vanish(hidden)
    refused(run, into)
    assert alone(into)
    run, _ = at_work(place, into, 0.0)
    vanish(place / "out")
    err = run.communicate(timeout=120)[1].decode()
    assert run.returncode == 3, err
    assert SENTENCE.fullmatch(err), err
    assert "in a way it should not" not in err
    healed(place, into)


def test_the_old_folder_vanishes_while_the_new_is_written(first, place):
    into = put(first, place)
    run, _ = at_work(place, into, 0.0)
    shutil.rmtree(into)
    assert run.communicate(timeout=120)[1] == b""
    assert whole(into) == NEW
    assert alone(into)


# two at once ----------------------------------------------------------------------------------------------------------


def test_two_runs_at_once_on_one_folder_end_whole(first, place):
    into = put(first, place)
    runs = {job: start(place, job, into) for job in ("old", "new")}
    assert {run.communicate(timeout=240)[1] for run in runs.values()} <= {b"", WAITS}
    assert whole(into) in (OLD, NEW)
    assert alone(into)


def test_one_of_two_runs_is_killed(first, place):
    into = put(first, place)
    run, hidden = at_work(place, into, 0.1 * first[2])
    waits = start(place, "old", into)
    time.sleep(0.2 * first[2])
    run.kill()
    run.communicate()
    assert waits.communicate(timeout=240)[1] in (b"", WAITS)  # told only if the other was at work when it began
    assert whole(into) == OLD
    healed(place, into)
    assert not hidden.exists()


# two hundred of all kinds, by hand ---------------------------------------------------------------------------------


def grows_no_more(place, into, rolls, _):
    largest = max(p.stat().st_size for p in into.rglob("*"))
    most = int(largest * rolls.uniform(0.001, 1.05))
    return start(place, "new", into, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (most, most)))


def may_not_be_written(place, into, rolls, long):
    """The new folder, from some moment on; where that can't be had, the run goes on."""
    run, hidden = at_work(place, into, rolls.uniform(0, long))
    chattr("-R", "+i", hidden)
    return run


def new_vanishes(place, into, rolls, long):
    run, hidden = at_work(place, into, rolls.uniform(0, long))
    shutil.rmtree(hidden, ignore_errors=True)
    return run


def old_vanishes(place, into, rolls, long):
    run, _ = at_work(place, into, rolls.uniform(0, long))
    shutil.rmtree(into, ignore_errors=True)
    return run


def all_vanishes(place, into, rolls, long):
    run, _ = at_work(place, into, rolls.uniform(0, long))
    shutil.rmtree(into.parent, ignore_errors=True)
    return run


def trouble_often(first, place, times, seed):
    """Trouble with the disk at random moments: a sentence, and the folder that stands is whole."""
    rolls, seen = random.Random(seed), {}  # noqa: S311
    for n in range(times):
        kind = (grows_no_more, may_not_be_written, new_vanishes, old_vanishes, all_vanishes)[n % 5]
        into = put(first, place)
        run = kind(place, into, rolls, 0.95 * first[2])
        _, err = (text.decode() for text in run.communicate(timeout=120))
        chattr("-R", "-i", place / "out")
        assert run.returncode in (0, 3), err
        assert SENTENCE.fullmatch(err) if run.returncode else not err
        assert "in a way it should not" not in err
        seen[kind.__name__, run.returncode] = seen.get((kind.__name__, run.returncode), 0) + 1
        if into.exists():
            assert whole(into) == (OLD if run.returncode else NEW), (kind, err)
        else:
            assert kind in (old_vanishes, all_vanishes), err
        healed(place, into)
        shutil.rmtree(into)
    return seen


@pytest.mark.long
@pytest.mark.parametrize(("often", "times"), [(kill_often, 100), (interrupt_often, 60), (trouble_often, 40)])
def test_two_hundred_interruptions(first, place, often, times):
    print(often(first, place, times, seed=os.getpid()))
