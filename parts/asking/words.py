"""Every key of the job file with the words that it is asked in: kinds from the models, words from words.toml."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, get_args, get_origin

from parts.job import TABLES
from parts.job.fields import Reads
from parts.job.instances import LISTS
from parts.job.material_models import MaterialAt, MaterialSpec
from parts.job.models import Pattern
from parts.job.outline_models import Outline
from parts.job.part_models import Nut, Washer
from parts.job.schema import table_in

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pydantic import BaseModel
    from pydantic.fields import FieldInfo

FILE = Path(__file__).with_name("words.toml")
SCREENS = Path(__file__).with_name("screens.toml")
WHOLE: dict[type[BaseModel], str] = {
    Pattern: "pattern",
    Outline: "outline",
    MaterialSpec: "material",
    Nut: "words",
    Washer: "words",
}
"""tables that are asked in one question, and the kind of it"""
ANY = "any"


@dataclass(frozen=True)
class Words:
    """What stands of a key in words.toml; see there."""

    asks: str = ""
    how: str = ""
    picture: str = ""
    tables: tuple[str, ...] = ()
    """of the parts that it is asked for; empty for all"""
    without: str = ""
    stops: bool = False
    designed: bool = False
    when: str = ""
    unless: str = ""
    why: str = ""
    ask: bool = True
    gate: bool = False
    """yes opens the table, and with it the questions below it"""
    more: bool = False
    several: bool = False
    """yes makes a list of the table"""
    no: str = ""
    """what a no stands for in the file; empty: as if the key were not there"""


@lru_cache(1)
def words() -> dict[str, Words]:
    """Every key with its words, in the order of asking; list numbers are left out of a key."""
    return {key: _words(key, row) for key, row in tomllib.loads(FILE.read_text(encoding="utf-8")).items()}


def _words(key: str, row: dict[str, Any]) -> Words:
    wanted = row.pop("for", key.partition(".")[0])
    return Words(**row, tables=() if wanted == ANY else tuple(wanted.split()))


@lru_cache(1)
def titles() -> dict[str, str]:
    """Every key that is asked together with others, and the title of their screen."""
    screens: dict[str, list[str]] = tomllib.loads(SCREENS.read_text(encoding="utf-8"))
    return {key: title for title, keys in screens.items() for key in keys}


@lru_cache(1)
def fields() -> dict[str, FieldInfo | None]:
    """Every key and table of the job file by its folded key, and its field; a whole table of the file has none.

    >>> "barrel.passages.diameter" in fields(), "head.holes.circle" in fields(), fields()["stud"]
    (True, False, None)
    """
    found: dict[str, FieldInfo | None] = {}
    for name, model in TABLES.items():
        found[name] = None
        for one in (model, LISTS.get(name, model)):
            found |= _below(name, one)
    return found


def _below(name: str, model: type[BaseModel]) -> Iterator[tuple[str, FieldInfo]]:
    for key, field in model.model_fields.items():
        yield f"{name}.{key}", field
        inner = table_in(field)
        if inner and inner not in WHOLE:
            yield from _below(f"{name}.{key}", inner)


def never(key: str) -> str:
    """Why a key, or a table that it lies in, is never asked; empty where it is."""
    steps = key.split(".")
    above = (words().get(".".join(steps[:n])) for n in range(1, len(steps) + 1))
    return next((one.why for one in above if one and not one.ask), "")


def kind_of(field: FieldInfo | None) -> str:
    """What kind of box a key takes.

    >>> [kind_of(fields()[key]) for key in ("engine.bore", "head.holes", "stud.tap_end", "lathe", "plug.fit")]
    ['quantity', 'pattern', 'thread', 'yes', 'choice']
    """
    if field is None:
        return "yes"
    inner = table_in(field)
    if inner:
        return WHOLE.get(inner, "yes")
    parts = list(_inside(field))
    if list in parts:
        return "readings"
    reads = next((one.schema for one in parts if isinstance(one, Reads)), None)
    if reads:
        return {"thread": "thread"}.get(str(reads.get("title")), "number" if reads["type"] == "number" else "quantity")
    return next((kind for of, kind in PLAIN.items() if of in parts), "words")


PLAIN: dict[object, str] = {bool: "yes", Literal: "choice", int: "count"}


def quantity_of(field: FieldInfo | None) -> str:
    """What quantity a box holds: length, angle, ...; empty where it holds none."""
    reads = [one.schema for one in _inside(field) if isinstance(one, Reads)] if field else []
    return str(reads[0].get("title", "")) if reads else ""


def choices_of(field: FieldInfo | None) -> tuple[str, ...]:
    """The words of which a key takes one."""
    found = [one for one in _nested(field.annotation) if get_origin(one) is Literal] if field else []
    return tuple(get_args(found[0])) if found else ()


def place_of(field: FieldInfo | None) -> str:
    """Where a material stands: barrel, head, sheet, bar or ring; empty for what is no material."""
    funcs = [getattr(one, "func", None) for one in _inside(field)] if field else []
    return next((func.place for func in funcs if isinstance(func, MaterialAt)), "")


def _inside(field: FieldInfo) -> Iterator[object]:
    """What a field's annotation is made of: types, origins, readers."""
    yield from field.metadata
    for one in _nested(field.annotation):
        yield get_origin(one) or one
        yield from getattr(one, "__metadata__", ())


def _nested(annotation: Any) -> Iterator[Any]:  # noqa: ANN401 - any annotation
    yield annotation
    if get_origin(annotation) is not Literal:
        for one in get_args(annotation):
            yield from _nested(one)


__all__ = ["ANY", "WHOLE", "Words", "choices_of", "fields", "kind_of", "never", "place_of", "quantity_of", "words"]
