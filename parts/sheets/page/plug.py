"""The blanking plug on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.page import cautions
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
    bonded = plug.fit == "bonded"
    warm = (
        "Everything that is to be brazed is brazed and cold." if words.job.barrel and words.job.barrel.old_holes else ""
    )
    fit = (
        "Degrease both, compound all round, in with a twist, wipe off; let it cure as its data sheet says."
        if bonded
        else "Warm the barrel in hot oil or an oven, cool the plug, press it in square and in one go."
    )
    do = said(
        where(words, "plug"),
        warm,
        f"Ream {what} to {words.size(hole)}, a little deeper than {words.size('plug.length')}. Turn the plug to it.",
        f"{fit} It stands {words.size('job.plug.stands_proud')} proud, to be faced off with the deck.",
        "From here on no torch comes near the barrel." if bonded else None,
    )
    asked = lines(
        words,
        (hole, "hole, as reamed"),
        ("plug.diameter", "plug, turned to the hole as it is"),
        ("plug.whole_length", "plug, whole length"),
        ("job.plug.stands_proud", "stands proud", "something to face off"),
    )
    return Step(
        "plug",
        f"Plug {what}",
        do,
        asked,
        (cautions.ADHESIVE if bonded else cautions.PRESS,),
        "" if bonded else "pressed",
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


def tools(words: Words) -> Iterator[Item]:
    """What it is fitted with."""
    plug = words.job.plug
    if plug is None:
        return
    yield Item("reamer", words.plain(_hole(words)), "or a boring head, for the passage")
    if plug.fit == "bonded":
        yield Item("retaining compound", "rated for the barrel's heat", "its data sheet at hand: gap, primer, cure")
