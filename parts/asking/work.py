"""What was asked for on the page and takes long: in a process of its own, so that the page goes on answering."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Thread
from typing import IO, TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

COMMAND = ("-P", "-m")  # -P: never from the folder that the user is in
MAKING, ADVISING = "parts.asking.work", "parts.asking.advising"
PATIENCE = 10.0  # s for a make that is told to stop to put its folder away
NOT_DONE = {MAKING: "the make ended before it was done; the old folder stands as it was"}
DONE = ("written", "wrong", "design")
"""one of these is in what is told last"""


class Doing:
    """What is being done, or what came of it."""

    def __init__(self, doing: str, outcome: dict[str, Any] | None = None) -> None:
        self.doing, self.said = doing, list[str]()
        self.outcome = outcome
        """files written and kept, or the design, or the sentences of what went wrong"""

    def end(self) -> None:
        """Have it stop."""


class Work(Doing):
    """A make, or a look for advice: what it is doing, then what came of it."""

    def __init__(self, text: str, kind: str, *arguments: str) -> None:
        """Start it on a job's text; WriteError is told as what came of it."""
        super().__init__("reading the job")
        self.text, self.kind = text, kind
        environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
        self._process = subprocess.Popen(  # noqa: S603 - ourselves
            [sys.executable, *COMMAND, kind, *arguments],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, encoding="utf-8", env=environment,
        )  # fmt: skip
        self._hearing = Thread(target=self._hear, daemon=True)
        self._hearing.start()

    def _hear(self) -> None:
        """Send the job and note what is told, line by line."""
        told: dict[str, Any] = {}
        with self._process as process:
            assert process.stdin  # noqa: S101 - both are pipes
            assert process.stdout  # noqa: S101
            with suppress(OSError), process.stdin as out:
                out.write(self.text)
            for line in process.stdout:
                told = json.loads(line)
                self.doing = told.get("doing", self.doing)
                self.said += [told["says"]] if "says" in told else []
        not_done = NOT_DONE.get(self.kind, "it ended before it was done")
        self.outcome = told if any(key in told for key in DONE) else {"wrong": [not_done]}

    def end(self) -> None:
        """Have it stop, its folder put away, and wait until it has."""
        if self._process.poll() is None:
            self._process.send_signal(signal.SIGINT if os.name != "nt" else signal.SIGTERM)
            self._hearing.join(PATIENCE)
            self._process.kill()


def main(arguments: Iterable[str], source: IO[str]) -> None:
    """Make the job that comes in on stdin, of a file in a folder, into another, all of it or some parts.

    A JSON object a line on stdout.
    """
    from parts.job_text import JobText
    from parts.making.make import make

    into, beside, *only = arguments
    with told_wrong():
        text = JobText(source.read(), Path(beside))
        done = make(text, Path(into), only, say=lambda doing: tell(doing=doing), tell=lambda says: tell(says=says))
        tell(written=done.written, kept=done.kept)


@contextmanager
def told_wrong() -> Iterator[None]:
    """Tell what went wrong, a sentence a fault."""
    from parts.errors import JobError, TopendError

    try:
        yield
    except TopendError as error:
        tell(wrong=[str(fault) for fault in error.faults] if isinstance(error, JobError) else [str(error)])


def tell(**what: object) -> None:
    """Print one line."""
    print(json.dumps(what), flush=True)  # noqa: T201 - to the process that asked


if __name__ == "__main__":
    sys.stdin.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    with suppress(KeyboardInterrupt):
        main(sys.argv[1:], sys.stdin)
