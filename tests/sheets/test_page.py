"""The job sheet as a file: what it says, that it asks nobody for anything, that the user's words stay words."""

import hashlib
import json
import re
import shutil
from base64 import b64encode
from html.parser import HTMLParser

import pytest

from parts.advising.first import with_first_advice
from parts.checked import check, checked
from parts.job import load
from parts.making.solids import Order, fill
from parts.register import ASSEMBLY
from parts.sheets.page import job_page, steps
from parts.sheets.page import page as page_text
from parts.sheets.page.models import model_data
from parts.sheets.page.places import coordinates, other_zeros, over_pins
from parts.sheets.page.tighten import crosswise, tightening
from parts.sheets.page.words import Words, measured_as
from parts.sizing.as_made import KINDS, overrides
from tests.conftest import JOBS

VOID = {"meta", "input", "img", "br", "link", "hr", "path", "circle"}
NASTY = "</script><script>alert(1)</script>"


class Page(HTMLParser):
    """Elements, text and the contents of scripts and styles of a page; fails where a tag is not closed."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.elements, self.words, self.code, self.open = [], [], [], []
        self.feed(text.replace("<wbr>", ""))  # where a long name may break
        assert self.open == [], f"not closed: {self.open}"

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open and self.open[-1] in ("script", "style"):
            self.code.append((self.open[-1], data))
        else:
            self.words.append(data)

    def all(self, tag):
        return [attrs for name, attrs in self.elements if name == tag]

    @property
    def text(self):
        return " ".join(" ".join(self.words).split())


def plain_page(text, folder):
    """The page of a job without its models, which need the kernel."""
    done = checked(text)
    words = Words(done.book, done.job)
    return page_text(words, done.now.findings, done.shapes, {"meshes": [], "views": []}, folder)


@pytest.fixture(scope="module")
def source(made):
    return (made[1] / "index.html").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def page(source):
    return Page(source)


@pytest.fixture(scope="module")
def words(demo):
    job, book, _ = check(demo)
    return Words(book, job)


@pytest.fixture(scope="module")
def inch():
    job, book, _ = check((JOBS / "inch.toml").read_text(encoding="utf-8"))
    return Words(book, job)


# the file -------------------------------------------------------------------------------------------------------------


def test_it_is_well_formed_and_labelled(page):
    assert len(page.all("h1")) == 1
    ids = [attrs["id"] for _, attrs in page.elements if "id" in attrs]
    assert len(ids) == len(set(ids))
    assert all(attrs.get("alt") for attrs in page.all("img"))
    assert all(attrs.get("aria-label") for attrs in page.all("svg"))
    assert all(attrs.get("aria-label") or attrs["type"] == "checkbox" for attrs in page.all("input"))
    for link in page.all("a"):
        assert not link["href"].startswith("#") or link["href"][1:] in ids


def test_the_policy_lets_in_nothing_but_its_own_scripts_and_styles(source, page):
    policy = next(m["content"] for m in page.all("meta") if m.get("http-equiv") == "Content-Security-Policy")
    assert policy.startswith("default-src 'none';")
    assert "unsafe" not in policy
    assert "http" not in policy
    ran = [code for kind, code in page.code if kind == "style" or '"use strict"' in code[:20]]
    assert len(ran) == 3
    for code in ran:
        assert f"'sha256-{b64encode(hashlib.sha256(code.encode()).digest()).decode()}'" in policy
    assert policy.count("sha256-") == 3
    assert "style=" not in re.sub(r"<script.*?</script>", "", source, flags=re.DOTALL)  # the policy would drop it
    assert not re.search(r"<[^>]+\son[a-z]+=", source)


def test_nothing_in_it_names_another_place(source, page):
    assert "http:" not in source
    assert "https:" not in source
    assert "//" not in "".join(code for kind, code in page.code if kind == "style")
    places = [attrs[k] for _, attrs in page.elements for k in ("src", "href") if attrs.get(k)]
    assert all(p.startswith(("data:image/", "#")) or re.fullmatch(r"[\w./-]+", p) for p in places)


def test_its_links_lead_to_files_of_the_folder(page, made):
    files = [a["href"] for a in page.all("a") if not a["href"].startswith("#")]
    assert {"assembly.step", "sizes.json", "parts/stepped-stud.step"} <= set(files)
    for file in files:
        assert (made[1] / file).is_file(), file


def test_what_the_user_wrote_is_shown_as_text(demo, tmp_path):
    text = demo.swap(
        'title = "Orchard sprayer engine: four-stud head on a three-stud barrel"', f'title = "{NASTY}"',
        'name = "breather"', "name = '<img src=x onerror=alert(2)>'",
        'passage = "breather"', "passage = '<img src=x onerror=alert(2)>'",
    )  # fmt: skip
    page = Page(plain_page(text, tmp_path))
    assert len(page.all("script")) == 2
    assert NASTY in page.text
    assert not [a for a in page.all("img") if a.get("src") == "x"]
    assert "<img src=x onerror=alert(2)>" in page.text


def test_the_models_can_not_end_their_element():
    from parts.sheets.page import _inside_script

    assert "<" not in _inside_script({"title": NASTY})
    assert json.loads(_inside_script({"title": NASTY})) == {"title": NASTY}


def test_the_same_job_gives_the_same_page(demo, source, made, tmp_path):
    copy = tmp_path / "copy"
    shutil.copytree(made[1], copy, ignore=shutil.ignore_patterns("index.html", "manifest.json"))
    done = checked(demo)
    wanted = {**done.shapes, ASSEMBLY: done.bodies}
    filled = {s: fill(Order(s, s, shape, "", copy, write=False, show=True)) for s, shape in wanted.items()}
    found = with_first_advice(demo, done.findings)
    job_page(done.book, done.job, found, done.shapes, model_data(done.job, done.bodies, filled), copy)
    assert (copy / "index.html").read_text(encoding="utf-8") == source


def test_a_job_of_one_part_has_a_page_too(made_of):
    page = Page((made_of("gasket") / "index.html").read_text(encoding="utf-8"))
    assert "Cut the gasket" in page.text
    assert "Tightening" not in page.text


# findings, assumptions ------------------------------------------------------------------------------------------------


def test_findings_stand_first_and_those_in_order_are_folded(source, made):
    found = json.loads((made[1] / "findings.json").read_text(encoding="utf-8"))
    order = [source.index('id="findings"'), source.index('id="deck"'), source.index('id="work"')]
    assert order == sorted(order)
    listed = re.findall(r'<ul class="findings (\w+)">', source)
    assert listed == [v for v in ("stop", "caution", "ok") if any(f["verdict"] == v for f in found)]
    assert source.index('class="findings ok"') > source.index("<details>")


def test_every_finding_is_told(page, made):
    from parts.sheets.page.words import pretty

    for finding in json.loads((made[1] / "findings.json").read_text(encoding="utf-8")):
        assert " ".join(pretty(finding["says"]).split()) in page.text


def test_what_was_assumed_is_listed(page, words):
    for name, entry in words.book.items():
        if entry.status in ("assumed", "memory"):
            assert name in page.text


def test_inch_print_shows_no_millimetres(tmp_path):
    page = Page(plain_page((JOBS / "inch.toml").read_text(encoding="utf-8"), tmp_path))
    sheet, after = page.text[: page.text.index("Assumptions")], page.text.partition(" more are in order")[2]
    rest = after[after.index("From the centre of the bore") : after.index("Assumptions The job")]
    assert not re.findall(r"\d mm\b", sheet + rest)
    assert "letter Q (0.3320 in)" in rest  # Machinery's Handbook: 0.332


# order of work --------------------------------------------------------------------------------------------------------


def test_the_sequence_is_that_of_the_job(words):
    assert [s.key for s in steps(words)] == [
        "measure", "fill", "plug", "skim", "drill", "tap", "hone", "studs", "prove", "set", "gasket", "drop",
        "blank", "split", "mandrel", "heat", "fit", "tighten", "test", "run",
    ]  # fmt: skip


@pytest.mark.parametrize("name", ["demo", "inch", "bsf", "gasket"])
def test_every_step_has_its_caution_and_every_line_a_size_of_the_book(name, demo):
    text = demo if name == "demo" else (JOBS / f"{name}.toml").read_text(encoding="utf-8")
    job, book, _ = check(text)
    found = steps(Words(book, job))
    assert found
    for step in found:
        assert step.cautions, step.key
        keys = [line.key for line in step.lines]
        assert len(keys) == len(set(keys))
        for line in step.lines:
            assert line.size
    names = {line.name: line.size for step in found for line in step.lines}
    written = "".join(f'"{n}" = {_as_written(book, n)}\n' for n in names if measurable(book, n))
    made = load(text + "\n[made]\n" + written).made
    assert set(overrides(book, made)) >= set(made.values), (
        "what is written on the paper goes back into the file as it is"
    )


def measurable(book, name):
    """Sizes for comparison by calculation stand on the sheet too, in units that no tool reads."""
    return book[measured_as(book, name)].unit in {*KINDS, "1"}


def _as_written(book, name):
    entry = book[measured_as(book, name)]
    return f'"{entry.value:.6f} {entry.unit}"' if entry.unit != "1" else f"{entry.value}"


def test_no_torch_after_the_bond_and_slow_cooling_before_it(words):
    told = {s.key: " ".join(s.do) for s in steps(words)}
    assert "Cool it slowly, bedded in dry lime" in told["fill"]
    assert "no torch" in told["plug"]
    assert "First holes 2, 3 and 4" in told["drill"]
    assert "Last hole 1" in told["drill"]
    assert "540 and 620 °C" in told["heat"]


def test_the_bore_is_measured_at_three_heights_in_two_directions(words):
    hone = next(s for s in steps(words) if s.key == "hone")
    assert [line.name for line in hone.lines] == ["job.engine.bore"] * 6


# tables ---------------------------------------------------------------------------------------------------------------


def test_coordinates_in_three_ways(words):
    rows = {row[0]: row for row in coordinates(words).rows}
    # 30, 29: radius sqrt(1741), atan 29/30 = 44.0290 degrees = 44 degrees 1.74 minutes
    assert rows["1"][2:7] == ("30.000", "29.000", "41.725", "44.029", "44° 02′")
    assert rows["O2"][5:7] == ("165.000", "165° 00′")
    assert rows["P1"][1] == "breather"


def test_other_zeros_move_every_hole_alike(words):
    hole, edge = ({row[0]: row[1:] for row in t.rows} for t in other_zeros(words))
    assert hole["1"] == ("0.000", "0.000")
    assert hole["bore"] == ("-30.000", "-29.000")
    assert edge["bore"] == ("56.000", "56.000")  # a deck of 112


def test_over_pins_is_the_distance_and_one_pin(words, inch):
    rows = {row[0]: row[1:] for row in over_pins(words).rows}
    assert rows["1 and 2"] == ("60.000", "70.400")
    # six holes on 4 in: neighbours 2 in apart, pins of letter Q
    assert {row[0]: row[1:] for row in over_pins(inch).rows}["1 and 2"] == ("2.0000", "2.3320")


def test_crosswise_never_goes_to_a_neighbour_first():
    from math import cos, radians, sin

    for count in range(4, 13):
        order = crosswise([(cos(radians(360 * n / count)), sin(radians(360 * n / count))) for n in range(count)])
        assert sorted(order) == list(range(1, count + 1))
        assert abs(order[1] - order[0]) in (count // 2, (count + 1) // 2)


def test_three_stages_end_at_the_torque(words):
    stages = tightening(words).stages
    assert [name for name, _ in stages] == ["1 of 3", "2 of 3", "3 of 3"]
    assert stages[-1][1] == f"{words.value('joint.torque'):.1f} N m"
    assert float(stages[0][1].split()[0]) == pytest.approx(words.value("joint.torque") / 3, abs=0.05)
