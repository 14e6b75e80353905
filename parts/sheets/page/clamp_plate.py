"""The clamp plate on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions
from parts.sheets.page.step import Step, Steps, lines, said
from parts.sheets.page.stock import SKIN, Item, bar, length_of, material_of
from parts.sizing.clamp_plate import bolt_label

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words

SIZES = ("clamp_plate.diameter", "clamp_plate.thickness", "clamp_plate.hole")


def steps(words: Words) -> Steps:
    """Face it flat."""
    return (_make(words),)


def _make(words: Words) -> Step | None:
    if words.job.clamp_plate is None or not words.has(*SIZES):
        return None
    do = said(
        "Face one side, bore the hole and turn the outside in one setting, part off, face the other side parallel.",
        "Blue it on a surface plate: it is its own flatness that keeps the rings flat, not the pull of bolt and nut.",
        f"Over the rings on the mandrel it stands {words.size('mandrel.under_stack')} clear of the mandrel's top all round."
        if words.has("mandrel.under_stack")
        else None,
    )
    asked = lines(
        words,
        ("clamp_plate.diameter", "outside"),
        ("clamp_plate.thickness", "thickness"),
        ("clamp_plate.hole", "hole"),
    )
    return Step(
        "clamp-plate",
        words.named("Make the clamp plate"),
        do,
        asked,
        (cautions.TURNING,),
        "mandrel",
        tuple(_needs(words)),
    )


def stock(words: Words) -> Iterator[Item]:
    """Bar for it."""
    if words.job.clamp_plate is not None and words.has(*SIZES):
        wide, thick = (words.value(n) for n in SIZES[:2])
        size = f"{bar(words, wide + SKIN)} × {length_of(words, 1, thick)}"
        yield Item(f"bar, {material_of(words, 'clamp_plate')}", size, "the clamp plate, with facing and grip")


def _needs(words: Words) -> Iterator[Item]:
    yield bench.PLATE
    if words.job.clamp_plate is not None and words.has("clamp_plate.bolt", "clamp_plate.bolt_length"):
        size = f"{bolt_label(words.book, words.job)} × {words.stock(words.value('clamp_plate.bolt_length'))}"
        yield Item(
            "bolt, nut and two washers", f"{size} or longer", "plain steel, for the clamp plate: new ones each heat"
        )
