"""`topend new`: a job file with a comment on every key."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer


def new(
    file: Annotated[Path, typer.Argument(help="Job file to write; never overwritten.")],
    from_: Annotated[Literal["demo"] | None, typer.Option("--from", help="Start from the worked job.")] = None,
    for_: Annotated[
        str, typer.Option("--for", help="Only what these parts need, by their file names, with commas between.")
    ] = "",
) -> int:
    """Write a job file with a comment on every key.

    Example: topend new sprayer.toml --for head-gasket,stepped-stud
    """
    from cli.fresh_file import write_fresh
    from cli.say import shown

    write_fresh(file, [_text(from_, for_)])
    print(f"{shown(file)}: written; fill it in, then: topend check {shown(file)}")
    return 0


def _text(from_: str | None, for_: str) -> str:
    """What the new file holds."""
    if from_ and for_:
        from parts.errors import Fault, JobError

        raise JobError(Fault("--for", "goes with no --from: the worked job has all parts"))
    if for_:
        from parts.asking.fresh import fresh

        return fresh([stem.strip() for stem in for_.split(",")])
    if from_:
        from parts.job.examples import demo_text

        return demo_text()
    from parts.job.schema import template

    return template()
