"""The expander mandrel on the job sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

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
        "Check it by callipers: the drawing has what they find across it both ways.",
        "Without a machine for that: file steps to the sizes across, or swing the arcs where a table of them stands.",
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
    do = said(PRINTED) if printed else said(*MADE[mandrel.form], "Break its edges; no burr where a ring slides on.")
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
