"""Order of work, studs and gasket."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.shapes.assembly import holes
from parts.sheets.page import cautions
from parts.sheets.page.step import Step, lines, said
from parts.sheets.page.words import counted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words


def stud_steps(words: Words) -> Iterator[Step]:
    """Turn the studs, set them, cut the gasket, try the head's drop."""
    for step in (_turn, _set, _gasket, _drop):
        found = step(words)
        if found is not None:
            yield found


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
    return Step("studs", "Make the studs", do, asked, (cautions.TURNING,))


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
        f"Screw each stud in with two nuts locked together, {hold}, to stand {words.size('stud.projection')} over the deck.",
        "The step stays below the deck face: lay a straight-edge across. Drop the head on dry: it must slide down freely.",
    )
    asked = lines(
        words,
        ("stud.projection", "stands over the deck"),
        ("stud.step_depth", "step below the deck face", "never above it"),
    )
    return Step("set", "Set the studs", do, asked, (cautions.STUD_HOLD, cautions.ADHESIVE))


def _gasket(words: Words) -> Step | None:
    gasket = words.job.gasket
    if gasket is None or not words.has("gasket.area"):
        return None
    copper = gasket.material is not None and "copper" in gasket.material.name
    do = said(
        "Glue the paper template on, punch or bore the holes first, cut the outline, deburr both faces, flatten.",
        "Offer it up to both castings: nothing may hang over the edge of the bore.",
        "Anneal it just before it goes on: dull red, then air or water." if copper else None,
    )
    asked = lines(
        words,
        ("job.gasket.thickness", "sheet"),
        ("gasket.bore_diameter", "bore"),
        ("gasket.hole_diameter", "stud holes"),
        ("gasket.narrowest_land", "narrowest land", "by calculation"),
    )
    return Step("gasket", "Cut the gasket", do, asked, (cautions.GASKET,))


def _drop(words: Words) -> Step | None:
    if not words.has("compression.squish") and not words.has("compression.head_drop"):
        return None
    drop = (
        f"The head comes down by {words.size('compression.head_drop')}: look at push rods, rocker geometry or chain."
        if words.has("compression.head_drop")
        else None
    )
    do = said(
        drop,
        "Modelling clay on the piston at four places, head on with its gasket and all nuts snug, over by hand once, off again: cut "
        "the clay and measure it.",
        "Valves too: clay on the crown under each.",
    )
    asked = lines(
        words,
        (
            "compression.squish",
            "squish, thinnest of four",
            "at least 0.4 mm; 0.8 mm is usual"
            if words.system == "metric"
            else f"at least {words.show(0.4)}; {words.show(0.8)} is usual",
        ),
        ("compression.head_drop", "head's drop"),
        ("compression.ratio_after", "compression ratio", "by calculation"),
    )
    return Step("drop", "Try the head: drop and squish", do, asked, (cautions.BY_HAND,))
