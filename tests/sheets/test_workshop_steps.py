"""Steps of the job sheet by what [workshop] says is at hand; without the table they are as they were."""

import pytest

from parts.checked import checked
from parts.job.shop_models import Workshop
from parts.sheets.page import steps, tools
from parts.sheets.page.words import Words


def told(demo, shop):
    done = checked(demo + (f"\n[workshop]\n{shop}\n" if shop is not None else ""))
    words = Words(done.book, done.job)
    does = {step.key.partition("-")[0]: " ".join(step.do) for step in steps(words)}
    return does, {item.what: f"{item.size} {item.note}" for item in tools(words)}


@pytest.fixture(scope="module")
def plain(demo):
    return told(demo, None)


@pytest.mark.parametrize(
    ("shop", "step", "says"),
    [
        ("scales = true", "drill", "set the readout to zero"),
        ("scales = false", "drill", "mark every hole out first, by the template at 1:1"),
        ("oven = false", "heat", "There is no oven"),
        ("steady = true", "studs", "travelling steady follows the tool"),
    ],
)
def test_a_step_follows_what_is_at_hand(demo, plain, shop, step, says):
    assert says not in plain[0][step]
    assert says in told(demo, shop)[0][step]


def test_without_an_oven_none_is_asked_for(demo, plain):
    does, items = told(demo, "oven = false")
    assert "oven" in plain[1]
    assert "oven" not in items
    assert "carbon monoxide" in does["heat"]
    assert "shut oven" not in does["heat"]


def test_saws_and_reamers_at_hand_are_named(demo, plain):
    _, items = told(demo, 'saws = ["0.50 mm"]\nreamers = ["8.00 mm"]')
    assert items["slitting saw"].endswith("for the ring's gap; at hand")
    assert items["reamer"].endswith("none of yours is of that size")
    assert "at hand" not in plain[1]["slitting saw"] + plain[1]["reamer"]


def test_a_workshop_changes_nothing_that_is_given(demo):
    one, other = (checked(text).book for text in (demo, demo + '\n[workshop]\nsaws = ["0.30 mm"]\ncnc = true\n'))
    assert {n: e.value for n, e in one.items()} == {
        n: e.value for n, e in other.items() if not n.startswith("job.workshop.")
    }
    assert set(Workshop.model_fields) >= {
        "rotary_table",
        "scales",
        "cnc",
        "printer",
        "oven",
        "steady",
        "saws",
        "reamers",
    }
