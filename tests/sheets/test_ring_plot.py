"""The plot of pressure and light: what it draws is what the solver found, SVG and PNG show the same, bytes are kept."""

import hashlib
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from PIL import Image

from parts.checked import check
from parts.pictures.plot import painted
from parts.sheets.ring_plot import ANGLES, BOTTOM, LEFT, STYLES, TOP, curves, drawn, parted_forces, ring_pressure
from parts.writers import svg_marks
from parts.writers.plot import Area, Label, Picture, Polyline, Scale, nice_step, steps
from parts.writers.plot_svg import write_plot_svg
from tests.conftest import ROOT

SVG = f"{{{svg_marks.XMLNS}}}"
FORM, INCH = 'form = "contoured"', ('print_units = "metric"', 'print_units = "inch"')
BORE = 'bore = "57.20 mm"'
READINGS = (
    BORE,
    f'{BORE}\nbore_readings = [["57.19 mm", "57.22 mm"], ["57.20 mm", "57.20 mm"], ["57.20 mm", "57.20 mm"]]',
)
FORMS = ("contoured", "pin", "round")


def told(demo, *changes):
    job, book, found = check(demo.swap(*changes))
    return book, job, found


@pytest.fixture(scope="module")
def written(demo, tmp_path_factory):
    """Write the plot of a job: its SVG's root, its PNG and its picture."""
    done = {}

    def of(*changes):
        if changes not in done:
            folder = tmp_path_factory.mktemp("plot")
            (folder / "parts").mkdir()
            book, job, found = told(demo, *changes)
            files = ring_pressure(book, job, found, folder)
            assert [(p.name, kind) for p, kind in files] == [
                ("ring-pressure.svg", "plot"),
                ("ring-pressure.png", "plot"),
            ]
            done[changes] = files[0][0], files[1][0], drawn(curves(book, job), book, job)
        return done[changes]

    return of


def texts(svg):
    return [g.get("aria-label") for g in ET.parse(svg).getroot().iter(f"{SVG}g") if g.get("aria-label")]


def test_it_names_axes_units_forms_and_figures(written):
    svg, _, _ = written()
    said = texts(svg)
    for wanted in (
        "pressure over its mean", "light, µm", "angle from the back, which lies opposite the gap", "back", "\u2212180°", "180°",
        "contoured mandrel, ends bound down", "contoured mandrel, ends left free", "pin between the ends", "plain round mandrel",
        "at the back", "least over 10°", "each end presses", "light, at most", "under 0.7: caution", "over 5 µm: caution",
    ):  # fmt: skip
        assert wanted in said, wanted
    assert any("57.200 mm" in t and "0.1696 MPa" in t for t in said)
    root = ET.parse(svg).getroot()
    assert "how the ring will press" in root.findtext(f"{SVG}title")
    assert "plain round mandrel: 1.42, 0.00 (0.00), 19.0 N, 1.74 (43.6) µm" in root.findtext(f"{SVG}desc")


def test_inch_jobs_read_in_thou_psi_and_pounds(written):
    said = texts(written(*INCH)[0])
    assert "light, thou" in said
    assert any("psi" in t and "2.2520 in" in t for t in said)
    assert any(t.endswith("lbf") for t in said)
    assert not any(" mm" in t or "µm" in t or t.endswith(" N") for t in said)


def polyline(picture, color, width):
    """The curve of a form in the panel of pressure: the first line of its colour with more than two points."""
    lines = [m for m in picture.marks if isinstance(m, Polyline) and m.color == color and m.width == width]
    return next(m.points for m in lines if len(m.points) > 2 and max(y for _, y in m.points) <= BOTTOM + 0.01)


def test_the_asked_form_is_bold_and_on_top(written):
    for form in FORMS:
        _, _, picture = written(*(() if form == "contoured" else (FORM, f'form = "{form}"')))
        bold = [m for m in picture.marks if isinstance(m, Polyline) and m.width == 3.2]
        assert {m.color for m in bold} == {STYLES[form][0]}
        panel = [
            m
            for m in picture.marks
            if isinstance(m, Polyline) and len(m.points) > 3 and max(y for _, y in m.points) <= BOTTOM
        ]
        assert panel[-1].color == STYLES[form][0]


def test_the_curves_are_the_solvers(demo, written):
    """Read the pressure back from the line, at every 10 degrees away from the arrows."""
    book, job, _ = told(demo)
    _, _, picture = written()
    found = {c.form: c for c in curves(book, job)}
    high = Scale(0.0, 1.6, BOTTOM, TOP)
    for form, away in (("contoured", ()), ("pin", (150, 160)), ("round", (50, 110))):
        points = polyline(picture, STYLES[form][0], found[form].width)
        x, y = np.array(points).T
        for angle in range(-140, 141, 10):
            if abs(angle) in away:
                continue
            read = np.interp(ANGLES.at(angle), x, y)
            pressed = found[form].pressed
            wanted = np.interp(angle, pressed.angle, pressed.pressure)
            assert (high.start - read) / (high.start - high.end) * 1.6 == pytest.approx(wanted, abs=0.003)


@pytest.mark.parametrize("form", [*FORMS, "unbound"])
def test_arrows_and_line_together_are_all_the_force(demo, form):
    """What is drawn as an arrow is taken from the line, and no more."""
    book, job, _ = told(demo)
    pressed = next(c.pressed for c in curves(book, job) if c.form == form)
    line, forces = parted_forces(pressed)
    back = len(pressed.force) // 2
    unit = pressed.force[back] / pressed.pressure[back]
    ends = (line[0] + line[-1]) / 2
    assert unit * (sum(line[1:-1]) + ends) + sum(f for _, f in forces) == pytest.approx(sum(pressed.force), rel=0.02)
    assert all(-f[0] == pytest.approx(g[0]) for f, g in zip(forces, reversed(forces), strict=True))
    if form == "round":
        assert [round(a, -1) for a, _ in forces] == [-180, -110, -50, 50, 110, 180]
        assert forces[-1][1] == pytest.approx(book["ring.round.tip_force"].value, abs=1e-5)
    assert (form == "contoured") is (forces == [])


def test_a_bore_as_measured_is_drawn_broken(written):
    _, _, picture = written(*READINGS)
    broken = [m for m in picture.marks if isinstance(m, Polyline) and m.dash and m.color == STYLES["oval"][0]]
    assert len(broken) >= 3  # in both panels and in the table
    assert "contoured mandrel, ends bound down, bore as measured" in [
        m.text for m in picture.marks if isinstance(m, Label)
    ]


def test_a_saw_no_wider_than_the_gap_needs_no_binding(written):
    said = texts(written('slit = "0.50 mm"', 'slit = "0.20 mm"')[0])
    assert "contoured mandrel, ends left free" not in said


@pytest.mark.parametrize("gone", [("mandrel",), ("ring", "mandrel")])
def test_nothing_is_drawn_without_ring_or_mandrel(demo, tmp_path, gone):
    job, book, found = check(demo.without(*gone))
    assert ring_pressure(book, job, found, tmp_path) == []


def test_all_stays_on_the_paper_and_no_words_collide(written):
    for changes in ((), INCH, READINGS, (FORM, 'form = "round"')):
        _, _, picture = written(*changes)
        boxes = []
        for mark in picture.marks:
            points = mark.points if isinstance(mark, Polyline | Area) else corners(mark)
            assert all(0 <= x <= picture.width and 0 <= y <= picture.height for x, y in points), mark
            if isinstance(mark, Label):
                boxes.append((mark.text, points))
        for n, (one, a) in enumerate(boxes):
            for other, b in boxes[n + 1 :]:
                assert not overlap(a, b), (one, other)


def corners(words):
    from parts.writers.fonts import advance, em
    from parts.writers.glyphs import start_of

    (x, y), long = start_of(words), advance(words.text) * words.size / em()
    high = 0.72 * words.size
    return [(x - high, y - long), (x, y)] if words.upright else [(x, y - high), (x + long, y)]


def overlap(a, b):
    return all(a[0][n] < b[1][n] and b[0][n] < a[1][n] for n in (0, 1))


def test_the_png_shows_what_the_svg_shows(written):
    """Read by another library; colours where the curves, the frame and the paper are."""
    svg, png, picture = written()
    with Image.open(png) as image:
        assert image.format == "PNG"
        assert image.size == (round(picture.width * 1.6), round(picture.height * 1.6))
        dots = np.asarray(image.convert("RGB")).astype(int)
    root = ET.parse(svg).getroot()
    assert [float(root.get(s)) for s in ("width", "height")] == [picture.width, picture.height]
    high = Scale(0.0, 1.6, BOTTOM, TOP)
    blue, red = (tuple(int(STYLES[f][0][n : n + 2], 16) for n in (1, 3, 5)) for f in ("contoured", "round"))
    assert tuple(dots[round(high.at(1.0) * 1.6), round(ANGLES.at(20) * 1.6)]) == blue
    column = dots[round(TOP * 1.6) : round(BOTTOM * 1.6), round(ANGLES.at(20) * 1.6)]
    near = np.abs(column - np.array(red)).sum(axis=1).argmin() / 1.6 + TOP
    assert near == pytest.approx(high.at(1.42), abs=1.0)
    assert tuple(dots[2, 2]) == (255, 255, 255)
    ink = dots[round(TOP * 1.6) + 5 : round(BOTTOM * 1.6) - 5, round(LEFT * 1.6)]
    assert (ink.sum(axis=1) < 300).mean() > 0.9
    assert dots[:, -2:].min() == 255


def test_the_same_job_gives_the_same_bytes(demo, written, tmp_path):
    (tmp_path / "parts").mkdir()
    book, job, found = told(demo)
    again = ring_pressure(book, job, found, tmp_path)
    for (path, _), first in zip(again, written()[:2], strict=True):
        assert hashlib.sha256(path.read_bytes()).digest() == hashlib.sha256(first.read_bytes()).digest()


def test_the_made_folder_holds_and_lists_it(made):
    import json

    _, into = made
    listed = json.loads((into / "manifest.json").read_text(encoding="utf-8"))
    found = {e["path"]: (e["part"], e["kind"]) for e in listed if e["part"] == "ring-pressure"}
    assert found == {f"parts/ring-pressure.{end}": ("ring-pressure", "plot") for end in ("svg", "png")}
    assert 'class="plot" src="data:image/svg+xml;base64,' in (into / "index.html").read_text(encoding="utf-8")


# the pieces -----------------------------------------------------------------------------------------------------------


def small(*marks):
    return Picture(40.0, 20.0, "title", "note", list(marks))


def test_areas_and_lines_cover_what_they_cover():
    square = ((10.0, 5.0), (20.0, 5.0), (20.0, 15.0), (10.0, 15.0))
    dots = painted(small(Area(square, "#000000")), 1.0)
    assert (dots[5:15, 10:20] == 0).all()
    assert int((255 - dots.astype(int)).sum()) == 255 * 3 * 100
    line = painted(small(Polyline(((5.0, 10.0), (35.0, 10.0)), 2.0, "#000000")), 1.0)
    assert (line[9:11, 5:35] == 0).all()
    assert int((255 - line.astype(int))[:, 8:32].sum()) == 255 * 3 * 2 * 24
    broken = painted(small(Polyline(((4.0, 10.0), (36.0, 10.0)), 2.0, "#000000", (4.0, 4.0))), 1.0)
    assert int((255 - broken.astype(int)).sum()) == 255 * 3 * 2 * 16


def test_a_letter_with_a_hole_keeps_it():
    """The inner contour goes round the other way: winding 0 inside an O."""
    dots = painted(small(Label("O", 20.0, 18.0, 20.0, "#000000", "middle")), 4.0)
    row = dots[(11 * 4), :, 0]
    assert row.min() == 0
    assert row[80] == 255
    upright = painted(
        Picture(40.0, 40.0, "t", "n", [Label("II", 30.0, 20.0, 20.0, "#000000", "middle", upright=True)]), 2.0
    )
    dark = np.argwhere(upright[:, :, 0] < 128)
    assert np.ptp(dark[:, 1]) > np.ptp(dark[:, 0])  # two strokes lying down, one above the other


def test_a_missing_folder_is_told(tmp_path):
    from parts.errors import WriteError

    with pytest.raises(WriteError, match="there is no folder"):
        write_plot_svg(small(), tmp_path / "nowhere" / "x.svg")


def test_steps_and_scales():
    assert steps(0.0, 1.6, 0.2)[-1] == pytest.approx(1.6)
    assert [nice_step(span, 4) for span in (6.0, 0.24, 1.1)] == [2.0, pytest.approx(0.1), 0.5]
    assert Scale(0, 10, 100, 200).at(-5) == 100


def test_no_imaging_library_is_needed():
    """Pillow is only the tests': the plot is painted by the project itself."""
    for path in ("parts/pictures/plot.py", "parts/sheets/ring_plot.py", "parts/writers/plot_svg.py"):
        assert "PIL" not in (ROOT / path).read_text(encoding="utf-8")
