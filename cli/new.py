"""`topend new`: a job file with a comment on every key."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer


def new(
    file: Annotated[Path, typer.Argument(help="Job file to write; never overwritten.")],
    from_: Annotated[Literal["demo"] | None, typer.Option("--from", help="Start from the worked job.")] = None,
) -> int:
    """Write a job file with a comment on every key.

    Example: topend new sprayer.toml --from demo
    """
    from cli.fresh_file import write_fresh
    from cli.say import shown

    if from_:
        from parts.job.examples import demo_text as text
    else:
        from parts.job.schema import template as text
    write_fresh(file, text())
    print(f"{shown(file)}: written; fill it in, then: topend check {shown(file)}")
    return 0
