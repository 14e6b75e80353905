"""A solid as triangles, face by face, with normals that are smooth within a face and break at its edges."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from cadquery import Shape
    from numpy.typing import NDArray

    from parts.writers.step import Color

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

FINE = 1 / 1500
"""sagitta over the size of the part: less than half a dot of a picture"""
TURN = 0.25  # rad from facet to facet
THREADED = 0.5  # rad, of a part with true threads: a quarter of the facets, the same picture
MANY = 64
"""meshes that are kept where the kernel is, of solids that are"""
SAME = 1e-6  # mm: corners nearer than this are one


@dataclass(frozen=True, slots=True)
class Mesh:
    """Triangles of one body [mm]."""

    points: Floats
    """(n, 3)"""
    normals: Floats
    """(n, 3), of length 1"""
    triangles: Ints
    """(m, 3)"""
    faces: Ints
    """(m,), number of the face each triangle belongs to"""
    color: Color


@lru_cache(MANY)
def mesh_of(solid: Shape, color: Color, turn: float = TURN) -> Mesh:
    """Return the mesh of a solid, its facets no coarser than a picture shows; the page takes the same."""
    box = solid.BoundingBox()
    sagitta = FINE * max(box.xlen, box.ylen, box.zlen)
    copy = solid.copy()  # the mesh stays on the shape it is made on
    copy.mesh(sagitta, turn)
    points: list[Floats] = []
    triangles: list[Ints] = []
    faces: list[Ints] = []
    first = 0
    for number, face in enumerate(copy.Faces()):
        face.mesh(sagitta, turn)  # where the mesh of the whole left this face coarser
        corners, facets = _facets(face)
        points.append(corners)
        triangles.append(facets + first)
        faces.append(np.full(len(facets), number, dtype=np.int64))
        first += len(corners)
    p, t = np.concatenate(points), np.concatenate(triangles)
    return Mesh(p, _normals(p, t), t, np.concatenate(faces), color)


def _facets(face: Shape) -> tuple[Floats, Ints]:
    """Corners and triangles of a face that is meshed, in the kernel's own lists: far quicker than point by point."""
    from OCP.BRep import BRep_Tool
    from OCP.TopAbs import TopAbs_Orientation
    from OCP.TopLoc import TopLoc_Location

    place = TopLoc_Location()
    mesh = BRep_Tool.Triangulation_s(face.wrapped, place)
    nodes = [mesh.Node(n) for n in range(1, mesh.NbNodes() + 1)]
    if not place.IsIdentity():
        move = place.Transformation()
        nodes = [node.Transformed(move) for node in nodes]
    corners = np.array([node.Coord() for node in nodes], dtype=np.float64)
    facets = np.array([triangle.Get() for triangle in mesh.Triangles()], dtype=np.int64) - 1
    turned = face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    return corners, facets[:, [0, 2, 1]] if turned else facets


def _normals(points: Floats, triangles: Ints) -> Floats:
    """Normal of each corner: the mean of its triangles', by area."""
    a, b, c = (points[triangles[:, n]] for n in range(3))
    across = cross(b - a, c - a)
    total = np.zeros_like(points)
    for n in range(3):
        np.add.at(total, triangles[:, n], across)
    return unit(total)


def cross(u: Floats, v: Floats) -> Floats:
    """Cross product of rows, element by element: the same digits on every processor."""
    return np.stack(
        [
            u[:, 1] * v[:, 2] - u[:, 2] * v[:, 1],
            u[:, 2] * v[:, 0] - u[:, 0] * v[:, 2],
            u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0],
        ],
        axis=1,
    )


def unit(v: Floats) -> Floats:
    """Rows scaled to length 1; a row of nothing stays nothing."""
    length = np.sqrt(v[:, 0] ** 2 + v[:, 1] ** 2 + v[:, 2] ** 2)
    return np.asarray(v / np.where(length > 0, length, 1.0)[:, None])


def moved(mesh: Mesh, x: float, y: float, z: float) -> Mesh:
    """Return a mesh moved by (x, y, z) [mm]."""
    return replace(mesh, points=mesh.points + np.array([x, y, z]))


def edges(mesh: Mesh) -> Ints:
    """Sides (k, 2) at which one face of the solid ends and another begins; a seam within a face is none."""
    sides = np.concatenate([mesh.triangles[:, [0, 1]], mesh.triangles[:, [1, 2]], mesh.triangles[:, [2, 0]]])
    owner = np.concatenate([mesh.faces] * 3)
    _, place = np.unique(np.round(mesh.points / SAME), axis=0, return_inverse=True)
    there = np.sort(place.reshape(-1)[sides], axis=1)
    key, first, inverse = np.unique(there, axis=0, return_index=True, return_inverse=True)
    low, high = np.full(len(key), owner.max() + 1), np.full(len(key), -1)
    np.minimum.at(low, inverse.reshape(-1), owner)
    np.maximum.at(high, inverse.reshape(-1), owner)
    return np.asarray(sides[first[low != high]])
