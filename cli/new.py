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
    from parts.errors import Fault, JobError, WriteError

    if from_:
        from parts.job.examples import demo_text as text
    else:
        from parts.job.schema import template as text
    try:
        with file.open("x", encoding="utf-8", newline="\n") as out:
            out.write(text())
    except FileExistsError:
        raise JobError(Fault("", f"{file} is there already and is not overwritten: name another file")) from None
    except OSError as error:
        raise WriteError(f"{file} could not be written: {error.strerror}") from None
    print(f"{file}: written; fill it in, then: topend check {file}")
    return 0
