"""Drawings of the turned parts: first-angle, on one sheet each, at a scale of ISO 5455, as DXF, SVG and PDF.

`sheet` is the paper, `items` the dimensions beside a view and how they keep out of each other's way, `view` a view with
its dimensions, `furniture` frame, title block, tables and notes, `compose` the choice of the scale and the files.
One module a part says what stands on its sheet.
"""

from __future__ import annotations

from parts.runtime.loading import load_drawing_library

load_drawing_library()
