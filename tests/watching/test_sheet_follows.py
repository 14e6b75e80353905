"""The job sheet in a real browser while its folder is made again: it says what changed, and shows the new one by itself."""

import json
import shutil

import pytest

from tests.asking.served import served
from tests.asking.test_page_in_browser import Visit, browser, pytestmark  # noqa: F401

playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
NEWS = [
    "stop, was caution: Greatest load on a stud",
    "stud.shank  6.200 mm -> 6.100 mm",
    "made: stepped-stud, job sheet",
]


@pytest.fixture
def page(tmp_path, made_small, small):
    into = shutil.copytree(made_small, tmp_path / "outputs" / "mine")
    (tmp_path / "mine.toml").write_text(small, encoding="utf-8")
    with served(tmp_path / "mine.toml", into) as page:
        yield page


@pytest.fixture(params=[390, 1280])
def visit(request, browser, page):  # noqa: F811
    visit = Visit(browser, page, request.param)
    visit.page.goto(f"http://{page.door.host}/sheet/index.html?token={page.door.token}")
    yield visit
    visit.context.close()


def remade(page, title):
    """Put another sheet in the place of the one that stands."""
    sheet = page.desk.into / "index.html"
    text = sheet.read_text(encoding="utf-8")
    new = sheet.with_name("new")
    new.write_text(text.replace("<h1>", f"<h1>{title} ", 1), encoding="utf-8")
    new.replace(sheet)


def test_a_new_sheet_and_what_changed_are_shown_by_themselves(visit, page):
    assert "token" not in visit.page.url
    assert not visit.page.locator("#news").is_visible()
    page.desk.news = NEWS
    remade(page, "Made again")
    visit.page.locator("h1", has_text="Made again").wait_for(timeout=10_000)
    visit.page.locator("#news", has_text=NEWS[-1]).wait_for(timeout=10_000)
    assert visit.page.locator("#news p").all_inner_texts() == [line.replace("  ", " ") for line in NEWS]
    assert visit.fair() == []
    assert visit.complaints == []


def test_it_loads_no_sheet_again_that_stays(visit, page):
    page.desk.news = NEWS
    visit.page.locator("#news", has_text=NEWS[-1]).wait_for(timeout=10_000)
    visit.page.evaluate("document.title = 'the same page'")
    visit.page.wait_for_timeout(1500)
    assert visit.page.title() == "the same page"


def test_what_is_being_written_is_not_taken_away_and_is_kept(visit, page):
    box = visit.page.locator("input[data-keep]:not([type=checkbox])").first
    box.fill("12.34")
    remade(page, "Made again")
    visit.page.wait_for_timeout(1500)
    assert "Made again" not in visit.page.locator("h1").inner_text()
    box.fill("12.345")
    visit.page.evaluate("document.activeElement.blur()")
    visit.page.locator("h1", has_text="Made again").wait_for(timeout=10_000)
    playwright.expect(box).to_have_value("12.345")
    assert "12.345" in json.loads(page.desk.notes.read_bytes()).values()


def test_without_a_folder_the_questions_are_shown(browser, page):  # noqa: F811
    shutil.rmtree(page.desk.into)
    visit = Visit(browser, page, 390)
    visit.page.goto(f"http://{page.door.host}/sheet/index.html")
    assert visit.page.locator("main").get_attribute("data-at") == "end"
    visit.context.close()


def test_the_end_of_topend_is_told(tmp_path, browser, made_small, small):  # noqa: F811
    into = shutil.copytree(made_small, tmp_path / "outputs" / "mine")
    (tmp_path / "mine.toml").write_text(small, encoding="utf-8")
    with served(tmp_path / "mine.toml", into) as page:
        page.desk.news = NEWS
        visit = Visit(browser, page, 390)
        visit.page.goto(f"http://{page.door.host}/sheet/index.html")
        visit.page.locator("#news", has_text=NEWS[-1]).wait_for(timeout=10_000)
    visit.page.locator("#news", has_text="topend has ended").wait_for(timeout=10_000)
    visit.context.close()
