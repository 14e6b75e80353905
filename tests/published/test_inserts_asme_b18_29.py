"""ASME B18.29.1, B18.29.2M (also NASM33537, DIN 8140-2): holes for wire thread inserts, and their depths.

Diameters follow the standards' rule d + 1.299038 P, d + 0.649519 P, d + 0.216506 P (memory; M8's as remembered from the
tables); usual drills from memory; depths from the notes of ASME B18.29.2M-2005 as printed.
"""

import pytest

from parts.book import Book
from parts.sizing.inserts import size_insert
from parts.thread import read_thread
from tests.published.status import memory

METRIC = memory(  # label, major, pitch, minor (least), minor (greatest, 5H), a usual drill [mm]
    pytest.param("M5", 6.039, 5.52, 5.173, 5.333, 5.2, id="M5"),
    pytest.param("M6", 7.299, 6.65, 6.217, 6.407, 6.3, id="M6"),
    pytest.param("M8", 9.624, 8.812, 8.271, 8.483, 8.4, id="M8"),
    pytest.param("M8x1", 9.299, 8.65, 8.217, 8.407, 8.3, id="M8x1"),
    pytest.param("M10", 11.949, 10.974, 10.325, 10.561, 10.4, id="M10"),
    pytest.param("M10x1.25", 11.624, 10.812, 10.271, 10.483, 10.4, id="M10x1.25"),
    pytest.param("M12", 14.273, 13.137, 12.379, 12.644, 12.5, id="M12"),
    pytest.param("M12x1.5", 13.949, 12.974, 12.325, 12.561, 12.4, id="M12x1.5"),
    pytest.param("M12x1.25", 13.624, 12.812, 12.271, 12.483, 12.4, id="M12x1.25"),
)

INCH_SIZES = memory(  # label, major, pitch, minor (least), minor with the tolerance of 2B, a usual drill [in]
    pytest.param("1/4-20 UNC", 0.315, 0.2825, 0.2608, 0.2723, 0.2656, id="1/4-20"),
    pytest.param("1/4-28 UNF", 0.2964, 0.2732, 0.2577, 0.2662, 0.261, id="1/4-28"),
    pytest.param("5/16-18 UNC", 0.3847, 0.3486, 0.3245, 0.3372, 0.3281, id="5/16-18"),
    pytest.param("5/16-24 UNF", 0.3666, 0.3396, 0.3215, 0.3312, 0.3281, id="5/16-24"),
    pytest.param("3/8-16 UNC", 0.4562, 0.4156, 0.3885, 0.4026, 0.3906, id="3/8-16"),
    pytest.param("3/8-24 UNF", 0.4291, 0.4021, 0.384, 0.3937, 0.3906, id="3/8-24"),
)


def inserted(label, system, tap="bottoming", standard="ASME B18.29.2M"):
    book, thread = Book(), read_thread(label)
    book.enter("insert.nominal_length", 1.5 * thread.nominal, "mm", "given", "1.5 d")
    size_insert(book, thread, system, tap, standard=standard)
    return book


@pytest.mark.parametrize(("label", "major", "pitch", "minor", "minor_max", "usual"), METRIC)
def test_metric_hole(label, major, pitch, minor, minor_max, usual):
    book = inserted(label, "metric")
    assert book["insert.tapped_major"].value == pytest.approx(major, abs=0.0006)
    assert book["insert.tapped_pitch_diameter"].value == pytest.approx(pitch, abs=0.0006)
    assert book["insert.tapped_minor"].value == pytest.approx(minor, abs=0.0006)
    assert book["insert.tapped_minor_max"].value == pytest.approx(minor_max, abs=0.0011)
    assert minor <= book["insert.tap_drill"].value <= usual <= minor_max


@pytest.mark.parametrize(("label", "major", "pitch", "minor", "minor_max", "usual"), INCH_SIZES)
def test_inch_hole(label, major, pitch, minor, minor_max, usual):
    book = inserted(label, "inch")
    assert book["insert.tapped_major"].value / 25.4 == pytest.approx(major, abs=0.00006)
    assert book["insert.tapped_pitch_diameter"].value / 25.4 == pytest.approx(pitch, abs=0.00006)
    assert book["insert.tapped_minor"].value / 25.4 == pytest.approx(minor, abs=0.00006)
    assert book["insert.tapped_minor_max"].value / 25.4 == pytest.approx(minor_max, abs=0.00011)
    assert minor <= book["insert.tap_drill"].value / 25.4 <= usual + 0.0001 <= minor_max + 0.0001


def test_smallest_listed_drill_is_named():
    assert inserted("M10x1.5", "metric")["insert.tap_drill"].value == 10.4
    book = inserted("1/4-20 UNC", "inch")  # 0.2608 to 0.2723 in: letter G, 0.261 in
    assert book["insert.tap_drill"].value == pytest.approx(0.261 * 25.4)
    assert book["insert.tap_drill"].source.startswith("G:")


def test_depths_of_m10_by_15():
    """Full thread: nominal + 1 P; drilled: nominal + 4 P or, plug tap, + 6 P; in place: nominal - 0.75 P."""
    book = inserted("M10x1.5", "metric")
    assert book["insert.full_thread_depth"].value == 16.5
    assert book["insert.drill_depth"].value == 21.0
    assert book["insert.installed_length"].value == 13.875
    assert book["insert.set_down"].value == 1.5
    assert inserted("M10x1.5", "metric", tap="plug")["insert.drill_depth"].value == 24.0


def test_set_down_of_din_8140_is_half_a_turn():
    book = inserted("M10x1.5", "metric", standard="DIN 8140")
    assert book["insert.set_down"].value == 0.75
    assert "DIN 8140" in book["insert.set_down_turns"].source


@pytest.mark.parametrize("label", ["1/4 BSW", "5/16 BSF", "2 BA", "5/16-26 BSC"])
def test_vintage_threads_are_sized_by_analogy(label):
    book = inserted(label, "inch")
    assert "by analogy" in book["insert.tapped_minor"].source
    assert book["insert.tapped_minor"].value <= book["insert.tap_drill"].value <= book["insert.tapped_minor_max"].value
