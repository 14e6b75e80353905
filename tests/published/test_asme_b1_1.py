"""ASME B1.1-2003: limits of unified inch threads, bolts 2A and holes 2B, to 0.0001 in.

The 2B rows of 1/4-20, 5/16-18 and 3/8-16 are printed; the others are worked out from the standard's formulas
(5.8.1, 5.8.2) and equal the printed ones as remembered. Minor diameters of holes are printed to 0.001 in.
The standard rounds the greatest diameter of a bolt to 0.0001 in before it takes the tolerance off, the product does
not: least diameters may differ by half a unit more.
"""

import pytest

from parts.book import Book
from parts.relations.thread_measures import unified_stress_area
from parts.relations.unified_tolerances import small_unified_hole_minor_tolerance
from parts.sizing.threads import add_stress_area, size_tapped_hole, size_thread
from parts.thread import read_thread
from tests.published.status import computed, memory

INCH = 25.4

ROWS = computed(  # label, allowance, d max, d min, d2 max, d2 min, UNR minor max, D1 min, D1 max, D2 min, D2 max, As
    pytest.param(
        ("1/4-20 UNC", 0.0011, 0.2489, 0.2408, 0.2164, 0.2127, 0.1894, 0.196, 0.207, 0.2175, 0.2224, 0.0318),
        id="1/4-20 UNC",
    ),
    pytest.param(
        ("1/4-28 UNF", 0.001, 0.249, 0.2425, 0.2258, 0.2225, 0.2065, 0.211, 0.22, 0.2268, 0.2311, 0.0364),
        id="1/4-28 UNF",
    ),
    pytest.param(
        ("5/16-18 UNC", 0.0012, 0.3113, 0.3026, 0.2752, 0.2712, 0.2451, 0.252, 0.265, 0.2764, 0.2817, 0.0524),
        id="5/16-18 UNC",
    ),
    pytest.param(
        ("5/16-24 UNF", 0.0011, 0.3114, 0.3042, 0.2843, 0.2806, 0.2618, 0.267, 0.277, 0.2854, 0.2902, 0.0581),
        id="5/16-24 UNF",
    ),
    pytest.param(
        ("3/8-16 UNC", 0.0013, 0.3737, 0.3643, 0.3331, 0.3287, 0.2993, 0.307, 0.321, 0.3344, 0.3401, 0.0775),
        id="3/8-16 UNC",
    ),
    pytest.param(
        ("3/8-24 UNF", 0.0011, 0.3739, 0.3667, 0.3468, 0.343, 0.3243, 0.33, 0.34, 0.3479, 0.3529, 0.0878),
        id="3/8-24 UNF",
    ),
)

SMALL = memory(  # label, D1 min, D1 max as printed for 2B (memory)
    pytest.param("#10-24 UNC", 0.145, 0.156, id="#10-24"),
    pytest.param("#10-32 UNF", 0.156, 0.164, id="#10-32"),
    pytest.param("#8-32 UNC", 0.130, 0.139, id="#8-32"),
    pytest.param("#4-40 UNC", 0.085, 0.094, id="#4-40"),
    pytest.param("#6-32 UNC", 0.104, 0.114, id="#6-32"),
    pytest.param("#12-24 UNC", 0.171, 0.181, id="#12-24"),
    pytest.param("#12-28 UNF", 0.177, 0.186, id="#12-28"),
)


def sized(label):
    book = Book()
    size_thread(book, "end", read_thread(label))
    return book


@pytest.mark.parametrize("row", ROWS)
def test_bolt_2a_has_the_printed_limits(row):
    label, allowance, *limits, minor = row[:7]
    book = sized(label)
    names = ("end_major_max", "end_major_min", "end_pitch_diameter_max", "end_pitch_diameter_min")
    assert [book[name].value / INCH for name in names] == pytest.approx(limits, abs=0.0001)
    assert book["end_allowance"].value / INCH == pytest.approx(allowance, abs=0.00005)
    root = (book["end_root_diameter"].value - book["end_allowance"].value) / INCH
    assert root == pytest.approx(minor, abs=0.00006)


@pytest.mark.parametrize("row", ROWS)
def test_hole_2b_has_the_printed_limits(row):
    label, (minor_min, minor_max, pitch_min, pitch_max) = row[0], row[7:11]
    book = Book()
    size_tapped_hole(book, "hole", read_thread(label), "inch")
    assert book["hole.tapped_minor"].value / INCH == pytest.approx(minor_min, abs=0.0005)
    assert book["hole.tapped_minor_max"].value / INCH == pytest.approx(minor_max, abs=0.0005)
    assert book["hole.tapped_pitch_diameter"].value / INCH == pytest.approx(pitch_min, abs=0.00005)
    assert book["hole.tapped_pitch_diameter_max"].value / INCH == pytest.approx(pitch_max, abs=0.00006)


@pytest.mark.parametrize("row", ROWS)
def test_stress_area_is_the_printed_figure(row):
    label, area = row[0], row[11]
    book = sized(label)
    add_stress_area(book, "area", "end", read_thread(label))
    assert book["area"].value / INCH**2 == pytest.approx(area, abs=0.00005)


@pytest.mark.parametrize(("label", "minor_min", "minor_max"), SMALL)
def test_minor_limits_below_a_quarter_inch(label, minor_min, minor_max):
    book = Book()
    size_tapped_hole(book, "hole", read_thread(label), "inch")
    assert book["hole.tapped_minor"].value / INCH == pytest.approx(minor_min, abs=0.0006)
    assert book["hole.tapped_minor_max"].value / INCH == pytest.approx(minor_max, abs=0.0006)


def test_stress_area_of_three_quarter_sixteen():
    """Shigley, table 8-2: 0.373 square inches for 3/4-16 UNF (memory)."""
    assert unified_stress_area(0.75, 1 / 16) == pytest.approx(0.373, abs=0.0005)


@pytest.mark.parametrize(
    ("nominal", "per_inch", "tolerance"),
    memory(
        pytest.param(0.060, 80, 0.0514 - 0.0465, id="#0-80"),
        pytest.param(0.073, 64, 0.0623 - 0.0561, id="#1-64"),
        pytest.param(0.190, 32, 0.1641 - 0.1562, id="#10-32"),
        pytest.param(0.216, 28, 0.1857 - 0.1773, id="#12-28"),
    ),
)
def test_minor_tolerance_of_the_smallest(nominal, per_inch, tolerance):
    """Below the table's sizes the tolerance is cut to 0.394 of the pitch."""
    found = small_unified_hole_minor_tolerance(nominal * INCH, INCH / per_inch) / INCH
    assert found == pytest.approx(tolerance, abs=0.00006)
