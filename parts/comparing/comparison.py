"""What a comparison of jobs holds: of each job the sizes and findings that are other than in the first."""

from __future__ import annotations

from array import array
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any

from parts.judging.finding import WORST

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from parts.book import Book, Entry
    from parts.job import Job
    from parts.judging.finding import Finding


@dataclass(frozen=True, slots=True)
class Case:
    """One job among those that are compared; of its sizes and findings what is other than in the first."""

    name: str
    """the file, or the varied values"""
    given: tuple[str, ...] = ()
    """the varied values as written, one for each key"""
    sizes: Mapping[str, float | None] = field(default_factory=dict)
    """None where it has no such size"""
    found: Mapping[str, Finding | None] = field(default_factory=dict)
    """the worst finding of each name; of a variant in the words of the first that has all these verdicts"""
    units: Mapping[str, str] = field(default_factory=dict)
    """of sizes that the first does not have"""
    stops: int = 0
    cautions: int = 0
    left_out: Mapping[str, list[str]] = field(default_factory=dict)
    """all that could not be sized, and the keys that it needs"""
    refused: tuple[str, ...] = ()
    """why there can be no such job, a sentence a fault"""
    base: bool = False
    """the job as it stands, among its variants"""

    @property
    def verdict(self) -> str:
        """The worst word: refused, stop, caution or ok."""
        return "refused" if self.refused else "stop" if self.stops else "caution" if self.cautions else "ok"


@dataclass(frozen=True, slots=True)
class Comparison:
    """Jobs side by side."""

    title: str
    system: str
    """how sizes print: metric or inch"""
    cases: list[Case]
    sizes: dict[str, float]
    """of the first that is not refused, in the book's order"""
    found: dict[str, Finding]
    units: dict[str, str]
    keys: tuple[str, ...] = ()
    """that were varied; none where files are compared"""
    apart: bool = False
    """the job as it stands is none of the variants, and stands before them"""
    steps: bool = False
    """the last of the keys goes up in steps"""
    written: dict[str, list[str]] = field(default_factory=dict)
    """where files are compared: keys that are not written alike in all"""
    plain: Mapping[str, str] = field(default_factory=dict)
    """size of one of several of a kind -> its name as of the plain table"""

    @property
    def sized(self) -> list[Case]:
        """Those that are not refused."""
        return [case for case in self.cases if not case.refused]

    @property
    def tried(self) -> list[Case]:
        """All but the job as it stands, if that is none of the variants."""
        return self.cases[self.apart :]

    @property
    def stopped(self) -> bool:
        """Whether one of the files stops, or of variants every one that is not refused."""
        verdicts = [case.verdict for case in self.tried if not case.refused]
        return all(v == "stop" for v in verdicts) if self.keys else "stop" in verdicts

    def size(self, case: Case, name: str) -> float | None:
        """A size of one case, None where it has none."""
        return case.sizes[name] if name in case.sizes else self.sizes.get(name)

    def finding(self, case: Case, name: str) -> Finding | None:
        """The worst finding of a name in one case."""
        return case.found[name] if name in case.found else self.found.get(name)

    def verdict(self, case: Case, name: str) -> str:
        """Verdict of a finding in one case, empty where it has none."""
        finding = self.finding(case, name)
        return finding.verdict if finding else ""

    def differing(self) -> list[str]:
        """Names of the sizes that are not the same in all, in the book's order."""
        touched = {name for case in self.sized for name in case.sizes}
        return [name for name in self.units if name in touched]

    def changing(self) -> list[str]:
        """Names of the findings whose verdict is not the same in all, the worst first."""
        touched = dict.fromkeys(name for case in self.sized for name in case.found)
        verdicts = {name: {self.verdict(case, name) for case in self.sized} for name in touched}
        changing = [name for name, those in verdicts.items() if len(those) > 1]
        return sorted(changing, key=lambda name: -max(WORST.get(v, 0) for v in verdicts[name]))

    def left_out(self) -> dict[str, list[str]]:
        """What is left out in some and not in others, and the keys that it needs."""
        needs = {name: keys for case in self.sized for name, keys in case.left_out.items()}
        return {n: keys for n, keys in needs.items() if any(n not in case.left_out for case in self.sized)}

    def best(self) -> list[Case]:
        """Those with the fewest stops, and of these those with the fewest cautions."""
        fewest = min((case.stops, case.cautions) for case in self.sized)
        return [case for case in self.sized if (case.stops, case.cautions) == fewest]


class Moved(Mapping[str, "float | None"]):
    """Sizes by their names, which all that move the same hold once."""

    __slots__ = ("_at", "_values")

    def __init__(self, sizes: Mapping[str, float | None]) -> None:
        self._at = _places(tuple(sizes))
        floats = [value for value in sizes.values() if type(value) is float]
        whole = len(floats) == len(sizes)
        self._values: Sequence[float | None] = array("d", floats) if whole else tuple(sizes.values())

    def __getitem__(self, name: str) -> float | None:
        return self._values[self._at[name]]

    def __iter__(self) -> Iterator[str]:
        return iter(self._at)

    def __len__(self) -> int:
        return len(self._values)


@lru_cache(1024)
def _places(names: tuple[str, ...]) -> dict[str, int]:
    return {name: n for n, name in enumerate(names)}


class Shared:
    """Holds once what many cases have alike: a sweep may have a hundred thousand of them."""

    def __init__(self) -> None:
        self._held: dict[object, Any] = {}

    def of(self, case: Case) -> Case:
        """Return the case with its sizes packed, and of the rest what an earlier one had."""
        found = tuple((name, finding and finding.verdict) for name, finding in case.found.items())
        left_out = tuple((name, *needs) for name, needs in case.left_out.items())
        return replace(
            case,
            sizes=Moved(case.sizes),
            found=self._held.setdefault(("found", found), case.found),
            units=self._held.setdefault(("units", *case.units.items()), case.units),
            left_out=self._held.setdefault(("left out", left_out), case.left_out),
        )


@dataclass(frozen=True)
class Worked:
    """A job worked out: all its sizes, and the worst finding of each name."""

    job: Job
    book: Book
    found: list[Finding]

    @cached_property
    def sizes(self) -> dict[str, float]:
        """Every number of the book."""
        return {name: entry.value for name, entry in self.book.items() if not isinstance(entry.value, list)}

    @cached_property
    def entries(self) -> dict[str, Entry]:
        """The book as a plain table."""
        return dict(self.book.items())

    @cached_property
    def worst(self) -> dict[str, Finding]:
        """The worst finding of each name."""
        return {f.name: f for f in reversed(self.found)}  # they come the worst first

    def case(self, name: str, first: Worked, given: tuple[str, ...] = (), *, base: bool = False) -> Case:
        """Put down what is other than in the first."""
        counts = [f.verdict for f in self.found]
        moved = {
            n: e.value for n, e in self.book.items() if e is not first.entries.get(n) and not isinstance(e.value, list)
        }
        sizes = {n: value for n, value in moved.items() if first.sizes.get(n) != value}
        sizes |= dict.fromkeys(n for n in first.sizes if n not in self.book)
        return Case(
            name,
            given,
            sizes,
            other(self.worst, first.worst),
            {n: self.book[n].unit for n in sizes if n not in first.sizes},
            counts.count("stop"),
            counts.count("caution"),
            {n: self.book.needs(n) for n in self.book.left_out},
            base=base,
        )


def other(here: Mapping[str, Any], there: Mapping[str, Any]) -> dict[str, Any]:
    """What is not the same in both, as it is here; None where it is only there.

    >>> other({"a": 1, "b": 2, "c": 3}, {"a": 1, "b": 0, "d": 4})
    {'b': 2, 'c': 3, 'd': None}
    """
    changed = {name: value for name, value in here.items() if name not in there or there[name] != value}
    return changed | {name: None for name in there if name not in here}


def side_by_side(first: Worked, cases: list[Case], keys: tuple[str, ...] = ()) -> Comparison:
    """Gather cases about the first."""
    units = {name: first.book[name].unit for name in first.sizes}
    for case in cases:
        units |= {name: unit for name, unit in case.units.items() if name not in units}
    head = first.job.job
    plain = {name: one.local(name) for one in first.job.named() for name in units if one.local(name) != name}
    return Comparison(head.title, head.print_units, cases, first.sizes, first.worst, units, keys, plain=plain)
