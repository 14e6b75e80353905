"""The tapped holes of the studs on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.shapes.assembly import holes
from parts.sheets.page import bench, cautions
from parts.sheets.page.marks import where
from parts.sheets.page.step import Step, lines, said
from parts.sheets.page.stock import Item
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.cautions import Caution
    from parts.sheets.page.words import Words


def tap(words: Words) -> Step | None:
    """Mouths, threads and inserts."""
    stud, hole = words.job.stud, hole_of(words.book)
    if stud is None or not words.has(f"{hole}.full_thread_depth"):
        return None
    deep, mouth = words.size(f"{hole}.full_thread_depth"), words.size("deck.tapped_major")
    mouths = f"Countersink the mouths to a little over Ø {mouth} and stone the burr off: the deck must not rise round the thread."
    start = (
        f"Start each tap in the drilling setting, square. Full thread {deep} deep, a depth stop on the tap or a mark; clear the chips, "
        "back off often."
    )
    care: tuple[Caution, ...] = (cautions.TAPPING,)
    if stud.insert is None:
        do = said(where(words, "stud"), mouths, f"Tap {stud.tap_end.label}. {start}")
        title = f"Tap the holes {stud.tap_end.label}"
    else:
        do = said(
            where(words, "stud"),
            mouths,
            f"Tap with the tap for wire inserts, {stud.tap_end.label}. {start}",
            f"Wind the inserts in until the first coil lies {words.size('insert.set_down')} below the deck; break off and "
            "take out every tang.",
        )
        title, care = "Tap, and fit the wire inserts", (cautions.TANGS, cautions.TAPPING)
    asked = lines(
        words,
        (f"{hole}.full_thread_depth", "full thread", "at least"),
        ("insert.set_down", "first coil below the deck"),
    )
    return Step("tap", words.named(title), do, asked, care, needs=tuple(_taps(words, mouth)))


def _taps(words: Words, mouth: str) -> Iterator[Item]:
    stud = words.job.stud
    if stud is None:
        return
    yield Item("countersink", f"over Ø {mouth}", "for the mouths of the tapped holes")
    yield bench.STONE
    if stud.insert is None:
        yield Item("tap", stud.tap_end.label, f"taper, second and {stud.tap}; a depth stop for it")
        return
    yield Item(
        "tap for wire inserts",
        f"{stud.tap_end.label} STI",
        f"{stud.insert.tap}, and a plug tap to start it; a depth stop for it",
    )
    count, long = len(holes(words.book, "deck.hole")), words.plain("insert.nominal_length")
    yield Item(
        "wire inserts",
        f"{stud.tap_end.label} × {long}",
        "one spare; tools to wind them in and to break the tangs",
        count=count,
        spare=1,
    )
