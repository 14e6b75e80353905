"""How a job stands that is not complete yet: what can be judged is, what `check` would refuse is said beside it.

A fault takes the deepest thing that is there out of the data that is judged: a value that can't be, or the table that
lacks a key; then the rest is read again, by the same reader and the same sizing as ever.
"""

from __future__ import annotations

from copy import deepcopy
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from parts.asking.answers import path_of
from parts.asking.places import at
from parts.checked import Checked, judged
from parts.errors import Fault, JobError
from parts.job import TABLES, load_data
from parts.job.unknown import is_unknown, without_unknown
from parts.job_text import carried
from parts.register import pieces, wanted
from parts.sheets.page.plan import plan_so_far
from parts.sheets.page.words import Words
from parts.sizing import size

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Mapping
    from typing import TypeVar

    from parts.asking.questions import Question
    from parts.job.lines import Path

    T = TypeVar("T")

FOR_THE_PLAN: dict[
    str, dict[str, Any]
] = {  # table -> keys that show on the plan, and what stands in for one that the reader wants: never judged
    "job": {"print_units": None},
    "engine": {"bore": None},
    "barrel": {"material": "EN-GJL-250", "outline": None, "old_holes": None, "passages": None},
    "head": {"holes": None, "hole_diameter": None, "joint_face": None},
}
STANDS_IN = "5 mm"
"""diameter on the plan of a hole that nobody has measured yet"""


@dataclass(frozen=True)
class Standing:
    """How a job stands."""

    raw: dict[str, Any]
    """the file's data"""
    faults: tuple[Fault, ...] = ()
    """all that `check` would say to it"""
    done: Checked | None = None
    """what can be judged of it"""
    make: tuple[str, ...] = field(default=())
    """stems of the parts that are asked for"""
    ranged: bool = True
    """judged over the whole range of what is not known, not just at the values taken"""
    left_out: tuple[Path, ...] = ()
    """what was taken out of the data to judge the rest"""

    @property
    def wrong(self) -> list[Fault]:
        """Faults in what is there, not of what is still to be given."""
        return [fault for fault in self.faults if is_wrong(fault, self.raw)]

    @property
    def ready(self) -> tuple[str, ...]:
        """Stems of the parts that can be made of what can be judged."""
        if not self.done:
            return ()
        found: dict[str, list[bool]] = {}
        for piece in pieces(self.done.job):
            found.setdefault(piece.part.stem, []).append(piece.stem in self.done.shapes)
        return tuple(stem for stem in self.make if all(found.get(stem, [False])))

    @property
    def known(self) -> dict[str, Any]:
        """The file's data without what is wrong in it, and what is said not to be known and has no usual range."""
        return without_unknown(self.sound, TABLES)[0]

    @property
    def sound(self) -> dict[str, Any]:
        """The file's data without what is wrong in it."""
        data = deepcopy(self.raw)
        for fault in self.wrong:
            _take_out(data, path_of(fault.key))
        return data


def standing(raw: dict[str, Any], *, ranges: bool = False) -> Standing:
    """Read, size, judge and shape as much of a job as can be; `ranges` as in `judged`, which takes longer."""
    done, faults, gone = _as_far(raw, lambda data: judged(load_data(data), ranges=ranges))
    return Standing(raw, faults, done, wanted(raw), ranges or not (done and done.job.unknown), gone)


def _as_far(
    raw: Mapping[str, Any], work: Callable[[dict[str, Any]], T]
) -> tuple[T | None, tuple[Fault, ...], tuple[Path, ...]]:
    """Do a work on a job's data without what it refuses; what came of it, every fault, and what was taken out."""
    data, faults = deepcopy(dict(raw)), dict[Fault, None]()
    gone: set[Path] = set()
    while data:
        try:
            whole = [path for path in gone if not any(path[:n] in gone for n in range(1, len(path)))]
            return work(data), tuple(faults), tuple(sorted(filter(None, whole), key=str))
        except JobError as error:
            new = [fault for fault in error.faults if path_of(fault.key) not in gone]
            faults |= dict.fromkeys(fault for fault in new if not _robbed(path_of(fault.key), gone))
            taken = {_take_out(data, path_of(fault.key)) for fault in new or error.faults}
            if not any(taken):
                break
            gone |= taken
    return None, tuple(faults), ()


def _robbed(path: Path, gone: Collection[Path]) -> bool:
    """Whether something was taken out of a place: what that lacks now was told with it."""
    return any(len(path) < len(one) and one[: len(path)] == path for one in gone)


def _take_out(data: dict[str, Any], path: Path) -> Path:
    """Take the deepest thing out that is there; an entry of a list goes with its list, whose numbers would shift."""
    while path and (isinstance(path[-1], int) or _at(data, path) is None):
        path = path[:-1]
    if path:
        _at(data, path[:-1]).pop(path[-1])
    return path


def _at(data: dict[str, Any], path: Path) -> Any:  # noqa: ANN401 - TOML data
    return at(data, ".".join(map(str, path))) if path else data


def is_wrong(fault: Fault, raw: object) -> bool:
    """Tell a fault in a value that is there from one about what is still lacking."""
    there = at(raw, fault.key)
    lacks = there is None or is_unknown(there) or isinstance(there, dict)
    return not lacks and not (isinstance(there, list) and "." not in fault.key)


def refused(before: Standing, after: Standing, asked: Iterable[Question]) -> list[Fault]:
    """What answers make wrong that was not wrong before; then they are not to be written.

    Of a question that opens a table, what that lacks yet is not wrong.
    """
    own = {one.key for one in asked if one.kind != "yes" and not is_unknown(at(after.raw, one.key))}
    new = [fault for fault in after.faults if fault not in before.faults]
    return [fault for fault in new if fault.key in own or is_wrong(fault, after.raw)]


# the plan -------------------------------------------------------------------------------------------------------------


def plan(raw: Mapping[str, Any]) -> str:
    """The deck as far as it is known, as an SVG element; empty where nothing of it is."""
    return _plan(Raw({table: _for_the_plan(raw, table) for table in FOR_THE_PLAN}))


class Raw(dict[str, Any]):
    """Data that are told apart by what they hold, and by what their drawings do."""

    def __eq__(self, other: object) -> bool:
        """Tell whether all is the same."""
        return super().__eq__(other) and carried(self) == carried(other)

    def __hash__(self) -> int:  # type: ignore[override]
        """Of equal data equal."""
        return hash(repr(self))


@lru_cache(4)
def _plan(data: Raw) -> str:
    words, *_ = _as_far(data, _words)
    return plan_so_far(words) if words else ""


def _words(data: dict[str, Any]) -> Words:
    job = load_data(data)
    return Words(size(job, contact=False), job)


def _for_the_plan(raw: Mapping[str, Any], table: str) -> dict[str, Any]:
    given = raw.get(table)
    shown = (
        {key: given.get(key, usual) for key, usual in FOR_THE_PLAN[table].items()} if isinstance(given, dict) else {}
    )
    return {key: _with_diameter(key, value) for key, value in shown.items() if value is not None}


def _with_diameter(key: str, value: Any) -> Any:  # noqa: ANN401
    """Holes of the barrel with a diameter, where none was measured yet."""
    if isinstance(value, list):
        return [_with_diameter(key, one) for one in value]
    wants = key in ("old_holes", "passages") and isinstance(value, dict)
    return {"diameter": STANDS_IN, **({"name": "passage"} if key == "passages" else {}), **value} if wants else value
