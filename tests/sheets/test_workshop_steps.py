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


def test_the_holes_are_found_by_the_drill_plate_where_there_are_no_scales(demo):
    """Told of scales, or of none, there is one way; told of nothing, both stand."""
    plate = demo + "\n[drill_plate]\n"
    ways = {shop: told(plate, shop) for shop in (None, "scales = false", "scales = true")}
    says = {shop: does["drill"] for shop, (does, _) in ways.items()}
    assert "set both dials to zero" in says[None]
    assert "Or, where the mill has no scales, through the drill plate" in says[None]
    assert says["scales = false"].startswith("There are no scales: ")
    assert "Through its bush drill 10.4 mm" in says["scales = false"]
    for unneeded in ("dials", "mark every hole", "centre of the bore", "Centre-drill"):
        assert unneeded not in says["scales = false"]
    assert "set the readout to zero" in says["scales = true"]
    assert "the drill plate is not needed here" in says["scales = true"]
    without = told(demo, "scales = false")[0]["drill"]
    assert "mark every hole out first" in without
    assert "A drill plate, [drill_plate], finds them without" in without


def test_a_seat_by_hand_is_offered_where_it_passes(demo, plain):
    """The seat held to 10 um leaves more light than closes; held to 0.2 um steps and nine arcs pass; a CNC asks for none."""
    assert "no way by hand makes it true enough" in plain[0]["mandrel"]
    assert "the pin form" in plain[0]["mandrel"]
    assert "swing" not in plain[0]["mandrel"]
    assert "by hand" not in told(demo, "cnc = true")[0]["mandrel"]
    true = told(demo.swap('form = "contoured"', 'form = "contoured"\nseat_within = "0.2 um"'), None)[0]["mandrel"]
    assert "mill steps on a rotary table every ten degrees and file them to the table of sizes across" in true
    assert "swing the 9 arcs of their table, or set them over in a four-jaw chuck" in true


def test_hoops_go_on_before_the_plate_and_come_off_after_it(demo, plain):
    does, items = plain
    on, plate, off = (
        does["heat"].index(w) for w in ("A hoop round each ring before", "A flat plate on top", "snip the hoops")
    )
    assert on < plate < does["heat"].index("Let them cool") < off
    assert items["soft iron wire"].startswith("3 of 0.8 mm × 570 mm annealed")
    fine, bought = told(demo.swap('slit = "0.50 mm"', 'slit = "0.20 mm"'), None)
    assert "hoop" not in fine["heat"]
    assert "soft iron wire" not in bought


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
