"""A mesh packed for the page's own viewer: whole numbers in base64, a few hundred bytes a face."""

from __future__ import annotations

from base64 import b64encode
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np

from parts.pictures.mesh import edges

if TYPE_CHECKING:
    from parts.pictures.mesh import Mesh

Model: TypeAlias = dict[str, Any]
STEPS = 60000  # of a mesh's size: 2 um on a part of 120 mm
SMALL = 65536  # corners that a short index can name


def packed(mesh: Mesh) -> Model:
    """Corners as 16 bit steps about the middle, indices as short as they may be."""
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
