"""A DXF file as its outlines are read: a picture, with what is open, doubled or crossing ringed in red."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PIL import Image, ImageDraw

from parts.geometry.lands import boxed
from parts.geometry.outline import flatten
from parts.writers import writing

if TYPE_CHECKING:
    from pathlib import Path

    from parts.drawn import Drawing
    from parts.geometry.edge import Point

LONG, MARGIN = 1600, 80  # dots: the longer side of what is drawn, and beside it
LETTERS, RING = 24, 18  # dots
FINE = 0.01  # mm
COLOURS = ((20, 90, 220), (0, 130, 60), (150, 40, 170), (90, 90, 90))
"""of the layers, in turn"""
RED = (214, 40, 40)


def write_looked(drawing: Drawing, path: Path) -> None:
    """Write all that is drawn as PNG, each layer in a colour of its own, each flaw ringed and numbered as listed."""
    boxes = [boxed(edge) for edges in drawing.edges.values() for edge in edges]
    left, high = min(box[0] for box in boxes), max(box[3] for box in boxes)
    wide, tall = max(box[2] for box in boxes) - left, high - min(box[1] for box in boxes)
    dots = LONG / max(wide, tall)
    image = Image.new("RGB", (round(wide * dots) + 2 * MARGIN, round(tall * dots) + 2 * MARGIN), (255, 255, 255))
    draw = ImageDraw.Draw(image)

    def there(point: Point) -> Point:
        return MARGIN + (point[0] - left) * dots, MARGIN + (high - point[1]) * dots

    for n, (layer, edges) in enumerate(drawing.edges.items()):
        colour = COLOURS[n % len(COLOURS)]
        draw.text((MARGIN / 4 + 220 * n, MARGIN / 4), layer, fill=colour, font_size=LETTERS)
        for edge in edges:
            line = flatten([(edge.x0, edge.y0, edge.bulge), (edge.x1, edge.y1, 0.0)], FINE)
            draw.line([there(point) for point in line], fill=colour, width=3)
    for number, flaw in enumerate((flaw for flaws in drawing.faults.values() for flaw in flaws), 1):
        x, y = there(flaw.at)
        draw.ellipse((x - RING, y - RING, x + RING, y + RING), outline=RED, width=4)
        draw.text((x + RING, y - RING), str(number), fill=RED, font_size=LETTERS, anchor="lb")
    with writing(path):
        image.save(path)
