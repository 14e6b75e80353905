"""`topend look`: a DXF file as its outlines are read."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer


def look(
    drawing: Annotated[Path, typer.Argument(help="DXF file that a job is to name.")],
    into: Annotated[Path, typer.Option(help="PNG to write.")],
    units: Annotated[
        Literal["mm", "in"] | None, typer.Option(help="Unit of the file, where it does not say or says it wrong.")
    ] = None,
) -> int:
    """Draw a DXF file as its outlines are read, and ring what is open, doubled or crossing.

    Example: topend look deck.dxf --into deck.png
    """
    from cli.fresh_file import fresh
    from cli.say import STOPPED, shown
    from parts.drawn import drawing as read
    from parts.errors import Fault, JobError
    from parts.job_text import read_drawing
    from parts.sheets.looked import write_looked

    found = read(read_drawing(drawing), drawing.name, units)
    if not any(found.edges.values()):
        raise JobError(Fault("", f"{shown(drawing.name)} has no line, arc, circle, polyline, ellipse or spline in it"))
    with fresh(into, ".png") as (path,):
        write_looked(found, path)
    number = 0
    for layer in found.edges:
        count = len(found.layers[layer])
        print(f"layer {shown(layer)}: {count} closed outline{'s' * (count != 1)}")
        for flaw in found.faults[layer]:
            number += 1
            print(f"  {number}: {flaw}")
    print(f"{shown(into)}: look at what is ringed in red" if number else f"{shown(into)}: nothing is open or crossing")
    return STOPPED if number else 0
