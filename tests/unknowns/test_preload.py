"""The preload that is designed where something is not known: against the verdicts themselves, value by value."""

import re

import pytest

from cli.explain import explain
from parts.checked import checked, judged
from parts.job import load
from tests.sizing.test_designed_preload import LIMITS, MIDWAY, changed
from tests.unknowns.jobs import SEVEN

RUN_IN, RUN_UP = "engine.hot", "engine.run_up"
JOBS = ["the stud's heat over the gasket", "the stud's heat over settling"]


def with_heat(text, table, key, value):
    """A job's text with one temperature."""
    start = text.index(f"[{table}]")
    return text[:start] + re.sub(rf'^{key} = "[^"]*"', f'{key} = "{value}"', text[start:], count=1, flags=re.MULTILINE)


def cautions(text, share, low, high):
    """How many limits of the preload are broken with such a share, the stud at ten temperatures of the range."""
    fixed = text.replace("[stud]\n", f"[stud]\npreload_share = {share}\n")
    heats = [low + n * (high - low) / 9 for n in range(10)]
    found = [judged(load(with_heat(fixed, RUN_IN, "stud", f"{t} degC")), contact=False).findings for t in heats]
    mind = [f.name for some in found for f in some if f.verdict != "ok" and LIMITS.fullmatch(f.name)]
    return sum(name != "strip.sound_force" for name in mind)  # hole 1 is part filler, whatever the preload


def test_explain_tells_the_share_and_the_torque_of_the_sheets(demo, tmp_path, capsys):
    """Not those that were designed at the values taken, which led out of what every state leaves."""
    text = with_heat(changed(demo, MIDWAY[JOBS[0]]), RUN_IN, "stud", "unknown")
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    book = checked(text).book
    for name, told in (("job.stud.preload_share", "{:.4f}"), ("joint.torque", "{:.3f} N m")):
        explain(tmp_path / "job.toml", name)
        assert capsys.readouterr().out.startswith(f"{name} = {told.format(book[name].value)}\n")


@pytest.mark.parametrize("name", JOBS)
def test_it_lies_where_every_state_leaves_it_room(demo, name):
    text = changed(demo, MIDWAY[name])
    done = checked(with_heat(text, RUN_IN, "stud", "unknown"))
    share, ends = (
        done.book["job.stud.preload_share"],
        [done.ranges[f"joint.preload_share_{end}"] for end in ("least", "most")],
    )
    assert share.status == "designed"
    assert share.value == pytest.approx((ends[0][1] + ends[1][0]) / 2)
    assert "every state" in share.source
    window = next(f for f in done.findings if f.name == "joint.preload_window")
    assert (window.verdict, "every state" in window.says) == ("ok", True)
    (stud,) = done.unknowns
    taken = sum(done.book[f"joint.preload_share_{end}"].value for end in ("least", "most")) / 2
    broken = [cautions(text, one, stud.low, stud.high) for one in (share.value, taken)]
    assert broken[0] == 0 < broken[1]


def test_where_no_share_holds_in_every_state_the_two_limits_are_named(demo):
    done = checked(with_heat(changed(demo, MIDWAY[JOBS[0]]), RUN_UP, "head", "unknown"))
    window = next(f for f in done.findings if f.name == "joint.preload_window")
    assert window.verdict == "caution"
    assert "holding the gasket at peak pressure" in window.says
    assert "the stud's proof load in the run-up" in window.says


@pytest.mark.parametrize("name", SEVEN)
def test_no_share_is_designed_that_nobody_tightens_to(name):
    """A fifth of the proof load is the least that its own rule has in order; where nothing stops it, a tenth."""
    done = checked(re.sub(r"^preload_share = .*\n", "", SEVEN[name], flags=re.MULTILINE))
    shares = [e.value for n, e in done.book.items() if n.endswith(".preload_share") and e.status == "designed"]
    assert shares or "[stud]" not in SEVEN[name]
    assert all(0.2 <= share <= 0.75 for share in shares)
