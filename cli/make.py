"""`topend make`: the whole output folder of a job."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

Threads = Annotated[
    Literal["simplified", "detailed"],
    typer.Option(help="The stud's threads in STEP, STL and picture: plain cylinders, or true helices."),
]


def make(
    file: Annotated[Path, typer.Argument(help="Job file.")],
    into: Annotated[Path | None, typer.Option(help="Folder to write.", show_default="outputs/<file stem>")] = None,
    only: Annotated[
        list[str] | None, typer.Option(help="Make this part alone, by its file name; may be given again.")
    ] = None,
    threads: Threads = "simplified",
) -> int:
    """Write the whole output folder.

    Example: topend make job.toml --into outputs/sprayer --only stepped-stud
    """
    from parts.job import read_file

    return write(read_file(file), into or Path("outputs") / file.stem, only or [], threads)


def write(text: str, into: Path, only: list[str], threads: str = "simplified") -> int:
    """Make a job's text into a folder, print what is not ok, return the exit code."""
    from cli.say import exit_code, print_findings, progress
    from parts.make import make as make_job

    found = make_job(text, into, only, threads, progress())
    bad = [f for f in found if f.verdict != "ok"]
    print(f"{into}: written; {len(found)} findings, {len(bad)} to look at")
    print_findings(bad)
    return exit_code(found)
