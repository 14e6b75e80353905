"""Where a picture is taken from: three unit vectors, right, up and towards the eye; no perspective."""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from parts.pictures.mesh import Mesh

Vector: TypeAlias = tuple[float, float, float]
Camera: TypeAlias = tuple[Vector, Vector, Vector]

TURNED, TILTED = 28.0, 26.0  # degrees about Z, and down from the side
SLENDER = 2.0  # height over width from which a part is laid across the picture
ROLLED = 68.0  # degrees clockwise


def camera_for(turned: float = TURNED, tilted: float = TILTED, rolled: float = 0.0) -> Camera:
    """Look at the part from its front right, from above; then roll the picture clockwise [deg].

    >>> right, up, eye = camera_for(0.0, 90.0)
    >>> [round(v, 9) + 0.0 for v in eye], [round(v, 9) + 0.0 for v in up]
    ([0.0, 0.0, 1.0], [0.0, 1.0, 0.0])
    """
    a, b, c = radians(turned), radians(tilted), radians(rolled)
    right: Vector = (cos(a), sin(a), 0.0)
    eye: Vector = (sin(a) * cos(b), -cos(a) * cos(b), sin(b))
    up: Vector = (-sin(a) * sin(b), cos(a) * sin(b), cos(b))
    across = [cos(c) * r - sin(c) * u for r, u in zip(right, up, strict=True)]
    along = [sin(c) * r + cos(c) * u for r, u in zip(right, up, strict=True)]
    return (across[0], across[1], across[2]), (along[0], along[1], along[2]), eye


def lying(mesh: Mesh) -> Camera | None:
    """Camera that lays a part across the picture, if it is that slender."""
    wide, deep, tall = (float(v) for v in mesh.points.max(axis=0) - mesh.points.min(axis=0))
    return camera_for(rolled=-ROLLED) if tall > SLENDER * max(wide, deep) else None
