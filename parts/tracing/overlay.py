"""The outlines drawn on the picture that they were traced from, to be looked at."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from PIL import Image, ImageDraw

from parts.geometry.outline import flatten
from parts.sheets.frame import RING
from parts.tracing.contours import Contour
from parts.tracing.loops import lowered
from parts.writers import writing

if TYPE_CHECKING:
    from pathlib import Path

    from parts.tracing.contours import Points
    from parts.tracing.trace import Trace

LONG = 2000  # dots of the longer side
LETTERS = 28  # dots
FINE = 0.02  # mm
COLOURS = {"OUTLINE": (214, 40, 40), "BORE": (20, 90, 220), "HOLES": (0, 130, 60), "OPENINGS": (150, 40, 170)}
MARK = (240, 140, 0)


def write_overlay(traced: Trace, path: Path) -> None:
    """Write the frame of the picture as PNG, every outline on it as it is seen, its number in its layer's colour."""
    seen, shrunk = traced.picture.seen, traced.picture.shrunk
    rings = np.array(traced.found.frame.rings) * traced.scale
    ends = (traced.laid.camera.picture(np.vstack([rings - 2 * RING, rings + 2 * RING])) + 0.5) * shrunk
    low = np.clip(np.floor(ends.min(axis=0)), 0, seen.size)
    high = np.clip(np.ceil(ends.max(axis=0)), 0, seen.size)
    share = min(1.0, LONG / max(high - low))
    wide, tall = np.rint((high - low) * share).astype(int).tolist()
    image = seen.resize((wide, tall), Image.Resampling.LANCZOS, (*low, *high))
    draw, eye = ImageDraw.Draw(image), traced.laid.camera.eye(traced.picture.focal)
    up = -traced.thick / (1 - traced.thick / eye[2])  # the upper edge as it is seen, nearer to the lens

    def there(points: Points) -> list[tuple[float, float]]:
        dots = ((traced.laid.camera.picture(points) + 0.5) * shrunk - low) * share - 0.5
        return [(float(x), float(y)) for x, y in dots]

    for number, one in enumerate(traced.loops, 1):
        edge = Contour(np.array(flatten(one.loop, FINE)) + traced.origin)
        line = there(lowered(edge, eye, up, dark_inside=one.layer == "OUTLINE").points)
        draw.line([*line, line[0]], fill=COLOURS[one.layer], width=2)
        middle = there(np.array([(one.x, one.y)]) + traced.origin)[0]
        where = middle if one.layer != "OUTLINE" else line[0]
        draw.text(where, str(number), fill=COLOURS[one.layer], font_size=LETTERS, anchor="mm")
    for ring in rings[traced.found.numbers]:
        angle = np.linspace(0, 2 * np.pi, 40)
        draw.line(there(ring + RING * np.stack([np.cos(angle), np.sin(angle)], axis=1)), fill=MARK, width=2)
    with writing(path):
        image.save(path, compress_level=1)
