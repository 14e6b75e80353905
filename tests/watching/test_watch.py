"""`topend watch` as it is called: what it prints, what it makes, and that nothing of it is left. The oracle is `make`."""

import filecmp
import os
import re
import signal
import subprocess
import sys
import time
from contextlib import contextmanager
from pathlib import Path
from queue import Queue
from threading import Thread

import pytest

from parts.making.folder import beside
from parts.making.lock import let_go, take
from tests.conftest import JOBS, ROOT
from tests.making.test_second_process import below, linux, runs, wait_for

GASKET = (JOBS / "gasket.toml").read_text(encoding="utf-8")
THICK = 'thickness = "0.8 mm"'
SECONDS = 60


class Watching:
    """A watch at work, and what it prints."""

    def __init__(self, process, folder):
        self.process, self.folder, self.job = process, folder, folder / "mine.toml"
        self.lines, self.errors = Queue(), Queue()
        self.readers = [
            Thread(target=self.read, args=pair)
            for pair in ((process.stdout, self.lines), (process.stderr, self.errors))
        ]
        for reader in self.readers:
            reader.start()

    @staticmethod
    def read(stream, lines):
        with stream:
            for line in stream:
                lines.put(line.rstrip("\n"))

    def until(self, start):
        """What is printed up to a line that begins so, that with it."""
        found = []
        while not found or not found[-1].startswith(start):
            found.append(self.lines.get(timeout=SECONDS))
        return found

    def wrong(self):
        return self.errors.get(timeout=SECONDS)

    def save(self, *pair):
        text = self.job.read_text(encoding="utf-8")
        assert pair[0] in text
        self.job.write_text(text.replace(*pair), encoding="utf-8")

    def end(self, number=signal.SIGINT):
        self.process.send_signal(number)
        return self.process.wait(SECONDS)

    @property
    def silent(self):
        return self.lines.empty() and self.errors.empty()


@contextmanager
def watching(folder, text=GASKET, *flags):
    (folder / "mine.toml").write_text(text, encoding="utf-8")
    process = subprocess.Popen(
        [sys.executable, "-m", "cli.main", "watch", "mine.toml", *flags, "--no-browser"],
        cwd=folder, env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8",
    )  # fmt: skip
    one = Watching(process, folder)
    try:
        yield one
    finally:
        process.kill()
        process.wait()
        for reader in one.readers:
            reader.join()


@pytest.fixture(scope="module")
def shared(tmp_path_factory):
    with watching(tmp_path_factory.mktemp("shared")) as one:
        one.first = one.until("made")
        yield one


@pytest.fixture
def watch(shared):
    """The one watch, its file as it was at first."""
    if shared.job.read_text(encoding="utf-8") != GASKET:
        shared.job.write_text(GASKET, encoding="utf-8")
        shared.until("made")
    assert shared.silent
    return shared


def same(one, other):
    """Names of what is not the same, byte for byte, in two folders."""
    names = {p.relative_to(f).as_posix() for f in (one, other) for p in f.rglob("*") if p.is_file()}
    _, differ, lacking = filecmp.cmpfiles(one, other, names, shallow=False)
    return differ + lacking


# what is said and made ------------------------------------------------------------------------------------------------


def test_it_says_where_the_page_is_how_the_job_stands_and_what_was_made(shared):
    address, count, *bad, made = shared.first
    assert re.fullmatch(r"http://127\.0\.0\.1:\d+/sheet/index\.html\?token=[A-Za-z0-9_-]{43,}", address)
    assert count == f"9 findings, {len(bad)} to look at"
    assert {line.split()[0] for line in bad} == {"caution"}
    assert made == "made: head-gasket, job sheet"


def test_a_save_is_told_and_made(watch, tmp_path, run):
    watch.save(THICK, 'thickness = "1.3 mm"')
    first, *_, made = watch.until("made")
    assert first == "gasket.thickness  0.800 mm -> 1.300 mm"
    assert made == "made: head-gasket, job sheet"
    assert run("make", watch.job, "--into", tmp_path / "cold").returncode in (0, 1)
    assert same(watch.folder / "outputs" / "mine", tmp_path / "cold") == []


def test_what_changes_nothing_is_made_into_the_record_alone(watch):
    watch.save(THICK, f"{THICK}  # measured")
    assert watch.until("made") == ["made: job.toml"]
    assert "# measured" in (watch.folder / "outputs" / "mine" / "job.toml").read_text()
    os.utime(watch.job)
    watch.job.write_bytes(watch.job.read_bytes())
    time.sleep(1)
    assert watch.silent


def test_every_fault_is_told_in_a_line_and_the_next_good_save_goes_on(watch):
    into = watch.folder / "outputs" / "mine"
    before = {p: p.read_bytes() for p in into.rglob("*") if p.is_file()}
    watch.save(THICK, 'thickness = "1,3 mm"\nthicknes = "1 mm"')
    told = sorted([watch.wrong(), watch.wrong()])
    assert told[0].startswith("topend: gasket.thicknes (line ")
    assert told[1].startswith("topend: gasket.thickness (line ")
    watch.job.write_text("[gasket\n")
    assert "is not TOML" in watch.wrong()
    watch.job.unlink()
    assert "can't be read" in watch.wrong()
    assert watch.silent
    assert {p: p.read_bytes() for p in into.rglob("*") if p.is_file()} == before
    watch.job.write_text(GASKET.replace(THICK, 'thickness = "1.4 mm"'))
    assert watch.until("made")[0] == "gasket.thickness  0.800 mm -> 1.400 mm"


def test_a_part_that_can_t_be_made_is_told_and_leaves_the_folder(watch):
    """No part asked for; then a target that another hand has filled."""
    watch.job.write_text('[engine]\nbore = "57 mm"\n')
    assert "the job asks for no part" in watch.wrong()
    into = watch.folder / "outputs" / "mine"
    watch.until("and ")  # the sizes that went
    assert (into / "index.html").exists()
    (into / "manifest.json").rename(watch.folder / "manifest.json")
    watch.job.write_text(GASKET)
    assert "no manifest.json of topend" in watch.wrong()
    (watch.folder / "manifest.json").rename(into / "manifest.json")
    watch.save(THICK, f"{THICK} ")
    watch.until("made")


def test_a_file_that_was_edited_by_hand_is_kept(watch):
    sheet = watch.folder / "outputs" / "mine" / "parts" / "head-gasket.svg"
    mine = sheet.read_text().replace("<svg", "<!-- mine --><svg", 1)
    sheet.write_text(mine)
    watch.save(THICK, 'thickness = "1.1 mm"')
    watch.until("made")
    assert (
        watch.wrong()
        == "topend: parts/head-gasket.svg was changed since topend wrote it: kept as parts/head-gasket.kept-1.svg"
    )
    assert sheet.with_name("head-gasket.kept-1.svg").read_text() == mine


def test_it_waits_for_another_run_and_goes_on_checking(watch):
    lock = beside(watch.folder / "outputs" / "mine", "lock")
    handle = take(lock, lambda: None)
    try:
        watch.save(THICK, 'thickness = "1.6 mm"')
        assert watch.wrong() == "topend: another topend is at work on mine: this one waits until it is done"
        watch.until("gasket.thickness  0.800 mm -> 1.600 mm")
        watch.save('"1.6 mm"', '"1.7 mm"')
        watch.until("gasket.thickness  1.600 mm -> 1.700 mm")
        assert not list(watch.folder.glob("outputs/.mine.topend-[0-9]*"))
    finally:
        let_go(lock, handle)
    watch.until("made")  # what was at work
    watch.until("made")
    assert '"1.7 mm"' in (watch.folder / "outputs" / "mine" / "job.toml").read_text()


def test_a_drawing_beside_the_file_counts(watch):
    import ezdxf

    def draw(size):
        drawing = ezdxf.new()
        drawing.units = 4
        drawing.modelspace().add_lwpolyline([(-size, -size), (size, -size), (size, size), (-size, size)], close=True)
        drawing.saveas(watch.folder / "deck.dxf")

    draw(60)
    watch.save("[gasket]", '[barrel]\nmaterial = "EN-GJL-250"\noutline = { dxf = "deck.dxf", layer = "0" }\n\n[gasket]')
    watch.until("made")
    draw(61)
    assert watch.until("made")[-1].startswith("made: head-gasket")
    assert filecmp.cmp(watch.folder / "deck.dxf", watch.folder / "outputs" / "mine" / "deck.dxf", shallow=False)


def test_only_and_into_as_of_make(tmp_path, small, run):
    with watching(tmp_path, small, "--only", "blanking-plug", "--into", "here") as one:
        assert one.until("made")[-1].startswith("made: blanking-plug")
        assert one.end() == 0
    assert run("make", "mine.toml", "--only", "blanking-plug", "--into", "cold", cwd=tmp_path).returncode == 0
    assert same(tmp_path / "here", tmp_path / "cold") == []
    with watching(tmp_path, small, "--only", "blanking-plug", "--into", "here") as again:
        files = len([p for p in (tmp_path / "here").rglob("*") if p.is_file()]) - 1
        assert again.until("made")[-1] == f"made: nothing, all {files} files stand"


EDITS = [
    ('shank = "6.2 mm"', 'shank = "6.1 mm"'),
    ('title = "Orchard', 'title = "My orchard'),
    ('free_gap = "8.58 mm"', 'free_gap = "8.50 mm"'),
    ('form = "contoured"', 'form = "pin"'),
    ('length = "12 mm"', 'length = "11 mm"'),
]


def test_after_many_saves_the_folder_is_that_of_a_cold_make(tmp_path, demo, run):
    with watching(tmp_path, demo) as one:
        one.until("made")
        for pair in EDITS:
            one.save(*pair)
            one.until("made")
        assert one.end() == 0
    assert run("make", "mine.toml", "--into", "cold", cwd=tmp_path).returncode in (0, 1)
    assert same(tmp_path / "outputs" / "mine", tmp_path / "cold") == []


# troubles -------------------------------------------------------------------------------------------------------------


def test_a_kernel_that_dies_is_told_and_another_takes_its_place(watch):
    (kernel,) = below(watch.process.pid)
    os.kill(kernel, signal.SIGKILL)
    watch.save(THICK, 'thickness = "0.9 mm"')
    assert "the kernel's process ended" in watch.wrong()
    watch.until("and ")
    watch.job.write_bytes(watch.job.read_bytes())  # the same once more
    assert watch.until("made")[-1].startswith("made: head-gasket")
    assert below(watch.process.pid) != [kernel]


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (("none.toml",), 2, "none.toml can't be read: No such file or directory"),
        (("mine.toml", "--into", "there"), 2, "holds other files and no manifest.json of topend"),
        (("mine.toml", "--port", "70000"), 2, "--port"),
        (("mine.toml", "--threads", "true"), 2, "--threads"),
    ],
)
def test_what_can_t_be_is_one_sentence(arguments, code, says, tmp_path, run):
    (tmp_path / "mine.toml").write_text(GASKET)
    (tmp_path / "there").mkdir()
    (tmp_path / "there" / "mine").write_text("mine")
    done = run("watch", *arguments, "--no-browser", cwd=tmp_path)
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (code, "", 1), done.stderr
    assert says in done.stderr
    assert sorted(p.name for p in tmp_path.iterdir()) == ["mine.toml", "there"]


def test_a_page_of_the_file_is_one_at_a_time(watch, run):
    done = run("ask", "mine.toml", "--no-browser", cwd=watch.folder)
    assert (done.returncode, done.stdout) == (2, "")
    assert "is open in another topend ask or watch: use that page" in done.stderr


# its end --------------------------------------------------------------------------------------------------------------


@linux
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
@pytest.mark.parametrize("amid", [False, True], ids=["waiting", "making"])
def test_it_ends_at_once_and_leaves_nothing(number, amid, tmp_path, demo):
    with watching(tmp_path, demo if amid else GASKET) as one:
        if amid:
            wait_for(lambda: list(tmp_path.glob("outputs/.mine.topend-*/parts/*")))
        else:
            one.until("made")
        (kernel,) = below(one.process.pid)
        began = time.monotonic()
        assert one.end(number) == 0
        assert time.monotonic() - began < 10
        wait_for(lambda: not runs(kernel))
        assert one.errors.empty()
    left = {p.name for p in tmp_path.rglob(".*")}
    assert left == set()
    assert (tmp_path / "outputs").exists() is not amid


@linux
def test_a_killed_one_leaves_no_process_and_the_next_clears_up(tmp_path, demo):
    with watching(tmp_path, demo) as one:
        wait_for(lambda: list(tmp_path.glob("outputs/.mine.topend-*/parts/*")))
        (kernel,) = below(one.process.pid)
        one.process.kill()
        one.process.wait()
        wait_for(lambda: not runs(kernel))
    with watching(tmp_path, GASKET) as one:
        assert one.until("made")
        assert one.end() == 0
    assert sorted(p.name for p in [*tmp_path.iterdir(), *(tmp_path / "outputs").iterdir()]) == [
        "mine",
        "mine.toml",
        "outputs",
    ]


@linux
def test_no_memory_is_kept_from_make_to_make(tmp_path):
    """Both processes, after five remakes and after fifteen more; `python tests/benchmarks/watch_speed.py 100` does more."""

    def memory():
        pids = [one.process.pid, *below(one.process.pid)]
        return sum(int(Path(f"/proc/{pid}/statm").read_text().split()[1]) for pid in pids)

    with watching(tmp_path) as one:
        one.until("made")
        found = []
        for n in range(1, 21):
            one.save(re.search(r"thickness = .*", one.job.read_text())[0], f'thickness = "1.{n:02} mm"')
            one.until("made")
            found.append(memory())
    assert found[-1] < 1.1 * found[4]
