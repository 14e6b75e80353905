"""`topend make`: the whole output folder of a job."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

if TYPE_CHECKING:
    from collections.abc import Sequence

Threads = Annotated[
    Literal["simplified", "detailed"],
    typer.Option(help="The stud's threads in STEP, STL, 3MF and picture: plain cylinders, or true helices."),
]

Into = Annotated[Path | None, typer.Option(help="Folder to write.", show_default="outputs/<file stem>")]
Only = Annotated[list[str] | None, typer.Option(help="Make this part alone, by its file name; may be given again.")]
AsMade = Annotated[
    list[str] | None,
    typer.Option(help="Make this part to the sizes in [made], not to the plan; may be given again."),
]


def make(
    file: Annotated[Path, typer.Argument(help="Job file.")],
    into: Into = None,
    only: Only = None,
    threads: Threads = "simplified",
    as_made: AsMade = None,
    fresh: Annotated[bool, typer.Option("--fresh", help="Make everything again, also what is unchanged.")] = False,
) -> int:
    """Write the whole output folder; what stands there just as it would be made is kept.

    Example: topend make job.toml --into outputs/sprayer --only stepped-stud
    """
    from parts.job_text import read_file

    return write(read_file(file), into or Path("outputs") / file.stem, only or (), threads, as_made or (), fresh=fresh)


def write(
    text: str,
    into: Path,
    only: Sequence[str] = (),
    threads: str = "simplified",
    as_made: Sequence[str] = (),
    *,
    fresh: bool = False,
) -> int:
    """Make a job's text into a folder, print what is not ok, return the exit code."""
    from cli.say import complain, exit_code, print_findings, progress, shown
    from parts.making.make import make as make_job

    found, written, kept, _ = make_job(
        text, into, only, threads, progress(), fresh=fresh, as_made=as_made, tell=complain
    )
    bad = [f for f in found if f.verdict != "ok"]
    did = f"written, {kept} files of it kept" if written and kept else "written" if written else "unchanged"
    print(f"{shown(into)}: {did}; {len(found)} findings, {len(bad)} to look at")
    print_findings(bad)
    return exit_code(found)
