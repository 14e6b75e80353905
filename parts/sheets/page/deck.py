"""The castings on the job sheet: measure, fill, skim, drill, tap, hone; what fills the old holes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.shapes.assembly import holes
from parts.sheets.page import cautions
from parts.sheets.page.step import Asked, Step, Steps, line, lines, said
from parts.sheets.page.stock import Item
from parts.sheets.page.words import Words, counted, listed
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words

HEIGHTS = ("top", "middle", "bottom")
WAYS = ("along X", "along Y")


def steps(words: Words) -> Steps:
    """From the castings as they come to a bore that is honed and measured."""
    return _measure(words), _fill(words), _skim(words), _drill(words), _tap(words), _hone(words)


def _measure(words: Words) -> Step:
    do = said(
        "Clean both castings. Measure each size three times; the mean goes into the job file, half of the spread behind it "
        "as its tolerance.",
        "Volumes by burette, through a greased glass plate; look for cracks with dye at every stud hole, old and new.",
    )
    asked = lines(
        words,
        ("job.engine.bore", "bore, as it is", "as found"),
        ("job.barrel.deck_depth", "metal below the deck at the new stud bosses"),
        ("job.engine.clearance_volume", "above the piston at top dead centre, old head"),
        ("job.engine.old_chamber_volume", "old head's chamber"),
        ("job.head.chamber_volume", "new head's chamber"),
        ("job.head.thickness", "head, through at the bosses"),
        ("job.head.hole_diameter", "head, stud holes"),
        ("job.head.joint_face", "head, outside of the face that presses"),
        ("job.ring.groove.width", "piston, groove width"),
        ("job.ring.groove.root_diameter", "piston, groove root"),
    )
    return Step("measure", "Measure both castings", do, asked, (cautions.MEASURING,))


def _fill(words: Words) -> Step | None:
    old = words.job.old
    if old is None:
        return None
    count, size = len(holes(words.book, "deck.old")), words.size("job.barrel.old_holes.diameter")
    deep = f", {words.size('job.barrel.old_holes.depth')} deep" if words.has("job.barrel.old_holes.depth") else ""
    open_up = f"Drill {counted(count, 'old hole')} out to clean metal: Ø {size}{deep}. Bevel the mouths."
    if old.fill == "bronze braze":
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
    asked = lines(
        words,
        ("job.barrel.old_holes.diameter", "old holes, as drilled out"),
        ("job.barrel.old_holes.depth", "their depth", "no deeper than clean metal asks"),
    )
    return Step("fill", f"Fill the old holes: {old.fill}", said(open_up, *rest), asked, (caution, cautions.IRON_DUST))


def _skim(words: Words) -> Step | None:
    if words.job.barrel is None or not words.has("job.barrel.skim") or words.value("job.barrel.skim") <= 0:
        return None
    what = [
        n
        for n, there in (("deck", True), ("plug", words.job.plug is not None), ("filler", words.job.barrel.old_holes))
        if there
    ]
    do = said(
        f"Set the barrel by its bore, square. Skim {listed(what)} in one setting: {words.size('job.barrel.skim')} off the "
        "deck, or the least that cleans it up.",
        "Blue it on a surface plate: bearing all round the bore.",
    )
    asked = lines(
        words,
        ("job.barrel.skim", "taken off the deck"),
        ("plug.below_deck", "plug's face below the deck, feeler under a straight-edge"),
    )
    return Step("skim", "Skim the deck", do, asked, (cautions.INTERRUPTED, cautions.IRON_DUST))


def _drill(words: Words) -> Step | None:
    places = holes(words.book, "deck.hole")
    hole = hole_of(words.book)
    if not places or not words.has(f"{hole}.tap_drill"):
        return None
    shared = [n for n in range(1, len(places) + 1) if words.has(f"deck.hole.{n}.in_filler")]
    shared = [n for n in shared if words.value(f"deck.hole.{n}.in_filler") > 0]
    sound = [n for n in range(1, len(places) + 1) if n not in shared]
    order = f"First {_holes(sound)}, in sound metal." if shared and sound else None
    special = (
        f"Last {_holes(shared)}, part filler, part iron: a centre-cutting end mill or a boring head, a twist drill runs off."
        if shared
        else None
    )
    do = said(
        "Pick up the centre of the bore with a dial indicator, set both dials to zero there; check against a second zero "
        "from the tables above.",
        f"Centre-drill, then drill {words.drill(f'{hole}.tap_drill')}: {words.size(f'{hole}.drill_depth')} to the full "
        f"diameter."
        if words.has(f"{hole}.drill_depth")
        else "Centre-drill, then drill.",
        order,
        special,
        "Check over two pins before anything is tapped.",
    )
    asked = lines(
        words,
        (f"{hole}.tap_drill", "hole, as drilled"),
        (f"{hole}.drill_depth", "depth of the full diameter", "at least; then stop"),
        ("deck.floor", "metal left under the drill's point", "by calculation"),
        *((f"deck.hole.{n}.{a}", f"hole {n}, {a.upper()} as drilled") for n in range(1, len(places) + 1) for a in "xy"),
    )
    return Step(
        "drill", f"Drill the {counted(len(places), 'new hole')}", do, asked, (cautions.DRILLING, cautions.IRON_DUST)
    )


def _holes(numbers: list[int]) -> str:
    return f"hole{'s' if len(numbers) > 1 else ''} {listed([str(n) for n in numbers])}"


def _tap(words: Words) -> Step | None:
    stud, hole = words.job.stud, hole_of(words.book)
    if stud is None or not words.has(f"{hole}.full_thread_depth"):
        return None
    deep = words.size(f"{hole}.full_thread_depth")
    start = f"Start each tap in the drilling setting, square. Full thread {deep} deep; clear the chips, back off often."
    if stud.insert is None:
        do = said(f"Tap {stud.tap_end.label}. {start}")
        title, caution = f"Tap the holes {stud.tap_end.label}", cautions.DRILLING
    else:
        do = said(
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
        "tap", title, do, asked, (caution, cautions.DRILLING) if caution is not cautions.DRILLING else (caution,)
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
    old = words.job.old
    if old is not None:
        count = len(holes(words.book, "deck.old"))
        what = "brazing rod and flux" if old.fill == "bronze braze" else "iron bar for screwed plugs"
        deep = f" × {words.stock(float(old.depth))}" if old.depth is not None else ""
        yield Item(
            what,
            f"{count} × Ø {words.plain('job.barrel.old_holes.diameter')}{deep}",
            "what the old holes take",
            "filler",
        )
