"""What the trade knows, as check values: common practice, no source, each of them."""

from itertools import pairwise

import pytest

from parts.job import load
from parts.job.material_models import MaterialSpec
from parts.judging.findings import judge
from parts.judging.metal_choices import soft_above
from parts.relations import compression
from parts.sizing import size


def judged(text):
    job = load(text)
    book = size(job)
    return book, {f.name: f for f in judge(book, job)}


def test_truing_a_deck_hardly_moves_the_ratio(demo):
    """Truing takes some 25 um: well under 0.5 % of the ratio. Common practice, no source."""
    plain, trued = (
        judged(demo.swap('skim = "0.12 mm"', f'skim = "{skim} mm"'))[0]["compression.ratio_after"].value
        for skim in (0, 0.025)
    )
    assert 0 < trued / plain - 1 < 0.003


@pytest.mark.parametrize("waist", [50, 60])
def test_a_long_m8_stud_takes_about_three_sections(demo, waist):
    """A long stud of M8 reduced to 6 mm is turned in about three sections, chuck alone. Common practice, no source."""
    head = 46 + waist - 37.1
    long = demo.swap('thickness = "46 mm"', f'thickness = "{head} mm"', 'shank = "6.2 mm"', 'shank = "6 mm"')
    long = long.swap('material = "42CrMo4 +QT"', 'material = "C45 +QT"')
    book, _ = judged(long.swap('tap_end = "M10x1.5"', 'tap_end = "M8x1.25"', "tailstock = true", "tailstock = false"))
    assert book["turning.length"].value == pytest.approx(waist, abs=2)
    assert book["turning.sections"].value in (2, 3, 4)
    assert book["turning.sections_tailstock"].value in (1, 2)


def test_a_shank_at_6_05_for_6_00_stands_in_its_hole(demo):
    """Its shank at 6.05 for 6.00 stands in a clearance hole: no finding, no length moves. Common practice, no source."""
    right, thick = (judged(demo.swap('shank = "6.2 mm"', f'shank = "{d} mm"')) for d in ("6.00", "6.05"))
    assert thick[1]["stud.shank_diameter"].verdict == "ok"
    assert thick[0]["stud.length"].value == right[0]["stud.length"].value
    assert thick[0]["joint.torque"].value == pytest.approx(right[0]["joint.torque"].value, rel=0.02)


def test_brazing_comes_first_and_cools_slowly(demo):
    """Cast iron is heated before brazing and cools slowly; no torch after the bond. Common practice, no source."""
    says = judged(demo)[1]["deck.order"].says
    assert "cooled slowly" in says
    assert "plug no passage with a bond until all is cold" in says


def test_a_gauge_reads_six_to_nine_bar_at_seven_to_one():
    """Small side-valve and overhead-valve engines near 7 to 1 read 6 to 10 bar. Common practice, no source."""
    low, high = (10 * compression.cranking_pressure(7, exponent) for exponent in (1.0, 1.2))
    assert 5 < low < 7
    assert 8.5 < high < 10.5


def test_another_gasket_is_a_row_of_the_table(demo):
    """A thicker gasket lowers ratio and opens the squish, by its thickness. Plane geometry."""
    book, _ = judged(demo)
    rows = [{k: book[f"compression.at.{n}.{k}"].value for k in ("thickness", "ratio", "squish")} for n in range(1, 6)]
    assert [row["thickness"] for row in rows] == pytest.approx([0.6, 0.9, 1.2, 1.5, 1.8])
    assert rows[2]["ratio"] == pytest.approx(book["compression.ratio_after"].value)
    for thin, thick in pairwise(rows):
        assert thick["ratio"] < thin["ratio"]
        assert thick["squish"] - thin["squish"] == pytest.approx(0.3)


@pytest.mark.parametrize(("family", "least", "most"), [("aluminium", 200, 300), ("copper", 300, 450)])
def test_a_metal_told_by_its_family_softens_where_the_softest_of_it_does(family, least, most):
    """An aged aluminium loses its temper past some 200 to 300 degC, brass and copper anneal from some 300 to 450. Memory."""
    heat, sure = soft_above(MaterialSpec(name="an old lid", family=family))
    assert sure
    assert least <= heat <= most
