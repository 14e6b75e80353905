"""Pictures of solids without GL: a mesh, a z-buffer, a PNG. The same solid gives the same bytes on every run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.pictures.camera import camera_for, lying
from parts.pictures.png import png
from parts.pictures.render import render
from parts.writers import writing

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from parts.pictures.mesh import Mesh


def write_preview(mesh: Mesh, path: Path) -> None:
    """Write a picture of one part; a long one lies across it."""
    with writing(path):
        path.write_bytes(png(render([mesh], lying(mesh) or camera_for())))


def write_exploded(meshes: Sequence[Mesh], path: Path) -> None:
    """Write a picture of an assembly, its bodies in the places they are lifted to."""
    with writing(path):
        path.write_bytes(png(render(meshes, camera_for(), size=(640, 760))))
