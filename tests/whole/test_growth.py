"""Cost grows as the work: twice as many holes, passages, corners or rings cost twice as much more, and no clock is asked.

What is counted are calls of functions. From n to 2n to 4n a cost that grows as the work grows by steps of which the second is
twice the first; one that grows as its square, four times.
"""

import cProfile
import functools
import gc
import pstats

import pytest

from parts.checked import checked
from parts.sheets.page.plan import deck_plan
from parts.sheets.page.words import Words
from parts.sheets.templates import deck_template
from tests.growing import job_with

STEP = 2.5  # a quarter of the way from 2 to 4


def forget():
    """Empty what the relations keep, else the first job alone would pay."""
    for one in gc.get_objects():
        if isinstance(one, functools._lru_cache_wrapper) and f"{one.__module__}".startswith("parts.relations"):
            one.cache_clear()


def calls(work, *given):
    """Number of calls of a piece of work."""
    forget()
    counter = cProfile.Profile()
    counter.runcall(work, *given)
    return pstats.Stats(counter).total_calls


def grows_as_the_work(counts):
    few, some, many = counts
    return many - some <= STEP * (some - few)


@pytest.mark.parametrize(
    ("kind", "numbers"),
    [("holes", (9, 18, 36)), ("passages", (9, 18, 36)), ("corners", (50, 100, 200)), ("rings", (2, 4, 8))],
)
def test_a_check(kind, numbers):
    checked(job_with(kind, numbers[0]))  # loads what is loaded but once
    assert grows_as_the_work([calls(checked, job_with(kind, n)) for n in numbers])


@pytest.mark.parametrize(
    ("kind", "numbers"), [("holes", (9, 18, 36)), ("passages", (9, 18, 36)), ("corners", (50, 100, 200))]
)
def test_paper_of_the_deck(kind, numbers, tmp_path):
    def paper(done):
        deck_template(done.book, done.job, done.findings, tmp_path)
        deck_plan(Words(done.book, done.job), done.shapes["head-gasket"])

    (tmp_path / "parts").mkdir()
    jobs = [checked(job_with(kind, n)) for n in numbers]
    paper(jobs[0])
    assert grows_as_the_work([calls(paper, done) for done in jobs])


def test_a_square_would_be_seen():
    assert grows_as_the_work([3 + 7 * n for n in (9, 18, 36)])
    assert not grows_as_the_work([100 + 7 * n + n * n for n in (9, 18, 36)])
