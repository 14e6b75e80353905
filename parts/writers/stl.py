"""STL: a closed mesh in mm for printers and slicers, binary, the same bytes each time."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

import numpy as np
from OCP.BRepGProp import BRepGProp
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.GProp import GProp_GProps
from OCP.StlAPI import StlAPI_Writer

from parts.errors import WriteError
from parts.writers import whole, writing

if TYPE_CHECKING:
    from cadquery import Shape
    from numpy.typing import NDArray

HEADER = b"topend, binary, mm".ljust(80)
RELATIVE = False  # the sagitta in mm; relative to each edge's length, the kernel misses it more than tenfold
SAGITTA = 0.01  # mm
THREADED = 0.02  # mm, of a part with true threads: finer than a printer shows, and half the facets
COARSEST = 0.5  # rad from facet to facet, so that a small circle stays round
THREADS = False  # one after the other: the same facets in the same order
HEAD_BYTES = 84
FACET = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("flags", "<u2")])


def write_stl(solid: Shape, path: Path, sagitta: float = SAGITTA) -> None:
    """Write a mesh no further from the solid than the sagitta [mm].

    WriteError unless the file reads back closed (every side of a facet once each way) and its volume within the
    sagitta times the solid's area: no point of the mesh lies further than a sagitta from the true face.
    """
    volume = whole(solid, path)
    with writing(path):
        mesh = solid.copy()  # the mesh stays on the shape it is made on
        BRepMesh_IncrementalMesh(mesh.wrapped, sagitta, RELATIVE, COARSEST, THREADS)
        writer = StlAPI_Writer()
        writer.ASCIIMode = False
        with TemporaryDirectory(prefix="topend-", dir=_plain(path.parent)) as folder:
            plain = Path(folder, "mesh.stl")
            if not writer.Write(mesh.wrapped, str(plain)):
                raise WriteError(f"{path}: could not be written by the kernel")
            path.write_bytes(HEADER + plain.read_bytes()[len(HEADER) :])
        _check(path, volume, sagitta * _area(solid))


def _plain(folder: Path) -> Path | None:
    """The folder itself, None for the system's: the kernel reads more than names into | and ^ of a path."""
    return None if {"|", "^"}.intersection(str(folder)) else folder


def _area(solid: Shape) -> float:
    """Area of a solid [mm^2] to a thousandth; without a tolerance the kernel takes seconds over a thread."""
    found = GProp_GProps()
    BRepGProp.SurfaceProperties_s(solid.wrapped, found, 1e-3)
    return float(found.Mass())


def facets_of(path: Path) -> NDArray[np.float32]:
    """Corners of every facet of a binary STL [mm], (n, 3, 3)."""
    return np.asarray(np.fromfile(path, dtype=FACET, offset=HEAD_BYTES)["corners"])


def _check(path: Path, volume: float, slack: float) -> None:
    """Read the facets back; WriteError where they leave a hole or hold another volume."""
    facets = facets_of(path)
    corners = facets.astype(np.float64)
    if not _closed(facets):
        raise WriteError(f"{path}: the mesh of {len(facets)} facets is not closed")
    normal = np.cross(corners[:, 1], corners[:, 2])
    read = float(np.sum(corners[:, 0] * normal) / 6)
    if not abs(read - volume) <= slack:
        raise WriteError(f"{path}: the mesh holds {read:.6g} mm^3, the solid {volume:.6g} mm^3, allowed {slack:.3g}")


def _closed(corners: NDArray[np.float32]) -> bool:
    """Whether every side of a facet is met once by another that runs the other way."""
    _, points = np.unique(corners.reshape(-1, 3) + np.float32(0), axis=0, return_inverse=True)
    a = points.reshape(-1, 3)
    b, size = np.roll(a, -1, axis=1), int(points.max(initial=0)) + 1
    there, back = np.sort((a * size + b).ravel()), np.sort((b * size + a).ravel())
    return len(there) > 0 and bool(np.all(there[1:] != there[:-1]) and np.array_equal(there, back))
