"""The same at length, by hand: seven jobs, the four of which only callipers tell, and drawn ones."""

import tomllib
from itertools import combinations, product
from random import Random

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from parts.advising.advice import advise
from parts.advising.free import free_changes
from parts.advising.trials import Design, Trials
from parts.errors import JobError
from parts.job.examples import demo_text
from tests.advising.test_advise import holds, job
from tests.strategies import jobs, toml_text
from tests.whole.test_designed import CALLIPERS

pytestmark = pytest.mark.long

SEVEN = {
    "worked": demo_text,
    "hot": lambda: demo_text().replace('head = "170 degC"', 'head = "210 degC"'),
    "thin deck": lambda: demo_text().replace('deck_depth = "32 mm"', 'deck_depth = "24 mm"'),
    **{name: (lambda name=name: job(name)) for name in ("inch", "lists", "bsf", "gasket")},
}
TRIED = 40
"""sets of three keys of a job"""


BARE = {name: (lambda text=text: text) for name, text in CALLIPERS.items()}
"""given what callipers reach alone"""


@pytest.mark.parametrize("name", [*SEVEN, *BARE])
def test_brute_force_over_any_three_keys_finds_nothing_better(name):
    text = {**SEVEN, **BARE}[name]()
    best, trials = advise(text).after.counts, Trials(text)
    free = free_changes(trials.raw)
    grid = {key: [None, *changes[:: max(len(changes) // 3, 1)][:3]] for key, changes in free.items()}
    sets = list(combinations(grid, 3))
    for keys in Random(name).sample(sets, min(TRIED, len(sets))):  # noqa: S311 - a choice of keys
        for picked in product(*(grid[key] for key in keys)):
            outcome = trials.of(Design(filter(None, picked)), contact=False)
            assert outcome is None or outcome.counts >= best, [(c.key, c.value) for c in picked if c]


@given(jobs(decades=(0.0, 0.002, 0.01)))
@settings(max_examples=200, deadline=None, phases=(Phase.generate,), suppress_health_check=list(HealthCheck))
def test_every_way_of_a_drawn_job_gives_what_it_says(data):
    text = toml_text(data)
    try:
        free = list(free_changes(tomllib.loads(text)))
        found = advise(text, free[8:])
    except JobError:
        return  # a drawn job may be wrong
    for told in found.told:
        for way in told.changes[:1]:
            holds(text, way, told.finding.name)
