"""Variants of a job: what a variant has in common with the first of them is taken over, not worked out again.

The book of the first notes what each step of the sizing and of the judging looks at, keys of the job and sizes, and
what it puts down. In a variant a step that looks at nothing new is taken over whole, and of the other steps each size
whose inputs are as they were. Nothing is guessed: whatever may be other than in the first counts as new until it was
found to be the same.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, TypeVar, cast

from parts.book import Book, Entry
from parts.fixtures import fixtures_of
from parts.job import TABLES
from parts.job.designed import SETTLED
from parts.job.instances import JOINTS
from parts.sizing.placing import drawn_shapes

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable, Iterator

    from parts.job import Job

    Asked = tuple[Callable[..., object], float | None, dict[str, str | float]]
    """relation, cut and inputs of a size"""

T = TypeVar("T")
K = TypeVar("K")
INSTANCES = ("at", "instances", "listed", "named", "of_hole", "old", "others", "whole")
"""what a job tells of its instances"""
TABLES_OF = {
    "stud": ("[stud]", *(f"[{table}]" for table in fixtures_of("stud"))),
    "plug": ("[plug]",),
    "ring": ("[ring]", "[mandrel]", *(f"[{table}]" for table in fixtures_of("ring"))),
    "old": ("[barrel].old_holes",),
    **dict.fromkeys(JOINTS, ("[base]", "[stud]")),
}
"""kind of instance -> what in a job tells of them"""
PLAIN = ("stud", "plug", "ring")
"""kinds of which nothing is told but their tables, by their keys, where there is no list"""
JOINED = ("[base]", "[barrel]", "[engine]", "[gasket]", "[head]", "[stud]")
"""tables that the joint on the crankcase takes the place of others from"""
ALL = "*"
"""looked at: every name there is"""


def bears_on_anything(job: Job) -> bool:
    """Whether a job has what may bear on any size: what was made or measured, or a drawing that its holes place."""
    return bool(job.made or job.measured) or any(shape.waits for _, shape in drawn_shapes(job))


def differing(job: Job, first: Job) -> set[str]:
    """What is other than in the first job, as it is looked at: tables, their keys, which of them are given."""
    ours, theirs = job.data, first.data
    keys = {
        (name, key)
        for name in ours.keys() | theirs.keys()
        if ours.get(name) != theirs.get(name)
        for key in _unlike(_keys_of(ours.get(name)), _keys_of(theirs.get(name)))
    }
    keys |= _unlike(_settled(job), _settled(first))
    keys |= {
        (name, key) for name in TABLES if _lacks(job, name) != _lacks(first, name) for key in TABLES[name].model_fields
    }
    return {
        looked_at for name, key in keys for looked_at in (f"[{name}]", f"[{name}].{key}", f"[{name}].model_fields_set")
    }


def _keys_of(table: Any) -> dict[str, Any]:  # noqa: ANN401 - TOML data
    """What stands under each key of a table, of all in a list."""
    if not isinstance(table, list):
        return table if isinstance(table, dict) else {}
    return {key: [one.get(key) for one in table] for key in dict.fromkeys(key for one in table for key in one)}


def _settled(job: Job) -> dict[tuple[str, str], list[Any]]:
    """Names that the rest of the file settles, by table and key."""
    listed = [one.tables for one in job.named()]
    tables = {name: [getattr(job, name), *(own.get(name) for own in listed)] for name, _, _ in SETTLED}
    return {(name, key): [getattr(table, key, None) for table in tables[name]] for name, key, _ in SETTLED}


def _lacks(job: Job, name: str) -> bool:
    return getattr(job, name) is None


def _unlike(one: dict[K, Any], other: dict[K, Any]) -> set[K]:
    """Keys that stand in one alone, or have another value there."""
    return {key for key in one.keys() | other.keys() if key not in one or key not in other or one[key] != other[key]}


@dataclass
class Done:
    """What a step looked at, and what came of it."""

    looked_at: set[str] = field(default_factory=set)
    own: set[str] = field(default_factory=set)
    """looked for in vain, and then put down by itself"""
    put: dict[str, Entry] = field(default_factory=dict)
    left_out: dict[str, list[str]] = field(default_factory=dict)
    comes_from: dict[str, str] = field(default_factory=dict)
    result: Any = None


class _Watched:
    """A job, or one of its tables, that notes which keys are looked at."""

    def __init__(self, of: object, looked_at: Callable[[str], None], table: str = "") -> None:
        self._of, self._looked_at, self._table = of, looked_at, table

    def __getattr__(self, key: str) -> object:
        value = getattr(self._of, key)
        if not self._table and key in INSTANCES:
            return self._of_instances(key, value)
        if self._table:
            self._looked_at(f"{self._table}.{key}")
        elif value is None:
            self._looked_at(f"[{key}]")
        return _Watched(value, self._looked_at, f"[{key}]") if not self._table and key in TABLES and value else value

    def _of_instances(self, key: str, value: Any) -> object:  # noqa: ANN401
        """What tells of instances rests on the tables of their kind; a job as one of them sees it is watched too.

        A plain table is one instance, whatever stands in it.
        """
        if key == "at":
            return lambda one: _Watched(value(one), self._looked_at)
        if key in ("instances", "listed"):
            return lambda kind: self._by_kind(kind, value)
        if key == "whole":
            self._looked_at(ALL)
        for kind in ("old",) if key == "old" else ("stud",) if key == "of_hole" else TABLES_OF:
            self._by_kind(kind, str)
        return value

    def _by_kind(self, kind: str, value: Callable[[str], T]) -> T:
        job = cast("Job", self._of)
        if kind not in PLAIN or job.listed(kind) or not job.instances(kind):
            for table in TABLES_OF[kind]:
                self._looked_at(table)
        return value(kind)


class FirstBook(Book):
    """The book of the first of many variants: notes what each step looked at."""

    def __init__(self) -> None:
        super().__init__()
        self.step = Done()
        self.steps: dict[Hashable, Done] = {}
        self.asked: dict[str, Asked] = {}

    def starts(self, job: Job) -> None:
        """Keep the job, for its variants."""
        self.job = job

    def watch(self, job: Job) -> Job:
        """Give the job as one that notes what is looked at."""
        joined = job.seen_by is not None and job.seen_by.kind in JOINTS
        return cast("Job", _Watched(job, self._look_at_joined if joined else self._look))

    def work(self, name: Hashable, step: Callable[[], T]) -> T:
        """Do a step, and note what it looked at."""
        self.step = self.steps[name] = Done()
        left_out, comes_from = dict(self.left_out), dict(self.comes_from)
        self.step.result = result = step()
        self.step.left_out = {n: v for n, v in self.left_out.items() if left_out.get(n) is not v}
        self.step.comes_from = {n: v for n, v in self.comes_from.items() if comes_from.get(n) is not v}
        self.step = Done()
        return result

    def add(
        self,
        name: str,
        relation: Callable[..., object],
        cut: float | None = None,
        status: str = "computed",
        /,
        **inputs: Any,  # noqa: ANN401
    ) -> None:
        """Note how the size was asked for."""
        self.asked[name] = (relation, cut, inputs)
        super().add(name, relation, cut, status, **inputs)

    def _look(self, name: str) -> None:
        if name not in self.step.put:  # what it put down itself is no news to it
            self.step.looked_at.add(name)

    def _look_at_joined(self, name: str) -> None:
        for one in (name, *JOINED):
            self._look(one)

    def __setitem__(self, name: str, entry: Entry) -> None:
        if name in self.step.looked_at and not dict.__contains__(self, name):
            self.step.looked_at.remove(name)
            self.step.own.add(name)
        self.step.put[name] = entry
        super().__setitem__(name, entry)

    def __getitem__(self, name: str) -> Entry:
        self._look(name)
        return super().__getitem__(name)

    def __contains__(self, name: object) -> bool:
        self._look(str(name))
        return super().__contains__(name)

    def get(self, name: str, default: Any = None) -> Any:  # noqa: ANN401
        """Look a name up."""
        self._look(name)
        return super().get(name, default)

    def __iter__(self) -> Iterator[str]:
        self.step.looked_at.add(ALL)
        return super().__iter__()

    def keys(self) -> Any:  # noqa: ANN401
        """Look at all names."""
        self.step.looked_at.add(ALL)
        return super().keys()

    def items(self) -> Any:  # noqa: ANN401
        """Look at everything."""
        self.step.looked_at.add(ALL)
        return super().items()

    def values(self) -> Any:  # noqa: ANN401
        """Look at everything."""
        self.step.looked_at.add(ALL)
        return super().values()

    def needs(self, name: str) -> list[str]:
        """Look at what is left out."""
        self.step.looked_at.add(ALL)
        return super().needs(name)

    def moved_by(self, name: str) -> dict[str, float]:
        """Look at a size; what it rests on is other only where the size is."""
        self._look(name)
        step, self.step = self.step, Done()
        moved = super().moved_by(name)
        self.step = step
        return moved


class VariantBook(Book):
    """The book of a variant.

    Parameters
    ----------
    first : FirstBook
        Book of the first, sized in the same way
    """

    def __init__(self, first: FirstBook) -> None:
        super().__init__()
        self.first = first
        self.new = {ALL, *first}
        """what is not, or not yet, as in the first"""

    def starts(self, job: Job) -> None:
        """Find what the job has otherwise than the first."""
        self.new.update(differing(job, self.first.job))
        super().starts(job)

    def work(self, name: Hashable, step: Callable[[], T]) -> T:
        """Take a step over where what it looks at is as it was, else do it."""
        there = self.first.steps.get(name)
        if there is None or not self.new.isdisjoint(there.looked_at):
            return super().work(name, step)
        if there.own and not dict.keys(self).isdisjoint(there.own):
            return super().work(name, step)
        if there.put or there.left_out or there.comes_from:  # not so of what only judges
            self.update(there.put)
            self.new.difference_update(there.put)
            self.left_out.update(there.left_out)
            self.comes_from.update(there.comes_from)
        result: T = there.result
        return result

    def add(
        self,
        name: str,
        relation: Callable[..., object],
        cut: float | None = None,
        status: str = "computed",
        /,
        **inputs: Any,  # noqa: ANN401
    ) -> None:
        """Take a size over where it was asked for alike and its inputs are as they were, else work it out."""
        there = dict.get(self.first, name)
        if (
            there is not None
            and self.new.isdisjoint(inputs.values())
            and self.first.asked.get(name) == (relation, cut, inputs)
        ):
            super().__setitem__(name, there)
            self.new.discard(name)
            self.took(name, (relation, cut, inputs))
        else:
            super().add(name, relation, cut, status, **inputs)

    def took(self, name: str, asked: Asked) -> None:
        """Take note of a size that is taken over; of no use but to the first of others."""

    def __setitem__(self, name: str, entry: Entry) -> None:
        """Put an entry down; one that stands by itself and is as in the first is that one."""
        there = dict.get(self.first, name)
        if there is not None and entry.relation is None and entry == there:
            self.new.discard(name)
            super().__setitem__(name, there)
        else:
            self.new.add(name)
            super().__setitem__(name, entry)

    def other_than(self, other: Book) -> Iterable[str]:
        """Names of what is otherwise there: of the first, and of what has it in common, only what is new can be."""
        if other is not self.first and not (isinstance(other, VariantBook) and other.first is self.first):
            return super().other_than(other)
        new = self.new | other.new if isinstance(other, VariantBook) else self.new
        return [n for n in new if (entry := dict.get(self, n)) is not None and dict.get(other, n) is not entry]

    def moved_by(self, name: str) -> dict[str, float]:
        """How far each reading's tolerance moves this size: known where the size was taken over."""
        if name not in self._moved and self[name] is dict.get(self.first, name):
            self._moved[name] = Book.moved_by(self.first, name)  # no step of the first's looks at it
        return super().moved_by(name)


class NextBook(VariantBook, FirstBook):
    """The book of a variant that is itself the first of others: what it takes over is noted as if it were new."""

    def work(self, name: Hashable, step: Callable[[], T]) -> T:
        """Take a step over with what the first noted of it, else do it and note."""
        result = super().work(name, step)
        if name not in self.steps:
            self.steps[name] = there = self.first.steps[name]
            self.asked |= {one: self.first.asked[one] for one in there.put if one in self.first.asked}
        return result

    def took(self, name: str, asked: Asked) -> None:
        """Note how the size was asked for, and that its inputs were looked at."""
        for one in asked[2].values():
            self._look(str(one))
        self.asked[name] = asked
