"""The measuring sheet on paper: all that is asked, in few pages, with room for a pencil; read back by another library."""

import re
import tomllib

import pypdfium2
import pytest

from parts.asking.cells import BOX, cells
from parts.asking.form import MARGIN, strips, write_form
from parts.asking.questions import questions
from parts.job.examples import demo_text
from parts.register import PARTS
from parts.writers.fonts import plain

ALL = list(PARTS)
PAIR = ["head-gasket", "stepped-stud"]
PAPER = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # mm: ISO 216, ANSI/ASME Y14.1
PENCIL = 8.0  # mm, least height of a box to write in: common practice, no source


@pytest.fixture
def raw():
    return tomllib.loads(demo_text())


def pages(path):
    """Text of each page, with single blanks."""
    with pypdfium2.PdfDocument(path) as document:
        return [re.sub(r"\s+", " ", page.get_textpage().get_text_range()) for page in document]


@pytest.mark.parametrize("page", PAPER)
@pytest.mark.parametrize("system", ["metric", "inch"])
def test_the_worked_job_has_four_pages_of_its_paper(raw, tmp_path, page, system):
    raw["job"] |= {"page": page, "print_units": system}
    write_form(raw, ALL, tmp_path / "form.pdf")
    with pypdfium2.PdfDocument(tmp_path / "form.pdf") as document:
        assert len(document) <= 4
        for one in document:
            assert [v / 72 * 25.4 for v in one.get_size()] == pytest.approx(PAPER[page], abs=0.01)


@pytest.mark.parametrize("make", [ALL, PAIR, ["ring-blank"]])
def test_an_empty_job_is_asked_for_everything_at_once(make, tmp_path):
    write_form({}, make, tmp_path / "form.pdf")
    text = " ".join(pages(tmp_path / "form.pdf"))
    assert "Measuring sheet" in text
    for one in questions({}, make):
        if one.kind != "yes" and not one.designed and one.key != "plug.hole":  # the opened passage has its own
            assert plain(one.asks) in text, one.key
    assert ("How wide are the old holes" in text) == (make != ["ring-blank"])  # a table that a yes would open


@pytest.mark.parametrize("make", [ALL, PAIR])
def test_nothing_is_ticked_or_filled_in_that_nobody_told(make):
    for strip in strips({}, make):
        for _, one in strip.asked:
            found = cells(one, strip.raw)
            assert not any(on for _, on in found.ticks), one.key
            assert not any(value for _, _, value in found.boxes), one.key
    assert "barrel.skim" in {one.key for strip in strips({}, PAIR) for _, one in strip.asked}


def test_what_is_known_is_filled_in(raw, tmp_path):
    write_form(raw, ALL, tmp_path / "form.pdf")
    text = " ".join(pages(tmp_path / "form.pdf"))
    for known in ("57.20 mm", "EN-GJL-250", "38 bar", "M10x1.5", "78 mm", "0.12 mm", "42.0 mm", "31.0 cm³"):
        assert known in text, known


def test_the_same_bytes_each_time(raw, tmp_path):
    for name in ("one", "two"):
        write_form(raw, ALL, tmp_path / name)
    assert (tmp_path / "one").read_bytes() == (tmp_path / "two").read_bytes()


@pytest.mark.parametrize("page", PAPER)
def test_nothing_is_printed_where_printers_leave_white_or_over_another_line(raw, tmp_path, page):
    raw["job"]["page"] = page
    write_form(raw, ALL, tmp_path / "form.pdf")
    wide, high = PAPER[page]
    with pypdfium2.PdfDocument(tmp_path / "form.pdf") as document:
        for one in document:
            text = one.get_textpage()
            boxes = [[v / 72 * 25.4 for v in text.get_rect(n)] for n in range(text.count_rects())]
            for left, low, right, top in boxes:
                assert left >= MARGIN - 0.5
                assert right <= wide - MARGIN + 0.5
                assert low >= MARGIN - 1.5
                assert top <= high - MARGIN
            words = [box for box in boxes if box[0] > MARGIN + 60]  # beside the drawings
            for n, a in enumerate(words):
                for b in words[n + 1 :]:
                    over = min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])
                    assert min(over) < 0.6, (a, b)


def test_boxes_are_high_enough_for_a_pencil_and_as_many_as_are_asked():
    assert BOX >= PENCIL
    found = {one.key: cells(one, {}) for one in questions({"barrel": {"passages": [{}]}}, ALL, more=True)}
    assert len(found["engine.bore"].boxes) == 1
    assert [label for label, _, _ in found["barrel.passages.0.at"].boxes] == ["X", "Y"]
    assert len(found["engine.bore_readings"].boxes) == 6
    assert [word for word, _ in found["head.holes"].ticks] == ["from above", "from beneath"]
    assert [word for word, _ in found["head.valve_gear"].ticks] == ["push rods", "chain", "side valves"]


def test_every_question_has_one_number_and_its_drawing_bears_it(raw):
    found = strips(raw, ALL)
    numbers = [number for strip in found for number, _ in strip.asked]
    assert numbers == list(range(1, len(numbers) + 1))
    assert all(one.picture.partition(" ")[0] == strip.family for strip in found for _, one in strip.asked)
