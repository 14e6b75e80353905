"""What the job file says is not known: taken out before the models read it, a usual range put where there is one.

So is what a key's default stands for: whoever leaves the friction away does not know it either.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple, get_args

from pydantic import BaseModel, ValidationError

from parts import units
from parts.job.fields import one_line, tables_in
from parts.job.material_models import MaterialSpec, by_name
from parts.tables import material_names
from parts.tables.unknown import (
    Kind,
    Range,
    family_range,
    friction_range,
    has_range,
    how_to_measure,
    usual_range,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pydantic.fields import FieldInfo

    from parts.job.lines import Path

UNKNOWN = "unknown"
BY_FAMILY = (
    "modulus", "poisson", "expansion", "yield_strength", "tensile_strength", "bending_strength", "bearing",
)  # fmt: skip
"""properties of a material that have a range by what metal it is"""
PRESSED = "plug.friction"


@dataclass
class NotKnown:
    """What of a job file is not known."""

    ranges: dict[Path, Range] = field(default_factory=dict)
    """what has a range, in the place of which a value is taken"""
    absent: dict[Path, str] = field(default_factory=dict)
    """what is as if it were not there, and how to measure it"""
    faults: list[tuple[Path, str]] = field(default_factory=list)

    def lacking(self, path: Path, says: str) -> tuple[Path, str]:
        """What is said of a key that is needed, and where; of one that is not known how it is measured."""
        begins = "is missing"
        for absent in self.absent:
            if absent[:-1] == path and says.startswith(f"wants {absent[-1]},"):
                path, begins = absent, f"wants {absent[-1]}, "
        if path in self.absent and says.startswith(begins):
            return path, f"can't be unknown, nothing goes without it: {says.removeprefix(begins).removeprefix(': ')}"
        return path, says


class _Key(NamedTuple):
    """What is to be known of a key to take it out."""

    table: type[BaseModel] | None
    is_name: bool
    says: str
    default: float | None
    """where it is a number"""


def is_unknown(value: object) -> bool:
    """Whether a value of the job file says that it is not known.

    >>> is_unknown("Unknown "), is_unknown("unknown iron")
    (True, False)
    """
    return isinstance(value, str) and len(value) <= units.LONGEST and value.strip().lower() == UNKNOWN


def without_unknown(
    raw: dict[str, Any], models: Mapping[str, type[BaseModel] | None]
) -> tuple[dict[str, Any], NotKnown]:
    """Take out of a job file's data what is not known, and put in the ranges.

    Parameters
    ----------
    raw : dict
        As the TOML parser gave it; or as this gave it before: ranges stay
    models : mapping
        Of each table that is looked at

    Returns
    -------
    data : dict
        A copy where anything was changed, with a Range in the place of each value that has one
    unknown : NotKnown
    """
    taker = _Taker(raw)
    data = {}
    for name, table in raw.items():
        if name not in models:
            data[name] = table
        elif is_unknown(table) and models[name] is not None:
            taker.out.absent[name,] = f"the table [{name}]"
        elif name == "made":
            data[name] = _known(table)
        else:
            data[name] = taker.inside(table, models[name], (name,))
    return data, taker.out


def _known(made: Any) -> Any:  # noqa: ANN401 - TOML data
    """Of what was measured of the work what is known: the rest is as if it had not been measured."""
    return {n: _known(v) for n, v in made.items() if not is_unknown(v)} if isinstance(made, dict) else made


class _Taker:
    """Goes through the data of one job file."""

    def __init__(self, raw: Mapping[str, Any]) -> None:
        self.raw, self.out = raw, NotKnown()
        self.kind = kind_of(raw)

    def inside(self, value: Any, model: type[BaseModel] | None, path: Path) -> Any:  # noqa: ANN401 - TOML data
        """A value without what is not known in it."""
        if isinstance(value, list):
            return [self.inside(one, model, (*path, n)) for n, one in enumerate(value)]
        if isinstance(value, dict) and model is not None:
            return self._table(value, model, path)
        return value

    def _table(self, raw: dict[str, Any], model: type[BaseModel], path: Path) -> dict[str, Any]:
        keys, out = _keys(model), dict[str, Any]()
        for name, value in raw.items():
            key, here = keys.get(name), (*path, name)
            if isinstance(value, Range):
                out[name] = self.out.ranges[here] = value
            elif not _has_unknown(value) or key is None:
                out[name] = self.inside(value, key.table if key else None, here)
            elif (put := self._unknown(value, key, here, raw)) is not None:
                out[name] = put
        for name in self._left_away(raw, model, path):
            if (found := self._range((*path, name), raw, keys[name].default)) is not None:
                out[name] = self.out.ranges[*path, name] = found
        return out

    def _unknown(self, value: object, key: _Key, path: Path, beside: dict[str, Any]) -> Any:  # noqa: ANN401
        """What stands in the place of a key that is not known; None: nothing."""
        if key.is_name:
            self.out.faults.append((path, f"is a name, which can't be unknown: {self._names(path, key)}"))
        elif key.table is not None and is_unknown(value) and (whole := _whole(key.table, plain(path))):
            return self._table(whole, key.table, path)
        elif is_unknown(value) and (found := self._range(path, beside, key.default)) is not None:
            self.out.ranges[path] = found
            return found
        else:
            self.out.absent[path] = how_to_measure(plain(path)) or key.says
        return None

    def _left_away(self, raw: dict[str, Any], model: type[BaseModel], path: Path) -> Iterator[str]:
        """Keys that are not there, and that are taken as unknown."""
        if model is MaterialSpec:
            named = raw.get("name") in material_names()
            yield from (n for n in BY_FAMILY if "family" in raw and not named and n not in raw)
            return
        keys = _keys(model)
        for name in _ranged(model, plain(path)):
            pressed = plain((*path, name)) != PRESSED or raw.get("fit") == "press"
            if name not in raw and keys[name].default is not None and pressed:
                yield name

    def _range(self, path: Path, beside: dict[str, Any], default: float | None) -> Range | None:
        """The usual range of a key, by what the file tells of the engine, and of the metals."""
        key = plain(path)
        if key == PRESSED and default is not None:
            own = (metal for metal in _metals(beside.get("material")) if metal != "steel")
            return friction_range({*self.kind.metals, *own}, default)
        if has_range(key) and (found := usual_range(key, self.kind, default=default, material=str(beside.get("name")))):
            return found
        if path[-1] in BY_FAMILY and beside.get("name") not in material_names():
            return family_range(_metals(beside), str(path[-1]), sheet="gasket" in path)
        return None

    def _names(self, path: Path, key: _Key) -> str:
        """What is possible for a name."""
        of = {("plug", "passage"): ("barrel", "passages"), ("mandrel", "ring"): ("ring",)}.get((path[0], path[-1]))  # type: ignore[arg-type]
        listed = _at(self.raw, *of) if of else None
        names = [one.get("name") for one in listed if isinstance(one, dict)] if isinstance(listed, list) else []
        return f"one of {', '.join(map(repr, names))}" if names else f"any words that tell it apart ({key.says})"


@lru_cache(None)
def _keys(model: type[BaseModel]) -> dict[str, _Key]:
    return {
        name: _Key(
            next(tables_in(info.annotation), None),
            _is_name(info),
            info.description or "",
            info.default if isinstance(info.default, float) else None,
        )
        for name, info in model.model_fields.items()
    }


def _is_name(info: FieldInfo) -> bool:
    """Whether a key holds words that tell one thing from another."""
    kinds = [info, *get_args(info.annotation)]
    found = (m for one in kinds for m in (*getattr(one, "metadata", ()), *getattr(one, "__metadata__", ())))
    return any(getattr(m, "func", None) is one_line for m in found)


@lru_cache(None)
def _ranged(model: type[BaseModel], start: str) -> tuple[str, ...]:
    return tuple(name for name in model.model_fields if has_range(f"{start}.{name}"))


def _whole(model: type[BaseModel], start: str) -> dict[str, str]:
    """A table of which nothing is known, where all that it needs has a usual range; else empty."""
    ranged = _ranged(model, start)
    needed = {name for name, info in model.model_fields.items() if info.is_required()}
    return dict.fromkeys(ranged, UNKNOWN) if needed and needed <= set(ranged) else {}


def plain(path: Path) -> str:
    """A key without the numbers of lists."""
    return ".".join(step for step in path if isinstance(step, str))


def _has_unknown(value: object) -> bool:
    """Whether a value, or any in a plain list, is not known: of a list all is taken out."""
    return any(map(_has_unknown, value)) if isinstance(value, list) else is_unknown(value)


def _at(raw: Any, *path: str) -> Any:  # noqa: ANN401 - TOML data
    for step in path:
        raw = raw.get(step) if isinstance(raw, dict) else None
    return raw


def kind_of(raw: Mapping[str, Any]) -> Kind:
    """What kind of engine it is."""
    cycle, bore = _at(raw, "engine", "cycle"), _at(raw, "engine", "bore")
    try:
        size = units.read(bore, "length")[0]
    except ValueError:
        size = None
    known = cycle if cycle in ("four-stroke", "two-stroke") else None
    return Kind(known, size, _metals(_at(raw, "barrel", "material")))


def _metals(material: Any) -> tuple[str, ...]:  # noqa: ANN401 - TOML data
    """Metals that a material could be; none where nothing is told of it."""
    if not isinstance(material, str | dict) or is_unknown(material):
        return ()
    table = by_name(material)
    values = {n: v for n, v in table.items() if not is_unknown(v)} if isinstance(table, dict) else {}
    try:
        return MaterialSpec.model_validate(values).families
    except ValidationError:
        return ()
