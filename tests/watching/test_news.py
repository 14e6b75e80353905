"""What a save changed, as told: the oracle is what `check` says of the file before and after, compared by plain means."""

import pytest

from parts.checked import checked
from parts.judging.finding import Finding
from parts.watching.news import MOST, news


@pytest.fixture(scope="module")
def before(demo):
    return checked(demo)


def test_a_changed_key_is_told_first_and_then_what_moved_most(before, demo):
    after = checked(demo.swap('shank = "6.2 mm"', 'shank = "6.1 mm"'))
    sizes = [line.says for line in news(before, after) if not line.verdict]
    moved = [
        name
        for name, entry in after.book.items()
        if not isinstance(entry.value, list) and entry.value != before.book[name].value
    ]
    assert sizes[0] == "stud.shank  6.200 mm -> 6.100 mm"
    # Steiner: the second moment goes by the fourth power of the diameter, by hand pi/64 6.2^4 = 72.53
    assert "turning.second_moment  72.533 mm^4 -> 67.966 mm^4" in sizes
    assert len(sizes) == MOST + 1
    told = int(sizes[-1].split()[1]) + MOST
    assert 10 < told <= len(moved)  # those whose printed figure stays are not told


def test_every_verdict_that_turned_is_told_the_worst_first(before, demo):
    after = checked(demo.swap('shank = "6.2 mm"', 'shank = "7.9 mm"'))
    old, new = ({(f.name, f.least): f.verdict for f in one.findings} for one in (before, after))
    assert old.keys() == new.keys()
    turned = sorted((now, old[key]) for key, now in new.items() if old[key] != now)
    lines = [line for line in news(before, after) if line.verdict]
    assert sorted((line.verdict, line.says.partition(":")[0].removeprefix("was ")) for line in lines) == turned
    assert {line.verdict for line in lines} >= {"stop", "caution"}
    assert [line.verdict for line in lines] == sorted(
        (line.verdict for line in lines), key=("stop", "caution", "ok").index
    )


def test_what_comes_and_goes_with_a_part_is_told(before, demo):
    after = checked(demo.without("mandrel", "ring"))
    for lines, word, verdict in (
        (news(before, after), "gone, was caution: ", "ok"),
        (news(after, before), "new: ", "caution"),
    ):
        told = [line for line in lines if line.says.startswith(word)]
        bad = [f for f in before.findings if f.verdict != "ok" and f.name not in {g.name for g in after.findings}]
        assert len(bad) > 2
        assert {line.says.removeprefix(word).partition("  [")[0] for line in told} >= {f.says for f in bad}
        assert {line.verdict for line in told} == {verdict}


def test_nothing_is_told_of_what_stays(before, demo):
    assert news(before, checked(f"# a remark\n{demo}")) == []


def test_findings_of_one_name_are_told_apart(before):
    """Two limits of one size: the lower turns, the upper stays."""
    low, high = (
        Finding("a.b", "ok", 1.0, 2.0, "mm", says, "by hand", least=least)
        for says, least in (("low", True), ("high", False))
    )
    one = before.__class__(before.job, before.book, [low, high], {})
    other = before.__class__(before.job, before.book, [high, low._replace(verdict="stop")], {})
    assert [(line.verdict, line.says) for line in news(one, other)] == [("stop", "was ok: low  [by hand]")]


def test_a_first_job_is_told_as_it_stands(before):
    lines = news(None, before)
    bad = [f for f in before.findings if f.verdict != "ok"]
    assert lines[0].says == f"{len(before.findings)} findings, {len(bad)} to look at"
    assert [line.says for line in lines[1:]] == [f"{f.says}  [{f.source}]" for f in bad]


def test_inches_are_told_in_inches(demo):
    inch = demo.swap('print_units = "metric"', 'print_units = "inch"')
    lines = news(checked(inch), checked(inch.swap('shank = "6.2 mm"', 'shank = "6.1 mm"')))
    assert "stud.shank  0.2441 in -> 0.2402 in" in [line.says for line in lines]
