"""One step of the order of work, and the lines to write on."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias

from parts.fixtures import stem_of
from parts.judging.fixture_choices import PRINTED
from parts.sheets.page.words import listed
from parts.sizing.materials import is_plastic

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.sheets.page.cautions import Caution
    from parts.sheets.page.stock import Item
    from parts.sheets.page.words import Words


WORK = (
    *("measure", "fill", "pressed", "plug", "skim", "drill", "tap", "hone", "studs", "prove", "set", "gasket", "drop"),
    *("blank", "split", "mandrel", "heat", "fit", "tighten", "test", "run"),
)
"""the phases of the work, in their order: nothing hot after a bond, nothing measured before it is cold"""


@dataclass(frozen=True, slots=True)
class Asked:
    """One size of a step, with a line to write the measured value on."""

    name: str
    """in the book"""
    says: str
    size: str
    limits: str
    where: str = ""
    """tells lines of one name apart"""
    unit: str = ""
    """that a figure written alone is taken in"""
    measured: str = ""
    """what the job file says that it came out as"""

    @property
    def key(self) -> str:
        """What its value is kept under."""
        return f"{self.name} {self.where}".strip()


@dataclass(frozen=True, slots=True)
class Step:
    """One step."""

    key: str
    title: str
    do: tuple[str, ...]
    lines: tuple[Asked, ...]
    cautions: tuple[Caution, ...]
    phase: str = ""
    """of WORK, where the step is not itself one of its phases"""
    needs: tuple[Item, ...] = ()
    """tools, fasteners and what else it takes; bars and sheets stand in the stock"""
    early: bool = False
    """done before all else of its phase: what is made for that work"""

    @property
    def turn(self) -> float:
        """When it is done."""
        return WORK.index(self.phase or self.key) - self.early / 2


Steps: TypeAlias = "tuple[Step | None, ...]"
Sizes: TypeAlias = "tuple[tuple[str, str], ...]"
Needs: TypeAlias = "tuple[tuple[Caution, ...], tuple[Item, ...]]"


def line(words: Words, name: str, says: str, limits: str = "", where: str = "") -> list[Asked]:
    """One line, or none where the size is not in the book; without limits given, the book's own stand there."""
    if not words.has(name):
        return []
    unit, made = words.written_in(name), words.job.made.values if words.job.made else {}
    real = words.book.real(name)
    return [Asked(real, says, words.size(name), limits or words.limits(name), where, unit, str(made.get(real, "")))]


def lines(words: Words, *wanted: tuple[str, str] | tuple[str, str, str]) -> tuple[Asked, ...]:
    """Lines of (name, words) or (name, words, limits), those that the book has."""
    return tuple(found for one in wanted for found in line(words, *one))


def fixture(
    words: Words, table: str, phase: str, sizes: Sizes, make: Callable[[Words], tuple[tuple[str, ...], Needs]]
) -> Steps:
    """Step of making a fixture for the work of a phase; none where a size of it is not known."""
    if getattr(words.job, table) is None or not words.has(*(name for name, *_ in sizes)):
        return ()
    do, (care, needs) = make(words)
    title = words.named(f"Make the {table.replace('_', ' ')}")
    if is_plastic(words.book, table):
        do = (*do, f"{PRINTED[0].upper()}{PRINTED[1:]}.")
    return (Step(stem_of(table), title, do, lines(words, *sizes), care, phase, needs, early=True),)


def by_kind(words: Words, kind: str, *wanted: tuple[str, str] | tuple[str, str, str]) -> tuple[Asked, ...]:
    """Lines of each of a kind, saying which; what several have in common stands once."""
    every = words.each(kind)
    found: dict[tuple[str, tuple[str, ...]], list[Words]] = {}
    for own in every:
        for one in wanted:
            found.setdefault((own.book.real(one[0]), one), []).append(own)
    out: list[Asked] = []
    for (real, (name, says, *limits)), some in found.items():
        shared = real == name and len(some) == len(every)
        out += line(some[0], name, says if shared else f"{says}, {listed([own.name for own in some])}", *limits)
    return tuple(out)


def of_one(step: Step, words: Words) -> Step:
    """A step of one of several of a kind, under a key of its own."""
    return replace(step, key=step.key + words.book.suffix, phase=step.phase or step.key)


def said(*sentences: str | None) -> tuple[str, ...]:
    """Sentences that are there."""
    return tuple(s for s in sentences if s)
