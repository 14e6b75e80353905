"""The test plate on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions
from parts.sheets.page.marks import stud_holes
from parts.sheets.page.step import fixture, said
from parts.sheets.page.stock import Item, fixture_bar

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.step import Needs, Steps
    from parts.sheets.page.words import Words

DEEP = 1.5  # diameters that a bolt goes into the barrel
SIZES = (
    ("test_plate.groove_outside", "groove, outside"),
    ("test_plate.groove_inside", "groove, inside"),
    ("test_plate.depth", "groove, deep"),
    ("test_plate.thickness", "plate"),
)


def steps(words: Words) -> Steps:
    """What closes the joint for a test by water."""
    return fixture(words, "test_plate", "studs", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    pressure = words.gauge_of("job.test_plate.pressure")
    do = said(
        "Turn the face and the groove in one setting, drill the bolts' holes by their coordinates, tap the middle for pump and gauge.",
        "Before the studs go in: on the deck by bolts into their holes, drawn up evenly by a short wrench, the barrel's foot closed by a plate and rubber on its "
        "own holes. Fill it to the brim with water, plate up, until no air is left: air stores what throws things.",
        f"Pump to {pressure} and no more, shut off, ten minutes by the clock. Look dry round every filled hole, plug and bolt: a tear of water is a leak. Let "
        "the pressure off before a nut is touched.",
        "Dry it at once and oil the bore: wet iron rusts within the hour.",
    )
    needs = (
        Item(
            "O-ring",
            f"cord {words.size('test_plate.cord')}, inside {words.size('test_plate.cord_inside')}",
            "for the test plate",
        ),
        *_bolts(words),
        Item("hand pump for water, with gauge", f"up to twice {pressure}", "never a compressor", shared=True),
        bench.DEPTH_GAUGE,
    )
    return do, ((cautions.WATER_TEST, cautions.TURNING), needs)


def _bolts(words: Words) -> Iterator[Item]:
    """Bolts into the studs' own holes, a diameter and a half deep and no deeper than these."""
    for own in words.each("stud"):
        stud, count = own.job.stud, len(stud_holes(own))
        if stud is not None and count:
            long = words.stock(words.value("test_plate.thickness") + DEEP * stud.tap_end.nominal)
            each = f"{stud.tap_end.label} × {long} under the head"
            yield Item("bolts with washers", each, "for the test plate, class 8.8", count=count)


def stock(words: Words) -> Iterator[Item]:
    """Bar or plate for it."""
    yield from fixture_bar(words, "test_plate", "test_plate.diameter", "test_plate.thickness")
