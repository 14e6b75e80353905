"""The book of the job: every given and every size under one dotted name, with how it came about."""

from __future__ import annotations

import inspect
import re
from collections.abc import MutableMapping
from functools import lru_cache
from math import fsum, isfinite, sqrt
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from parts.errors import Fault, JobError
from parts.runtime.docstrings import docstring

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence

    from parts.job import Job
    from parts.job.instances import Instance

T = TypeVar("T")
DECIMALS = 9  # values enter the record rounded to 1e-9 of their unit, so that every processor writes the same bytes
FINER = 15  # what is given or printed holds no noise: an expansion of 1.15e-5 keeps its digits
TOLD = re.compile(r"\n\s+(\w+ = .+?)\n\s*\n.*Returns\n.*?\[([^\]]*)\].*?\.\. \[1\] (.+?)\s*$", re.DOTALL)


class Entry(NamedTuple):
    """One value and where it comes from."""

    value: Any
    unit: str
    status: str
    """given, assumed, published, memory, computed, designed or made"""
    source: str
    formula: str = "as given"
    inputs: Mapping[str, str | float] = MappingProxyType({})
    """argument -> a name in the book, or a plain number"""
    spread: float = 0.0
    """half width: of a reading, or of what the lathe can hold"""
    relation: Callable[..., Any] | None = None
    """the relation that gave it, None where the value stands by itself"""


@lru_cache(None)
def docstring_record(relation: Callable[..., Any]) -> tuple[str, str, str]:
    """Equation, unit and source in the words of the relation's own docstring."""
    found = TOLD.search(docstring(relation))
    if found is None:
        raise TypeError(f"{relation.__qualname__}: the docstring lacks an equation, a unit or a reference")
    equation, unit, source = (" ".join(part.split()) for part in found.groups())
    return equation, unit, source


class Book(dict[str, Entry]):
    """All values of one job. Sizing modules add to it; everything else reads from it."""

    def __init__(self) -> None:
        super().__init__()
        self.left_out: dict[str, list[str]] = {}
        self.comes_from: dict[str, str] = {}
        """a value that is no size of its own -> the key of the job file that would give it"""
        self.meant: dict[str, list[float]] = {}
        """least and greatest of what a word of the workshop stands for, of values that were taken by one"""
        self.made: dict[str, Entry] = {}
        """what was measured of the work stands in the place of what would be entered under its name"""
        self.plan: Book | None = None
        """the same job as it was meant, where something was measured of the work"""
        self.contact = True
        """also hold what is followed along the ring step by step"""
        self.cannot: list[Fault] = []
        """what can't be with the sizes as made; of a plan it is refused"""
        self._moved: dict[str, dict[str, float]] = {}

    def starts(self, job: Job) -> None:
        """Begin with the sizes of a job; a book of variants compares it with that of the first."""

    def watch(self, job: Job) -> Job:
        """Give the job to the sizing; a book of variants notes what is looked at."""
        return job

    def work(self, name: Hashable, step: Callable[[], T]) -> T:
        """Do a step of the sizing, or of the judging; a book of variants may know what comes of it."""
        del name
        return step()

    def other_than(self, other: Book) -> Iterable[str]:
        """Names of what another book does not have, or has otherwise."""
        return [name for name, entry in dict.items(self) if dict.get(other, name) is not entry]

    def enter(self, name: str, value: float, unit: str, status: str, source: str, *, spread: float = 0.0) -> None:
        """Put down a value that stands by itself: a given, an assumption, a figure from a table."""
        self[name] = self.made.get(name) or Entry(round(value, FINER), unit, status, source, spread=spread)

    def add(
        self,
        name: str,
        relation: Callable[..., Any],
        cut: float | None = None,
        status: str = "computed",
        /,
        **inputs: str | float,
    ) -> None:
        """Work out a size from names of the book, or leave it out where one of them is missing.

        Parameters
        ----------
        name : str
            The size's own dotted name
        relation : callable
            A documented function of plain numbers
        cut : float, optional
            The size is machined, and held to +- this [its unit]: its readings no longer move it
        status : str
            "computed", or "designed" for a key of the job file that was left out
        **inputs : str or float
            argument -> name in the book, or a plain number

        Raises
        ------
        JobError
            The inputs allow no such size; named with their values.
        """
        if name in self.made:
            self[name] = self.made[name]
            return
        try:
            values = {argument: self[n].value if isinstance(n, str) else n for argument, n in inputs.items()}
        except KeyError:
            self.left_out[name] = [n for n in inputs.values() if isinstance(n, str) and n not in self]
            return
        equation, unit, source = docstring_record(relation)
        try:
            value = self._worked_out(name, relation, values, inputs)
        except JobError:
            if self.plan is None:
                raise
            self.left_out[name] = list(self.made)  # what was made allows no such size: it is no fault of the file
            return
        self[name] = Entry(
            value, unit, status, source, equation, inputs, cut or 0.0, None if cut is not None else relation
        )

    def design(self, key: str, relation: Callable[..., Any], /, **inputs: str | float) -> None:
        """Work out a key of the job file that was left out; the readings that it rests on no longer move it."""
        if key not in self:
            self.add(key, relation, 0.0, "designed", **inputs)

    def remark(self, key: str, relation: Callable[..., Any], says: str) -> None:
        """Say behind the source of a designed value, which is that of its relation, what decided it."""
        source = docstring_record(relation)[2].rstrip(".")
        self[key] = self[key]._replace(source=f"{source}; {says}")

    def choose(self, key: str, name: str, source: str) -> None:
        """Put down a name that the job file left out: a material, a form, a fit."""
        self[key] = self.made.get(key) or Entry(name, "1", "designed", source, "by its name")

    def _worked_out(
        self, name: str, relation: Callable[..., Any], values: dict[str, float], inputs: Mapping[str, str | float]
    ) -> Any:  # noqa: ANN401 - a number, or a list of points
        try:
            value = relation(**values)
            value = round(value, DECIMALS) + 0.0 if type(value) is float else rounded(value)
        except (ValueError, ArithmeticError):
            value = float("nan")
        if isinstance(value, float) and not isfinite(value):
            given = ", ".join(f"{n} = {values[a]:g}" for a, n in inputs.items())
            raise JobError(Fault(self._given(inputs.values()), f"allows no {name}: {given}"))
        return value

    def _given(self, inputs: Iterable[str | float]) -> str:
        """Key of the job file that such inputs rest on, the nearest one that was given."""
        todo = dict.fromkeys(inputs)
        while todo:
            name = next(iter(todo))
            entry = self[name] if isinstance(name, str) else None
            if entry and entry.status == "given":
                return str(name).removeprefix("job.")
            del todo[name]
            todo |= dict.fromkeys(entry.inputs.values()) if entry else {}
        return ""

    def number(self, name: str | float) -> Any:  # noqa: ANN401
        """Return the value under a name, or the plain number itself."""
        return self[name].value if isinstance(name, str) else name

    def at(self, instance: Instance) -> Book:
        """The book as if an instance were the plain one of its kind: its sizes by the plain one's names."""
        return OwnBook(self, instance) if instance.name else self

    def real(self, name: str) -> str:
        """Name of a size in the whole book."""
        return name

    def local(self, name: str) -> str:
        """Name of a size in this view of it."""
        return name

    def is_of_another(self, name: str) -> bool:
        """Tell whether a size, by its name in this view, is of another instance of its kind."""
        del name
        return False

    @property
    def suffix(self) -> str:
        """What the names of an instance's files end in."""
        return ""

    def numbers(self, start: str, end: str = "x") -> Sequence[int]:
        """Numbers, from 1, of the sizes `start.1.end`, `start.2.end` and so on."""
        last = 0
        while f"{start}.{last + 1}.{end}" in self:
            last += 1
        return range(1, last + 1)

    def has(self, *names: str) -> bool:
        """Tell whether all of these names are in the book."""
        return all(name in self for name in names)

    def lacks(self, name: str, *needs: str) -> None:
        """Note a size that can't be had, and the names it would need."""
        self.left_out[name] = list(needs)

    def needs(self, name: str) -> list[str]:
        """Trace a left-out size back to what the user would have to give."""
        roots: dict[str, None] = {}
        for below in self.left_out.get(name, []):
            roots.update(dict.fromkeys(self.needs(below) or [self.comes_from.get(below, below)]))
        return list(roots)

    def rests_on(self, name: str, roots: Iterable[str]) -> bool:
        """Tell whether a size is one of these, or is worked out from one of them by any number of steps."""
        wanted, seen, todo = set(roots), set[str](), [name]
        while todo:
            one = todo.pop()
            if one in wanted:
                return True
            if one in self and one not in seen:
                todo += [n for n in self[one].inputs.values() if isinstance(n, str)]
            seen.add(one)
        return False

    def moved_by(self, name: str) -> dict[str, float]:
        """How far each reading's tolerance moves this size: chain rule, each step a central difference."""
        if name not in self._moved:
            self._moved[name] = self._chain(name)
        return self._moved[name]

    def _chain(self, name: str) -> dict[str, float]:
        entry, out = self[name], dict[str, float]()
        if entry.relation is None or not isinstance(entry.value, float):
            return {name: entry.spread} if entry.spread else {}
        here: dict[str, float] = {}
        for argument, below in entry.inputs.items():
            if isinstance(below, str) and (moving := self.moved_by(below)):
                here = here or {a: self.number(n) for a, n in entry.inputs.items()}
                slope = self._slope(entry.relation, here, argument)
                for reading, moved in moving.items():
                    out[reading] = out.get(reading, 0.0) + slope * moved
        return out

    @staticmethod
    def _slope(relation: Callable[..., float], here: dict[str, float], argument: str) -> float:
        step = 1e-6 * max(1.0, abs(here[argument]))
        up = relation(**{**here, argument: here[argument] + step})
        down = relation(**{**here, argument: here[argument] - step})
        return (up - down) / (2 * step)

    def spread(self, name: str) -> float:
        """Half width of a size: the readings behind it, as independent, added in squares."""
        moved_by = self.moved_by(name)
        return sqrt(fsum(moved * moved for moved in moved_by.values())) if moved_by else 0.0

    def limits(self, name: str) -> list[float] | None:
        """Lower and upper limit, or None where nothing is known to move the size."""
        half = self.spread(name)
        value = self[name].value
        return [round(value - half, DECIMALS), round(value + half, DECIMALS)] if half else None


class OwnBook(Book):
    """The book as an instance sees it: what is its own by the plain one's names, all else as it is."""

    def __init__(self, whole: Book, instance: Instance) -> None:
        dict.__init__(self)
        self.whole, self.instance = whole, instance

    def real(self, name: str) -> str:
        """Name of a size in the whole book."""
        return self.instance.real(name)

    def local(self, name: str) -> str:
        """Name of a size in this view of it."""
        return self.instance.local(name)

    def is_of_another(self, name: str) -> bool:
        """Tell whether a size, by its name in this view, is of another instance of its kind."""
        return self.instance.is_of_another(name)

    @property
    def suffix(self) -> str:
        """What the names of the instance's files end in."""
        return self.instance.suffix

    def _inputs(self, inputs: Mapping[str, str | float]) -> dict[str, Any]:
        return {a: self.real(n) if isinstance(n, str) else n for a, n in inputs.items()}

    def whole_names(self, value: Any) -> Any:  # noqa: ANN401
        """A name, or the names that an entry is worked out from, as the whole book has them."""
        if isinstance(value, Entry):
            return value._replace(inputs=self._inputs(value.inputs))
        return self.real(value) if isinstance(value, str) else value

    def _own(self, name: str) -> str:
        """Name that something is put down under; JobError where an instance bears the name of a size."""
        if any(step in self.instance.known for step in name.split(".")[1:2]):
            raise JobError(Fault(self.instance.kind, f"has a name that can't be: a size is called {name}"))
        return self.real(name)

    def watch(self, job: Job) -> Job:
        """As of the whole book."""
        return self.whole.watch(job)

    def work(self, name: Hashable, step: Callable[[], T]) -> T:
        """Do a step for this instance."""
        return self.whole.work((name, self.instance.kind, self.instance.name), step)

    def enter(self, name: str, value: float, unit: str, status: str, source: str, *, spread: float = 0.0) -> None:
        """As of the whole book."""
        self.whole.enter(self._own(name), value, unit, status, source, spread=spread)

    def add(
        self,
        name: str,
        relation: Callable[..., Any],
        cut: float | None = None,
        status: str = "computed",
        /,
        **inputs: str | float,
    ) -> None:
        """As of the whole book."""
        self.whole.add(self._own(name), relation, cut, status, **self._inputs(inputs))

    def lacks(self, name: str, *needs: str) -> None:
        """As of the whole book."""
        self.whole.lacks(self._own(name), *map(self.real, needs))

    def __getitem__(self, name: str) -> Entry:
        return self.whole[self.real(name)]

    def __setitem__(self, name: str, entry: Entry) -> None:
        self.whole[self._own(name)] = self.whole_names(entry)

    def __contains__(self, name: object) -> bool:
        return self.real(str(name)) in self.whole

    def __iter__(self) -> Iterator[str]:
        return map(self.local, self.whole)

    def __len__(self) -> int:
        return len(self.whole)

    def get(self, name: str, default: Any = None) -> Any:  # noqa: ANN401
        """Look a name up."""
        return self.whole.get(self.real(name), default)

    def keys(self) -> Any:  # noqa: ANN401
        """All names."""
        return dict.fromkeys(self).keys()

    def items(self) -> Any:  # noqa: ANN401
        """All names with their entries."""
        return {self.local(name): entry for name, entry in self.whole.items()}.items()

    def values(self) -> Any:  # noqa: ANN401
        """All entries."""
        return self.whole.values()

    def numbers(self, start: str, end: str = "x") -> Sequence[int]:
        """As of the whole book; of the new holes those that the stud stands in."""
        every = self.whole.numbers(self.real(start), end)
        mine = self.instance.holes if start == "deck.hole" else None
        return every if mine is None else [n for n in mine if n in every]

    def needs(self, name: str) -> list[str]:
        """As of the whole book."""
        return self.whole.needs(self.real(name))

    def rests_on(self, name: str, roots: Iterable[str]) -> bool:
        """As of the whole book."""
        return self.whole.rests_on(self.real(name), map(self.real, roots))

    def moved_by(self, name: str) -> dict[str, float]:
        """As of the whole book."""
        return self.whole.moved_by(self.real(name))

    @property
    def left_out(self) -> MutableMapping[str, list[str]]:  # type: ignore[override]
        """Sizes that can't be had, and the names they would need."""
        return Renamed(self.whole.left_out, self)

    @property
    def comes_from(self) -> MutableMapping[str, str]:  # type: ignore[override]
        """Values that are no sizes of their own, and the keys that would give them."""
        return Renamed(self.whole.comes_from, self)

    @property
    def meant(self) -> MutableMapping[str, list[float]]:  # type: ignore[override]
        """What words of the workshop stand for, by the names of this view."""
        return Renamed(self.whole.meant, self)

    @property
    def made(self) -> MutableMapping[str, Entry]:  # type: ignore[override]
        """What was measured of the work, by the names of this view."""
        return Renamed(self.whole.made, self)

    @property
    def plan(self) -> Book | None:  # type: ignore[override]
        """The same view of the job as it was meant."""
        return self.whole.plan.at(self.instance) if self.whole.plan is not None else None

    @property
    def contact(self) -> bool:  # type: ignore[override]
        """As of the whole book."""
        return self.whole.contact

    @property
    def cannot(self) -> list[Fault]:  # type: ignore[override]
        """As of the whole book."""
        return self.whole.cannot


class Renamed(MutableMapping[str, T]):
    """What the whole book holds beside its sizes, by the names of a view."""

    def __init__(self, whole: MutableMapping[str, T], view: OwnBook) -> None:
        self.whole, self.view = whole, view

    def __getitem__(self, name: str) -> T:
        return self.whole[self.view.real(name)]

    def __setitem__(self, name: str, value: T) -> None:
        self.whole[self.view.real(name)] = self.view.whole_names(value)

    def __delitem__(self, name: str) -> None:
        del self.whole[self.view.real(name)]

    def __iter__(self) -> Iterator[str]:
        """Names that lead back: what is of all instances together is none of this one's."""
        return (own for name in self.whole if self.view.real(own := self.view.local(name)) == name)

    def __len__(self) -> int:
        return sum(1 for _ in self)


def rounded(value: Any) -> Any:  # noqa: ANN401 - a number, or a list of points
    """Round a number, or all numbers of a list, for the record."""
    if isinstance(value, (list, tuple)):  # for every size: a union would be made anew each time
        return [rounded(v) for v in value]
    return round(float(value), DECIMALS) + 0.0  # no minus before a zero


def arguments(relation: Callable[..., Any]) -> list[str]:
    """Names of a relation's arguments."""
    return list(inspect.signature(relation).parameters)


def record(
    book: Book,
    names: Iterable[str] | None = None,
    limits: Callable[[str], list[float] | None] | None = None,
    ranges: Mapping[str, list[float]] = MappingProxyType({}),
) -> dict[str, dict[str, Any]]:
    """Sizes as they stand in sizes.json; without a word on limits, those that the readings leave."""
    limits = limits or book.limits
    return {
        name: {
            "value": entry.value,
            "unit": entry.unit,
            "limits": limits(name),
            **({"range": ranges[name]} if name in ranges else {}),
            "status": entry.status,
            "formula": entry.formula,
            "inputs": {a: input_record(book, n) for a, n in entry.inputs.items()},
            "source": entry.source,
        }
        for name, entry in ((n, book[n]) for n in (names or book))
    }


def input_record(book: Book, name: str | float) -> dict[str, Any]:
    """One input of a size: its name, value and unit; a plain number names itself."""
    if isinstance(name, str):
        return {"name": name, "value": book[name].value, "unit": book[name].unit}
    return {"name": f"{name:g}", "value": name, "unit": "1"}
