"""What [workshop] tells is at hand, so that a step says how it is done there; without the table each says what will do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.tables.read import SAME_SIZE

if TYPE_CHECKING:
    from parts.sheets.page.words import Words

DIALS = "set both dials to zero there; check against a second zero from the tables above."
READOUT = "set the readout to zero there and go to each hole by it; check against a second zero from the tables above."
MARKED = (
    "There is no readout: mark every hole out first, by the template at 1:1 or with a height gauge from the bore's edge, and punch it, so "
    "that a slip of the dials shows; take up their play always from the same side. A drill plate, [drill_plate], finds them without."
)
THROUGH = (
    "There are no scales: the barrel stays clamped by its base flange, the drill plate's spigot in the bore, its flat to the front, held down as its "
    "own step says. It finds every hole; no dial, no marking out."
)
HEARTH = (
    "There is no oven: stand the tin in a hearth of firebricks with charcoal round it, the second thermometer in the tin, and bring it "
    "up slowly; draw the fire back rather than let it rise, and bank it up for the time at heat. Out of doors: glowing charcoal gives off carbon "
    "monoxide, which nobody smells."
)
CARRIED = "The travelling steady follows the tool; finish each section before you move it on."


def zero(words: Words) -> str:
    """What is set to zero in the middle of the bore."""
    shop = words.job.workshop
    return READOUT if shop is not None and shop.scales else DIALS


def marking(words: Words) -> str | None:
    """How the holes are found where nothing reads the table's place."""
    shop = words.job.workshop
    return MARKED if shop is not None and not shop.scales else None


def by_plate(words: Words) -> bool:
    """Whether the holes are found by the drill plate: where it is made, and the workshop is said to have no scales."""
    return words.job.drill_plate is not None and words.job.workshop is not None and not words.job.workshop.scales


def plate(words: Words) -> str | None:
    """What the drill plate is for, where the holes need not be found by it."""
    if words.job.drill_plate is None:
        return None
    if words.job.workshop is not None:
        return "With the readout the drill plate is not needed here: it checks the head's holes, and these."
    return (
        "Or, where the mill has no scales, through the drill plate: its spigot finds the bore, and no dial is needed."
    )


def hearth(words: Words) -> str | None:
    """How rings are held at heat without an oven."""
    shop = words.job.workshop
    return HEARTH if shop is not None and not shop.oven else None


def steady(words: Words) -> str | None:
    """What carries a slender bar."""
    shop = words.job.workshop
    return CARRIED if shop is not None and shop.steady else None


def at_hand(words: Words, tools: str, size: float) -> str:
    """Whether a saw or a reamer of a size is at hand, as a note behind it; empty where nothing is told of any."""
    shop = words.job.workshop
    there = getattr(shop, tools) if shop is not None else []
    if not there:
        return ""
    return "; at hand" if any(abs(one - size) < SAME_SIZE for one in there) else "; none of yours is of that size"
