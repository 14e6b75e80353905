"""ISO 286-1 and ISO 286-2: tolerance grades and limits of shafts and of holes H, in micrometres.

IT6 to IT11 as printed; the deviations of shafts from memory (all but s6 confirmed with an independent program).
"""

import pytest

from parts import tables
from parts.book import Book
from parts.relations.fits import deviations
from parts.sizing.fits import size_fit
from tests.published.status import memory

GRADES = memory(  # a diameter in the step, IT5 (memory), IT6 to IT11
    pytest.param(6.0, [5, 8, 12, 18, 30, 48, 75], id="3-6"),
    pytest.param(10.0, [6, 9, 15, 22, 36, 58, 90], id="6-10"),
    pytest.param(18.0, [8, 11, 18, 27, 43, 70, 110], id="10-18"),
    pytest.param(30.0, [9, 13, 21, 33, 52, 84, 130], id="18-30"),
    pytest.param(50.0, [11, 16, 25, 39, 62, 100, 160], id="30-50"),
    pytest.param(80.0, [13, 19, 30, 46, 74, 120, 190], id="50-80"),
    pytest.param(120.0, [15, 22, 35, 54, 87, 140, 220], id="80-120"),
)

SHAFTS = memory(  # a diameter in the step, es of g, ei of k, m, n, p, r, s
    pytest.param(6.0, [-4, 1, 4, 8, 12, 15, 19], id="3-6"),
    pytest.param(10.0, [-5, 1, 6, 10, 15, 19, 23], id="6-10"),
    pytest.param(18.0, [-6, 1, 7, 12, 18, 23, 28], id="10-18"),
    pytest.param(30.0, [-7, 2, 8, 15, 22, 28, 35], id="18-30"),
    pytest.param(50.0, [-9, 2, 9, 17, 26, 34, 43], id="30-50"),
    pytest.param(65.0, [-10, 2, 11, 20, 32, 41, 53], id="50-65"),
    pytest.param(80.0, [-10, 2, 11, 20, 32, 43, 59], id="65-80"),
    pytest.param(100.0, [-12, 3, 13, 23, 37, 51, 71], id="80-100"),
    pytest.param(120.0, [-12, 3, 13, 23, 37, 54, 79], id="100-120"),
)

LIMITS = memory(  # diameter, designation, upper, lower
    pytest.param(10, "H7", 15, 0, id="10 H7"),
    pytest.param(10, "g6", -5, -14, id="10 g6"),
    pytest.param(10, "h6", 0, -9, id="10 h6"),
    pytest.param(10, "k6", 10, 1, id="10 k6"),
    pytest.param(10, "m6", 15, 6, id="10 m6"),
    pytest.param(10, "n6", 19, 10, id="10 n6"),
    pytest.param(10, "p6", 24, 15, id="10 p6"),
    pytest.param(10, "r6", 28, 19, id="10 r6"),
    pytest.param(10, "s6", 32, 23, id="10 s6"),
    pytest.param(25, "H7", 21, 0, id="25 H7"),
    pytest.param(25, "g6", -7, -20, id="25 g6"),
    pytest.param(25, "p6", 35, 22, id="25 p6"),
    pytest.param(60, "H7", 30, 0, id="60 H7"),
    pytest.param(60, "s6", 72, 53, id="60 s6"),
)


@pytest.mark.parametrize(("diameter", "printed"), GRADES)
def test_grades_are_the_printed_figures(diameter, printed):
    assert [round(tables.it_grade(diameter, grade).value * 1000) for grade in range(5, 12)] == printed


@pytest.mark.parametrize(("diameter", "printed"), GRADES)
def test_grades_follow_the_formula(diameter, printed):
    """i = 0.45 D^(1/3) + 0.001 D, IT6 = 10 i and so on: within 10 % (the standard rounds)."""
    steps = (3, 6, 10, 18, 30, 50, 80, 120)
    low = steps[steps.index(int(diameter)) - 1]
    mean = (low * diameter) ** 0.5
    unit = 0.45 * mean ** (1 / 3) + 0.001 * mean
    assert printed[1:] == pytest.approx([k * unit for k in (10, 16, 25, 40, 64, 100)], rel=0.1)


@pytest.mark.parametrize(("diameter", "printed"), SHAFTS)
def test_shaft_deviations(diameter, printed):
    assert [round(tables.shaft_deviation(diameter, letter).value * 1000) for letter in "gkmnprs"] == printed


@pytest.mark.parametrize(("diameter", "designation", "upper", "lower"), LIMITS)
def test_worked_limits(diameter, designation, upper, lower):
    found = deviations(diameter, designation)
    assert (found.upper * 1000, found.lower * 1000) == pytest.approx((upper, lower))


def test_fit_in_the_book():
    book = Book()
    book.enter("plug.hole", 12.0, "mm", "given", "job")
    size_fit(book, "plug.fit", "plug.hole", "p6")
    assert book["plug.fit_max"].value == 12.029
    assert book["plug.fit_min"].value == 12.018
    assert book["plug.fit_upper"].status == "memory"


@pytest.mark.parametrize(
    ("diameter", "designation", "says"),
    [(12, "6p", "p6"), (12, "x6", "x"), (12, "p4", "4"), (12, "k9", "k9"), (400, "p6", "120 mm"), (12, "P6", "P6")],
)
def test_what_is_not_listed_is_refused_by_name(diameter, designation, says):
    with pytest.raises(ValueError, match=says):
        deviations(diameter, designation)
