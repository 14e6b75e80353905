"""A job judged over the whole range of what is not known: ranges of sizes, findings that say where they turn."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from parts.book import DECIMALS
from parts.job.schema import described
from parts.job.unknown import plain
from parts.judging.finding import NOT_JUDGED, WORST, Finding
from parts.judging.findings import worst_first
from parts.tables.unknown import how_to_measure
from parts.unknowns.preload import crossed, moved, rooms
from parts.unknowns.search import Search
from parts.unknowns.states import States
from parts.unknowns.turns import turns
from parts.unknowns.unknown import Unknown
from parts.unknowns.words import at_worst, holds, joined

if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from parts.book import Book, Entry
    from parts.job import Job
    from parts.unknowns.states import Key
    from parts.unknowns.turns import Turn

STOP = WORST["stop"]
DIGITS = 9  # of a turning point
MORE = 0.05
"""share of its range that a size may go further at either end, where it goes by several unknowns together"""


@dataclass(frozen=True)
class Ranged:
    """What comes of it."""

    findings: list[Finding]
    ranges: dict[str, list[float]] = field(default_factory=dict)
    """size -> least and greatest that it can be; of those that rest on what is not known"""
    unknowns: list[Unknown] = field(default_factory=list)
    """what decides most first"""
    held: dict[str, Entry] = field(default_factory=dict)
    """what was designed and must be otherwise to hold in every state"""


def ranged(job: Job, book: Book, *, as_made: bool = False) -> Ranged:
    """Judge a job over the whole range of what is not known.

    Parameters
    ----------
    job : Job
        As read; with something that is not known
    book : Book
        Of the job as sized with the values taken
    as_made : bool
        As it stands with what was measured of the work, not as planned

    Returns
    -------
    ranged : Ranged
    """
    found = _Judged(States(job, book, as_made))
    left = {room.finding: room for room in rooms(job, found.base.book, [state.book for state in found.sized])}
    told = [crossed(left[one.name], one) if one.name in left else one for one in found.findings]
    held = {room.key: entry for room in left.values() if (entry := moved(room, found.base.book[room.key]))}
    return Ranged(worst_first([*told, *found.refused()]), found.ranges(), found.unknowns(), held)


class _Judged:
    """The states of one job, and what they say together."""

    def __init__(self, states: States) -> None:
        self.states, self.base = states, states.base
        search = Search(states)
        self.tried, self.corners = search.tried, search.corners
        self.unruly = search.unruly
        self.sized = [state for _, state in states.known if not state.refused]

    @cached_property
    def keys(self) -> list[Key]:
        """Of all findings, those with the values taken first."""
        return list(dict.fromkeys(key for state in self.sized for key in state.found))

    @cached_property
    def ranks(self) -> dict[Key, tuple[int, int, int]]:
        """How bad each verdict is at its best, with the values taken, and at its worst."""
        every = {key: [state.rank(key) for state in self.sized] for key in self.keys}
        return {key: (min(ranks), ranks[0], max(ranks)) for key, ranks in every.items()}

    @cached_property
    def turns(self) -> dict[Key, list[Turn]]:
        """Where each verdict turns along one unknown by itself."""
        return {key: found for key in self.keys if (found := turns(self.states, self.tried, key))}

    def movers(self, key: Key) -> list[str]:
        """What moves a finding, at all or in a corner."""
        every = (self.corners.of((*key, end), 1) for end in range(3))
        return list(dict.fromkeys(name for setting in every for name in setting))

    def decided_by(self, key: Key) -> list[str]:
        """What turns a verdict: each by itself, else all that turn it together."""
        alone = dict.fromkeys(turn.key for turn in self.turns.get(key, ()))
        best, _, worst = self.ranks[key]
        return list(alone) or (self.movers(key) if best < worst else [])

    @property
    def findings(self) -> Iterator[Finding]:
        """Every finding, with the verdict that holds for the whole range."""
        return (self._over_the_range(key) for key in self.keys)

    def _over_the_range(self, key: Key) -> Finding:
        some = [state.found[key] for state in self.sized if key in state.found]
        worst = max(some, key=lambda finding: WORST[finding.verdict])
        here, by = self.base.found.get(key, worst), self.movers(key)
        if not by:
            return here
        _, rank, most = self.ranks[key]
        says = holds(self.states.job, self.ranks[key], self.turns.get(key, []), by)
        if not self.decided_by(key):
            return here._replace(holds_if=says)
        verdict = "stop" if rank == STOP else "caution"
        more = at_worst(here.says, worst.says) if most > rank else ""
        return here._replace(verdict=verdict, says=f"{here.says}; {says}{more}", holds_if=says)

    def refused(self) -> Iterator[Finding]:
        """Of states that no sizes can be had in, why."""
        told: dict[str, Finding] = {}
        for place, state in self.states.known:
            for fault in state.refused:
                says = f"{NOT_JUDGED} where {joined(self.states.job, place)}: {fault}"
                name = f"unknown.{fault.key or place[0][0]}"
                told.setdefault(name, Finding(name, "caution", None, None, "1", says, "job file"))
        yield from told.values()

    def ranges(self) -> dict[str, list[float]]:
        """Least and greatest of every size that is not the same in all states."""
        out: dict[str, list[float]] = {}
        for state in self.sized[1:]:
            for name, value in state.moved(self.base).items():
                if isinstance(name, str):
                    least, most = out.get(name) or [self.base.numbers.get(name, value)] * 2
                    out[name] = [min(least, value), max(most, value)]
        for name in out.keys() & self.unruly:
            more = MORE * (out[name][1] - out[name][0])
            out[name] = [round(out[name][0] - more, DECIMALS), round(out[name][1] + more, DECIMALS)]
        return out

    def unknowns(self) -> list[Unknown]:
        """What is not known, by what it decides."""
        found = [self._unknown(key) for key in self.states.places]
        return [one for _, one in sorted(found, key=lambda pair: pair[0])]

    def _unknown(self, key: str) -> tuple[Any, Unknown]:
        place = self.states.places[key]
        known = self.states.job.unknown[place]
        mine = {k: [turn for turn in self.turns.get(k, ()) if turn.key == key] for k in self.keys}
        decides = sorted(
            (k for k in self.keys if key in self.decided_by(k)), key=lambda k: (not mine[k], -self.ranks[k][2])
        )
        first = mine[decides[0]] if decides else []
        at = min((turn.at for turn in first), key=lambda at: abs(at - known.taken), default=None)
        order = (-sum(self.ranks[k][2] == STOP for k in decides), -len(decides))
        return order, Unknown(
            key, known.low, known.high, known.taken, known.unit,
            list(dict.fromkeys(name for name, _ in decides)),
            None if at is None else float(f"{at:.{DIGITS}g}"),
            how_to_measure(plain(place)) or described(plain(place)),
        )  # fmt: skip
