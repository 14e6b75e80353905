"""The castings on the job sheet: measure, fill, skim, drill, tap, hone; what fills the old holes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.job.instances import folded
from parts.shapes.assembly import holes
from parts.sheets.page import cautions
from parts.sheets.page.marks import old_holes, stud_holes, where
from parts.sheets.page.step import Asked, Step, Steps, by_kind, line, lines, of_one, said
from parts.sheets.page.stock import Item
from parts.sheets.page.words import Words, counted, hole_list, listed
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words

BRAZED = "bronze braze"
FILLS = (BRAZED, "screwed iron plug")
HEIGHTS = ("top", "middle", "bottom")
WAYS = ("along X", "along Y")


def steps(words: Words) -> Steps:
    """From the castings as they come to a bore that is honed and measured."""
    taps = [of_one(step, own) for own in words.each("stud") if (step := _tap(own))]
    return _measure(words), *_fills(words), _skim(words), _drill(words), *taps, _hone(words)


def _measure(words: Words) -> Step:
    do = said(
        "Clean both castings. Measure each size three times; the mean goes into the job file, half of the spread behind it "
        "as its tolerance.",
        "Volumes by burette, through a greased glass plate; look for cracks with dye at every stud hole, old and new.",
    )
    castings = lines(
        words,
        ("job.engine.bore", "bore, as it is", "as found"),
        ("job.barrel.deck_depth", "metal below the deck at the new stud bosses"),
        ("job.engine.clearance_volume", "above the piston at top dead centre, old head"),
        ("job.engine.old_chamber_volume", "old head's chamber"),
        ("job.head.chamber_volume", "new head's chamber"),
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
    return Step("measure", "Measure both castings", do, asked, (cautions.MEASURING,))


def _fills(words: Words) -> Steps:
    """A step for each way of filling: what is brazed comes before what its heat would loosen."""
    olds = [(own, own.job.old) for own in words.each("old") if own.job.old]
    ways = [(fill, [own for own, old in olds if old.fill == fill]) for fill in FILLS]
    return tuple(_fill(fill, some) for fill, some in ways if some)


def _fill(fill: str, olds: list[Words]) -> Step:
    named = any(own.name for own in olds)
    every = listed([hole for own in olds for hole in old_holes(own)])
    cold = "Everything that is to be brazed is brazed and cold." if named and fill != BRAZED else None
    if fill == BRAZED:
        rest: tuple[str, ...] = (
            "Clean off oil, paint and graphite. Heat the whole barrel slowly and evenly, braze each hole full from the bottom.",
            "Cool it slowly under a dry cover, overnight. No draught, no water.",
            "When it is cold, rough-face the filler to just proud of the deck; look for cracks with dye.",
        )
        caution = cautions.BRAZING
    else:
        rest = (
            "Tap, degrease, screw in the iron plugs with sealing compound, break them off and stake them.",
            "Rough-face them to just proud of the deck.",
        )
        caution = cautions.IRON_PLUGS
    asked = [one for own in olds for one in _old_lines(own)]
    return Step(
        f"fill-{folded(fill)}" if named else "fill",
        f"Fill old holes {every}: {fill}" if named else f"Fill the old holes: {fill}",
        said(cold, *map(_opened, olds), *rest),
        tuple(asked),
        (caution, cautions.IRON_DUST),
        "fill",
    )


def _opened(own: Words) -> str:
    count, size = len(old_holes(own)), own.size("job.barrel.old_holes.diameter")
    deep = f", {own.size('job.barrel.old_holes.depth')} deep" if own.has("job.barrel.old_holes.depth") else ""
    which = f"old {hole_list(old_holes(own))}" if own.name else counted(count, "old hole")
    return f"Drill {which} out to clean metal: Ø {size}{deep}. Bevel the mouths."


def _old_lines(own: Words) -> tuple[Asked, ...]:
    which = f", {listed(old_holes(own))}" if own.name else ""
    return lines(
        own,
        ("job.barrel.old_holes.diameter", f"old holes, as drilled out{which}"),
        ("job.barrel.old_holes.depth", f"their depth{which}", "no deeper than clean metal asks"),
    )


def _skim(words: Words) -> Step | None:
    if words.job.barrel is None or not words.has("job.barrel.skim") or words.value("job.barrel.skim") <= 0:
        return None
    plugs = len(words.job.instances("plug"))
    there = ((True, "deck"), (plugs, "plug" if plugs == 1 else "plugs"), (words.job.barrel.old_holes, "filler"))
    what = [name for stands, name in there if stands]
    do = said(
        f"Set the barrel by its bore, square. Skim {listed(what)} in one setting: {words.size('job.barrel.skim')} off the "
        "deck, or the least that cleans it up.",
        "Blue it on a surface plate: bearing all round the bore.",
    )
    face = ("plug.below_deck", "plug's face below the deck, feeler under a straight-edge")
    asked = (*lines(words, ("job.barrel.skim", "taken off the deck")), *by_kind(words, "plug", face))
    return Step("skim", "Skim the deck", do, asked, (cautions.INTERRUPTED, cautions.IRON_DUST))


def _drill(words: Words) -> Step | None:
    places = holes(words.book, "deck.hole")
    drilled = [own for own in words.each("stud") if own.has(f"{hole_of(own.book)}.tap_drill")]
    if not places or not drilled:
        return None
    do = said(
        "Pick up the centre of the bore with a dial indicator, set both dials to zero there; check against a second zero "
        "from the tables above.",
        *map(_bore, drilled),
        *_order(words, len(places)),
        "Check over two pins before anything is tapped.",
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
    return Step(
        "drill", f"Drill the {counted(len(places), 'new hole')}", do, asked, (cautions.DRILLING, cautions.IRON_DUST)
    )


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
    names = {n: f"deck.hole.{n}.in_filler" for n in range(1, count + 1)}
    shared = [n for n, name in names.items() if words.has(name) and words.value(name) > 0]
    sound = [n for n in names if n not in shared]
    if shared and sound:
        yield f"First {hole_list(sound)}, in sound metal."
    if shared:
        yield (
            f"Last {hole_list(shared)}, part filler, part iron: a centre-cutting end mill or a boring head, a twist drill runs off."
        )


def _drill_lines(own: Words) -> tuple[Asked, ...]:
    hole = hole_of(own.book)
    return lines(
        own,
        (f"{hole}.tap_drill", own.named("hole, as drilled")),
        (f"{hole}.drill_depth", own.named("depth of the full diameter"), "at least; then stop"),
        ("deck.floor", own.named("metal left under the drill's point"), "by calculation"),
    )


def _tap(words: Words) -> Step | None:
    stud, hole = words.job.stud, hole_of(words.book)
    if stud is None or not words.has(f"{hole}.full_thread_depth"):
        return None
    deep = words.size(f"{hole}.full_thread_depth")
    start = f"Start each tap in the drilling setting, square. Full thread {deep} deep; clear the chips, back off often."
    if stud.insert is None:
        do = said(where(words, "stud"), f"Tap {stud.tap_end.label}. {start}")
        title, caution = f"Tap the holes {stud.tap_end.label}", cautions.DRILLING
    else:
        do = said(
            where(words, "stud"),
            f"Tap with the insert tap for {stud.tap_end.label}. {start}",
            f"Wind the inserts in until the first coil lies {words.size('insert.set_down')} below the deck; break off and "
            "take out every tang.",
        )
        title, caution = "Tap, and fit the wire inserts", cautions.TANGS
    asked = lines(
        words,
        (f"{hole}.full_thread_depth", "full thread", "at least"),
        ("insert.set_down", "first coil below the deck"),
    )
    return Step(
        "tap",
        words.named(title),
        do,
        asked,
        (caution, cautions.DRILLING) if caution is not cautions.DRILLING else (caution,),
    )


def _hone(words: Words) -> Step | None:
    if not words.has("job.engine.bore") or words.job.barrel is None:
        return None
    do = said(
        "Hone to a clean cross-hatch, wash, let it come to room temperature.",
        "Measure the bore again at three heights in two directions: the rings are made to the mean of these, so write it into the "
        "job file as the bore and make the sheets again.",
    )
    asked: list[Asked] = []
    for height in HEIGHTS:
        for way in WAYS:
            asked += line(words, "job.engine.bore", f"bore, {height}, {way}", where=f"{height} {way}")
    return Step("hone", "Hone, and measure the bore again", do, tuple(asked), (cautions.HONING,))


def stock(words: Words) -> Iterator[Item]:
    """What the old holes take."""
    for own in words.each("old"):
        if old := own.job.old:
            what = "brazing rod and flux" if old.fill == BRAZED else "iron bar for screwed plugs"
            deep = f" × {own.stock(float(old.depth))}" if old.depth is not None else ""
            size = f"{len(old_holes(own))} × Ø {own.plain('job.barrel.old_holes.diameter')}{deep}"
            some = old_holes(own)
            note = f"what old {hole_list(some)} take{'s' * (len(some) == 1)}" if own.name else "what the old holes take"
            yield Item(what, size, note, "filler")
