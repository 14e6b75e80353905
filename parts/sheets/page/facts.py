"""What is true of the job at hand, so that a step says no more than that."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.job.models import BRAZED
from parts.sheets.page import cautions
from parts.sizing.materials import metals

if TYPE_CHECKING:
    from parts.book import Book
    from parts.sheets.page.cautions import Caution
    from parts.sheets.page.words import Words

IRON, ALUMINIUM, COPPER = "iron", "aluminium", "copper"


def may_be(words: Words, table: str, metal: str) -> bool:
    """Whether a table's material is this metal, or could be as far as it is told."""
    owner = getattr(words.job, table, None)
    return owner is not None and owner.material is not None and metal in metals(owner.material)


def surely(words: Words, table: str, metal: str) -> bool:
    """Whether a table's material is told to be this metal."""
    return may_be(words, table, metal) and len(metals(getattr(words.job, table).material)) == 1


def dust(words: Words, table: str) -> Caution:
    """The caution on what comes off a material when it is cut."""
    return cautions.IRON_DUST if may_be(words, table, IRON) else cautions.SWARF


def four_stroke(words: Words) -> bool:
    """Whether the engine has valves; taken so where its cycle is not told."""
    return words.job.engine is None or words.job.engine.cycle != "two-stroke"


def valves_in_head(words: Words) -> bool:
    """Whether valves stand over the piston."""
    head = words.job.head
    return four_stroke(words) and (head is None or head.valve_gear != "side valves")


def brazed(words: Words) -> bool:
    """Whether any old hole is brazed."""
    return any(own.job.old is not None and own.job.old.fill == BRAZED for own in words.each("old"))


def proud(words: Words) -> list[str]:
    """What stands above the deck once the holes are filled."""
    plugs = sum(
        own.has("job.plug.stands_proud") and own.value("job.plug.stands_proud") > 0 for own in words.each("plug")
    )
    filled = words.job.barrel is not None and bool(words.job.barrel.old_holes)
    return [name for there, name in ((plugs, "plug" if plugs == 1 else "plugs"), (filled, "filler")) if there]


def middle(book: Book) -> str:
    """What the part of a stud between its threads is: a waist where it is thinner than both of them."""
    names = ("stud.shank_diameter", "stud.smaller_thread")
    return "waist" if book.has(*names) and book[names[0]].value < book[names[1]].value else "shank"


def blanking(words: Words) -> str:
    """Name the blanking plugs of the job; empty where it has none."""
    count = sum(own.job.plug is not None and own.has("plug.length") for own in words.each("plug"))
    return "" if not count else "the blanking plug" if count == 1 else "the blanking plugs"
