"""The squaring piston on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions
from parts.sheets.page.step import fixture, said
from parts.sheets.page.stock import Item, fixture_bar
from parts.sizing.squaring_piston import leaves

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job
    from parts.sheets.page.step import Needs, Steps
    from parts.sheets.page.words import Words

SIZES = (
    ("squaring_piston.diameter", "piston, to the bore as it is"),
    ("squaring_piston.depth", "from its end to the stop"),
)


def steps(words: Words) -> Steps:
    """What sets a ring square before its gap is felt."""
    return fixture(words, "squaring_piston", "split", SIZES, _make)


def _make(words: Words) -> tuple[tuple[str, ...], Needs]:
    read = "squaring_piston.bore_there"
    do = said(
        "Turn piston and stop in one setting, drill the hole through it; no burr at its end.",
        "Ring into the bore, pushed down until the stop sits on the deck, piston out again: the ring lies square, always at the same depth.",
        f"The gap is right where {felt(words.book, words.job, words.bare)}: wet leaves, no force."
        if words.has("squaring_piston.go", "squaring_piston.not_go")
        else None,
        f"The bore is {words.size(read)} there by its readings: that is in these figures." if words.has(read) else None,
    )
    return do, ((cautions.TURNING, cautions.BRITTLE), (bench.FEELERS,))


def felt(book: Book, job: Job, show: Callable[[float], str]) -> str:
    """Say which feelers go into the gap: none has to where the ring's ends may meet."""
    go, not_go = leaves(book, job)
    goes = f"a feeler of {show(go)} goes in and " if go > 0 else ""
    return f"{goes}one of {show(not_go)} does not"


def stock(words: Words) -> Iterator[Item]:
    """Bar for it."""
    sizes = ("squaring_piston.stop_diameter", "squaring_piston.depth", "squaring_piston.stop")
    yield from fixture_bar(words, "squaring_piston", *sizes)
