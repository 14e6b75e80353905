"""Where a size is least and greatest, and a verdict worst: each unknown by itself first, then the corners.

Each unknown is tried at its ends and in the middle with the others as taken. What that moves up or down is looked for
in the corner where all of them move it that way; corners that agree are worked out as one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from parts.unknowns.states import RANK

if TYPE_CHECKING:
    from collections.abc import Iterable

    from parts.book import Entry
    from parts.unknowns.states import Setting, State, States, Target

    Along: TypeAlias = dict[str, list[tuple[float, State]]]
    """key of each unknown -> states with other values of it alone"""
    Moved: TypeAlias = dict[Target, dict[str, list[tuple[float, float]]]]
    """target -> key of an unknown that moves it -> its values, and what they make of the target"""


def along(states: States, about: Setting, keys: Iterable[str]) -> Along:
    """Try each of these unknowns by itself, the others as they are in a state: at both ends, and in the middle."""
    out: Along = {}
    for key in keys:
        known, here = states.job.unknown[states.places[key]], about.get(key, states.taken[key])
        middle = (known.low + known.high) / 2
        out[key] = [(value, states.at({**about, key: value})) for value in (known.low, known.high) if value != here]
        out[key] += [(middle, states.tried(key, middle))] if middle != here and not about else []
    return out


def moved(base: State, tried: Along) -> Moved:
    """What each unknown moves by itself."""
    out: Moved = {}
    for key, some in tried.items():
        for value, state in some:
            for target, number in state.moved(base).items():
                out.setdefault(target, {}).setdefault(key, []).append((value, number))
    return out


class Corners:
    """Looks for the corners of what the unknowns move."""

    def __init__(self, base: State, moves: Moved, taken: Setting) -> None:
        self.base, self.moves, self.taken = base, moves, taken
        self._found: dict[tuple[Target, int], dict[str, float]] = {}

    def of(self, target: Target, side: int) -> dict[str, float]:
        """Values with which each unknown by itself makes a target greatest, or least with a side of -1.

        What does not move it by itself, and moves what it is worked out from, is the lesser of two or the like: it is
        set as that wants it.
        """
        if (target, side) not in self._found:
            self._found[target, side] = {}  # of one that would rest on itself
            own = {key: self._best(target, key, side) for key in self.moves.get(target, ())}
            idle = {key: value for key, value in own.items() if value == self.taken[key]}
            self._found[target, side] = {
                **idle,
                **self._below(target, side),
                **{k: own[k] for k in own if k not in idle},
            }
        return self._found[target, side]

    def _best(self, target: Target, key: str, side: int) -> float:
        here = self.base.numbers.get(target)
        tried = [*([] if here is None else [(self.taken[key], here)]), *self.moves[target][key]]
        return max(tried, key=lambda one: side * one[1])[0]

    def _below(self, target: Target, side: int) -> dict[str, float]:
        out: dict[str, float] = {}
        if not isinstance(target, str):
            return self.of(target[0], side * self._grows(target)) if target[2] != RANK else out
        if (entry := self.base.book.get(target)) is None:
            return out
        for argument, name in entry.inputs.items():
            if isinstance(name, str) and self.of(name, 1):
                wanted = self.of(name, side * self._slope(entry, argument, name))
                out |= {key: value for key, value in wanted.items() if value != self.taken[key] or key not in out}
        return out

    def _grows(self, target: tuple[str, int, int]) -> int:
        """Whether a verdict gets worse as its size grows: by what moves both."""
        size, both = self.moves.get(target[0], {}), 0.0
        here, past = self.base.numbers.get(target[0], 0.0), self.base.numbers.get(target, 0.0)
        for key, some in self.moves.get(target, {}).items():
            values = dict(size.get(key, ()))
            both += sum((number - past) * (values[value] - here) for value, number in some if value in values)
        return -1 if both < 0 else 1

    def _slope(self, entry: Entry, argument: str, name: str) -> int:
        """Whether a size grows with one of its inputs; taken so where it does not move."""
        values = [number for some in self.moves.get(name, {}).values() for _, number in some]
        inputs = {a: self.base.book.number(n) for a, n in entry.inputs.items()}
        if entry.relation is None or not values:
            return 1
        try:
            least, most = (entry.relation(**{**inputs, argument: end(values)}) for end in (min, max))
        except (ValueError, ArithmeticError):
            return 1
        return -1 if least > most else 1


def together(some: Iterable[dict[str, float]]) -> list[dict[str, float]]:
    """Put corners that agree in what they share into one, the fullest first."""
    out: list[dict[str, float]] = []
    for one in sorted(some, key=len, reverse=True):
        for there in out:
            if all(there.get(key, value) == value for key, value in one.items()):
                there.update(one)
                break
        else:
            out.append(dict(one))
    return out
