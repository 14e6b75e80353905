"""Advice on a job: what clears each stop and caution, and the whole design with the fewest of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts.advising.clearing import Clearing, alternatives, in_the_way
from parts.advising.foresight import Foresight, excesses
from parts.advising.free import free_changes
from parts.advising.search import Search
from parts.advising.trials import SLOW, Design, Trials

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from parts.advising.free import Change
    from parts.advising.trials import Name, Outcome
    from parts.judging.finding import Finding


HELPS = 0.1
"""share of its limit by which a finding must get better for the values between to be looked at"""


@dataclass(frozen=True)
class Told:
    """What there is to say of one stop or caution."""

    finding: Finding
    changes: list[Clearing]
    """alternatives, the best first; none where nothing free makes it better"""
    way: str
    """what stands in the way, where there are none"""


@dataclass(frozen=True)
class Advice:
    """Advice on a job."""

    told: list[Told]
    design: Design
    why: dict[Change, str]
    """of each change of the design"""
    before: Outcome
    after: Outcome
    left: list[tuple[Finding, str]]
    """what remains in the design, and why nothing free can move it"""
    system: str
    """how the job's sheets print: metric or inch"""
    unknown: bool
    """whether anything is not known that has a range: the design is judged over it, each way at the values taken"""


def advise(text: str, keep: Sequence[str] = (), told: Callable[[int], None] = lambda _: None) -> Advice:
    """Look for what to change in a job.

    Parameters
    ----------
    text : str
        Of the job file
    keep : sequence of str
        Free keys that are to stay as they are
    told : callable, optional
        Is told how many variants were judged so far, after each

    Returns
    -------
    advice : Advice

    Raises
    ------
    JobError
        The job file is wrong, or a key to keep is not free.
    """
    trials = Trials(text, told)
    free = free_changes(trials.raw, keep)
    singles = _singles(trials, free.values())
    foresight = Foresight(trials.base, singles)
    each = [Told(trials.base.found[name], *alternatives(trials, foresight, name)) for name in by_rank(trials.base)]
    design = _design(trials, foresight, [way.design for one in each for way in one.changes if not way.worse])
    after = trials.of(design) or trials.base
    before, ranged = (trials.over_ranges(one) for one in (Design(), design))
    each += [Told(f, [], f.holds_if) for name, f in (before or after).found.items() if _only_in_range(name, trials, f)]
    return Advice(
        each,
        design,
        _why(trials, design, after),
        before or trials.base,
        ranged or after,
        _left(trials, foresight, design, ranged or after),
        trials.system,
        trials.unknown,
    )


def _singles(trials: Trials, free: Iterable[list[Change]]) -> dict[Change, Outcome]:
    """Each change judged alone; of keys that may better how the ring presses, that too."""
    found: dict[Change, Outcome] = {}
    for changes in free:
        alone = {one: outcome for one in changes if (outcome := trials.of(Design((one,)), contact=False))}
        found |= alone
        if changes[0].path[0] in SLOW and trials.unsolved:
            safe = [one for one, outcome in alone.items() if not outcome.worse_than(trials.base)]
            found |= _solved_alone(trials, safe)
    return found


def _solved_alone(trials: Trials, changes: list[Change]) -> dict[Change, Outcome]:
    """Changes of one key with how the ring presses: the least and the most, and the others where one of those helps."""
    ends = {one: outcome for one in changes[:1] + changes[-1:] if (outcome := trials.of(Design((one,))))}
    wrong = [name for name in trials.base.ranks if not trials.by_closed_form(name)]
    before = excesses(trials.base)
    if any(excesses(outcome).get(name, -1.0) < before[name] - HELPS for outcome in ends.values() for name in wrong):
        ends |= {one: outcome for one in changes if (outcome := trials.of(Design((one,))))}
    return ends


def _design(trials: Trials, foresight: Foresight, ways: list[Design]) -> Design:
    """The whole design: the rings by themselves, the rest by itself, then both together with the ways found before."""
    changes, found = list(foresight.effects), Design()
    for slow in (False, True):
        some = [one for one in changes if (one.path[0] in SLOW) == slow]
        found = found.and_(Search(trials, foresight, some).best([Design()]))
    search = Search(trials, foresight, changes)
    found = search.best([found, *(found.and_(way) for way in ways)])
    if trials.unknown:
        ranked = [(r.counts, n, one) for n, one in enumerate(search.finalists(found)) if (r := trials.over_ranges(one))]
        found = min(ranked)[2] if ranked else found
    return _solved(trials, found)


def _only_in_range(name: Name, trials: Trials, finding: Finding) -> bool:
    """Whether a finding is in order at the values taken, and not over the range of what is not known."""
    return finding.verdict != "ok" and name not in trials.base.ranks


def _solved(trials: Trials, found: Design) -> Design:
    """A design without those of its changes by which the ring presses worse than closed forms tell."""
    while found:
        here, whole = trials.of(found, contact=False), trials.of(found)
        if here and whole and whole.counts <= here.counts:
            break
        less = [found.without(one) for one in found if one.path[0] in SLOW] or [found.without(found[-1])]
        found = min(less, key=lambda d: (o.counts if (o := trials.of(d)) else (len(less), 0), d))
    return found


def _why(trials: Trials, design: Design, after: Outcome) -> dict[Change, str]:
    """What each change is for: what would be wrong without it."""
    why, closed = {}, trials.of(design, contact=False) or after
    for change in design:
        contact = change.path[0] in SLOW
        without = trials.of(design.without(change), contact=contact)
        names = without.worse_than(after if contact else closed) if without else []
        told = [f"{name[0]} would be a {without.found[name].verdict}" for name in names] if without else []
        why[change] = "; ".join(told) or "without it there can be no such job"
    return why


def _left(trials: Trials, foresight: Foresight, design: Design, after: Outcome) -> list[tuple[Finding, str]]:
    """What remains, and what stands in the way of each; of what is in order at the values taken, what it hangs on."""
    here = (trials.of(design) or trials.base).ranks
    return [
        (after.found[name], in_the_way(trials, foresight, design, name) if name in here else after.found[name].holds_if)
        for name in by_rank(after)
    ]


def by_rank(outcome: Outcome) -> list[Name]:
    """What is a stop, then what is a caution."""
    return sorted(outcome.ranks, key=lambda name: -outcome.ranks[name])
