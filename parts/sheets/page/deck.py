"""The castings on the job sheet: measure, fill, face, drill, hone; what fills the old holes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.job.instances import folded
from parts.job.models import BRAZED, SCREWED
from parts.judging.limits import COOLING, PIN, PREHEAT, SQUARE, STUB
from parts.judging.rules import caution_of
from parts.shapes.assembly import holes
from parts.sheets.page import bench, cautions, facts
from parts.sheets.page.marks import old_holes, stud_holes
from parts.sheets.page.step import Asked, Step, Steps, by_kind, line, lines, said
from parts.sheets.page.stock import GRIP, SKIN, Item, bar, length_of, together
from parts.sheets.page.words import Words, counted, hole_list, listed
from parts.sizing.materials import metals
from parts.sizing.old_holes import thread_of_plugs
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words

FILLS = (BRAZED, SCREWED)
HEIGHTS = ("top", "middle", "bottom")
WAYS = ("along X", "along Y")


def steps(words: Words) -> Steps:
    """From the castings as they come to a bore that is honed and measured."""
    return _measure(words), *_fills(words), _skim(words) or _face(words), _drill(words), _hone(words)


def _measure(words: Words) -> Step:
    volumes = ("job.engine.clearance_volume", "job.engine.old_chamber_volume", "job.head.chamber_volume")
    burette = any(map(words.has, volumes))
    do = said(
        "Clean both castings. Measure each size three times with micrometer and callipers; the mean goes into the job file, "
        "half of the spread behind it as its tolerance.",
        "Volumes by burette, through a greased glass plate." if burette else None,
        "Look for cracks with crack dye at every stud hole of both castings, and where the chamber is thin.",
    )
    above, old, new = volumes
    castings = lines(
        words,
        ("job.engine.bore", "bore, as it is, by bore gauge", "as found"),
        ("job.barrel.deck_depth", "metal below the deck at the new stud bosses"),
        (above, "above the piston at top dead centre, old head"),
        (old, "old head's chamber"),
        (new, "new head's chamber"),
    )
    bosses = by_kind(words, "stud", ("job.head.thickness", "head, through at the bosses"))
    faces = lines(
        words,
        ("job.head.hole_diameter", "head, stud holes"),
        ("job.head.joint_face", "head, outside of the face that presses"),
    )
    width, root = (
        ("job.ring.groove.width", "piston, groove width"),
        ("job.ring.groove.root_diameter", "piston, groove root"),
    )
    asked = (*castings, *bosses, *faces, *by_kind(words, "ring", width, root))
    gauge = (bench.BORE_GAUGE,) if words.has("job.engine.bore") else ()
    needs = (bench.MICROMETER, *gauge, *((bench.BURETTE,) if burette else ()), bench.DYE)
    return Step("measure", "Measure both castings", do, asked, (cautions.MEASURING,), needs=needs)


def _fills(words: Words) -> Steps:
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
        "hard: iron beside it splits. Let it cure as its data sheet says.",
        "Saw the stubs off just proud of the deck; never break them off, and file them no lower yet.",
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
        f"Turn the plugs of iron bar, {thread}{f', {deep} long' if deep else ''} and a stub of {own.bare(STUB)} over it to turn them by; "
        "cut their thread by die or on the lathe."
    )


def _pinned(own: Words) -> str | None:
    if own.job.old is None or not own.job.old.pinned:
        return None
    return (
        f"Pin {hole_list(old_holes(own)) if own.name else 'each plug'}: drill {own.bare(PIN)} down the joint of plug and barrel, on the side "
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


def _skim(words: Words) -> Step | None:
    if words.job.barrel is None or not words.has("job.barrel.skim") or words.value("job.barrel.skim") <= 0:
        return None
    do = said(
        _held(words),
        f"Skim {listed(['deck', *facts.proud(words)])} with a fly cutter or face mill in one setting: {words.size('job.barrel.skim')} off the deck, or the least that "
        "cleans it up.",
        "Blue it on a surface plate: bearing all round the bore.",
    )
    asked = (*lines(words, ("job.barrel.skim", "taken off the deck")), *_flush(words))
    cutter = Item("fly cutter or face mill", "", "wider than the deck's land")
    needs = (cutter, bench.PLATE, bench.INDICATOR, bench.DEPTH_GAUGE, *_feelers(words))
    care = (cautions.INTERRUPTED, facts.dust(words, "barrel"))
    return Step("skim", "Skim the deck", do, asked, care, needs=needs)


def _held(words: Words) -> str:
    return (
        "Blue the barrel's base flange on the surface plate first: the deck is made true to it, so it must bear all round; lap it where it "
        "does not. Clamp the barrel down by that flange, never by fins, and square: a dial indicator run down the bore's wall, "
        f"along X and along Y, moves no more than {words.show(SQUARE)} from top to bottom. By depth gauge note where the deck lies."
    )


def _face(words: Words) -> Step | None:
    """Where nothing is skimmed, what stands proud is faced off all the same: the gasket is thinner than it."""
    what = facts.proud(words)
    if not what:
        return None
    do = said(
        f"Nothing comes off the deck itself. File or mill {listed(what)} down to it, the last strokes with a flat file that lies on the deck "
        "on both sides.",
        "Try with the straight-edge in all directions: it rocks nowhere. Blue it on a surface plate: bearing all round the bore.",
    )
    needs = (bench.FILE, bench.STRAIGHT_EDGE, bench.PLATE, *_feelers(words)[1:])
    care = (facts.dust(words, "barrel"),)
    return Step("face", f"Face off {listed(what)}", do, _flush(words), care, "skim", needs)


def _flush(words: Words) -> tuple[Asked, ...]:
    return by_kind(words, "plug", ("plug.below_deck", "plug's face below the deck, feeler under a straight-edge"))


def _feelers(words: Words) -> tuple[Item, ...]:
    return (bench.STRAIGHT_EDGE, bench.FEELERS) if _flush(words) else ()


def _drill(words: Words) -> Step | None:
    places = holes(words.book, "deck.hole")
    drilled = [own for own in words.each("stud") if own.has(f"{hole_of(own.book)}.tap_drill")]
    if not places or not drilled:
        return None
    do = said(
        "The barrel stays clamped by its base flange. Pick up the centre of the bore with a dial indicator, set both dials to zero "
        "there; check against a second zero from the tables above.",
        *map(_bore, drilled),
        *_order(words, len(places)),
        "Check over two pins in the holes, by micrometer or callipers, before anything is tapped.",
    )
    asked = (
        *(one for own in drilled for one in _drill_lines(own)),
        *lines(
            words,
            *(
                (f"deck.hole.{n}.{a}", f"hole {n}, {a.upper()} as drilled")
                for n in range(1, len(places) + 1)
                for a in "xy"
            ),
        ),
    )
    care = (cautions.DRILLING, facts.dust(words, "barrel"))
    needs = (bench.INDICATOR, bench.MICROMETER, *together([(own, list(_drills(own))) for own in drilled], "stud"))
    return Step("drill", f"Drill the {counted(len(places), 'new hole')}", do, asked, care, needs=needs)


def _drills(own: Words) -> Iterator[Item]:
    wide = f"{hole_of(own.book)}.tap_drill"
    yield Item("tap drill", own.drill(wide), "a centre drill, and a starting drill well under it")
    yield Item("two pins", own.plain(wide), "that fit the drilled holes, to measure over")
    if _shared(own):
        yield Item("centre-cutting end mill", f"just under {own.plain(wide)}", "for holes that are part filler")


def _bore(own: Words) -> str:
    """What is drilled for one kind of stud."""
    hole = hole_of(own.book)
    where = (
        f"{hole_list(stud_holes(own)).capitalize()}, for the {own.name} studs: centre-drill"
        if own.name
        else "Centre-drill"
    )
    if not own.has(f"{hole}.drill_depth"):
        return f"{where}, then drill."
    return (
        f"{where}, then drill {own.drill(f'{hole}.tap_drill')}: {own.size(f'{hole}.drill_depth')} to the full diameter."
    )


def _order(words: Words, count: int) -> Iterator[str]:
    """Say which holes come first and last, whatever studs they take."""
    shared = _shared(words)
    sound = [n for n in range(1, count + 1) if n not in shared]
    if shared and sound:
        yield f"First {hole_list(sound)}, in sound metal."
    if shared:
        yield (
            f"Last {hole_list(shared)}, part filler, part sound metal: a centre-cutting end mill or a boring head; a twist drill runs "
            "off into the softer one and snatches."
        )


def _shared(words: Words) -> list[int]:
    """Numbers of the new holes that are part filler."""
    names = {n: f"deck.hole.{n}.in_filler" for n in words.book.numbers("deck.hole")}
    return [n for n, name in names.items() if words.has(name) and words.value(name) > 0]


def _drill_lines(own: Words) -> tuple[Asked, ...]:
    hole = hole_of(own.book)
    return lines(
        own,
        (f"{hole}.tap_drill", own.named("hole, as drilled")),
        (f"{hole}.drill_depth", own.named("depth of the full diameter"), "at least; then stop"),
        ("deck.floor", own.named("metal left under the drill's point"), "by calculation"),
    )


def _hone(words: Words) -> Step | None:
    if not words.has("job.engine.bore") or words.job.barrel is None:
        return None
    rings = any(own.job.ring for own in words.each("ring"))
    why = "the rings are made to the mean of these, so " if rings else ""
    do = said(
        "Hone to a clean cross-hatch, wash, let it come to room temperature.",
        f"Measure the bore again with the bore gauge at three heights in two directions: "
        f"{why}write their mean into the job file as the bore, and make the sheets again.",
    )
    asked: list[Asked] = []
    for height in HEIGHTS:
        for way in WAYS:
            asked += line(words, "job.engine.bore", f"bore, {height}, {way}", where=f"{height} {way}")
    needs = (
        Item("hone", words.size("job.engine.bore"), "with oil, and hot soapy water after it", shared=True),
        bench.BORE_GAUGE,
    )
    return Step("hone", "Hone, and measure the bore again", do, tuple(asked), (cautions.HONING,), needs=needs)


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
