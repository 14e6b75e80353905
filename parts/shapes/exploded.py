"""The exploded view: how far up each body of the assembly is moved in it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from parts.geometry import outline

if TYPE_CHECKING:
    from parts.shapes.assembly import Body

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
