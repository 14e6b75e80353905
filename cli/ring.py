"""`topend ring`: from flags alone, no job file."""

from __future__ import annotations

from cli.flags import part_verb

EXAMPLE = (
    'topend ring --engine-bore "57.20 mm" --axial-width "2.38 mm" --radial-thickness "2.40 mm" '
    '--material "ring iron, grey" --free-gap "8.58 mm" --closed-gap "0.20 mm" --slit "0.50 mm"'
)
ring = part_verb("ring", {"ring": (), "engine": ("bore",)}, ["ring-blank", "ring-split"], EXAMPLE)
