"""What a verb prints: held until it is done, then written whole, so that its exit code rests on the findings alone."""

from __future__ import annotations

import codecs
import os
import sys
from contextlib import contextmanager, suppress
from io import StringIO
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from collections.abc import Iterator

PLAIN = {"±": "+-", "µ": "u", "°": " deg", "×": "x", "Ø": "dia ", "²": "^2", "³": "^3", "…": "..."}
"""how a sign is written that the console's code page lacks; any other is a ?"""
CLOSED = "it is closed"


class Held(StringIO):
    """Text on its way to stdout, a terminal or not."""

    def __init__(self, out: TextIO | None) -> None:
        super().__init__()
        self.out = out

    def isatty(self) -> bool:
        """Tell whether it is going to a terminal."""
        return bool(sys.__stdout__ and sys.__stdout__.isatty())


def settle() -> None:
    """Make the streams fit to be written to, whatever they lead to.

    Pipes and files are UTF-8 unless PYTHONIOENCODING names another; a terminal keeps its own code page. A closed
    stream gets a number that leads nowhere, so that no file of ours gets it.
    """
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.set_inheritable(os.open(os.devnull, os.O_RDWR), True)
    codecs.register_error("plain", _in_plain)
    for stream in (sys.stdout, sys.stderr):
        if stream is not None and hasattr(stream, "reconfigure"):
            own = stream.isatty() or os.environ.get("PYTHONIOENCODING")
            stream.reconfigure(encoding=stream.encoding if own else "utf-8", errors="plain")


def _in_plain(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(PLAIN.get(c, "?") for c in error.object[error.start : error.end]), error.end


@contextmanager
def held() -> Iterator[StringIO]:
    """Hold what is printed on stdout."""
    out, sys.stdout = sys.stdout, Held(sys.stdout)
    try:
        yield sys.stdout
    finally:
        sys.stdout = out


def at_once(line: str) -> str:
    """Write a line past what is held, of a verb that goes on until it is ended; return why that can't be done."""
    return written(f"{line}\n", sys.stdout.out if isinstance(sys.stdout, Held) else sys.stdout)


def written(text: str, stream: TextIO | None) -> str:
    """Write a text; return why that could not be done. Whoever reads only part of it has read enough."""
    if stream is None:
        return CLOSED if text else ""
    try:
        stream.write(text)
        stream.flush()
    except BrokenPipeError:
        _leads_nowhere(stream)
    except OSError as error:
        _leads_nowhere(stream)
        return error.strerror or str(error)
    return ""


def _leads_nowhere(stream: TextIO) -> None:
    """Let what a stream still holds go nowhere as the process ends."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
