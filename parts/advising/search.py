"""The design with the fewest stops, then the fewest cautions, then the fewest changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.advising.foresight import excesses, score

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from parts.advising.foresight import Excess, Foresight, Score
    from parts.advising.free import Change
    from parts.advising.trials import Design, Trials

    Ranked = tuple[Score, int, Design]

IDLE, WIDTH, LOOK = 3, 5, 24
"""times that a search goes on without a stop or a caution less; designs that are followed at a time; variants that are
judged for them each time, of those that are foreseen to be the best"""
PAIRED = 40
"""changes that are foreseen with every other"""
THIN = (0, 1, 2, 4, 8, 16, 32)
"""which of a key's changes, the smallest first, are foreseen in pairs"""


class Search:
    """Looks for a design among changes that were judged alone.

    Parameters
    ----------
    trials, foresight : Trials and Foresight
        What is judged, and what is foreseen of it
    changes : sequence of Change
        Among which to look
    """

    def __init__(self, trials: Trials, foresight: Foresight, changes: Sequence[Change]) -> None:
        self.trials, self.foresight = trials, foresight
        self.changes = [one for one in changes if foresight.effects[one]]
        self._known: dict[Design, tuple[Excess, Score] | None] = {}
        self._foreseen_of: dict[Design, list[tuple[Score, Design]]] = {}

    def best(self, starts: Iterable[Design]) -> Design:
        """Find the best by closed forms: a change at a time, then two, then without what it can do without."""
        found = self._followed(starts)
        while (paired := min([found, *self._judged(self._pairs(found[2]))]))[0][:2] < found[0][:2]:
            found = self._followed([paired[2]])
        return self._spared(found[2])

    def finalists(self, found: Design) -> list[Design]:
        """The best that were judged, `found` first."""
        ranked = sorted((known[1][:2], len(one), one) for one, known in self._known.items() if known)
        return [found, *(one for _, _, one in ranked if one != found)][:WIDTH]

    def _followed(self, starts: Iterable[Design]) -> Ranked:
        """The best that one change after the other leads to, from several."""
        seen = set(starts)
        beam = sorted(self._judged(seen))[:WIDTH]
        idle = 0
        while idle < IDLE:
            self.trials.settle(beam[0][2])
            tries = sorted(one for _, _, design in beam for one in self._further(design))
            new = [d for d in dict.fromkeys(d for _, d in tries) if d not in seen][:LOOK]
            seen.update(new)
            after = sorted([*beam, *self._judged(new)])[:WIDTH]
            idle = 0 if after[0][0][:2] < beam[0][0][:2] else idle + 1 if after != beam else IDLE
            beam = after
        return beam[0]

    def _further(self, design: Design) -> list[tuple[Score, Design]]:
        """What a design is foreseen to come to with each change."""
        if design not in self._foreseen_of:
            here = self._of(design)
            self._foreseen_of[design] = [(self._foreseen(design, here, (c,)), design.and_((c,))) for c in self.changes]
        return self._foreseen_of[design]

    def _pairs(self, at: Design) -> list[Design]:
        """The two changes more that are foreseen to come to the least."""
        here = self._of(at)
        ranked = sorted((score, one) for (score, _), one in zip(self._further(at), self.changes, strict=True))
        wrong = [name for name, x in here[0].items() if x > 0]
        first = [one for _, one in ranked if self.foresight.moves(one, wrong)][:PAIRED]
        second = [one for one in self.changes if one.order[1] in THIN]
        pairs = {at.and_(p): p for a in first for b in second if a.path != b.path and (p := (a, b))}
        return [d for _, d in sorted((self._foreseen(at, here, pair), d) for d, pair in pairs.items())][:LOOK]

    def _spared(self, found: Design) -> Design:
        """The design with as few changes, and as small ones, as come to as few stops and cautions."""
        counts = self._of(found)[1][:2]
        for one in reversed(found):
            if self._counts(found.without(one)) <= counts:
                return self._spared(found.without(one))
        for one in found:
            found = self._smaller(
                found, [c for c in self.changes if c.path == one.path and c.order <= one.order], counts
            )
        return found

    def _smaller(self, found: Design, steps: list[Change], counts: tuple[int, ...]) -> Design:
        """The design with one change as small as may be: half the way back, while that is as good."""
        low, high = 0, len(steps) - 1
        while low < high:
            middle = (low + high) // 2
            if self._counts(found.and_((steps[middle],))) <= counts:
                high = middle
            else:
                low = middle + 1
        return found.and_((steps[high],)) if steps else found

    def _counts(self, design: Design) -> tuple[int, ...]:
        known = self._try(design)
        return known[1][:2] if known else (len(self.trials.base.found), 0)

    def _foreseen(self, design: Design, here: tuple[Excess, Score], changes: tuple[Change, ...]) -> Score:
        paths = [one.path for one in changes]
        return self.foresight.foreseen(*here, changes, [own for own in design if own.path in paths])

    def _judged(self, designs: Iterable[Design]) -> list[Ranked]:
        return [(known[1], len(one), one) for one in designs if (known := self._try(one))]

    def _of(self, design: Design) -> tuple[Excess, Score]:
        known = self._try(design)
        if known is None:
            raise LookupError
        return known

    def _try(self, design: Design) -> tuple[Excess, Score] | None:
        """How far a variant goes over, judged once; None where there can be no such job."""
        if design not in self._known:
            outcome = self.trials.of(design, contact=False)
            over = excesses(outcome) if outcome else {}
            self._known[design] = (over, score(over.values())) if outcome else None
        return self._known[design]
