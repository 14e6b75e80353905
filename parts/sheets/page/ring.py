"""The rings on the job sheet: blank, split, heat, lap."""

from __future__ import annotations

from math import fsum
from typing import TYPE_CHECKING

from parts.job.part_models import SOAK
from parts.judging.limits import RING_FLAT, TO_LAP, limits_of
from parts.judging.rules import caution_of
from parts.sheets.page import bench, cautions, facts, workshop
from parts.sheets.page.step import Step, Steps, lines, said
from parts.sheets.page.stock import GRIP, SKIN, Item, material_of
from parts.sheets.page.words import Words, counted
from parts.sizing.hoop import times_round
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words


BLANK = ("ring.outside_diameter", "ring.inside_diameter", "ring.stock_length")


def steps(words: Words) -> Steps:
    """From a bar of ring iron to rings in their grooves."""
    return _blank(words), _split(words), _heat(words), _fit(words)


def _blank(words: Words) -> Step | None:
    if words.job.ring is None or not words.has("ring.outside_diameter", "ring.inside_diameter"):
        return None
    number = int(words.value("job.ring.count"))
    pot = "the ring pot" if words.job.ring_pot else "a pot chuck or a split ring that grips all round"
    trial = ", one of them to try" if number > 1 else ": make a second one to try"
    do = said(
        f"{counted(number, 'ring')}{trial}. Turn the outside, bore the inside in the same chucking, part off.",
        f"Face the second side in {pot}, lightly: three jaws leave a thin ring with three lobes, and they stay.",
        "The blank is larger than the bore by what the saw takes out: turned to the bore it would gape.",
    )
    asked = lines(
        words,
        ("ring.outside_diameter", "blank, outside"),
        ("ring.inside_diameter", "blank, inside"),
        ("job.ring.axial_width", "height, with a little to lap", f"up to {words.show(TO_LAP)} over"),
    )
    care = (cautions.PARTING, facts.dust(words, "ring"))
    parting = f"for the {words.name} ring" if words.name else "for the rings"
    held = Item("pot chuck or split ring", words.size("ring.outside_diameter"), f"bored to the blank, {parting}")
    needs = (
        Item("parting tool", words.plain("job.ring.parting_tool")),
        *(() if words.job.ring_pot else (held,)),
        bench.MICROMETER,
    )
    return Step("blank", words.named("Turn the ring blanks"), do, asked, care, needs=needs)


def _split(words: Words) -> Step | None:
    if words.job.ring is None or not words.has("job.ring.slit", "ring.closed_gap"):
        return None
    do = said(
        "Saw each blank through once, square, with the slitting saw, clamped flat between two plates in a fixture: not held in the fingers, nor "
        "squeezed across. Saw small: an end can be filed, not put back.",
        "Break the edges by a stroke of a fine stone.",
        "Close it in the bore, squared up by the piston, and feel the gap with feelers.",
    )
    plates = Item("two plates and a clamp", "", "a fixture to hold a blank flat while it is sawn", shared=True)
    asked = lines(words, ("job.ring.slit", "slit"), ("ring.closed_gap", "gap, closed in the bore", _gap(words)))
    needs = (
        Item(
            "slitting saw",
            words.plain("job.ring.slit"),
            f"for the ring's gap{workshop.at_hand(words, 'saws', words.value('job.ring.slit'))}",
        ),
        *(() if words.job.splitting_fixture else (plates,)),
        *(bench.STONE, bench.FEELERS),
    )
    return Step("split", words.named("Split the rings"), do, asked, (cautions.WHEELS,), needs=needs)


def _plate(words: Words) -> str | None:
    """What holds the rings flat."""
    job = words.job
    if job.mandrel is None or job.ring is None or not words.has("mandrel.under_stack"):
        return None
    on_top = "The clamp plate" if job.clamp_plate else "A flat plate"
    return (
        f"{on_top} on top, drawn up snug by a bolt through both, bears on the rings alone: the mandrel ends "
        f"{words.size('mandrel.under_stack')} under the top of the stack."
    )


def _hoops(words: Words) -> str | None:
    """What holds the rings' ends in, where they would lift."""
    if not words.has("mandrel.hoop_wire"):
        return None
    wire = words.plain("mandrel.hoop_wire")
    return (
        f"A hoop round each ring before the plate goes on, or its ends lift off the seat: soft iron wire of {wire}, {times_round(words.book)} at half "
        "its height, straight across the gap, twisted at the back and out over the flange until it is about to give, the next one's twist "
        "beside it. Against a light none shows under either end."
    )


def _heat(words: Words) -> Step | None:
    ring = words.job.ring
    if ring is None or (ring.heat_set is None and words.job.mandrel is None):
        return None
    oven, soak, hearth = "job.ring.heat_set.temperature", "job.ring.heat_set.soak", workshop.hearth(words)
    window = words.range(caution_of(oven, least=True), caution_of(oven), "degC")
    long = words.size(soak) if words.has(soak) else words.show(SOAK, "min")
    other = "It has no mandrel of its own: the findings say whether another's serves, and none does unless they say so."
    printed = words.job.mandrel is not None and words.job.mandrel.purpose == "fit check"
    do = said(
        other if words.name and words.job.mandrel is None else None,
        "The printed mandrel only tried the shape. Set the rings on one of steel: a printed one burns, and a ring that is not set has no spring."
        if printed
        else None,
        "One trial ring first. Rings on the mandrel, gap at its mark, clamped lightly so that they can't warp.",
        _hoops(words),
        _plate(words),
        "Keep the air from them: the lot in a shut tin with clean iron chips or charcoal, or painted with stop-off. Bare iron scales at this heat.",
        f"Heat {'' if hearth else 'with the oven '}to between {window.replace(' to ', ' and ')}: under it they barely set, over it the iron softens and "
        f"grows. {long} once they are hot through.",
        hearth,
        f"Let them cool {'under the ashes' if hearth else 'in the shut oven'} to hand warm. No draught, no water.",
        "Nut and plate off, then snip the hoops at their twists, and only then lift the rings off."
        if words.has("mandrel.hoop_wire")
        else None,
        _check_shape(words),
        "What the trial ring kept of its opening is your set_fraction: write it into the job file and make the mandrel to it.",
    )
    asked = lines(
        words,
        (oven, "heat, by the second thermometer" if hearth else "oven, by the second thermometer", window),
        (soak, "time at heat"),
        ("ring.free_gap_inside", "free gap at the inner corners, by callipers"),
        ("ring.free_width", "free width at right angles to the gap", _wide(words)),
    )
    at = words.size(oven) if words.has(oven) else window
    needs = (
        Item("firebricks and charcoal", at, "for a hearth that holds its heat")
        if hearth
        else Item("oven", at, "that holds its heat"),
        bench.THERMOMETER,
        Item("shut tin with iron chips or charcoal", "", "to keep scale off the rings", shared=True),
        *(_held_by(words)),
        bench.MICROMETER,
    )
    return Step("heat", words.named("Set the rings by heat"), do, asked, (cautions.HEAT, cautions.BRITTLE), needs=needs)


def _held_by(words: Words) -> Iterator[Item]:
    mandrel = words.job.mandrel
    if mandrel is None:
        return
    if mandrel.purpose == "fit check":
        yield Item("steel mandrel", "to the same outline", "the printed one is never heated")
    if _plate(words) and words.job.clamp_plate is None:
        yield Item("flat plate and bolt", "", "to hold the rings down on the mandrel")
    if words.has("mandrel.hoop_wire", "mandrel.hoop_length"):
        size = f"{words.plain('mandrel.hoop_wire')} × {words.stock(words.value('mandrel.hoop_length'))}"
        yield Item("soft iron wire", size, "annealed: a hoop to hold a ring's ends in", count=mandrel.rings)


def _check_shape(words: Words) -> str | None:
    names = ("ring.free_width_least", "ring.free_width_right", "ring.free_width_most")
    if not words.has(*names):
        return None
    least, right, most = (words.size(name) for name in names)
    own = words.size("ring.free_width") if words.has("ring.free_width") else right
    gives = "" if own == right else f", and this mandrel gives {own}"
    return (
        f"Measure the free ring's width at right angles to the gap: at {right} it presses evenly{gives}; over {most} the back is too sharp, "
        f"under {least} it has the shape of a plain round mandrel."
    )


def _wide(words: Words) -> str:
    """Between what the free width is right; what a mandrel gives that lies outside is not said to be held to it."""
    name = "ring.free_width"
    limits = limits_of(words.book, name)
    outside = limits is not None and words.has(name) and limits.miss(words.value(name)) != 0
    return f"{words.limits(name)} would press evenly" if outside else ""


def _fit(words: Words) -> Step | None:
    if words.job.ring is None or not words.has("ring.closed_gap"):
        return None
    play, groove = "ring.side_clearance", words.has("job.ring.groove.width")
    do = said(
        "Clean the piston's grooves with a broken ring's end, then measure each all round with a new ring and feelers: where it is wider than its "
        "limits, stepped or tapered, have it trued and make the ring to it."
        if groove
        else None,
        "Lap both sides on fine abrasive paper on the surface plate, figure of eight, until the ring slides round its groove by its own weight. It is flat "
        "when both sides are one even grey, with no bright spot left, and parallel when a micrometer finds no more "
        f"than {words.show(RING_FLAT)} between any two places ({PRACTICE}).",
        "Light test in the bore: no light anywhere but at the gap. File the ends to the gap.",
        f"Onto the piston over a thin sleeve or with ring pliers, opened no wider than it needs; {_gaps(words)}.",
    )
    asked = (
        *lines(words, ("job.ring.groove.width", "groove, all round")),
        *lines(
            words,
            ("job.ring.axial_width", "height, as lapped"),
            (
                play,
                "play in the groove",
                words.range(caution_of(play, least=True), caution_of(play), "mm"),
            ),
            ("ring.closed_gap", "gap in the bore", _gap(words)),
        ),
    )
    pliers = Item("ring pliers or thin sleeve", "", "to put the rings on", shared=True)
    needs = (
        bench.PLATE,
        Item("fine abrasive paper", "", "to lap the ring's sides", shared=True),
        *(() if words.job.fitting_sleeve else (pliers,)),
        *(bench.FEELERS, bench.FILE, bench.MICROMETER),
    )
    return Step("fit", words.named("Lap, gap and fit the rings"), do, asked, (cautions.BRITTLE,), needs=needs)


def _gap(words: Words) -> str:
    """Between what the gap comes out, where below nought the ring's ends meet."""
    limits = limits_of(words.book, "ring.closed_gap")
    if limits is None or limits.low is None or limits.high is None or limits.low >= 0:
        return ""
    return f"at most {words.show(limits.high)}: its ends may meet"


def _gaps(words: Words) -> str:
    """Where the rings' gaps go."""
    if words.job.ring and words.job.ring.peg is not None:
        return "its gap at the peg, free of it on both sides"
    return (
        "gaps staggered, none over the thrust face"
        if facts.four_stroke(words)
        else "gaps staggered, no end over a port"
    )


def stock(words: Words) -> Iterator[Item]:
    """Bar or sleeve: one for all rings of a material, told at the first of them."""
    same = [
        own for own in words.each("ring") if own.has(*BLANK) and material_of(own, "ring") == material_of(words, "ring")
    ]
    if not same or same[0].name != words.name:
        return
    outsides, insides, lengths = ([own.value(name) for own in same] for name in BLANK)
    outside, inside = words.stock(max(outsides) + 2 * SKIN), words.stock(min(insides) - 3 * SKIN)
    count = sum(int(own.value("job.ring.count")) for own in same)
    long = fsum((*lengths, count * TO_LAP))
    note = (
        f"{counted(count, 'ring')}: {words.show(long)} with parting, "
        f"facing and {words.show(TO_LAP)} each to lap, {words.stock(GRIP)} to hold; or a sleeve with a bore under {inside}"
    )
    size = f"Ø {outside} or more × {words.stock(long + GRIP)}"
    names = tuple(own.name for own in same)
    yield Item(f"bar or sleeve, {material_of(words, 'ring')}", size, note, of=names)
