"""`topend mandrel`: from flags alone, no job file."""

from __future__ import annotations

from cli.flags import part_verb

EXAMPLE = (
    'topend mandrel --form pin --engine-bore "57.20 mm" --ring-axial-width "2.38 mm" '
    '--ring-radial-thickness "2.40 mm" --ring-material "ring iron, grey" --ring-free-gap "8.58 mm" '
    '--ring-closed-gap "0.20 mm" --ring-slit "0.50 mm"'
)
mandrel = part_verb("mandrel", {"mandrel": (), "ring": (), "engine": ("bore",)}, ["expander-mandrel"], EXAMPLE)
