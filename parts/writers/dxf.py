"""DXF: closed outlines to cut, in mm, on named layers, the same bytes each time."""

from __future__ import annotations

from math import fsum, pi
from typing import TYPE_CHECKING

from parts.errors import WriteError
from parts.geometry import outline
from parts.writers import writing
from parts.writers.library import Circle, LWPolyline, ezdxf

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from ezdxf.document import Drawing
    from ezdxf.entities import DXFEntity

    from parts.geometry.outline import Loop, Region, Vertex

OUTLINE = "OUTLINE"
COLORS = {"OUTLINE": 7, "BORE": 5, "STUD HOLES": 3, "PASSAGES": 4}
CLOSE = 1e-9  # relative, of the area read back
DIGITS = 10  # decimals of mm: below what a processor's own sines differ by


def write_outline_dxf(sheet: Region, path: Path, title: str) -> None:
    """Write the cutting outline of a sheet [mm]: outer loop on OUTLINE, each opening on its layer, circles as such.

    WriteError unless the file reads back without a fault, every outline closed and their area that of the sheet.
    """
    write_nest_dxf([sheet], path, title)


def write_nest_dxf(sheets: Sequence[Region], path: Path, title: str) -> None:
    """Write the cutting outlines of several sheets in their places [mm]; as `write_outline_dxf`."""
    shapes = [
        one for sheet in sheets for one in ((OUTLINE, sheet.outer), *((cut.layer, cut.loop) for cut in sheet.cuts))
    ]
    _write(path, title, shapes, fsum(map(outline.area, sheets)))


def write_loops_dxf(shapes: list[tuple[str, Loop]], path: Path, title: str) -> None:
    """Write closed loops [mm] on their layers, all others inside the one on OUTLINE; as `write_outline_dxf`."""
    areas = ((layer, abs(outline.signed_area(loop))) for layer, loop in shapes)
    _write(path, title, shapes, fsum(area if layer == OUTLINE else -area for layer, area in areas))


def write_curve_dxf(loop: Sequence[Vertex], path: Path, title: str, layer: str = "OUTLINE") -> None:
    """Write one closed loop [mm] on a layer of its own; read back as by `write_outline_dxf`."""
    _write(path, title, [(layer, tuple(loop))], abs(outline.signed_area(loop)))


def _write(path: Path, title: str, shapes: list[tuple[str, Loop]], area: float) -> None:
    with writing(path):
        ezdxf.options.write_fixed_meta_data_for_testing = True  # no clock and no random ids in the file
        document = ezdxf.new("R2000", units=ezdxf.units.MM)
        document.header["$MEASUREMENT"] = 1
        document.ezdxf_metadata()["TITLE"] = title
        for layer in dict.fromkeys(layer for layer, _ in shapes):
            side = "outside" if layer == OUTLINE else "inside"
            document.layers.add(layer, color=COLORS.get(layer, 7)).description = f"cut on the {side} of the line"
        for layer, shape in shapes:
            _draw(document, layer, shape)
        _frame(document, [outline.bounds(shape) for _, shape in shapes])
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # else in the order of a set
            document.classes.add_class(kind)
        document.saveas(path)
        _check(path, area)


def _draw(document: Drawing, layer: str, shape: Loop) -> None:
    """Add a circle where the shape is one, else a polyline of lines and arcs."""
    round_one = outline.as_circle(shape)
    attributes, model = {"layer": layer}, document.modelspace()
    if round_one:
        x, y, radius = (round(value, DIGITS) for value in round_one)
        model.add_circle((x, y), radius, dxfattribs=attributes)
    else:
        vertices = [(round(x, DIGITS), round(y, DIGITS), round(bulge, DIGITS + 2)) for x, y, bulge in shape]
        model.add_lwpolyline(vertices, format="xyb", close=True, dxfattribs=attributes)


def _frame(document: Drawing, boxes: Iterable[tuple[float, float, float, float]]) -> None:
    """Set the extents, and the view to them."""
    left, low, right, high = (list(side) for side in zip(*boxes, strict=True))
    corner = (round(min(left), DIGITS), round(min(low), DIGITS))
    other = (round(max(right), DIGITS), round(max(high), DIGITS))
    document.modelspace().reset_extents((*corner, 0), (*other, 0))
    centre = (round((corner[0] + other[0]) / 2, DIGITS), round((corner[1] + other[1]) / 2, DIGITS))
    document.set_modelspace_vport(height=1.1 * max(other[0] - corner[0], other[1] - corner[1]), center=centre)


def _check(path: Path, area: float) -> None:
    """Read the file back: no faults, all closed, outer less inner areas as drawn."""
    document = ezdxf.readfile(path)
    auditor = document.audit()
    areas = [_enclosed(entity) for entity in document.modelspace()]
    faults = len(auditor.errors), len(auditor.fixes), areas.count(0)
    if any(faults):
        raise WriteError("{}: reads back with {} errors, {} repairs, {} open outlines".format(path, *faults))
    layers = [entity.dxf.layer for entity in document.modelspace()]
    outer = OUTLINE if OUTLINE in layers else layers[0]
    read = fsum(area if layer == outer else -area for area, layer in zip(areas, layers, strict=True))
    if not abs(read - area) <= CLOSE * area:
        raise WriteError(f"{path}: drawn with {area:.12g} mm^2, read back with {read:.12g} mm^2")


def _enclosed(entity: DXFEntity) -> float:
    """Area inside a circle or a closed polyline as it stands in the file [mm^2], 0 for anything else."""
    if isinstance(entity, Circle):
        return pi * float(entity.dxf.radius) ** 2
    if not isinstance(entity, LWPolyline) or not entity.closed:
        return 0.0
    return abs(outline.signed_area([(x, y, b) for x, y, b in entity.get_points("xyb")]))
