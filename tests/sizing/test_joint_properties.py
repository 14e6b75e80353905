"""What must hold for any joint, whatever its sizes."""

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from parts.checked import check
from parts.job import load
from parts.job.examples import demo_text
from parts.relations import hot, joint, press, seal, strip, turning
from parts.sizing import size
from tests.conftest import Text

FEW = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
SHARE = "preload_share = 0.37"


def sized(*changes):
    return {name: entry.value for name, entry in size(load(Text(demo_text()).swap(*changes))).items()}


@FEW
@given(low=st.floats(0.05, 0.9), more=st.floats(0.001, 0.1))
def test_more_preload_never_lowers_separation(low, more):
    less, greater = (sized(SHARE, f"preload_share = {share:.6f}") for share in (low, low + more))
    for name in ("joint.separation_factor", "joint.least_preload", "gasket.seating_stress", "gasket.working_stress"):
        assert greater[name] >= less[name]


@FEW
@given(head=st.floats(20, 250), more=st.floats(0.1, 50))
def test_a_hotter_aluminium_head_never_lowers_the_hot_preload(head, more):
    cool, hotter = (sized('head = "170 degC"', f'head = "{t:.4f} degC"') for t in (head, head + more))
    assert hotter["joint.hot_preload"] >= cool["joint.hot_preload"]


@FEW
@given(stud=st.floats(20, 200), more=st.floats(0.1, 50))
def test_hotter_studs_never_raise_it(stud, more):
    cool, hotter = (sized('stud = "145 degC"', f'stud = "{t:.4f} degC"') for t in (stud, stud + more))
    assert hotter["joint.hot_preload"] <= cool["joint.hot_preload"]


@given(d=st.floats(1, 100), wider=st.floats(1.1, 4))
def test_doubling_all_lengths_makes_four_times_the_area(d, wider):
    big = d * wider
    assert joint.washer_area(2 * big, 2 * d, d) == pytest.approx(4 * joint.washer_area(big, d, d / 2))
    assert seal.face_area(2 * big, 2 * d, 0) == pytest.approx(4 * seal.face_area(big, d, 0))
    small = {"pitch": d / 8, "engagement": big, "hole_minor": 0.85 * d, "pitch_diameter": 0.9 * d}
    large = {name: 2 * size for name, size in small.items()}
    assert strip.external_area(**large, half_angle=30) == pytest.approx(4 * strip.external_area(**small, half_angle=30))
    assert joint.gas_force(2 * d, 4) == pytest.approx(4 * joint.gas_force(d, 4))


@given(start=st.floats(6, 30), length=st.floats(0.1, 60), hole=st.floats(1, 5), modulus=st.floats(1e4, 3e5))
def test_doubling_all_lengths_doubles_a_stiffness(start, length, hole, modulus):
    """A layer that is all cone; twice as stiff gives half as much."""
    cone = (start, length, length, hole, start + 2 * length)
    assert joint.layer_compliance(*(2 * size for size in cone), modulus) == pytest.approx(
        joint.layer_compliance(*cone, modulus) / 2
    )


@given(start=st.floats(10, 20), thickness=st.floats(1, 60), cut=st.floats(0.05, 0.95))
def test_a_layer_cut_in_two_gives_the_same(start, thickness, cut):
    """Cone and tube of one metal, cut anywhere, give as the whole."""
    hole, limit, modulus = 8.0, 24.0, 73.5e3

    def gives(at, of):
        cone = joint.cone_length(at, of, limit)
        return joint.layer_compliance(at, cone, of, hole, limit, modulus), joint.cone_start(at, cone, hole)

    whole, _ = gives(start, thickness)
    upper, end = gives(start, cut * thickness)
    lower, _ = gives(end, (1 - cut) * thickness)
    assert upper + lower == pytest.approx(whole)


@given(stud=st.floats(1e3, 1e6), clamped=st.floats(1e3, 1e6), grown=st.floats(-500, 500))
def test_heat_acts_as_two_springs(stud, clamped, grown):
    """The load that makes the shorter stretch and the longer shrink until they meet."""
    load_ = hot.rise(grown, 0, stud, clamped)
    assert load_ / stud + load_ / clamped == pytest.approx(grown / 1000)


def test_units_in_are_units_out():
    """The worked job written in inches, psi and degrees Fahrenheit comes to the same sizes."""
    said = {
        "mm": lambda v: f"{v / 25.4:.12f} in",
        "bar": lambda v: f"{v * 1e5 / 6894.757293168:.9f} psi",
        "degC": lambda v: f"{v * 1.8 + 32:.9f} degF",
        "cm^3": lambda v: f"{v / 16.387064:.12f} in^3",
    }
    text = re.sub(r'"([0-9.]+) (mm|bar|degC|cm\^3)"', lambda m: f'"{said[m[2]](float(m[1]))}"', demo_text())
    assert text.count(' in"') > 20
    metric, inch = (size(load(t)) for t in (demo_text(), text))
    assert list(metric) == list(inch)
    for name, entry in metric.items():
        if isinstance(entry.value, float):
            assert inch[name].value == pytest.approx(entry.value, rel=1e-6, abs=1e-6), name
            assert inch[name].unit == entry.unit


def test_policy_without_a_share_of_the_user_s():
    """No share given: it is designed, and its ends stand beside it."""
    book = size(load(Text(demo_text()).swap(SHARE, "")))
    assert book["joint.preload_share"].status == "designed"
    assert book["joint.preload_share"].value == book["job.stud.preload_share"].value
    assert book.has("joint.preload_share_least", "joint.preload_share_most")
    assert book["joint.textbook_preload"].value == pytest.approx(0.75 * book["joint.proof_load"].value)


def test_no_temperatures_no_share():
    """Without working temperatures the policy has nothing to go by: it asks for them."""
    text = Text(demo_text()).without("engine.hot", "engine.run_up").swap(SHARE, "")
    text = "\n".join(text.split("[engine.hot]")[:1]) + "[barrel]" + text.split("\n[barrel]")[1]
    book = size(load(text))
    assert set(book.needs("joint.torque")) == {f"job.engine.hot.{part}" for part in ("stud", "head", "barrel")}


@given(interference=st.floats(0, 0.1), more=st.floats(0, 0.1), wall=st.floats(0.5, 40))
def test_tighter_is_tighter(interference, more, wall):
    outside = press.collar(10, wall)
    loose, tight = (
        press.fit_pressure(i, 10, outside, 110e3, 0.26, 0, 210e3, 0.3) for i in (interference, interference + more)
    )
    assert tight >= loose
    assert press.hoop_stress(tight, outside, 10) >= tight


@given(length=st.floats(1, 400), reach=st.floats(2, 100))
def test_sections_stay_inside_the_reach(length, reach):
    sections = turning.sections(length, reach)
    assert turning.section_length(length, sections) <= reach * (1 + 1e-12)
    assert sections == 1 or length / (sections - 1) > reach


def test_a_washer_of_which_only_some_is_measured_is_judged_all_the_same():
    """ISO 7089 for M8: a hole of 8.4 mm."""
    named = (
        'washer = "ISO 7089 300 HV"',
        'washer = { name = "turned, 200 HV", thickness = "3 mm", outside = "20 mm" }',
    )
    _, book, found = check(Text(demo_text()).swap(*named))
    assert (book["stud.washer_inside"].value, book["stud.washer_inside"].status) == (8.4, "assumed")
    assert {f.name for f in check(demo_text())[2]} <= {f.name for f in found}
