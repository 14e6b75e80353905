"""What stands in a DXF file, as edges and closed loops in mm: lines, arcs, circles, polylines, ellipses and splines."""

from __future__ import annotations

from io import BytesIO, StringIO
from itertools import pairwise
from math import radians, tan
from typing import TYPE_CHECKING, Any

from parts.errors import Fault, JobError
from parts.geometry.arcs import fitted
from parts.geometry.edge import Edge
from parts.geometry.outline import circle
from parts.runtime.loading import load_drawing_library

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from parts.geometry.outline import Loop, Vertex

    Pieces = dict[str, tuple[list[Edge], list[Loop]]]
    """layer -> edges to be joined, loops that are closed already"""

LARGEST = 20_000_000  # bytes
MOST = 20_000  # edges
WITHIN = 0.01  # mm: ellipses and splines as arcs
FINE = 0.001  # mm: the points that those arcs go by
SCALES = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 8: 25.4e-6, 9: 25.4e-3, 10: 914.4, 13: 1e-3, 14: 100.0}
"""$INSUNITS -> mm: DXF reference, group codes of the header"""
NAMED = {"mm": 1.0, "in": 25.4}
PER_SPAN = 200  # points of each span of a spline
SAME_END = 1e-9  # of the file's unit: the ends of a polyline or spline that is closed


def read_pieces(data: bytes, name: str, units: str | None) -> Pieces:
    """Read a file's edges and closed loops by layer [mm]; JobError where that can't be."""
    if len(data) > LARGEST:
        raise JobError(Fault("", f"{name} is too large: a drawing has at most {LARGEST // 1_000_000} MB"))
    document = _document(data, name)
    scale = NAMED[units] if units else SCALES.get(document.header.get("$INSUNITS", 0))
    if scale is None:
        raise JobError(Fault("", f'{name} does not say what its units are: give dxf_units, "mm" or "in"'))
    pieces: Pieces = {}
    count = 0
    for entity in _flat(document.modelspace()):
        edges, loops = pieces.setdefault(entity.dxf.layer, ([], []))
        for vertices, closed in _curves(entity, scale):
            count += len(vertices)
            if closed:
                loops.append(tuple(vertices))
            else:
                edges += _edges(vertices)
        if count > MOST:
            raise JobError(Fault("", f"{name} has over {MOST} lines and arcs: more than an outline needs"))
    return pieces


def _document(data: bytes, name: str) -> Any:  # noqa: ANN401 - the library's own object
    load_drawing_library()
    import ezdxf
    from ezdxf import recover

    try:
        return ezdxf.read(StringIO(data.decode("utf-8", "surrogateescape").replace("\r\n", "\n")))
    except Exception:  # noqa: BLE001 - whatever the library makes of what is no DXF
        try:
            return recover.read(BytesIO(data))[0]
        except Exception:  # noqa: BLE001
            raise JobError(Fault("", f"{name} is not a DXF file that can be read")) from None


def _flat(entities: Iterable[Any], depth: int = 0) -> Iterator[Any]:
    """Entities, those of blocks in their places."""
    for entity in entities:
        if entity.dxftype() == "INSERT" and depth < 5:  # noqa: PLR2004
            yield from _flat(entity.virtual_entities(), depth + 1)
        else:
            yield entity


def _curves(entity: Any, scale: float) -> Iterator[tuple[list[Vertex], bool]]:  # noqa: ANN401
    """Vertices of an entity's curves [mm], and whether each is closed; nothing of what is no curve."""
    from ezdxf.upright import upright

    kind = entity.dxftype()
    if kind in ("ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE", "ELLIPSE") and entity.dxf.hasattr("extrusion"):
        entity = entity.copy()
        upright(entity)  # one that is drawn from behind, as seen from the front
    d = entity.dxf
    if kind == "LINE":
        yield [(d.start.x * scale, d.start.y * scale, 0.0), (d.end.x * scale, d.end.y * scale, 0.0)], False
    elif kind == "CIRCLE":
        yield list(circle(d.center.x * scale, d.center.y * scale, d.radius * scale)), True
    elif kind == "ARC":
        bulge = tan(radians((d.end_angle - d.start_angle) % 360) / 4)
        a, b = entity.start_point, entity.end_point
        yield [(a.x * scale, a.y * scale, bulge), (b.x * scale, b.y * scale, 0.0)], False
    elif kind in ("LWPOLYLINE", "POLYLINE"):
        yield from _polyline(entity, scale)
    elif kind in ("ELLIPSE", "SPLINE"):
        yield _curve(entity, scale)


def _polyline(entity: Any, scale: float) -> Iterator[tuple[list[Vertex], bool]]:  # noqa: ANN401
    if entity.dxftype() == "LWPOLYLINE":
        points, closed = [(x, y, b) for x, y, b in entity.get_points("xyb")], entity.closed
    elif entity.is_2d_polyline or entity.is_3d_polyline:
        points = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in entity.vertices]
        closed = entity.is_closed
    else:
        return
    vertices = [(x * scale, y * scale, b) for x, y, b in points]
    if len(vertices) > 2 and _meet(vertices[0], vertices[-1]):  # noqa: PLR2004
        vertices, closed = vertices[:-1], True
    vertices = [v for n, v in enumerate(vertices) if closed or n == 0 or not _meet(v, vertices[n - 1])]
    if closed:
        vertices = [v for n, v in enumerate(vertices) if not _meet(v, vertices[(n + 1) % len(vertices)])] or vertices
    if len(vertices) > 1:
        yield vertices, closed


def _curve(entity: Any, scale: float) -> tuple[list[Vertex], bool]:  # noqa: ANN401
    """An ellipse or a spline as arcs."""
    exact = entity.flattening(FINE / scale, 16) if entity.dxftype() == "ELLIPSE" else _on_spline(entity)
    points = [(p.x * scale, p.y * scale) for p in exact]
    closed = _meet(points[0], points[-1])
    vertices, _ = fitted([*points[:-1], points[0]] if closed else points, WITHIN - FINE)
    return (vertices[:-1], True) if closed else (vertices, False)


def _on_spline(entity: Any) -> Iterator[Any]:  # noqa: ANN401
    """Points of a spline, close to each other; of a closed one without clamped ends, where it is defined alone."""
    curve = entity.construction_tool()
    knots, degree = curve.knots(), curve.degree
    first, last = knots[degree], knots[len(knots) - 1 - degree]
    count = PER_SPAN * max(1, curve.count - degree)
    yield from curve.points([first + (last - first) * n / count for n in range(count + 1)])


def _meet(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return abs(a[0] - b[0]) <= SAME_END * max(1.0, abs(a[0])) and abs(a[1] - b[1]) <= SAME_END * max(1.0, abs(a[1]))


def _edges(vertices: list[Vertex]) -> Iterator[Edge]:
    for (x0, y0, bulge), (x1, y1, _) in pairwise(vertices):
        if (x0, y0) != (x1, y1):
            yield Edge(x0, y0, x1, y1, bulge)
