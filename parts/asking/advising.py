"""Advice that was asked for on the page, looked for in a process of its own."""

from __future__ import annotations

import sys
from contextlib import suppress
from pathlib import Path
from typing import IO, TYPE_CHECKING

from parts.asking.work import tell, told_wrong

if TYPE_CHECKING:
    from collections.abc import Iterable

EACH = 50  # variants between two words of how far it is


def main(arguments: Iterable[str], source: IO[str]) -> None:
    """Look for advice on the job that comes in on stdin, of a file in a folder; told on stdout as by a make."""
    from parts.advising.advice import advise
    from parts.advising.records import as_record
    from parts.job_text import JobText

    (beside,) = arguments
    with told_wrong():
        text = JobText(source.read(), Path(beside))
        advice = advise(text, told=lambda count: None if count % EACH else tell(doing=f"{count} variants judged"))
        tell(design=as_record(advice)["design"])


if __name__ == "__main__":
    sys.stdin.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    with suppress(KeyboardInterrupt):
        main(sys.argv[1:], sys.stdin)
