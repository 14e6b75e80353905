"""Which keys of a job are chosen, and the changes that each may take: as the key's own line in the models says."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal, get_args, get_origin

from parts.advising.stocked import NAMED, Around
from parts.comparing.sweep import read_varied
from parts.errors import Fault, JobError
from parts.job import TABLES, dotted, toml
from parts.job.fields import ANY
from parts.job.instances import LISTS
from parts.job.schema import table_in
from parts.units import INCH, QUANTITY, number, stripped

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pydantic import BaseModel
    from pydantic.fields import FieldInfo

    from parts.job.lines import Path

CUT = {
    "deck": ("head", "barrel"),
    "insert": ("stud",),
    "strip": ("stud",),
    "joint": ("stud",),
    "mandrel": ("mandrel", "ring"),
}
"""beginning of a made size's name -> tables of what was cut; else the table of that name"""
IN = {"in": INCH, "thou": INCH / 1000, "um": 0.001, "hour": 60.0}
"""unit -> how many of the others that one key may have"""


@dataclass(frozen=True, order=True)
class Change:
    """One key of a job and what it would be."""

    order: tuple[int, int]
    """of the key among the free ones, of the value among its own by how far it is from what stands there"""
    path: Path = field(compare=False)
    value: Any = field(compare=False)
    """as the TOML parser would give it"""
    was: Any = field(compare=False)
    """None where the key is not given"""

    @property
    def key(self) -> str:
        """As the contract names keys."""
        return dotted(self.path)

    def __hash__(self) -> int:
        """By its place in the order."""
        return hash(self.order)


def free_changes(raw: dict[str, Any], keep: Sequence[str] = ()) -> dict[str, list[Change]]:
    """Find every free key of a job, with the changes it may take, the smallest first.

    Parameters
    ----------
    raw : dict
        Data of a job file that was read and is right
    keep : sequence of str
        Keys that are to stay as they are

    Raises
    ------
    JobError
        A key to keep is none of the free ones.
    """
    cut = _cut(raw.get("made", {}))
    keys = [(around, info) for around, info in _free_keys(raw) if around.path[0] not in cut]
    found = {dotted(around.path): list(_ordered(n, around, info)) for n, (around, info) in enumerate(keys)}
    free = {key: changes for key, changes in found.items() if changes}
    for key in keep:
        if key not in free:
            others = f"free are {', '.join(free)}" if free else "no key of this job is"
            raise JobError(Fault("--keep", f"{key} is not free, it stays as it is anyway; {others}"))
    return {key: changes for key, changes in free.items() if key not in keep}


def _cut(made: dict[str, Any]) -> set[str]:
    """Tables of parts of which something is made already."""
    starts = [name.removeprefix("job.").partition(".")[0] for name in _names(made)]
    return {table for start in starts for table in CUT.get(start, (start,))}


def _names(made: dict[str, Any], before: str = "") -> Iterator[str]:
    for key, held in made.items():
        yield from _names(held, f"{before}{key}.") if isinstance(held, dict) else [f"{before}{key}"]


def _free_keys(raw: dict[str, Any]) -> Iterator[tuple[Around, FieldInfo]]:
    for name, model in TABLES.items():
        held = raw.get(name)
        if isinstance(held, list):
            for n, one in enumerate(held):
                yield from _free_in(raw, (name, n), LISTS[name], one)
        elif held is not None:
            yield from _free_in(raw, (name,), model, held)


def _free_in(raw: dict[str, Any], path: Path, model: type[BaseModel], held: Any) -> Iterator[tuple[Around, FieldInfo]]:  # noqa: ANN401
    for key, info in model.model_fields.items():
        inner, here = table_in(info), (*path, key)
        below = held.get(key)
        if _free(info) and not (inner and isinstance(below, dict) and _keyed(inner)):
            yield Around(raw, here, held), info
        elif inner and isinstance(below, dict):
            yield from _free_in(raw, here, inner, below)
        elif inner and isinstance(below, list):
            for n, one in enumerate(below):
                if isinstance(one, dict):
                    yield from _free_in(raw, (*here, n), inner, one)


def _keyed(model: type[BaseModel]) -> bool:
    """Whether a table has free keys of its own."""
    return any(_free(info) for info in model.model_fields.values())


def _free(info: FieldInfo) -> str:
    extra = info.json_schema_extra
    return str(extra.get("free", "")) if isinstance(extra, dict) else ""


def _values(around: Around, info: FieldInfo) -> list[Any]:
    """Values that a key may take."""
    metric, _, inch = _free(info).partition("|")
    text = inch if around.inch and inch else metric
    if text == ANY:
        return _choices(info.annotation)
    if text in NAMED:
        return NAMED[text](around)
    return list(read_varied(f"{dotted(around.path)}={text}").values)


def _choices(annotation: Any) -> list[Any]:  # noqa: ANN401
    if annotation is bool:
        return [False, True]
    if get_origin(annotation) is Literal:
        return list(get_args(annotation))
    return next((found for inner in get_args(annotation) if (found := _choices(inner))), [])


def _ordered(place: int, around: Around, info: FieldInfo) -> Iterator[Change]:
    """Changes of one key, those of numbers by how far they go, others as they are listed."""
    was = around.held.get(str(around.path[-1]))
    stands = info.default if was is None and isinstance(info.default, str | int | float) else was
    here = size_of(stands)
    values = [value for value in _values(around, info) if not _same(value, stands)]
    others = sorted(values, key=lambda v: 0.0 if here is None or (n := size_of(v)) is None else abs(n - here))
    for rank, value in enumerate(others):
        yield Change((place, rank), around.path, value, was)


def _same(one: Any, other: Any) -> bool:  # noqa: ANN401
    ours, theirs = size_of(one), size_of(other)
    return toml(one) == toml(other) or (ours is not None and ours == theirs)


def size_of(value: Any) -> float | None:  # noqa: ANN401
    """How large a value is in its own unit's millimetres, diameters or plain numbers, to tell far from near."""
    if isinstance(value, int | float):
        return float(value)
    found = QUANTITY.fullmatch(stripped(value)) if isinstance(value, str) else None
    unit = (found[2] or found[4]) if found else None
    return round(number(found[1]) * IN.get(str(unit), 1.0), 9) if found and unit else None
