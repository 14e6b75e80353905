"""Old holes, what fills them, and what a material is: each case as a machinist would judge it.

Melting ranges and heats of brazing are handbook values from memory: aluminium alloys from some 500 to 660 degC, brass
some 880 to 940, copper 1083, grey iron 1150 to 1250; a bronze rod flows between 870 and 950.
"""

import csv
import re
from math import pi

import pytest

from parts import tables
from parts.job import load
from parts.judging.findings import judge
from parts.sizing import size
from parts.tables.read import HERE, table

WORST = ("ok", "caution", "stop")
TURNED = 'turned = "0 deg"'
BARREL = 'material = "EN-GJL-250"'


def judged(text):
    job = load(text)
    book = size(job, contact=False)
    return book, {f.name: f for f in judge(book, job)}


def test_a_thin_wall_is_no_gain_over_a_third_in_filler(demo):
    """The pattern turned by 15.83 degrees leaves 0.08 mm before the filler (law of cosines), and is not better for it.

    cos a = (39^2 + 41.725^2 - 10.855^2) / (2 39 41.725), a = 14.86 degrees; hole 1 stands at 44.03, the old one at 45.
    """
    into, beside, clear = (judged(demo.swap(TURNED, f'turned = "{by} deg"'))[1] for by in (0, 15.83, 40))
    assert "deck.hole.1.unsound" not in into  # what lies in filler says it already
    assert into["deck.hole.1.in_filler"].verdict == "caution"
    assert beside["deck.hole.1.in_filler"].verdict == "ok"
    assert beside["deck.hole.1.unsound"].verdict == "caution"
    assert WORST.index(max(f.verdict for n, f in beside.items() if n.startswith("deck.thinnest"))) == 2
    assert clear["deck.hole.1.unsound"].verdict == "ok"


def test_the_thread_is_trusted_only_where_metal_backs_it(demo):
    """Beside a wall of 0.08 mm the thread holds less than its whole, by the share without metal behind it."""
    book, _ = judged(demo.swap(TURNED, 'turned = "15.83 deg"'))
    assert 0.13 < book["deck.hole.1.unsound"].value < 0.16  # 26.3 degrees of 180 at most: asin(4.8/10.855)
    share = max(book[f"deck.hole.{n}.unsound"].value for n in (1, 2, 3, 4))
    assert book["strip.sound_force"].value == pytest.approx((1 - share) * book["strip.parent_force"].value)


@pytest.mark.parametrize("liner", ["60 mm", "66 mm"])
def test_the_metal_to_the_bore_is_the_casting_s(demo, liner):
    """With a liner, from the liner's seat: half of what it is wider than the bore of 57.2 mm is gone."""
    given = f'[barrel.liner]\noutside = "{liner}"\n\n[barrel.old_holes]'
    plain, lined = (judged(text)[0] for text in (demo, demo.swap("[barrel.old_holes]", given)))
    for name in ("deck.hole.1.to_bore", "deck.old.2.to_bore", "deck.passage.0.to_bore"):
        assert plain[name].value - lined[name].value == pytest.approx((float(liner.split()[0]) - 57.2) / 2)


def test_old_holes_of_two_tables_are_measured_each_by_its_own(demo):
    """One of 9.6 mm at 39 mm, one of 14 mm at 40 mm: 39 - 28.6 - 4.8, 40 - 28.6 - 7; 20 and 31.9 mm deep."""
    was = demo[demo.index("[barrel.old_holes]") : demo.index("[[barrel.passages]]")]
    one = '[[barrel.old_holes]]\npattern = {{ points = [["{x} mm", "0 mm"]] }}\ndiameter = "{d} mm"\ndepth = "{deep} mm"\n\n'
    two = one.format(x=39, d=9.6, deep=20) + one.format(x=-40, d=14, deep=31.9)
    book, found = judged(demo.swap(was, two))
    assert [book[f"deck.old.{n}.to_bore"].value for n in (1, 2)] == pytest.approx([5.6, 4.4])
    assert book["deck.old.1.to_next"].value == pytest.approx(79 - 4.8 - 7)
    assert [found[f"deck.old.{n}.floor"].verdict for n in (1, 2)] == ["ok", "stop"]


def test_a_fill_stops_wherever_the_barrel_melts_first():
    for row in table("pairs").rows:
        if row["how"] == "fill" and row["heat"]:
            melts = tables.family_figure(row["into"], "melts")
            assert (row["verdict"] == "stop") == (melts <= float(row["heat"])), row


@pytest.mark.parametrize(
    ("own", "verdict"),
    [
        ('{ name = "iron-like", tensile_strength = "200 MPa" }', "stop"),  # it could be aluminium
        ('{ name = "Alu-free iron", modulus = "110 GPa", expansion = "11 um/m/K" }', "ok"),  # not by its name's sound
        ('{ name = "EN-GJL 25", modulus = "72 GPa", expansion = "21 um/m/K" }', "stop"),
        ('{ name = "iron-like", family = "iron", tensile_strength = "200 MPa" }', "ok"),
        ('{ name = "odd", modulus = "600 GPa" }', "caution"),
    ],
)
def test_a_barrel_that_is_not_told_is_the_weakest_it_could_be(demo, own, verdict):
    found = judged(demo.swap(BARREL, f"material = {own}"))[1]["deck.old.1.fill"]
    assert found.verdict == verdict
    assert ("give its family" in found.says) == (verdict != "ok" and "EN-GJL" not in own)
    assert (verdict == "caution") == found.says.startswith("not judged: ")


def test_what_goes_by_the_barrel_s_metal_is_not_judged_where_that_is_not_given(demo):
    book, found = judged(demo.swap(BARREL, ""))
    for name in ("deck.old.1.fill", "plug.bond_pair"):
        assert found[name].verdict == "caution", name
        assert found[name].says.startswith("not judged: "), name
        assert "barrel.material" in found[name].says, name
    told = [f for f in found.values() if f.says.startswith("not judged: ") and "give barrel.material" in f.says]
    assert {f.verdict for f in told} == {"caution"}
    assert "strip.tap_end_engagement_rule" not in book
    assert not any(name.startswith(("strip.", "joint.tap_end")) and f.verdict == "ok" for name, f in found.items())


def test_nothing_keeps_its_shape_where_the_heat_run_in_is_not_known(demo):
    """The first minutes are cooler for studs and barrel: in order there says nothing of later, a stop there stands."""
    text = re.sub(r"\[engine.hot\][^[]*", "", str(demo))

    def keeping(text):
        return {name: f.verdict for name, f in judged(text)[1].items() if name.endswith(".material_hot")}

    assert keeping(str(demo)) == {f"{part}.material_hot": "ok" for part in ("gasket", "plug", "stud", "head", "barrel")}
    assert keeping(text) == {}
    assert keeping(text.replace('head = "180 degC"', 'head = "210 degC"')) == {"head.material_hot": "stop"}


def test_every_material_of_the_table_has_a_family_that_bears_its_values():
    for name in tables.material_names():
        figures = [tables.material(name).figure(p) for p in ("modulus", "expansion")]
        assert tables.family_of(name) in tables.families_like(*(f and f.value for f in figures)), name
    rows = list(csv.reader((HERE / "families_of.csv").read_text(encoding="utf-8").splitlines()))
    assert {row[0] for row in rows[3:]} == set(tables.material_names())


@pytest.mark.parametrize("how", ["fill", "bond", "press", "anneal"])
def test_every_pair_has_an_answer(how):
    families = tables.family_names()
    whats = {"fill": ["bronze braze", "screwed iron plug"]}.get(how, families)
    for what in whats:
        for into in [""] if how == "anneal" else families:
            assert tables.pair(how, what, into).verdict in WORST


def test_area_and_land_move_with_the_readings(demo):
    """A deck of 112 mm to 0.5 mm moves the area by pi/2 112 0.5 = 87.96 mm^2, a bore to 0.02 mm by pi/2 58.2 0.02."""
    book, _ = judged(demo.swap('"112 mm"', '"112 mm ± 0.5 mm"', 'bore = "57.20 mm"', 'bore = "57.20 mm ± 0.02 mm"'))
    assert book.spread("gasket.area") == pytest.approx(
        pi / 2 * ((112 * 0.5) ** 2 + (58.2 * 0.02) ** 2) ** 0.5, rel=1e-6
    )
    assert book.spread("gasket.narrowest_land") == pytest.approx(0.01, rel=1e-6)  # stud hole to bore: half the bore's
