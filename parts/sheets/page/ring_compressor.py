"""The ring compressor on the job sheet."""

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
    ("ring_compressor.outlet_diameter", "outlet, to the bore as it is"),
    ("ring_compressor.mouth_diameter", "mouth"),
    ("ring_compressor.cone_length", "cone"),
)


def steps(words: Words) -> Steps:
    """What closes the rings into the bore."""
    return fixture(words, "ring_compressor", "fit", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    push = words.pull("ring_compressor.push") if words.has("ring_compressor.push") else ""
    do = said(
        "Bore outlet and cone in one setting, polish the cone; face the end that sits on the deck square to it.",
        "On the deck, lined up by the piston itself, all oiled, the gaps where they belong. Push the piston down by the palm, never by a hammer"
        + (f": a ring takes some {push}. " if push else ". ")
        + "Where it stops, a ring has caught: up again, and look.",
    )
    return do, ((cautions.TURNING, cautions.BRITTLE), (bench.MICROMETER,))


def stock(words: Words) -> Iterator[Item]:
    """Bar for it."""
    sizes = ("ring_compressor.outside_diameter", "ring_compressor.land", "ring_compressor.cone_length")
    yield from fixture_bar(words, "ring_compressor", *sizes)
