"""A job worked out with other values in the place of what is not known: each such state once.

What was designed with the values taken stays as it is: the part is cut so, whatever turns out to be true.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, TypeAlias

from parts.errors import JobError
from parts.job import load_data, read_tables
from parts.judging.finding import WORST
from parts.judging.findings import in_order
from parts.sizing import size
from parts.sizing.placing import placed
from parts.sizing.variant import FirstBook, VariantBook

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any

    from pydantic import BaseModel

    from parts.book import Book, Entry
    from parts.errors import Fault
    from parts.job import Job
    from parts.job.lines import Path
    from parts.judging.finding import Finding

    Key: TypeAlias = tuple[str, int]
    """name of a finding, and which of those of that name"""
    Target: TypeAlias = str | tuple[str, int, int]
    """a size; or of a finding how far it is past its caution, past its stop, and its verdict"""
    Setting: TypeAlias = Mapping[str, float]
    """values of what is not known, by its key; the others are as taken"""
    Place: TypeAlias = tuple[tuple[str, float], ...]
    """the same as a state is kept under"""

CAUTION, STOP, RANK = 0, 1, 2


@dataclass(frozen=True)
class State:
    """All sizes and verdicts, with such values."""

    book: Book
    found: dict[Key, Finding]
    refused: tuple[Fault, ...] = ()
    """why there are no sizes"""
    partial: bool = False
    """without what is followed along the ring, and so without the findings on that"""

    def tells(self, key: Key) -> bool:
        """Whether it tells of a finding, if only that there is none."""
        return key in self.found or not self.partial

    def rank(self, key: Key) -> int:
        """How bad a verdict is; of what is not found here as if it were in order."""
        return WORST[self.found[key].verdict] if key in self.found else 0

    @cached_property
    def numbers(self) -> dict[Target, float]:
        """Whatever can be more or less: sizes, and of each finding how far it is from turning."""
        return {**_sizes(dict(dict.items(self.book))), **_pasts(self.found)}

    def moved(self, base: State) -> dict[Target, float]:
        """Of its numbers those that are not as in another state; what is not found here is as if it were in order."""
        book = {n: dict.__getitem__(self.book, n) for n in self.book.other_than(base.book)}
        found = {key: f for key, f in self.found.items() if f is not (there := base.found.get(key)) and f != there}
        gone = [] if self.partial else [key for key in base.found if key not in self.found]
        numbers = _sizes(book) | _pasts(found)
        numbers |= {(name, number, RANK): 0.0 for name, number in gone}
        return {target: number for target, number in numbers.items() if base.numbers.get(target) != number}


def _sizes(book: Mapping[str, Entry]) -> dict[Target, float]:
    return {name: entry.value for name, entry in book.items() if type(entry.value) is float}


def _pasts(found: Mapping[Key, Finding]) -> dict[Target, float]:
    out: dict[Target, float] = {}
    for (name, number), finding in found.items():
        out[name, number, RANK] = WORST[finding.verdict]
        out |= {(name, number, end): past for end, past in enumerate(finding.past) if past is not None}
    return out


def first_book(job: Job) -> Book | None:
    """An empty book for a job of which something is not known: what its variants have in common is taken from it.

    None where there is nothing to vary, or where what was made may bear on anything. Of what was measured nothing is
    varied: the fits come out the same.
    """
    return FirstBook() if job.unknown and not job.made else None


def numbered(found: Sequence[Finding]) -> dict[Key, Finding]:
    """Findings by their names: of several of one name by their order too, which is that of the rules."""
    count, out = dict[str, int](), dict[tuple[str, int], "Finding"]()
    for finding in found:
        number = count.get(finding.name, 0)
        out[finding.name, number] = finding
        count[finding.name] = number + 1
    return out


@dataclass
class States:
    """The states of one job: as planned, or as it stands with what was made."""

    job: Job
    book: Book
    """of the job, sized with the values taken"""
    as_made: bool = False
    _known: dict[Place, State] = field(default_factory=dict)
    _tried: dict[tuple[str, float], State] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.places = {self.job.in_the_book(path): path for path in self.job.unknown}
        self.taken = {key: self.job.unknown[path].taken for key, path in self.places.items()}
        self._known[()] = self._state(self.job, self.book)

    @property
    def base(self) -> State:
        """With all values as taken."""
        return self._known[()]

    @property
    def known(self) -> list[tuple[Place, State]]:
        """All that were worked out so far, with what is other in them than taken."""
        return list(self._known.items())

    def at(self, setting: Setting) -> State:
        """The job with these values."""
        own = tuple(sorted((key, value) for key, value in setting.items() if value != self.taken[key]))
        if own not in self._known:
            self._known[own] = self._worked_out(dict(own), contact=self.book.contact)
        return self._known[own]

    def tried(self, key: str, value: float) -> State:
        """The job with another value of one unknown; the ring is not followed in its bore anew, that takes longest."""
        known = self._known.get(((key, value),))
        if known is None and (key, value) not in self._tried:
            self._tried[key, value] = replace(self._worked_out({key: value}, contact=False), partial=True)
        return known or self._tried[key, value]

    def _worked_out(self, setting: Setting, *, contact: bool) -> State:
        data = self.job.data
        for key, value in setting.items():
            data = with_taken(data, self.places[key], value)
        try:
            job = placed(load_data(data, kept=self._kept({str(self.places[key][0]) for key in setting})))
            book = size(job, contact=contact, book=self._variant())
        except JobError as error:
            return State(self.book, {}, error.faults)
        return self._state(job, book)

    def _variant(self) -> Book | None:
        if not isinstance(self.book, FirstBook):
            return None
        book = VariantBook(self.book)
        book.made = self._designed
        return book

    @cached_property
    def _designed(self) -> dict[str, Entry]:
        return {name: entry for name, entry in dict.items(self.book) if entry.status == "designed"}

    def _state(self, job: Job, book: Book) -> State:
        if not self.as_made:
            book = book.plan or book
        return State(book, numbered(in_order(book, job)))

    @cached_property
    def _tables(self) -> dict[str, BaseModel]:
        return read_tables(self.job.data)[0]

    def _kept(self, changed: set[str]) -> dict[str, Any]:
        """Tables as they were read, that no such value stands in; none where something was made: it is read anew."""
        if self.job.made is not None:
            return {}
        return {name: table for name, table in self._tables.items() if name not in changed}


def with_taken(data: Any, path: Path, value: float) -> Any:  # noqa: ANN401 - the data of a job file
    """Return the data of a job file with another value taken; what is not on its path is shared with the old."""
    if not path:
        return data.of(value)
    inside: Any = list(data) if isinstance(data, list) else dict(data)
    inside[path[0]] = with_taken(data[path[0]], path[1:], value)
    return inside
