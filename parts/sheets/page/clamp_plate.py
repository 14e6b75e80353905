"""The clamp plate on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions
from parts.sheets.page.step import fixture, said
from parts.sheets.page.stock import Item, fixture_bar
from parts.sizing.clamp_plate import bolt_label

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.step import Needs, Steps
    from parts.sheets.page.words import Words

SIZES = (
    ("clamp_plate.diameter", "outside"),
    ("clamp_plate.thickness", "thickness"),
    ("clamp_plate.hole", "hole"),
)


def steps(words: Words) -> Steps:
    """Face it flat."""
    return fixture(words, "clamp_plate", "heat", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    clear = words.size("mandrel.under_stack") if words.has("mandrel.under_stack") else ""
    do = said(
        "Face one side, bore the hole and turn the outside in one setting, part off, face the other side parallel.",
        "Blue it on a surface plate: it is its own flatness that keeps the rings flat, not the pull of bolt and nut.",
        f"Over the rings on the mandrel it stands {clear} clear of the mandrel's top all round." if clear else None,
        "Draw it up snug and no more: at the oven's heat the bolt gives, and a nut that was pulled hard is loose after it.",
    )
    return do, ((cautions.TURNING,), tuple(_needs(words)))


def stock(words: Words) -> Iterator[Item]:
    """Bar for it."""
    yield from fixture_bar(words, "clamp_plate", "clamp_plate.diameter", "clamp_plate.thickness")


def _needs(words: Words) -> Iterator[Item]:
    yield bench.PLATE
    if words.has("clamp_plate.bolt", "clamp_plate.bolt_length"):
        size = f"{bolt_label(words.book, words.job)} × {words.stock(words.value('clamp_plate.bolt_length'))}"
        yield Item(
            "bolt, nut and two washers", f"{size} or longer", "plain steel, for the clamp plate: new ones each heat"
        )
