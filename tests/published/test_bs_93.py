"""BS 93: BA threads 0 to 10, normal class.

Pitch and major diameter as printed; effective and minor diameters as printed in Machinery's Handbook, 31st ed.,
p. 2115 (to 0.005 mm: the standard rounds the depth of thread first); tolerances worked from the formulas there.
"""

import pytest

from parts import tables
from parts.book import Book
from parts.sizing.threads import size_tapped_hole, size_thread
from parts.thread import read_thread
from tests.published.status import seen

ROWS = seen(  # number, pitch, major, effective, minor diameter [mm]
    pytest.param(0, 1.0, 6.0, 5.4, 4.8, id="0 BA"),
    pytest.param(1, 0.9, 5.3, 4.76, 4.22, id="1 BA"),
    pytest.param(2, 0.81, 4.7, 4.215, 3.73, id="2 BA"),
    pytest.param(3, 0.73, 4.1, 3.66, 3.22, id="3 BA"),
    pytest.param(4, 0.66, 3.6, 3.205, 2.81, id="4 BA"),
    pytest.param(5, 0.59, 3.2, 2.845, 2.49, id="5 BA"),
    pytest.param(6, 0.53, 2.8, 2.48, 2.16, id="6 BA"),
    pytest.param(7, 0.48, 2.5, 2.21, 1.92, id="7 BA"),
    pytest.param(8, 0.43, 2.2, 1.94, 1.68, id="8 BA"),
    pytest.param(9, 0.39, 1.9, 1.665, 1.43, id="9 BA"),
    pytest.param(10, 0.35, 1.7, 1.49, 1.28, id="10 BA"),
)


def sized(label):
    book = Book()
    size_thread(book, "end", read_thread(label))
    return book


@pytest.mark.parametrize(("number", "pitch", "major", "effective", "minor"), ROWS)
def test_diameters_are_the_printed_figures(number, pitch, major, effective, minor):
    book = sized(f"{number} BA")
    assert book["end_pitch"].value == pitch
    assert book["end_nominal"].value == major
    assert book["end_pitch_diameter_basic"].value == pytest.approx(effective, abs=0.0025)
    assert book["end_root_diameter"].value == pytest.approx(minor, abs=0.005)


@pytest.mark.parametrize(("number", "pitch", "major"), [row.values[:3] for row in ROWS])
def test_pitch_and_diameter_follow_the_rule_of_the_series(number, pitch, major):
    """BS 93: P = 0.9^n mm and d = 6 P^1.2 mm, each to two significant figures."""
    assert float(f"{0.9**number:.2g}") == pitch == tables.ba_threads()[number][1]
    assert float(f"{6 * (0.9**number) ** 1.2:.2g}") == pytest.approx(major, abs=0.05)


def test_normal_class_of_2_ba():
    """Major 0.20 p, effective 0.10 p + 0.025, allowance 0.025; hole: minor 0.375 p, effective 0.12 p + 0.03."""
    book = sized("2 BA")
    assert book["end_major_max"].value == pytest.approx(4.675, abs=0.0005)
    assert book["end_major_min"].value == pytest.approx(4.513, abs=0.0005)
    assert book["end_pitch_diameter_max"].value == pytest.approx(4.189, abs=0.0005)
    assert book["end_pitch_diameter_min"].value == pytest.approx(4.083, abs=0.0005)
    size_tapped_hole(book, "hole", read_thread("2 BA"), "inch")
    assert book["hole.tapped_minor_max"].value == pytest.approx(3.728 + 0.304, abs=0.0005)
    assert book["hole.tapped_pitch_diameter_max"].value == pytest.approx(4.214 + 0.127, abs=0.0005)
