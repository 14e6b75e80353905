"""What several tests share: the worked job and changes to it, the command line, folders that are made once."""

import fcntl
import json
import os
import signal
import subprocess
import sys
import tomllib
from functools import lru_cache
from pathlib import Path

import pytest

from parts.job import load
from parts.job.examples import demo_text
from parts.making.make import make
from parts.register import asked_for, tables

ROOT = Path(__file__).parents[1]
JOBS = ROOT / "tests" / "jobs"
signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell in the background has its children ignore it


class Text(str):
    """A job file's text that can be changed and that knows its own lines."""

    __slots__ = ()

    def __repr__(self):
        return f"<job of {self.count(chr(10))} lines>"

    def swap(self, *pairs):
        """Replace each first by each second; the first must stand there just once."""
        text = str(self)
        for old, new in zip(pairs[::2], pairs[1::2], strict=True):
            assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the job"
            text = text.replace(old, new)
        return Text(text)

    def without(self, *tables):
        """Drop whole tables, with the tables under them."""
        kept, keep = [], True
        for line in self.split("\n"):
            if line.startswith("["):
                keep = line.lstrip("[").split("]")[0].split(".")[0] not in tables
            kept += [line] * keep
        return Text("\n".join(kept))

    def line_of(self, part):
        """Line, from 1, of the one line that holds this."""
        found = [n for n, line in enumerate(self.split("\n"), 1) if part in line]
        assert len(found) == 1, f"{part!r} stands on lines {found}"
        return found[0]


@pytest.fixture(scope="session")
def demo():
    return Text(demo_text())


@lru_cache
def stems_of_demo():
    """The parts that the worked job asks for."""
    return {part.stem for part in asked_for(load(demo_text()))}


@lru_cache
def whole_text():
    """The worked job with a table for every part of the register; those that it lacks stand there empty."""
    demo = demo_text()
    given = tomllib.loads(demo)
    return Text(demo + "".join(f"\n[{table}]\n" for table in tables() if table not in given))


@pytest.fixture(scope="session")
def whole():
    return whole_text()


@pytest.fixture(scope="session")
def small(demo):
    """The worked job with the parts alone that take least to make: plug and rings."""
    return demo.without("stud", "gasket", "mandrel")


def topend(*arguments, cwd=ROOT, first=None, **env):
    """Run the command line in a process of its own; `first` is a folder that stands before the project's."""
    path = os.pathsep.join(str(p) for p in (first, ROOT) if p)
    return subprocess.run(
        [sys.executable, "-m", "cli.main", *map(str, arguments)],
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": path, **env},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


@pytest.fixture(scope="session")
def run():
    return topend


@pytest.fixture(scope="session")
def once(tmp_path_factory):
    """Have something made into a folder by the first worker that wants it; what `make` returned, as JSON has it, and the folder."""
    base = tmp_path_factory.getbasetemp()
    base = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base

    def made_once(name, make):
        place, told = base / f"once-{name}", base / f"once-{name}" / "told.json"
        place.mkdir(exist_ok=True)
        with (place / "lock").open("w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            if not told.exists():
                told.write_text(json.dumps(make(place / name)))
        return json.loads(told.read_text()), place / name

    return made_once


@pytest.fixture(scope="session")
def made(once):
    """Make the worked job once, by the command line: the run and its folder. Whoever changes it takes a copy."""

    def demo(into):
        run = topend("demo", "--into", into, PYTHONHASHSEED="1")
        return run.args, run.returncode, run.stdout, run.stderr

    run, into = once("demo", demo)
    return subprocess.CompletedProcess(*run), into


@pytest.fixture(scope="session")
def made_whole(once, whole):
    """The folder of the job with every part, made once."""
    return once("whole", lambda into: make(whole, into).written)[1]


@pytest.fixture(scope="session")
def made_small(once, small):
    """The folder of the small job, made once. Whoever changes it takes a copy."""
    return once("small", lambda into: make(small, into).written)[1]


@pytest.fixture(scope="session")
def made_of(once):
    """The folder of one of the further jobs, by its name, made once."""

    def of(name):
        text = (JOBS / f"{name}.toml").read_text(encoding="utf-8")
        return once(name, lambda into: make(text, into).written)[1]

    return of
