"""The job sheet in a real browser, from the disk, with no network: it opens, turns, remembers and fits a phone."""

import shutil
from pathlib import Path

import pytest

from parts.checked import check
from tests.conftest import JOBS
from tests.sheets.test_page import plain_page

playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
CHROMIUM = next((p for p in map(shutil.which, ("chromium", "chromium-browser", "google-chrome")) if p), None)
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")


@pytest.fixture(scope="module")
def browser():
    with playwright.sync_playwright() as run:
        browser = run.chromium.launch(
            executable_path=CHROMIUM, args=["--no-sandbox", "--enable-unsafe-swiftshader", "--disable-gpu"]
        )
        yield browser
        browser.close()


class Visit:
    """A page, what it complained of and what it asked for."""

    def __init__(self, browser, file, width, **more):
        self.context = browser.new_context(viewport={"width": width, "height": 800}, offline=True, **more)
        self.page = self.context.new_page()
        self.complaints, self.requests = [], []
        self.page.on("console", lambda m: self.complaints.append(m.text) if m.type in ("error", "warning") else None)
        self.page.on("pageerror", lambda e: self.complaints.append(str(e)))
        self.page.on("request", lambda r: self.requests.append(r.url))
        self.page.goto(Path(file).as_uri())

    def dots(self):
        """Each colour on the canvas and how many dots have it."""
        self.page.evaluate("new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)))")
        return self.page.evaluate(
            """() => {
                const from = document.getElementById('view'), to = document.createElement('canvas');
                to.width = from.width; to.height = from.height;
                const pen = to.getContext('2d'); pen.drawImage(from, 0, 0);
                const d = pen.getImageData(0, 0, to.width, to.height).data, n = {};
                let sum = 0;
                for (let i = 0; i < d.length; i += 4) {
                    const c = (d[i] << 16) | (d[i + 1] << 8) | d[i + 2];
                    n[c] = (n[c] || 0) + 1; sum = (sum * 31 + c + i) % 1000000007;
                }
                return { colours: Object.keys(n).length, most: Math.max(...Object.values(n)) / (d.length / 4), sum };
            }"""
        )


@pytest.fixture(scope="module", params=[(390, "light"), (1280, "light"), (1280, "dark")], ids=str)
def visit(request, browser, made):
    width, scheme = request.param
    visit = Visit(browser, made[1] / "index.html", width, color_scheme=scheme)
    yield visit
    visit.context.close()


def test_it_complains_of_nothing_and_asks_for_nothing(visit):
    visit.dots()
    assert visit.complaints == []
    assert len(visit.requests) == 1 + sum(url.startswith("data:") for url in visit.requests)


def test_nothing_hangs_over_the_side(visit):
    width, seen = visit.page.evaluate("[document.documentElement.scrollWidth, window.innerWidth]")
    assert seen == visit.page.viewport_size["width"]
    assert width <= seen
    outside = visit.page.evaluate(
        """() => [...document.querySelectorAll('main *')].filter(e => !e.closest('.wide') && !e.closest('svg')
            && e.getBoundingClientRect().right > innerWidth + 0.5).map(e => e.tagName + '.' + e.className)"""
    )
    assert outside == []


def test_the_parts_are_drawn_and_turn_on_drag_and_by_key(visit):
    visit.page.locator("#view").scroll_into_view_if_needed()
    first = visit.dots()
    assert first["colours"] > 50
    assert first["most"] < 0.98
    box = visit.page.locator("#view").bounding_box()
    visit.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    visit.page.mouse.down()
    visit.page.mouse.move(box["x"] + box["width"] / 2 + 60, box["y"] + box["height"] / 2 + 20, steps=3)
    visit.page.mouse.up()
    dragged = visit.dots()
    assert dragged["sum"] != first["sum"]
    visit.page.keyboard.press("ArrowLeft")
    assert visit.dots()["sum"] != dragged["sum"]
    visit.page.keyboard.press("0")
    assert visit.dots()["sum"] == first["sum"]


def test_every_part_can_be_chosen(visit):
    for button in visit.page.locator("[data-view]").all():
        button.click()
        assert button.get_attribute("aria-pressed") == "true"
        shown = visit.dots()
        assert shown["colours"] > 20, button.get_attribute("data-view")
        assert shown["most"] < 0.99
    visit.page.locator('[data-view="assembly"]').click()
    apart = visit.dots()
    visit.page.locator("#explode").fill("0")
    assert visit.dots()["sum"] != apart["sum"]


def test_boxes_and_lines_survive_a_reload(visit):
    box, line = visit.page.locator('[data-keep="step skim"]'), visit.page.locator('[data-size="stud.length"]')
    box.check()
    line.fill("73.45")
    visit.page.reload()
    assert box.is_checked()
    assert line.input_value() == "73.45"
    box.uncheck()
    visit.page.reload()
    assert not box.is_checked()


def test_what_was_written_down_goes_back_into_the_job_file(visit, made):
    page = visit.page
    page.evaluate("localStorage.clear()")
    page.reload()
    for size, text in (("ring.outside_diameter", "57.27"), ("joint.torque", "14.5"), ("job.barrel.skim", "0.4 mm")):
        page.locator(f'[data-size="{size}"]').last.fill(text)
    told = page.locator("#made").input_value()
    assert told.splitlines() == [
        "[made]", '"job.barrel.skim" = "0.4 mm"', '"ring.outside_diameter" = "57.27 mm"', '"joint.torque" = "14.5 N m"'
    ]  # fmt: skip
    job, book, _ = check((made[1] / "job.toml").read_text(encoding="utf-8") + "\n" + told)
    assert book["ring.outside_diameter"].value == 57.27
    assert set(job.made.values) == {"job.barrel.skim", "joint.torque", "ring.outside_diameter"}


def test_on_paper_everything_in_order_is_shown_and_no_control(visit):
    visit.page.emulate_media(media="print")
    visit.page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert visit.page.locator(".findings.ok").is_visible()
    assert not visit.page.locator(".viewer").is_visible()
    assert visit.page.locator(".gallery img").first.is_visible()
    visit.page.evaluate("dispatchEvent(new Event('afterprint'))")
    visit.page.emulate_media(media="screen")


def test_without_webgl_it_is_painted(browser, made):
    visit = Visit(browser, made[1] / "index.html", 800)
    visit.page.add_init_script(
        """const get = HTMLCanvasElement.prototype.getContext;
        HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
            return kind === "webgl" ? null : get.call(this, kind, ...rest);
        };"""
    )
    visit.page.reload()
    assert visit.dots()["colours"] > 50
    assert visit.complaints == []
    visit.context.close()


def test_tables_are_whole_on_a_phone_and_boxes_fit_a_thumb(visit):
    """24 px is the least target of WCAG 2.2, criterion 2.5.8."""
    cut = visit.page.evaluate(
        "[...document.querySelectorAll('.wide')].filter(e => e.scrollWidth > e.clientWidth).map(e => e.ariaLabel)"
    )
    assert cut == []
    small = visit.page.evaluate(
        """[...document.querySelectorAll('input[type=checkbox]')].map(e => e.getBoundingClientRect())
            .filter(b => b.width < 24 || b.height < 24).length"""
    )
    assert small == 0


@pytest.mark.parametrize("width", [390, 1280])
def test_tables_of_many_kinds_of_hole_are_whole_too(browser, width, tmp_path):
    """Read at a desk the last column, how deep each hole is, was cut off."""
    page = tmp_path / "index.html"
    page.write_text(plain_page((JOBS / "lists.toml").read_text(encoding="utf-8"), tmp_path), encoding="utf-8")
    visit = Visit(browser, page, width)
    cut = visit.page.evaluate(
        "[...document.querySelectorAll('.wide')].filter(e => e.scrollWidth > e.clientWidth).map(e => e.ariaLabel)"
    )
    assert cut == []


def test_without_scripts_there_is_no_empty_frame(browser, made):
    visit = Visit(browser, made[1] / "index.html", 800, java_script_enabled=False)
    assert not visit.page.locator(".viewer").is_visible()
    assert not visit.page.locator(".back").is_visible()
    assert visit.page.locator(".gallery img").first.is_visible()
    assert visit.page.locator(".steps h3").first.is_visible()
    visit.context.close()


def test_notes_belong_to_the_folder_and_to_the_unit(browser, made, tmp_path):
    """A page of the same title in another folder starts empty; so does a line whose unit has changed."""
    other = tmp_path / "other"
    other.mkdir()
    text = (made[1] / "index.html").read_text(encoding="utf-8")
    (other / "index.html").write_text(text, encoding="utf-8")
    visit = Visit(browser, made[1] / "index.html", 800)
    box, line = visit.page.locator('[data-keep="step skim"]'), visit.page.locator('[data-size="stud.length"]')
    box.check()
    line.fill("73.45")
    visit.page.goto((other / "index.html").as_uri())
    assert not box.is_checked()
    assert line.input_value() == ""
    inches = text.replace('data-keep="studs stud.length mm"', 'data-keep="studs stud.length in"')
    assert inches != text
    line.fill("73.45")
    (other / "index.html").write_text(inches, encoding="utf-8")
    visit.page.reload()
    assert line.input_value() == ""
    visit.context.close()
