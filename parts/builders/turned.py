"""Turned parts: a profile revolved about Z."""

from __future__ import annotations

from cadquery.func import Shape, face, polygon, revolve

from parts.builders import checked, kernel
from parts.geometry.profile import Profile, meridian, volume


def turned(profile: Profile, part: str = "turned part") -> Shape:
    """Return the solid of a profile: axis on Z, z as in the profile [mm]; BuildError names the part."""
    with kernel(part):
        section = face(polygon(*((r, 0, z) for z, r in meridian(profile))))
        solid = revolve(section, (0, 0, 0), (0, 0, 1))
    return checked(solid, part, volume(profile))
