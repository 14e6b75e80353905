"""`topend check`: size everything, print sizes and findings, write nothing."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def check(
    file: Annotated[Path, typer.Argument(help="Job file.")],
    as_json: Annotated[
        bool, typer.Option("--json", help="Print one JSON object: sizes, findings, left_out, unknowns.")
    ] = False,
    everything: Annotated[
        bool, typer.Option("--all", help="On a terminal too: every size and finding, not one screen of what matters.")
    ] = False,
) -> int:
    """Size everything; print what matters, or in a pipe all of it. Loads no CAD kernel, writes nothing.

    Example: topend check job.toml --all
    """
    import sys
    from dataclasses import asdict

    from cli.say import exit_code, print_findings, print_json
    from parts.checked import checked
    from parts.job_text import read_file
    from parts.judging.finding import as_records

    now = checked(read_file(file)).now
    job, book, found = now.job, now.book, now.findings
    left_out = {name: book.needs(name) for name in book.left_out}
    if as_json:
        absent = {key: [measure] for key, measure in job.absent.items()}
        unknowns = [asdict(one) for one in now.unknowns]
        print_json(
            {"sizes": now.record, "findings": as_records(found), "left_out": left_out | absent, "unknowns": unknowns}
        )
        return exit_code(found)
    if not everything and sys.stdout.isatty():
        from cli.screen import print_screen

        print_screen(file, now)
        return exit_code(found)
    from cli.tables import print_assumed, print_left_out, print_sizes, print_unknown

    print(f"{job.job.title}\n")
    made = [f for f in found if f.name.startswith("made.")]
    if made:
        print("As made")
        print_findings(made)
        print()
    print_sizes(book, job)
    print_assumed(book, job.job.print_units)
    print_left_out(left_out)
    print_unknown(now)
    print("Findings")
    print_findings(f for f in found if f not in made)
    return exit_code(found)
