"""The blanking plug on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import bench, cautions, facts
from parts.sheets.page.marks import where
from parts.sheets.page.step import Step, Steps, lines, said
from parts.sheets.page.stock import SKIN, Item, bar, length_of, material_of
from parts.sheets.page.words import Words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words


def steps(words: Words) -> Steps:
    """Ream, turn, fit."""
    return (_plug(words),)


def _plug(words: Words) -> Step | None:
    plug = words.job.plug
    if plug is None or not words.has("plug.diameter", "plug.length"):
        return None
    hole = _hole(words)
    what = f"the {plug.passage} passage" if plug.passage else "the hole"
    bonded, brazed = plug.fit == "bonded", facts.brazed(words)
    proud = words.value("job.plug.stands_proud") > 0
    fit = (
        "Degrease both, retaining compound all round, in with a twist, wipe off. Let it cure in full, as its data sheet says, before "
        "anything is faced or warmed."
        if bonded
        else "Warm the barrel in hot oil or an oven, cool the plug, press it in square and in one go."
    )
    do = said(
        where(words, "plug"),
        "Everything that is to be brazed is brazed and cold." if brazed else None,
        _opened(words, hole, what),
        _counterbored(words),
        "Turn the plug to it, part it off, face the second end held by the turned part; chamfer the end that goes in.",
        _to_draw_out(words),
        fit,
        f"It stands {words.size('job.plug.stands_proud')} proud, to be faced off with the deck." if proud else None,
        "From here on no torch comes near the barrel." if bonded and brazed else None,
    )
    asked = lines(
        words,
        (hole, "hole, as measured" if _measured(words) else "hole, as reamed"),
        ("plug.counterbore_diameter", "counterbore"),
        ("plug.counterbore_depth", "counterbore, below the deck as it is"),
        ("plug.diameter", "plug, turned to the hole as it is"),
        ("job.plug.shoulder.diameter", "plug's shoulder"),
        ("plug.whole_length", "plug, whole length"),
        *((("job.plug.stands_proud", "stands proud", "something to face off"),) if proud else ()),
    )
    care = (cautions.ADHESIVE if bonded else cautions.PRESS, cautions.TURNING)
    needs = tuple(_needs(words, hole))
    return Step("plug", f"Plug {what}", do, asked, care, "" if bonded else "pressed", needs)


def _measured(words: Words) -> bool:
    """Whether the hole was measured, with its tolerance, for a press fit: then it stays as it is."""
    return words.has("plug.hole_lower") and words.book["plug.hole_lower"].status == "given"


def _opened(words: Words, hole: str, what: str) -> str:
    if _measured(words):
        low, high = (words.size(f"plug.hole_{end}") for end in ("min", "max"))
        return f"Clean {what} and leave it as it was measured, {low} to {high}: the plug is turned to that, a reamer would undo it."
    return f"Ream {what} to {words.size(hole)}, a little deeper than {words.size('plug.length')}."


def _counterbored(words: Words) -> str | None:
    if not words.has("plug.counterbore_diameter", "plug.counterbore_depth"):
        return None
    wide, deep = (words.size(f"plug.counterbore_{n}") for n in ("diameter", "depth"))
    return (
        f"Counterbore it Ø {wide}, {deep} deep from the deck as it is now, the floor flat and square: the shoulder bears on it. It must bear "
        "before the plug bottoms."
    )


def _to_draw_out(words: Words) -> str | None:
    plug = words.job.plug
    if plug is None or plug.extraction_thread is None or not words.has("plug.extraction.tap_drill"):
        return None
    drill, thread = words.drill("plug.extraction.tap_drill"), plug.extraction_thread.label
    return (
        f"Drill {drill} into its top, {words.size('plug.extraction.depth')} deep, and tap {thread}, to draw it out by."
    )


def _hole(words: Words) -> str:
    """Name of the hole's diameter."""
    plug, barrel = words.job.plug, words.job.barrel
    if plug is None or plug.passage is None or barrel is None:
        return "job.plug.hole"
    return f"job.barrel.passages.{[p.name for p in barrel.passages].index(plug.passage)}.diameter"


def stock(words: Words) -> Iterator[Item]:
    """Its bar."""
    if words.has("plug.diameter", "plug.whole_length"):
        wide = words.value("plug.diameter")
        if words.has("job.plug.shoulder.diameter"):
            wide = words.value("job.plug.shoulder.diameter")
        size = f"{bar(words, wide + SKIN)} × {length_of(words, 1, words.value('plug.whole_length'))}"
        yield Item(f"bar, {material_of(words, 'plug')}", size, "the blanking plug, with parting, facing and grip")


def _needs(words: Words, hole: str) -> Iterator[Item]:
    plug = words.job.plug
    if plug is None:
        return
    if not _measured(words):
        yield Item("reamer", words.plain(hole), "or a boring head, for the passage")
    if words.has("plug.counterbore_diameter"):
        yield Item(
            "counterbore", words.plain("plug.counterbore_diameter"), "or a boring head or end mill with a flat end"
        )
    if plug.extraction_thread and words.has("plug.extraction.tap_drill"):
        yield Item("tapping drill", words.drill("plug.extraction.tap_drill"), "for the thread to draw the plug out by")
        yield Item("tap", plug.extraction_thread.label, "bottoming, to draw the plug out by")
    if plug.fit == "bonded":
        yield bench.RETAINING
    else:
        yield Item("press", "", "an arbor press, or a vice with soft jaws; hot oil or an oven for the barrel")
    yield bench.MICROMETER
