"""All the states that tell how far sizes and verdicts go.

First the corners that what each unknown does by itself points to. Where another state turns out to be beyond a target's
own corner, what one unknown does depends on the others: then each is tried again about that state, until none is.
"""

from __future__ import annotations

from math import inf
from operator import itemgetter
from typing import TYPE_CHECKING

from parts.unknowns.corners import Corners, along, moved, together
from parts.unknowns.states import RANK

if TYPE_CHECKING:
    from collections.abc import Iterable

    from parts.unknowns.corners import Along
    from parts.unknowns.states import Place, Setting, States, Target

ROUNDS, AT_ONCE = 4, 4
SAME = 1e-9
SIDES = (1, -1)


class Search:
    """Works out states of a job until nothing goes further."""

    def __init__(self, states: States) -> None:
        self.states = states
        self._own: dict[tuple[Target, int], float] = {}
        """how far each target goes in the corners looked for"""
        self._moved: dict[Target, list[tuple[float, Place]]] = {}
        """what the states that are known make of each target"""
        self._looked_at = 0
        """of those"""
        self.unruly: set[Target] = set()
        """what goes by several unknowns together, not by each alone"""
        self.tried, self.corners = self._about({}, states.places)
        about: set[Place] = {()}
        for _ in range(ROUNDS):
            beyond = self._beyond(about)
            self.unruly.update(target for some in beyond.values() for target in some)
            for place in sorted(beyond, key=lambda place: -len(beyond[place]))[:AT_ONCE]:
                keys = [key for key in states.places if any(key in self.corners.of(t, 1) for t in beyond[place])]
                self._about(dict(place), keys, beyond[place])
                about.add(place)

    def _about(
        self, about: Setting, keys: Iterable[str], targets: Iterable[Target] | None = None
    ) -> tuple[Along, Corners]:
        """Try unknowns about a state, and work out the corners of some targets, or of all, that this points to."""
        base, tried = self.states.at(about), along(self.states, about, keys)
        corners = Corners(base, moved(base, tried), {**self.states.taken, **about})
        some = corners.moves if targets is None else targets
        own = [(target, side, {**about, **corners.of(target, side)}) for target in some for side in SIDES]
        merged = together(setting for _, _, setting in own)
        for target, side, setting in own:
            state = self.states.at(next(one for one in merged if setting.items() <= one.items()))
            far = side * state.numbers.get(target, -side * inf)
            self._own[target, side] = max(far, self._own.get((target, side), -inf))
        return tried, corners

    def _beyond(self, about: set[Place]) -> dict[Place, list[Target]]:
        """States, not yet looked about, in which targets are further than in their own corner, where that counts."""
        for place, state in self.states.known[self._looked_at :]:
            for target, number in state.moved(self.states.base).items():
                self._moved.setdefault(target, []).append((number, place))
        self._looked_at = len(self.states.known)
        out: dict[Place, list[Target]] = {}
        for (target, side), own in self._own.items():
            reached = ((side * number, where) for number, where in self._moved.get(target, ()))
            far, place = max(reached, key=itemgetter(0), default=(own, ()))
            if far > own + SAME * max(1.0, abs(own)) and place not in about and _counts(target, side, far):
                out.setdefault(place, []).append(target)
        return out


def _counts(target: Target, side: int, far: float) -> bool:
    """Whether it is worth knowing how far a target goes: of a verdict that has turned already it is not."""
    return isinstance(target, str) or (target[2] != RANK and (far <= 0 if side == 1 else far < 0))
