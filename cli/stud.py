"""`topend stud`: from flags alone, no job file."""

from __future__ import annotations

from cli.flags import part_verb

EXAMPLE = (
    'topend stud --tap-end M10x1.5 --nut-end M8x1.25 --insert-length "1.5 d" '
    '--head-thickness "46 mm" --gasket-thickness "1.2 mm"'
)
stud = part_verb(
    "stud",
    {
        "stud": (),
        "head": ("thickness", "hole_diameter"),
        "gasket": ("thickness", "hole_clearance"),
        "barrel": ("material",),
    },
    ["stepped-stud"],
    EXAMPLE,
    has_threads=True,
)
