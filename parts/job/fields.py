"""The kinds of value a job file holds, each read strictly."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Annotated, Any, Self, TypeAlias, get_args

from pydantic import AfterValidator, BaseModel, ConfigDict, Field
from pydantic_core import CoreSchema, core_schema

from parts import units
from parts.tables.unknown import Range
from parts.thread import Thread, read_thread

MOST_MM = 2000.0  # nothing on the bench is longer
LETTERS = [  # all that the sheets' one font has, where it has a whole block of them, from left to right
    range(first, last + 1)
    for first, last in (
        *((0x20, 0x7E), (0xA0, 0x2AF), (0x370, 0x4FF), (0x1E00, 0x1EFB), (0x2010, 0x2027), (0x2030, 0x205E)),
        *((0x2070, 0x209C), (0x20A0, 0x20B5), (0x2190, 0x22FF), (0x2500, 0x25FF)),
    )
]


class Table(BaseModel):
    """One table of the job file: every key known, nothing changed after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, validate_default=True, allow_inf_nan=False)


class Measure(float):
    """A number in the project's unit that remembers its unit, its tolerance and how it was written."""

    unit: str
    spread: float
    written: str
    assumed: str
    """whose figure it is, where it was taken for what is not known; else empty"""

    def __new__(cls, value: float, unit: str = "1", spread: float = 0.0, written: str = "", assumed: str = "") -> Self:
        """Make one [unit]."""
        self = super().__new__(cls, value)
        self.unit, self.spread, self.written, self.assumed = unit, spread, written, assumed
        return self


@dataclass(frozen=True, eq=False)
class Reads:
    """How a key's value is read, and what the schema says of it."""

    parse: Callable[[object], Any]
    schema: dict[str, Any]

    def __get_pydantic_core_schema__(self, source: object, handler: object) -> CoreSchema:
        """Read with our own parser, nothing before or after it; what is not known has its value already."""
        return core_schema.no_info_plain_validator_function(
            lambda text: _taken(text) if isinstance(text, Range) else self.parse(text)
        )

    def __get_pydantic_json_schema__(self, core: object, handler: object) -> dict[str, Any]:
        """Give the schema's words."""
        return dict(self.schema)


def _taken(known: Range) -> Measure:
    return Measure(known.taken, known.unit, 0.0, f"{known.taken:g}", known.source)


def within(value: float, low: float | None, high: float | None, unit: str, text: object) -> None:
    """Refuse a value outside its sane range, in one sentence."""
    if (low is not None and value < low) or (high is not None and value > high):
        ends = f"between {low:g} and {high:g}" if low is not None and high is not None else f"at least {low:g}"
        raise ValueError(f"must lie {ends} {unit}, not {units.shown(text)}")


def quantity(kind: str, low: float | None = None, high: float | None = None) -> Reads:
    """Read a key that holds a quantity of this kind, within [low, high] of the project's unit."""
    unit, example, _ = units.KINDS[kind]

    def parse(text: object) -> Measure:
        value, spread = units.read(text, kind)
        within(value, low, high, unit, text)
        if low is not None and low > 0 and spread >= value:
            raise ValueError(f"has a tolerance as large as itself: {units.shown(text)}")
        return Measure(value, unit, spread, str(text))

    return Reads(parse, {"type": "string", "title": kind, "examples": [example], "minLength": 1})


def multiple(kind_example: str, high_multiple: float, high_mm: float) -> Reads:
    """Read a thread length: millimetres or inches, or multiples of the nominal diameter, `1.5 d`."""

    def wanted(text: object) -> str:
        return (
            f"wants a length or multiples of the thread diameter, "
            f'like "{kind_example}" or "15 mm", not {units.shown(text)}'
        )

    def multiples(number: str, text: object) -> float:
        try:
            return units.number(number)
        except (ValueError, ArithmeticError):
            raise ValueError(wanted(text)) from None

    def parse(text: object) -> Measure:
        stripped = units.stripped(text)
        found = units.QUANTITY.fullmatch(stripped)
        if found and found[2] in ("d", "D") and not found[3]:
            value = multiples(found[1], text)
            within(value, 0.1, high_multiple, "d", text)
            return Measure(value, "d", 0.0, stripped)
        try:
            value, spread = units.read(text, "length")
        except ValueError:
            raise ValueError(wanted(text)) from None
        within(value, 0.1, high_mm, "mm", text)
        return Measure(value, "mm", spread, stripped)

    return Reads(
        parse, {"type": "string", "title": "thread length", "examples": [kind_example, "15 mm"], "minLength": 1}
    )


def hole() -> Reads:
    """Read the diameter of a hole: a length, or the thread that is in it, drilled out to its nominal diameter."""
    length = quantity("length", 0.01, MOST_MM)

    def parse(text: object) -> Measure:
        try:
            thread = read_thread(text)
        except ValueError:
            return length.parse(text)  # type: ignore[no-any-return]
        return Measure(thread.nominal, "mm", 0.0, str(text))

    return Reads(parse, {**length.schema, "examples": [*length.schema["examples"], "5/16 BSF"]})


def sheet_size() -> Reads:
    """Read the two sides of a sheet, `300 x 200 mm`."""
    side = quantity("length", 1.0, MOST_MM)

    def parse(text: object) -> list[Measure]:
        found = (
            re.fullmatch(r"\s*([0-9./ ]+?)\s*[x×]\s*([0-9./ ]+?)\s*([A-Za-z\"]+)\s*", text)
            if isinstance(text, str)
            else None
        )
        if found is None:
            raise ValueError(f'wants two sides and their unit, like "300 x 200 mm", not {units.shown(text)}')
        return [side.parse(f"{number} {found[3]}") for number in (found[1], found[2])]

    return Reads(parse, {"type": "string", "title": "sheet", "examples": ["300 x 200 mm"], "minLength": 1})


def number(low: float, high: float, unit: str = "1") -> Reads:
    """Read a pure number within [low, high]."""

    def parse(value: object) -> Measure:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise ValueError(f"wants a plain number, like {high / 2:g}, not {units.shown(value)}")  # noqa: TRY004
        if not low <= value <= high:  # also refuses nan
            raise ValueError(f"must lie between {low:g} and {high:g}, not {units.shown(value)}")
        return Measure(value, unit, 0.0, str(value))

    return Reads(parse, {"type": "number", "minimum": low, "maximum": high})


MOST_HOLES = 36


def _feature(value: object) -> str:
    text = value.strip() if isinstance(value, str) else ""
    found = re.fullmatch(r"bore|(?:old|new) ([1-9][0-9]?)", text)
    if found is None or int(found[1] or 1) > MOST_HOLES:
        raise ValueError(f'wants "bore", or old or new and a hole\'s number, like "old 1", not {units.shown(value)}')
    return text


def one_line(text: str) -> str:
    """Refuse what would break the line it is printed on: line ends, control characters."""
    if any(unicodedata.category(c) in ("Cc", "Zl", "Zp") for c in text):
        raise ValueError(f"must be one line without control characters, not {units.shown(text)}")
    lacking = "".join(dict.fromkeys(c for c in text if not any(ord(c) in some for some in LETTERS)))
    if lacking:
        raise ValueError(
            f"has letters that the sheets can't draw, {lacking!r}: write it in Latin, Greek or Cyrillic ones"
        )
    return text


Words: TypeAlias = Annotated[str, Field(max_length=200), AfterValidator(one_line)]

ThreadName: TypeAlias = Annotated[
    Thread,
    Reads(
        read_thread, {"type": "string", "title": "thread", "examples": ["M10x1.5", "5/16-24 UNF", "1/4 BSF", "2 BA"]}
    ),
]

Feature: TypeAlias = Annotated[str, Reads(_feature, {"type": "string", "examples": ["bore", "old 1", "new 2"]})]
Length: TypeAlias = Annotated[Measure, quantity("length", 0.01, MOST_MM)]
Allowance: TypeAlias = Annotated[Measure, quantity("length", 0.0, MOST_MM)]
HoleSize: TypeAlias = Annotated[Measure, hole()]
Sheet: TypeAlias = Annotated[list[Measure], sheet_size()]
Position: TypeAlias = Annotated[Measure, quantity("length", -MOST_MM, MOST_MM)]
Angle: TypeAlias = Annotated[Measure, quantity("angle", -360.0, 360.0)]
Temperature: TypeAlias = Annotated[Measure, quantity("temperature", -50.0, 1200.0)]
Pressure: TypeAlias = Annotated[Measure, quantity("pressure", 0.001, 100.0)]
Stress: TypeAlias = Annotated[Measure, quantity("stress", 0.01, 5000.0)]
Modulus: TypeAlias = Annotated[Measure, quantity("stress", 100.0, 1e6)]
Expansion: TypeAlias = Annotated[Measure, quantity("expansion", 0.0, 1e-3)]
Volume: TypeAlias = Annotated[Measure, quantity("volume", 1.0, 1e7)]
Time: TypeAlias = Annotated[Measure, quantity("time", 0.1, 6000.0)]


ANY = "any"
"""of a key that is free: any of its choices"""


def key(
    says: str,
    example: object,
    *,
    default: Any = ...,  # noqa: ANN401
    assumed: str = "",
    designed: str = "",
    free: str = "",
) -> Any:  # noqa: ANN401
    """Describe a key: what it is, a right example, for a default where it comes from, or by what it is designed.

    A key with `free` is chosen, not measured, and advice may change it: to `ANY` of its choices, to values with commas
    between, up a range in steps (`0.20..0.75/0.01`), or to what a name of `parts.advising.stocked` finds for the job.
    What differs in an inch shop stands behind a bar.
    """
    extra: dict[str, Any] = {"example": example}
    told = (("assumed", assumed), ("designed", designed), ("free", free))
    extra |= {name: text for name, text in told if text}
    if designed:
        default = None if default is ... else default
    return Field(default=default, description=says, json_schema_extra=extra)


def tables_in(annotation: Any) -> Iterator[type[BaseModel]]:  # noqa: ANN401
    """Tables that a key may hold, by its annotation."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from tables_in(inner)
