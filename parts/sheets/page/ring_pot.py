"""The ring pot on the job sheet."""

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
    ("ring_pot.recess", "recess, slit held open"),
    ("ring_pot.depth", "recess, deep"),
    ("ring_pot.hole", "hole through the floor"),
    ("ring_pot.diameter", "outside"),
)


def steps(words: Words) -> Steps:
    """What holds a blank all round, so that it stays round."""
    return fixture(words, "ring_pot", "blank", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    told = ("ring_pot.grip", "ring_pot.ovality_in_jaws", "ring_pot.ovality")
    grip, bare, held = (words.pull(told[0]), *map(words.size, told[1:])) if words.has(*told) else ("", "", "")
    do = said(
        "Turn the outside, drill and bore the hole, part off; saw the slit. Back in the chuck, the slit between two jaws with a strip in it, bore "
        "recess and ledge. Take the strip out: the jaws now close it round a blank.",
        f"A light pull of the key will do: {grip} a jaw holds the last cut. Three jaws on the bare blank would leave it {bare} out of round "
        f"by then, the pot leaves {held}."
        if grip
        else None,
        "Blank down on the ledge, sides wiped. Face the second side and bore in it; slack the jaws and it falls out.",
    )
    return do, ((cautions.TURNING, cautions.SWARF), (bench.INDICATOR,))


def stock(words: Words) -> Iterator[Item]:
    """Bar for it."""
    yield from fixture_bar(words, "ring_pot", "ring_pot.diameter", "ring_pot.depth", "ring_pot.floor")
