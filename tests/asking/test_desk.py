"""What an answer does: the oracle is `check` itself on the file that came of it, and plane geometry for what is mirrored."""

import cmath
import json
import math
import re
import shutil
import tomllib
from html import unescape

import ezdxf
import pytest

from parts.advising.advice import advise
from parts.advising.records import as_record
from parts.asking.desk import Desk, sight
from parts.asking.standing import standing
from parts.checked import check, checked
from parts.errors import JobError
from parts.job import load
from parts.job.examples import demo_text
from parts.register import PARTS
from tests.asking.served import question, served, told
from tests.conftest import JOBS, ROOT


@pytest.fixture
def page(tmp_path):
    with served(tmp_path / "mine.toml") as page:
        yield page


@pytest.fixture
def worked(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text(demo_text(), encoding="utf-8")
    with served(path) as page:
        yield page


def data(page):
    return tomllib.loads(page.text)


# answers --------------------------------------------------------------------------------------------------------------


def test_every_answer_is_in_the_file_at_once(page):
    assert not page.desk.path.exists()
    assert question(page.show()) == "make"
    page.answer("make", {"make": ["stepped-stud", "head-gasket"]})
    assert data(page) == {"stud": {}, "gasket": {}}
    page.answer("engine.bore", {"engine.bore": "70", "unit": "mm"})
    assert data(page) == {"stud": {}, "gasket": {}, "engine": {"bore": "70 mm"}}


@pytest.mark.parametrize(
    ("typed", "unit", "stands"),
    [
        ("70", "mm", "70 mm"),
        ("2 3/4", "in", "2 3/4 in"),
        ("2 3/4 in", "mm", "2 3/4 in"),
        ("70 ± 0.01", "mm", "70 ± 0.01 mm"),
        ("70 mm +/- 0.01 mm", "in", "70 mm +/- 0.01 mm"),
    ],
)
def test_a_number_alone_gets_the_unit_beside_it(page, typed, unit, stands):
    page.answer("engine.bore", {"engine.bore": typed, "unit": unit})
    assert data(page)["engine"]["bore"] == stands
    load(page.text)


def test_several_readings_are_their_mean_and_half_their_spread(page):
    """57.19, 57.20, 57.24: mean 57.21, half of 0.05; by hand."""
    page.answer("engine.bore", {"engine.bore": "57.20", "more": ["57.24 mm", "", "57.19"], "unit": "mm"})
    bore = load(page.text).engine.bore
    assert bore == pytest.approx(57.21, abs=1e-9)
    assert bore.spread == pytest.approx(0.025, abs=1e-9)


def test_readings_in_two_units_are_told_in_the_first_one_s(page):
    """2.250 in is 57.15 mm exactly."""
    page.answer("engine.bore", {"engine.bore": "2.250 in", "more": ["57.25 mm"]})
    assert load(page.text).engine.bore == pytest.approx(57.20, abs=0.002)  # half of the last digit written, in inches


REFUSED = {
    "engine.bore": ["7 0", "70,5", "70 degC", "nan", "-5", "0", "1e3 mm", "70 mm ± 80 mm", "mm"],
    "head.holes": [{"circle": "86", "count": "4.5"}, {"circle": "86"}, {"circle": "86", "count": "99"}],
    "stud.tap_end": ["M0", "10"],
}


@pytest.mark.parametrize(("key", "typed"), [(key, typed) for key, many in REFUSED.items() for typed in many], ids=str)
def test_what_the_reader_refuses_is_told_in_its_own_words_and_not_written(page, key, typed):
    page.answer("make", {"make": ["stepped-stud", "head-gasket"]})
    before = page.text
    boxes = {f"{key}.{name}": text for name, text in typed.items()} if isinstance(typed, dict) else {key: typed}
    shown = page.answer(key, {**boxes, "unit": "mm", "form": "circle"})
    assert question(shown) == key
    assert page.text == before
    table, name = key.split(".")
    lead = f"{table}.{name}"
    value = (
        {n: int(t) if t.isdecimal() and n == "count" else f"{t} mm" if n == "circle" else t for n, t in typed.items()}
        if isinstance(typed, dict)
        else f"{typed} mm"
        if re.fullmatch(r"-?\d+", typed) and key == "engine.bore"
        else typed
    )
    with pytest.raises(JobError) as error:
        load(
            f"[{table}]\n"
            + (
                f"{name} = {{ {', '.join(f'{n} = {v!r}' for n, v in value.items())} }}\n"
                if isinstance(value, dict)
                else f'{name} = "{value}"\n'
            )
        )
    says = [f.says for f in error.value.faults if f.key == lead] or [
        f"{f.key}: {f.says}" for f in error.value.faults if f.key.startswith(lead)
    ]
    assert told(shown)[:1] == says[:1]
    for text in boxes.values():
        assert f'value="{text}' in unescape(shown) or text == ""  # what was typed is still there


@pytest.mark.parametrize(
    ("key", "was", "typed"),
    [
        ("engine.bore", "57.20 mm", "57.10 mm"),
        ("ring.free_gap", "8.58 mm", "80 mm"),
        ("barrel.skim", "0.12 mm", "40 mm"),
    ],
)
def test_what_other_tables_or_the_sizing_refuse_is_told_and_not_written(worked, key, was, typed):
    before, name = worked.text, key.split(".")[1]
    shown = worked.answer(key, {key: typed})
    assert worked.text == before
    with pytest.raises(JobError) as error:
        checked(before.replace(f'\n{name} = "{was}"', f'\n{name} = "{typed}"'))
    assert told(shown) == [f.says if f.key == key else f"{f.key}: {f.says}" for f in error.value.faults]
    assert f'value="{typed}"' in shown


def test_of_an_outline_that_is_refused_nothing_is_said_besides(page):
    page.answer("make", {"make": "head-gasket"})
    page.answer("engine.bore", {"engine.bore": "70 mm"})
    shown = page.answer(
        "barrel.outline",
        {"barrel.outline.rectangle.0": "50 mm", "barrel.outline.rectangle.1": "60 mm", "form": "rectangle"},
    )
    with pytest.raises(JobError) as error:
        load('[engine]\nbore = "70 mm"\n[barrel]\noutline = { rectangle = ["50 mm", "60 mm"] }\n')
    assert told(shown) == [f"{fault.key}: {fault.says}" for fault in error.value.faults]


def test_comments_order_and_line_ends_stay(worked):
    text = worked.text.replace("\n", "\r\n")
    worked.desk.path.write_bytes(text.encode())
    worked.answer("engine.bore", {"engine.bore": "57.30 mm"})
    assert worked.desk.path.read_bytes().decode() == text.replace('bore = "57.20 mm"', 'bore = "57.30 mm"', 1)


def as_sent(shown):
    """What a browser sends of a form that nobody touched."""
    form = shown[shown.index('action="/answer"') : shown.index("</form>")]
    sent = []
    for tag in re.findall(r"<input[^>]*>", form):
        of = dict(re.findall(r'(\w+)="([^"]*)"', tag))
        if of["type"] in ("text", "hidden") or " checked" in tag:
            sent.append((of["name"], unescape(of.get("value", ""))))
    for name, options in re.findall(r'<select name="([^"]+)".*?>(.*?)</select>', form, re.DOTALL):
        every = re.findall(r"<option( selected)?[^>]*>([^<]*)", options)
        sent.append((name, max(every, key=lambda option: bool(option[0]))[1]))
    return {name: [value for one, value in sent if one == name] for name, _ in sent}


ODD = {  # shapes that the page has no boxes for
    "radii": 'outline = { points = [["40 mm", "40 mm", "R5 mm"], ["-40 mm", "40 mm"], ["0 mm", "-60 mm"]] }',
    "lobes": 'outline = { lobes = [["0 mm", "0 mm", "50 mm"], ["40 mm", "40 mm", "12 mm"]] }',
}


@pytest.mark.parametrize("odd", [None, *ODD])
def test_going_on_from_every_screen_without_a_change_writes_nothing(worked, odd):
    text = worked.text.replace('outline = { circle = "112 mm" }', ODD[odd]) if odd else worked.text
    worked.desk.path.write_text(text, encoding="utf-8")
    assert text != demo_text() or not odd
    for screen in sight(text).screens[:-1] if not odd else [sight(text).screen("barrel.outline")]:
        shown = worked.show(screen.key)
        assert ("holds more of it" in shown) == bool(odd), screen.key
        status, _, answer = worked.ask("POST", "/answer", as_sent(shown))
        assert (status, told(answer)) == (303, []), screen.key
    assert worked.text == text


def test_an_emptied_box_takes_the_key_out_and_leaves_it_as_a_remark(worked):
    worked.answer("head.boss", {"head.boss": ""})
    assert "boss" not in data(worked)["head"]
    assert '# boss = "24 mm"' in worked.text


def test_a_part_that_is_unticked_stands_as_remarks(worked):
    kept = [stem for stem in PARTS if stem not in ("blanking-plug", "clamp-plate")]
    worked.answer("make", {"make": kept})
    assert "plug" not in data(worked)
    assert '# bond_strength = "12 MPa"' in worked.text


def test_a_yes_opens_a_table_and_its_questions(page):
    page.answer("make", {"make": "head-gasket"})
    shown = page.answer("barrel.passages", {"barrel.passages": "yes"})
    assert question(shown) == "barrel.passages.0.name"
    page.answer("barrel.passages.0.at", {"barrel.passages.0.at.0": "12", "barrel.passages.0.at.1": "-40", "unit": "mm"})
    page.answer("barrel.passages", {"barrel.passages": "more"})
    assert data(page)["barrel"]["passages"] == [{"at": ["12 mm", "-40 mm"]}, {}]
    page.answer("barrel.passages", {"barrel.passages": "no"})
    assert "passages" not in data(page).get("barrel", {})


def test_two_boss_heights_are_two_kinds_of_stud(page):
    page.answer("make", {"make": "stepped-stud"})
    page.answer("stud.tap_end", {"stud.tap_end": "M10"})
    page.answer("stud", {"stud": "yes"})
    studs = data(page)["stud"]
    assert [one["tap_end"] for one in studs] == ["M10", "M10"]
    assert len({one["name"] for one in studs}) == 2
    page.answer("stud.0.holes", {"stud.0.holes": "1, 2"})
    assert data(page)["stud"][0]["holes"] == [1, 2]
    page.answer("stud", {"stud": "no"})
    assert data(page)["stud"] == {"tap_end": "M10"}


# several on one screen -------------------------------------------------------------------------------------------------


def test_a_screen_s_answers_are_written_together_and_what_was_not_sent_stays(page):
    page.answer("make", {"make": ["stepped-stud", "head-gasket"], "job.print_units": "inch"})
    assert data(page)["job"] == {"print_units": "inch"}
    page.answer("stud.tap_end", {"stud.tap_end": "3/8-16 UNC", "stud.nut_end": "5/16-24 UNF"})
    page.answer("stud.nut_end", {"stud.nut_end": "1/4-28 UNF"})
    assert data(page)["stud"] == {"tap_end": "3/8-16 UNC", "nut_end": "1/4-28 UNF"}


def test_one_refused_answer_holds_the_others_of_its_screen_up_and_is_told_beside_its_box(page):
    page.answer("make", {"make": "stepped-stud"})
    before = page.text
    shown = page.answer("stud.tap_end", {"stud.tap_end": "M10", "stud.nut_end": "M0"})
    assert page.text == before
    assert 'value="M10"' in shown
    block = shown[shown.index('name="stud.nut_end"') : shown.index("stud.nut_end@know")]
    with pytest.raises(JobError) as error:
        load('[stud]\ntap_end = "M10"\nnut_end = "M0"\n')
    assert told(block) == told(shown) == [fault.says for fault in error.value.faults]


def test_of_what_has_no_answer_one_says_at_once_that_it_is_not_known(page):
    page.answer("make", {"make": ["stepped-stud", "head-gasket"]})
    page.answer(
        "engine.stroke", {"engine.clearance_volume": "31", "engine.clearance_volume@unit": "cm^3", "rest": "yes"}
    )
    assert data(page)["engine"] == {
        "stroke": "unknown", "clearance_volume": "31 cm^3", "old_chamber_volume": "unknown"
    }  # fmt: skip
    page.answer("barrel.old_holes", {"barrel.old_holes": "no", "rest": "yes"})
    assert data(page)["barrel"] == {"passages": "unknown"}  # a no is an answer


def test_a_tick_says_not_known_until_a_reading_takes_its_place(page):
    page.answer("make", {"make": "head-gasket"})
    page.answer("engine.stroke", {"engine.stroke": "60 mm"})
    page.answer("engine.stroke", {"engine.stroke": "60 mm", "know": "unknown"})
    assert data(page)["engine"]["stroke"] == "unknown"
    page.answer("engine.stroke", {"engine.stroke": "", "know": "unknown"})
    assert data(page)["engine"]["stroke"] == "unknown"
    page.answer("engine.stroke", {"engine.stroke": "61 mm", "know": "unknown"})
    assert data(page)["engine"]["stroke"] == "61 mm"


def test_whoever_has_not_measured_the_heat_has_it_judged_over_what_is_usual(page):
    page.answer("make", {"make": "stepped-stud"})
    page.answer("engine.hot", {"engine.hot": "no"})
    assert data(page)["engine"] == {"hot": "unknown"}
    assert 'value="no" checked' in page.show("engine.hot")
    page.answer("engine.hot", {"engine.hot": "yes", "know": "unknown"})
    assert data(page)["engine"] == {"hot": {}}


def test_refinements_are_gone_to_by_their_links(page):
    page.answer("make", {"make": "head-gasket"})
    shown = page.show("head.valve_gear")
    assert question(shown) == "head.valve_gear"
    assert 'href="/?at=head.valve_gear"' in shown
    assert "head.valve_gear" not in [screen.key for screen in sight(page.text).screens]
    page.answer("head.valve_gear", {"head.valve_gear": "push rods"})
    assert "head.valve_gear" in [screen.key for screen in sight(page.text).screens]


# which way up ---------------------------------------------------------------------------------------------------------


def places(pattern):
    """Where a pattern's holes are, as complex numbers: the complex plane is nobody's of the program."""
    number = lambda text: float(text.split()[0])  # noqa: E731
    if "points" in pattern:
        return [complex(number(x), number(y)) for x, y in pattern["points"]]
    turn = cmath.exp(1j * math.radians(number(pattern.get("turned", pattern.get("first", "0 deg")))))
    if "rectangle" in pattern:
        across, up = map(number, pattern["rectangle"])
        return [turn * complex(sx * across / 2, sy * up / 2) for sx in (1, -1) for sy in (1, -1)]
    return [
        turn * cmath.rect(number(pattern["circle"]) / 2, 2 * math.pi * n / pattern["count"])
        for n in range(pattern["count"])
    ]


@pytest.mark.parametrize(
    ("form", "boxes"),
    [
        ("circle", {"circle": "86", "count": "3", "first": "20"}),
        ("circle", {"circle": "86", "count": "5", "first": ""}),
        ("rectangle", {"rectangle.0": "60", "rectangle.1": "50", "turned": "12"}),
        ("points", {"points.0.0": "30", "points.0.1": "20", "points.1.0": "-31.5", "points.1.1": "-4"}),
    ],
)
def test_a_pattern_measured_from_beneath_is_the_mirror_image(page, form, boxes):
    page.answer("make", {"make": "head-gasket"})
    fields = {f"head.holes.{name}": text for name, text in boxes.items()} | {"form": form, "unit": "mm"}
    page.answer("head.holes", {**fields, "way": "from above"})
    above = places(data(page)["head"]["holes"])
    page.answer("head.holes", {**fields, "way": "from beneath"})
    beneath = places(data(page)["head"]["holes"])
    wanted = [complex(-one.real, one.imag) for one in above]
    assert len(beneath) == len(wanted)
    assert all(min(abs(one - other) for other in beneath) < 1e-9 for one in wanted)


# by another hand ------------------------------------------------------------------------------------------------------


def drawn_deck(folder, side):
    """A job whose deck face is drawn: a square about the bore."""
    half = side / 2
    document = ezdxf.new(units=ezdxf.units.MM)
    corners = [(half, half), (-half, half), (-half, -half), (half, -half)]
    document.modelspace().add_lwpolyline(corners, close=True, dxfattribs={"layer": "OUTLINE"})
    document.modelspace().add_circle((0, 0), 35, dxfattribs={"layer": "BORE"})
    document.saveas(folder / "deck.dxf")
    return (
        '[engine]\nbore = "70 mm"\n[barrel]\noutline = { dxf = "deck.dxf", layer = "OUTLINE" }\n'
        '[gasket]\nhole = "8.5 mm"\nthickness = "1 mm"\n[head]\nholes = { circle = "90 mm", count = 4 }\n'
    )


def test_a_drawing_beside_the_file_is_seen_also_behind_an_answer_and_when_it_changes(page):
    page.desk.path.write_text(drawn_deck(page.desk.path.parent, 130), encoding="utf-8")
    shown, mark = page.show("engine.bore"), page.desk.now().mark
    assert told(page.answer("engine.bore", {"engine.bore": "70.1 mm"})) == []
    assert data(page)["engine"] == {"bore": "70.1 mm"}
    page.desk.path.write_text(drawn_deck(page.desk.path.parent, 140), encoding="utf-8")
    assert page.desk.now().mark != mark
    plans = [re.search(r'id="plan">.*?</figure>', one, re.DOTALL)[0] for one in (shown, page.show("engine.bore"))]
    assert plans[0] != plans[1]


def test_a_file_changed_by_another_hand_is_read_again(worked):
    mark = re.search(r'data-mark="(\w+)"', worked.show())[1]
    worked.desk.path.write_text(worked.text.replace('bore = "57.20 mm"', 'bore = "57.40 mm"'), encoding="utf-8")
    assert worked.ask("GET", "/state")[2].find(mark) < 0
    assert 'value="57.40 mm"' in worked.show("engine.bore")


def test_an_answer_to_what_another_hand_has_changed_is_not_written(worked):
    was = re.search(r'name="was" value="(\w+)"', worked.show("engine.bore"))[1]
    changed = worked.text.replace('bore = "57.20 mm"', 'bore = "57.40 mm"')
    worked.desk.path.write_text(changed, encoding="utf-8")
    _, _, shown = worked.ask("POST", "/answer", {"question": "engine.bore", "was": was, "engine.bore": "57.10 mm"})
    assert "changed by another hand" in told(shown)[0]
    assert 'value="57.40 mm"' in shown
    assert worked.text == changed


def test_an_answer_beside_what_another_hand_has_changed_keeps_both(worked):
    was = re.search(r'name="was" value="(\w+)"', worked.show("engine.bore"))[1]
    worked.desk.path.write_text(worked.text.replace('stroke = "2 1/2 in"', 'stroke = "60 mm"'), encoding="utf-8")
    worked.ask("POST", "/answer", {"question": "engine.bore", "was": was, "engine.bore": "57.25 mm"})
    assert data(worked)["engine"] | {"bore": "57.25 mm", "stroke": "60 mm"} == data(worked)["engine"]


@pytest.mark.parametrize("text", ["[engine\n", "\xff", "[engine]\nbore = 1 = 2\n"], ids=ascii)
def test_a_file_that_is_no_job_file_is_told_and_left_alone(page, text):
    page.desk.path.write_bytes(text.encode("latin-1"))
    shown = page.show()
    assert "can&#39;t be read" in shown or "can't be read" in shown
    assert 'id="next"' not in shown
    page.ask("POST", "/answer", {"question": "engine.bore", "engine.bore": "70 mm", "was": ""})
    assert page.desk.path.read_bytes() == text.encode("latin-1")


def test_a_file_that_check_refuses_opens_with_its_faults(worked):
    worked.desk.path.write_text(
        worked.text.replace('"57.20 mm"', '"57.20"').replace('fill = "bronze', 'fil = "bronze'), encoding="utf-8"
    )
    with pytest.raises(JobError) as error:
        load(worked.text)
    shown = unescape(worked.show())
    assert len(error.value.faults) == 2
    for fault in error.value.faults:
        assert fault.says in shown
    assert 'id="make" disabled' in shown


def test_a_disk_that_is_full_is_told_and_the_old_file_stands(worked, monkeypatch):
    import os

    before = worked.text
    monkeypatch.setattr(os, "fsync", lambda _: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    shown = worked.answer("engine.bore", {"engine.bore": "57.25 mm"})
    assert told(shown) == ["mine.toml could not be written, it stands as it was (No space left on device)"]
    assert 'value="57.25 mm"' in shown
    worked.desk.into.parent.mkdir(exist_ok=True)
    status, _, says = worked.ask("POST", "/sheet/notes", b'{"a": "1"}')
    assert (status, says) == (500, "the notes could not be kept: No space left on device")
    monkeypatch.undo()
    assert worked.text == before
    assert [path.name for path in worked.desk.path.parent.iterdir() if path.is_file()] == ["mine.toml"]


# how the job stands ---------------------------------------------------------------------------------------------------


def shown_findings(shown):
    return [(unescape(n), v) for n, v in re.findall(r'data-finding="([^"]+)" data-verdict="(\w+)"', shown)]


@pytest.mark.parametrize("name", ["demo", "inch", "bsf", "lists", "gasket"])
def test_the_findings_are_those_of_check(tmp_path, name):
    text = demo_text() if name == "demo" else (JOBS / f"{name}.toml").read_text(encoding="utf-8")
    (tmp_path / "mine.toml").write_text(text, encoding="utf-8")
    with served(tmp_path / "mine.toml") as page:
        early, shown = page.show(), page.ask("GET", "/?ranges=yes")[2]
    found = check(text)[2]
    assert "not yet judged" not in shown
    assert "not yet judged" in early or shown_findings(early) == shown_findings(shown)
    assert 'data-verdict="ok"' not in early or "not yet judged" not in early
    assert sorted(shown_findings(shown)) == sorted((f.name, f.verdict) for f in found)
    order = [verdict for _, verdict in shown_findings(shown)]
    assert order == sorted(order, key=["stop", "caution", "ok"].index)
    assert 'id="make">' in shown


def test_what_is_typed_is_judged_and_not_written(worked):
    before = worked.text
    _, _, shown = worked.ask("POST", "/try", {"question": "stud.shank", "stud.shank": "4.0 mm", "ranges": "yes"})
    wanted = check(before.replace('shank = "6.2 mm"', 'shank = "4.0 mm"'))[2]
    assert sorted(shown_findings(shown)) == sorted((f.name, f.verdict) for f in wanted)
    assert worked.text == before


def test_what_is_whole_is_judged_beside_what_is_not(demo):
    """The stud lacks its threads: rings and plug are judged as if there were none."""
    text = demo.swap('tap_end = "M10x1.5"', "").swap('nut_end = "M8x1.25"', "")
    raw = tomllib.loads(text)
    there = standing(raw)
    assert [f.key for f in there.faults] == ["stud.tap_end", "stud.nut_end"]
    assert there.wrong == []
    wanted = {f.name: f.verdict for f in check(demo.without("stud"))[2]}
    assert {f.name: f.verdict for f in there.done.findings} == wanted


def test_what_is_wrong_is_told_and_the_rest_judged_without_it(demo):
    raw = tomllib.loads(demo.swap('squish = "1.60 mm"', 'squish = "1.60"'))
    there = standing(raw)
    assert [f.key for f in there.wrong] == ["engine.squish"]
    assert {f.name for f in there.done.findings} == {f.name for f in check(demo.swap('squish = "1.60 mm"', ""))[2]}


def test_the_deck_is_drawn_as_soon_as_anything_of_it_is_known(page):
    """Four holes on a circle of 86 mm from 10 deg: places by the complex plane; Y down in SVG."""
    page.answer("make", {"make": "head-gasket"})
    assert 'id="deck"' not in page.show()
    page.answer(
        "head.holes", {"head.holes.circle": "86", "head.holes.count": "4", "head.holes.first": "10", "unit": "mm"}
    )
    shown = page.answer("barrel.old_holes", {"barrel.old_holes": "yes"})
    page.answer(
        "barrel.old_holes.pattern",
        {
            "barrel.old_holes.pattern.points.0.0": "30",
            "barrel.old_holes.pattern.points.0.1": "-20",
            "form": "points",
            "unit": "mm",
        },
    )
    shown = page.show()
    holes = {
        m[2]: (float(m[0]), -float(m[1]))
        for m in re.findall(r'cx="([^"]+)" cy="([^"]+)" r="[^"]+" data-hole="([^"]+)"', shown)
    }
    assert holes.keys() == {"new 1", "new 2", "new 3", "new 4", "old 1"}
    for n in range(4):
        wanted = cmath.rect(43, math.radians(10 + 90 * n))
        assert holes[f"new {n + 1}"] == pytest.approx((wanted.real, wanted.imag), abs=0.001)
    assert holes["old 1"] == pytest.approx((30, -20), abs=0.001)


def test_a_finding_leads_to_the_questions_that_move_it(demo):
    from parts.asking.moving import moving

    seen = sight(demo)
    assert "plug.bond_strength" in [q.key for q in moving(seen, "plug.hold_force")]
    assert [q.key for q in moving(seen, "job.engine.hot.barrel")] == ["engine.hot.barrel"]
    assert [q.key for q in moving(sight(demo.swap('squish = "1.60 mm"', "")), "not_judged.engine.squish")] == [
        "engine.squish"
    ]
    base = {f.name: f.value for f in seen.standing.done.findings}
    for name in ("compression.head_drop", "joint.washer_pressure"):
        key = moving(seen, name)[0].key  # and it does move it
        value = tomllib.loads(demo)[key.split(".")[0]][key.split(".")[1]]
        number = float(value.split()[0])
        moved = sight(
            demo.swap(f'{key.split(".")[1]} = "{value}"', f'{key.split(".")[1]} = "{number * 1.02:.4f} mm"')
            if demo.count(f'{key.split(".")[1]} = "{value}"') == 1
            else demo.replace(f'\n{key.split(".")[1]} = "{value}"', f'\n{key.split(".")[1]} = "{number * 1.02:.4f} mm"')
        )
        assert {f.name: f.value for f in moved.standing.done.findings}[name] != base[name]


HOSTILE = '"><script>alert(1)</script>'


def test_what_the_user_wrote_is_text(worked):
    quoted = HOSTILE.replace('"', '\\"')
    text = worked.text.replace('name = "breather"', f'name = "{quoted}"').replace(
        'passage = "breather"', f'passage = "{quoted}"'
    )
    worked.desk.path.write_text(text.replace('title = "', f'title = "{quoted}'), encoding="utf-8")
    for key in (
        "",
        "make",
        "job.title",
        "barrel.passages",
        "barrel.passages.0.name",
        "barrel.passages.0.at",
        "plug.passage",
        "end",
    ):
        shown = worked.show(key)
        assert "<script>alert" not in shown, key
        assert not re.search(r'="[^"]*"><script', shown), key
    assert HOSTILE in unescape(worked.show("barrel.passages.0.name"))
    shown = worked.answer("plug.passage", {"plug.passage": f"{HOSTILE}x"})
    assert "<script>alert" not in shown


# the folder -----------------------------------------------------------------------------------------------------------


def test_ticks_and_notes_are_kept_beside_the_folder(worked):
    worked.desk.into.parent.mkdir()
    assert worked.ask("GET", "/sheet/notes")[2] == "{}"
    assert worked.ask("POST", "/sheet/notes", b'{"step skim": true, "studs": "73.45"}')[0] == 200
    assert json.loads(worked.ask("GET", "/sheet/notes")[2]) == {"step skim": True, "studs": "73.45"}
    assert worked.desk.notes == worked.desk.into.parent / "mine-notes.json"
    for wrong in (b"[]", b'{"a": 1}', b"{", b"\xff"):
        assert worked.ask("POST", "/sheet/notes", wrong)[0] == 422
    assert "73.45" in worked.desk.notes.read_text()


def test_a_make_that_fails_says_why(tmp_path):
    """The folder's name is a file's."""
    (tmp_path / "mine.toml").write_text(demo_text(), encoding="utf-8")
    into = tmp_path / "taken"
    into.write_text("mine")
    desk = Desk(tmp_path / "mine.toml", into)
    desk.make()
    desk.work._hearing.join(60)
    assert "is a file, not a folder" in desk.work.outcome["wrong"][0]
    assert into.read_text() == "mine"
    shutil.rmtree(tmp_path, ignore_errors=True)


def test_gasket_and_studs_with_nothing_known_but_bore_and_holes_come_to_an_honest_end(page):
    """What can be made is made; what can't says which readings it lacks, down to one. The file keeps every answer."""
    known = {
        "engine.bore": "70 mm",
        "head.holes.circle": "86 mm",
        "head.holes.count": "4",
        "head.holes.first": "45 deg",
    }
    shown = page.answer("make", {"make": ["stepped-stud", "head-gasket"]})
    while question(shown) != "end":
        shown = page.answer(question(shown), {**known, "form": "circle", "rest": "yes"})
    assert "Nothing can be made yet" in shown
    assert lacking_on(shown) == {
        "Stepped stud": ["stud.tap_end", "stud.nut_end", "gasket.thickness", "head.thickness"],
        "Head gasket": ["stud.tap_end", "stud.nut_end", "gasket.thickness"],
    }
    page.answer("stud.tap_end", {"stud.tap_end": "M10", "stud.nut_end": "M8"})
    page.answer("gasket.thickness", {"gasket.thickness": "1.2 mm"})
    shown = page.show("end")
    assert lacking_on(shown) == {"Stepped stud": ["head.thickness"]}
    assert "The head gasket can be made as it stands" in shown
    assert 'id="make" disabled' in shown
    text = page.text
    assert page.ask("POST", "/make", {"at": "end"})[0] == 303
    page.desk.work._hearing.join(240)
    made = {path.name.partition(".")[0] for path in (page.desk.into / "parts").iterdir()}
    assert "head-gasket" in made
    assert "stepped-stud" not in made
    assert page.text == text


def lacking_on(shown):
    """What each part still lacks, as the page lists it."""
    part = shown[shown.index("<h2>Still lacking") : shown.index('id="making"')]
    found = re.findall(r"<b>([^<]+)</b></p>\s*<ul[^>]*>(.*?)</ul>", part, re.DOTALL)
    return {title: re.findall(r'href="/\?at=([^"]+)"', keys) for title, keys in found}


def test_what_a_part_that_is_not_whole_holds_is_left_out_of_the_making_alone(page):
    """The plug has no hole: the gasket is made of the file without [plug], which stays in the file."""
    text = (JOBS / "gasket.toml").read_text(encoding="utf-8") + '\n[plug]\nmaterial = "brass"\n'
    page.desk.path.write_text(text, encoding="utf-8")
    assert sight(text).standing.ready == ("head-gasket",)
    page.desk.make()
    page.desk.work._hearing.join(240)
    assert "written" in page.desk.work.outcome
    assert (page.desk.into / "parts" / "head-gasket.dxf").exists()
    assert page.text == text


# advice ---------------------------------------------------------------------------------------------------------------


def test_advice_is_looked_for_on_request_and_goes_with_the_file_it_is_of(page):
    """The oracle is the verb itself: from Python, on the same text."""
    gasket = (ROOT / "tests" / "jobs" / "gasket.toml").read_text(encoding="utf-8")
    page.desk.path.write_text(gasket, encoding="utf-8")
    assert page.desk.advised == ""
    page.desk.advise()
    page.desk.advice._hearing.join(120)
    assert page.desk.advised == "done"
    design = as_record(advise(gasket))["design"]
    assert page.desk.advice.outcome == {"design": design}
    shown = page.show()
    assert re.findall(r'data-advice="([^"]+)"', shown)[1:] == [change["key"] for change in design["changes"]]
    page.desk.path.write_text(gasket + "\n", encoding="utf-8")
    assert page.desk.advised == ""  # of another text


def test_advice_on_a_file_that_is_wrong_says_why(page):
    page.desk.path.write_text('[engine]\nbore = "57"\n', encoding="utf-8")
    page.desk.advise()
    page.desk.advice._hearing.join(120)
    assert "engine.bore (line 2)" in page.desk.advice.outcome["wrong"][0]
