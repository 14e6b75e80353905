"""The parts as meshes for the page's own viewer: whole numbers in base64, a few hundred bytes a face."""

from __future__ import annotations

from base64 import b64encode
from typing import TYPE_CHECKING, Any

from parts.profile import Profile
from parts.register import PARTS, load
from parts.shapes.assembly import assembly_shape

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cadquery import Shape

    from parts.book import Book
    from parts.job import Job
    from parts.pictures.mesh import Mesh

STEPS = 60000  # of a mesh's size: 2 um on a part of 120 mm
TURN, FINE = 0.30, 1 / 500  # coarser than a picture: it moves
SMALL = 65536  # corners that a short index can name


def model_data(book: Book, job: Job, shapes: Mapping[str, Any], solids: Mapping[str, Any]) -> dict[str, Any]:
    """Return every mesh once, and the views that show them: the assembly first, then part by part."""
    meshes: list[dict[str, Any]] = []
    views = [view for view in (_assembly(book, job, shapes, meshes),) if view]
    views += [_part(stem, shape, solids, meshes) for stem, shape in shapes.items()]
    return {"meshes": meshes, "views": views}


def _assembly(book: Book, job: Job, shapes: Mapping[str, Any], meshes: list[dict[str, Any]]) -> dict[str, Any] | None:
    bodies = assembly_shape(book, job, shapes)
    if not bodies:
        return None
    from parts.builders.assembly import build

    built, places, shown = build(bodies), dict[int, int](), []
    for body, solid in built:
        if id(solid) not in places:
            places[id(solid)] = len(meshes)
            meshes.append(_packed(solid, body.color))
        where = {"at": [round(v, 4) for v in body.place], "lift": round(body.lift, 4)}
        shown.append({"mesh": places[id(solid)], "name": body.name, **where})
    return {"id": "assembly", "title": "assembly", "bodies": shown}


def _part(stem: str, shape: object, solids: Mapping[str, Any], meshes: list[dict[str, Any]]) -> dict[str, Any]:
    """One part; a turned one by its plain profile, whatever its threads look like in the files."""
    part = PARTS[stem]
    plain = isinstance(shape, Profile) or stem not in solids
    solid = load(part.build)(shape, part.title) if plain else solids[stem]
    meshes.append(_packed(solid, part.color))
    bodies = [{"mesh": len(meshes) - 1, "name": part.title, "at": [0, 0, 0], "lift": 0}]
    return {"id": stem, "title": part.title, "bodies": bodies}


def _packed(solid: Shape, color: str) -> dict[str, Any]:
    from parts.pictures.mesh import edges, mesh_of
    from parts.writers import step

    return packed(mesh_of(solid, getattr(step, color), TURN, FINE), edges)


def packed(mesh: Mesh, edges: Any) -> dict[str, Any]:  # noqa: ANN401 - a function of the mesh
    """Corners as 16 bit steps about the middle, indices as short as they may be."""
    import numpy as np

    low, high = mesh.points.min(axis=0), mesh.points.max(axis=0)
    middle, step = (low + high) / 2, float((high - low).max()) / STEPS
    index = "<u2" if len(mesh.points) < SMALL else "<u4"
    return {
        "color": [round(v, 3) for v in mesh.color],
        "middle": [round(float(v), 5) for v in middle],
        "step": float(f"{step:.9g}"),
        "points": _coded(np.round((mesh.points - middle) / step).astype("<i2")),
        "wide": index == "<u4",
        "triangles": _coded(mesh.triangles.astype(index)),
        "edges": _coded(edges(mesh).astype(index)),
    }


def _coded(array: Any) -> str:  # noqa: ANN401 - an array
    return b64encode(array.tobytes()).decode()
