"""Tables against the standards they are taken from; figures as printed where nothing else is said."""

from pathlib import Path

import pytest

from parts import tables
from parts.tables.fixture import drill_bush
from tests.published.status import memory, seen

FILES = sorted((Path(tables.__file__).parent).glob("*.csv"))

CLEARANCE = seen(  # ISO 273: d, fine, medium, coarse
    pytest.param(5, 5.3, 5.5, 5.8, id="M5"),
    pytest.param(6, 6.4, 6.6, 7.0, id="M6"),
    pytest.param(8, 8.4, 9.0, 10.0, id="M8"),
    pytest.param(10, 10.5, 11.0, 12.0, id="M10"),
    pytest.param(12, 13.0, 13.5, 14.5, id="M12"),
    pytest.param(14, 15.0, 15.5, 16.5, id="M14"),
    pytest.param(16, 17.0, 17.5, 18.5, id="M16"),
)

WASHERS = seen(  # ISO 7089: d, inside, outside, thickness
    pytest.param(5, 5.3, 10, 1, id="M5"),
    pytest.param(6, 6.4, 12, 1.6, id="M6"),
    pytest.param(8, 8.4, 16, 1.6, id="M8"),
    pytest.param(10, 10.5, 20, 2, id="M10"),
    pytest.param(12, 13, 24, 2.5, id="M12"),
    pytest.param(14, 15, 28, 2.5, id="M14"),
    pytest.param(16, 17, 30, 3, id="M16"),
)

NUTS = seen(  # ISO 4032: d, s max, m max, m min, dw min
    pytest.param(5, 8, 4.7, 4.4, 6.9, id="M5"),
    pytest.param(6, 10, 5.2, 4.9, 8.9, id="M6"),
    pytest.param(8, 13, 6.8, 6.44, 11.6, id="M8"),
    pytest.param(10, 16, 8.4, 8.04, 14.6, id="M10"),
    pytest.param(12, 18, 10.8, 10.37, 16.6, id="M12"),
    pytest.param(14, 21, 12.8, 12.1, 19.6, id="M14"),
    pytest.param(16, 24, 14.8, 14.1, 22.5, id="M16"),
)

RUN_OUTS = seen(  # DIN 76-1 x1 as printed in DIN 938 and 939
    pytest.param(0.7, 1.75, id="0.7"),
    pytest.param(0.8, 2, id="0.8"),
    pytest.param(1, 2.5, id="1"),
    pytest.param(1.25, 3.2, id="1.25"),
    pytest.param(1.5, 3.8, id="1.5"),
    pytest.param(1.75, 4.3, id="1.75"),
    pytest.param(2, 5, id="2"),
)

UNDERCUTS = memory(  # DIN 76-1 form A (memory): P, d - dg, g1 min, g2 max, r
    pytest.param(0.8, 1.3, 1.3, 2.8, 0.4, id="0.8"),
    pytest.param(1, 1.6, 1.6, 3.5, 0.6, id="1"),
    pytest.param(1.25, 2.0, 2, 4.4, 0.6, id="1.25"),
    pytest.param(1.5, 2.3, 2.5, 5.2, 0.8, id="1.5"),
    pytest.param(1.75, 2.6, 3, 6.1, 1, id="1.75"),
    pytest.param(2, 3.0, 3.4, 7, 1, id="2"),
)

NUT_ENDS = seen(  # DIN 938: d, b2 below 125 mm, b2 to 200 mm
    pytest.param(8, 22, 28, id="M8"),
    pytest.param(10, 26, 32, id="M10"),
    pytest.param(12, 30, 36, id="M12"),
    pytest.param(14, 34, 40, id="M14"),
    pytest.param(16, 38, 44, id="M16"),
)

IRON = seen(  # EN 1561: expected strength at wall thicknesses
    pytest.param("EN-GJL-200", {5: 205, 10: 180, 20: 155, 40: 130, 80: 115}, id="EN-GJL-200"),
    pytest.param("EN-GJL-250", {5: 250, 10: 225, 20: 195, 40: 170, 80: 155}, id="EN-GJL-250"),
)

BARS = seen(  # EN 10083: name, diameter, yield, tensile
    pytest.param("C45", 12, 340, 620, id="C45 12 mm"),
    pytest.param("C45", 30, 305, 580, id="C45 30 mm"),
    pytest.param("C45 +QT", 12, 490, 700, id="C45 +QT 12 mm"),
    pytest.param("C45 +QT", 30, 430, 650, id="C45 +QT 30 mm"),
    pytest.param("42CrMo4 +QT", 12, 900, 1100, id="42CrMo4 12 mm"),
    pytest.param("42CrMo4 +QT", 20, 750, 1000, id="42CrMo4 20 mm"),
)

CUTTING = memory(  # Kienzle (memory): name, kc1.1, mc, kc at h = 0.1 mm
    pytest.param("C45", 2220, 0.14, 3064, id="C45"),
    pytest.param("42CrMo4 +QT", 2500, 0.26, 4549, id="42CrMo4"),
    pytest.param("11SMn30", 1200, 0.18, 1816, id="11SMn30"),
    pytest.param("EN-GJL-250", 1160, 0.26, 2111, id="EN-GJL-250"),
    pytest.param("EN-GJL-200", 1020, 0.25, 1814, id="EN-GJL-200"),
    pytest.param("CuZn39Pb3", 780, 0.18, 1181, id="CuZn39Pb3"),
    pytest.param("AlSi7Mg0.3 T6", 660, 0.25, 1174, id="AlSi7Mg0.3"),
)

NAMES = (
    "EN-GJL-200", "EN-GJL-250", "AlSi7Mg0.3 T6", "42CrMo4 +QT", "C45", "C45 +QT", "11SMn30", "copper, annealed",
    "ring iron, grey", "CuZn39Pb3", "080M40", "aluminium, annealed", "PLA", "8.8", "10.9",
)  # fmt: skip


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_file_says_where_it_comes_from_and_how_sure_it_is(path):
    text = path.read_text(encoding="utf-8")
    assert text.startswith("# source: ")
    assert "\n# status: " in text
    assert "://" not in text


@pytest.mark.parametrize(("nominal", "fine", "medium", "coarse"), CLEARANCE)
def test_clearance_holes(nominal, fine, medium, coarse):
    found = [tables.clearance_hole(nominal, fit) for fit in ("fine", "medium", "coarse")]
    assert [figure.value for figure in found] == [fine, medium, coarse]
    assert {figure.status for figure in found} == {"published"}


@pytest.mark.parametrize(("nominal", "inside", "outside", "thickness"), WASHERS)
@pytest.mark.parametrize("designation", ["ISO 7089", "ISO 7089 200 HV", "ISO 7089 300 HV"])
def test_washers(designation, nominal, inside, outside, thickness):
    found = tables.washer(designation, nominal)
    assert (found.inside, found.outside, found.thickness) == (inside, outside, thickness)


@pytest.mark.parametrize(("nominal", "flats", "height", "least", "bearing"), NUTS)
def test_nuts(nominal, flats, height, least, bearing):
    found = tables.nut("ISO 4032 class 10", nominal)
    assert (found.across_flats, found.height, found.height_min, found.bearing) == (flats, height, least, bearing)


def test_inch_nuts():
    """BS 1083:1965 table 2 for 5/16; ASME B18.2.2 for 1/4 (memory), its bearing beside BS 1768's 0.411 to 0.421."""
    found = tables.nut("BS 1083", 0.3125 * 25.4)
    assert [x / 25.4 for x in (found.across_flats, found.height, found.bearing)] == pytest.approx([0.525, 0.250, 0.498])
    found = tables.nut("ASME B18.2.2", 6.35)
    assert [x / 25.4 for x in (found.across_flats, found.height)] == pytest.approx([0.438, 0.226])
    assert 0.411 <= found.bearing / 25.4 <= 0.421


def test_inch_washer():
    """ASME B18.21.1-2009, type A narrow, 1/4: 0.281, 0.625, 0.065 in (Machinery's Handbook, 31st ed., p. 1694)."""
    found = tables.washer("ASME B18.21.1 type A narrow", 6.35)
    assert [x / 25.4 for x in (found.inside, found.outside, found.thickness)] == pytest.approx([0.281, 0.625, 0.065])


@pytest.mark.parametrize("family", ["metric", "unified", "whitworth", "cycle", "ba"])
def test_every_family_has_a_usual_nut_and_washer(family):
    nominal = {"metric": 8.0, "ba": 4.7}.get(family, 7.9375)
    nut = tables.nut(tables.usual_nut(family), nominal)
    washer = tables.washer(tables.usual_washer(family), nominal)
    assert nominal < washer.inside < nut.bearing


def test_what_is_not_listed_is_refused_with_what_is():
    with pytest.raises(ValueError, match="ISO 4032"):
        tables.nut("DIN 934", 8)
    with pytest.raises(ValueError, match="M8"):
        tables.nut("ISO 4032", 7.3)
    with pytest.raises(ValueError, match="M20"):
        tables.washer("ISO 7089", 25)


@pytest.mark.parametrize(("pitch", "printed"), RUN_OUTS)
def test_run_outs(pitch, printed):
    assert tables.run_out(pitch).value == printed
    assert printed == pytest.approx(2.5 * pitch, rel=0.03)


def test_run_out_of_an_inch_pitch_is_by_analogy():
    assert tables.run_out(1.27).value == pytest.approx(3.175)
    assert "analogy" in tables.run_out(1.27).source


@pytest.mark.parametrize(("pitch", "below", "least", "greatest", "radius"), UNDERCUTS)
def test_undercuts(pitch, below, least, greatest, radius):
    found = tables.undercut(pitch, 10)
    assert found.diameter == pytest.approx(10 - below)
    assert (found.least_width, found.greatest_width, found.radius) == (least, greatest, radius)
    assert "by analogy" not in found.source
    assert "by analogy, row of " in tables.undercut(pitch - 0.03, 10).source
    assert found.diameter < 10 - 1.226869 * pitch  # below the root of the thread, as it must be


@pytest.mark.parametrize(("nominal", "short", "long"), NUT_ENDS)
def test_nut_ends(nominal, short, long):
    assert tables.nut_end_length(nominal, 80).value == short == 2 * nominal + 6
    assert tables.nut_end_length(nominal, 160).value == long == 2 * nominal + 12


@pytest.mark.parametrize(
    ("length", "more", "status"),
    [(125, 6, "published"), (125.1, 12, "published"), (200, 12, "published"), (200.1, 25, "computed")],
)
def test_nut_ends_grow_with_the_stud(length, more, status):
    """DIN 938: b = 2 d + 6 up to 125 mm, + 12 up to 200, + 25 beyond (memory)."""
    found = tables.nut_end_length(10, length)
    assert (found.value, found.status) == (20 + more, status)
    assert tables.nut_end_length(7, length).value == 14 + more  # a size that it does not list


def test_drill_lists():
    """ASME B94.11M (memory): #7 0.2010, F 0.257, 5/16 in; a list of 80 numbers, 26 letters and 64 fractions."""
    inch = dict(tables.drills("inch"))
    assert len(inch) == 80 + 26 + 64
    assert [inch[label] / 25.4 for label in ("#7", "F", "5/16 in")] == pytest.approx([0.2010, 0.257, 0.3125])
    for system in ("metric", "inch"):
        sizes = [size for _, size in tables.drills(system)]
        assert sizes == sorted(sizes)
    assert {"8.4 mm": 8.4, "14.5 mm": 14.5}.items() <= dict(tables.drills("metric")).items()


@pytest.mark.parametrize(("name", "walls"), IRON)
def test_cast_iron_by_wall_thickness(name, walls):
    iron = tables.material(name)
    assert {wall: iron.figure("tensile", section=wall).value for wall in walls} == walls
    between = iron.figure("tensile", section=30)
    assert between.value == pytest.approx((walls[20] + walls[40]) / 2)
    assert "interpolated" in between.source
    assert iron.figure("tensile", section=2).value == walls[5]
    assert iron.figure("tensile", section=200).value == iron.figure("tensile").value == walls[80]


def test_rolled_steel_goes_down_in_steps_whatever_it_is_made_into():
    """EN 10083-2, C45 +N: Rm at least 620 MPa up to 16 mm, 580 from there to 100; nothing between them."""
    for thick, least in ((16, 620), (16.1, 580), (24, 580), (100, 580)):
        assert tables.material("C45").figure("tensile", section=thick).value == least


@pytest.mark.parametrize(("name", "diameter", "lower", "tensile"), BARS)
def test_steel_by_diameter(name, diameter, lower, tensile):
    bar = tables.material(name)
    assert bar.figure("yield", diameter=diameter).value == lower
    assert bar.figure("tensile", diameter=diameter).value == tensile
    assert bar.figure("yield", diameter=500) is None  # thicker than the standard lists


@pytest.mark.parametrize(("name", "kc11", "mc", "kc"), CUTTING)
def test_cutting_force(name, kc11, mc, kc):
    stock = tables.material(name)
    assert (stock.figure("kc11").value, stock.figure("mc").value) == (kc11, mc)
    assert stock.figure("kc11").value * 0.1 ** -stock.figure("mc").value == pytest.approx(kc, abs=0.5)


def test_gasket_factors():
    """ASME VIII-1 appendix 2, table 2-5.1: soft copper 4.75 and 13 000 psi, soft aluminium 4.00 and 8 800 psi."""
    psi = 0.00689475729
    for name, m, y in (("copper, annealed", 4.75, 13000), ("aluminium, annealed", 4.0, 8800)):
        assert tables.material(name).figure("gasket_m").value == m
        assert tables.material(name).figure("gasket_y").value == pytest.approx(y * psi, abs=0.005)


@pytest.mark.parametrize("name", NAMES)
def test_every_named_material_has_its_physical_values(name):
    stock = tables.material(name)
    for prop in ("modulus", "poisson", "density", "expansion"):
        figure = stock.figure(prop)
        assert figure.source
        assert figure.status in ("published", "memory", "computed")
    assert stock.figure("no such property") is None
    assert name in tables.material_names()


@pytest.mark.parametrize(("drill", "outside"), [(30.0, 42.0), (31.0, 42.0), (8.0, 12.0), (8.1, 15.0)])
def test_a_bush_is_that_of_the_drill_and_over_every_row_the_widest(drill, outside):
    assert drill_bush(drill).outside == outside  # ISO 4247, memory
