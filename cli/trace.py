"""`topend trace`: a scan or photograph of what lies on the frame, as outlines."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from parts.tracing.trace import Trace


def trace(
    picture: Annotated[Path, typer.Argument(help="Scan or photograph: JPEG, PNG or TIFF.")],
    across: Annotated[str, typer.Option(help='The printed sheet\'s length across, as measured, like "186.2 mm".')],
    along: Annotated[str, typer.Option(help='Its length along, as measured, like "273.0 mm".')],
    into: Annotated[Path, typer.Option(help="DXF to write; its picture for checking stands beside it.")],
    within: Annotated[str, typer.Option(help="How far lines and arcs may stray from the edge.")] = "0.1 mm",
    thick: Annotated[
        str, typer.Option(help="Thickness of what lies on the sheet: its upper edge is nearer to the lens.")
    ] = "0 mm",
    light: Annotated[bool, typer.Option("--light", help="It is lighter than the ground it lies on.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON object: marks, loops, notes.")] = False,
) -> int:
    """Trace a gasket, or a rubbing, that lies on the sheet of topend frame.

    Example: topend trace photo.jpg --across "186.2 mm" --along "273.0 mm" --into deck.dxf
    """
    from cli.fresh_file import fresh
    from parts.tracing.overlay import write_overlay
    from parts.tracing.trace import Asked
    from parts.tracing.trace import trace as traced_from
    from parts.writers.dxf import write_loops_dxf

    lengths = {"--across": across, "--along": along, "--within": within, "--thick": thick}
    read = {flag.removeprefix("--"): _length(flag, text) for flag, text in lengths.items()}
    asked = Asked(**read, light=light)
    with fresh(into, ".dxf", ".check.png") as (dxf, check):
        found = traced_from(picture, asked)
        write_loops_dxf([(one.layer, one.loop) for one in found.loops], dxf, f"Traced within {asked.within:g} mm")
        write_overlay(found, check)
    _say(found, into, as_json=as_json)
    return 0


def _length(flag: str, text: str) -> float:
    """Read a flag's length [mm]."""
    from parts import units
    from parts.errors import Fault, JobError

    least, most = {"--within": (0.02, 2.0), "--thick": (0.0, 10.0)}.get(flag, (50.0, 1000.0))
    try:
        value = units.read(text, "length")[0]
    except ValueError as error:
        raise JobError(Fault(flag, str(error))) from None
    if not least <= value <= most:
        raise JobError(Fault(flag, f"must lie between {least:g} and {most:g} mm, not {units.shown(text)}"))
    return float(value)


def _say(found: Trace, into: Path, *, as_json: bool) -> None:
    import json

    from cli.say import shown

    if as_json:
        print(json.dumps(found.record(), ensure_ascii=False))
        return
    print(f"{shown(into)}: {len(found.loops)} outlines; {len(found.found.numbers)} rings, {found.laid.rms:.3f} mm off")
    print(f"look at {shown(into.with_suffix('.check.png'))} before you cut by it")
    print("  no layer          X mm      Y mm      Ø mm    ±    area mm²  worst mm")
    for number, one in enumerate(found.loops, 1):
        wide = f"{2 * one.circle.radius:9.2f}" if one.circle else "   drawn "
        place = f"{number:4} {one.layer:10} {one.x:9.2f} {one.y:9.2f}"
        print(f"{place} {wide} {one.plus_minus:6.2f} {one.area:9.1f} {one.worst:8.3f}")
    for note in found.notes:
        print(f"note: {note}")
    holes = ", ".join(f'["{one.x:.2f} mm", "{one.y:.2f} mm"]' for one in found.loops if one.layer == "HOLES")
    print(f'in the job file: outline = {{ dxf = "{shown(into.name)}" }}')
    if holes:
        print(f"holes, to be measured with callipers: roughly = [{holes}]")
