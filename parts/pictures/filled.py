"""What the kernel's side hands back of a part or the assembly: meshes for pictures, models for the page."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from parts.pictures.mesh import Mesh
    from parts.pictures.packed import Model


@dataclass(frozen=True, slots=True)
class Filled:
    """What an order came to, besides its files."""

    stem: str
    meshes: list[Mesh] = field(default_factory=list)
    """for its picture, in their places; where it was to be written"""
    models: list[Model] = field(default_factory=list)
    """for the page; where it was to be shown"""
    bodies: list[tuple[int, int]] = field(default_factory=list)
    """of the assembly: number of the body, and of its model"""
