"""The kernel's side of a job: a part or the assembly asked for, built, written and handed back as meshes.

An order and what it is filled with are plain numbers, so that they can go from one process to another.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from parts.pictures.filled import Filled
from parts.register import ASSEMBLY, PARTS, detailed

if TYPE_CHECKING:
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class Order:
    """A part, or the assembly, that the kernel is asked for."""

    stem: str
    part: str
    """its row in the register"""
    shape: Any
    """of the part; the bodies of the assembly"""
    name: str
    """in the STEP file"""
    folder: Path
    write: bool
    """its files; the picture is left to whoever asked"""
    show: bool
    """on the page"""
    threads: str = "simplified"


def fill(order: Order) -> Filled:
    """Fill one order; BuildError or WriteError where the kernel or the disk fails."""
    return _assembly(order) if order.stem == ASSEMBLY else _part(order)


def _part(order: Order) -> Filled:
    from parts.builders.solid import solid
    from parts.pictures.mesh import THREADED, TURN, mesh_of
    from parts.pictures.packed import packed
    from parts.writers import step, stl
    from parts.writers.three_mf import write_3mf

    part = PARTS[order.part]
    color = getattr(step, part.color)
    form = detailed(part, order.shape, order.threads)
    built, true = solid(form, part.title), form is not order.shape
    mesh = mesh_of(built, color, THREADED if true else TURN)
    filled = Filled(order.stem)
    if order.write:
        base = order.folder / "parts" / order.stem
        step.write_step(built, order.name, color, base.with_suffix(".step"))
        stl.write_stl(built, base.with_suffix(".stl"), stl.THREADED if true else stl.SAGITTA)
        write_3mf(base.with_suffix(".stl"), order.name, color, base.with_suffix(".3mf"))
        filled.meshes.append(mesh)
    if order.show:  # the page turns in the hand: plain threads there
        filled.models.append(packed(mesh_of(solid(order.shape, part.title), color) if true else mesh))
    return filled


def _assembly(order: Order) -> Filled:
    from parts.builders.assembly import build
    from parts.pictures.mesh import mesh_of, moved
    from parts.pictures.packed import packed
    from parts.writers import step
    from parts.writers.step_assembly import Placed, write_assembly

    built = build(order.shape)
    colors = [getattr(step, body.color) for body, _ in built]
    once = {id(solid): (solid, color) for (_, solid), color in zip(built, colors, strict=True)}
    meshes = {key: mesh_of(solid, color) for key, (solid, color) in once.items()}
    filled = Filled(order.stem)
    if order.write:
        placed = [
            Placed(body.name, body.name.partition(" ")[0], solid, color, body.place)
            for (body, solid), color in zip(built, colors, strict=True)
        ]
        write_assembly(placed, order.name, order.folder / "assembly.step")
        filled.meshes.extend(
            moved(meshes[id(solid)], *body.place[:2], body.place[2] + body.lift) for body, solid in built
        )
    if order.show:
        filled.models.extend(map(packed, meshes.values()))
        places, numbers = list(meshes), {body: n for n, body in enumerate(order.shape)}
        filled.bodies.extend((numbers[body], places.index(id(solid))) for body, solid in built)
    return filled
