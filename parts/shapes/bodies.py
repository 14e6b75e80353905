"""Bodies of the assembly: what each is, where it stands, what is cut from it, how far up the exploded view lifts it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt
from typing import TypeAlias

from parts.geometry import outline
from parts.geometry.profile import Profile
from parts.shapes.pieces import Flat


@dataclass(frozen=True, slots=True)
class Hexagon:
    """A hexagon nut with chamfered corners, lying on Z = 0 [mm]."""

    flats: float
    hole: float
    height: float

    @property
    def blank(self) -> Profile:
        """The turned blank whose chamfers round the corners off."""
        corner, face, h = self.flats / sqrt(3), 0.475 * self.flats, self.height
        rise = (corner - face) / sqrt(3)
        return Profile(((0.0, 0.0), (0.0, face), (rise, corner), (h - rise, corner), (h, face), (h, 0.0)))


Form: TypeAlias = Profile | Flat | Hexagon


@dataclass(frozen=True, slots=True)
class Tool:
    """What a drill and a tap take out: a turned profile at (x, y) of the body's own coordinates [mm]."""

    x: float
    y: float
    profile: Profile


@dataclass(frozen=True, slots=True)
class Slug:
    """What is taken out in another shape than a turned one: flat, its foot at z of the body's own coordinates."""

    flat: Flat
    z: float


@dataclass(frozen=True, slots=True)
class Body:
    """One body of the assembly [mm]."""

    name: str
    color: str
    """name of a colour of the STEP writer"""
    form: Form
    place: tuple[float, float, float]
    cuts: tuple[Tool | Slug, ...] = ()
    lift: float = 0.0
    """how far up it is moved in the exploded view"""

    @property
    def height(self) -> tuple[float, float]:
        """Lowest and highest z, in place."""
        z = self.place[2]
        if isinstance(self.form, Profile):
            heights = [point[0] for point in self.form.points]
            return z + min(heights), z + max(heights)
        return z, z + (self.form.thickness if isinstance(self.form, Flat) else self.form.height)


# the exploded view ----------------------------------------------------------------------------------------------------

LAYERS = (("filler", "insert", "plug", "ring"), ("gasket",), ("stud",), ("washer",), ("nut",))


def exploded(bodies: list[Body]) -> list[Body]:
    """Lift layer over layer, each clear of the one below; within a layer all stand on one level."""
    kinds = [body.name.partition(" ")[0] for body in bodies]
    wide = max(abs(v) for point in outline.bounds(bodies[0].form.sheet.outer) for v in (point,))  # type: ignore[union-attr]
    gap, floor, lifts = 0.14 * wide, 0.0, dict[str, float]()
    for layer in LAYERS:
        of_layer = [body for body, kind in zip(bodies, kinds, strict=True) if kind in layer]
        if not of_layer:
            continue
        floor += gap
        for body in of_layer:
            lifts[body.name] = floor - min(b.height[0] for b in of_layer if _stacked(b, body))
        floor = max(body.height[1] + lifts[body.name] for body in of_layer)
    return [replace(body, lift=lifts.get(body.name, 0.0)) for body in bodies]


def _stacked(one: Body, other: Body) -> bool:
    """Whether two bodies are of a kind and lie over each other, as rings do: they stay as far apart as they are."""
    return one.name.split()[0] == other.name.split()[0] and one.place[:2] == other.place[:2]
