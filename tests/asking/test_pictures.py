"""The small drawings: each marks its dimension, stays in its frame, and is as the job has it."""

import re
import tomllib
from xml.etree import ElementTree as ET

import pytest

from parts.asking.drawn import FAMILIES, drawing, picture
from parts.asking.ink import HIGH, WIDE, Arrow, Label, Stroke, dashed, fitted, hatched
from parts.asking.questions import questions
from parts.asking.words import words
from parts.job.examples import demo_text
from parts.register import PARTS

PICTURES = sorted({one.picture for one in words().values() if one.picture})


@pytest.fixture
def raw():
    return tomllib.loads(demo_text())


@pytest.mark.parametrize("name", PICTURES)
@pytest.mark.parametrize("known", [True, False])
def test_each_marks_its_dimension(name, known, raw):
    family, _, dimension = name.partition(" ")
    raw = raw if known else {}
    ink = drawing(family, {dimension: "12.34"}, raw)
    assert [one.text for one in ink.drawn if isinstance(one, Label) and one.marked].count("12.34") >= 1
    assert any(isinstance(one, Arrow) for one in ink.drawn)
    assert len(drawing(family, {}, raw).drawn) < len(ink.drawn)
    assert not any(isinstance(one, Arrow) for one in drawing(family, {}, raw).drawn)


@pytest.mark.parametrize("name", PICTURES)
def test_each_stays_in_its_frame(name, raw):
    family, _, dimension = name.partition(" ")
    for one in fitted(drawing(family, {dimension: "123.45 mm"}, raw)):
        points = [one.at] if isinstance(one, Label) else one.points
        assert all(0 <= x <= WIDE and 0 <= y <= HIGH for x, y in points)


def test_every_kind_is_used_and_every_use_is_a_kind():
    assert {name.partition(" ")[0] for name in PICTURES} == set(FAMILIES)


def test_a_picture_is_svg_in_the_page_s_own_colour_with_the_answer(raw):
    (bore,) = (one for one in questions(raw, list(PARTS)) if one.key == "engine.bore")
    drawn = picture([(bore, "")], raw)
    root = ET.fromstring(drawn)
    assert root.get("role") == "img"
    assert "How wide is the bore?" in root.get("aria-label")
    assert root.get("viewBox") == "0 0 320 200"
    assert [text.text for text in root.iter("text")] == ["57.20 mm"]
    assert not re.search(r"#[0-9a-f]{3,6}\b|rgb", drawn)
    assert "?" in {text.text for text in ET.fromstring(picture([(bore, "")], {})).iter("text")}


def test_what_a_user_typed_is_text_and_nothing_else(raw):
    raw["barrel"]["passages"][0]["name"] = '<b onload="x">&'
    for one in questions(raw, list(PARTS), more=True):
        if one.picture:
            drawn = picture([(one, "")], raw)
            assert "<b" not in drawn
            ET.fromstring(drawn)


def test_questions_that_share_a_drawing_are_marked_each_on_it():
    asked = [one for one in questions({}, list(PARTS)) if one.key in ("ring.groove.width", "ring.groove.root_diameter")]
    drawn = ET.fromstring(picture(list(zip(asked, "AB", strict=True)), {}))
    assert sorted(text.text for text in drawn.iter("text")) == ["A", "B"]
    chambers = [one for one in questions({}, list(PARTS)) if one.picture == "head chamber"]
    assert "A, B" in {t.text for t in ET.fromstring(picture(list(zip(chambers, "AB", strict=True)), {})).iter("text")}


def rounds(ink):
    """Centre and radius of every closed round line."""
    for one in ink.drawn:
        if isinstance(one, Stroke) and len(one.points) > 20 and one.points[0] == pytest.approx(one.points[-1]):
            xs, ys = zip(*one.points, strict=True)
            yield (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2, (max(xs) - min(xs)) / 2


def test_the_deck_is_to_the_job_s_own_proportions(raw):
    """Bore 57.2, deck 112, holes on the corners of 60 x 58, by hand."""
    found = list(rounds(drawing("deck", {"new": "1"}, raw)))
    deck = max(radius for _, _, radius in found)
    bore = min(radius for x, y, radius in found if (x, y) == pytest.approx((160, 100), abs=0.5))
    assert deck / bore == pytest.approx(112 / 57.2, rel=0.01)
    holes = [(x - 160, y - 100) for x, y, radius in found if radius == pytest.approx(deck * 9.0 / 112, rel=0.01)]
    wanted = sorted((x * deck / 56, y * deck / 56) for x in (-30, 30) for y in (-29, 29))
    assert [v for hole in sorted(holes) for v in hole] == pytest.approx([v for hole in wanted for v in hole], abs=0.3)


def test_the_passage_that_is_asked_for_is_the_one_that_is_drawn(raw):
    raw["barrel"]["passages"].append({"name": "oil", "at": ["-40 mm", "0 mm"], "diameter": "6 mm"})
    for key, (x, y) in {"barrel.passages.0.diameter": (0, 42), "barrel.passages.1.diameter": (-40, 0)}.items():
        found = list(rounds(drawing("deck", {"passage_hole": "1"}, raw, key)))
        scale = max(radius for _, _, radius in found) / 56
        assert any((a - 160, b - 100) == pytest.approx((x * scale, y * scale), abs=0.5) for a, b, _ in found), key


def test_holes_on_no_circle_have_none_drawn_through_them():
    raw = {"head": {"holes": {"points": [["30 mm", "20 mm"], ["-35 mm", "25 mm"], ["0 mm", "-30 mm"]]}}}
    texts = [one.text for one in drawing("deck", {"new": "?"}, raw).drawn if isinstance(one, Label)]
    assert texts[:3] == ["#1", "#2", "#3"]
    round_ones = list(rounds(drawing("deck", {"new": "?"}, raw)))
    assert len(round_ones) == len(list(rounds(drawing("deck", {}, raw))))


def test_hatching_covers_the_metal_evenly():
    """Length of the lines times the distance between them is the area: a rectangle of 50 x 30."""
    lines = list(hatched([(3, 1), (53, 1), (53, 31), (3, 31)]))
    length = sum(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 for (x0, y0), (x1, y1) in lines)
    assert length * 6 / 2**0.5 == pytest.approx(50 * 30, rel=0.05)


def test_dashes_go_round_corners():
    pieces = list(dashed([(0, 0), (5, 0), (5, 20)], (6, 4)))
    assert pieces[0] == [(0, 0), (5, 0), (5, pytest.approx(1))]
    assert pieces[1] == [(5, pytest.approx(5)), (5, pytest.approx(11))]
