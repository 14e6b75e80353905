"""What to have on the bench before the first cut: bar and sheet with their lengths, drills, taps, dies, inserts, nuts."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil
from typing import TYPE_CHECKING

from parts.job.part_models import FACING, PARTING
from parts.sheets.page.words import listed
from parts.sizing.materials import is_plastic
from parts.units import INCH

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.sheets.page.words import Words

BARS = (6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 100, 110, 120)
INCH_BARS = 1 / 8  # in: usual steps up
GRIP = 30.0  # mm that stay in the chuck
SKIN = 1.0  # mm on diameter, to come off a bar
MARGIN = 10.0  # mm of sheet round the gasket
SHELVES = ("bar", "sheet", "filler")  # what is bought at one place stands together


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the list."""

    what: str
    each: str
    note: str = ""
    shelf: str = "bar"
    """one of SHELVES"""
    count: int = 0
    """how many of these; 0 where they are not counted"""
    spare: int = 0
    """beside those"""
    of: tuple[str, ...] = ()
    """of its kind, where it is for others than the one that asks for it"""
    shared: bool = False
    """for the whole job, whichever of several asks for it"""

    @property
    def size(self) -> str:
        """What to have, and how many of it."""
        return f"{self.count + self.spare} of {self.each}" if self.count else self.each


NOUNS = {"stud": ("studs", "studs"), "plug": ("plug", "plugs"), "ring": ("ring", "rings")}


def for_these(item: Item, kind: str, *names: str) -> Item:
    """Say for which of several of a kind a thing is; it may say itself for which others too."""
    names = item.of or names
    which = f" ({listed(list(names))} {NOUNS[kind][len(names) > 1]})" if any(names) else ""
    return replace(item, what=item.what + which)


def together(made: list[tuple[Words, list[Item]]], kind: str) -> list[Item]:
    """What several of a kind need alike: one line that names them, the numbers added up."""
    found: dict[Item, dict[str, int]] = {}
    for words, items in made:
        for item in items:
            found.setdefault(replace(item, count=0), {})[words.name] = item.count
    return [
        item if item.shared else for_these(replace(item, count=sum(some.values())), kind, *some)
        for item, some in found.items()
    ]


def bar(words: Words, least: float) -> str:
    """Name the next usual bar that is at least this diameter [mm]."""
    if words.system == "inch":
        eighths = ceil(least / INCH / INCH_BARS - 1e-9)
        whole, part = divmod(eighths, 8)
        fractions = ("", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8")
        return f"Ø {' '.join(str(p) for p in (whole or '', fractions[part]) if p)} in"
    return f"Ø {next((b for b in BARS if b >= least), ceil(least / 10) * 10)} mm"


def bar_for(words: Words, table: str, title: str, wide: float, long: float) -> Item:
    """One piece of bar for a part, with what comes off it and what the chuck holds."""
    size = f"{bar(words, wide + SKIN)} × {length_of(words, 1, long)}"
    return Item(f"bar, {material_of(words, table)}", size, f"the {title}, with facing and grip")


def fixture_bar(words: Words, table: str, wide: str, *long: str) -> Iterator[Item]:
    """Bar for a fixture, by its largest diameter and the lengths that make its own; none where they are not known."""
    if getattr(words.job, table) is not None and words.has(wide, *long):
        lengths = sum(words.value(name) for name in long)
        if is_plastic(words.book, table):
            size = f"Ø {words.stock(words.value(wide))} × {words.stock(lengths)}"
            yield Item("printed part", size, f"the {table.replace('_', ' ')}: no heat, no clamp pulled on it")
            return
        yield bar_for(words, table, table.replace("_", " "), words.value(wide), lengths)


def material_of(words: Words, table: str) -> str:
    """Name the material of a part's table."""
    spec = getattr(getattr(words.job, table, None), "material", None)
    return spec.label if spec else "material not given"


def length_of(words: Words, pieces: int, each: float, grip: float = GRIP) -> str:
    """Length of bar for pieces parted off one after the other."""
    tools = [own.value("job.ring.parting_tool") for own in words.each("ring") if own.has("job.ring.parting_tool")]
    parting = max(tools, default=PARTING)
    return words.stock(pieces * (each + 2 * FACING + parting) + grip)
