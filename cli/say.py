"""How the command line speaks: errors as one sentence and an exit code, progress on a terminal, tables."""

from __future__ import annotations

import os
import signal
import sys
from contextlib import contextmanager
from itertools import groupby
from threading import Timer
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from types import FrameType

    from parts.judging.finding import Finding

STOPPED, WRONG, FAILED, INTERRUPTED = 1, 2, 3, 130
NO_GL = (
    "the CAD kernel needs the system library libGL.so.1: install it (on Debian: apt-get install libgl1), "
    "then run this again"
)
LAST_CONTROL = 0x9F
LONGEST = 1200  # characters of a sentence, which may hold whatever was typed
COLOURS = {"ok": "32", "caution": "33", "stop": "31;1"}


def guarded(app: Callable[..., Any], arguments: list[str]) -> int:
    """Run the verbs; turn our errors into a sentence on stderr and an exit code."""
    debug = "--debug" in arguments
    arguments = ["--debug"] * debug + [a for a in arguments if a != "--debug"] or ["--help"]
    with listening() as heard:
        try:
            result = app(arguments, prog_name="topend", standalone_mode=False)
        except BaseException as error:  # noqa: BLE001 - whatever happens, the user gets a sentence
            if debug and not isinstance(error, SystemExit):
                import traceback

                traceback.print_exc()
            return exit_code_of(KeyboardInterrupt() if heard else error, as_json="--json" in arguments)
    if result == INTERRUPTED:
        return exit_code_of(KeyboardInterrupt())
    return result if isinstance(result, int) else 0


@contextmanager
def listening() -> Iterator[list[int]]:
    """Note an interrupt from the keyboard; amid an import it waits: the kernel does not survive one."""
    heard: list[int] = []

    def note(number: int, frame: FrameType | None) -> None:
        heard.append(number)
        if not importing(frame):
            raise KeyboardInterrupt
        Timer(0.05, signal.raise_signal, [number]).start()

    if signal.getsignal(signal.SIGINT) is not signal.default_int_handler:  # somebody else's business
        yield heard
        return
    signal.signal(signal.SIGINT, note)
    try:
        yield heard
    finally:
        signal.signal(signal.SIGINT, signal.default_int_handler)


def importing(frame: FrameType | None) -> bool:
    """Tell whether a module is being loaded."""
    while frame is not None and not frame.f_code.co_filename.startswith("<frozen importlib"):
        frame = frame.f_back
    return frame is not None


def exit_code_of(error: BaseException, *, as_json: bool = False) -> int:  # noqa: C901, PLR0911 - one line a kind of error
    """Say what went wrong; return the exit code."""
    from parts.errors import JobError, TopendError

    if isinstance(error, JobError) and as_json:
        print_json({"errors": [{"key": f.key, "line": f.line, "says": f.says} for f in error.faults]})
        return WRONG
    if isinstance(error, TopendError):
        complain(*(map(str, error.faults) if isinstance(error, JobError) else [str(error)]))
        return error.exit_code
    if isinstance(error, KeyboardInterrupt) or type(error).__name__ == "Abort":
        complain("stopped: nothing was changed")
        return INTERRUPTED
    if isinstance(error, SystemExit):
        return error.code if isinstance(error.code, int) else FAILED
    if type(error).__name__ == "Exit":
        return int(getattr(error, "exit_code", 0))
    if hasattr(error, "format_message"):  # a wrong verb or flag
        says = error.format_message().replace("\n", " ")
        if as_json:
            print_json({"errors": [{"key": "", "line": None, "says": says}]})
        else:
            complain(says)
        return WRONG
    if isinstance(error, ImportError) and "libGL" in str(error):
        complain(NO_GL)
        return FAILED
    if isinstance(error, BrokenPipeError):
        sys.stderr.close()
        return 0
    complain(
        f"topend failed in a way it should not ({type(error).__name__}: {error}); run it with --debug to see where"
    )
    return FAILED


def complain(*sentences: str) -> None:
    """Print one line an error on stderr; what would break the line or move the cursor as it is written in a program."""
    for says in sentences:
        line = "".join(
            c if c.isprintable() or ord(c) > LAST_CONTROL else c.encode("unicode_escape").decode() for c in says
        )
        if len(line) > LONGEST:
            line = f"{line[: LONGEST // 2]} ... {line[-LONGEST // 2 :]}"
        print(f"topend: {line}", file=sys.stderr)


def print_json(value: object) -> None:
    """Print one JSON object on stdout and nothing else."""
    import json

    print(json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False))


def progress() -> Callable[[str], None]:
    """Return what tells the user how far it is: a line a step on a terminal, silent in a pipe."""
    if not sys.stderr.isatty():
        return lambda _: None
    return lambda text: print(f"  {text} ...", file=sys.stderr, flush=True)


def coloured(text: str, verdict: str) -> str:
    """Colour a verdict on a terminal, unless NO_COLOR is set."""
    if not sys.stdout.isatty() or os.environ.get("NO_COLOR"):
        return text
    return f"\x1b[{COLOURS[verdict]}m{text}\x1b[0m"


def print_findings(found: Iterable[Finding]) -> None:
    """Print findings, the worst first, one a line; what is not in order by what it is about."""
    from parts.judging.matters import by_matter

    for verdict, some in groupby(found, key=lambda f: f.verdict):
        for matter, told in by_matter(some) if verdict != "ok" else [("", list(some))]:
            if matter:
                print(f"-- {matter}")
            for finding in told:
                print(f"{coloured(f'{verdict:8}', verdict)}{finding.says}  [{finding.source}]")


def exit_code(found: Iterable[Finding]) -> int:
    """1 where a finding says stop, else 0."""
    return STOPPED if any(f.verdict == "stop" for f in found) else 0
