"""Keys of the job file to be varied: `gasket.thickness=0.8..2.0mm/0.2`, or a list of values with commas between."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from parts.errors import Fault, JobError
from parts.job import TABLES, nearest, splices
from parts.job.instances import LISTS, NAMED_BY, folded
from parts.job.schema import example_of, table_in
from parts.units import NUMBER, UNIT, shown

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pydantic import BaseModel

    from parts.job.lines import Path

MOST = 100_000
"""variants in one run"""
RANGE = re.compile(rf"({NUMBER})\s*({UNIT})?\s*\.\.\s*({NUMBER})\s*({UNIT})?\s*/\s*({NUMBER})\s*({UNIT})?")
PIECE = re.compile(
    r"""[^,"'{\[]+|"[^"]*"|'[^']*'|\{[^}]*\}|\[[^\]]*\]|."""
)  # of a list: what stands between its commas
FORMS = "KEY=LOW..HIGHunit/STEP, like gasket.thickness=0.8..2.0mm/0.2, or KEY=VALUE,VALUE,..."


@dataclass(frozen=True, slots=True)
class Varied:
    """One key of the job file, and the values that it takes in turn."""

    key: str
    path: Path
    written: tuple[str, ...]
    """as the user would write them, without quotes"""
    values: tuple[Any, ...]
    """as the TOML parser would give them"""
    steps: bool = False
    """they go up in steps"""


def read_varied(text: str) -> Varied:
    """Read one key to be varied.

    Parameters
    ----------
    text : str
        `KEY=LOW..HIGHunit/STEP` or `KEY=VALUE,VALUE,...`; a value that holds a comma stands in quotes

    Returns
    -------
    varied : Varied
        The key, known to the job file, and its values

    Raises
    ------
    JobError
        It is neither form, or the job file knows no such key.

    Examples
    --------
    >>> read_varied("gasket.thickness = 0.8..1.2mm/0.2").written
    ('0.8 mm', '1.0 mm', '1.2 mm')
    >>> read_varied("stud.shank=1/4..3/8in/1/16").written
    ('1/4 in', '5/16 in', '3/8 in')
    >>> read_varied("ring.count=2,3").values
    (2, 3)
    """
    key, equals, said = (part.strip() for part in text.partition("="))
    if not equals or not key or not said:
        raise JobError(Fault("--vary", f"wants {FORMS}, not {shown(text)}"))
    path, example = known_key(key)
    written = _range(key, said) if ".." in said else _items(said)
    if not all(written):
        raise JobError(Fault("--vary", f"{key} has an empty value in {shown(said)}"))
    bare = tuple(w[1:-1] if w[0] == w[-1] and w[0] in "\"'" else w for w in written)
    return Varied(dotted(path), path, bare, tuple(_value(item, example) for item in written), ".." in said)


def dotted(path: Path) -> str:
    """Join a path as the contract names keys."""
    return ".".join(map(str, path))


def known_key(key: str) -> tuple[Path, object]:
    """Return the path of a key of the job file and an example of its value; JobError with the nearest known key."""
    path: Path = tuple(int(p) if p.isdecimal() else p for p in key.split("."))
    if path[0] == "job" and len(path) > 1 and path[1] in TABLES:
        path = path[1:]  # as sizes.json names a given
    keys: dict[str, Any] = dict(TABLES)
    inner: type[BaseModel] | None = None
    example: object = {}
    for depth, step in enumerate(path):
        if depth == 1 and path[0] in LISTS and (isinstance(step, int) or (step not in keys and len(path) > depth + 1)):
            keys, inner = dict(LISTS[path[0]].model_fields), LISTS[path[0]]  # one of a list, by its number or its name
        elif isinstance(step, int):
            example = example[0] if isinstance(example, list) and example else {}
        elif step in keys:
            inner = keys[step] if depth == 0 else table_in(keys[step])
            example = {} if depth == 0 else example_of(keys[step])
            keys = dict(inner.model_fields) if inner else {}
        else:
            near = nearest(step, list(keys)) if keys else f"; {dotted(path[:depth])} holds no keys"
            raise JobError(Fault("--vary", f"{dotted(path[: depth + 1])} is not a key of the job file{near}"))
    if len(path) == 1:
        raise JobError(Fault("--vary", f"{key} is a table: name a key of it, like {key}.{next(iter(keys))}"))
    return path, example


def _keys(table: str) -> set[str]:
    return set(LISTS[table].model_fields)


def numbered(path: Path, raw: Mapping[str, Any]) -> Path:
    """Path in the data of a job file, what stands in a list by its number; JobError where no entry has that name.

    >>> numbered(("stud", "rear", "shank"), {"stud": [{"name": "Front"}, {"name": "Rear"}]})
    ('stud', 1, 'shank')
    """
    table, name = str(path[0]), path[1]
    listed = raw.get(table)
    if table not in LISTS or isinstance(name, int) or (not isinstance(listed, list) and name in _keys(table)):
        return path
    entries = [one for one in listed if isinstance(one, dict)] if isinstance(listed, list) else []
    names = [folded(str(one.get(NAMED_BY[table], ""))) for one in entries]
    if names and name in _keys(table):
        which = " or ".join(dotted((table, one, *path[1:])) for one in names)
        raise JobError(Fault("--vary", f"{dotted(path)} stands in a list: say which, {which}"))
    if folded(name) not in names:
        near = nearest(name, names) if names else f": it has no [[{table}]]"
        raise JobError(Fault("--vary", f"{dotted(path[:2])} is not in the job file{near}"))
    return (table, names.index(folded(name)), *path[2:])


def _items(said: str) -> tuple[str, ...]:
    """Split at the commas that stand outside quotes and brackets."""
    items = [""]
    for piece in PIECE.findall(said):
        if piece == ",":
            items.append("")
        else:
            items[-1] += piece
    return tuple(item.strip() for item in items)


def _range(key: str, said: str) -> tuple[str, ...]:
    found = RANGE.fullmatch(said)
    if found is None:
        raise JobError(Fault("--vary", f"{key} wants {FORMS}, not {shown(said)}"))
    try:
        low, high, step = (_fraction(found[n]) for n in (1, 3, 5))
    except (ValueError, ArithmeticError):
        raise JobError(Fault("--vary", f"{key} wants {FORMS}, not {shown(said)}")) from None
    units = {unit.strip() for unit in (found[2], found[4], found[6]) if unit}
    if len(units) > 1:
        raise JobError(Fault("--vary", f"{key} wants one unit for the whole range, not {' and '.join(sorted(units))}"))
    if step <= 0 or high < low:
        says = f"{key} goes up from the lower to the higher value by a step above zero, not {shown(said)}"
        raise JobError(Fault("--vary", says))
    count = (high - low) // step + 1
    if count > MOST:
        raise JobError(Fault("--vary", f"{key} asks for {count} values; {MOST} variants are the most in one run"))
    unit = f" {units.pop()}" if units else ""
    return tuple(f"{_number(low + n * step, found[1], found[5])}{unit}" for n in range(count))


def _fraction(text: str) -> Fraction:
    whole, _, rest = text.rpartition(" ")
    return Fraction(rest) if not whole else int(whole) + (-1 if text.startswith("-") else 1) * Fraction(rest)


def _number(value: Fraction, low: str, step: str) -> str:
    """Write a value as its range is written: in fractions, or with as many decimals."""
    if "/" in low or "/" in step:
        whole, rest = divmod(abs(value), 1)
        text = " ".join([str(whole)] * bool(whole or not rest) + [str(rest)] * bool(rest))
        return f"-{text}" if value < 0 else text
    places = max(len(text.partition(".")[2]) for text in (low, step))
    return f"{float(value):.{places}f}"


def _value(text: str, example: object) -> object:
    """Give a value as the TOML parser would: what is a text in a job file needs no quotes here."""
    if isinstance(example, str) and text[0] not in "\"'{":
        return text
    try:
        return tomllib.loads(f"x = {text}")["x"]
    except tomllib.TOMLDecodeError:
        return text  # the key's own rule says what it wants


def with_value(raw: Any, path: Path, value: object) -> Any:  # noqa: ANN401 - the data of a job file
    """Return the data of a job file with one value in it; JobError where a list has no such entry."""
    try:
        for depth in (n for n, step in enumerate(path) if isinstance(step, int)):
            if value_at(raw, path[: depth + 1]) is None:
                items = value_at(raw, path[:depth])
                has = f"its list has {len(items)}" if items else "the job file has no such list"
                raise LookupError(f"there is no item {path[depth]}, counted from 0: {has}")  # noqa: TRY301 - one way out
        return splices.with_value(raw, path, value)
    except LookupError as error:
        raise JobError(Fault("--vary", str(error.args[0]))) from None


def value_at(raw: Any, path: Path) -> Any:  # noqa: ANN401 - the data of a job file
    """Return the value at a path, None where there is none."""
    for step in path:
        if isinstance(raw, str) and step == "name":
            return raw
        if isinstance(step, int):
            raw = raw[step] if isinstance(raw, list) and step < len(raw) else None
        else:
            raw = raw.get(step) if isinstance(raw, dict) else None
    return raw
