"""Where along the range of one unknown a verdict turns, the others as taken."""

from __future__ import annotations

from itertools import pairwise
from operator import itemgetter
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from parts.unknowns.states import CAUTION, STOP

if TYPE_CHECKING:
    from parts.unknowns.corners import Along
    from parts.unknowns.states import Key, State, States

    Point: TypeAlias = tuple[float, State]
    """value of an unknown, and the state with it"""

CLOSE = 1e-3
"""share of the range that a turn by halves lies within"""
LINE, NEAR = 0.02, 0.99
"""where a straight line finds it: within this share of the range, or so far on the way to a state beyond it"""
BEYOND = 0.004
"""how far beyond it the line is aimed: what lies between two is found, not what is only near"""
CREPT = 2
"""steps by a line that left more than half, after which it goes by halves: the number is level and then bends"""


class Turn(NamedTuple):
    """A verdict that turns at a value of one unknown."""

    key: str
    """of the unknown"""
    at: float
    above: bool
    """whether it turns above the value, else below it"""
    rank: int
    """how bad the verdict is beyond"""


def turns(states: States, tried: Along, finding: Key) -> list[Turn]:
    """Every value at which a verdict turns as one goes from the values taken to either end of each unknown."""
    out: list[Turn] = []
    for key, some in tried.items():
        taken = (states.taken[key], states.base)
        points = sorted((one for one in some if one[1].tells(finding)), key=itemgetter(0))
        above = [one for one in points if one[0] > taken[0]]
        below = [one for one in reversed(points) if one[0] < taken[0]]
        for here, there in (*pairwise([taken, *above]), *pairwise([taken, *below])):
            out += _between(states, key, finding, here, there)
    return out


def _between(states: States, key: str, finding: Key, here: Point, there: Point) -> list[Turn]:
    """The turns between two values; from in order to a stop there are two, where a caution lies between."""
    after = there[1].rank(finding)
    if here[1].rank(finding) == after:
        return []
    before, beyond = _closed_in(states, key, finding, here, there)
    share = _line(finding, before[1], beyond[1])
    at = before[0] + (0.5 if share is None else share) * (beyond[0] - before[0])
    found = Turn(key, at, there[0] > here[0], beyond[1].rank(finding))
    return [found] if found.rank == after else [found, *_between(states, key, finding, beyond, there)]


def _closed_in(states: States, key: str, finding: Key, here: Point, there: Point) -> tuple[Point, Point]:
    """The last value with the verdict that is here and the first with another, nearly: by a line, or by halves."""
    known, rank, crept = states.job.unknown[states.places[key]], here[1].rank(finding), 0
    while (share := _line(finding, here[1], there[1])) is None or share < NEAR:
        width = there[0] - here[0]
        if abs(width) <= (CLOSE if share is None else LINE) * (known.high - known.low):
            break
        value = here[0] + width * (0.5 if share is None or crept >= CREPT else min(share + BEYOND, NEAR))
        state = states.tried(key, value)
        state = state if state.tells(finding) else states.at({key: value})
        if state.rank(finding) == rank:
            here = (value, state)
        else:
            there = (value, state)
        crept += abs(there[0] - here[0]) > abs(width) / 2
    return here, there


def _line(finding: Key, here: State, there: State) -> float | None:
    """How far from one state to another a straight line puts the turn; None where the verdict goes by no number."""
    ranks = (here.rank(finding), there.rank(finding))
    if finding not in here.found or finding not in there.found:
        return None
    end = CAUTION if min(ranks) == 0 else STOP
    ends = [state.found[finding].past[end] for state in (here, there)]
    if end == CAUTION and None in ends:
        ends = [state.found[finding].past[STOP] for state in (here, there)]
    first, last = ends
    if first is None or last is None or (first > 0) == (last > 0):
        return None
    return first / (first - last)
