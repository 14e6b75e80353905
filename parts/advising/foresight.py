"""What changes may come to together, by what each does alone: what is judged first hangs on it, never a verdict."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from parts.judging.finding import WORST

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from parts.advising.free import Change
    from parts.advising.trials import Name, Outcome
    from parts.judging.finding import Finding

    Excess = Mapping[Name, float]
    Score = tuple[int, int, float]
    """stops, cautions, and by how much in all"""

FIGURES = re.compile(r"[0-9.]+")
LEAST, SAME, NEAR = 1e-3, 1e-9, -0.25
"""a finding is at least so far off its limit; a change smaller than that is none; nearer than that it counts"""
CHOICE = {"ok": -1.0, "caution": 0.5, "stop": 1.5}
"""of a finding on a choice, which has no figure"""


def excess(found: Finding) -> float:
    """By how much a finding is over its limit, in shares of it: under 0 ok, to 1 a caution, over 1 a stop."""
    if found.value is None or found.limit is None or found.least is None:
        return CHOICE[found.verdict]
    over = (found.value - found.limit) / (abs(found.limit) or 1.0) * (-1 if found.least else 1)
    low, high = ((-1e6, -LEAST), (LEAST, 1 - LEAST), (1 + LEAST, 1e6))[WORST[found.verdict]]
    return min(max(over + (found.verdict == "stop"), low), high)


def excesses(outcome: Outcome) -> dict[Name, float]:
    """Of all findings of a variant."""
    return {name: excess(found) for name, found in outcome.found.items()}


def score(found: Iterable[float]) -> Score:
    """Stops, cautions, and how far all of them go over."""
    over = [x for x in found if x > 0]
    stops = sum(x > 1 for x in over)
    return stops, len(over) - stops, sum(sorted(over))


class Foresight:
    """Foresees variants by what each change does alone.

    Parameters
    ----------
    base : Outcome
        The job as it stands
    singles : mapping
        Each change, and what it comes to alone
    """

    def __init__(self, base: Outcome, singles: Mapping[Change, Outcome]) -> None:
        self.singles, before = singles, excesses(base)
        after = {change: excesses(alone) for change, alone in singles.items()}
        live = {name for over in (before, *after.values()) for name, x in over.items() if x > NEAR}
        names = sorted(live, key=str)
        self.effects = {change: _difference(before, over, names) for change, over in after.items()}

    def foreseen(self, at: Excess, known: Score, changes: Iterable[Change], instead_of: Iterable[Change] = ()) -> Score:
        """Foresee what a variant that was judged comes to with further changes, some in the place of its own.

        Parameters
        ----------
        at, known : mapping and Score
            Of the variant that was judged
        changes, instead_of : iterable of Change
            What comes to it, and what goes
        """
        moved: dict[Name, float] = {}
        for sign, some in ((1.0, changes), (-1.0, instead_of)):
            for one in some:
                for name, by in self.effects[one].items():
                    moved[name] = moved.get(name, 0.0) + sign * by
        stops, cautions, over = known
        for name, by in moved.items():
            before = at.get(name, CHOICE["ok"])
            after = before + by
            stops += (after > 1) - (before > 1)
            cautions += (0 < after <= 1) - (0 < before <= 1)
            over += max(after, 0.0) - max(before, 0.0)
        return stops, cautions, round(over, 9)

    def moves(self, change: Change, names: Iterable[Name]) -> bool:
        """Whether a change makes any of these better."""
        effect = self.effects[change]
        return any(effect.get(name, 0.0) < 0 for name in names)


def _difference(before: Excess, after: Excess, names: Iterable[Name]) -> dict[Name, float]:
    """What a change does alone to the findings of these names."""
    ok = CHOICE["ok"]
    moved = {name: after.get(name, ok) - before.get(name, ok) for name in names}
    return {name: by for name, by in moved.items() if abs(by) > SAME}


def other_words(before: Outcome, after: Outcome, name: Name) -> bool:
    """Whether a finding on a choice has the same verdict for another reason: something else may be lacking now."""
    one, other = before.found.get(name), after.found.get(name)
    return bool(
        one and other and one.verdict == other.verdict and one.says != other.says and excess(one) in CHOICE.values()
    )
