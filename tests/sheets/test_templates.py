"""Templates at 1:1: measured on the rendered page, tiled, labelled; and the pages they are written on."""

import re
from math import sqrt
from xml.etree import ElementTree as ET

import numpy as np
import pypdfium2
import pytest

from parts.errors import WriteError
from parts.geometry import outline
from parts.geometry.outline import Hole, Region
from parts.sheets import templates
from parts.sheets.labels import touches
from parts.sheets.templates import deck_template, gasket_template
from parts.sheets.tiles import OVERLAP, Template, pages, tiling, whole, write_template
from parts.writers import svg, svg_marks
from parts.writers.fonts import plain
from parts.writers.marks import Letters, Page
from parts.writers.svg import write_svg
from tests.sheets.paper import outside, overlaps, sized
from tests.sheets.test_drawings import PIXEL, grey, runs

NS = {"s": svg_marks.XMLNS}
MID = (112.0, 167.5)  # mm, middle of the window of an upright A4 sheet


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    """Folder of the templates of the demo."""
    folder = tmp_path_factory.mktemp("templates")
    (folder / "parts").mkdir()
    job, book, found, shaped = sized("run-out")
    gasket_template(shaped["head-gasket"], book, job, folder / "parts")
    deck_template(book, job, found, folder)
    return folder / "parts"


@pytest.mark.parametrize("stem", ["head-gasket", "deck-template"])
def test_bars_and_bore_are_true_to_size_on_the_page(written, stem):
    page = grey(written / f"{stem}.pdf")
    level, upright = runs(page[round(8.6 / PIXEL)]), runs(page[:, round(8.6 / PIXEL)])
    for bars in (level, upright):
        for length in (50.0, 50.8):
            assert min(abs(b - a - length) for a, b in bars) <= PIXEL
    bore, edge = (58.2 if stem == "head-gasket" else 57.2), 112.0
    for up in (-9.0, 13.0):  # off the centre lines
        lines = [(a + b) / 2 - MID[0] for a, b in runs(page[round((MID[1] + up) / PIXEL)])]
        across = (round((MID[1] + up) / PIXEL) + 0.5) * PIXEL - MID[1]
        for diameter in (bore, edge):
            half = sqrt((diameter / 2) ** 2 - across**2)
            for side in (-half, half):
                assert min(abs(x - side) for x in lines) <= PIXEL, (diameter, up)


def test_pages_are_a4_upright(written):
    for path in written.glob("*.pdf"):
        document = pypdfium2.PdfDocument(path)
        assert len(document) == 1
        assert document[0].get_size() == pytest.approx((210 / 25.4 * 72, 297 / 25.4 * 72), abs=0.01)
        assert b"/PrintScaling /None" in path.read_bytes()


def test_the_svg_is_the_same_page_at_1_to_1(written):
    for path in written.glob("*.svg"):
        root = ET.fromstring(path.read_bytes())
        assert (root.get("width"), root.get("height")) == ("210.00mm", "297.00mm")
        assert root.get("viewBox") == "0 0 210.00 297.00"
        assert root.findtext("s:title", namespaces=NS).startswith("Orchard sprayer engine")
        said = [g.get("aria-label") for g in root.findall(".//s:g[@aria-label]", NS)]
        assert said.count("50 mm") == said.count("2 in") == 2


@pytest.mark.parametrize("name", ["demo", "letter", "long title", "inch job", "bsf job", "lists job"])
def test_no_label_lies_on_anything(name, monkeypatch, tmp_path):
    seen = []
    monkeypatch.setattr(templates, "write_template", lambda template, _, paper: seen.append((template, paper)) or [])
    job, book, found, shaped = sized(name)
    gasket_template(shaped["head-gasket"], book, job, tmp_path)
    deck_template(book, job, found, tmp_path)
    assert len(seen) == 2
    for template, paper in seen:
        page = whole(template, tiling(template.box, paper))
        assert not overlaps(page.marks), template.title
        assert not outside(page.marks, page.width, page.height, 7), template.title


def test_every_hole_of_the_deck_has_its_label(monkeypatch, tmp_path):
    seen = []
    monkeypatch.setattr(templates, "write_template", lambda template, *_: seen.append(template) or [])
    job, book, found, _ = sized("run-out")
    deck_template(book, job, found, tmp_path)
    said = {m.text for m in whole(seen[0], tiling(seen[0].box, "A4")).marks if isinstance(m, Letters)}
    assert {"1", "2", "3", "4", "old 1", "old 2", "old 3", "breather"} <= said


def test_the_words_tell_which_holes_are_of_which_size(monkeypatch, tmp_path):
    """Gasket: 0.5 over M8 and M10, and the open passage; deck: ISO 2306 drills M12 x 1.75 with 10.2."""
    seen = []
    monkeypatch.setattr(templates, "write_template", lambda template, *_: seen.append(template) or [])
    job, book, found, shaped = sized("lists job")
    gasket_template(shaped["head-gasket"], book, job, tmp_path)
    deck_template(book, job, found, tmp_path)
    gasket, deck = (" ".join(template.notes) for template in seen)
    assert "stud holes 1 and 2 Ø8.5, 3 and 4 Ø10.5, open passages Ø9 mm." in gasket
    assert "; 3 and 4 Ø10.2, 25 mm deep (rear). " in deck


@pytest.mark.parametrize("name", ["demo", "long title", "inch job", "lists job"])
@pytest.mark.parametrize("part", [0, 1])
def test_every_word_of_the_notes_is_on_the_paper(name, part, monkeypatch, tmp_path):
    """How it is printed comes last, and is what the whole sheet hangs on; above the bars, which end 12 mm up."""
    seen = []
    monkeypatch.setattr(templates, "write_template", lambda template, *_: seen.append(template) or [])
    job, book, found, shaped = sized(name)
    gasket_template(shaped["head-gasket"], book, job, tmp_path)
    deck_template(book, job, found, tmp_path)
    page = whole(seen[part], tiling(seen[part].box, "A4"))
    below = [mark for mark in page.marks if isinstance(mark, Letters) and mark.y < 40 and mark.along == (1.0, 0.0)]
    said = " ".join(mark.text for mark in below)
    for note in seen[part].notes:
        assert plain(note) in said
    assert min(mark.y for mark in below if mark.text in " ".join(seen[part].notes)) > 14


def test_a_job_that_says_nothing_of_the_deck_has_no_deck_template(tmp_path):
    job, book, found, _ = sized("gasket job")
    assert deck_template(book, job, found, tmp_path) == []


# several sheets -------------------------------------------------------------------------------------------------------


def plate(width, height):
    """A plate with a bore and two holes, as a template."""
    part = Region(
        outline.rectangle(width, height, 12), (Hole(0, 0, 0.5 * height, "BORE"), Hole(0.4 * width, 9, 8, "STUD HOLES"))
    )
    holes = [("1" if h.x else "", h.layer.lower(), (h.x, h.y), h.diameter / 2, ()) for h in part.holes]

    def draw(sheet, origin):
        templates._draw(sheet, origin, part.outer, holes)

    return Template("Plate", ["A plate."], outline.bounds(part.outer), draw)


@pytest.mark.parametrize(
    ("size", "paper", "sheets"),
    [((170, 230), "A4", (1, 1)), ((230, 140), "A4", (1, 1)), ((300, 200), "A4", (2, 1)), ((340, 300), "Letter", (2, 2))],
)  # fmt: skip
def test_sheets_are_as_many_as_it_takes(size, paper, sheets):
    tiles = tiling(plate(*size).box, paper)
    assert (tiles.columns, tiles.rows) in (sheets, sheets[::-1])


def test_neighbouring_sheets_register(tmp_path):
    """At 254 dots to the inch, 10 to the mm: what two sheets share is the same to the pixel, marks and all."""
    template = plate(300, 420)
    tiles = tiling(template.box, "A4")
    assert (tiles.columns, tiles.rows) == (2, 2)
    write_template(template, tmp_path / "plate", "A4")
    shots = [grey(tmp_path / "plate.pdf", n, 253.99) for n in range(4)]  # a hair less: the renderer rounds pages up
    left, low, right, high = (round(10 * v) for v in tiles.window)
    share, inset = round(10 * OVERLAP), 6
    upper_left, upper_right, lower_left, _ = shots
    one = upper_left[low + inset : high - inset, right - share + inset : right - inset]
    other = upper_right[low + inset : high - inset, left + inset : left + share - inset]
    assert (one < 128).sum() > 1000
    assert np.abs(one.astype(int) - other).max() <= 2
    one = upper_left[low + inset : low + share - inset, left + inset : right - inset]
    other = lower_left[high - share + inset : high - inset, left + inset : right - inset]
    assert (one < 128).sum() > 1000
    assert np.abs(one.astype(int) - other).max() <= 2


def test_sheets_laid_together_are_the_part(tmp_path):
    template = plate(300, 200)
    tiles = tiling(template.box, "A4")
    for n, page in enumerate(pages(template, tiles)):
        part, furniture = page.shared
        assert (part.x, part.y) == tiles.origin(n % tiles.columns, tiles.rows - 1 - n // tiles.columns)
        (hole,) = (mark for mark in part.marks if isinstance(mark, Letters) and mark.text == "1")
        assert abs(hole.x) < 140
        assert furniture.window is None
    write_template(template, tmp_path / "plate", "A4")
    edges = []
    for n in range(2):
        origin = tiles.origin(n % tiles.columns, tiles.rows - 1 - n // tiles.columns)
        shot = grey(tmp_path / "plate.pdf", n)
        at = (origin[1] + 60) if tiles.columns == 2 else (origin[0] + 100)
        line = shot[round(at / PIXEL)] if tiles.columns == 2 else shot[:, round(at / PIXEL)]
        edges += [(a + b) / 2 - origin[0 if tiles.columns == 2 else 1] for a, b in runs(line)]
    half = 150 if tiles.columns == 2 else 100
    assert min(abs(e + half) for e in edges) <= PIXEL
    assert min(abs(e - half) for e in edges) <= PIXEL


def test_many_sheets_are_not_many_times_the_part(tmp_path):
    """What is shared is written once; each sheet still shows it, read by a library that did not write it."""
    template = plate(1900, 1900)
    write_template(template, tmp_path / "plate", "A4")
    document = pypdfium2.PdfDocument(tmp_path / "plate.pdf")
    assert len(document) == 108
    assert (tmp_path / "plate.pdf").stat().st_size < 0.5e6
    for n in (0, 53, 107):
        words = document[n].get_textpage().get_text_range()
        assert f"Sheet {n + 1} of 108" in words
        assert "Lay the sheets over each other" in words


def fonts(path):
    """Every font that a PDF lists: its name, and whether the file of its letters is in it."""
    objects = path.read_bytes().split(b"endobj")
    listed = [one for one in objects if b"/Type /Font\n" in one or b"/Type /Font " in one]
    names = {re.search(rb"/BaseFont /(\S+)", one)[1] for one in listed}
    held = {re.search(rb"/FontName /(\S+)", one)[1] for one in objects if b"/FontFile2" in one}
    return names, held


def test_pdfs_list_no_font_that_they_do_not_hold(written):
    for path in written.glob("*.pdf"):
        names, held = fonts(path)
        assert names == held
        assert {name[7:] for name in names} == {b"DejaVuSansCondensed"}


# a page as SVG --------------------------------------------------------------------------------------------------------


def test_a_page_keeps_its_words_and_its_size(tmp_path):
    words = Letters("Ø10 & <b>", 20.0, 30.0, (0.0, 1.0), 3.5)
    write_svg(Page(100.0, 50.0, [words]), tmp_path / "a.svg", "Bore < 58 \x07 & more", "A note")
    root = ET.fromstring((tmp_path / "a.svg").read_bytes())
    assert root.findtext("s:title", namespaces=NS) == "Bore < 58   & more"
    assert root.findtext("s:desc", namespaces=NS) == "A note"
    line = root.find(".//s:g[@aria-label]", NS)
    assert line.get("aria-label") == words.text
    uses = [u.get(f"{{{svg_marks.XLINK}}}href") for u in line]
    defined = {f"#{p.get('id')}" for p in root.findall("s:defs/s:path", NS)}
    assert len(uses) == len(words.text.replace(" ", ""))
    assert set(uses) <= defined
    assert all(u.startswith("#a-") for u in uses)  # two pages in one document keep apart


def test_an_svg_that_reads_back_otherwise_is_an_error(tmp_path, monkeypatch):
    whole_root = svg._root

    def spoilt(*arguments):
        root = whole_root(*arguments)
        root.set("width", "7.00mm")
        return root

    monkeypatch.setattr(svg, "_root", spoilt)
    with pytest.raises(WriteError, match=r"read back as \['7.00'"):
        write_svg(Page(100.0, 50.0, []), tmp_path / "a.svg", "Plate", "")


def test_a_line_that_touches_a_box():
    box = (0.0, 0.0, 4.0, 2.0)
    assert touches(box, ((-1.0, 1.0), (5.0, 1.5)))
    assert touches(box, ((1.0, 1.0), (1.2, 1.1)))
    assert not touches(box, ((-1.0, 1.0), (1.0, 3.5)))
    assert not touches(box, ((5.0, -1.0), (5.0, 3.0)))
