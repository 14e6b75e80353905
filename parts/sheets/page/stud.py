"""The studs on the job sheet: made, set; bar, taps, dies, nuts."""

from __future__ import annotations

from dataclasses import replace
from math import ceil
from typing import TYPE_CHECKING

from parts import tables
from parts.shapes.assembly import holes
from parts.sheets.page import bench, cautions
from parts.sheets.page.facts import middle
from parts.sheets.page.marks import where
from parts.sheets.page.step import Step, Steps, lines, said
from parts.sheets.page.stock import GRIP, SKIN, Item, bar, length_of, material_of
from parts.sheets.page.tap import tap
from parts.sheets.page.tighten import torque_shown
from parts.sheets.page.words import Words, counted, span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words


TRIAL = 1  # stud to try, beside those that are needed
MARGIN = 0.5  # mm that a spacer's bore is over the tapped hole: common practice, no source


def steps(words: Words) -> Steps:
    """Tap their holes, turn the studs, try the threads with one, set them."""
    return tap(words), _turn(words), _prove(words), _set(words)


def _count(words: Words) -> int:
    """How many studs are needed."""
    return max(1, len(holes(words.book, "deck.hole")))


def _turn(words: Words) -> Step | None:
    stud = words.job.stud
    if stud is None or not words.has("stud.length"):
        return None
    first, second = stud.tap_end.label, stud.nut_end.label
    lathe, between = words.job.lathe, middle(words.book)
    centred = lathe is not None and lathe.tailstock
    do = said(
        where(words, "stud"),
        f"{counted(_count(words), 'stud')}, and one to try. Tap end {first}, nut end {second}.",
        f"In this order: saw off, face both ends to length{', centre them' if centred else ''}; turn the {between}; turn the tap end a little under "
        f"{first}'s nominal size and screwcut it, for its fit is what holds in the barrel; turn the stud round, held by the {between} in a split bush, "
        f"never by a thread; turn the nut end and cut it by die, started square by the tailstock.",
        "Measure both threads over three wires, before the work leaves the chuck.",
        _slender(words, centred=centred),
        f"{'Radius every shoulder as large as the drawing has it; polish' if words.has('stud.corner_radius') else 'Polish'} "
        f"lengthways, a tool mark round the {between} is where it breaks.",
    )
    asked = lines(
        words,
        ("stud.tap_end_over_wires", f"tap end over wires of {_wire(words, 'tap_end')}"),
        ("stud.nut_end_over_wires", f"nut end over wires of {_wire(words, 'nut_end')}"),
        ("stud.tap_end_length", "tap end, to the step" if _steps(words) else "tap end"),
        ("stud.shank_length", "between the threads"),
        ("stud.nut_end_length", "nut end"),
        ("stud.length", "whole"),
        ("stud.shank_diameter", between),
    )
    return Step("studs", words.named("Make the studs"), do, asked, (cautions.TURNING,), needs=tuple(_cutters(words)))


def _steps(words: Words) -> bool:
    """Whether a larger tap end stops below the deck face."""
    return words.has("stud.step_depth") and words.value("stud.step_depth") > 0


def _slender(words: Words, *, centred: bool) -> str | None:
    if not words.has("turning.sections"):
        return None
    sections = int(words.value("turning.sections"))
    if sections > 1:
        return (
            f"Turn the slender part in {counted(sections, 'section')}, each finished by the chuck before the next is drawn out; "
            "it stays true within the taper you allow."
        )
    return f"Turn the slender part in one, {'with the tailstock centre' if centred else 'close to the chuck'}."


def _cutters(words: Words) -> Iterator[Item]:
    stud = words.job.stud
    if stud is None:
        return
    yield Item("threading tool", stud.tap_end.label, "for the tap end; change wheels for its pitch")
    yield Item("die", stud.nut_end.label, "for the nut end, in a holder on the tailstock")
    for end in dict.fromkeys((_wire(words, "tap_end"), _wire(words, "nut_end"))):
        yield Item("three wires", end, "of one drill rod, to measure threads over")
    yield Item("split bush", words.size("stud.shank_diameter"), f"to hold the studs by the {middle(words.book)}")
    yield bench.MICROMETER


def _prove(words: Words) -> Step | None:
    """A pull on every tapped thread before the head goes on: a bad one shows on the bench."""
    needed = (
        "joint.proof_torque",
        "joint.proof_spacer",
        "joint.proof_pull_least",
        "joint.proof_pull_most",
        "stud.projection",
    )
    if words.job.stud is None or not words.has(*needed, "deck.hole.1.x"):
        return None
    torque = torque_shown(words, words.value("joint.proof_torque"))
    least, most = (words.force(f"joint.proof_pull_{n}") for n in ("least", "most"))
    tube, over = words.size("joint.proof_spacer"), words.bare(ceil(2 * words.value("deck.tapped_major")) / 2 + MARGIN)
    later = words.force("joint.preload")
    less = words.value("joint.proof_pull_least") < words.value("joint.preload") and least != later
    do = said(
        where(words, "stud"),
        "Try each tapped thread before anything rests on it, with the stud that was made to try: dry, screwed in by hand, to stand "
        f"{words.size('stud.projection')} over the deck.",
        f"Over it a spacer, a tube {tube} long with square ends, its bore {over}, so that it bears on the deck beside the thread; then the "
        "stud's own washer and nut, oiled.",
        f"Tighten to {torque} by torque wrench and wait a minute: the thread has then stood {least} at the least, {most} at the most.",
        f"That is less than the nut will pull later, {later}: more would spoil a good thread or the stud. It finds a bad "
        "thread, it does not vouch for a good one."
        if less
        else None,
        "Slacken and look: the stud stands as high as before, a straight-edge finds no ridge round the hole. Where it crept, or the nut turned "
        "while the torque did not rise, that thread is bad: nothing is built on it.",
    )
    tried, *heights = lines(
        words,
        ("joint.proof_torque", "torque on the spacer", f"{span(least, most)} of pull"),
        ("stud.projection", "stands over the deck, after the pull"),
    )
    needs = (
        Item("spacer", f"tube, {tube} long, bore {over}", "ends square, to try the threads"),
        *(bench.TORQUE_WRENCH, bench.STRAIGHT_EDGE),
    )
    care = (cautions.STUD_HOLD, cautions.TIGHTENING)
    asked = (replace(tried, size=torque), *heights)
    return Step("prove", words.named("Try the tapped threads"), do, asked, care, needs=needs)


def _wire(words: Words, end: str) -> str:
    name = f"stud.{end}_wire_diameter"
    return words.size(name) if words.has(name) else "the best size"


def _set(words: Words) -> Step | None:
    stud = words.job.stud
    if stud is None or not words.has("stud.projection") or not holes(words.book, "deck.hole"):
        return None
    hold = {
        "compound": "in retaining compound rated for the barrel's heat",
        "interference": "on their tight thread",
        "bottomed": "by their height, not run to the bottom as the job file says",
        None: "in retaining compound rated for the barrel's heat",
    }[stud.held_by]
    glued = stud.held_by in ("compound", None)
    do = said(
        where(words, "stud"),
        "Degrease studs and holes." if glued else None,
        f"Screw each stud in with two nuts locked together on its end, {hold}, to stand {words.size('stud.projection')} over the deck by depth gauge.",
        "The step stays below the deck face: lay a straight-edge across." if _steps(words) else None,
        "Drop the head on dry: it must slide down freely. Off again.",
        "Leave it until the compound has cured in full, as its data sheet says for this heat of the room, before any torque."
        if glued
        else None,
    )
    asked = lines(
        words,
        ("stud.projection", "stands over the deck"),
        *((("stud.step_depth", "step below the deck face", "never above it"),) if _steps(words) else ()),
    )
    care = (cautions.STUD_HOLD, *((cautions.ADHESIVE,) if glued else ()))
    return Step("set", words.named("Set the studs"), do, asked, care, needs=tuple(_setting(words, glued=glued)))


def _setting(words: Words, *, glued: bool) -> Iterator[Item]:
    stud = words.job.stud
    if stud is not None:
        yield Item("two nuts", stud.nut_end.label, "plain ones, to lock together and screw the studs in by")
    if glued:
        yield bench.RETAINING
    yield from (bench.DEPTH_GAUGE, bench.STRAIGHT_EDGE)


def stock(words: Words) -> Iterator[Item]:
    """Their bar."""
    if not words.has("stud.length", "stud.tap_end_nominal", "stud.nut_end_nominal", "stud.shank_diameter"):
        return
    pieces = _count(words) + TRIAL
    widest = max(words.value(f"stud.{n}") for n in ("tap_end_nominal", "nut_end_nominal", "shank_diameter"))
    size = f"{bar(words, widest + SKIN)} × {length_of(words, pieces, words.value('stud.length'))}"
    note = f"{counted(pieces - TRIAL, 'stud')} and one to try, {words.size('stud.length')} each, with parting and facing; {words.stock(GRIP)} to hold"
    yield Item(f"bar, {material_of(words, 'stud')}", size, note)


def tools(words: Words) -> Iterator[Item]:
    """Nuts and washers."""
    stud, count = words.job.stud, len(holes(words.book, "deck.hole"))
    if stud is None or not count or not words.has("stud.projection"):
        return
    flats = f", {words.plain('stud.nut_across_flats')} across flats" if words.has("stud.nut_across_flats") else ""
    nut = stud.nut.name if stud.nut else tables.usual_nut(stud.nut_end.family)
    washer = stud.washer.name if stud.washer else tables.usual_washer(stud.nut_end.family)
    yield Item("nuts", stud.nut_end.label, f"{nut}{flats}", count=count)
    if words.has("stud.washer_inside", "stud.washer_outside", "stud.washer_thickness"):
        sizes = " × ".join(words.length(words.value(f"stud.washer_{n}"), 2) for n in ("inside", "outside", "thickness"))
        yield Item("washers", f"{sizes} {words.unit}", washer, count=count)
