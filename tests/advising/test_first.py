"""The first advice, which a make tells: against the changed file judged by itself, and against every smaller one."""

import json
import re
from html import unescape
from itertools import takewhile

import pytest
from typer.testing import CliRunner

from cli.main import app
from parts.advising.first import with_first_advice
from parts.advising.free import free_changes
from parts.advising.trials import Design, Trials
from parts.advising.words import against
from parts.checked import check
from parts.job.edit import edited
from parts.job.examples import demo_text
from parts.judging.finding import Finding
from tests.advising.test_advise import RANK, counts, job, verdicts

BROKEN = demo_text().replace("preload_share = 0.37", "preload_share = 0.72")


def first(text):
    return [one for one in with_first_advice(text, check(text, ranges=False)[2]) if one.changes]


def written(text, way):
    """The job file with a way in it."""
    return edited(text, {tuple(one["key"].split(".")): one["to"] for one in way["set"]})


@pytest.mark.parametrize(
    "text", [demo_text(), BROKEN, job("inch"), job("bsf")], ids=["worked", "too tight", "inch", "bsf"]
)
def test_the_changed_file_gives_what_is_said(text):
    before, found = verdicts(text), first(text)
    assert len(found) > 1
    for one in found:
        (way,) = one.changes
        changed = written(text, way)
        after = verdicts(changed)
        assert RANK[way["verdict"]] < RANK[one.verdict]
        assert way["verdict"] == (after[one.name].verdict if one.name in after else "ok")
        worse = {n for n, f in after.items() if RANK[f.verdict] > RANK[before[n].verdict if n in before else "ok"]}
        assert worse == set(way["worse"])
        assert counts(changed) <= counts(text)


def test_no_smaller_value_of_its_key_clears_it():
    trials = Trials(demo_text())
    free, tried = free_changes(trials.raw), 0
    for one in first(demo_text()):
        (change,) = one.changes[0]["set"]
        name = next(n for n in trials.base.ranks if n[0] == one.name)
        for smaller in takewhile(lambda c, to=change["to"]: c.value != to, free[change["key"]]):
            outcome = trials.of(Design((smaller,)), contact=False)
            assert outcome is None or name in outcome.ranks, smaller
            tried += 1
    assert tried > 5


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A folder made of a job with a stud alone that is tightened too far."""
    folder = tmp_path_factory.mktemp("made")
    text = re.sub(r"\n\[(plug|ring|mandrel)\]\n(?:[^\[\n].*\n)*", "\n", BROKEN).replace("blank = true", "blank = false")
    (folder / "job.toml").write_text(text, encoding="utf-8")
    return folder


def make(folder):
    return CliRunner().invoke(
        app, ["make", str(folder / "job.toml"), "--into", str(folder / "out")], standalone_mode=False
    )


def test_a_make_and_its_page_tell_it_and_so_does_one_that_finds_all_as_it_was(made):
    result = make(made)
    records = json.loads((made / "out" / "findings.json").read_text(encoding="utf-8"))
    advised = [one for one in records if "changes" in one]
    assert any(one["verdict"] == "stop" for one in advised)
    page = re.sub(r"<[^>]*>", "", unescape((made / "out" / "index.html").read_text(encoding="utf-8")))
    for one in advised:
        change = one["changes"][0]["set"][0]
        assert f"{change['key']}: " in result.stdout
        assert one["changes"][0]["says"] in result.stdout
        assert f"{change['key']}: " in page
    assert make(made).stdout.splitlines()[1:] == result.stdout.splitlines()[1:]


def test_what_needs_no_advice_has_none():
    text = demo_text()
    found = with_first_advice(text, check(text)[2])
    assert not [one for one in found if one.changes and one.verdict == "ok"]
    assert with_first_advice(text, ok := [one for one in found if one.verdict == "ok"]) == ok
    made = text + '\n[made]\n"stud.shank_diameter" = "6.0 mm"\n'
    assert not [one for one in with_first_advice(made, check(made)[2]) if one.changes]


def test_a_value_stands_against_its_limit_in_the_units_of_the_sheets():
    """0.1 in and 1 lbf by hand; a share has no unit."""
    found = Finding("some", "caution", 2.54, 5.08, "mm", "", "")
    assert against(found, "metric") == "2.54 mm against 5.08 mm"
    assert against(found, "inch") == "0.1000 in against 0.2000 in"
    assert against(found._replace(value=4.4482216, limit=8.8964432, unit="N"), "inch") == "1.0 lbf against 2.0 lbf"
    assert against(found._replace(unit="1", limit=None), "inch") == ""
