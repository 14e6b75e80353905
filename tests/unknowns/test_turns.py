"""Where a verdict turns along one unknown, for made-up findings whose turn is known."""

from dataclasses import dataclass, field
from types import SimpleNamespace

import pytest

from parts.book import Book
from parts.judging.finding import Finding
from parts.unknowns.states import State
from parts.unknowns.turns import Turn, turns

LOW, HIGH, TAKEN = 0.0, 100.0, 10.0


@dataclass
class Made:
    """States of one unknown `x`: how far past its stop a finding is, by the unknown; None where nothing is found."""

    past: object
    numbered: bool = True
    tries: list = field(default_factory=list)

    def __post_init__(self):
        self.places, self.taken = {"x": ("x",)}, {"x": TAKEN}
        self.job = SimpleNamespace(unknown={("x",): SimpleNamespace(low=LOW, high=HIGH)})
        self.base = self.at({"x": TAKEN})

    def at(self, setting):
        past = self.past(setting["x"])
        verdict = "stop" if past > 0 else "ok"
        number = (None, past) if self.numbered else (None, None)
        return State(Book(), {("size", 0): Finding("size", verdict, past, 0.0, "1", "", "", past=number)})

    def tried(self, key, value):
        self.tries.append(value)
        return self.at({key: value})


@pytest.mark.parametrize(
    ("past", "at", "most"),
    [
        (lambda x: x - 63, 63.0, 1),  # straight: a line hits it
        (lambda x: x**2 - 63**2, 63.0, 8),
        (lambda x: x**4 - 63**4, 63.0, 8),
        (lambda x: 63**-0.5 - x**-0.5, 63.0, 8),  # ever flatter
        (lambda x: max(x, 60.0) - 63, 63.0, 8),  # level, then straight, as the greater of two heats
        (lambda x: max(x, 90.0) - 90.001, 90.001, 8),
        (lambda x: min(x, 65.0) - 63, 63.0, 8),
        (lambda x: 1e-6 * (x - 63) if x < 63 else x - 63 + 1e-9, 63.0, 8),  # a bend at the turn itself
    ],
)
def test_a_turn_is_found_in_few_tries(past, at, most):
    made = Made(past)
    found = turns(made, {"x": [(HIGH, made.at({"x": HIGH}))]}, ("size", 0))
    assert found == [Turn("x", pytest.approx(at, abs=0.02 * (HIGH - LOW)), above=True, rank=2)]
    assert len(made.tries) <= most


def test_a_turn_of_what_has_no_number_is_halved_to_a_thousandth():
    made = Made(lambda x: x - 63, numbered=False)
    (found,) = turns(made, {"x": [(HIGH, made.at({"x": HIGH}))]}, ("size", 0))
    assert found.at == pytest.approx(63, abs=1e-3 * (HIGH - LOW))
    assert len(made.tries) <= 11
