"""The first advice on each finding, for a folder that is being made: quick, of one key.

`topend advise` judges every value of every free key. Here of a number the nearest value is judged, which tells what the
key moves; then what straight lines point to. Nothing is told that was not judged whole.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.advising.clearing import clearing
from parts.advising.free import free_changes, size_of
from parts.advising.records import way_record
from parts.advising.search import THIN
from parts.advising.trials import Design, Trials, by_name
from parts.judging.finding import NOT_JUDGED, WORST
from parts.judging.matters import TO_DO, matter_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from parts.advising.clearing import Clearing
    from parts.advising.free import Change
    from parts.advising.trials import Name
    from parts.judging.finding import Finding

TRIES = 5
"""values of a number that are judged for a finding, on the way to where it clears"""


def with_first_advice(text: str, found: Sequence[Finding]) -> list[Finding]:
    """Give each stop and caution of a job the best change of one key that was found for it.

    Parameters
    ----------
    text : str
        Of the job file
    found : sequence of Finding
        As the job was judged, over the range of what is not known too

    Returns
    -------
    found : list of Finding
        With what to change, of those for which a change was found that leaves as few stops and cautions: judged at the
        values taken; not of what is to be done in any case or measured, nor of how the ring presses, which takes long.
        Of parts in lists, which take longer, only what is a stop. Nothing where parts are made already: there it is
        said of each size that was missed what saves it.
    """
    if all(one.verdict == "ok" for one in found):
        return list(found)
    trials = Trials(text)
    if trials.made:
        return list(found)
    keys = list(free_changes(trials.raw).values())
    told = [name for name, rank in trials.base.ranks.items() if rank == WORST["stop"] or not trials.listed]
    ways = {name: way for name in told if (way := _best(trials, name, keys))}
    changes = {name: (way_record(way, trials.system),) for name, way in ways.items()}
    return [one._replace(changes=changes.get(name, ())) for name, one in by_name(found).items()]


def _best(trials: Trials, name: Name, keys: Iterable[Sequence[Change]]) -> Clearing | None:
    """The best change of one key by closed forms, judged once more with how the ring presses."""
    says = trials.base.found[name].says
    if matter_of(name[0]) == TO_DO or says.startswith(NOT_JUDGED) or not trials.by_closed_form(name):
        return None
    tried = [Design((one,)) for changes in keys for one in _tried(trials, name, changes)]
    ways = [way for one in tried if (way := clearing(trials, one, name, contact=False))]
    for way in sorted(ways, key=lambda way: way.rank):
        sure, whole = clearing(trials, way.design, name, contact=True), trials.of(way.design)
        if sure and whole and whole.counts <= trials.base.counts:
            return sure
    return None


def _tried(trials: Trials, name: Name, changes: Sequence[Change]) -> Iterator[Change]:
    """Values of a key that are worth judging for a finding."""
    here = trials.stands(changes[0])
    if here is None:
        yield from (one for one in changes if one.order[1] in THIN)
        return
    yield changes[0]
    for end in range(trials.base.ranks[name]):
        yield from _toward(trials, name, changes, here, end)


def _toward(trials: Trials, name: Name, changes: Sequence[Change], here: float, end: int) -> Iterator[Change]:
    """Values of a number on the way to the smallest with which a finding is within its caution, or its stop."""
    at, past = here, _past(trials, name, Design(), end)
    near, gives = size_of(changes[0].value), _past(trials, name, Design(changes[:1]), end)
    if past is None or near is None or gives is None or gives == past:
        return
    slope = (gives - past) / (near - at)
    side = -1 if slope > 0 else 1
    line = [(x, one) for one in changes if (x := size_of(one.value)) is not None and side * (x - here) > 0]
    low, high = -1, len(line)
    for _ in range(TRIES):
        beyond = (n for n, (x, _) in enumerate(line) if side * (x - at) * abs(slope) >= past)
        n = max(min(next(beyond, high), high - 1), low + 1)
        if n == high:
            return
        x, one = line[n]
        yield one
        gives = _past(trials, name, Design((one,)), end)
        low, high = (n, high) if gives is not None and gives > 0 else (low, n)
        if gives is not None and gives != past:
            at, past, slope = x, gives, (gives - past) / (x - at)


def _past(trials: Trials, name: Name, design: Design, end: int) -> float | None:
    """How far a finding of a variant is beyond its caution or its stop; None where it is not known."""
    outcome = trials.of(design, contact=False)
    return outcome.found[name].past[end] if outcome and name in outcome.found else None
