"""What a person is asked for the parts that are wanted: one question for each key, in the order of measuring."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from parts import units
from parts.asking.lacking import of_parts
from parts.asking.places import UNKNOWN, at, folded, places, put
from parts.asking.words import choices_of, fields, kind_of, place_of, quantity_of, titles, words
from parts.job import toml
from parts.job.schema import example_of
from parts.tables import usual_at

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from parts.asking.words import Words

BOXES = {  # quantity -> unit of its box, metric and inch
    "length": ("mm", "in"),
    "volume": ("cm^3", "cm^3"),  # a burette's, everywhere
    "temperature": ("degC", "degF"),
    "pressure": ("bar", "psi"),
    "stress": ("MPa", "psi"),
    "angle": ("deg", "deg"),
    "time": ("min", "min"),
    "thread length": ("d", "d"),
}
WAYS_UP = ("from above", "from beneath")
"""which way up a part with a pattern lay: one measured from beneath has X turned round"""


@dataclass(frozen=True)
class Question:
    """One question."""

    key: str
    """dotted, of the job file: `barrel.passages.0.diameter`"""
    asks: str
    how: str
    """to measure it, and with what"""
    picture: str
    """kind of drawing and the dimension marked on it; empty: none"""
    kind: str
    """quantity, number, count, choice, yes, thread, material, words, pattern, outline; readings: a list of quantities,
    of the example's shape; yes on a table: it opens the table, and with it the questions below"""
    unit: str
    """of the box"""
    choices: tuple[str, ...]
    """all there are of a choice; the usual ones of a material; of a pattern, which way up it was measured"""
    example: str
    """as the job file takes it"""
    stops: bool
    """it can stop a job: always asked"""
    designed: bool
    """left out, it is designed: offered, not asked"""
    why: str
    """half a sentence for a word that is not plain"""
    more: bool
    """a refinement: asked of those who want more"""
    no: str
    """what a no stands for in the file"""

    def stands(self, raw: Mapping[str, Any]) -> bool:
        """Whether it is asked in its turn: what is designed and what is a refinement only once it has an answer."""
        return not (self.designed or self.more) or at(raw, self.key) is not None


@dataclass(frozen=True)
class Screen:
    """Questions that are asked in one go."""

    key: str
    """of the first of them"""
    title: str
    asked: tuple[Question, ...]


def screens(asked: Iterable[Question]) -> list[Screen]:
    """Put together what is asked on one screen, in the order of the first question of each."""
    found: dict[tuple[str, ...], list[Question]] = {}
    for one in asked:
        numbers = [step for step in one.key.split(".") if step.isdecimal()]
        found.setdefault((titles().get(folded(one.key), one.key), *numbers), []).append(one)
    return [
        Screen(some[0].key, some[0].asks if len(some) == 1 else title, tuple(some))
        for (title, *_), some in found.items()
    ]


def questions(raw: Mapping[str, Any], make: Collection[str], *, more: bool = False) -> list[Question]:
    """What is asked for the parts, in the order in which a person measures; answered ones stay.

    Parameters
    ----------
    raw : mapping
        Data of the job file as far as it stands
    make : collection of str
        Stems of the parts that are wanted
    more : bool
        Also refinements that are not answered yet
    """
    tables = of_parts(make)
    asked = ((key, one) for key, one in words().items() if one.ask and _is_for(one, tables) and _fits(one, raw))
    found = (_question(place, key, one, raw) for key, one in asked for place in places(raw, key))
    return [one for one in found if more or not one.more or at(raw, one.key) is not None]


def opened(raw: Mapping[str, Any], make: Collection[str], *, more: bool = False) -> dict[str, Any]:
    """The data with every table opened that is asked after, so that nobody waits for a yes; else as `questions`."""
    whole: dict[str, Any] = deepcopy(dict(raw))
    for one in questions(raw, make, more=more):
        field = fields()[folded(one.key)]
        if words()[folded(one.key)].gate and at(whole, one.key) in (None, []):
            put(whole, one.key, [{}] if field and example_of(field) == [] else {})
    return whole


def _is_for(one: Words, tables: frozenset[str]) -> bool:
    return (not one.tables or not tables.isdisjoint(one.tables)) and one.without not in tables


def _fits(one: Words, raw: Mapping[str, Any]) -> bool:
    """Whether what was answered before leaves the question open."""
    return (not one.when or _holds(raw, one.when)) and not (one.unless and _holds(raw, one.unless))


def _holds(raw: Mapping[str, Any], condition: str) -> bool:
    """Whether a key or an open table is there, or with `=` has this value, in any of several tables."""
    key, _, wanted = condition.partition("=")
    found = [found for place in places(raw, key) if (found := at(raw, place)) not in (None, False, [], UNKNOWN)]
    return wanted in found if wanted else bool(found)


def _question(place: str, key: str, one: Words, raw: Mapping[str, Any]) -> Question:
    field, inch = fields()[key], at(raw, "job.print_units") == "inch"
    return Question(
        key=place,
        asks=_asks(place, one, raw),
        how=one.how,
        picture=one.picture,
        kind=kind_of(field),
        unit=BOXES.get(quantity_of(field), ("", ""))[inch],
        choices=_choices(key, raw),
        example=_example(key, inch=inch),
        stops=one.stops,
        designed=one.designed,
        why=one.why,
        more=one.more,
        no=one.no,
    )


def _asks(place: str, one: Words, raw: Mapping[str, Any]) -> str:
    """The question, with the name of the one of several that it is about."""
    *above, last = place.split(".")
    name = at(raw, ".".join([*above, "name"])) if last != "name" and any(map(str.isdecimal, above)) else None
    return f"{one.asks[:-1]}, {name}?" if isinstance(name, str) and name else one.asks


def _choices(key: str, raw: Mapping[str, Any]) -> tuple[str, ...]:
    field = fields()[key]
    if kind_of(field) == "pattern":
        return WAYS_UP
    if key == "plug.passage":
        named = (at(raw, place) for place in places(raw, "barrel.passages.name"))
        return tuple(name for name in named if isinstance(name, str))
    return tuple(usual_at(place_of(field))) or choices_of(field)


def _example(key: str, *, inch: bool) -> str:
    """A right example as it would stand in the file, without the quotes of a text."""
    field = fields()[key]
    example = example_of(field) if field else {}
    if example in ({}, []):
        return "true"
    if inch and quantity_of(field) == "length" and isinstance(example, str):
        return units.printed(units.read(example, "length")[0], "mm", "inch")
    return example if isinstance(example, str) else toml(example)
