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
    "that a slip of the dials shows; take up their play always from the same side."
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
