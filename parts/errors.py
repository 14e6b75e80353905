"""What can go wrong, as a tree.

TopendError             anything topend refuses or fails at, one sentence
    JobError            the input is wrong: one or more faults, each with key, line and rule (exit code 2)
    BuildError          the kernel could not make a part that should have been possible (exit code 3)
    WriteError          a file or folder could not be written or did not read back as written (exit code 3)
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with the input."""

    key: str
    """Dotted name in the job file, `barrel.passages.0.diameter`; empty for the file as a whole."""
    says: str
    """The rule and the value, read after the key."""
    line: int | None = None
    """Line in the job file, from 1."""

    def __str__(self) -> str:
        where = f" (line {self.line})" if self.line else ""
        return f"{self.key}{where}: {self.says}" if self.key else self.says


class TopendError(Exception):
    """Anything topend refuses or fails at."""

    exit_code = 3


class JobError(TopendError, ValueError):
    """The input is wrong; holds every fault that was found."""

    exit_code = 2

    def __init__(self, *faults: Fault) -> None:
        self.faults = faults
        super().__init__("\n".join(map(str, faults)))

    def __reduce__(self) -> tuple[type[JobError], tuple[Fault, ...]]:
        """Keep the faults where the error is handed from one process to another."""
        return type(self), self.faults


class BuildError(TopendError, RuntimeError):
    """The kernel could not make a part that should have been possible."""


class WriteError(TopendError, OSError):
    """A file or folder could not be written, or did not read back as written."""
