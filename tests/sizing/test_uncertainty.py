"""Limits by the chain rule against Monte Carlo: 10^5 draws of every reading through the same plain functions, 2 %.

What is tested is the chain of central differences; the draws follow the book's own record from the size to its readings.
"""

import random
import statistics

import pytest

from parts.job import load
from parts.job.examples import demo_text
from parts.sizing import size
from tests.conftest import Text

DRAWS = 100_000
READ = (
    'bore = "57.20 mm"', 'bore = "57.20 mm ± 0.01 mm"',
    'slit = "0.50 mm"', 'slit = "0.50 mm ± 0.02 mm"',
    'clearance_volume = "31.0 cm^3"', 'clearance_volume = "31.0 cm^3 ± 0.3 cm^3"',
    'old_chamber_volume = "26.5 cm^3"', 'old_chamber_volume = "26.5 cm^3 ± 0.2 cm^3"',
    'chamber_volume = "24.8 cm^3"', 'chamber_volume = "24.8 cm^3 ± 0.2 cm^3"',
    'skim = "0.12 mm"', 'skim = "0.12 mm ± 0.02 mm"',
    'squish = "1.60 mm"', 'squish = "1.60 mm ± 0.05 mm"',
    'thickness = "46 mm"', 'thickness = "46 mm ± 0.1 mm"',
    'rectangle = ["60.0 mm", "58.0 mm"]', 'rectangle = ["60.0 mm ± 0.1 mm", "58.0 mm ± 0.1 mm"]',
    'free_gap = "8.58 mm"', 'free_gap = "8.58 mm ± 0.1 mm"',
)  # fmt: skip


@pytest.fixture(scope="module")
def book():
    return size(load(Text(demo_text()).swap(*READ)))


def redrawn(book, name, drawn):
    """The size once more, its readings drawn anew."""
    if name not in drawn:
        entry = book[name]
        if entry.relation is None:
            drawn[name] = random.gauss(entry.value, entry.spread) if entry.spread else entry.value
        else:
            inputs = {a: redrawn(book, n, drawn) if isinstance(n, str) else n for a, n in entry.inputs.items()}
            drawn[name] = entry.relation(**inputs)
    return drawn[name]


@pytest.mark.parametrize(
    "name",
    ["ring.closed_gap", "compression.ratio_after", "compression.squish", "stud.projection", "deck.hole.1.to_bore",
     "ring.tangential_force", "compression.clearance_after", "mandrel.open_gap", "gasket.pressed_width"],
)  # fmt: skip
def test_limits_are_those_of_a_hundred_thousand_draws(book, name):
    random.seed(name)
    drawn = [redrawn(book, name, {}) for _ in range(DRAWS)]
    assert book.spread(name) > 0
    assert statistics.pstdev(drawn) == pytest.approx(book.spread(name), rel=0.02)
    low, high = book.limits(name)
    assert (low + high) / 2 == pytest.approx(book[name].value)


def test_the_gap_is_moved_by_bore_slit_and_blank_as_worked_by_hand(book):
    # gap = slit + pi (bore - blank): pi 0.01, 0.02 and pi 0.01; squares 9.87, 4, 9.87 of 23.74
    shares = {n: m * m / book.spread("ring.closed_gap") ** 2 for n, m in book.moved_by("ring.closed_gap").items()}
    assert {n: round(s, 3) for n, s in shares.items()} == {
        "job.engine.bore": 0.416, "job.ring.slit": 0.168, "ring.outside_diameter": 0.416,
    }  # fmt: skip
