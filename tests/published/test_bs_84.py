"""BS 84: Whitworth threads, BSW and BSF.

Threads per inch, effective and minor diameters of BSW as printed in tables of BS 84, to 0.0001 in; those of BSF worked
out from the form of BS 84 (threads per inch from BS 1083:1965 table 1, 3/16, 7/32 and 9/32 from memory). Medium class
tolerances: the formula as in Machinery's Handbook, worked by hand.
"""

import pytest

from parts.book import Book
from parts.sizing.threads import add_stress_area, size_tapped_hole, size_thread
from parts.thread import read_thread
from tests.published.status import computed, memory, seen

INCH = 25.4

ROWS = [  # label, threads per inch, effective diameter, minor diameter, area at their mean
    *seen(
        pytest.param("3/16 BSW", 24, 0.1608, 0.1341, 0.0171, id="3/16 BSW"),
        pytest.param("1/4 BSW", 20, 0.2180, 0.1860, 0.0320, id="1/4 BSW"),
        pytest.param("5/16 BSW", 18, 0.2769, 0.2414, 0.0527, id="5/16 BSW"),
        pytest.param("3/8 BSW", 16, 0.3350, 0.2950, 0.0779, id="3/8 BSW"),
        pytest.param("7/16 BSW", 14, 0.3918, 0.3460, 0.1069, id="7/16 BSW"),
        pytest.param("1/2 BSW", 12, 0.4466, 0.3933, 0.1385, id="1/2 BSW"),
    ),
    *computed(
        pytest.param("1/4 BSF", 26, 0.2254, 0.2007, 0.0357, id="1/4 BSF"),
        pytest.param("5/16 BSF", 22, 0.2834, 0.2543, 0.0568, id="5/16 BSF"),
        pytest.param("3/8 BSF", 20, 0.3430, 0.3110, 0.0840, id="3/8 BSF"),
        pytest.param("7/16 BSF", 18, 0.4019, 0.3664, 0.1159, id="7/16 BSF"),
        pytest.param("1/2 BSF", 16, 0.4600, 0.4200, 0.1520, id="1/2 BSF"),
    ),
    *memory(
        pytest.param("3/16 BSF", 32, 0.1675, 0.1475, 0.0195, id="3/16 BSF"),
        pytest.param("7/32 BSF", 28, 0.1959, 0.1730, 0.0267, id="7/32 BSF"),
        pytest.param("9/32 BSF", 26, 0.2566, 0.2320, 0.0469, id="9/32 BSF"),
    ),
]

# label, T, T + 0.01 p^(1/2), 0.3 T [in], from T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 p^(1/2), L = D
MEDIUM = computed(
    pytest.param("1/4 BSW", 0.0039, 0.0061, 0.0012, id="1/4 BSW"),  # 0.00126 + 0.00150 + 0.00112
    pytest.param("5/16 BSW", 0.0042, 0.0066, 0.0013, id="5/16 BSW"),  # 0.00136 + 0.00168 + 0.00118
    pytest.param("3/8 BSF", 0.0044, 0.0066, 0.0013, id="3/8 BSF"),  # 0.00144 + 0.00184 + 0.00112
    pytest.param("3/16 BSW", 0.0035, 0.0055, 0.0012, id="3/16 BSW"),  # allowance: that of 1/4 BSW
)

# label, minor diameter tolerance 0.2 p + 0.004 (from 26 per inch), 0.005 (24, 22), 0.007 (to 20) [in]
HOLES = computed(
    pytest.param("1/4 BSW", 0.0170, id="20 per inch"),
    pytest.param("5/16 BSF", 0.0141, id="22 per inch"),
    pytest.param("3/16 BSW", 0.0133, id="24 per inch"),
    pytest.param("1/4 BSF", 0.0117, id="26 per inch"),
)


def sized(label):
    book = Book()
    size_thread(book, "end", read_thread(label))
    return book


@pytest.mark.parametrize(("label", "per_inch", "effective", "minor", "area"), ROWS)
def test_diameters_are_the_printed_figures(label, per_inch, effective, minor, area):
    book = sized(label)
    add_stress_area(book, "area", "end", read_thread(label))
    assert INCH / book["end_pitch"].value == pytest.approx(per_inch)
    assert book["end_pitch_diameter_basic"].value / INCH == pytest.approx(effective, abs=0.00006)
    assert book["end_root_diameter"].value / INCH == pytest.approx(minor, abs=0.00006)
    assert book["area"].value / INCH**2 == pytest.approx(area, abs=0.00006)


@pytest.mark.parametrize(("label", "effective", "major", "allowance"), MEDIUM)
def test_medium_class_of_a_bolt(label, effective, major, allowance):
    book = sized(label)
    assert book["end_pitch_diameter_tolerance"].value / INCH == pytest.approx(effective, abs=0.00006)
    assert book["end_major_tolerance"].value / INCH == pytest.approx(major, abs=0.00006)
    assert book["end_allowance"].value / INCH == pytest.approx(allowance, abs=0.00006)
    below = book["end_nominal"].value - book["end_major_max"].value
    assert below == pytest.approx(book["end_allowance"].value)


@pytest.mark.parametrize(("label", "tolerance"), HOLES)
def test_minor_diameter_of_a_hole(label, tolerance):
    book = Book()
    size_tapped_hole(book, "hole", read_thread(label), "inch")
    width = book["hole.tapped_minor_max"].value - book["hole.tapped_minor"].value
    assert width / INCH == pytest.approx(tolerance, abs=0.00006)
    least = sized(label)["end_root_diameter"].value  # the form has the same depth inside and outside
    assert book["hole.tapped_minor"].value == pytest.approx(least)


def test_size_over_wires_has_the_handbook_constants():
    """Jones, Turning and Boring (1914): m = d - 1.6008 p + 3.1657 w for Whitworth threads."""
    book = sized("1/4 BSW")
    wire, below = book["end_wire_diameter"].value, book["end_allowance"].value
    over = 6.35 - below - 1.6008 * 1.27 + 3.1657 * wire
    assert book["end_over_wires_max"].value == pytest.approx(over, abs=0.0005)
    assert wire == pytest.approx(0.56369 * 1.27, abs=0.0001)


def test_cycle_thread_has_its_minor_diameter_and_says_what_is_assumed():
    """A public table of BS 811 sizes prints minor diameters 0.209 for 1/4, 0.272 for 5/16 and 0.334 for 3/8."""
    for label, minor in (("1/4-26 BSC", 0.209), ("5/16-26 BSC", 0.272), ("3/8-26 BSC", 0.334)):
        book = sized(label)
        assert book["end_root_diameter"].value / INCH == pytest.approx(minor, abs=0.0006)
        hole = Book()
        size_tapped_hole(hole, "hole", read_thread(label), "inch")
        assert hole["hole.tapped_minor"].value / INCH == pytest.approx(minor, abs=0.0006)
        # BS 811, depth 0.5327 P and H 0.866 P (memory): half of twice the depth lies between nominal and effective diameter
        effective = read_thread(label).nominal / INCH - 0.5327 / 26
        for found in (book["end_pitch_diameter_basic"], hole["hole.tapped_pitch_diameter"]):
            assert found.value / INCH == pytest.approx(effective, abs=0.00006)
        cut = (read_thread(label).nominal - hole["hole.tap_drill"].value) / (2 * 0.5327 * INCH / 26)
        assert hole["hole.thread_share"].value == pytest.approx(cut, rel=1e-3)
        assert book["end_pitch_diameter_tolerance"].status == "assumed"
        assert "by analogy" in book["end_pitch_diameter_tolerance"].source
