"""Made again: what stands is kept, what was touched or shows something else is made, and the bytes are those of a fresh make.

The oracle is always a fresh make of the same text. That no part shows what its hash leaves out is tested by noting down
every size and table that is read while its files are written.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from contextlib import contextmanager
from fnmatch import fnmatchcase
from pathlib import Path

import cadquery  # noqa: F401 - the kernel is loaded once, here, and works in this process
import pytest

import parts.making.make
import parts.making.standing
from cli.main import app
from cli.say import guarded
from parts.book import Book
from parts.checked import checked
from parts.errors import JobError
from parts.job import load as parse
from parts.making.make import make
from parts.making.manifest import read_manifest
from parts.making.plan import made_from, plan, sheets, shown
from parts.making.standing import Options
from parts.register import PARTS, asked_for, load
from parts.sheets.drawing.compose import write_drawing
from tests.conftest import JOBS, ROOT, stems_of_demo

RECORDS = {"job.toml", "sizes.json", "findings.json", "coordinates.csv"}


def digests(folder):
    return {
        p.relative_to(folder).as_posix(): hashlib.sha256(p.read_bytes()).hexdigest()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }


def stems(text):
    return {part.stem for part in asked_for(parse(text))}


@pytest.fixture
def copy(made, tmp_path):
    """The made folder once more, to be made again; younger than the program, whoever may be at work on that."""
    into = Path(shutil.copytree(made[1], tmp_path / "copy"))
    (into / "manifest.json").touch()
    return into


@pytest.fixture
def again(made_small, tmp_path):
    """The folder of the small job once more, as `copy`, and what it holds."""
    into = Path(shutil.copytree(made_small, tmp_path / "again"))
    (into / "manifest.json").touch()
    return into, digests(into)


@pytest.fixture
def asked(monkeypatch):
    """What the kernel is asked to write, make by make."""
    makes = []
    kernel = parts.making.make.kernel

    @contextmanager
    def watched():
        with kernel() as ask:

            def noted(orders):
                makes.append([order.stem for order in orders if order.write])
                return ask(orders)

            yield noted

    monkeypatch.setattr(parts.making.make, "kernel", watched)
    return makes


# nothing changed ------------------------------------------------------------------------------------------------------


def test_a_second_make_leaves_the_folder_alone_and_reads_no_job(copy, demo, run, tmp_path):
    """With neither the kernel nor the reader of job files to be loaded; what it prints and its exit code are those of the first make."""
    stub = tmp_path / "stub"
    for package in ("cadquery", "tomllib"):
        (stub / package).mkdir(parents=True)
        (stub / package / "__init__.py").write_text("raise SystemExit('loaded')\n")
    job = tmp_path / "job.toml"
    job.write_bytes(demo.encode())
    before, inode, times = digests(copy), copy.stat().st_ino, [p.stat().st_mtime_ns for p in copy.rglob("*")]
    found = run("make", job, "--into", copy, first=stub)
    assert (found.returncode, found.stderr) == (0, "")
    count = len(json.loads((copy / "findings.json").read_bytes()))
    assert found.stdout.startswith(f"{copy}: unchanged; {count} findings, ")
    assert len(found.stdout.splitlines()) > 1
    assert digests(copy) == before
    assert (copy.stat().st_ino, [p.stat().st_mtime_ns for p in copy.rglob("*")]) == (inode, times)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["copy", "job.toml", "stub"]


def test_a_job_that_says_stop_still_ends_with_1(small, tmp_path, capsys):
    job, into = tmp_path / "job.toml", tmp_path / "o"
    job.write_text(small.swap('closed_gap = "0.20 mm"', 'closed_gap = "0.05 mm"'), encoding="utf-8")
    command = ["make", str(job), "--into", str(into), "--only", "blanking-plug"]
    (first, told), (second, told_again) = ((guarded(app, command), capsys.readouterr().out) for _ in range(2))
    assert (first, second) == (1, 1)
    assert told_again == told.replace(": written; ", ": unchanged; ") != told


def test_a_folder_that_may_not_be_replaced_is_refused_all_the_same(copy, demo, monkeypatch):
    monkeypatch.chdir(copy)
    with pytest.raises(JobError, match="is the folder you are in"):
        make(demo, copy)


# something changed ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "writes"),
    [
        ("parts/blanking-plug.step", ["blanking-plug"]),
        ("parts/blanking-plug.pdf", ["blanking-plug"]),
        ("parts/deck-template.svg", []),
        ("assembly.step", ["assembly"]),
        ("index.html", []),
        ("sizes.json", []),
    ],
)
@pytest.mark.parametrize("deed", ["edited", "deleted"])
def test_what_was_edited_or_deleted_by_hand_is_made_again(path, writes, deed, again, small, asked):
    by_hand(*again, path, deed, small)
    assert asked == [writes]


@pytest.mark.parametrize("deed", ["edited", "deleted"])
def test_a_plot_edited_or_deleted_by_hand_is_made_again(deed, copy, demo, asked):
    by_hand(copy, digests(copy), "parts/ring-pressure.png", deed, demo)
    assert asked == [[]]


def by_hand(into, before, path, deed, text):
    if deed == "edited":
        with (into / path).open("ab") as file:
            file.write(b" ")
    else:
        (into / path).unlink()
    edited, kept, said = (into / path).read_bytes() if deed == "edited" else b"", kept_beside(into, path), []
    done = make(text, into, tell=said.append)
    if deed == "edited":
        assert said == [f"{path} was changed since topend wrote it: kept as {kept.relative_to(into).as_posix()}"]
        assert kept.read_bytes() == edited
        kept.unlink()
    else:
        assert said == []
    assert digests(into) == before
    assert done.written > 0
    assert done.kept > 0


def kept_beside(into, path):
    name = into / path
    return name.with_name(f"{name.stem}.kept-1{name.suffix}")


def test_a_manifest_that_was_edited_by_hand_hides_nothing(again, small):
    copy, before = again
    listed = [e for e in json.loads((copy / "manifest.json").read_bytes()) if e["path"] != "job.toml"]
    listed[0]["sha256"] = "0" * 64
    (copy / "manifest.json").write_text(json.dumps(listed))
    make(small, copy)  # a file that is no longer listed, and one listed otherwise: both are the same as made again
    assert digests(copy) == before


CHANGES = {  # what is changed; the parts and sheets that show it, besides the page
    "cutter": (('cutter = "0.0 mm"', 'cutter = "0.2 mm"'), {"head-gasket"}),
    "nose radius": (('nose_radius = "0.4 mm"', 'nose_radius = "0.8 mm"'), {"stepped-stud"}),
    "proud": (('stands_proud = "0.30 mm"', 'stands_proud = "0.40 mm"'), {"blanking-plug"}),
    "facing": (('facing = "1.0 mm"', 'facing = "1.5 mm"'), {"ring-blank", "ring-split", "ring-pressure"}),
    "gasket": (('thickness = "1.20 mm"', 'thickness = "1.50 mm"'), {"head-gasket", "stepped-stud", "assembly"}),
    "skim": (('skim = "0.12 mm"', 'skim = "0.20 mm"'), {"head-gasket", "deck-template", "assembly"}),
    "title": (("Orchard", "Vineyard"), {*stems_of_demo(), "deck-template", "ring-pressure", "assembly"}),
}


@pytest.mark.parametrize("name", CHANGES)
def test_a_change_asks_for_just_what_shows_it(name, copy, demo):
    change, wanted = CHANGES[name]
    done = checked(demo.swap(*change))
    planned = plan(done, asked_for(done.job), Options(), copy)
    assert {stem for stem in planned.hashes if planned.lacks(stem)} == {*wanted, "page"}


@pytest.mark.parametrize("name", ["proud", "facing"])
def test_a_change_gives_what_a_fresh_make_gives(name, again, small, asked, tmp_path):
    change, wanted = CHANGES[name]
    text = small.swap(*change)
    make(text, again[0])
    assert set(asked[0]) == wanted & {*PARTS}
    make(text, tmp_path / "fresh")
    assert digests(again[0]) == digests(tmp_path / "fresh")


def test_a_comment_changes_the_records_alone(again, small, asked):
    copy, old = again
    done = make(f"# once more\n{small}", copy)
    assert asked == [[]]
    assert done.written == len(RECORDS)
    new = digests(copy)
    assert {name for name in old if old[name] != new[name]} == {"job.toml", "manifest.json"}


@pytest.mark.parametrize("change", [("Orchard", "Vineyard"), ('"metric"  ', '"inch"  ')], ids=["title", "print units"])
def test_what_stands_on_every_sheet_changes_every_part(change, demo):
    demo = demo.swap('slit = "0.50 mm"', 'slit = "0.20 mm"')  # a hoop for the ends would be of another wire in inches
    before, after = checked(demo), checked(demo.swap(*change))
    assert before.shapes == after.shapes
    for piece in asked_for(before.job):
        assert made_from(piece, before) != made_from(piece, after)


def test_fresh_makes_everything_again(again, small, asked):
    copy, before = again
    assert make(small, copy, fresh=True).kept == 0
    assert set(asked[0]) == {*stems(small), "assembly"}
    assert digests(copy) == before


def test_only_and_fresh_keep_the_others_that_still_match(again, small, asked):
    make(small, again[0], ["blanking-plug"], fresh=True)
    assert asked == [["assembly", "blanking-plug"]]
    assert {e["part"] for e in read_manifest(again[0])} == {*stems(small), "job"}


def test_after_only_the_whole_is_made(small, made_small, tmp_path, asked):
    into = tmp_path / "o"
    make(small, into, ["blanking-plug"])
    make(small, into, ["blanking-plug"])  # unchanged, asks for nothing
    make(small, into)
    assert [set(stems) for stems in asked] == [{"blanking-plug", "assembly"}, stems(small) - {"blanking-plug"}]
    assert digests(into) == digests(made_small)


# the program and its tables -------------------------------------------------------------------------------------------


def test_another_version_makes_everything_again(demo, monkeypatch):
    done = checked(demo)
    before = plan(done, asked_for(done.job), Options(), Path("nowhere")).hashes
    monkeypatch.setattr(parts.making.standing, "__version__", "0.0.0")
    after = plan(done, asked_for(done.job), Options(), Path("nowhere")).hashes
    assert before.keys() == after.keys()
    assert not set(before.values()) & set(after.values())


def test_a_program_changed_since_makes_everything_again(again, small, asked):
    os.utime(again[0] / "manifest.json", (1e9, 1e9))
    assert make(small, again[0]).kept == 0
    assert set(asked[0]) == {*stems(small), "assembly"}


def test_a_table_that_changes_no_figure_of_the_job_changes_the_records_alone(again, small, asked, monkeypatch):
    monkeypatch.setattr(parts.making.standing, "tables", lambda: "another")
    done = make(small, again[0])
    assert asked == [[]]
    assert done.written == len(RECORDS)


@pytest.fixture
def stiffer(tmp_path):
    """A copy of the program with stiffer ring iron."""
    for package in ("parts", "cli"):
        shutil.copytree(ROOT / package, tmp_path / "program" / package)
    table = tmp_path / "program" / "parts" / "tables" / "materials.csv"
    text = table.read_text(encoding="utf-8")
    row = '"ring iron, grey",modulus,,100000,'
    assert text.count(row) == 1
    table.write_text(text.replace(row, row.replace("100000", "104000")), encoding="utf-8")
    return tmp_path / "program"


def test_a_table_that_changes_a_figure_makes_again_what_shows_it(stiffer, again, small, run, tmp_path):
    """The ring is made again, the plug is not."""
    copy, job = again[0], tmp_path / "job.toml"
    job.write_bytes(small.encode())
    before = {e["path"]: e["made_from"] for e in read_manifest(copy)}
    for into, more in ((copy, ()), (tmp_path / "fresh", ("--fresh",))):
        found = run("make", job, "--into", into, *more, cwd=stiffer, first=stiffer)
        assert (found.returncode, found.stderr) == (0, "")
    assert digests(copy) == digests(tmp_path / "fresh")
    after = {e["path"]: e["made_from"] for e in read_manifest(copy)}
    differ = {Path(p).name.split(".")[0] for p in before if before[p] != after[p]}
    assert {"ring-blank", "index", "sizes"} <= differ
    assert not {"blanking-plug", "deck-template"} & differ


PLANNED = """
import json
from pathlib import Path
from parts.checked import checked
from parts.job.examples import demo_text
from parts.making.plan import plan
from parts.making.standing import Options
from parts.register import asked_for
done = checked(demo_text())
print(json.dumps(plan(done, asked_for(done.job), Options(), Path("nowhere")).hashes))
"""


def test_a_table_that_changes_a_figure_changes_the_hash_of_what_shows_it(stiffer):
    """Of the whole worked job: ring, its plot and the page, not plug, gasket, stud and deck."""
    one, other = (
        json.loads(subprocess.run([sys.executable, "-c", PLANNED], cwd=place, env={**os.environ, "PYTHONPATH": str(place)},
                                  capture_output=True, check=True).stdout)
        for place in (ROOT, stiffer)
    )  # fmt: skip
    differ = {stem for stem in one if one[stem] != other[stem]}
    assert {"ring-blank", "ring-pressure", "page"} <= differ
    assert not {"blanking-plug", "head-gasket", "stepped-stud", "deck-template"} & differ


# nothing is shown that the hash leaves out ----------------------------------------------------------------------------


class Noted(Book):
    """A book that notes down every name it is asked for."""

    def __init__(self, book):
        super().__init__()
        self.update(book)
        self.left_out, self.comes_from, self._moved = book.left_out, book.comes_from, book._moved
        self.names = set()

    def __getitem__(self, name):
        self.names.add(name)
        return super().__getitem__(name)

    def __contains__(self, name):
        self.names.add(name)
        return super().__contains__(name)

    def get(self, *_):
        raise AssertionError("not noted down")


class NotedJob:
    """A job that notes down every table it is asked for, also as an instance sees it."""

    def __init__(self, job, tables=None):
        self.job_itself, self.tables = job, set() if tables is None else tables

    def __getattr__(self, table):
        self.tables.add("barrel" if table == "old" else table)
        return getattr(self.job_itself, table)

    def at(self, instance):
        return NotedJob(self.job_itself.at(instance), self.tables)

    def instances(self, kind):
        return self.job_itself.instances(kind)

    def of_hole(self, hole, name):
        return self.job_itself.of_hole(hole, name)


def jobs(demo):
    yield demo
    yield demo + "\n[fixtures]\n"
    yield from (p.read_text(encoding="utf-8") for p in sorted(JOBS.glob("*.toml")))
    yield demo.swap('form = "contoured"', 'form = "pin"')
    yield demo.swap('form = "contoured"', 'form = "round"')
    yield demo.swap('fit = "bonded"', 'fit = "press"')
    yield demo.swap("[gasket]", 'thread_relief = "undercut"\n\n[gasket]')


def left_out(book, job, shows):
    """What was read, and does not stand under these beginnings."""
    names = {n.removeprefix("job.") for n in book.names}
    sizes = {n for n in names if not any(fnmatchcase(f"{n}.", f"{start}.*") for start in shows)}
    return sizes | (job.tables - {"job", *shows})


def test_no_part_and_no_sheet_shows_what_its_hash_leaves_out(demo, tmp_path):
    for n, text in enumerate(jobs(demo)):
        done, folder = checked(text), tmp_path / str(n)
        (folder / "parts").mkdir(parents=True)
        for piece in (p for p in asked_for(done.job) if p.stem in done.shapes):
            part, shape, book, job = piece.part, done.shapes[piece.stem], Noted(done.book), NotedJob(done.job)
            seen = (shape, piece.book(book), piece.job(job))
            if part.outlines:
                load(part.outlines)(*seen, folder / "parts")
            if part.drawing:
                write_drawing(load(part.drawing)(*seen, done.findings), seen[2], folder / "parts")
            assert left_out(book, job, (part.table, *part.shows)) == set(), (n, piece.stem)
        noted = Noted(done.book), NotedJob(done.job)
        for stem, sheet, book, job in sheets(*noted):
            noted[0].names.clear()
            noted[1].tables.clear()
            load(sheet.write)(book, job, done.findings, folder)
            assert left_out(*noted, sheet.shows) == set(), (n, stem)


def test_what_a_part_shows_holds_its_sizes_with_their_limits(demo):
    before, after = (checked(demo.swap(*c)) for c in ((), ('bore = "57.20 mm"', 'bore = "57.20 mm ± 0.02 mm"')))
    assert before.book["ring.outside_diameter"].value == after.book["ring.outside_diameter"].value
    assert shown(before.book, before.job, ("ring",)) != shown(after.book, after.job, ("ring",))
