"""What is lacking, told so that it can be read: counted by hand."""

import pytest

from parts.judging.lacking import lacking


@pytest.mark.parametrize(
    ("keys", "told", "more"),
    [(1, 1, ""), (6, 6, ""), (7, 7, ""), (8, 6, " and 2 more"), (11, 6, " and 5 more")],
)
def test_a_long_list_of_keys_is_cut_where_that_saves_more_than_one(keys, told, more):
    ((need, _),) = lacking({"deck.floor": [f"job.spare.key_{n}" for n in range(keys)]})
    assert need.count("spare.key_") == told
    assert need.endswith(f"spare.key_{told - 1}{more}")


@pytest.mark.parametrize(("sizes", "told"), [(1, "s0"), (3, "s0, s1, s2"), (4, "s0, s1, s2 and 1 more")])
def test_sizes_that_wait_for_one_key_are_told_together(sizes, told):
    assert [names for _, names in lacking({f"s{n}": ["job.spare.key"] for n in range(sizes)})] == [told]


def test_each_need_is_told_once_in_the_order_of_the_sizes():
    found = lacking({"a": ["job.one.key"], "b": ["job.two.key"], "c": ["job.one.key"]})
    assert [names for _, names in found] == ["a, c", "b"]
