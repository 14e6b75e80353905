"""Who may ask: RFC 6265bis on cookies, the Fetch standard on Origin and Sec-Fetch-Site, said to the server as a stranger would."""

import pytest

from tests.asking.served import served


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    with served(tmp_path_factory.mktemp("door") / "mine.toml") as page:
        yield page


ADDRESSES = (
    "/",
    "/ask.js",
    "/ask.css",
    "/page.css",
    "/state",
    "/form.pdf",
    "/sheet/index.html",
    "/sheet/notes",
    "/nowhere",
)
STRANGE = {
    "without a cookie": {"Cookie": None},
    "with another token": {"Cookie": "topend-1=x"},
    "under another name": {"Host": "localhost:1"},
    "as a rebound name": {"Host": "evil.example"},
    "from another origin": {"Origin": "http://evil.example"},
    "from another port": {"Origin": "http://127.0.0.1:1"},
    "from a file or a sandbox": {"Origin": "null"},
    "by a link of another site": {"Sec_Fetch_Site": "cross-site"},
    "by a page of another port": {"Sec_Fetch_Site": "same-site"},
}


@pytest.mark.parametrize("heads", STRANGE.values(), ids=STRANGE)
@pytest.mark.parametrize("address", ADDRESSES)
def test_a_stranger_is_turned_away_everywhere(page, address, heads):
    assert page.ask("GET", address, **heads)[0] == 403


@pytest.mark.parametrize("heads", STRANGE.values(), ids=STRANGE)
@pytest.mark.parametrize("address", ["/answer", "/try", "/make", "/sheet/notes"])
def test_and_changes_nothing(page, address, heads):
    assert page.ask("POST", address, {"question": "make", "make": "stepped-stud"}, **heads)[0] == 403
    assert not page.desk.path.exists()
    assert page.desk.work is None
    assert not page.desk.notes.exists()


def test_the_token_opens_the_page_once_and_for_all(page):
    status, heads, text = page.ask("GET", f"/?token={page.door.token}", Cookie=None)
    assert status == 200
    assert 'name="make"' in text
    cookie = heads["set-cookie"]
    assert cookie.startswith(f"topend-{page.door.port}={page.door.token};")
    assert {"HttpOnly", "SameSite=Strict"} <= {part.strip() for part in cookie.split(";")}
    assert page.ask("GET", "/", Cookie=cookie.partition(";")[0])[0] == 200
    assert page.ask("GET", f"/?token={page.door.token[:-1]}", Cookie=None)[0] == 403
    assert page.ask("POST", f"/answer?token={page.door.token}", {"question": "make"}, Cookie=None)[0] == 403


def test_the_token_can_be_guessed_by_nobody(tmp_path):
    with served(tmp_path / "a.toml") as one, served(tmp_path / "b.toml") as other:
        assert one.door.token != other.door.token
        assert len(one.door.token) >= 43  # 256 bits in base 64
        assert one.ask("GET", "/", Cookie=f"{one.door.name}={other.door.token}")[0] == 403


def test_every_answer_says_what_a_browser_may_do_with_it(page):
    for status, heads, _ in (page.ask("GET", "/"), page.ask("GET", "/", Cookie=None), page.ask("GET", "/nowhere")):
        assert heads["content-security-policy"].startswith(
            "default-src 'none'; script-src 'self'; style-src 'self';"
        ), status
        assert "unsafe" not in heads["content-security-policy"]
        assert "frame-ancestors 'none'" in heads["content-security-policy"]
        assert heads["cache-control"] == "no-store"
        assert heads["x-content-type-options"] == "nosniff"
        assert heads["referrer-policy"] == "same-origin"
        assert heads["cross-origin-resource-policy"] == "same-origin"


@pytest.mark.parametrize("length", [None, "-1", "200001", "1e3", "99999999999999999999"])
def test_what_is_sent_has_a_length_that_is_bounded(page, length):
    status, _, _ = page.ask("POST", "/answer", b"", Content_Length=length)
    assert status in (400, 413)


def test_nothing_changes_by_get(page):
    for address in ("/answer", "/try", "/make"):
        assert page.ask("GET", f"{address}?question=make&make=stepped-stud")[0] == 405
    page.ask("GET", "/?question=make&make=stepped-stud&was=x")
    assert not page.desk.path.exists()


@pytest.mark.parametrize(
    "name", ["../mine.toml", "%2e%2e/mine.toml", "/etc/passwd", "%2fetc%2fpasswd", "notes/..", "job.toml", ""]
)
def test_only_files_that_the_manifest_lists_are_shown(page, name):
    assert page.ask("GET", f"/sheet/{name}")[0] == 404
