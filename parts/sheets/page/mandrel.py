"""The expander mandrel on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.seat_choices import ways_by_hand
from parts.sheets.page import cautions
from parts.sheets.page.step import Step, Steps, lines, said
from parts.sheets.page.stock import Item, bar_for, material_of
from parts.sheets.page.words import Words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words


PRINTED = (
    "Print it lying on its flange, and try a ring on it: it only shows whether the shape is right. It is never heated. The rings are set on "
    "one of steel, cut to the same outline without the room that a print is given."
)
TURNED = "Face the bar, turn the flange, bore the hole for the bolt, all in one chucking; part off and face the flange."
MADE = {
    "contoured": (
        TURNED,
        "Cut the seat to its outline, by the DXF or by angle and radius on a rotary table, last cut all round in one direction.",
        "Check it by callipers: the drawing has what they find across it both ways, the table of sizes across on this sheet every ten degrees.",
        "The flat on the flange marks the ring's gap.",
    ),
    "pin": (TURNED, "Turn the disc, drill for the pin on the gap's side, fit the pin."),
    "round": (
        TURNED,
        "Turn the seat round. It gives a ring that presses at the back and the tips only: the other two forms are better.",
    ),
}
NEEDS = {
    "contoured": (Item("rotary table", "", "or a milling machine that follows the DXF; an end mill"),),
    "pin": (Item("drill and reamer", "", "for the mandrel's pin"),),
    "round": (),
}


def steps(words: Words) -> Steps:
    """Turn it, cut its seat."""
    return (_make(words),)


def _make(words: Words) -> Step | None:
    mandrel = words.job.mandrel
    if mandrel is None or not words.has("mandrel.open_gap"):
        return None
    printed = mandrel.purpose == "fit check"
    edges = "Break its edges; no burr where a ring slides on."
    do = said(PRINTED) if printed else said(*MADE[mandrel.form], _by_hand(words), edges)
    sizes = {
        "contoured": (("mandrel.open_gap", "gap of the ring on it"), ("mandrel.seat_height", "height of the seat")),
        "pin": (
            ("mandrel.disc_turned", "disc"),
            ("mandrel.pin_diameter", "pin"),
            ("mandrel.pin_position", "pin, from the centre"),
        ),
        "round": (("mandrel.diameter", "seat"), ("mandrel.seat_height", "height of the seat")),
    }[mandrel.form]
    asked = () if printed else lines(words, *sizes, ("mandrel.flange_diameter", "flange"))
    title = "Print the mandrel, to try a ring on" if printed else "Make the expander mandrel"
    care = (cautions.PRINTED,) if printed else (cautions.MANDREL, cautions.TURNING)
    needs = (Item("printer", "", "for the mandrel: any plastic will do"),) if printed else NEEDS[mandrel.form]
    return Step("mandrel", words.named(title), do, asked, care, needs=needs)


def _by_hand(words: Words) -> str | None:
    """How a contoured seat is made without a machine that follows it, as far as a way passes."""
    mandrel, shop, ways = words.job.mandrel, words.job.workshop, ways_by_hand(words.book)
    if mandrel is None or mandrel.form != "contoured" or ways is None or (shop is not None and shop.cnc):
        return None
    if not ways.steps:
        return (
            "Without a mill that follows the DXF no way by hand makes it true enough, filed steps and swung arcs neither; the findings say by "
            "how much, and what the pin form costs, which needs no contour."
        )
    steps = "mill steps on a rotary table every ten degrees and file them to the table of sizes across, arcs blended by a stone"
    arcs = (
        f"; or swing the {ways.fewest} arcs of their table, or set them over in a four-jaw chuck" if ways.fewest else ""
    )
    return f"Without a mill that follows the DXF: {steps}{arcs}."


def stock(words: Words) -> Iterator[Item]:
    """Bar for it, and for its pin."""
    names = ("mandrel.flange_diameter", "mandrel.flange_thickness", "mandrel.seat_height", "mandrel.lead_in")
    if words.has(*names) and words.job.mandrel is not None:
        wide, *heights = (words.value(n) for n in names)
        if words.job.mandrel.purpose == "fit check":
            yield Item(
                "printed part", f"Ø {words.stock(wide)} × {words.stock(sum(heights))}", "a fit check, never heated"
            )
            return
        yield bar_for(words, "mandrel", "expander mandrel", wide, sum(heights))
    if words.job.mandrel is not None and words.job.mandrel.form == "pin" and words.has("mandrel.pin_diameter"):
        long = words.stock(sum(words.value(n) for n in names[1:3]) + 5.0)
        yield Item(
            f"pin, {material_of(words, 'mandrel')}",
            f"Ø {words.size('mandrel.pin_diameter')} × {long}",
            "turned to size",
        )
