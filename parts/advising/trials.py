"""Variants of a job, each judged whole: what would stand where some keys were other than they are."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from operator import attrgetter
from typing import TYPE_CHECKING, Any

from parts.advising.free import size_of
from parts.book import Book
from parts.checked import judged, lines_of
from parts.errors import JobError
from parts.job import load, load_data, read_data
from parts.job.kept import Kept
from parts.job.splices import with_value
from parts.judging.finding import WORST
from parts.sizing.variant import FirstBook, NextBook, VariantBook, bears_on_anything

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from parts.advising.free import Change
    from parts.judging.finding import Finding

    Name = tuple[str, bool | None, int]
    """of a finding, which way it is judged, as one size may have a least and a greatest, and its number among such"""

SLOW = ("ring", "mandrel", "clamp_plate")
"""tables that change how the ring presses, whose solution takes a tenth of a second"""


FAR = 3
"""changes between a design and what variants of it take over from, for it to be settled on too"""
ORDER = attrgetter("order")


class Design(tuple["Change", ...]):
    """Changes of a job, at most one of a key, in the order of the keys."""

    __slots__ = ()

    def and_(self, changes: Iterable[Change]) -> Design:
        """The design with further changes; of a key that is in it already, the further one counts."""
        by_key = {one.path: one for one in (*self, *changes)}
        return Design(sorted(by_key.values(), key=ORDER))

    def without(self, change: Change) -> Design:
        """The design less one change."""
        return Design(one for one in self if one.path != change.path)

    @property
    def slow(self) -> bool:
        """Whether it changes how the ring presses."""
        return any(one.path[0] in SLOW for one in self)


@dataclass(frozen=True)
class Outcome:
    """A variant as it was judged."""

    found: Mapping[Name, Finding]
    """the worst of each name"""

    @cached_property
    def ranks(self) -> dict[Name, int]:
        """Of those that are not ok: 1 a caution, 2 a stop."""
        return {name: WORST[f.verdict] for name, f in self.found.items() if f.verdict != "ok"}

    @cached_property
    def counts(self) -> tuple[int, int]:
        """Stops and cautions."""
        ranks = list(self.ranks.values())
        return ranks.count(2), ranks.count(1)

    def worse_than(self, other: Outcome) -> list[Name]:
        """What is a stop here, or a caution, and was not there."""
        return [name for name, rank in self.ranks.items() if rank > other.ranks.get(name, 0)]


def by_name(found: Iterable[Finding]) -> dict[Name, Finding]:
    """Findings by their names; those of one name as they stand, the worst first."""
    seen, out = dict[tuple[str, bool | None], int](), dict[tuple[str, bool | None, int], "Finding"]()
    for one in found:
        kind = one.name, one.least
        number = seen[kind] = seen.get(kind, -1) + 1
        out[*kind, number] = one
    return out


class Trials:
    """Judges variants of one job, each once: at the values taken, of what is not known.

    Parameters
    ----------
    text : str
        Of the job file
    told : callable, optional
        Is told how many were judged so far, after each

    Raises
    ------
    JobError
        The job file is wrong.
    """

    def __init__(self, text: str, told: Callable[[int], None] = lambda _: None) -> None:
        self._kept = Kept(read_data(text))
        self.raw = self._kept.data
        self.told = told
        self._whole = load(text)
        self._firsts: dict[bool, tuple[Book, dict[Name, Finding]]] = {}
        self._settled: dict[bool, dict[Design, Book]] = {False: {}, True: {}}
        self._known: dict[tuple[Design, bool], Outcome | None] = {}
        with lines_of(text):
            self.base = Outcome(self._first(contact=True)[1])

    def of(self, design: Design, *, contact: bool = True) -> Outcome | None:
        """Judge a variant.

        Parameters
        ----------
        design : Design
            What is other than in the job
        contact : bool
            Also how the ring presses; without it, findings on that are as in the job

        Returns
        -------
        outcome : Outcome or None
            None where there can be no such job, or what is judged of the job can't be judged of it
        """
        contact = contact or not design.slow
        if not design:
            return self.base
        if (design, contact) not in self._known:
            self._known[design, contact] = self._judged(design, contact=contact)
            self.told(len(self._known))
        return self._known[design, contact]

    def over_ranges(self, design: Design) -> Outcome | None:
        """Judge a variant over the whole range of what is not known; as `of` where all is known."""
        if not self.unknown:
            return self.of(design)
        try:
            return Outcome(by_name(judged(load_data(self.data(design))).now.findings))
        except JobError:
            return None

    def data(self, design: Iterable[Change]) -> dict[str, Any]:
        """Data of the job file with the changes."""
        raw = self._kept.given
        for one in design:
            raw = with_value(raw, one.path, one.value)
        return raw

    def _judged(self, design: Design, *, contact: bool) -> Outcome | None:
        try:
            job = self._kept.read(self.data(design))
            now = judged(job, contact=contact, book=self._book(design, contact=contact), ranges=False).now
        except JobError:
            return None
        found = by_name(now.findings)
        if not contact:
            closed = self._first(contact=False)[1]
            found |= {name: f for name, f in self.base.found.items() if name not in closed}
        lost = [name[0] for name in self.base.found if name not in found]
        return None if any(name in now.book.left_out for name in lost) else Outcome(found)

    def _first(self, *, contact: bool) -> tuple[Book, dict[Name, Finding]]:
        """The job as it stands: its book, from which variants take over what is as it was, and its findings."""
        if contact not in self._firsts:
            book = Book() if bears_on_anything(self._whole) else FirstBook()
            found = judged(self._whole, contact=contact, book=book, ranges=False).now.findings
            self._firsts[contact] = book, by_name(found)
        return self._firsts[contact]

    @property
    def unknown(self) -> bool:
        """Whether anything is not known that has a range."""
        return bool(self._whole.unknown)

    @property
    def system(self) -> str:
        """How the job's sheets print: metric or inch."""
        return self._whole.job.print_units

    @property
    def listed(self) -> bool:
        """Whether parts of a kind stand in a list."""
        return bool(self._whole.named())

    @property
    def made(self) -> bool:
        """Whether any of it is made already."""
        return bool(self._whole.made)

    def stands(self, change: Change) -> float | None:
        """How large what a change would change is, given or designed, as `size_of`; None of what is no number."""
        entry = self._first(contact=False)[0].get(f"job.{self._whole.in_the_book(change.path)}")
        if change.was is not None or entry is None or str(change.value).endswith(" d"):
            return size_of(change.was)
        return entry.value if isinstance(entry.value, float) and size_of(change.value) is not None else None

    def by_closed_form(self, name: Name) -> bool:
        """Whether a finding is told without solving how the ring presses."""
        return name in self._first(contact=False)[1]

    @property
    def unsolved(self) -> bool:
        """Whether something is wrong with how the ring presses."""
        return not all(map(self.by_closed_form, self.base.ranks))

    def settle(self, design: Design) -> None:
        """Let variants take over what is as it was from a design that was judged, where it is nearer than the job.

        Of one that changes how the ring presses, without that.
        """
        contact = not design.slow
        near, book = self._nearest(design, contact=contact)
        if isinstance(book, FirstBook) and len(set(near) ^ set(design)) >= FAR:
            book = NextBook(book)
            judged(self._kept.read(self.data(design)), contact=contact, book=book, ranges=False)
            self._settled[contact][design] = book

    def _nearest(self, design: Design, *, contact: bool) -> tuple[Design, Book]:
        """Of the job and what it settled on the one that is least unlike a design."""
        first = Design(), self._first(contact=contact)[0]
        return min([first, *self._settled[contact].items()], key=lambda one: len(set(one[0]) ^ set(design)))

    def _book(self, design: Design, *, contact: bool) -> Book:
        book = self._nearest(design, contact=contact)[1]
        return VariantBook(book) if isinstance(book, FirstBook) else Book()
