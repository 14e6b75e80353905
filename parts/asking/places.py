"""Where a key stands in the data of a job file: one place for each entry of the lists above it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.asking.words import words
from parts.job import TABLES
from parts.job.instances import LISTS

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

UNKNOWN = "unknown"
"""what a key holds that nobody knows"""


def places(raw: Mapping[str, Any], key: str) -> list[str]:
    """The keys of the file that a folded key stands for: none where its table has to be opened first.

    >>> places({"barrel": {"passages": [{}, {}]}}, "barrel.passages.depth")
    ['barrel.passages.0.depth', 'barrel.passages.1.depth']
    >>> places({}, "barrel.passages.depth"), places({}, "ring.groove.width"), places({}, "stud.name")
    ([], ['ring.groove.width'], [])
    """
    return [".".join(place) for place in _places(raw, "", key.split("."))]


def _places(here: Any, above: str, steps: Sequence[str]) -> Iterator[list[str]]:  # noqa: ANN401 - TOML data
    step, rest = steps[0], steps[1:]
    folded = f"{above}.{step}" if above else step
    if not rest:
        yield [step]
        return
    below = here.get(step) if isinstance(here, dict) else None
    gate = words().get(folded)
    if isinstance(below, list):
        yield from ([step, str(n), *more] for n, one in enumerate(below) for more in _places(one, folded, rest))
    elif (below is not None or not (gate and gate.gate)) and not _of_lists(folded, rest):
        yield from ([step, *more] for more in _places(below, folded, rest))


def _of_lists(table: str, rest: Sequence[str]) -> bool:
    """Whether a key stands only in the entries of a list."""
    return table in LISTS and rest[0] not in TABLES[table].model_fields


def at(raw: Any, key: str) -> Any:  # noqa: ANN401 - TOML data
    """What stands at a dotted key; None where nothing does.

    >>> at({"a": [{"b": 1}]}, "a.0.b"), at({"a": 1}, "a.b")
    (1, None)
    """
    for step in key.split("."):
        if isinstance(raw, list):
            raw = raw[int(step)] if step.isdecimal() and int(step) < len(raw) else None
        else:
            raw = raw.get(step) if isinstance(raw, dict) else None
    return raw


def put(raw: dict[str, Any], key: str, value: object) -> None:
    """Put a value at a dotted key, into tables that are made where there are none; entries of a list are there.

    >>> raw = {"a": 5, "b": [{}]}
    >>> put(raw, "a.c", 1), put(raw, "b.0.d.e", 2), raw
    (None, None, {'a': {'c': 1}, 'b': [{'d': {'e': 2}}]})
    """
    *above, last = key.split(".")
    here: Any = raw
    for step in above:
        if isinstance(here, dict) and not isinstance(here.get(step), dict | list):
            here[step] = {}
        here = here[int(step) if isinstance(here, list) else step]
    here[last] = value


def folded(key: str) -> str:
    """A key without its numbers.

    >>> folded("barrel.passages.0.diameter")
    'barrel.passages.diameter'
    """
    return ".".join(step for step in key.split(".") if not step.isdecimal())
