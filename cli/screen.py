"""What `topend check` says on a terminal: one screen of what matters, the rest told by its number."""

from __future__ import annotations

from collections import Counter
from shutil import get_terminal_size
from textwrap import wrap
from typing import TYPE_CHECKING

from cli.say import coloured, shown
from parts.job import TABLES
from parts.job.schema import described
from parts.unknowns.words import told

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from parts.book import Book
    from parts.checked import Checked
    from parts.job import Job
    from parts.judging.finding import Finding

LINES = 38  # of the screen that are filled at most
MISSING, READINGS = 8, 4  # of them for what is missing, and for what is not known
LONGEST = 3  # lines of a stop
MORE = "..."


def print_screen(file: Path, done: Checked) -> None:
    """Print stops, cautions, what is not known and what is missing, each with the number of those that had no room."""
    job, book, found = done.job, done.book, done.findings
    if untouched(job):
        print("\n".join(first_steps(shown(file))))
        return
    wide = max(get_terminal_size().columns, 40)
    missing, cautions = [*_unknown(done, wide), *_missing(book, wide)], [f for f in found if f.verdict == "caution"]
    stops = [line for f in found if f.verdict == "stop" for line in _whole(f, wide)]
    room = LINES - len(stops) - len(missing)
    print(f"{job.job.title}\n")
    for line in [*stops, *_some([_line(f, wide) for f in cautions], max(room, 5), "cautions"), *missing]:
        print(line)
    fine, sizes = sum(f.verdict == "ok" for f in found), sum(not name.startswith("job.") for name in book)
    print(f"\n{fine} findings are in order, {sizes} sizes stand. All of it: topend check {shown(file)} --all")


def untouched(job: Job) -> bool:
    """Whether a file tells nothing yet but its head."""
    return not job.named() and all(getattr(job, table) is None for table in TABLES if table != "job")


def first_steps(file: str) -> list[str]:
    """What to do first with a new file, in three lines."""
    return [
        f"{file} is as it was written: first take the # off the header of a part that you want, like [gasket].",
        "Then take the # off the keys that you have measured, needed ones first, and put your own values in.",
        f"topend check {file} then tells what is missing; topend ask {file} asks for it, one by one.",
    ]


def _whole(finding: Finding, wide: int) -> list[str]:
    """A stop over as many lines as it takes, up to a few."""
    lines = wrap(f"{'stop':8}{finding.says}", wide, subsequent_indent=" " * 8, max_lines=LONGEST, placeholder=MORE)
    return [coloured(line, "stop") if n == 0 else line for n, line in enumerate(lines)]


def _line(finding: Finding, wide: int) -> str:
    """A finding in one line."""
    says = finding.says if len(finding.says) <= wide - 8 else finding.says[: wide - 8 - len(MORE)] + MORE
    return f"{coloured(f'{finding.verdict:8}', finding.verdict)}{says}"


def _unknown(done: Checked, wide: int) -> list[str]:
    """What is not known and decides something, the reading worth taking first on top."""
    deciding = [one for one in done.unknowns if one.decides]
    lines = [_cut(f"  {known}: {decides}", wide) for known, decides, _ in told(done.job, deciding)]
    return ["", "Not known, the reading worth taking first on top", *_some(lines, READINGS, "keys")] if lines else []


def _missing(book: Book, wide: int) -> list[str]:
    """The keys that are missing, first what most sizes wait for."""
    waiting = Counter(need for name in book.left_out for need in book.needs(name) if need.startswith("job."))
    lines = list(_told(waiting, wide))
    return ["", "Missing, first what most sizes wait for", *_some(lines, MISSING, "keys")] if lines else []


def _told(waiting: Counter[str], wide: int) -> Iterator[str]:
    for need, many in waiting.most_common():
        key = need.removeprefix("job.")
        line = f"  {key:26} {many:3} wait; {described(key)}"
        yield _cut(line, wide)


def _cut(line: str, wide: int) -> str:
    return line if len(line) <= wide else line[: wide - len(MORE)] + MORE


def _some(lines: list[str], room: int, what: str) -> list[str]:
    """So many lines as have room, and how many more there are."""
    return lines if len(lines) <= room else [*lines[: room - 1], f"  and {len(lines) - room + 1} {what} more"]
