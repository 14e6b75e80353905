"""`topend frame`: the sheet that a gasket is laid on to be scanned or photographed."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer


def frame(
    out: Annotated[Path, typer.Argument(help="PDF to write.")],
    page: Annotated[Literal["A4", "Letter"], typer.Option(help="Paper.")] = "A4",
) -> int:
    """Write the sheet that a gasket, or a rubbing of the face, is traced on.

    Example: topend frame frame.pdf --page A4
    """
    from cli.fresh_file import fresh
    from cli.say import shown
    from parts.sheets.frame import Frame, write_frame

    with fresh(out, ".pdf") as (path,):
        write_frame(path, page)
    across, along = Frame(page).spans
    print(
        f"{shown(out)}: print it at 100 %, then measure its two lengths: across {across:.1f} mm, along {along:.1f} mm"
    )
    return 0
