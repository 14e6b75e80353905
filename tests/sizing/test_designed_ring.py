"""Rings that are designed, against the standard's tables, the textbook's share of the bore, and the rules that judge them."""

import re

import pytest

from parts.checked import checked
from parts.errors import JobError
from parts.job import load
from parts.judging.findings import judge
from parts.sizing import size

# IS 8422-2:1977, table 1: bore, radial thickness; each satisfies d4 = d1 - 2 a1
THICKNESS = (
    (30, 1.25), (34, 1.45), (35, 1.45), (40, 1.7), (42, 1.75), (44, 1.85), (45, 1.9), (50, 2.1), (52, 2.2), (53, 2.25),
    (54, 2.3), (55, 2.3), (56, 2.35), (57, 2.45), (58, 2.45), (60, 2.55), (62, 2.6), (63, 2.65), (64, 2.7),
)  # fmt: skip
# the same table: bore, radial thickness, width, tangential force [N] within 20 %
TENSION = (
    (50, 2.1, 1.5, 6.7), (50, 2.1, 2.0, 8.9), (50, 2.1, 2.5, 11.2), (60, 2.55, 1.5, 8.3), (60, 2.55, 2.0, 11.1),
    (64, 2.7, 1.5, 8.7), (64, 2.7, 2.0, 11.6),
)  # fmt: skip
BARE = """
[engine]
bore = "{bore} mm"

[barrel]
material = "EN-GJL-250"

[ring]
count = 3
groove = {{ width = "{groove} mm", root_diameter = "{root:.2f} mm" }}
{more}
"""


def ring(bore, groove=2.05, *, more="", root=None):
    """Book of a bare ring in a bore [mm], its groove as deep as the textbook makes it."""
    deep = bore - 2 * (bore / 23 + 0.5) if root is None else root
    return size(load(BARE.format(bore=bore, groove=groove, root=deep, more=more)))


@pytest.mark.parametrize(("bore", "printed"), THICKNESS)
def test_its_thickness_is_the_standard_s_within_a_step_of_its_table(bore, printed):
    assert ring(bore)["job.ring.radial_thickness"].value == pytest.approx(printed, abs=0.0501)


def test_most_thicknesses_are_the_standard_s_to_the_figure():
    same = [b for b, a in THICKNESS if ring(b)["job.ring.radial_thickness"].value == pytest.approx(a, abs=1e-6)]
    assert len(same) >= 15, same


@pytest.mark.parametrize(("bore", "thickness", "width", "printed"), TENSION)
def test_its_tension_is_the_standard_s_within_the_standard_s_own_tolerance(bore, thickness, width, printed):
    more = f'axial_width = "{width} mm"\nradial_thickness = "{thickness} mm"'
    assert ring(bore, more=more)["ring.tangential_force"].value == pytest.approx(printed, rel=0.2)


@pytest.mark.parametrize("bore", [50, 57.2, 60, 64, 75, 90, 100])
def test_its_gap_is_the_textbook_s_share_of_the_bore(bore):
    """Khurmi and Gupta, A Textbook of Machine Design, ch. 32: 0.002 to 0.004 of the bore."""
    assert 0.002 * bore <= ring(bore)["job.ring.closed_gap"].value <= 0.004 * bore + 1e-9


@pytest.mark.parametrize("bore", [34, 40])
def test_in_a_small_bore_the_finest_saw_sets_the_gap_which_the_rules_still_take(bore):
    book = ring(bore)
    assert book["job.ring.slit"].value == book["job.ring.closed_gap"].value == 0.2
    assert 0.002 * bore <= 0.2 <= 0.006 * bore


@pytest.mark.parametrize(
    ("saws", "slit", "gap"),
    [
        ('["0.30 mm", "0.50 mm"]', 0.3, 0.3),  # in the band of the rule: split by as much as its gap
        ('["0.10 mm"]', 0.1, 0.18),
        ('["0.80 mm", "0.60 mm"]', 0.6, 0.18),
    ],
)
def test_the_saw_at_hand_sets_the_gap_where_it_is_neither_too_fine_nor_too_wide(saws, slit, gap):
    text = BARE.format(bore=57.2, groove=2.42, root=51.4, more="") + f"\n[workshop]\nsaws = {saws}\n"
    book = size(load(text))
    assert book["job.ring.slit"].value == pytest.approx(slit)
    assert book["job.ring.closed_gap"].value == pytest.approx(gap)
    assert ("none is as narrow" in book["job.ring.slit"].source) == (slit > gap)


def test_a_given_gap_takes_the_widest_saw_that_is_no_wider():
    assert ring(57.2, more='closed_gap = "0.28 mm"')["job.ring.slit"].value == 0.25
    assert ring(57.2, more='slit = "0.30 mm"')["job.ring.closed_gap"].value == pytest.approx(0.3)


def test_a_ring_hot_in_a_cold_bore_keeps_a_gap(demo):
    hot = re.sub(r"^(closed_gap|slit).*\n", "", demo, flags=re.MULTILINE).replace(
        'ring = "200 degC"', 'ring = "320 degC"'
    )
    book = size(load(hot), contact=False)
    assert book["ring.gap_for_heat"].value > book["ring.gap_for_bore"].value
    assert book["ring.hot_gap"].value >= 0.05


@pytest.mark.parametrize("form", ["contoured", "pin", "round"])
@pytest.mark.parametrize("bore", [34, 57.2, 90])
def test_no_stress_of_it_is_more_than_the_iron_stands(bore, form):
    text = BARE.format(bore=bore, groove=2.42, root=bore - 2 * (bore / 23 + 0.5), more="")
    job = load(text + f'\n[mandrel]\nform = "{form}"\nmaterial = "C45"\n')
    book = size(job, contact=False)
    found = {f.name: f.verdict for f in judge(book, job)}
    for name in ("ring.working_stress", "mandrel.opened_stress", "ring.contact_pressure", "ring.slenderness"):
        assert found[name] == "ok", name
    assert found["ring.fitting_share"] != "stop"
    gaps = {n: book[f"ring.gap_for_{n}"].value for n in ("pressure", "work", "opening")}
    assert book["job.ring.free_gap"].value == pytest.approx(min(gaps.values()), abs=0.01)


def test_what_decides_the_free_gap_is_told():
    """An iron twice as strong leaves the pressure to decide; a weak one the stress."""
    strong = 'material = { name = "ring iron, grey", bending_strength = "600 MPa" }'
    assert "the pressure on the wall decides" in ring(57.2, more=strong)["job.ring.free_gap"].source
    assert "the stress at work decides" in ring(57.2)["job.ring.free_gap"].source


def test_a_shallow_groove_makes_the_ring_thinner_and_too_shallow_a_one_is_a_fault_of_the_groove():
    assert ring(57.2, root=52.6)["job.ring.radial_thickness"].value == pytest.approx(1.9)
    with pytest.raises(JobError, match=r"ring\.groove\.root_diameter: must be at most 54\.39 mm .* not 56\.5 mm"):
        ring(57.2, root=56.5)


def test_a_ring_needs_its_groove_or_both_its_sizes():
    text = '[engine]\nbore = "57 mm"\n[ring]\naxial_width = "2 mm"\n'
    with pytest.raises(JobError, match=r"ring \(line 3\): wants its groove, or axial_width and radial_thickness"):
        load(text)
    book = size(load(text + 'radial_thickness = "2.4 mm"\n'))
    assert {n for n, e in book.items() if e.status == "designed"} == {
        f"job.ring.{key}" for key in ("material", "free_gap", "closed_gap", "slit")
    }


def test_the_designed_ring_is_made(demo):
    keys = r'^(axial_width|radial_thickness|free_gap|closed_gap|slit|material = "ring iron).*\n'
    done = checked(re.sub(keys, "", demo, flags=re.MULTILINE))
    assert {"ring-blank", "ring-split", "expander-mandrel"} <= done.shapes.keys()
