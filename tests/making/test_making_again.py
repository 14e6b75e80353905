"""Made again: what stands is kept, what was touched or shows something else is made, and the bytes are those of a fresh make.

The oracle is always a fresh make of the same text. That no part shows what its hash leaves out is tested by noting down
every size and table that is read while its files are written.
"""

import hashlib
import json
import os
import shutil
from contextlib import contextmanager
from pathlib import Path

import cadquery  # noqa: F401 - the kernel is loaded once, here, and works in this process
import pytest

import parts.making.make
import parts.making.standing
from parts.book import Book
from parts.checked import checked
from parts.errors import JobError
from parts.making.make import make
from parts.making.manifest import read_manifest
from parts.making.plan import made_from, plan, shown
from parts.making.standing import Options
from parts.register import PARTS, SHEETS, asked_for, load
from tests.conftest import JOBS, ROOT

RECORDS = {"job.toml", "sizes.json", "findings.json", "coordinates.csv"}


def digests(folder):
    return {
        p.relative_to(folder).as_posix(): hashlib.sha256(p.read_bytes()).hexdigest()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }


@pytest.fixture
def copy(made, tmp_path):
    """The made folder once more, to be made again; younger than the program, whoever may be at work on that."""
    into = Path(shutil.copytree(made[1], tmp_path / "copy"))
    (into / "manifest.json").touch()
    return into


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


def test_a_job_that_says_stop_still_ends_with_1(demo, run, tmp_path):
    job, into = tmp_path / "job.toml", tmp_path / "o"
    job.write_text(demo.swap('deck_depth = "32 mm"', 'deck_depth = "24 mm"'), encoding="utf-8")
    first, again = (run("make", job, "--into", into, "--only", "blanking-plug") for _ in range(2))
    assert (first.returncode, again.returncode) == (1, 1)
    assert again.stdout == first.stdout.replace(": written; ", ": unchanged; ")


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
        ("parts/ring-pressure.png", []),
        ("assembly.step", ["assembly"]),
        ("index.html", []),
        ("sizes.json", []),
    ],
)
@pytest.mark.parametrize("deed", ["edited", "deleted"])
def test_what_was_edited_or_deleted_by_hand_is_made_again(path, writes, deed, copy, demo, made, asked):
    if deed == "edited":
        with (copy / path).open("ab") as file:
            file.write(b" ")
    else:
        (copy / path).unlink()
    again = make(demo, copy)
    assert asked == [writes]
    assert digests(copy) == digests(made[1])
    assert again.written > 0
    assert again.kept > 0


def test_a_manifest_that_was_edited_by_hand_hides_nothing(copy, demo, made):
    listed = [e for e in json.loads((copy / "manifest.json").read_bytes()) if e["path"] != "job.toml"]
    listed[0]["sha256"] = "0" * 64
    (copy / "manifest.json").write_text(json.dumps(listed))
    make(demo, copy)
    shutil.rmtree(copy / "job.toml.kept", ignore_errors=True)
    (copy / "job.toml.kept").unlink(missing_ok=True)
    assert digests(copy) == digests(made[1])


CHANGES = {  # what is changed; the parts and sheets that show it, besides the page
    "cutter": (('cutter = "0.0 mm"', 'cutter = "0.2 mm"'), {"head-gasket"}),
    "nose radius": (('nose_radius = "0.4 mm"', 'nose_radius = "0.8 mm"'), {"stepped-stud"}),
    "proud": (('stands_proud = "0.30 mm"', 'stands_proud = "0.40 mm"'), {"blanking-plug"}),
    "facing": (('facing = "1.0 mm"', 'facing = "1.5 mm"'), {"ring-blank", "ring-split", "ring-pressure"}),
    "gasket": (('thickness = "1.20 mm"', 'thickness = "1.50 mm"'), {"head-gasket", "stepped-stud", "assembly"}),
    "skim": (('skim = "0.12 mm"', 'skim = "0.20 mm"'), {"head-gasket", "deck-template", "assembly"}),
    "title": (("Orchard", "Vineyard"), {*PARTS, "deck-template", "ring-pressure", "assembly"}),
}


@pytest.mark.parametrize("name", CHANGES)
def test_a_change_asks_for_just_what_shows_it(name, copy, demo):
    change, wanted = CHANGES[name]
    done = checked(demo.swap(*change))
    planned = plan(done, asked_for(done.job), Options(), copy)
    assert {stem for stem in planned.hashes if planned.lacks(stem)} == {*wanted, "page"}


@pytest.mark.parametrize("name", ["cutter", "facing"])
def test_a_change_gives_what_a_fresh_make_gives(name, copy, demo, asked, tmp_path):
    change, wanted = CHANGES[name]
    text = demo.swap(*change)
    make(text, copy)
    assert set(asked[0]) == wanted & {*PARTS}
    make(text, tmp_path / "fresh")
    assert digests(copy) == digests(tmp_path / "fresh")


def test_a_comment_changes_the_records_alone(copy, demo, made, asked):
    text = f"# once more\n{demo}"
    again = make(text, copy)
    assert asked == [[]]
    assert again.written == len(RECORDS)
    old, new = digests(made[1]), digests(copy)
    assert {name for name in old if old[name] != new[name]} == {"job.toml", "manifest.json"}


@pytest.mark.parametrize("change", [("Orchard", "Vineyard"), ('"metric"  ', '"inch"  ')], ids=["title", "print units"])
def test_what_stands_on_every_sheet_changes_every_part(change, demo):
    before, after = checked(demo), checked(demo.swap(*change))
    assert before.shapes == after.shapes
    for stem in before.shapes:
        assert made_from(PARTS[stem], before) != made_from(PARTS[stem], after)


def test_fresh_makes_everything_again(copy, demo, made, asked):
    again = make(demo, copy, fresh=True)
    assert set(asked[0]) == {*PARTS, "assembly"}
    assert again.kept == 0
    assert digests(copy) == digests(made[1])


def test_only_and_fresh_keep_the_others_that_still_match(copy, demo, asked):
    make(demo, copy, ["blanking-plug"], fresh=True)
    assert asked == [["assembly", "blanking-plug"]]
    assert {e["part"] for e in read_manifest(copy)} == {*PARTS, "job", "ring-pressure"}


def test_after_only_the_whole_is_made(demo, made, tmp_path, asked):
    into = tmp_path / "o"
    make(demo, into, ["blanking-plug"])
    make(demo, into, ["blanking-plug"])  # unchanged, asks for nothing
    make(demo, into)
    assert [set(stems) for stems in asked] == [
        {"blanking-plug", "assembly"},
        {*PARTS} - {"blanking-plug"},
    ]
    assert digests(into) == digests(made[1])


# the program and its tables -------------------------------------------------------------------------------------------


def test_another_version_makes_everything_again(demo, monkeypatch):
    done = checked(demo)
    before = plan(done, asked_for(done.job), Options(), Path("nowhere")).hashes
    monkeypatch.setattr(parts.making.standing, "__version__", "0.0.0")
    after = plan(done, asked_for(done.job), Options(), Path("nowhere")).hashes
    assert before.keys() == after.keys()
    assert not set(before.values()) & set(after.values())


def test_a_program_changed_since_makes_everything_again(copy, demo, asked):
    os.utime(copy / "manifest.json", (1e9, 1e9))
    assert make(demo, copy).kept == 0
    assert set(asked[0]) == {*PARTS, "assembly"}


def test_a_table_that_changes_no_figure_of_the_job_changes_the_records_alone(copy, demo, asked, monkeypatch):
    monkeypatch.setattr(parts.making.standing, "tables", lambda: "another")
    again = make(demo, copy)
    assert asked == [[]]
    assert again.written == len(RECORDS)


def test_a_table_that_changes_a_figure_makes_again_what_shows_it(copy, demo, run, tmp_path):
    """Stiffer ring iron in a copy of the program: ring and mandrel are made again, plug and gasket are not."""
    for package in ("parts", "cli"):
        shutil.copytree(ROOT / package, tmp_path / "program" / package)
    table = tmp_path / "program" / "parts" / "tables" / "materials.csv"
    text = table.read_text(encoding="utf-8")
    row = '"ring iron, grey",modulus,,100000,'
    assert text.count(row) == 1
    table.write_text(text.replace(row, row.replace("100000", "104000")), encoding="utf-8")
    job = tmp_path / "job.toml"
    job.write_bytes(demo.encode())
    before = {e["path"]: e["made_from"] for e in read_manifest(copy)}
    for into, more in ((copy, ()), (tmp_path / "fresh", ("--fresh",))):
        found = run("make", job, "--into", into, *more, cwd=tmp_path / "program", first=tmp_path / "program")
        assert (found.returncode, found.stderr) == (0, "")
    assert digests(copy) == digests(tmp_path / "fresh")
    after = {e["path"]: e["made_from"] for e in read_manifest(copy)}
    differ = {Path(p).name.split(".")[0] for p in before if before[p] != after[p]}
    assert {"ring-blank", "ring-pressure", "index", "sizes"} <= differ
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
    """A job that notes down every table it is asked for."""

    def __init__(self, job):
        self.job_itself, self.tables = job, set()

    def __getattr__(self, table):
        self.tables.add(table)
        return getattr(self.job_itself, table)


def jobs(demo):
    yield demo
    yield from (p.read_text(encoding="utf-8") for p in sorted(JOBS.glob("*.toml")))
    yield demo.swap('form = "contoured"', 'form = "pin"')
    yield demo.swap('form = "contoured"', 'form = "round"')
    yield demo.swap('fit = "bonded"', 'fit = "press"')
    yield demo.swap("[gasket]", 'thread_relief = "undercut"\n\n[gasket]')


def left_out(book, job, shows):
    """What was read, and does not stand under these beginnings."""
    names = {n.removeprefix("job.") for n in book.names}
    sizes = {n for n in names if not any(f"{n}.".startswith(f"{start}.") for start in shows)}
    return sizes | (job.tables - {"job", *shows})


def test_no_part_and_no_sheet_shows_what_its_hash_leaves_out(demo, tmp_path):
    for n, text in enumerate(jobs(demo)):
        done, folder = checked(text), tmp_path / str(n)
        (folder / "parts").mkdir(parents=True)
        for stem, shape in done.shapes.items():
            part, book, job = PARTS[stem], Noted(done.book), NotedJob(done.job)
            if part.outlines:
                load(part.outlines)(shape, book, job, folder / "parts")
            if part.drawing:
                load(part.drawing)(shape, book, job, done.findings, folder / "parts")
            assert left_out(book, job, (part.table, *part.shows)) == set(), (n, stem)
        for sheet in SHEETS:
            book, job = Noted(done.book), NotedJob(done.job)
            load(sheet.write)(book, job, done.findings, folder)
            assert left_out(book, job, sheet.shows) == set(), (n, sheet.stem)


def test_what_a_part_shows_holds_its_sizes_with_their_limits(demo):
    before, after = (checked(demo.swap(*c)) for c in ((), ('bore = "57.20 mm"', 'bore = "57.20 mm ± 0.02 mm"')))
    assert before.book["ring.outside_diameter"].value == after.book["ring.outside_diameter"].value
    assert shown(before, ("ring",)) != shown(after, ("ring",))
