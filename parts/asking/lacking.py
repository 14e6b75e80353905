"""What the parts that are wanted still lack: by the sizing itself, on a job as far as it stands."""

from __future__ import annotations

from copy import deepcopy
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from parts.asking.places import at, put
from parts.asking.words import WHOLE, fields, words
from parts.errors import JobError
from parts.fixtures import FIXTURES
from parts.job import TABLES, load_data
from parts.job.instances import LISTS
from parts.job.part_models import Gasket, Plug, Ring
from parts.job.schema import example_of, table_in
from parts.register import PARTS, lacks, pieces
from parts.sizing import size

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Mapping

    from pydantic import BaseModel


def of_parts(make: Collection[str]) -> frozenset[str]:
    """Tables of the job file that parts are asked for by, and those of other parts that they are nothing without.

    >>> sorted(of_parts(["expander-mandrel"])), sorted(of_parts(["stepped-stud"]))
    (['mandrel', 'ring'], ['stud'])
    """
    wanted = [PARTS[stem] for stem in make if stem in PARTS]
    others = {table for part in wanted if part.verb for table, keys in part.verb.keys.items() if not keys}
    others |= {part.table for part in PARTS.values() if part.table in _made_for(one.table for one in wanted)}
    return frozenset({part.table for part in wanted} | others)


def _made_for(tables: Iterable[str]) -> set[str]:
    """Tables of the work that fixtures are made for."""
    return {name for table in tables if table in FIXTURES for name in FIXTURES[table].beside}


def bare_needs(make: Collection[str]) -> frozenset[str]:
    """Keys without which parts can't be made, each of a file that has nothing else."""
    return frozenset().union(*(_needs(stem) for stem in make if stem in PARTS))


@lru_cache(None)
def _needs(stem: str) -> frozenset[str]:
    """Keys without which a part can't be made: examples are put in until nothing is lacking."""
    raw: dict[str, Any] = {}
    found: set[str] = set()
    while lacks := {key for key in _lacks(raw, [stem], lambda _: ())[stem] if key in fields()} - found:
        found |= lacks
        for key in lacks:
            field = fields()[key]
            put(raw, key, example_of(field) if field else {})
    return frozenset(found)


def lacking(raw: Mapping[str, Any], make: Collection[str]) -> dict[str, list[str]]:
    """What each part still lacks, as keys of the job file.

    Parameters
    ----------
    raw : mapping
        Data of the job file as far as it stands
    make : collection of str
        Stems of the parts that are wanted

    Returns
    -------
    keys : dict of str to list of str
        By the part's stem, every one that is wanted; empty where it can be made
    """
    return _lacks(raw, make, _needs)


def _lacks(
    raw: Mapping[str, Any], make: Collection[str], needs: Callable[[str], Iterable[str]]
) -> dict[str, list[str]]:
    """As `lacking`, where the sizing can't tell by what each part needs of an empty file."""
    whole, put_in = completed(raw, of_parts(make))
    found = {stem: [key for key in put_in if key.partition(".")[0] not in _others(stem)] for stem in make}
    try:
        job = load_data(whole)
        book = size(job, contact=False)
    except JobError:  # the sizing can't tell before that is put right
        for stem, keys in found.items():
            keys += [key for key in sorted(needs(stem)) if at(raw, key) is None and _is_for(key, whole)]
    else:
        for piece in pieces(job):
            if piece.part.stem in found:
                found[piece.part.stem] += lacks(piece.part, piece.book(book))
    return {stem: list(dict.fromkeys(keys)) for stem, keys in found.items()}


def _is_for(key: str, whole: Mapping[str, Any]) -> bool:
    """Whether a key is asked beside the tables that there are; of a list each entry has its own."""
    asked = key not in words() or words()[key].without not in whole
    return asked and not isinstance(whole.get(key.partition(".")[0]), list)


def _others(stem: str) -> set[str]:
    """Tables of parts that one is made without: neither its own nor what its verb takes keys of."""
    table = PARTS[stem].table
    verbs = [part.verb.keys for part in PARTS.values() if part.table == table and part.verb]
    return {part.table for part in PARTS.values()}.difference({table}, *verbs)


def completed(raw: Mapping[str, Any], tables: Collection[str]) -> tuple[dict[str, Any], list[str]]:
    """The file's data with examples for what is needed and not there, and the keys of these.

    Parameters
    ----------
    raw : mapping
        Data of the job file as far as it stands
    tables : collection of str
        That have to stand, besides those that do
    """
    whole: dict[str, Any] = deepcopy(dict(raw))
    put_in: list[str] = []
    for name in (*tables, *_made_for(tables)):
        whole.setdefault(name, {})
    if "ring" in whole:
        whole.setdefault("engine", {})  # it is made to the bore
    for name, model in TABLES.items():
        _complete(whole.get(name), model, name, put_in)
    if "stud" not in whole and isinstance(whole.get("gasket"), dict) and "hole" not in whole["gasket"]:
        whole["gasket"]["hole"] = example_of(Gasket.model_fields["hole"])  # else as wide as the stud wants it
        put_in.append("gasket.hole")
    return whole, put_in


ONE_OF: tuple[tuple[type[BaseModel], str, tuple[str, ...]], ...] = (
    (Plug, "hole", ("passage",)),
    (Gasket, "thickness", ("wanted_squish", "wanted_ratio")),
    (Ring, "groove", ("axial_width", "radial_thickness")),
)
"""table, the key that it has to have, and the keys that may stand in its place"""


def _complete(table: Any, model: type[BaseModel], name: str, put_in: list[str]) -> None:  # noqa: ANN401 - TOML data
    """Put in what one table, or each of a list, has to have."""
    if isinstance(table, list):
        for number, one in enumerate(table):
            _complete(one, LISTS.get(name, model), f"{name}.{number}", put_in)
    if not isinstance(table, dict):
        return
    for key in _needed(table, model):
        table[key] = example_of(model.model_fields[key])
        put_in.append(f"{name}.{key}")
    for key, field in model.model_fields.items():
        inner = table_in(field)
        if inner and inner not in WHOLE:
            _complete(table.get(key), inner, f"{name}.{key}", put_in)


def _needed(table: Mapping[str, Any], model: type[BaseModel]) -> list[str]:
    """Keys that a table has to have and has not; of what may stand in another's place the one that is measured."""
    needed = [key for key, field in model.model_fields.items() if field.is_required()]
    needed += [key for kind, key, others in ONE_OF if issubclass(model, kind) and not table.keys() & set(others)]
    return [key for key in needed if key not in table]
