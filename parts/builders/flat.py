"""Flat parts: a sheet given its thickness."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cadquery.func import Edge as Line
from cadquery.func import Shape, Vector, extrude, face, segment, wire
from cadquery.func import circle as ring

from parts.builders import checked, kernel
from parts.errors import Fault, JobError
from parts.geometry import outline
from parts.geometry.lands import least_land

if TYPE_CHECKING:
    from parts.geometry.edge import Edge
    from parts.geometry.outline import Loop, Region
    from parts.shapes.pieces import Flat


def plate(sheet: Region, thickness: float, part: str = "plate") -> Shape:
    """Return the solid of a sheet lying on Z = 0, X and Y as the sheet's [mm].

    JobError where the thickness is not over 0 or a hole reaches another hole or the edge; BuildError names the part.
    """
    land = least_land(sheet)
    if thickness <= 0 or land <= 0:
        raise JobError(Fault("", f"{part}: thickness {thickness:g} mm and least land {land:g} mm must be over 0"))
    with kernel(part):
        holes = [ring(hole.diameter / 2).moved(x=hole.x, y=hole.y) for hole in sheet.holes]
        holes += [_wire(opening.loop) for opening in sheet.openings]
        solid = extrude(face(_wire(sheet.outer), *holes), (0, 0, thickness))
    return checked(solid, part, outline.area(sheet) * thickness)


def _wire(loop: Loop) -> Shape:
    """Lines and arcs of a loop, anticlockwise; a circle as one edge."""
    round_one = outline.as_circle(loop)
    if round_one:
        x, y, radius = round_one
        return wire(ring(radius).moved(x=x, y=y))
    return wire(*map(_edge, outline.edges(loop)))


def _edge(edge: Edge) -> Shape:
    start, end = Vector(edge.x0, edge.y0), Vector(edge.x1, edge.y1)
    return Line.makeThreePointArc(start, Vector(*edge.middle), end) if edge.bulge else segment(start, end)


def flat(shape: Flat, part: str = "flat part") -> Shape:
    """Return the solid of a flat part's shape; as `plate`."""
    return plate(shape.sheet, shape.thickness, part)
