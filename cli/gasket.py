"""`topend gasket`: from flags alone, no job file."""

from __future__ import annotations

from cli.flags import part_verb

EXAMPLE = (
    'topend gasket --thickness "1.2 mm" --engine-bore "57.2 mm" --hole "8.5 mm" --outline bosses '
    '--land "8 mm" --head-holes \'{ rectangle = ["60 mm", "58 mm"] }\''
)
gasket = part_verb(
    "gasket",
    {
        "gasket": (),
        "engine": ("bore",),
        "stud": ("tap_end", "nut_end"),
        "head": ("holes",),
        "barrel": ("material", "outline"),
    },
    ["head-gasket"],
    EXAMPLE,
)
