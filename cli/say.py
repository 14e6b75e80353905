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
SOON = 0.005  # s: a make that loads one library after another has few moments between them
SIGNALLED = 128  # and the number of the signal: what a shell says of a process that one ended
NO_GL = (
    "the CAD kernel needs the system library libGL.so.1: install it (on Debian: apt-get install libgl1), "
    "then run this again"
)
FIRST_C1, LAST_CONTROL = 0x7F, 0x9F  # control characters that JSON leaves as they are
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
            code = exit_code_of(KeyboardInterrupt() if heard else error, as_json="--json" in arguments)
            return SIGNALLED + heard[0] if heard else code
    if result == INTERRUPTED:
        exit_code_of(KeyboardInterrupt())
        return SIGNALLED + heard[0] if heard else INTERRUPTED
    return result if isinstance(result, int) else 0


@contextmanager
def listening() -> Iterator[list[int]]:
    """Note what tells us to stop: the keyboard, the end of the terminal, the system.

    Amid an import it waits: the kernel does not survive one. What somebody else listens to, or has set to be ignored,
    is their business.
    """
    heard: list[int] = []

    def note(number: int, frame: FrameType | None) -> None:
        heard.append(number)
        if not importing(frame):
            raise KeyboardInterrupt
        Timer(SOON, signal.raise_signal, [number]).start()

    before = {n: usual for n, usual in _stops() if signal.getsignal(n) is usual}
    for number in before:
        signal.signal(number, note)
    try:
        yield heard
    finally:
        for number, usual in before.items():
            signal.signal(number, usual)


def _stops() -> Iterator[tuple[signal.Signals, Any]]:
    """What tells a process to stop, as far as the system has it, and what Python does then unless told otherwise."""
    yield signal.SIGINT, signal.default_int_handler
    for name in ("SIGTERM", "SIGHUP", "SIGBREAK"):
        if hasattr(signal, name):
            yield getattr(signal, name), signal.SIG_DFL


def ignore_stops() -> None:
    """Hear no more that it is to stop: all is done, and Python takes a moment to put itself away."""
    for number, _ in _stops():
        signal.signal(number, signal.SIG_IGN)


def importing(frame: FrameType | None) -> bool:
    """Tell whether a module is being loaded."""
    while frame is not None and not frame.f_code.co_filename.startswith("<frozen importlib"):
        frame = frame.f_back
    return frame is not None


def exit_code_of(error: BaseException, *, as_json: bool = False) -> int:  # noqa: PLR0911 - one line a kind of error
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
    complain(
        f"topend failed in a way it should not ({type(error).__name__}: {error}); run it with --debug to see where"
    )
    return FAILED


def complain(*sentences: str) -> None:
    """Print one line an error on stderr, as far as there is one."""
    from cli.streams import written

    for says in sentences:
        line = shown(says)
        if len(line) > LONGEST:
            line = f"{line[: LONGEST // 2]} ... {line[-LONGEST // 2 :]}"
        written(f"topend: {line}\n", sys.stderr)


def shown(text: object) -> str:
    """A text with what would break the line or move the cursor as it is written in a program."""
    return "".join(
        c if c.isprintable() or ord(c) > LAST_CONTROL else c.encode("unicode_escape").decode() for c in str(text)
    )


def print_json(value: object) -> None:
    """Print one JSON object on stdout and nothing else."""
    import json

    encoding = getattr(sys.__stdout__, "encoding", None) or "utf-8"
    text = json.dumps(value, indent=1, ensure_ascii=encoding.lower() != "utf-8", allow_nan=False)
    print(text.translate({n: f"\\u{n:04x}" for n in range(FIRST_C1, LAST_CONTROL + 1)}))


def progress() -> Callable[[str], None]:
    """Return what tells the user how far it is: a line a step on a terminal, silent in a pipe."""
    if sys.stderr is None or not sys.stderr.isatty():
        return lambda _: None
    return lambda text: print(f"  {shown(text)} ...", file=sys.stderr, flush=True)


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
                for way in finding.changes:
                    print(f"{'':8}{way['says']}")


def exit_code(found: Iterable[Finding]) -> int:
    """1 where a finding says stop, else 0."""
    return STOPPED if any(f.verdict == "stop" for f in found) else 0
