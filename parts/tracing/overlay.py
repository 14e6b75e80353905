"""The outlines drawn on the picture that they were traced from, to be looked at."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from PIL import Image, ImageDraw

from parts.geometry.outline import flatten
from parts.sheets.frame import RING
from parts.writers import writing

if TYPE_CHECKING:
    from pathlib import Path

    from parts.tracing.contours import Points
    from parts.tracing.trace import Trace

LONG = 2000  # dots of the longer side
FINE = 0.02  # mm
COLOURS = {"OUTLINE": (214, 40, 40), "BORE": (20, 90, 220), "HOLES": (0, 130, 60), "OPENINGS": (150, 40, 170)}
MARK = (240, 140, 0)


def write_overlay(traced: Trace, path: Path) -> None:
    """Write the picture as PNG with every outline on it, in the colour of its layer, numbered as in the table."""
    seen = traced.picture.seen
    share = min(1.0, LONG / max(seen.size))
    image = seen.resize((round(seen.width * share), round(seen.height * share)), Image.Resampling.LANCZOS)
    draw, dots = ImageDraw.Draw(image), share * traced.picture.shrunk

    def there(points: Points) -> list[tuple[float, float]]:
        return [(float(x), float(y)) for x, y in (traced.laid.camera.picture(points) + 0.5) * dots - 0.5]

    for number, one in enumerate(traced.loops, 1):
        line = there(np.array(flatten(one.loop, FINE)) + traced.origin)
        draw.line([*line, line[0]], fill=COLOURS[one.layer], width=2)
        middle = there(np.array([(one.x, one.y)]) + traced.origin)[0]
        draw.text(middle if one.layer != "OUTLINE" else line[0], str(number), fill=COLOURS[one.layer])
    rings = np.array(traced.found.frame.rings)[traced.found.numbers] * traced.scale
    for ring in rings:
        angle = np.linspace(0, 2 * np.pi, 40)
        draw.line(there(ring + RING * np.stack([np.cos(angle), np.sin(angle)], axis=1)), fill=MARK, width=2)
    with writing(path):
        image.save(path, compress_level=1)
