"""The splitting fixture on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import cautions
from parts.sheets.page.step import fixture, said
from parts.sheets.page.stock import Item, fixture_bar
from parts.sizing.clamp_plate import bolt_through, short

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.step import Needs, Steps
    from parts.sheets.page.words import Words

SIZES = (
    ("splitting_fixture.recess", "recess, to the blank as it is"),
    ("splitting_fixture.depth", "recess, deep"),
    ("splitting_fixture.slot", "slot, to the saw as it cuts"),
    ("splitting_fixture.gap", "gap that this saw leaves in the bore"),
)


def steps(words: Words) -> Steps:
    """A cut that is square, and the gap right the first time."""
    return fixture(words, "splitting_fixture", "split", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    do = said(
        "Turn recess and floor in one setting, drill for the bolt, saw or mill the slot in line with the axis, square to the floor.",
        "Saw a strip of scrap first and measure what the saw takes: give it as saw_cut, and the gap is told before a ring is cut.",
        "Blank into the recess, its edge free of burrs; cap on it and the bolt snug: the cap bears on the blank alone. Saw through "
        "blank and cap along the slot, once. It comes out by a thin rod through the slot, pushed from inside.",
    )
    through = bolt_through(words.value("splitting_fixture.hole"), words.system)
    gripped = sum(words.value(f"splitting_fixture.{n}") for n in ("floor", "cap_thickness", "depth"))
    long = gripped + 2 * through.nominal  # washers, nut and thread
    size = f"{short(through)} × {words.stock(long)} or longer"
    bolt = Item("bolt, nut and two washers", size, "to hold cap and blank down in the splitting fixture")
    return do, ((cautions.WHEELS, cautions.TURNING), (bolt,))


def stock(words: Words) -> Iterator[Item]:
    """Bar for it."""
    yield from fixture_bar(
        words, "splitting_fixture", "splitting_fixture.diameter", "splitting_fixture.depth", "splitting_fixture.floor"
    )
