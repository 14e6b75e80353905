"""Plain block letters as polygons, to mark a part without a font: 4 units wide, 6 high, strokes of 1 unit."""

from __future__ import annotations

from math import fsum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from parts.geometry.edge import Point

Polygon = tuple["Point", ...]

LETTERS: dict[str, tuple[Polygon, ...]] = {  # the outer edge, then what stands inside it
    "N": (((0, 0), (1, 0), (1, 4), (3, 0), (4, 0), (4, 6), (3, 6), (3, 2), (1, 6), (0, 6)),),
    "O": (((0, 0), (4, 0), (4, 6), (0, 6)), ((1, 1), (3, 1), (3, 5), (1, 5))),
    "H": (((0, 0), (1, 0), (1, 2.5), (3, 2.5), (3, 0), (4, 0), (4, 6), (3, 6), (3, 3.5), (1, 3.5), (1, 6), (0, 6)),),
    "E": (((0, 0), (4, 0), (4, 1), (1, 1), (1, 2.5), (3, 2.5), (3, 3.5), (1, 3.5), (1, 5), (4, 5), (4, 6), (0, 6)),),
    "A": (((0, 0), (1, 0), (1, 2), (3, 2), (3, 0), (4, 0), (4, 6), (0, 6)), ((1, 3), (3, 3), (3, 5), (1, 5))),
    "T": (((1.5, 0), (2.5, 0), (2.5, 5), (4, 5), (4, 6), (0, 6), (0, 5), (1.5, 5)),),
}
PACE = 5  # units from letter to letter


def lettering(text: str, unit: float, x: float, y: float, *, mirrored: bool = False) -> list[tuple[Polygon, ...]]:
    """Place a text, centred on (x, y) [mm], one tuple of polygons a letter; a space leaves a gap."""
    width = (len(text) * PACE - 1) * unit
    side = -1 if mirrored else 1
    return [
        tuple(
            tuple((x + side * ((n * PACE + px) * unit - width / 2), y + (py - 3) * unit) for px, py in polygon)
            for polygon in LETTERS[letter]
        )
        for n, letter in enumerate(text)
        if letter != " "
    ]


def polygon_area(points: Polygon) -> float:
    """Area of a polygon, whichever way round [mm^2].

    >>> polygon_area(((0, 0), (4, 0), (4, 6), (0, 6)))
    24.0
    """
    after = [*points[1:], points[0]]
    return abs(fsum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, after, strict=True))) / 2
