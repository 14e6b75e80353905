"""A size has one set of limits: in sizes.json, on the job sheet, on the drawing and in the files of the mandrel's curve.

Read off the files' own texts: what a drawing prints as `Ø57.295 ±0.01` is turned into two numbers, and so the sheet's `57.285
to 57.305 mm`. General tolerances as ISO 2768-1 m prints them: 0.1 to 6 mm, 0.2 to 30, 0.3 to 120, 0.5 to 400.
"""

import json
import random
import re

import pytest

from parts.book import record
from parts.checked import checked, judged
from parts.job import load
from parts.judging.limits import as_listed
from parts.register import PARTS, pieces
from parts.register import load as part_of
from parts.sheets.drawing import mandrel as mandrel_drawing
from parts.sheets.outlines import mandrel_outlines
from parts.sheets.page import steps
from parts.sheets.page.words import Words

NUMBERS = r"[\d.]+"
GENERAL = ((6, 0.1), (30, 0.2), (120, 0.3), (400, 0.5))  # ISO 2768-1, m
DRAWN = {  # size -> how the drawing of its part begins to print it
    "stud.shank_diameter": "Ø", "plug.diameter": "Ø", "job.plug.shoulder.diameter": "Ø", "ring.outside_diameter": "Ø",
    "ring.inside_diameter": "Ø", "job.ring.axial_width": "", "mandrel.pin_diameter": "Pin: Ø", "mandrel.pin_position": "",
    "mandrel.diameter": "Ø",
}  # fmt: skip
FORMS = {"mandrel.pin_diameter": "pin", "mandrel.pin_position": "pin", "mandrel.diameter": "round"}
CHANGES = [
    ('form = "contoured"', ('form = "pin"', 'form = "round"')),
    ('fit = "bonded"', ('fit = "press"', 'fit = "bonded"\nshoulder = { diameter = "12 mm", thickness = "3 mm" }')),
    ('shank = "6.2 mm"', ('shank = "6.6 mm"', 'shank = "8 mm"')),
    ('thickness = "46 mm"', ('thickness = "31.77 mm"', 'thickness = "52.3 mm"')),
    ('axial_width = "2.38 mm"', ('axial_width = "2.31 mm"', 'axial_width = "1.98 mm"')),
    ('bore = "57.20 mm"', ('bore = "57.33 mm"', 'bore = "57.61 mm"')),
    ('closed_gap = "0.20 mm"', ('closed_gap = "0.26 mm"', 'closed_gap = "0.33 mm"')),
    ('purpose = "heat set"', ('purpose = "fit check"',)),
    ('print_units = "metric"', ('print_units = "inch"',)),
]


@pytest.fixture(scope="module")
def jobs(demo):
    """A hundred jobs about the worked one, drawn by number: as checked, and their record."""
    found = []
    for seed in range(100):
        draw, text = random.Random(seed), demo  # noqa: S311 - for a test
        for old, new in CHANGES:
            if draw.random() < 0.5:
                text = text.replace(old, draw.choice(new))
        done = judged(load(text), contact=False)
        listed = record(done.book, limits=lambda name, done=done: as_listed(done.book, done.job, name))
        found.append((done, json.loads(json.dumps(listed))))
    return found


def scale(done):
    return 25.4 if done.job.job.print_units == "inch" else 1.0


def close(shown, true, done):
    """Equal but for the last place that is printed."""
    places = len(str(shown).partition(".")[2])
    return abs(float(shown) * scale(done) - true) <= 0.51 * 10**-places * scale(done) + 1e-9


def test_the_sheet_prints_the_records_limits(jobs):
    count = 0
    for done, listed in jobs:
        for step in steps(Words(done.book, done.job)):
            for line in step.lines:
                limits = re.fullmatch(rf"({NUMBERS}) to ({NUMBERS}) (mm|in)", line.limits)
                if not limits or line.name.endswith("side_clearance"):
                    continue
                low, high = listed[line.name]["limits"] if line.name in listed else ends(listed, line.name)
                assert close(limits[1], low, done), (line, low)
                assert close(limits[2], high, done), (line, high)
                count += 1
    assert count > 2000


def ends(listed, name):
    """A size that is planned as two."""
    return [listed[f"{name}_{end}"]["value"] for end in ("min", "max")]


def drawn_texts(done, stem):
    """What the drawing of a part says beside its views, and its notes."""
    piece = next(p for p in pieces(done.job) if p.part.stem == stem)
    content = part_of(f"parts.sheets.drawing.{piece.part.table}:{piece.part.table}_content")(
        done.shapes[stem], done.book, done.job, []
    )
    sides = [side for view in content.views for side in (view.above, view.below, view.left, view.right)]
    return [*content.notes, *(item.text for side in sides for item in side)]


def test_drawings_print_the_records_limits(jobs):
    seen = set()
    for done, listed in jobs:
        for name, start in DRAWN.items():
            form = FORMS.get(name)
            if (form and form != done.job.mandrel.form) or name not in listed or not listed[name]["limits"]:
                continue
            if form and done.job.mandrel.purpose == "fit check" and name != "mandrel.pin_diameter":
                continue  # a printed seat is smaller by its clearance, and held to nothing
            texts = drawn_texts(done, drawing_of(name))
            assert any(says(text, start, listed[name]["limits"], done) for text in texts), (name, texts)
            seen.add(name)
    assert seen == DRAWN.keys()


def drawing_of(name):
    """The part that has a drawing of its own and whose table a size is in."""
    table = name.removeprefix("job.").partition(".")[0]
    return next(part.stem for part in PARTS.values() if part.drawn and part.table == table)


def says(text, start, limits, done):
    """Whether a text gives just these limits: `Ø1.000 ±0.01`, `Ø1.000 +0.05/0` or `Ø1.023 / 1.015`."""
    tail = rf"(?: ±({NUMBERS})| ([+-]?{NUMBERS})/([+-]?{NUMBERS})| / ({NUMBERS}))"
    found = re.match(rf"{start}({NUMBERS}){tail}", text)
    if not found:
        return False
    value, both, up, down, low = found.groups()
    if low:
        return close(low, limits[0], done) and close(value, limits[1], done)
    off = (-float(both), float(both)) if both else (float(down), float(up))
    room = 0.0006 * scale(done)  # the figure and its deviation are rounded each by itself
    return all(abs((float(value) + o) * scale(done) - limit) < room for o, limit in zip(off, limits, strict=True))


def test_lengths_without_a_tolerance_are_held_to_the_general_one(jobs):
    names = ("stud.length", "stud.tap_end_length", "stud.nut_end_length", "stud.projection", "plug.whole_length")
    for _, listed in jobs:
        for name in names:
            value = listed[name]["value"]
            half = next(half for upto, half in GENERAL if value <= upto)
            assert listed[name]["limits"] == pytest.approx([value - half, value + half])


def test_the_curve_is_one_in_record_drawing_and_files(demo, tmp_path):
    """The printed seat is smaller by its clearance everywhere, not only as a solid."""
    for number, purpose in enumerate(("heat set", "fit check")):
        done = checked(demo.swap('purpose = "heat set"', f'purpose = "{purpose}"'))
        shape, folder = done.shapes["expander-mandrel"], tmp_path / str(number)
        folder.mkdir()
        mandrel_outlines(shape, done.book, done.job, folder)
        rows = (folder / "expander-mandrel-outline.csv").read_text(encoding="utf-8").splitlines()[1:]
        table = [tuple(map(float, row.split(","))) for row in rows]
        profile = done.book["mandrel.profile"].value
        assert table == [(a, pytest.approx(r, abs=1e-6)) for a, r in profile]
        assert table[0][1] == pytest.approx(-shape.seat[0][0], abs=1e-6)
        content = mandrel_drawing.mandrel_content(shape, done.book, done.job, [])
        cells = [cell for row in content.tables[0].rows for cell in row]
        assert f"{table[0][1]:.3f}" in cells
    less = 0.15  # print_clearance where none is given
    assert table[0][1] == pytest.approx(26.248 - less, abs=1e-3)


def test_no_chain_of_dimensions_is_closed(jobs):
    """Of lengths that add up to the whole one is in brackets: it follows from the others."""
    for done, _ in jobs[:20]:
        texts = drawn_texts(done, "stepped-stud")
        lengths = ("tap_end_length", "nut_end_length", "length", "shank_length")
        shown = {name: f"{done.book[f'stud.{name}'].value:.1f}".removesuffix(".0") for name in lengths}
        if scale(done) == 1:
            assert {
                shown["tap_end_length"],
                shown["nut_end_length"],
                shown["length"],
                f"({shown['shank_length']})",
            } <= set(texts)
            assert shown["shank_length"] not in texts
