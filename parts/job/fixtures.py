"""The fixtures, a record each: what each is made for, what it can't do without, how it is made from flags alone."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Mapping

RING = (
    '--engine-bore "57.20 mm" --ring-axial-width "2.38 mm" --ring-radial-thickness "2.40 mm" '
    '--ring-material "ring iron, grey" --ring-free-gap "8.58 mm" --ring-closed-gap "0.20 mm" --ring-slit "0.50 mm"'
)
"""flags of a ring"""
STUD = (
    '--stud-tap-end M10x1.5 --stud-nut-end M8x1.25 --stud-material "42CrMo4 +QT" --stud-shank "6.2 mm" '
    '--engine-hot-stud "145 degC" --engine-hot-head "170 degC" --engine-hot-barrel "160 degC" --engine-bore "57.20 mm"'
)
"""flags of a hot stud"""
HOLES = '--barrel-material EN-GJL-250 --head-holes \'{ rectangle = ["60 mm", "58 mm"] }\''
"""flags of a pattern"""
OF_RING = {"ring": (), "engine": ("bore",)}
OF_STUD = {"stud": ("tap_end", "nut_end", "material", "shank"), "engine": ("bore", "hot")}
OF_HOLES = {"barrel": ("material",), "head": ("holes",)}
"""tables, and those of their keys, that become flags; no keys: all"""
TURNED = "turned"
"""a stud's washer, that is the one of [turned_washer]"""


class Fixture(NamedTuple):
    """One fixture."""

    kind: str
    """of instance that each has one of; empty: there is one"""
    beside: tuple[str, ...]
    """tables of what it is made for"""
    needs: tuple[str, ...]
    """sizes of its own without which it can't be made"""
    example: str
    """flags that make one"""
    keys: Mapping[str, tuple[str, ...]]
    """other tables than its own, and those of their keys, that become flags"""


ON_DECK = ("engine", "barrel", "head", "stud")
FIXTURES = {
    "clamp_plate": Fixture(
        "ring",
        ("ring", "mandrel"),
        ("diameter", "thickness", "bolt_length"),
        f"--material C45 --mandrel-form contoured {RING}",
        {"mandrel": (), **OF_RING},
    ),
    "drill_plate": Fixture(
        "",
        ON_DECK,
        ("diameter", "thickness", "spigot_diameter"),
        f"--material C45 {HOLES} {STUD}",
        {**OF_HOLES, **OF_STUD},
    ),
    "splitting_fixture": Fixture(
        "ring", ("ring", "engine"), ("diameter", "recess", "slot"), f'--saw-cut "0.54 mm" {RING}', OF_RING
    ),
    "ring_pot": Fixture(
        "ring", ("ring", "engine"), ("diameter", "recess", "hole"), f'--material "AlSi7Mg0.3 T6" {RING}', OF_RING
    ),
    "squaring_piston": Fixture(
        "ring", ("ring", "engine"), ("diameter", "depth", "gap"), f'--depth "17 mm" {RING}', OF_RING
    ),
    "turned_washer": Fixture(
        "stud",
        ("stud", "head"),
        ("outside_diameter", "thickness", "hole_diameter"),
        f'--material C45 --head-material "AlSi7Mg0.3 T6" --head-hole-diameter "9.0 mm" {STUD}',
        {"head": ("material", "hole_diameter"), **OF_STUD},
    ),
    "fitting_sleeve": Fixture(
        "ring",
        ("ring", "engine"),
        ("skirt_diameter", "cone_length", "reach"),
        f'--reach "12 mm" --ring-piston-diameter "57.10 mm" {RING}',
        OF_RING,
    ),
    "ring_compressor": Fixture(
        "ring", ("ring", "engine"), ("outside_diameter", "mouth", "cone_length"), f"--material 11SMn30 {RING}", OF_RING
    ),
    "stud_gauge": Fixture(
        "stud",
        ("stud", "head"),
        ("high_step", "low_step", "outside_diameter", "holder_outside"),
        f'--material 11SMn30 --head-thickness "46 mm" --gasket-thickness "1.2 mm" {STUD}',
        {"head": ("thickness",), "gasket": ("thickness",), **OF_STUD},
    ),
    "test_plate": Fixture(
        "",
        ON_DECK,
        ("diameter", "thickness", "groove_outside"),
        f'--pressure "5 bar" {HOLES} {STUD}',
        {**OF_HOLES, **OF_STUD},
    ),
}
"""table of each, in the order of the register"""


def stem_of(table: str) -> str:
    """Of its files, and its name in [fixtures].

    >>> stem_of("clamp_plate")
    'clamp-plate'
    """
    return table.replace("_", "-")


def fixtures_of(kind: str) -> tuple[str, ...]:
    """Tables of the fixtures that each of a kind has one of."""
    return tuple(table for table, one in FIXTURES.items() if one.kind == kind)
