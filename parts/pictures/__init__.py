"""Pictures of solids without GL: a mesh, a z-buffer, a PNG. The same solid gives the same bytes on every run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.pictures.camera import camera_for, lying
from parts.pictures.mesh import TURN, mesh_of, moved
from parts.pictures.png import png
from parts.pictures.render import render
from parts.writers import writing

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from cadquery import Shape

    from parts.shapes.assembly import Body
    from parts.writers.step import Color


THREADED = 0.5  # rad from facet to facet of a part with true threads: a quarter of the facets, the same picture


def write_preview(solid: Shape, color: Color, path: Path, turn: float = TURN) -> None:
    """Write a picture of one part; a long one lies across it."""
    with writing(path):
        mesh = mesh_of(solid, color, turn)
        path.write_bytes(png(render([mesh], lying(mesh) or camera_for())))


def write_exploded(built: Sequence[tuple[Body, Shape]], path: Path) -> None:
    """Write a picture of an assembly, its layers lifted apart."""
    from parts.writers import step

    with writing(path):
        once = {id(solid): (body, solid) for body, solid in built}
        made = {key: mesh_of(solid, getattr(step, body.color)) for key, (body, solid) in once.items()}
        meshes = [
            moved(made[id(solid)], body.place[0], body.place[1], body.place[2] + body.lift) for body, solid in built
        ]
        path.write_bytes(png(render(meshes, camera_for(), size=(640, 760))))
