"""The castings on the job sheet: measure, fill, face, drill, hone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.limits import SQUARE
from parts.shapes.assembly import holes
from parts.sheets.page import bench, cautions, facts, workshop
from parts.sheets.page.fills import fills, stock
from parts.sheets.page.marks import stud_holes
from parts.sheets.page.step import Asked, Step, Steps, by_kind, line, lines, said
from parts.sheets.page.stock import Item, together
from parts.sheets.page.words import Words, counted, hole_list, listed
from parts.sizing.stud import hole_of
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words

__all__ = ["steps", "stock"]
HEIGHTS = ("top", "middle", "bottom")
WAYS = ("along X", "along Y")


def steps(words: Words) -> Steps:
    """From the castings as they come to a bore that is honed and measured."""
    return _measure(words), *fills(words), _skim(words) or _face(words), _drill(words), _hone(words)


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
        f"along X and along Y, moves no more than {words.show(SQUARE)} from top to bottom ({PRACTICE}). By depth gauge note where the deck lies."
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
    needs = (bench.FILE, bench.STRAIGHT_EDGE, bench.PLATE, *_feelers(words))
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
    by_plate = workshop.by_plate(words)
    do = said(
        *(workshop.THROUGH,) if by_plate else _found(words),
        *(_bore(own, by_plate=by_plate) for own in drilled),
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
    found = () if by_plate else (bench.INDICATOR,)
    needs = (*found, bench.MICROMETER, *together([(own, list(_drills(own))) for own in drilled], "stud"))
    return Step("drill", f"Drill the {counted(len(places), 'new hole')}", do, asked, care, needs=needs)


def _found(words: Words) -> tuple[str | None, ...]:
    """How the places of the holes are found on the mill."""
    centre = "The barrel stays clamped by its base flange. Pick up the centre of the bore with a dial indicator"
    return f"{centre}, {workshop.zero(words)}", workshop.marking(words), workshop.plate(words)


def _drills(own: Words) -> Iterator[Item]:
    wide = f"{hole_of(own.book)}.tap_drill"
    yield Item("tap drill", own.drill(wide), "a centre drill, and a starting drill well under it")
    yield Item("two pins", own.plain(wide), "that fit the drilled holes, to measure over")
    if _shared(own):
        yield Item("centre-cutting end mill", f"just under {own.plain(wide)}", "for holes that are part filler")


def _bore(own: Words, *, by_plate: bool) -> str:
    """What is drilled for one kind of stud."""
    hole, way = hole_of(own.book), "through its bush drill" if by_plate else "centre-drill, then drill"
    where = (
        f"{hole_list(stud_holes(own)).capitalize()}, for the {own.name} studs: {way}" if own.name else way.capitalize()
    )
    if not own.has(f"{hole}.drill_depth"):
        return f"{where}."
    return f"{where} {own.drill(f'{hole}.tap_drill')}: {own.size(f'{hole}.drill_depth')} to the full diameter."


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
        f"Hone to a clean cross-hatch{'' if rings else ', only where it is marked'}, wash, let it come to room temperature.",
        None
        if facts.four_stroke(words)
        else f"Break the edges of the ports with a fine stone first, so that no ring catches on one ({PRACTICE}).",
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
        *(() if facts.four_stroke(words) else (bench.STONE,)),
    )
    return Step("hone", "Hone, and measure the bore again", do, tuple(asked), (cautions.HONING,), needs=needs)
