"""The pressed plug in its worst state: smoothing by DIN 7190-1 (memory), every heat, the hole as it was measured."""

from math import pi

import pytest

from parts.job import load
from parts.judging.findings import judge
from parts.relations import press
from parts.sizing import size

FIT, PASSAGE = 'fit = "bonded"', '"8.50 mm"'


def judged(text):
    job = load(text)
    book = size(job, contact=False)
    return book, {f.name: f for f in judge(book, job)}


def pressed(demo, tolerance, *more):
    return judged(demo.swap(FIT, f'fit = "press"\ntolerance = "{tolerance}"', *more))


def test_turned_faces_lose_ten_microns(demo):
    """0.8 (6.3 + 6.3) um = 10.08; 8.5 r6 in H7 has 19 - 15 = 4 um least (ISO 286-2: +28/+19, +15/0): none is left."""
    book, found = pressed(demo, "r6")
    assert book["plug.smoothing"].value == pytest.approx(0.01008)
    assert book["plug.interference_left"].value == pytest.approx(0.004 - 0.01008)
    assert found["plug.push_out_times"].verdict == "stop"
    assert book["plug.push_out_force"].value == 0


def test_the_greatest_is_judged_with_its_peaks_standing(demo):
    """What bursts the iron is the whole 28 um: no relief by smoothing on the side that is unsafe."""
    book, _ = pressed(demo, "r6")
    whole = 0.028 * book["plug.fit_stiffness"].value
    assert book["plug.pressure_greatest_cold"].value == pytest.approx(whole)


def test_a_measured_hole_takes_the_place_of_h7(demo):
    """The passage read to 2 um: the least is 19 - 2, not 19 - 15, and the greatest 28 + 2."""
    book, _ = pressed(demo, "r6", PASSAGE, '"8.50 mm ± 0.002 mm"')
    assert book["plug.interference_min"].value == pytest.approx(0.017)
    assert book["plug.interference_max"].value == pytest.approx(0.030)


def test_the_fit_wanted_just_holds_and_the_fit_allowed_just_does_not_burst(demo):
    """Lame forwards, from the two interferences worked backwards."""
    book, _ = pressed(demo, "r6")
    value = {n: book[n].value for n in book if not isinstance(book[n].value, list)}
    growth = min(0.0, *(v for n, v in value.items() if n.startswith("plug.growth_")))
    left = value["plug.interference_wanted"] - 0.01008 + growth
    push = left * value["plug.fit_stiffness"] * pi * 8.5 * 12 * value["job.plug.friction"]
    assert push == pytest.approx(value["plug.gas_force"], rel=1e-6)
    tightest = value["plug.interference_allowed"] + value["plug.growth_most"]
    pressure = tightest * value["plug.fit_stiffness"]
    hoop = press.hoop_stress(pressure, value["plug.collar"], 8.5)
    assert hoop == pytest.approx(value["plug.iron_strength"], rel=1e-6)


def test_every_hot_state_counts(demo):
    """Brass in iron is tightest where the barrel is hottest, after a hot stop at 220 degC: 8.5 9.45e-6 200 = 16.1 um."""
    stop = '[engine.hot_stop]\nstud = "180 degC"\nhead = "200 degC"\nbarrel = "220 degC"\n\n[engine.run_up]'
    book, _ = pressed(demo, "p6", 'material = "11SMn30"', 'material = "CuZn39Pb3"', "[engine.run_up]", stop)
    states = {s: book[f"plug.pressure_greatest_{s}"].value for s in ("cold", "hot", "run_up", "hot_stop")}
    assert book["plug.growth_hot_stop"].value == pytest.approx(8.5 * 9.45e-6 * 200, abs=1e-6)
    assert book["plug.pressure_worst"].value == states["hot_stop"] == max(states.values())


def test_a_steel_plug_in_aluminium_is_loose_hot(demo):
    """The hole grows by 8.5 10.25e-6 140 = 12.2 um more than the plug."""
    book, found = pressed(demo, "s6", 'material = "EN-GJL-250"', 'material = "AlSi7Mg0.3 T6"')
    assert book["plug.growth_hot"].value == pytest.approx(-8.5 * 10.25e-6 * 140, abs=1e-6)
    assert found["plug.push_out_times"].verdict == "stop"
    assert found["plug.press_pair"].verdict == "caution"


def test_a_shoulder_is_a_way_out(demo):
    """With n6, for p6 bursts iron of 180 MPa; 12 mm across, 3 mm thick: pi 8.5 3 0.6 460 = 22.1 kN of shear, or pi/4 (144 - 72.25) of iron at its strength."""
    shoulder = 'fit = "press"\ntolerance = "n6"\nshoulder = { diameter = "12 mm", thickness = "3 mm" }'
    book, found = judged(demo.swap(FIT, shoulder))
    iron = pi / 4 * (144 - 72.25) * book["plug.iron_strength"].value
    assert book["plug.shoulder_force"].value == pytest.approx(iron)
    assert [f.name for f in found.values() if f.name.startswith("plug.") and f.verdict == "stop"] == []


def test_where_tighter_and_looser_both_stop_the_finding_says_what_does_hold(demo):
    _, found = pressed(demo, "r6")
    says = found["plug.interference_wanted"].says
    for word in ("0.011 mm to 0.021 mm over it", "shoulder", "threaded plug", "finer finish"):
        assert word in says


@pytest.mark.parametrize(("face", "verdict"), [("66 mm", "ok"), ("80 mm", "caution")])
def test_the_gas_pushes_on_a_plug_outside_the_ring_only_where_the_gasket_leaks(demo, face, verdict):
    """The passage's inner edge lies at 42 - 4.25 = 37.75 mm."""
    found = judged(demo.swap('joint_face = "66 mm"', f'joint_face = "{face}"'))[1]["plug.under_face"]
    assert found.verdict == verdict
    assert ("that case" in found.says) == (verdict == "ok")


def test_frost_shrinks_a_light_barrel_on_its_plug(demo):
    """8.5 (11.5 - 21.75) 1e-6 (-10 - 20) = 2.614 um tighter at -10 degC than cold; hot it is the looser."""
    book, _ = pressed(demo, "r6", '"EN-GJL-250"', '"AlSi7Mg0.3 T6"', '"bronze braze"', '"screwed iron plug"')
    assert book["plug.growth_frost"].value == pytest.approx(8.5 * 10.25e-6 * 30)
    whole = (0.028 + 8.5 * 10.25e-6 * 30) * book["plug.fit_stiffness"].value
    assert book["plug.pressure_worst"].value == pytest.approx(whole)


def test_a_wall_that_a_drill_leaves_is_no_stronger_than_its_casting(demo):
    """EN 1561 for EN-GJL-250: 170 MPa at 40 mm, 195 at 20; the deck of 32 mm has 180, a wall of 9 mm as cast 230."""
    book, _ = pressed(demo, "r6", PASSAGE, '"8.50 mm"')
    assert book["plug.wall"].value < 20
    assert book["plug.iron_strength"].value == pytest.approx(195 - (195 - 170) * 12 / 20)
