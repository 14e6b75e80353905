"""The turned washers on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions
from parts.sheets.page.marks import stud_holes
from parts.sheets.page.step import fixture, said
from parts.sheets.page.stock import SKIN, Item, bar, length_of, material_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.step import Needs, Steps
    from parts.sheets.page.words import Words

SIZES = (
    ("turned_washer.outside_diameter", "outside"),
    ("turned_washer.hole_diameter", "hole"),
    ("turned_washer.thickness", "thickness, all alike"),
)


def steps(words: Words) -> Steps:
    """What spreads the nut's load over more of the head."""
    return fixture(words, "turned_washer", "studs", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    longer, name = (
        "turned_washer.longer",
        words.job.stud.washer.name if words.job.stud and words.job.stud.washer else "",
    )
    do = said(
        f"{len(stud_holes(words)) or 'One'} from one bar: face, drill, bore, turn, part off; rub both faces flat on the plate, all to one thickness.",
        f"The studs of this sheet are made for another washer{f', {name}' if name else ''}: with these each must be {words.size(longer)} longer. "
        'Give stud.washer = "turned", and every length follows.'
        if words.has(longer)
        else None,
        "Break the edge on the head's side: a sharp one cuts into the alloy.",
    )
    return do, ((cautions.TURNING,), (bench.PLATE, bench.MICROMETER))


def stock(words: Words) -> Iterator[Item]:
    """Bar for them."""
    if words.job.turned_washer is not None and words.has("turned_washer.outside_diameter", "turned_washer.thickness"):
        wide, thick = (words.value(f"turned_washer.{n}") for n in ("outside_diameter", "thickness"))
        size = f"{bar(words, wide + SKIN)} × {length_of(words, len(stud_holes(words)) or 1, thick)}"
        yield Item(f"bar, {material_of(words, 'turned_washer')}", size, "the turned washers, with parting and grip")
