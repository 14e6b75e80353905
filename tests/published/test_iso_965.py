"""ISO 965-1 and ISO 965-2: limits of metric threads, bolts 6g and holes 6H.

Rows as printed in charts of ISO 965-2 and ASME B1.13M, to 0.001 mm; rows marked derived are worked out from the
printed tolerance tables of ISO 965-1. M8's drill and the other figures from memory say so.
"""

import pytest

from parts import tables
from parts.book import Book
from parts.sizing.threads import size_tapped_hole, size_thread
from parts.thread import read_thread
from tests.published.status import computed, seen

BOLTS = [  # label, d max, d min, d2 max, d2 min; up to M10x1 printed, the rest derived
    *seen(
        pytest.param("M4", 3.978, 3.838, 3.523, 3.433, id="M4"),
        pytest.param("M5", 4.976, 4.826, 4.456, 4.361, id="M5"),
        pytest.param("M6", 5.974, 5.794, 5.324, 5.212, id="M6"),
        pytest.param("M8", 7.972, 7.76, 7.16, 7.042, id="M8"),
        pytest.param("M8x1", 7.974, 7.794, 7.324, 7.212, id="M8x1"),
        pytest.param("M10", 9.968, 9.732, 8.994, 8.862, id="M10"),
        pytest.param("M10x1.25", 9.972, 9.76, 9.16, 9.042, id="M10x1.25"),
        pytest.param("M10x1", 9.974, 9.794, 9.324, 9.212, id="M10x1"),
    ),
    *computed(
        pytest.param("M12", 11.966, 11.701, 10.829, 10.679, id="M12"),
        pytest.param("M12x1.5", 11.968, 11.732, 10.994, 10.854, id="M12x1.5"),
        pytest.param("M12x1.25", 11.972, 11.76, 11.16, 11.028, id="M12x1.25"),
        pytest.param("M14", 13.962, 13.682, 12.663, 12.503, id="M14"),
        pytest.param("M14x1.5", 13.968, 13.732, 12.994, 12.854, id="M14x1.5"),
        pytest.param("M14x1.25", 13.972, 13.76, 13.16, 13.028, id="M14x1.25"),
        pytest.param("M16", 15.962, 15.682, 14.663, 14.503, id="M16"),
        pytest.param("M16x1.5", 15.968, 15.732, 14.994, 14.854, id="M16x1.5"),
    ),
]

HOLES = [  # label, D1 min, D1 max, D2 min, D2 max, D min; M10 to M14x1.5 printed, the rest derived
    *seen(
        pytest.param("M10", 8.376, 8.676, 9.026, 9.206, 10, id="M10"),
        pytest.param("M10x1.25", 8.647, 8.912, 9.188, 9.348, 10, id="M10x1.25"),
        pytest.param("M10x1", 8.917, 9.153, 9.35, 9.5, 10, id="M10x1"),
        pytest.param("M12", 10.106, 10.441, 10.863, 11.063, 12, id="M12"),
        pytest.param("M12x1.5", 10.376, 10.676, 11.026, 11.216, 12, id="M12x1.5"),
        pytest.param("M12x1.25", 10.647, 10.912, 11.188, 11.368, 12, id="M12x1.25"),
        pytest.param("M14", 11.835, 12.21, 12.701, 12.913, 14, id="M14"),
        pytest.param("M14x1.5", 12.376, 12.676, 13.026, 13.216, 14, id="M14x1.5"),
    ),
    *computed(
        pytest.param("M4", 3.242, 3.422, 3.545, 3.663, 4, id="M4"),
        pytest.param("M5", 4.134, 4.334, 4.48, 4.605, 5, id="M5"),
        pytest.param("M6", 4.917, 5.153, 5.35, 5.5, 6, id="M6"),
        pytest.param("M8", 6.647, 6.912, 7.188, 7.348, 8, id="M8"),
        pytest.param("M8x1", 6.917, 7.153, 7.35, 7.5, 8, id="M8x1"),
        pytest.param("M14x1.25", 12.647, 12.912, 13.188, 13.368, 14, id="M14x1.25"),
        pytest.param("M16", 13.835, 14.21, 14.701, 14.913, 16, id="M16"),
        pytest.param("M16x1.5", 14.376, 14.676, 15.026, 15.216, 16, id="M16x1.5"),
    ),
]

BY_PITCH = seen(  # P, es(g), Td(6), TD1(6) [um] as printed in tables 1, 3 and 4
    pytest.param(0.5, -20, 106, 140, id="0.5"),
    pytest.param(0.7, -22, 140, 180, id="0.7"),
    pytest.param(0.75, -22, 140, 190, id="0.75"),
    pytest.param(0.8, -24, 150, 200, id="0.8"),
    pytest.param(1, -26, 180, 236, id="1"),
    pytest.param(1.25, -28, 212, 265, id="1.25"),
    pytest.param(1.5, -32, 236, 300, id="1.5"),
    pytest.param(1.75, -34, 265, 335, id="1.75"),
    pytest.param(2, -38, 280, 375, id="2"),
)

PITCH_DIAMETER = seen(  # a diameter in the step, P, Td2(6), TD2(6) [um] as printed in tables 5 and 6
    pytest.param(5.6, 0.5, 75, 100),
    pytest.param(5.6, 0.7, 90, 118),
    pytest.param(5.6, 0.8, 95, 125),
    pytest.param(11.2, 0.75, 100, 132),
    pytest.param(11.2, 1, 112, 150),
    pytest.param(11.2, 1.25, 118, 160),
    pytest.param(11.2, 1.5, 132, 180),
    pytest.param(22.4, 1, 118, 160),
    pytest.param(22.4, 1.25, 132, 180),
    pytest.param(22.4, 1.5, 140, 190),
    pytest.param(22.4, 1.75, 150, 200),
    pytest.param(22.4, 2, 160, 212),
)


def sized(label):
    book = Book()
    size_thread(book, "end", read_thread(label))
    return book


@pytest.mark.parametrize(("label", "major_max", "major_min", "pitch_max", "pitch_min"), BOLTS)
def test_limits_of_a_bolt_6g_are_the_printed_figures(label, major_max, major_min, pitch_max, pitch_min):
    book = sized(label)
    assert book["end_major_max"].value == pytest.approx(major_max, abs=0.0005)
    assert book["end_major_min"].value == pytest.approx(major_min, abs=0.0005)
    assert book["end_pitch_diameter_max"].value == pytest.approx(pitch_max, abs=0.0005)
    assert book["end_pitch_diameter_min"].value == pytest.approx(pitch_min, abs=0.0005)


@pytest.mark.parametrize(("label", "minor_min", "minor_max", "pitch_min", "pitch_max", "major_min"), HOLES)
def test_limits_of_a_hole_6h_are_the_printed_figures(label, minor_min, minor_max, pitch_min, pitch_max, major_min):
    book = Book()
    size_tapped_hole(book, "hole", read_thread(label), "metric")
    assert book["hole.tapped_minor"].value == pytest.approx(minor_min, abs=0.0005)
    assert book["hole.tapped_minor_max"].value == pytest.approx(minor_max, abs=0.0005)
    assert book["hole.tapped_pitch_diameter"].value == pytest.approx(pitch_min, abs=0.0005)
    assert book["hole.tapped_pitch_diameter_max"].value == pytest.approx(pitch_max, abs=0.0005)
    assert book["hole.tapped_major"].value == major_min


@pytest.mark.parametrize(("pitch", "es", "td6", "td1"), BY_PITCH)
def test_tolerances_by_pitch_are_the_printed_figures(pitch, es, td6, td1):
    found = [tables.iso_965(pitch, c) for c in ("es_g", "td6", "td1_6")]
    assert [figure.value * 1000 for figure in found] == pytest.approx([es, td6, td1])
    assert {figure.status for figure in found} == {"published"}
    assert tables.iso_965(pitch, "td1_5").status == "memory"


@pytest.mark.parametrize(("nominal", "pitch", "bolt", "hole"), PITCH_DIAMETER)
def test_pitch_diameter_tolerances_are_the_printed_figures(nominal, pitch, bolt, hole):
    found = [tables.iso_965_pitch_diameter(nominal, pitch, c).value * 1000 for c in ("td2_6", "internal_6")]
    assert found == pytest.approx([bolt, hole])


@pytest.mark.parametrize("pitch", [row.values[0] for row in BY_PITCH])
def test_tables_follow_the_formulas_of_iso_965_1_clause_13_within_six_percent(pitch):
    """The standard rounds to preferred numbers: 5 um at the coarsest."""
    es, td, td1 = (tables.iso_965(pitch, c).value * 1000 for c in ("es_g", "td6", "td1_6"))
    coarse = pitch >= 1
    assert -es == pytest.approx(15 + 11 * pitch, rel=0.06)
    assert td == pytest.approx(180 * pitch ** (2 / 3) - 3.15 / pitch**0.5, rel=0.06)
    assert td1 == pytest.approx(230 * pitch**0.7 if coarse else 433 * pitch - 190 * pitch**1.22, rel=0.06)


def test_every_metric_thread_that_can_be_written_has_all_tolerances():
    for nominal, pitches in tables.metric_pitches().items():
        for pitch in pitches:
            assert "end_over_wires_min" in sized(f"M{nominal:g}x{pitch:g}")


@pytest.mark.parametrize(
    ("label", "drill"),
    [("M5", 4.2), ("M6", 5.0), ("M8x1", 7.0), ("M10", 8.5), ("M12", 10.2), ("M14", 12.0), ("M16", 14.0)],
)
def test_usual_tap_drill_lies_between_the_limits(label, drill):
    """ISO 2306, sizes printed in a handbook for M5, M6, M10, M12, M16, the rest from memory."""
    book = Book()
    size_tapped_hole(book, "hole", read_thread(label), "metric")
    assert book["hole.tapped_minor"].value <= drill <= book["hole.tapped_minor_max"].value
    assert book["hole.tap_drill"].value == drill


def test_where_a_list_has_no_drill_the_other_is_used_and_named():
    book = Book()
    size_tapped_hole(book, "hole", read_thread("M14x1.5"), "inch")
    assert book["hole.tap_drill"].value == 12.5
    assert "12.5 mm" in book["hole.tap_drill"].source
    assert "the inch list has none there" in book["hole.tap_drill"].source


def test_the_bar_before_threading_lies_inside_the_major_limits_of_every_thread():
    for label in every_thread():
        book = sized(label)
        assert book["end_major_min"].value <= book["end_blank_diameter"].value <= book["end_major_max"].value, label


def test_size_over_wires_of_m10_is_that_of_the_handbooks_constant():
    """M = d2 + 3 w - 0.866025 P for 60 degrees (Machinery's Handbook, memory), w = 0.57735 P."""
    book = sized("M10x1.5")
    assert book["end_wire_diameter"].value == pytest.approx(0.57735 * 1.5, abs=1e-5)
    over = 8.994 + 3 * 0.57735 * 1.5 - 0.866025 * 1.5
    assert book["end_over_wires_max"].value == pytest.approx(over, abs=0.0005)
    difference = book["end_over_wires_max"].value - book["end_over_wires_min"].value
    assert difference == pytest.approx(0.132)  # the tolerance on the pitch diameter, unchanged


def every_thread():
    for nominal, pitches in tables.metric_pitches().items():
        yield from (f"M{nominal:g}x{pitch:g}" for pitch in pitches)
    yield from (f"{number} BA" for number in tables.ba_threads())
    for series in ("UNC", "UNF", "BSW", "BSF", "BSC"):
        yield from (f"{size} {series}" for size in tables.inch_threads(series))
