"""The test plate on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions
from parts.sheets.page.step import fixture, said
from parts.sheets.page.stock import Item, fixture_bar

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.step import Needs, Steps
    from parts.sheets.page.words import Words

SIZES = (
    ("test_plate.groove_outside", "groove, outside"),
    ("test_plate.groove_inside", "groove, inside"),
    ("test_plate.depth", "groove, deep"),
    ("test_plate.thickness", "plate"),
)


def steps(words: Words) -> Steps:
    """What closes the joint for a test by water."""
    return fixture(words, "test_plate", "prove", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    pressure = words.gauge_of("job.test_plate.pressure")
    do = said(
        "Turn the face and the groove in one setting, drill the studs' holes by their coordinates, tap the middle for pump and gauge.",
        "On the deck over the studs, nuts tightened evenly by hand wrench, the barrel's foot closed likewise with a plate and rubber. Fill it to the brim with "
        "water, plate up, until no air is left: air stores what throws things.",
        f"Pump to {pressure} and no more, shut off, ten minutes by the clock. Look dry round every filled hole, plug and stud: a tear of water is a leak. Let "
        "the pressure off before a nut is touched.",
        "Dry it at once and oil the bore: wet iron rusts within the hour.",
    )
    needs = (
        Item(
            "O-ring",
            f"cord {words.size('test_plate.cord')}, inside {words.size('test_plate.cord_inside')}",
            "for the test plate",
        ),
        Item("hand pump for water, with gauge", f"up to twice {pressure}", "never a compressor", shared=True),
        bench.DEPTH_GAUGE,
    )
    return do, ((cautions.WATER_TEST, cautions.TURNING), needs)


def stock(words: Words) -> Iterator[Item]:
    """Bar or plate for it."""
    yield from fixture_bar(words, "test_plate", "test_plate.diameter", "test_plate.thickness")
