"""The old holes on the job sheet: brazed full, or closed by screwed plugs; what that takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.job.instances import folded
from parts.job.models import BRAZED, SCREWED
from parts.judging.limits import COOLING, PIN, PREHEAT, STUB
from parts.judging.rules import caution_of
from parts.sheets.page import bench, cautions, facts
from parts.sheets.page.marks import old_holes
from parts.sheets.page.step import Asked, Step, Steps, line, lines, said
from parts.sheets.page.stock import GRIP, SKIN, Item, bar, length_of
from parts.sheets.page.words import Words, counted, hole_list, listed
from parts.sizing.materials import metals
from parts.sizing.old_holes import thread_of_plugs
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words

FILLS = (BRAZED, SCREWED)


def fills(words: Words) -> Steps:
    """A step for each way of filling: what is brazed comes before what its heat would loosen."""
    olds = [(own, own.job.old) for own in words.each("old") if own.job.old]
    ways = [(fill, [own for own, old in olds if old.fill == fill]) for fill in FILLS]
    return tuple(_fill(words, fill, some) for fill, some in ways if some)


def _fill(words: Words, fill: str, olds: list[Words]) -> Step:
    named = any(own.name for own in olds)
    every = listed([hole for own in olds for hole in old_holes(own)])
    step = _braze(words, olds) if fill == BRAZED else _screw(words, olds)
    return Step(
        f"fill-{folded(fill)}" if named else "fill",
        f"Fill old holes {every}: {fill}" if named else f"Fill the old holes: {fill}",
        step.do,
        step.lines,
        (*step.cautions, facts.dust(words, "barrel")),
        "fill",
        step.needs,
    )


def _braze(words: Words, olds: list[Words]) -> Step:
    barrel = metals(words.job.barrel.material) if words.job.barrel else ()
    bad = next((found for metal in barrel if (found := tables.pair("fill", BRAZED, metal)).verdict == "stop"), None)
    if bad:
        do: tuple[str, ...] = (f"Do not braze this barrel: {bad.says}. The findings say what else there is.",)
        return Step("fill", "", do, _old_lines(olds), (cautions.BRAZING,))
    preheat, fall = words.show(PREHEAT, "degC"), words.degrees(COOLING)
    oval, taper = (words.show(caution_of(f"ring.bore_{n}")) for n in ("ovality", "taper"))
    do = said(
        *map(_opened, olds),
        "Clean off oil, paint and graphite. Paint the bore with a clay or graphite stop-off: neither scale nor flux may bite it.",
        f"Preheat the whole barrel slowly and evenly to over {preheat}, all of it (common practice for grey iron).",
        "Braze each hole full from the bottom with bronze rod and its flux, by torch, without letting the rest go cold.",
        f"Cool it slowly, bedded in dry lime, ash or vermiculite, or in a shut oven: by {fall} an hour at most (common practice, no "
        "source), so overnight. No draught, no water.",
        "When it is cold, look for cracks with crack dye. Rough-face the filler to just proud of the deck.",
        f"Measure the bore right away, at three heights in two directions: if it went more than {oval} out of round or {taper} "
        "taper, it has to be honed, bored or sleeved before anything else is made.",
    )
    needs = (
        *map(_opener, olds),
        bench.TORCH,
        Item("temperature crayon", preheat, "or a thermometer that stands it", shared=True),
        Item("stop-off paint", "", "clay or graphite", shared=True),
        Item("dry lime, ash or vermiculite", "", "a box that takes the whole barrel", shared=True),
        *(bench.DYE, bench.BORE_GAUGE, bench.FILE),
    )
    asked = [*_old_lines(olds)]
    for which in ("least", "greatest"):
        asked += line(words, "job.engine.bore", f"bore after the heat, {which} reading", where=f"after heat {which}")
    return Step("fill", "", do, tuple(asked), (cautions.BRAZING,), needs=needs)


def _screw(words: Words, olds: list[Words]) -> Step:
    cold = "Everything that is to be brazed is brazed and cold." if facts.brazed(words) else None
    do = said(
        cold,
        *map(_opened, olds),
        *(sentence for own in olds for sentence in _threaded(own)),
        "Degrease both, retaining compound rated for the barrel's heat all along the thread, screw in by the stub, snug, not "
        "hard: the metal beside it splits. Let it cure as its data sheet says.",
        "Saw each stub off just proud of the deck; never break it off, and file it no lower yet.",
        *map(_pinned, olds),
    )
    sized = [own for own in olds if own.has("screwed.nominal")]
    needs = (
        *map(_opener, olds),
        *(item for own in sized for item in _plug_tools(own)),
        bench.RETAINING,
        Item("hacksaw", "", "for the stubs", shared=True),
        bench.FILE,
        *(
            Item("drill for the pins", words.bare(PIN), "and a pin each of the plug's metal")
            for own in olds
            if own.job.old and own.job.old.pinned
        ),
    )
    return Step(
        "fill", "", do, _old_lines(olds), (cautions.IRON_PLUGS, cautions.ADHESIVE), needs=tuple(dict.fromkeys(needs))
    )


def _threaded(own: Words) -> Iterator[str]:
    plugs = thread_of_plugs(own.book, own.job)
    if plugs is None or not own.has("screwed.nominal"):
        yield "The thread of the plugs is not worked out: give it, larger than the hole."
        return
    thread, which = plugs.label, f" {hole_list(old_holes(own))}" if own.name else " each"
    deep = own.size("screwed.length") if own.has("screwed.length") else ""
    yield (
        f"Drill{which} with the tapping drill, {own.drill('screwed.tap_drill')}, and tap {thread} to the bottom with taper, second "
        f"and bottoming tap{f': {deep} of full thread' if deep else ''}."
    )
    yield (
        f"Turn each plug of iron bar, {thread}{f', {deep} long' if deep else ''} and a stub of {own.bare(STUB)} ({PRACTICE}) over it to turn "
        "it by; cut its thread by die or on the lathe."
    )


def _pinned(own: Words) -> str | None:
    if own.job.old is None or not own.job.old.pinned:
        return None
    return (
        f"Pin {hole_list(old_holes(own)) if own.name else 'each plug'}: drill {own.bare(PIN)} ({PRACTICE}) down the joint of plug and barrel, on the side "
        "away from any new hole, and drive a pin of the plug's metal in until it is below the deck."
    )


def _plug_tools(own: Words) -> Iterator[Item]:
    plugs = thread_of_plugs(own.book, own.job)
    thread = plugs.label if plugs else ""
    yield Item("tapping drill", own.drill("screwed.tap_drill"), "for the screwed plugs")
    yield Item("taps", thread, "taper, second and bottoming, for the screwed plugs")
    yield Item("die", thread, "for the screwed plugs, or screwcut")


def _opener(own: Words) -> Item:
    return Item("drill or end mill", own.plain("job.barrel.old_holes.diameter"), "to open the old holes")


def _opened(own: Words) -> str:
    count, size = len(old_holes(own)), own.size("job.barrel.old_holes.diameter")
    deep = f", {own.size('job.barrel.old_holes.depth')} deep" if own.has("job.barrel.old_holes.depth") else ""
    which = f"old {hole_list(old_holes(own))}" if own.name else counted(count, "old hole")
    return f"Drill {which} out to clean metal: Ø {size}{deep}. Bevel the mouths."


def _old_lines(olds: list[Words]) -> tuple[Asked, ...]:
    found: list[Asked] = []
    for own in olds:
        which = f", {listed(old_holes(own))}" if own.name else ""
        found += lines(
            own,
            ("job.barrel.old_holes.diameter", f"old holes, as drilled out{which}"),
            ("job.barrel.old_holes.depth", f"their depth{which}", "no deeper than clean metal asks"),
            ("screwed.tap_drill", f"their tapping drill{which}"),
            ("screwed.length", f"full thread in them{which}", "at least"),
        )
    return tuple(found)


def stock(words: Words) -> Iterator[Item]:
    """What the old holes take."""
    for own in words.each("old"):
        if own.job.old:
            some = old_holes(own)
            note = f"what old {hole_list(some)} take{'s' * (len(some) == 1)}" if own.name else "what the old holes take"
            yield from _filler(own, len(some), note)


def _filler(own: Words, count: int, note: str) -> Iterator[Item]:
    old = own.job.old
    if old is not None and old.fill == BRAZED:
        deep = f" × {own.stock(float(old.depth))}" if old.depth is not None else ""
        yield Item(
            "brazing rod and flux", f"{count} × Ø {own.plain('job.barrel.old_holes.diameter')}{deep}", note, "filler"
        )
    elif own.has("screwed.nominal", "screwed.length"):
        long = length_of(own, count, own.value("screwed.length") + STUB)
        size = f"{bar(own, own.value('screwed.nominal') + SKIN)} × {long}"
        note = f"{counted(count, 'screwed plug')}, with stub, parting and facing; {own.stock(GRIP)} to hold: {note}"
        yield Item("bar, iron, for screwed plugs", size, note, "filler")
