"""`topend compare`: jobs side by side, or variants of one job, by what differs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from parts.comparing.comparison import Comparison

Vary = Annotated[
    list[str] | None,
    typer.Option(
        help="Key of the job file to vary: KEY=LOW..HIGHunit/STEP or KEY=VALUE,VALUE (a value that holds a comma in "
        "quotes). Again for a further key: every combination.",
        show_default=False,
    ),
]


def compare(
    files: Annotated[list[Path], typer.Argument(help="Job files; one with --vary, two or more without.")],
    vary: Vary = None,
    show: Annotated[
        list[str] | None,
        typer.Option(help="Size to show, or a pattern like 'ring.*'; again for more.", show_default=False),
    ] = None,
    contact: Annotated[
        bool, typer.Option("--contact", help="With --vary: also solve how the ring presses, some 80 ms a variant.")
    ] = False,
    csv: Annotated[
        Path | None,
        typer.Option(
            help="Write every case and all that differs to a new file, for a spreadsheet.", show_default=False
        ),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON object with all that differs.")] = False,
) -> int:
    """Jobs side by side: the sizes that differ, the findings that change. Writes nothing without --csv.

    Of what is not known each is compared at the values taken; topend check judges it over its whole range.

    Exit code 1: one of the files stops, or with --vary every variant does.

    Example: topend compare job.toml --vary gasket.thickness=0.8..2.0mm/0.2

    Example: topend compare old.toml new.toml
    """
    from cli.say import STOPPED, print_json
    from parts.comparing.records import as_csv, as_record, shown

    found = _compared(files, vary or [], contact=contact)
    names = shown(found, show or [])
    if csv is not None:
        from cli.fresh_file import write_fresh

        write_fresh(csv, as_csv(found), "--csv", newline="")
    if as_json:
        print_json(as_record(found))
    else:
        from cli.side_by_side import print_comparison

        print_comparison(found, names, csv)
    return STOPPED if found.stopped else 0


def _compared(files: list[Path], vary: list[str], *, contact: bool) -> Comparison:
    from parts.comparing.compare import compare_files, vary_job
    from parts.comparing.sweep import read_varied
    from parts.errors import Fault, JobError
    from parts.job_text import read_file

    if vary and len(files) > 1:
        raise JobError(Fault("--vary", f"takes one job file, not {len(files)}"))
    if not vary and len(files) == 1:
        raise JobError(Fault("", f"{files[0]} alone: name a second job file, or a key to --vary"))
    if len(set(files)) < len(files):
        raise JobError(Fault("", f"{max(files, key=files.count)} is named twice"))
    if contact and not vary:
        raise JobError(Fault("--contact", "is for --vary: whole files are always compared with it"))
    if not vary:
        return compare_files({str(file): read_file(file) for file in files})
    return vary_job(read_file(files[0]), [read_varied(text) for text in vary], contact=contact)
