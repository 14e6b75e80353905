"""The drill plate on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions
from parts.sheets.page.step import fixture, said
from parts.sheets.page.stock import Item, fixture_bar
from parts.sheets.page.words import hole_list

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.step import Needs, Steps
    from parts.sheets.page.words import Words

SIZES = (
    ("drill_plate.spigot_diameter", "spigot, to the bore as it is"),
    ("drill_plate.thickness", "plate, as thick as the bushes are long"),
    ("drill_plate.diameter", "outside"),
)


def steps(words: Words) -> Steps:
    """Where there are no scales on the mill, the holes are placed once, in the plate."""
    return fixture(words, "drill_plate", "drill", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    do = said(
        "Turn spigot and face in one setting, and bore the hole for the bolt. Place the bushes' holes by their coordinates on a rotary table, or by "
        "buttons; bore them, press the bushes in flush, file the flat at the front.",
        "Measure over two pins, as the table of this sheet says, before you trust it.",
        "Spigot in the bore, flat to the front, held down by a bolt through the middle and a bar under the barrel. Drill the first hole, put a pin "
        "through bush and hole, drill the one opposite, pin that too, then the rest: in steps, chips cleared.",
        "Turn it over on the head's joint face: stepped pins through its bushes must find every hole of the head.",
    )
    return do, ((cautions.DRILLING, cautions.TURNING), tuple(_needs(words)))


def stock(words: Words) -> Iterator[Item]:
    """Bar or plate for it."""
    sizes = ("drill_plate.diameter", "drill_plate.thickness", "drill_plate.spigot_length")
    yield from fixture_bar(words, "drill_plate", *sizes)


def _needs(words: Words) -> Iterator[Item]:
    bushes: dict[tuple[float, float, float], list[int]] = {}
    for n in words.book.numbers("deck.hole"):
        sizes = [words.value(f"drill_plate.hole.{n}.{s}") for s in ("drill", "bush", "bush_length")]
        bushes.setdefault((sizes[0], sizes[1], sizes[2]), []).append(n)
    for (drill, outside, long), holes in bushes.items():
        each = f"{words.bare(drill)} × {words.bare(outside)} × {words.bare(long)}"
        yield Item("drill bushes, ISO 4247", each, f"bore, outside, length: for {hole_list(holes)}", count=len(holes))
    yield bench.MICROMETER
