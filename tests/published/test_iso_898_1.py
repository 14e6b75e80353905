"""ISO 898-1: stress areas (tables 5 and 7), proof loads and the mechanical properties of the classes.

Coarse rows as printed; proof loads of the fine rows from memory, three figures.
"""

import pytest

from parts import tables
from parts.book import Book
from parts.sizing.threads import add_stress_area, size_thread
from parts.thread import read_thread
from tests.published.status import memory, seen

AREAS = [  # label, stress area as printed [mm^2], proof loads of 5.8, 8.8, 10.9, 12.9 [N]
    *seen(
        pytest.param("M5", "14.2", (5400, 8230, 11800, 13800), id="M5"),
        pytest.param("M6", "20.1", (7640, 11600, 16700, 19500), id="M6"),
        pytest.param("M8", "36.6", (13900, 21200, 30400, 35500), id="M8"),
        pytest.param("M10", "58.0", (22000, 33700, 48100, 56300), id="M10"),
        pytest.param("M12", "84.3", (32000, 48900, 70000, 81800), id="M12"),
        pytest.param("M14", "115", (43700, 66700, 95500, 112000), id="M14"),
        pytest.param("M16", "157", (59700, 91000, 130000, 152000), id="M16"),
    ),
    *memory(
        pytest.param("M8x1", "39.2", (14900, 22700, 32500, 38000), id="M8x1"),
        pytest.param("M10x1.25", "61.2", (23300, 35500, 50800, 59400), id="M10x1.25"),
        pytest.param("M10x1", "64.5", (24500, 37400, 53500, 62700), id="M10x1"),
        pytest.param("M12x1.5", "88.1", (33500, 51100, 73100, 85500), id="M12x1.5"),
        pytest.param("M12x1.25", "92.1", (35000, 53400, 76400, 89300), id="M12x1.25"),
        pytest.param("M14x1.5", "125", (47500, 72500, 104000, 121000), id="M14x1.5"),
        pytest.param("M16x1.5", "167", (63500, 96900, 139000, 162000), id="M16x1.5"),
    ),
]

CLASSES = seen(  # class, diameter, Rm, yield, Sp [MPa]
    pytest.param("5.8", 10, 520, 420, 380, id="5.8"),
    pytest.param("8.8", 16, 800, 640, 580, id="8.8 to 16 mm"),
    pytest.param("8.8", 18, 830, 660, 600, id="8.8 over 16 mm"),
    pytest.param("10.9", 10, 1040, 940, 830, id="10.9"),
    pytest.param("12.9", 10, 1220, 1100, 970, id="12.9"),
)


def area_of(label):
    book = Book()
    size_thread(book, "end", read_thread(label))
    add_stress_area(book, "area", "end", read_thread(label))
    return book["area"].value


@pytest.mark.parametrize(("label", "printed"), [row.values[:2] for row in AREAS])
def test_stress_area_is_the_printed_figure(label, printed):
    half = 0.05 if "." in printed else 0.5  # half of the last printed digit
    assert area_of(label) == pytest.approx(float(printed), abs=half)


@pytest.mark.parametrize(("label", "area", "loads"), AREAS)
def test_proof_stress_times_printed_area_is_the_printed_load(label, area, loads):
    """The standard rounds the product to three figures, some down: 0.6 %."""
    nominal = read_thread(label).nominal
    for name, load in zip(("5.8", "8.8", "10.9", "12.9"), loads, strict=True):
        proof = tables.material(name).figure("proof", diameter=nominal).value
        assert proof * float(area) == pytest.approx(load, rel=0.006)


@pytest.mark.parametrize(("name", "diameter", "tensile", "lower", "proof"), CLASSES)
def test_class_has_the_printed_strengths(name, diameter, tensile, lower, proof):
    stock = tables.material(name)
    found = [stock.figure(p, diameter=diameter).value for p in ("tensile", "yield", "proof")]
    assert found == [tensile, lower, proof]
    assert stock.figure("proof", diameter=diameter).status == "published"
