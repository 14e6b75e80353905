"""Turned bodies with a slot from the middle outwards on +X, and how much a slot takes out of a round body."""

from __future__ import annotations

from math import asin, sqrt

from parts.geometry import outline
from parts.geometry.outline import Region
from parts.geometry.profile import Profile, volume
from parts.shapes.pieces import Flat, Piece, Pieces

CLEAR = 1.0  # mm that a slot reaches beyond what it goes through


def strip(radius: float, half: float, start: float = 0.0) -> float:
    """Area of a circle between y = -half and half, x over start, which lies inside it [mm^2].

    >>> round(strip(1.0, 1.0), 6)  # half a circle
    1.570796
    """
    return half * sqrt(radius**2 - half**2) + radius**2 * asin(half / radius) - 2 * half * start


def stepped(low: float, high: float, outside: float, hole: tuple[tuple[float, float], ...]) -> Profile:
    """Return a cylinder with a stepped hole right through it: (up to this z, diameter) from below [mm]."""
    wall: list[tuple[float, float]] = []
    start = low
    for end, diameter in hole:
        wall += [(start, diameter / 2), (end, diameter / 2)]
        start = end
    bore = ((low, 0.0), *wall, (high, 0.0))
    return Profile(((low, 0.0), (low, outside / 2), (high, outside / 2), (high, 0.0)), (bore,))


def slotted(body: Profile, width: float, start: float, high: float) -> Pieces:
    """Return a stepped body with a slot of this width, from x = start outwards, from its lower end up to high [mm]."""
    (low, radius), top, half = body.points[1], body.points[-1][0], width / 2
    reach, end = radius + CLEAR, high + CLEAR * (high >= top)
    corners = ((start, -half), (reach, -half), (reach, half), (start, half))
    piece = Piece(Flat(Region(outline.polygon(corners)), end - low + CLEAR), z=low - CLEAR)
    steps = body.bores[0][1:-1]
    cut = 0.0
    for (z, inner), (upper, _) in zip(steps[::2], steps[1::2], strict=True):
        tall = min(upper, high) - z
        if tall > 0:
            cut += tall * (strip(radius, half, start) - (strip(inner, half, start) if inner > start else 0.0))
    return Pieces((Piece(body),), (piece,), volume(body) - cut)
