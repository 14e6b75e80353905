"""What was typed beside a question, as the value that stands in the job file.

The models say what a key holds, so a box needs no word of its own: a number alone gets the unit chosen beside it,
several readings become one value with its half width.
"""

from __future__ import annotations

import re
from functools import partial
from math import fsum
from types import UnionType
from typing import TYPE_CHECKING, Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from parts.job import TABLES
from parts.job.fields import Reads
from parts.job.instances import LISTS
from parts.units import KINDS, NUMBER, convert, number

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from parts.job.lines import Path

WHOLE, PLAIN, YES, TEXT = "whole", "number", "yes", "text"
BARE = re.compile(rf"\s*{NUMBER}(?:\s*(?:±|\+/-)\s*{NUMBER})?\s*")
READING = re.compile(rf"({NUMBER})\s*(.*)")
BENCH = {  # kind of quantity -> units that may be chosen beside a box, the metric one first
    "length": ("mm", "in", "thou"),
    "angle": ("deg",),
    "temperature": ("degC", "degF"),
    "pressure": ("bar", "psi", "MPa"),
    "stress": ("MPa", "psi", "GPa"),
    "volume": ("cm^3", "in^3"),
    "force": ("N", "lbf"),
    "torque": ("N m", "lbf ft"),
    "expansion": ("um/m/K",),
    "mass": ("g", "kg"),
    "time": ("min", "hour"),
    "thread length": ("d", "mm", "in"),
}
INCH = ("in", "psi", "degF", "in^3", "lbf", "lbf ft")
SAYS = {"yes": True, "true": True, "no": False, "false": False}


def path_of(key: str) -> Path:
    """Steps of a dotted key, numbers as numbers.

    >>> path_of("barrel.passages.0.at")
    ('barrel', 'passages', 0, 'at')
    """
    return tuple(int(step) if step.isdecimal() else step for step in key.split("."))


def kind_of(key: str) -> str:
    """What a key holds: a kind of quantity, "thread", "whole", "number", "yes" or "text".

    >>> kind_of("engine.bore"), kind_of("head.holes.count"), kind_of("stud.tap_end"), kind_of("barrel.passages.0.blank")
    ('length', 'whole', 'thread', 'yes')
    """
    return next((kind for one in _held(key) for kind in _kinds(one)), TEXT)


def is_list(key: str) -> bool:
    """Tell whether a key holds tables as a list alone.

    >>> is_list("barrel.passages"), is_list("barrel.old_holes"), is_list("engine.hot")
    (True, False, False)
    """
    plain = [one for held in _held(key) for one in _plain(held)]
    return not any(isinstance(one, type) and issubclass(one, BaseModel) for one in plain)


def _held(key: str) -> list[Any]:
    """What a key may hold, as its model has it."""
    table, *steps = key.split(".")
    inner: list[Any] = [TABLES.get(table)]
    if table in LISTS and steps and steps[0].isdecimal():
        inner, steps = [LISTS[table]], steps[1:]
    for step in steps:
        inner = [below for one in inner for below in _below(one, step)]
    return inner


def _below(held: object, step: str) -> Iterator[Any]:
    """What stands under a step into what a key holds."""
    for one in _plain(held):
        if step.isdecimal():
            yield from get_args(one) if get_origin(one) is list else ()
        elif isinstance(one, type) and issubclass(one, BaseModel) and step in one.model_fields:
            field = one.model_fields[step]
            yield Annotated[field.annotation, *field.metadata] if field.metadata else field.annotation


def _plain(held: object) -> Iterator[Any]:
    """The types that something may be, without what is written beside them."""
    if get_origin(held) in (Union, UnionType):
        for one in get_args(held):
            yield from _plain(one)
    elif get_origin(held) is Annotated:
        yield from _plain(get_args(held)[0])
    else:
        yield held


def _kinds(held: object) -> Iterator[str]:
    if get_origin(held) in (Union, UnionType):
        for one in get_args(held):
            yield from _kinds(one)
    elif get_origin(held) is Annotated:
        inside, *beside = get_args(held)
        reads = [one.schema for one in beside if isinstance(one, Reads)]
        yield from [str(reads[0].get("title", reads[0]["type"]))] if reads else _kinds(inside)
    elif held in (bool, int):
        yield YES if held is bool else WHOLE
    elif held is str or get_origin(held) is Literal:
        yield TEXT


def units_for(key: str, system: str) -> tuple[str, ...]:
    """Units that may be chosen beside a key's box, what the job prints first."""
    found = BENCH.get(kind_of(key), ())
    return tuple(sorted(found, key=lambda unit: unit not in INCH)) if system == "inch" and "d" not in found else found


def typed(key: str, text: str, unit: str = "") -> str | int | float | bool:
    """One box's text as the job file holds it; what can't be read as its kind stays as typed, for the reader to refuse.

    >>> typed("engine.bore", "2 3/4", "in"), typed("head.holes.first", "45", "in"), typed("head.holes.count", "4")
    ('2 3/4 in', '45 deg', 4)
    """
    text, kind = text.strip(), kind_of(key)
    if kind == YES:
        return SAYS.get(text.lower(), text)
    if kind == WHOLE:
        return int(text) if re.fullmatch(r"[-+]?[0-9]{1,9}", text) else text
    if kind == PLAIN:
        return number(text) if re.fullmatch(NUMBER, text) and "/0" not in text else text
    if kind in BENCH and BARE.fullmatch(text):
        return f"{text} {unit if unit in BENCH[kind] else BENCH[kind][0]}"
    return text


def mean(key: str, texts: Sequence[str], unit: str = "") -> str:
    """Several readings of one length, pressure or the like as one value with its half width, in the first one's unit.

    >>> mean("engine.bore", ["57.21", "57.19 mm", "57.20"], "mm")
    '57.200 mm ± 0.010 mm'
    >>> mean("engine.bore", ["2.7560 in", "70.03 mm"])
    '2.75654 in ± 0.00054 in'
    """
    read = [READING.fullmatch(str(typed(key, text, unit))) for text in texts]
    kind = kind_of(key)
    if kind not in KINDS or not all(read):
        return (
            str(typed(key, texts[0], unit)) if all(read) else next(t for t, r in zip(texts, read, strict=True) if not r)
        )
    parts = [(found[1], found[2]) for found in read if found]
    name = parts[0][1]
    one, zero = convert(1.0, name, kind), convert(0.0, name, kind)
    values = [(convert(number(figure), there, kind) - zero) / (one - zero) for figure, there in parts]
    places = 1 + max(len(figure.partition(".")[2]) if "/" not in figure else 3 for figure, _ in parts)
    half = (max(values) - min(values)) / 2
    return f"{fsum(values) / len(values):.{places}f} {name}" + (f" ± {half:.{places}f} {name}" if half else "")


def nested(key: str, fields: Mapping[str, str], unit: str = "") -> Any:  # noqa: ANN401 - as TOML holds it
    """The value of a key that is asked in several boxes: a table or a list, without what was left empty.

    >>> nested("head.holes", {"head.holes.circle": "86", "head.holes.count": "4", "head.holes.first": ""}, "mm")
    {'circle': '86 mm', 'count': 4}
    >>> nested("head.holes", {"head.holes.points.0.0": "30", "head.holes.points.0.1": "-29"}, "mm")
    {'points': [['30 mm', '-29 mm']]}
    """
    found: dict[str, Any] = {}
    for name, text in fields.items():
        if name.startswith(f"{key}.") and text.strip():
            inside = found
            *steps, last = name.removeprefix(f"{key}.").split(".")
            for step in steps:
                inside = inside.setdefault(step, {})
            inside[last] = typed(name, text, unit)
    return _listed(found)


def _listed(found: Any) -> Any:  # noqa: ANN401
    """Tables whose keys are numbers, as lists in that order."""
    if not isinstance(found, dict):
        return found
    if found and all(step.isdecimal() for step in found):
        return [_listed(found[step]) for step in sorted(found, key=int)]
    return {step: _listed(inside) for step, inside in found.items()}


def mirrored(value: Any) -> Any:  # noqa: ANN401
    """A pattern, an outline or a place that was measured from below, as it is seen from above: X changes its sign.

    >>> mirrored({"circle": "86 mm", "count": 4, "first": "30 deg"}), mirrored(["12 mm", "-3 mm"])
    ({'circle': '86 mm', 'count': 4, 'first': '150 deg'}, ['-12 mm', '-3 mm'])
    """
    if isinstance(value, list):
        return [mirrored(one) for one in value] if isinstance(value[0], list) else [_other(value[0]), *value[1:]]
    if not isinstance(value, dict):
        return value
    whole = {**value, "first": value.get("first", "0 deg")} if "count" in value else value
    return {step: MIRRORED.get(step, _as_it_is)(one) for step, one in whole.items()}


def _as_it_is(value: Any) -> Any:  # noqa: ANN401
    return value


def _other(text: str) -> str:
    return text[1:] if text.startswith("-") else f"-{text}"


def _from(whole: float, text: str) -> str:
    """An angle [deg] as it is seen from the other side."""
    found = READING.fullmatch(text)
    return f"{whole - number(found[1]):g} deg" if found and found[2] in ("deg", "°") else text


MIRRORED: dict[str, Callable[[Any], Any]] = {
    "first": partial(_from, 180.0),
    "turned": partial(_from, 0.0),
    "points": mirrored,
}
