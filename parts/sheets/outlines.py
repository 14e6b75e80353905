"""Flat outlines: the gasket's cutting outline and template, the contoured mandrel's curve."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from parts.geometry.edge import Edge
from parts.relations.contour import on_surface, walk
from parts.shapes.mandrel import Contoured, relieved
from parts.shapes.nest import nest
from parts.sheets.templates import gasket_template
from parts.sizing.gasket import cutting_sheet
from parts.writers.dxf import write_curve_dxf, write_nest_dxf, write_outline_dxf

if TYPE_CHECKING:
    from pathlib import Path

    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop
    from parts.job import Job
    from parts.shapes.pieces import Flat

Written = list[tuple["Path", str]]
"""what was written, and its kind"""


def gasket_outlines(shape: Flat, book: Book, job: Job, folder: Path) -> Written:
    """Write the cutting outline (DXF, allowing for the cutter) and the 1:1 template (PDF and SVG, on size)."""
    dxf = folder / "head-gasket.dxf"
    sheet = cutting_sheet(book, job)
    if sheet is None:
        raise AssertionError("asked for a gasket that was not sized")
    write_outline_dxf(sheet, dxf, f"{job.job.title}: head gasket, cutting outline")
    written = [(dxf, "cutting outline"), *gasket_template(shape, book, job, folder)]
    if job.gasket is not None and job.gasket.sheet is not None:
        nested, parts = folder / "head-gasket-nest.dxf", nest(sheet, job.gasket.sheet, "gasket.sheet")
        write_nest_dxf(parts, nested, f"{job.job.title}: {len(parts)} head gaskets on a sheet")
        written.append((nested, "cutting outlines"))
    return written


def mandrel_outlines(shape: object, book: Book, job: Job, folder: Path) -> Written:
    """Write the contoured seat's outline as arcs (DXF) and as a table of angle and radius (CSV)."""
    if not isinstance(shape, Contoured):
        return []
    base = f"expander-mandrel{book.suffix}-outline"
    dxf, table = folder / f"{base}.dxf", folder / f"{base}.csv"
    loop, error = seat_loop(shape)
    title = f"{job.job.title}: contoured mandrel, seat; arcs within {max(error, 1e-6):.6f} mm of the curve"
    write_curve_dxf(loop, dxf, title)
    rows = (f"{angle:g},{radius:.6f}" for angle, radius in book["mandrel.profile"].value)
    table.write_text("angle_deg,radius_mm\n" + "\n".join(rows) + "\n", encoding="utf-8", newline="\n")
    return [(dxf, "outline"), (table, "outline table")]


def seat_loop(shape: Contoured) -> tuple[Loop, float]:
    """Return the seat's closed loop of arcs, anticlockwise, and how far the arcs stray from the curve [mm].

    Each arc goes through two points of the curve and the curve's own point half way between them.
    """
    law, depth = shape.law, shape.depth
    line = walk(law, shape.length, len(shape.seat) - 1)
    step = shape.length / (len(line) - 1)
    middles = [on_surface(law, depth, point, step / 2) for point in line[:-1]]
    quarters = [on_surface(law, depth, point, step / 4) for point in line[:-1]]
    spans = list(zip(shape.seat, shape.seat[1:], middles, strict=False))
    error = max(_stray(p, q, middle, quarter) for (p, q, middle), quarter in zip(spans, quarters, strict=True))
    upper = [(q[0], q[1], _bulge(q, p, middle)) for p, q, middle in reversed(spans)]
    lower = [(p[0], -p[1], _bulge(_down(p), _down(q), _down(middle))) for p, q, middle in spans]
    end, inner = shape.seat[-1], relieved(shape.seat)
    return (*upper, *lower, (end[0], -end[1], 0.0), (inner[0], -inner[1], 0.0), (*inner, 0.0)), error


def _down(point: Point) -> Point:
    return point[0], -point[1]


def _bulge(p: Point, q: Point, middle: Point) -> float:
    """Bulge of the arc from p to q through the middle; positive where it turns left."""
    dx, dy = q[0] - p[0], q[1] - p[1]
    return -2 * (dx * (middle[1] - p[1]) - dy * (middle[0] - p[0])) / (dx * dx + dy * dy)


def _stray(p: Point, q: Point, middle: Point, point: Point) -> float:
    """How far a point lies from the arc through the other three."""
    edge = Edge(*p, *q, _bulge(p, q, middle))
    centre = edge.centre
    return abs(hypot(point[0] - centre[0], point[1] - centre[1]) - edge.radius)
