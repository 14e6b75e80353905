"""Odd names of files and folders, and text that would be something else where it is written: all taken as what they are."""

import csv
import json
import os
import re
from xml.etree import ElementTree as ET

import ezdxf
import pypdfium2
import pytest
from cadquery import importers

from cli.say import shown
from parts.making.manifest import digest
from tests.conftest import ROOT
from tests.sheets.test_page import Page
from tests.whole.test_fuzz import ran

PLUG = '[engine]\nbore = "57.20 mm"\n[plug]\nhole = "8.50 mm"\nfit = "bonded"\nlength = "12 mm"\nbond_clearance = "0.04 mm"\n'
SCRIPT = "</script><script>alert(1)</script>"
NAMES = [
    "with spaces and (brackets)", "Kühlrippe größer", "🔩 bolt", "-leading-dash", "a'b\"c", "semi;colon&and|pipe^", "100%s {0} $HOME", "tab\there",
    "new\nline", "topend-lock", ".hidden", "ﷺ\u202e", "x" * 200,
]  # fmt: skip


@pytest.fixture
def job(tmp_path):
    file = tmp_path / "job.toml"
    file.write_text(PLUG)
    return file


def whole(into):
    listed = json.loads((into / "manifest.json").read_text(encoding="utf-8"))
    there = {p.relative_to(into).as_posix() for p in into.rglob("*") if p.is_file()} - {"manifest.json"}
    assert there == {one["path"] for one in listed}
    assert all(digest(into / one["path"]) == one["sha256"] for one in listed)
    return True


def refused(*arguments, code=2):
    """One sentence, nothing on stdout; return it."""
    found, out, err = ran(*arguments)
    assert (found, out) == (code, ""), err
    assert re.fullmatch(r"topend: .+\n", err), err
    return err


def names(folder):
    return sorted(p.name for p in folder.iterdir())


# folders --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_a_folder_and_a_job_file_of_any_name(tmp_path, name):
    file, into = tmp_path / f"{name}.toml", tmp_path / "out" / name
    file.write_text(PLUG)
    code, out, err = ran("make", file, "--into", into)
    assert (code, err) == (0, "")
    assert out.startswith(f"{shown(into)}: written")
    assert whole(into)
    assert names(tmp_path / "out") == [name]


def test_a_name_too_long_for_the_disk_is_one_sentence(job, tmp_path):
    for into in (tmp_path / ("x" * 252), tmp_path / ("x" * 300), tmp_path / "/".join(["y" * 200] * 30)):
        assert "too long" in refused("make", job, "--into", into, code=3)
    assert "too long" in refused("check", tmp_path / ("x" * 300))
    assert names(tmp_path) == ["job.toml"]


def test_a_name_of_bytes_that_are_no_text(tmp_path):
    file = tmp_path / os.fsdecode(b"j\xff.toml")
    file.write_text(PLUG)
    assert ran("check", file)[0] == 0
    assert "is no UTF-8 text" in refused("make", file, "--into", tmp_path / os.fsdecode(b"o\xfe"))
    assert "is no UTF-8 text" in refused("make", file)  # outputs/<file stem>
    assert ran("make", file, "--into", tmp_path / "out")[0] == 0


@pytest.mark.parametrize(
    "where",
    ["", ".", "./", "..", "/", "~/../..", "outputs/..", "job.toml", "job.toml/deeper", "/dev/null", "/dev/null/x"],
)
def test_no_place_for_a_folder(job, tmp_path, monkeypatch, where):
    (tmp_path / "here").mkdir()
    (tmp_path / "here" / "job.toml").write_text(PLUG)
    (tmp_path / "mine.txt").write_text("mine")
    monkeypatch.chdir(tmp_path / "here")
    if where == "~/../..":  # only a shell knows what ~ is: a folder of that name, and up again
        where = "x/../.."
    assert "--into" in refused("make", job, "--into", where)
    assert names(tmp_path) == ["here", "job.toml", "mine.txt"]
    assert names(tmp_path / "here") == ["job.toml"]


def test_a_folder_in_the_one_where_the_job_file_is(job, tmp_path, monkeypatch):
    assert job.parent == tmp_path
    monkeypatch.chdir(tmp_path)
    assert ran("make", "job.toml", "--into", "job")[0] == 0
    assert ran("make", "job/job.toml", "--into", "job")[0] == 0  # from the copy in the folder that is replaced
    assert whole(tmp_path / "job")
    assert names(tmp_path) == ["job", "job.toml"]
    assert "holds other files" in refused("make", "../" + tmp_path.name + "/job.toml", "--into", "job/parts")


def test_links(job, tmp_path):
    """A link is no folder to be replaced; a link on the way to it is followed."""
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to("real")
    (tmp_path / "loop").symlink_to("loop")
    assert "is a link to real" in refused("make", job, "--into", tmp_path / "link")
    assert "is a link to loop" in refused("make", job, "--into", tmp_path / "loop")
    assert ran("make", job, "--into", tmp_path / "link" / "demo")[0] == 0
    assert whole(tmp_path / "real" / "demo")
    assert names(tmp_path / "real") == ["demo"]
    refused("make", job, "--into", tmp_path / "loop" / "demo")
    (tmp_path / "job-link.toml").symlink_to("job.toml")
    assert ran("check", tmp_path / "job-link.toml")[0] == 0
    assert "can't be read" in refused("check", tmp_path / "loop")


def test_a_link_that_the_user_put_into_the_folder_stays_a_link(job, tmp_path):
    """What it leads to is neither read nor written."""
    into, secret = tmp_path / "out", tmp_path / "secret.txt"
    secret.write_text("secret")
    assert ran("make", job, "--into", into)[0] == 0
    (into / "sizes.json").unlink()
    (into / "sizes.json").symlink_to(secret)
    (into / "parts" / "up").symlink_to("../..")
    assert ran("make", job, "--into", into)[0] == 0
    assert secret.read_text() == "secret"
    assert not (into / "sizes.json").is_symlink()
    assert (into / "parts" / "up").readlink().as_posix() == "../.."
    assert json.loads((into / "sizes.json").read_text())


def test_a_manifest_from_elsewhere_reaches_no_file_outside(job, tmp_path):
    """Paths upwards or from the root make it none of ours: the folder is left alone."""
    into = tmp_path / "out"
    assert ran("make", job, "--into", into)[0] == 0
    listed = json.loads((into / "manifest.json").read_text())
    for path in ("../job.toml", "/etc/passwd", "parts/../../job.toml"):
        (into / "manifest.json").write_text(json.dumps([{**listed[0], "path": path}]))
        assert f"forged: it lists {path!r}" in refused("make", job, "--into", into)
    assert job.read_text() == PLUG


# text -----------------------------------------------------------------------------------------------------------------

NASTY = f"{SCRIPT} & \"q\" 'a' ]]> %d {{{{ 7*7 }}}} ENDSEC; äöü"
PASSAGES = ["=1+1", "@SUM(A1)", "-2+3", "+4", "../../up", SCRIPT, "a,b;c", 'say "oil"']


@pytest.fixture(scope="module")
def nasty(tmp_path_factory):
    """A job whose every text is something else somewhere, made."""
    base = tmp_path_factory.mktemp("nasty")
    passages = "".join(
        f'[[barrel.passages]]\nname = {json.dumps(name)}\nat = ["{-49 + 14 * n} mm", "46 mm"]\ndiameter = "5 mm"\nblank = true\n'
        for n, name in enumerate(PASSAGES)
    )
    text = (
        f'[job]\ntitle = {json.dumps(NASTY)}\n[engine]\nbore = "57.20 mm"\n'
        f'[barrel]\nmaterial = {{ name = {json.dumps(NASTY)}, modulus = "105 GPa" }}\noutline = {{ rectangle = ["120 mm", "120 mm"] }}\n'
        f'{passages}[head]\nholes = {{ rectangle = ["60 mm", "58 mm"] }}\n'
        f'[gasket]\nmaterial = {{ name = {json.dumps(SCRIPT)}, modulus = "100 GPa" }}\nthickness = "1.2 mm"\nhole = "8.5 mm"\n'
        f'[plug]\npassage = {json.dumps(SCRIPT)}\nfit = "bonded"\nlength = "9 mm"\nbond_clearance = "0.04 mm"\n'
        f'material = {{ name = {json.dumps(SCRIPT)}, modulus = "205 GPa" }}\n'
    )
    (base / "job.toml").write_text(text, encoding="utf-8")
    code, _, err = ran("make", base / "job.toml", "--into", base / "out", seconds=120)
    assert (code in (0, 1), err) == (True, "")
    assert names(base) == ["job.toml", "out"]
    return base / "out"


def test_the_page_shows_the_users_text_as_text(nasty):
    page = Page((nasty / "index.html").read_text(encoding="utf-8"))
    assert NASTY in page.text
    assert len(page.all("script")) == 3  # the models, the viewer, the page's own
    assert not any("alert" in code for kind, code in page.code if kind == "script" and '"use strict"' in code[:20])
    assert all(name in page.text for name in PASSAGES)


def test_svg_files_hold_no_script(nasty):
    files = list(nasty.rglob("*.svg"))
    assert files
    said = 0
    for file in files:
        tree = ET.parse(file)
        tags = {element.tag.rpartition("}")[2] for element in tree.iter()}
        assert tags.isdisjoint({"script", "foreignObject", "a", "image", "style"}), file
        assert not any(key.lower().startswith("on") for element in tree.iter() for key in element.attrib)
        said += SCRIPT in "".join(tree.getroot().itertext())
    assert said


def test_pdf_files_show_it_as_text(nasty):
    files = list(nasty.rglob("*.pdf"))
    assert files
    said = 0
    for file in files:
        data = file.read_bytes()
        assert not re.search(rb"/(JavaScript|JS|OpenAction|AA|Launch|URI|EmbeddedFile)\b", data), file
        with pypdfium2.PdfDocument(file) as document:
            said += any("alert(1)" in page.get_textpage().get_text_bounded() for page in document)
    assert said


def test_dxf_and_step_files_read_back(nasty):
    for file in nasty.rglob("*.dxf"):
        document = ezdxf.readfile(file)
        assert not document.audit().errors, file
    for file in (nasty / "parts").glob("*.step"):
        (solid,) = importers.importStep(str(file)).solids().vals()
        assert solid.isValid()
        text = file.read_text(encoding="latin-1")
        head = text.split("ENDSEC;\nDATA;")[0]
        assert head.startswith("ISO-10303-21;\nHEADER;")
        assert text.count("\nDATA;") == 1
        assert re.sub(r"'(?:[^']|'')*'", "", head).count(";") == 5  # of the standard's own sections and entities


def test_a_spreadsheet_takes_no_name_for_a_formula(nasty):
    with (nasty / "coordinates.csv").open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["kind"] == "passage"]
    assert [row["hole"].removeprefix("'") for row in rows] == PASSAGES
    assert not any(row["hole"].startswith(tuple("=+-@\t\r")) for row in rows)


def test_json_files_hold_it_as_it_is(nasty):
    for file in nasty.rglob("*.json"):
        json.loads(file.read_text(encoding="utf-8"), parse_constant=pytest.fail)
    assert (nasty / "job.toml").read_bytes() == (nasty.parent / "job.toml").read_bytes()


def test_nothing_tells_where_it_was_made(nasty):
    """No path of this machine and no user's name in any file."""
    for file in nasty.rglob("*"):
        data = file.read_bytes() if file.is_file() else b""
        for word in (str(nasty.parent), str(ROOT), os.path.expanduser("~") + "/"):  # noqa: PTH111
            assert word.encode() not in data, file


def test_a_terminal_is_sent_no_control_character(tmp_path):
    """Titles and names that would move the cursor are refused, and shown in an error as they are written."""
    for text in (
        '[job]\ntitle = "a\\u001b[2Jb"\n',
        '[plug]\npassage = "a\\u001b]0;x\\u0007"\nfit = "bonded"\nlength = "9 mm"\n',
        '["a\\u001b[2J"]\n',
    ):
        (tmp_path / "job.toml").write_text(text)
        code, out, err = ran("check", tmp_path / "job.toml")
        assert (code, out) == (2, "")
        assert "\x1b" not in err
        assert "\x07" not in err


def test_a_name_of_a_size_that_is_none_is_shown_as_written(tmp_path):
    (tmp_path / "job.toml").write_text(PLUG)
    refused("explain", tmp_path / "job.toml", "plug.\x1b[2J\nlength")
