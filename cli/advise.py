"""`topend advise`: what to change, with key and figure."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def advise(
    file: Annotated[Path, typer.Argument(help="Job file.")],
    write: Annotated[
        Path | None,
        typer.Option(help="Write the job with all that is advised to a new file.", show_default=False),
    ] = None,
    keep: Annotated[
        list[str] | None,
        typer.Option(help="Key that is to stay as it is, like stud.shank; again for more.", show_default=False),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON object.")] = False,
) -> int:
    """What to change: for each stop and caution the smallest change that clears it, then the whole design.

    Only what is chosen is changed, never what was measured; every change is something that is sold or can be turned.
    No rule is milder for it. Writes nothing without --write, and never over a file.

    Exit code 1: no design without a stop was found.

    Example: topend advise job.toml --keep gasket.thickness --write better.toml
    """
    from cli.progress import counted
    from cli.say import STOPPED, print_json
    from parts.advising.advice import advise as advice_on
    from parts.advising.records import as_record, rewritten
    from parts.job_text import read_file

    text = read_file(file)
    if write is not None:
        refuse_existing(write)
    advice = advice_on(text, keep or [], counted("variants judged"))
    if write is not None:
        from cli.fresh_file import write_fresh

        write_fresh(write, [rewritten(text, advice)], "--write", newline="")
    if as_json:
        print_json(as_record(advice))
    else:
        from cli.advice import print_advice

        print_advice(advice, write)
    return STOPPED if advice.after.counts[0] else 0


def refuse_existing(path: Path) -> None:
    """Refuse a file that is there already before the work begins."""
    from parts.errors import Fault, JobError

    if path.exists():
        raise JobError(Fault("--write", f"{path} is there already and is not overwritten: name another file"))
