"""What several tests share: the worked job and changes to it, the command line, folders that are made once."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from parts.examples import demo_text

ROOT = Path(__file__).parents[1]


class Text(str):
    """A job file's text that can be changed and that knows its own lines."""

    __slots__ = ()

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
                keep = line.strip("[]").split(".")[0].split("]")[0] not in tables
            kept += [line] * keep
        return Text("\n".join(kept))

    def line_of(self, part):
        """Line, from 1, of the one line that holds this."""
        found = [n for n, line in enumerate(self.split("\n"), 1) if part in line]
        assert len(found) == 1, f"{part!r} stands on lines {found}"
        return found[0]


DEMO = Text(demo_text())


@pytest.fixture(scope="session")
def demo():
    return DEMO


def topend(*arguments, cwd=ROOT, env=None, **options):
    """Run the command line in a process of its own."""
    path = os.pathsep.join([*([] if env is None else [env.pop("FIRST", "")]), str(ROOT)]).lstrip(os.pathsep)
    return subprocess.run(
        [sys.executable, "-m", "cli.main", *map(str, arguments)],
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": path, **(env or {})},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        **options,
    )


@pytest.fixture(scope="session")
def run():
    return topend


@pytest.fixture(scope="session")
def made(tmp_path_factory):
    """The worked job, made once by the command line: the run and its folder."""
    into = tmp_path_factory.mktemp("made") / "demo"
    return topend("demo", "--into", into, env={"PYTHONHASHSEED": "1"}), into
