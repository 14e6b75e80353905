"""Advice against judging by hand: what it prints is what the changed file gives, and nothing smaller does as much."""

import json
import tomllib
from itertools import combinations, product
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cli.main import app
from parts.advising.advice import advise
from parts.advising.free import free_changes
from parts.advising.records import as_record, rewritten
from parts.advising.trials import Design, Trials, by_name
from parts.checked import check, judged
from parts.comparing.sweep import with_value
from parts.errors import JobError
from parts.job import load, load_data
from parts.job.edit import edited
from parts.job.examples import demo_text
from tests.strategies import toml_text
from tests.whole.test_designed import CALLIPERS

JOBS = Path(__file__).parents[1] / "jobs"
FREE_STUD = (
    "stud.preload_share",
    "stud.shank",
    "stud.washer",
    "stud.insert.length",
    "gasket.thickness",
    "plug.shoulder",
)
"""what is left free in a small check"""


def job(name):
    return demo_text() if name == "demo" else (JOBS / f"{name}.toml").read_text(encoding="utf-8")


def small(name, free):
    """Keys to keep so that only these are free."""
    return [key for key in free_changes(tomllib.loads(job(name))) if key not in free]


@pytest.fixture(scope="module")
def stud():
    """Advice on the worked job with a few keys of the joint free."""
    return advise(demo_text(), small("demo", FREE_STUD))


def verdicts(text):
    """Findings of a text by the whole check at the values taken, as each way is judged; of one name the worst."""
    found = {}
    for one in check(text, ranges=False)[2]:
        found.setdefault(one.name, one)
    return found


def counts(text):
    found = [one.verdict for one in check(text)[2]]
    return found.count("stop"), found.count("caution")


RANK = {"ok": 0, "caution": 1, "stop": 2}


def holds(text, way, name):
    """The file with a way in it gives just what the way says."""
    before, after = verdicts(text), verdicts(edited(text, {one.path: one.value for one in way.design}))
    moved = {
        n: RANK[after[n].verdict if n in after else "ok"] - RANK[before[n].verdict if n in before else "ok"]
        for n in {**before, **after}
    }
    assert {n for n, by in moved.items() if by > 0} <= set(way.worse)
    assert {n for n, by in moved.items() if by < 0} <= set(way.better)
    assert moved[name] < 0
    if way.finding is not None and way.finding.least is not None:
        changed = edited(text, {one.path: one.value for one in way.design})
        here = [f for f in check(changed, ranges=False)[2] if f.name == name]
        assert way.finding in here


def test_every_way_that_is_told_gives_what_it_says(stud):
    ways = [(way, one.finding.name) for one in stud.told for way in one.changes]
    assert len(ways) > 5
    for way, name in ways[::2]:
        holds(demo_text(), way, name)


def test_the_design_written_into_the_file_gives_the_counts_that_are_told(stud):
    text = rewritten(demo_text(), stud)
    assert counts(text) == stud.after.counts
    assert counts(demo_text()) == stud.before.counts
    assert stud.after.counts < stud.before.counts
    assert text.count("# was ") == len(stud.design) > 1
    assert '# was "6.2 mm"; waisted below' in text


def test_no_smaller_change_of_one_key_clears_a_finding(stud):
    """Exhaustive over the steps, each sized by itself, without what variants take over."""
    raw, tried = tomllib.loads(demo_text()), 0
    free = free_changes(raw)
    for told in stud.told:
        alone = [way.design[0] for way in told.changes if len(way.design) == 1]
        for key in {one.key for one in alone}:
            smallest = min(one.order[1] for one in alone if one.key == key)
            for one in free[key][:smallest]:
                found = judged(load(toml_text(with_value(raw, one.path, one.value))), contact=False).findings
                assert told.finding.name in [f.name for f in found if f.verdict != "ok"], one
                tried += 1
    assert tried > 10


@pytest.mark.parametrize(
    ("name", "free"),
    [
        ("demo", ("stud.preload_share", "stud.washer", "gasket.thickness", "plug.shoulder", "stud.insert.length")),
        ("bsf", ("stud.shank", "stud.preload_share", "gasket.thickness", "plug.tolerance")),
    ],
)
def test_brute_force_over_three_keys_finds_nothing_better(name, free):
    text = job(name)
    best, trials = advise(text, small(name, free)).after.counts, Trials(text)
    grid = {
        key: [None, *some[:: max(len(some) // 3, 1)][:3]]
        for key, some in free_changes(trials.raw).items()
        if key in free
    }
    for keys in list(combinations(grid, 3))[:4]:
        for picked in product(*(grid[key] for key in keys)):
            outcome = trials.of(Design(filter(None, picked)))
            assert outcome is None or outcome.counts >= best, [(c.key, c.value) for c in picked if c]


def test_twice_the_same_and_nothing_that_is_not_free_is_changed(stud):
    again = advise(demo_text(), small("demo", FREE_STUD))
    assert json.dumps(as_record(again)) == json.dumps(as_record(stud))
    assert {one.key for one in stud.design} <= set(FREE_STUD)
    assert {c.key for told in stud.told for way in told.changes for c in way.design} <= set(FREE_STUD)


def test_what_stands_in_the_way_is_what_the_design_does_not_have_already():
    """Of callipers alone: what is not judged says what to give, or that it may be unknown; a form is judged in the bore."""
    text = CALLIPERS["57 mm"]
    free = ("ring.radial_thickness", "mandrel.form")
    found = advise(text, [key for key in free_changes(tomllib.loads(text)) if key not in free])
    why = {finding.name: says for finding, says in found.left}
    assert [(one.key, one.value) for one in found.design] == [("ring.radial_thickness", "2.2 mm")]
    assert not [says for says in why.values() if "2.2 mm" in says]
    assert why["ring.shape_number"].startswith('mandrel.form = "contoured" would clear it, and bring ')
    assert why["mandrel.material"] == "it takes a measurement: give mandrel.material"
    assert why["not_judged.engine.hot"].endswith('or give engine.hot = "unknown", which takes its usual range')
    load(text.replace("[engine]", '[engine]\nhot = "unknown"', 1))
    assert "unknown" not in why["not_judged.ring.piston_diameter"]


def test_a_plug_in_a_passage_that_is_no_round_hole_has_no_shoulder_to_choose():
    raw = tomllib.loads(demo_text())
    del raw["barrel"]["passages"][0]["diameter"]
    raw["barrel"]["passages"][0]["slot"] = ["12 mm", "8.5 mm"]
    assert "plug.shoulder" not in free_changes(raw)


@pytest.mark.parametrize("name", ["demo", "lists"])
def test_a_variant_taken_over_from_a_design_is_the_file_with_its_changes_judged_anew(name):
    """Of what is settled on, with a change more, another instead and one less; what follows the ring is left out."""
    text = job(name)
    trials = Trials(text)
    firsts = [changes[0] for changes in free_changes(trials.raw).values() if changes[0].path[0] != "mandrel"]
    settled = [one for one in firsts[::3] if trials.of(Design((one,)), contact=False)]
    design = Design(settled)
    while design and trials.of(design, contact=False) is None:
        design = Design(design[:-1])
    trials.settle(design)
    assert len(trials._settled[not design.slow]) == 1
    tried = [design.and_((one,)) for one in firsts[1::3]] + [design.without(one) for one in design]
    for one in tried:
        if one.slow and (outcome := trials.of(one, contact=False)):
            book = judged(load_data(trials.data(one)), contact=False, ranges=False).now
            closed = by_name(book.findings)
            assert {name: outcome.found[name] for name in closed} == closed
    assert len(tried) > 10


MEASURED = (
    "engine.",
    "barrel.deck_depth",
    "barrel.skim",
    "head.thickness",
    "head.boss",
    "head.holes",
    "stud.tap_end",
    "stud.nut_end",
    "stud.friction",
)


@pytest.mark.parametrize("name", ["demo", "inch", "lists", "bsf", "gasket"])
def test_what_was_measured_is_never_free(name):
    keys = list(free_changes(tomllib.loads(job(name))))
    assert [key for key in keys if key.startswith(MEASURED) and key != "stud.nut_end_length"] == []


def test_the_pattern_turns_only_where_the_job_says_that_the_head_may():
    text = demo_text().replace("located_by =", "may_turn = true\nlocated_by =")
    assert "head.holes.turned" not in free_changes(tomllib.loads(demo_text()))
    assert "head.holes.turned" in free_changes(tomllib.loads(text))


def test_what_is_made_already_is_not_free():
    keys = free_changes({**tomllib.loads(demo_text()), "made": {"ring.outside_diameter": "57.3 mm"}})
    assert [key for key in keys if key.startswith("ring.")] == []
    assert "stud.shank" in keys


def run(*args):
    return CliRunner().invoke(app, ["advise", *map(str, args)], standalone_mode=False)


@pytest.fixture
def few(tmp_path):
    """A job with a gasket alone: its advice takes a moment."""
    path = tmp_path / "few.toml"
    path.write_text(job("gasket"), encoding="utf-8")
    return path


def test_advice_is_printed_and_written(few, tmp_path):
    out = tmp_path / "better.toml"
    result = run(few, "--write", out)
    assert result.return_value in (0, 1)
    assert counts(out.read_text(encoding="utf-8")) <= counts(few.read_text(encoding="utf-8"))
    was = out.read_bytes()
    again = run(few, "--write", out)
    assert isinstance(again.exception, JobError)
    assert "there already" in str(again.exception)
    assert out.read_bytes() == was


def test_where_something_is_not_known_it_is_said_that_ways_are_judged_at_the_values_taken(few):
    few.write_text(
        few.read_text(encoding="utf-8").replace("[head]", 'peak_pressure = "unknown"\n[head]'), encoding="utf-8"
    )
    said = "at the values taken; what is above is judged over the range of what is not known"
    assert said in run(few).stdout


def test_the_exit_code_says_whether_a_design_without_a_stop_was_found(tmp_path):
    good, bad = tmp_path / "good.toml", tmp_path / "bad.toml"
    good.write_text(job("gasket"), encoding="utf-8")
    assert run(good, "--json").return_value == 0
    bad.write_text('[engine]\nbore = "57.2 mm"\nsquish = "0.3 mm"\n[barrel]\nmaterial = "EN-GJL-250"\nskim = "1 mm"\n'
                   'outline = { circle = "112 mm" }\n[gasket]\nthickness = "1.2 mm"\nold_thickness = "1.2 mm"\n', encoding="utf-8")  # fmt: skip
    found = run(bad, "--json", "--keep", "gasket.thickness")
    record = json.loads(found.stdout)
    assert (found.return_value, record["design"]["after"]["stop"] > 0) == (1, True)


def test_a_key_that_is_not_free_is_refused_with_those_that_are(few):
    result = run(few, "--keep", "engine.bore")
    assert "engine.bore is not free" in str(result.exception)
    assert "gasket.thickness" in str(result.exception)


@pytest.mark.parametrize("nut_end", ["M5x0.8", "M6x1", "M8x1.25", "M10x1.5"])
def test_a_metric_stud_in_an_inch_shop_gets_washers_that_go_over_it(nut_end):
    """The hole of ISO 7089, to the next half thousandth up: 0.0005 in is 0.0127 mm."""
    text = demo_text().replace('print_units = "metric"', 'print_units = "inch"').replace('"M8x1.25"', f'"{nut_end}"')
    turned = [c.value for c in free_changes(tomllib.loads(text))["stud.washer"] if isinstance(c.value, dict)]
    hole = {"M5x0.8": 5.3, "M6x1": 6.4, "M8x1.25": 8.4, "M10x1.5": 10.5}[nut_end]
    assert turned
    assert all(hole - 1e-9 <= 25.4 * float(one["inside"].removesuffix(" in")) <= hole + 0.0127 for one in turned)
