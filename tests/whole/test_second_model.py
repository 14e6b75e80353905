"""Sizes against a second model that another hand wrote without sight of the code: the worked job, and jobs that it draws.

What the definitions leave open (`.doubt`) is not compared; two sizes are other by intent and named here.
"""

import pytest

from parts import JobError, demo, load, size
from tests import second_model

CLOSE = 1e-6
OTHERWISE = {
    "mandrel.open_gap": "linear in the set fraction here, exact there: within 0.3 %",
    "mandrel.opened_stress": "follows it",
    "joint.gas_share": "a share of the force here, a force there",
    "mandrel.seat_height": "lower than the stack here, so that a plate bears on the rings alone",
}
SEEDS = range(40)


def compared(text):
    """Agreeing names of a job, and the sizes that do not agree: name, here, there."""
    book, there = size(load(text), contact=False), second_model.sizes(second_model.read(text))
    agreed, apart = set(), []
    for name, value in there.items():
        here = book[name].value if name in book else None
        if not isinstance(here, int | float) or not isinstance(value, int | float) or name in OTHERWISE:
            continue
        if abs(here - value) <= CLOSE * max(1.0, abs(value)):
            agreed.add(name)
        elif not there.doubt.get(name):
            apart.append((name, here, value))
    return agreed, apart


def test_the_worked_job():
    agreed, apart = compared(demo())
    assert not apart
    assert len(agreed) > 85


@pytest.fixture(scope="module")
def drawn():
    """Jobs that the second model draws and that can be read here, each compared."""
    found = {}
    for seed in SEEDS:
        text = second_model.draw(seed, guessed=False)
        try:
            found[seed] = compared(text)
        except JobError:  # it writes keys that are not known yet, and values that together allow no part
            continue
    return found


def test_jobs_unlike_the_worked_one(drawn):
    assert {seed: apart for seed, (_, apart) in drawn.items() if apart} == {}


def test_many_sizes_of_many_jobs_are_compared(drawn):
    assert len(drawn) > len(SEEDS) // 3
    assert len(set().union(*(agreed for agreed, _ in drawn.values()))) > 150
    assert sum(len(agreed) for agreed, _ in drawn.values()) > 1000
