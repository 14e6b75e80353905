"""The studs on the job sheet: made, set; bar, taps, dies, nuts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.shapes.assembly import holes
from parts.sheets.page import cautions
from parts.sheets.page.marks import where
from parts.sheets.page.step import Step, Steps, lines, said
from parts.sheets.page.stock import GRIP, SKIN, Item, bar, length_of, material_of
from parts.sheets.page.words import Words, counted
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words


def steps(words: Words) -> Steps:
    """Turn the studs, set them."""
    return _turn(words), _set(words)


def _turn(words: Words) -> Step | None:
    stud = words.job.stud
    if stud is None or not words.has("stud.length"):
        return None
    count = max(1, len(holes(words.book, "deck.hole")))
    sections = int(words.value("turning.sections")) if words.has("turning.sections") else 0
    slender = (
        f"Turn the slender part in {counted(sections, 'section')}, each finished by the chuck before the next is drawn out; "
        "it stays true within the taper you allow."
        if sections > 1
        else f"Turn the slender part in one, {'with the tailstock centre' if words.job.lathe and words.job.lathe.tailstock else 'close to the chuck'}."
        if sections
        else None
    )
    do = said(
        where(words, "stud"),
        f"{counted(count, 'stud')}, and one to try. Tap end {stud.tap_end.label}, nut end {stud.nut_end.label}.",
        "Turn the blanks a little under nominal, cut the threads, measure over three wires.",
        slender,
        "Radius every shoulder; polish lengthways, a tool mark round the waist is where it breaks.",
    )
    asked = lines(
        words,
        ("stud.tap_end_over_wires", f"tap end over wires of {_wire(words, 'tap_end')}"),
        ("stud.nut_end_over_wires", f"nut end over wires of {_wire(words, 'nut_end')}"),
        ("stud.tap_end_length", "tap end, to the step"),
        ("stud.shank_length", "between the threads"),
        ("stud.nut_end_length", "nut end"),
        ("stud.length", "whole"),
        ("stud.shank_diameter", "shank"),
    )
    return Step("studs", words.named("Make the studs"), do, asked, (cautions.TURNING,))


def _wire(words: Words, end: str) -> str:
    name = f"stud.{end}_wire_diameter"
    return words.size(name) if words.has(name) else "the best size"


def _set(words: Words) -> Step | None:
    stud = words.job.stud
    if stud is None or not words.has("stud.projection") or not holes(words.book, "deck.hole"):
        return None
    hold = {
        "compound": "in a retaining compound rated for the barrel's heat",
        "interference": "on their tight thread",
        "bottomed": "by their height, not run to the bottom as the job file says",
        None: "in a retaining compound rated for the barrel's heat",
    }[stud.held_by]
    do = said(
        where(words, "stud"),
        f"Screw each stud in with two nuts locked together, {hold}, to stand {words.size('stud.projection')} over the deck.",
        "The step stays below the deck face: lay a straight-edge across. Drop the head on dry: it must slide down freely.",
    )
    asked = lines(
        words,
        ("stud.projection", "stands over the deck"),
        ("stud.step_depth", "step below the deck face", "never above it"),
    )
    return Step("set", words.named("Set the studs"), do, asked, (cautions.STUD_HOLD, cautions.ADHESIVE))


def stock(words: Words) -> Iterator[Item]:
    """Their bar."""
    if not words.has("stud.length", "stud.tap_end_nominal", "stud.nut_end_nominal", "stud.shank_diameter"):
        return
    pieces = max(1, len(holes(words.book, "deck.hole")))
    widest = max(words.value(f"stud.{n}") for n in ("tap_end_nominal", "nut_end_nominal", "shank_diameter"))
    size = f"{bar(words, widest + SKIN)} × {length_of(words, pieces, words.value('stud.length'))}"
    note = f"{counted(pieces, 'stud')} of {words.size('stud.length')}, each with parting and facing; {words.stock(GRIP)} to hold"
    yield Item(f"bar, {material_of(words, 'stud')}", size, note)


def tools(words: Words) -> Iterator[Item]:
    """What threads and holds them."""
    yield from _threads(words)
    yield from _fasteners(words)


def _threads(words: Words) -> Iterator[Item]:
    stud = words.job.stud
    if stud is None:
        return
    hole = hole_of(words.book)
    if words.has(f"{hole}.tap_drill"):
        yield Item("tap drill", words.drill(f"{hole}.tap_drill"), "and a centre drill; a starting drill well under it")
        names = (f"deck.hole.{n}.in_filler" for n in words.book.numbers("deck.hole"))
        if any(words.has(name) and words.value(name) > 0 for name in names):
            yield Item(
                "centre-cutting end mill",
                f"just under {words.plain(f'{hole}.tap_drill')}",
                "for holes that are part filler",
            )
    tap = stud.insert.tap if stud.insert else stud.tap
    if stud.insert is not None:
        yield Item("tap for wire inserts", f"{stud.tap_end.label} STI", f"{tap}, and a plug tap to start it")
        count, long = len(holes(words.book, "deck.hole")), words.plain("insert.nominal_length")
        yield Item(
            "wire inserts", f"{stud.tap_end.label} × {long}", "one spare; tool to wind them in", count=count, spare=1
        )
    else:
        yield Item("tap", stud.tap_end.label, f"taper, second and {tap}")
    ends = dict.fromkeys((stud.tap_end.label, stud.nut_end.label))
    for die in ends if words.name else [" and ".join(ends)]:  # one by one, so that other studs may share it
        yield Item("dies", die, "or screwcut; three wires to measure over")


def _fasteners(words: Words) -> Iterator[Item]:
    stud, count = words.job.stud, len(holes(words.book, "deck.hole"))
    if stud is None or not count:
        return
    flats = f", {words.plain('stud.nut_across_flats')} across flats" if words.has("stud.nut_across_flats") else ""
    nut = stud.nut.name if stud.nut else tables.usual_nut(stud.nut_end.family)
    washer = stud.washer.name if stud.washer else tables.usual_washer(stud.nut_end.family)
    yield Item("nuts", stud.nut_end.label, f"{nut}{flats}", count=count)
    if words.has("stud.washer_inside", "stud.washer_outside", "stud.washer_thickness"):
        sizes = " × ".join(words.length(words.value(f"stud.washer_{n}"), 2) for n in ("inside", "outside", "thickness"))
        yield Item("washers", f"{sizes} {words.unit}", washer, count=count)
