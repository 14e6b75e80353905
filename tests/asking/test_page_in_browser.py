"""The page in a real browser, by keyboard, from an empty file to a made folder; and what pages of other origins get.

Whether everyone can use it is judged by axe-core (rules of WCAG 2.1 A and AA), which knows nothing of the project. What
the boxes come to is held against a job file written by hand.
"""

import json
import shutil
import threading
import time
import tomllib
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest

from parts.checked import check, checked
from tests.asking.served import served

playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python is not installed")
CHROMIUM = next((p for p in map(shutil.which, ("chromium", "chromium-browser", "google-chrome")) if p), None)
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")
REBOUND = "workshop.example"
UNKNOWN = None
SOME = 15  # screens, of a gasket and four studs alone: what is aimed at


@pytest.fixture(scope="module")
def browser():
    with playwright.sync_playwright() as run:
        names = f"--host-resolver-rules=MAP {REBOUND} 127.0.0.1"
        browser = run.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu", names])
        yield browser
        browser.close()


CUT_OFF = """[...document.querySelectorAll('.drawing text')].filter(text => {
  const own = text.getBoundingClientRect(), frame = text.ownerSVGElement.getBoundingClientRect();
  return own.left < frame.left - 1 || own.right > frame.right + 1 || own.top < frame.top - 3 || own.bottom > frame.bottom + 3;
}).map(text => text.textContent)"""
"""letters of drawings that hang over their frame"""


class Visit:
    """A page that is used by keyboard alone."""

    def __init__(self, browser, page, width, scheme="light"):
        self.context = browser.new_context(viewport={"width": width, "height": 800}, color_scheme=scheme)
        self.page, self.served = self.context.new_page(), page
        self.complaints, self.requests = [], []
        self.page.on("console", lambda m: self.complaints.append(m.text) if m.type in ("error", "warning") else None)
        self.page.on("pageerror", lambda e: self.complaints.append(str(e)))
        self.page.on("request", lambda r: self.requests.append(r.url))
        self.page.goto(page.door.address)

    @property
    def at(self):
        return self.page.locator("main").get_attribute("data-at")

    def tab_to(self, script):
        """Press Tab until what has the focus is what is meant."""
        for _ in range(60):
            if self.page.evaluate(f"(e => {script})(document.activeElement)"):
                return
            self.page.keyboard.press("Tab")
        raise AssertionError(script)

    def go_on(self, key="Enter"):
        before = self.at
        self.page.keyboard.press(key)
        self.page.wait_for_function(
            "at => document.querySelector('main').dataset.at !== at", arg=before, timeout=10_000
        )

    def answer(self, answers):
        """Answer what is asked on the screen, and go on; of what has no answer one doesn't know."""
        keys = self.page.eval_on_selector_all("#ask [data-key]", "all => all.map(e => e.dataset.key)")
        known = [key for key in keys if answers.get(key) is not UNKNOWN]
        for key in known:
            self.fill(key, answers[key])
        if len(known) < len(keys):
            self.tab_to("e.name === 'rest' || e.type === 'submit' && e.value === 'unknown'")
        return self.go_on()

    def fill(self, key, value):
        """Fill the boxes of a question: what is typed, a choice, or boxes by what follows the key."""
        for name, text in value.items() if isinstance(value, dict) else [("", value)]:
            self.tab_to(f"e.name === {json.dumps(key + name)}")
            if self.page.evaluate("document.activeElement.type") == "radio":
                self.choose(text)
            else:
                self.page.keyboard.type(text)

    def choose(self, value):
        """Go to a choice by the arrow keys."""
        self.page.keyboard.press("Space")
        for _ in range(8):
            if self.page.evaluate("document.activeElement.checked && document.activeElement.value") == value:
                return
            self.page.keyboard.press("ArrowDown")
        raise AssertionError(value)

    def fair(self):
        """What is wrong with the screen as it is: by axe-core, and what hangs over its side."""
        found = axe.Axe().run(self.page).response
        assert len(found["passes"]) > 10
        bad = [
            (v["id"], [n["target"] for n in v["nodes"]])
            for v in found["violations"]
            if v["impact"] in ("serious", "critical")
        ]
        cut = self.page.evaluate(CUT_OFF)
        assert cut == [], self.at
        width, seen = self.page.evaluate("[document.documentElement.scrollWidth, window.innerWidth]")
        return bad + ([f"{width} > {seen}"] if width > seen else [])


def play(visit, make, answers):
    """Tick what is to be made, then answer every question as it comes; what a screen is like is looked at on the way."""
    for stem in make:
        visit.tab_to(f"e.value === {json.dumps(stem)}")
        visit.page.keyboard.press("Space")
    if "job.print_units" in answers:
        visit.fill("job.print_units", answers["job.print_units"])
    visit.go_on()
    asked, kinds, screens = [], set(), 0
    while visit.at != "end":
        screens += 1
        asked += visit.page.eval_on_selector_all("#ask [data-key]", "all => all.map(e => e.dataset.key)")
        kind = visit.page.evaluate(
            "[...document.querySelectorAll('fieldset input, fieldset select')].map(e => e.type).join()"
        )
        assert kind in kinds or visit.fair() == [], visit.at
        kinds.add(kind)
        visit.answer(answers)
    assert visit.fair() == []
    return asked, screens


def made(visit):
    """Press the button that makes, and wait for the job sheet."""
    visit.tab_to("e.id === 'make'")
    visit.page.keyboard.press("Enter")
    visit.page.wait_for_url("**/sheet/index.html", timeout=120_000)
    assert visit.page.locator("h1").inner_text()
    found = json.loads((visit.served.desk.into / "findings.json").read_text(encoding="utf-8"))
    wanted = check(visit.served.text)[2]
    assert [(f["name"], f["verdict"]) for f in found] == [(f.name, f.verdict) for f in wanted]


PLAIN = {  # four holes on 86 round a bore of 70; what has to be known to make it, and nothing else
    "barrel.material": "cast iron",
    "engine.bore": "70",
    "barrel.outline": {".circle": "120"},
    "barrel.old_holes": "no",
    "head.thickness": "46",
    "head.holes": {".circle": "86", ".count": "4", ".first": "45"},
    "stud.tap_end": "M10",
    "stud.nut_end": "M8",
    "gasket.thickness": "1.2",
}
PLAIN_FILE = """
[engine]
bore = "70 mm"
[barrel]
material = "cast iron"
outline = { circle = "120 mm" }
[head]
thickness = "46 mm"
holes = { circle = "86 mm", count = 4, first = "45 deg" }
[stud]
tap_end = "M10"
nut_end = "M8"
[gasket]
thickness = "1.2 mm"
"""


def known(raw):
    """Data of a job file without what is not known."""
    if isinstance(raw, dict):
        found = {key: known(value) for key, value in raw.items() if value != "unknown"}
        return {key: value for key, value in found.items() if value != {} or raw[key] == {}}
    return raw


@pytest.mark.parametrize(("width", "scheme"), [(390, "dark")])
def test_gasket_and_studs_on_a_phone_to_the_folder(browser, tmp_path, width, scheme):
    with served(tmp_path / "mine.toml") as page:
        visit = Visit(browser, page, width, scheme)
        _, screens = play(visit, ["stepped-stud", "head-gasket"], PLAIN)
        assert screens <= SOME
        assert known(tomllib.loads(page.text)) == tomllib.loads(PLAIN_FILE)
        assert visit.page.locator("#deck [data-hole]").count() == 4
        made(visit)
        box = visit.page.locator("input[data-keep]").first
        box.check()
        for _ in range(40):
            if page.desk.notes.exists():
                break
            time.sleep(0.1)
        visit.page.reload()
        visit.page.wait_for_function("() => document.querySelector('input[data-keep]').checked")
        assert list(json.loads(page.desk.notes.read_text()).values()) == [True]
        assert visit.page.evaluate("localStorage.length") == 0
        assert visit.complaints == []
        assert {url.split("/")[2] for url in visit.requests if not url.startswith("data:")} == {page.door.host}
        visit.context.close()


INCHES = {  # four holes at odd places by height gauge, old holes filled, bosses of two heights; measured on an inch machine
    "job.print_units": "inch",
    "engine.bore": "2 3/4 in",
    "barrel.material": "cast iron",
    "barrel.outline": {"@form": "rectangle", ".rectangle.0": "4.75", ".rectangle.1": "4.5", ".corner": "0.5"},
    "barrel.deck_depth": "1 1/2",
    "barrel.old_holes": "yes",
    "barrel.old_holes.pattern": {".circle": "3.5", ".count": "3", ".first": "90", "@way": "from beneath"},
    "barrel.old_holes.diameter": "3/8",
    "barrel.old_holes.fill": "screwed iron plug",
    "head.thickness": "1.8",
    "stud": "yes",
    "stud.0.name": "high",
    "stud.0.holes": "1, 2",
    "stud.0.head_thickness": "2",
    "stud.0.tap_end": "3/8-16 UNC",
    "stud.0.nut_end": "5/16-24 UNF",
    "stud.1.name": "low",
    "stud.1.holes": "3, 4",
    "stud.1.head_thickness": "1.75",
    "stud.1.tap_end": "3/8-16 UNC",
    "stud.1.nut_end": "5/16-24 UNF",
    "head.hole_diameter": "0.344",
    "head.holes": {
        "@form": "points",
        ".points.0.0": "1.32", ".points.0.1": "1.15", ".points.1.0": "-1.28", ".points.1.1": "1.21",
        ".points.2.0": "-1.35", ".points.2.1": "-1.12", ".points.3.0": "1.30", ".points.3.1": "-1.2",
    },
    "gasket.thickness": "0.045",
}  # fmt: skip


def test_an_inch_engine_with_odd_holes_at_a_desk(browser, tmp_path):
    with served(tmp_path / "mine.toml") as page:
        visit = Visit(browser, page, 1280)
        asked, _ = play(visit, ["stepped-stud", "head-gasket"], INCHES)
        raw = known(tomllib.loads(page.text))
        assert raw["engine"] == {"bore": "2 3/4 in"}
        assert raw["barrel"]["outline"] == {"rectangle": ["4.75 in", "4.5 in"], "corner": "0.5 in"}
        assert raw["barrel"]["old_holes"]["pattern"] == {"circle": "3.5 in", "count": 3, "first": "90 deg"}
        assert raw["head"]["holes"]["points"][1] == ["-1.28 in", "1.21 in"]
        assert [(one["name"], one["holes"], one["head_thickness"]) for one in raw["stud"]] == [
            ("high", [1, 2], "2 in"),
            ("low", [3, 4], "1.75 in"),
        ]
        assert {hole.get_attribute("data-hole") for hole in visit.page.locator("#deck [data-hole]").all()} == {
            "old 1", "old 2", "old 3", "new 1", "new 2", "new 3", "new 4"
        }  # fmt: skip
        assert set(INCHES) <= {*asked, "job.print_units"}
        assert visit.page.locator("#make").is_enabled()
        made(visit)
        assert visit.complaints == []
        visit.context.close()


def say_unknown(visit, key):
    """Say of one question that one doesn't know: by its tick beside others, by the button where it is alone."""
    visit.tab_to(f"e.dataset.key === {json.dumps(key)}")
    if visit.page.evaluate("document.activeElement.type") == "checkbox":
        visit.page.keyboard.press("Space")
    visit.go_on()


HEATS = [f"engine.hot.{place}" for place in ("stud", "head", "barrel", "ring", "bore_wall")]


def test_the_worked_job_with_what_nobody_measures_unknown(visit, demo):
    """The parts stay as they are but for what follows from the set fraction, and what is worth measuring is named."""
    unknown = [*HEATS, "engine.peak_pressure", "ring.heat_set.set_fraction"]
    for key in unknown:
        show(visit, key)
        say_unknown(visit, key)
    assert visit.served.text.count('"unknown"') == len(unknown)
    before, after = checked(demo), checked(visit.served.text)
    same = {stem for stem, shape in before.shapes.items() if after.shapes.get(stem) == shape}
    assert before.shapes.keys() == after.shapes.keys()
    assert before.shapes.keys() - same <= {"expander-mandrel"}
    visit.page.locator("#beside:not([data-pending])").wait_for(timeout=60_000)
    told = [one.get_attribute("data-unknown") for one in visit.page.locator("#unknown li").all()]
    assert told[:3] == [one.key for one in after.unknowns[:3]]
    assert set(unknown) <= set(told)
    for key in told[:3]:
        assert visit.page.locator(f'[data-unknown="{key}"] small').inner_text().startswith("Worth taking: ")
    shown = visit.page.eval_on_selector_all(
        "[data-finding]", "all => all.map(e => [e.dataset.finding, e.dataset.verdict])"
    )
    assert sorted(map(tuple, shown)) == sorted((f.name, f.verdict) for f in after.findings)
    assert visit.complaints == []


# while it is open -----------------------------------------------------------------------------------------------------


@pytest.fixture
def visit(browser, tmp_path, demo):
    (tmp_path / "mine.toml").write_text(demo, encoding="utf-8")
    with served(tmp_path / "mine.toml") as page:
        visit = Visit(browser, page, 1280)
        yield visit
        visit.context.close()


def show(visit, key):
    visit.page.goto(f"http://{visit.served.door.host}/?at={key}")


def verdict(visit, name):
    return visit.page.locator(f'[data-finding="{name}"]').first.get_attribute("data-verdict")


def test_findings_follow_while_typing_and_nothing_is_written(visit, demo):
    show(visit, "gasket.thickness")
    assert verdict(visit, "compression.head_drop") == "caution"
    visit.page.locator('[name="gasket.thickness"]').fill("1.40 mm")
    visit.page.wait_for_function(
        "() => document.querySelector('[data-finding=\"compression.head_drop\"]').dataset.verdict === 'ok'"
    )
    assert visit.served.text == demo
    assert {f.name: f.verdict for f in check(demo.swap('thickness = "1.20 mm"', 'thickness = "1.40 mm"'))[2]}[
        "compression.head_drop"
    ] == "ok"


def test_what_is_typed_is_known_and_what_is_not_known_is_not_typed(visit):
    show(visit, "engine.stroke")
    box, tick = (visit.page.locator(f'[name="engine.stroke{at}"]') for at in ("", "@know"))
    tick.check()
    assert box.input_value() == ""
    box.fill("60 mm")
    assert not tick.is_checked()
    tick.check()
    visit.page.locator("#next").click()
    visit.page.wait_for_function("() => document.querySelector('main').dataset.at !== 'engine.stroke'")
    raw = tomllib.loads(visit.served.text)["engine"]
    assert (raw["stroke"], raw["clearance_volume"]) == ("unknown", "31.0 cm^3")


@pytest.mark.parametrize(("width", "scheme"), [(390, "light"), (1280, "dark")])
def test_the_fullest_screens_of_the_worked_job_are_fair(browser, tmp_path, demo, width, scheme):
    (tmp_path / "mine.toml").write_text(demo, encoding="utf-8")
    with served(tmp_path / "mine.toml") as page:
        visit = Visit(browser, page, width, scheme)
        for key in (
            "make",
            "engine.cycle",
            "engine.hot.stud",
            "barrel.passages.0.name",
            "head.holes",
            "lathe.feed",
            "end",
        ):
            show(visit, key)
            visit.page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
            assert visit.fair() == [], key
        visit.context.close()


def test_what_is_refused_is_told_while_typing_and_on_next(visit, demo):
    show(visit, "ring.closed_gap")
    visit.page.locator('[name="ring.closed_gap"]').fill("80 mm")
    told = visit.page.locator("#told-asks")
    visit.page.wait_for_function(
        "() => document.getElementById('told-asks').textContent.includes('a tenth of the bore')"
    )
    visit.page.keyboard.press("Enter")
    visit.page.wait_for_function("() => document.querySelector('[aria-invalid=true]') === document.activeElement")
    assert "must not be more than a tenth of the bore" in told.inner_text()
    assert visit.page.locator('[name="ring.closed_gap"]').input_value() == "80 mm"
    assert visit.served.text == demo


def test_a_finding_s_link_leads_to_its_question(visit):
    show(visit, "engine.bore")
    visit.page.locator('[data-finding="job.engine.hot.barrel"] a').first.click()
    visit.page.wait_for_function("() => document.activeElement.name === 'engine.hot.barrel'")
    assert visit.page.locator('[name="engine.hot.barrel"]').input_value() == "160 degC"


def test_the_page_sees_what_another_hand_writes(visit, demo):
    show(visit, "engine.bore")
    changed = demo.swap('bore = "57.20 mm"', 'bore = "57.30 mm"')
    visit.served.desk.path.write_text(changed, encoding="utf-8")
    visit.page.wait_for_function(
        "() => document.querySelector('[name=\"engine.bore\"]').value === '57.30 mm'", timeout=10_000
    )
    assert "changed by another hand" in visit.page.locator("#told").inner_text()
    visit.page.locator('[name="engine.bore"]').fill("57.25 mm")
    visit.served.desk.path.write_text(demo.swap('stroke = "2 1/2 in"', 'stroke = "60 mm"'), encoding="utf-8")
    visit.page.wait_for_timeout(2500)
    assert visit.page.locator('[name="engine.bore"]').input_value() == "57.25 mm"  # what is being typed stays


def test_back_goes_back_and_coming_back_goes_on(visit):
    show(visit, "head.boss")
    before = visit.page.locator("#back").get_attribute("href")
    visit.page.locator("#back").click()
    visit.page.wait_for_function("() => document.querySelector('main').dataset.at !== 'head.boss'")
    assert before.endswith(visit.at)
    visit.page.keyboard.press("Enter")
    visit.page.wait_for_function("() => document.querySelector('main').dataset.at === 'head.boss'")


def test_an_end_of_the_server_is_told(browser, tmp_path):
    with served(tmp_path / "mine.toml") as page:
        visit = Visit(browser, page, 800)
    visit.page.locator("#next").click()
    visit.page.wait_for_function("() => document.getElementById('told').textContent.includes('has ended')")
    visit.context.close()


def test_without_scripts_the_same_forms_work(browser, tmp_path):
    with served(tmp_path / "mine.toml") as page:
        context = browser.new_context(java_script_enabled=False)
        plain = context.new_page()
        plain.goto(page.door.address)
        plain.locator('input[value="head-gasket"]').check()
        with plain.expect_navigation():
            plain.locator("#next").click()
        plain.goto(f"http://{page.door.host}/?at=engine.bore")
        plain.locator('[name="engine.bore"]').fill("70")
        with plain.expect_navigation():
            plain.keyboard.press("Enter")
        assert tomllib.loads(page.text) == {"gasket": {}, "engine": {"bore": "70 mm"}}
        context.close()


# other origins --------------------------------------------------------------------------------------------------------

ATTACK = """<!doctype html><title>x</title><script>
const at = "http://127.0.0.1:%d", tried = [];
const note = (what) => (answer) => tried.push(`${what} ${answer.type} ${answer.status}`);
const failed = (what) => () => tried.push(`${what} failed`);
const body = new URLSearchParams({ question: "make", make: "stepped-stud", was: "" });
Promise.all([
  fetch(at + "/answer", { method: "POST", mode: "no-cors", credentials: "include", body }).then(note("post"), failed("post")),
  fetch(at + "/answer", { method: "POST", credentials: "include", body }).then(note("cors"), failed("cors")),
  fetch(at + "/make", { method: "POST", mode: "no-cors", credentials: "include" }).then(note("make"), failed("make")),
  fetch(at + "/state", { credentials: "include" }).then(note("state"), failed("state")),
  new Promise((done) => { const s = document.createElement("script"); s.src = at + "/ask.js"; s.onload = () => { tried.push("script loaded"); done(); }; s.onerror = () => { tried.push("script failed"); done(); }; document.head.append(s); }),
  new Promise((done) => { const f = document.createElement("iframe"); f.src = at + "/"; f.onload = done; document.documentElement.append(f); setTimeout(done, 1500); }),
]).then(() => { document.title = tried.join("; "); });
</script>"""
FORM = """<!doctype html><title>form</title><form method="post" action="http://127.0.0.1:%d/answer">
<input name="question" value="make"><input name="make" value="stepped-stud"><input name="was" value=""></form>
<script>document.forms[0].submit()</script>"""


@pytest.fixture
def elsewhere():
    """A page of another origin."""
    pages = {}

    class Other(BaseHTTPRequestHandler):
        def do_GET(self):
            self.send_response(200)
            self.send_header("Content-Type", "text/html")
            self.end_headers()
            self.wfile.write(pages.get(self.path, "").encode())

        def log_message(self, *_):
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Other)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield pages, server.server_address[1]
    server.shutdown()
    server.server_close()


@pytest.mark.parametrize("name", ["127.0.0.1", "localhost", REBOUND])
def test_a_page_of_another_origin_changes_and_reads_nothing(browser, tmp_path, elsewhere, name):
    pages, port = elsewhere
    with served(tmp_path / "mine.toml") as page:
        visit = Visit(browser, page, 800)  # has the cookie
        pages |= {"/a": ATTACK % page.door.port, "/f": FORM % page.door.port}
        visit.page.goto(f"http://{name}:{port}/a")
        visit.page.wait_for_function("() => document.title.includes('script')", timeout=15_000)
        tried = visit.page.title()
        assert "200" not in tried
        assert "script failed" in tried
        assert "state failed" in tried
        visit.page.goto(f"http://{name}:{port}/f", wait_until="commit")
        visit.page.wait_for_url(f"http://127.0.0.1:{page.door.port}/answer")
        assert "another page sent this" in visit.page.content() or "let" in visit.page.content()
        assert not page.desk.path.exists()
        assert page.desk.work is None
        visit.context.close()


def test_a_name_that_is_pointed_at_this_machine_gets_nothing(browser, tmp_path):
    with served(tmp_path / "mine.toml") as page:
        visit = Visit(browser, page, 800)
        for way in ("/", f"/?token={page.door.token}", "/state"):
            assert visit.page.goto(f"http://{REBOUND}:{page.door.port}{way}").status == 403
        visit.context.close()


def test_the_file_that_leads_the_browser_in_lets_it_stay(browser, tmp_path):
    """From a file on the disk the first visit is from another site: the cookie has to hold all the same, after a reload too."""
    from parts.asking.listening import leading_to

    with served(tmp_path / "mine.toml") as page:
        (tmp_path / "lead.html").write_text(leading_to(page.door.address), encoding="utf-8")
        context = browser.new_context()
        led = context.new_page()
        led.goto((tmp_path / "lead.html").as_uri())
        led.wait_for_url(f"http://{page.door.host}/**")
        led.locator("#next").wait_for()
        assert page.door.token not in led.url
        led.reload()
        led.locator("#next").wait_for(timeout=5000)
        led.locator('input[value="head-gasket"]').check()
        led.locator("#next").click()
        led.wait_for_function("() => document.querySelector('main').dataset.at !== 'make'")
        assert tomllib.loads(page.text) == {"gasket": {}}
        context.close()
