"""What clears one finding: the smallest changes of one key, else of two; or what stands in the way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts.advising.foresight import excess, excesses, other_words, score
from parts.advising.search import THIN
from parts.advising.trials import SLOW, Design
from parts.advising.words import against
from parts.job import toml
from parts.judging.finding import ASSUMED, NOT_JUDGED
from parts.judging.matters import TO_DO, matter_of
from parts.tables.unknown import has_range

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from parts.advising.foresight import Foresight
    from parts.advising.free import Change
    from parts.advising.trials import Name, Trials
    from parts.judging.finding import Finding

MOST, FIRST, LOOK = 5, 30, 14
"""alternatives that are told; changes that are foreseen with every other; pairs that are judged"""
REASONS = 4
"""keys that change why a finding stands, each judged with the other keys of its table"""
NEAREST = 6
"""changes of a finished design that are judged to see what stands in the way of a finding"""


@dataclass(frozen=True)
class Clearing:
    """One way to make a finding better."""

    design: Design
    finding: Finding | None
    """as it then is; None where it no longer arises"""
    better: list[str]
    """names of the findings that get better, the one that is meant among them"""
    worse: list[str]
    stops: list[str]
    """of those, the ones that are then a stop"""
    rank: tuple[int, int, int, int, Design]
    """what is left of the finding, stops and all that get worse, changes"""


def alternatives(trials: Trials, foresight: Foresight, name: Name) -> tuple[list[Clearing], str]:
    """Find what makes a finding better, the best first; and what stands in the way, where nothing does."""
    closed = trials.by_closed_form(name)
    singles = [Design((change,)) for change in _singles(trials, foresight, name)]
    found = _ranked(trials, singles, name, contact=not closed)
    if closed and not any(one.rank[:3] == (0, 0, 0) for one in found):
        least = min((one.rank[:3] for one in found), default=(2, 0, 0))
        pairs = _ranked(trials, _pairs(trials, foresight, name), name, contact=False)
        found = sorted([*found, *(one for one in pairs if one.rank[:3] < least)], key=lambda one: one.rank)
    sure = _ranked(trials, [one.design for one in found[:MOST]], name, contact=True)
    return sure, "" if sure else in_the_way(trials, foresight, Design(), name)


def _ranked(trials: Trials, designs: Iterable[Design], name: Name, *, contact: bool) -> list[Clearing]:
    """Those of several designs that make a finding better, the best first."""
    found = [one for design in designs if (one := clearing(trials, design, name, contact=contact))]
    return sorted(found, key=lambda one: one.rank)


def clearing(trials: Trials, design: Design, name: Name, *, contact: bool) -> Clearing | None:
    """What a design does for a finding; None where that gets no better by it."""
    base, outcome = trials.base, trials.of(design, contact=contact)
    left = outcome.ranks.get(name, 0) if outcome else 0
    if outcome is None or left >= base.ranks[name]:
        return None
    worse = outcome.worse_than(base)
    stops = [one for one in worse if outcome.ranks[one] > 1]
    better = base.worse_than(outcome)
    rank = (left, len(stops), len(worse), len(design), design)
    return Clearing(design, outcome.found.get(name), _names(better), _names(worse), _names(stops), rank)


def _names(names: Iterable[Name]) -> list[str]:
    return list(dict.fromkeys(name for name, _, _ in names))


def _singles(trials: Trials, foresight: Foresight, name: Name) -> Iterator[Change]:
    """Of each key the smallest change that makes a finding better, and the smallest that makes the least else worse."""
    by_key: dict[str, list[tuple[tuple[int, int, int], Change]]] = {}
    for change, outcome in foresight.singles.items():
        left = outcome.ranks.get(name, 0)
        if left < trials.base.ranks[name]:
            worse = outcome.worse_than(trials.base)
            rank = (left, sum(outcome.ranks[one] > 1 for one in worse), len(worse))
            by_key.setdefault(change.key, []).append((rank, change))
    for ranked in by_key.values():
        smallest = next((one for (left, *_), one in ranked if left == 0), ranked[0][1])
        yield from dict.fromkeys((smallest, min(ranked)[1]))


def _pairs(trials: Trials, foresight: Foresight, name: Name) -> list[Design]:
    """The two changes that are foreseen to clear a finding, and to come to the least."""
    base, at = trials.base, excesses(trials.base)
    known = score(at.values())
    second = [one for one in foresight.effects if one.order[1] in THIN]
    words = [one for one, alone in foresight.singles.items() if other_words(base, alone, name)]
    reasons = list({one.key: one for one in reversed(words) if one.path[0] not in SLOW}.values())[:REASONS]
    asked = [Design().and_((one, other)) for one in reasons for other in second if one.path[0] == other.path[0]]
    moves = [one for one in foresight.effects if foresight.moves(one, [name])]
    first = sorted(moves, key=lambda one: (foresight.foreseen(at, known, (one,)), one))[:FIRST]
    pairs: dict[Design, tuple[Change, Change]] = {}
    for one in first:
        for other in second:
            by = foresight.effects[one].get(name, 0.0) + foresight.effects[other].get(name, 0.0)
            if one.path != other.path and at[name] + by <= (base.ranks[name] - 1):
                pairs[Design().and_((one, other))] = (one, other)
    ranked = sorted((foresight.foreseen(at, known, pair), design) for design, pair in pairs.items())
    return asked + [design for _, design in ranked[:LOOK]]


def in_the_way(trials: Trials, foresight: Foresight, design: Design, name: Name) -> str:
    """Say why no free change clears a finding of a design: none moves it, none is enough, or it costs elsewhere."""
    if matter_of(name[0]) == TO_DO:
        return "to be done in any case, nothing to choose"
    here = trials.of(design) or trials.base
    finding = here.found[name]
    if finding.says.startswith(NOT_JUDGED) or finding.source == ASSUMED:
        return _to_measure(finding)
    moves = sorted((effect[name], one) for one, effect in foresight.effects.items() if effect.get(name, 0.0) < 0)
    if not moves:
        return _says_then(trials, foresight, design, name) or "nothing that is free moves it"
    contact = not trials.by_closed_form(name)
    others = [design.and_((one,)) for _, one in moves if one not in design][:NEAREST]
    tried = [(d, outcome) for d in others if (outcome := trials.of(d, contact=contact))]
    clears = [(o.counts, d, o) for d, o in tried if o.ranks.get(name, 0) < here.ranks[name]]
    if clears:
        _, changed, outcome = min(clears, key=lambda one: one[:2])
        bring = ", ".join(_names(outcome.worse_than(here))) or "as much elsewhere"
        return f"{_new(changed, design)} would clear it, and bring {bring}"
    better = [(excess(o.found[name]), d, o.found[name]) for d, o in tried]
    better = [one for one in better if one[0] < excess(finding)]
    if not better:
        return "nothing that is free moves it far enough"
    _, changed, found = min(better, key=lambda one: one[:2])
    gives = against(found, trials.system)
    to = _new(changed, design)
    return f"the nearest is {to}, which gives {gives}" if gives else f"{to} is not enough"


def _says_then(trials: Trials, foresight: Foresight, design: Design, name: Name) -> str:
    """What a finding on a choice says after the first change that leaves it as bad for another reason, or nothing."""
    words = (one for one, alone in foresight.singles.items() if other_words(trials.base, alone, name))
    for changed in (design.and_((one,)) for one in words if one not in design):
        if (outcome := trials.of(changed)) and name in outcome.found:
            return f"{_new(changed, design)} is not enough: {outcome.found[name].says}"
    return ""


def _to_measure(found: Finding) -> str:
    """What a finding waits for that can't be judged; what has a usual range need not be measured."""
    said = found.says.removeprefix(NOT_JUDGED).strip().split("; ")
    first = next((n for n, part in enumerate(said) if "give " in part), 0)
    key = found.name.removeprefix("not_judged.")
    ranged = has_range(key) or has_range(f"{key}.head")  # a temperature, of a table of them
    usual = f'; or give {key} = "unknown", which takes its usual range' if ranged else ""
    return f"it takes a measurement: {'; '.join(said[first:])}{usual}"


def _new(changed: Design, design: Design) -> str:
    """The change that a design has beyond another."""
    return next(f"{one.key} = {toml(one.value)}" for one in changed if one not in design)
