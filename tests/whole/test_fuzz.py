"""Whatever stands in a job file: sizes and right parts, or one clear sentence a fault. Never a traceback, never a hang.

Jobs are drawn from the models (see strategies.py). Here a few hundred of each kind, the same every time; by hand
(`tests/run_long jobs` and `makes`) ten thousand through `check` and five hundred through `make`, other ones each time.
"""

import contextlib
import io
import json
import os
import re
import resource
import signal
import subprocess
import sys
import time
from math import isfinite, pi

import pytest
import shapely
import trimesh
from cadquery import importers
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from cli.main import app
from cli.say import guarded
from parts.checked import check
from parts.errors import JobError
from parts.geometry import outline
from parts.geometry.edge import Edge
from parts.geometry.profile import Profile, meridian
from parts.job.examples import demo_text
from parts.job_text import LARGEST
from parts.register import PARTS, asked_for
from parts.shapes.pieces import Flat
from tests.conftest import ROOT
from tests.listed import several
from tests.strategies import hostile, jobs, made, spoilt, texts, toml_text, worked

SECONDS = 10
BYTES = 2**30
WHOLE_FILE = re.compile(
    r"is not TOML|the job file is empty|the job asks for no part|.* is not UTF-8|.* is too large|line \d+ is too long"
)
VERBS = ["json", "plain", "explain"]
NEARLY = {"near": (0.0, 0.0, 0.002, 0.01), "far": (0.04, 0.15, 0.5, None)}


def examples(count, *, always=True):
    return settings(
        max_examples=count, deadline=None, derandomize=always, database=None, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck), report_multiple_bugs=False,
    )  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("fuzz")


# what must hold, whatever was typed ---------------------------------------------------------------------------------


class TooLong(BaseException):
    """Nothing here catches it but the one handler of the command line."""


def ran(*arguments, seconds=SECONDS):
    """Run the command line in this process: exit code, what it printed, what it complained of."""

    def stop(*_):
        raise TooLong(f"{arguments} ran over {seconds} s")

    out, err = io.StringIO(), io.StringIO()
    signals = (signal.SIGPROF, signal.SIGALRM)
    before = [signal.signal(one, stop) for one in signals]
    signal.setitimer(signal.ITIMER_PROF, seconds)  # of the processor's time: a busy machine is no fault
    signal.alarm(20 * seconds)
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = guarded(app, [str(a) for a in arguments])
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.alarm(0)
        for one, old in zip(signals, before, strict=True):
            signal.signal(one, old)
    assert "in a way it should not" not in err.getvalue(), err.getvalue()
    assert "Traceback" not in out.getvalue() + err.getvalue()
    return code, out.getvalue(), err.getvalue()


def no_constant(name):
    raise AssertionError(f"{name} is no JSON")


def faults_of(file, text):
    """The faults that `check --json` tells, each looked at; none where the job was taken."""
    code, out, err = ran("check", file, "--json")
    assert err == ""
    told = json.loads(out, parse_constant=no_constant)
    assert code in (0, 1, 2)
    if code != 2:
        look_at_sizes(told, code)
        return []
    assert list(told) == ["errors"]
    assert told["errors"]
    lines = text.split("\n")
    for fault in told["errors"]:
        look_at_fault(fault, lines)
    return told["errors"]


def look_at_fault(fault, lines):
    assert list(fault) == ["key", "line", "says"]
    says, key, line = fault["says"], fault["key"], fault["line"]
    assert says
    assert len(says) < 1500
    assert not re.search(r"[\x00-\x1f\x7f-\x9f\u2028\u2029]", says + key), fault
    if not key:
        assert WHOLE_FILE.match(says), fault
        return
    assert isinstance(line, int), fault
    steps = [step.rstrip(".") for step in key.split(".")]
    shown = [lines[line - 1], repr(lines[line - 1])]
    assert any(step in one for step in steps for one in shown) or key == "made", (fault, shown)


def look_at_sizes(told, code):
    assert list(told) == ["sizes", "findings", "left_out", "unknowns"]
    for name, size in told["sizes"].items():
        numbers = [size["value"]] if not isinstance(size["value"], list) else [n for row in size["value"] for n in row]
        numbers += (size["limits"] or []) + [
            one["value"] for one in size["inputs"].values() if not isinstance(one["value"], list)
        ]
        assert all(isfinite(n) for n in numbers if not isinstance(n, str)), name  # a form or a material has a name
    assert (code == 1) == any(f["verdict"] == "stop" for f in told["findings"])
    for finding in told["findings"]:
        assert not re.search(r"\bnan\b|\binf\b|None", finding["says"]), finding


def look_at(file, text, verb="plain"):
    """Check a job file in two ways that must agree; return its faults."""
    faults = faults_of(file, text)
    if not faults and verb == "json":
        return faults
    name = "stud.projection" if verb == "explain" and not faults else None
    code, out, err = ran("explain", file, name) if name else ran("check", file)
    if faults:
        assert (code, out) == (2, "")
        wanted = [f"{f['key']} (line {f['line']}): {f['says']}" if f["key"] else f["says"] for f in faults]
        assert err.splitlines() == [f"topend: {line}" for line in wanted]
    elif not name:
        assert code in (0, 1)
        assert err == ""
        assert out
    return faults


def written(folder, data):
    file = folder / "job.toml"
    file.write_bytes(data)
    return file


# jobs through check ---------------------------------------------------------------------------------------------------


def check_right(folder, count, *, always=True):
    """Jobs that may be right; return how many were taken."""
    taken = []

    @examples(count, always=always)
    @given(texts(jobs()), st.sampled_from(VERBS))
    def each(text, verb):
        taken.append(not look_at(written(folder, text.encode()), text, verb))

    each()
    return taken


def test_jobs_that_may_be_right_are_sized_or_told_why_not(folder):
    taken = check_right(folder, 120)
    assert sum(taken) > 0.2 * len(taken)  # else what is drawn is no test of the sizing


@pytest.mark.parametrize("distance", NEARLY)
def test_jobs_with_something_wrong_are_told_what(folder, distance):
    refused = []

    @examples(120)
    @given(texts(spoilt(jobs(NEARLY[distance]))), st.sampled_from(VERBS))
    def each(text, verb):
        refused.append(bool(look_at(written(folder, text.encode()), text, verb)))

    each()
    assert sum(refused) > 0.5 * len(refused)


@pytest.mark.parametrize("job", ["plain", "lists"])
def test_sizes_as_made_whatever_they_are(folder, job):
    right = {"plain": demo_text(), "lists": toml_text(several(worked()))}[job]

    @examples(60)
    @given(made(right), st.booleans())
    def each(table, nested):
        lines = [f"{name if nested else _quoted(name)} = {_value(value)}" for name, value in table.items()]
        text = f"{right}\n[made]\n" + "\n".join(lines) + "\n"
        look_at(written(folder, text.encode()), text)

    each()


def _quoted(name):
    from tests.strategies import _quoted as quoted

    return quoted(name)


def _value(held):
    from tests.strategies import value

    return value(held)


def test_what_is_no_job_file_is_told_in_a_sentence(folder):
    @examples(250)
    @given(hostile())
    def each(data):
        file = written(folder, data)
        look_at(file, data.decode("utf-8", "replace"))

    each()


def test_ten_megabytes_are_refused_unread(folder):
    file = folder / "large.toml"
    file.write_bytes(b"# " + b"x" * 10_000_000)
    assert [f["says"] for f in faults_of(file, "")] == [f"{file} is too large: a job file has at most {LARGEST} bytes"]


@pytest.mark.long
def test_ten_thousand_jobs(folder):
    taken, started = check_right(folder, 4000, always=False), time.monotonic()
    counts = {"right": len(taken), "taken": sum(taken)}

    @examples(4000, always=False)
    @given(texts(spoilt(jobs()), {"made": made()}) | texts(spoilt(jobs())), st.sampled_from(VERBS))
    def nearly(text, verb):
        counts["nearly"] = counts.get("nearly", 0) + 1
        counts["refused"] = counts.get("refused", 0) + bool(look_at(written(folder, text.encode()), text, verb))

    @examples(2000, always=False)
    @given(hostile())
    def no_job(data):
        counts["hostile"] = counts.get("hostile", 0) + 1
        look_at(written(folder, data), data.decode("utf-8", "replace"))

    nearly()
    no_job()
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
    print(counts, f"{time.monotonic() - started:.0f} s, {most / 1e6:.0f} MB")
    assert most < BYTES


# as processes of their own --------------------------------------------------------------------------------------------

LIMITED = f"""
import resource, sys
resource.setrlimit(resource.RLIMIT_AS, ({BYTES}, {BYTES}))
resource.setrlimit(resource.RLIMIT_CPU, ({SECONDS}, {SECONDS}))
sys.argv[0] = "topend"
from cli.main import run
run()
"""


@pytest.mark.parametrize(
    "kind", ["worked", "spoilt", "noise", "nested", "long line", "no UTF-8", "many faults", "many sizes"]
)
def test_in_a_process_of_its_own_with_a_gigabyte_at_most(tmp_path, kind):
    data = {
        "worked": demo_text(),
        "spoilt": demo_text().replace("57.20 mm", "57,20 mm"),
        "noise": "\x00\x01[[[",
        "nested": "a = " + "[" * 9000,
        "long line": "a" * 90_000,
        "no UTF-8": "\udcff",
        "many faults": "[engine]\n" + "".join(f"bor{n} = 1\n" for n in range(7000)),
        "many sizes": demo_text() + "[made]\n" + "".join(f'"ring.outside_diametr{n}" = 1\n' for n in range(2500)),
    }[kind]
    file = written(tmp_path, data.encode("utf-8", "surrogateescape"))
    found = subprocess.run(
        [sys.executable, "-c", LIMITED, "check", file, "--json"], cwd=ROOT, capture_output=True, timeout=600, check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    assert found.stderr == b""
    assert found.returncode == (0 if kind == "worked" else 2)
    json.loads(found.stdout, parse_constant=no_constant)


# what is taken can be made --------------------------------------------------------------------------------------------


def turned_volume(profile):
    """Volume by Pappus: the half section's area times the way of its centroid."""
    section = shapely.Polygon([(r, z) for z, r in meridian(profile)])
    assert section.is_valid
    return 2 * pi * section.centroid.x * section.area


def flat_volume(flat):
    """Volume of a sheet: corners and the segments of its arcs, r^2 (t - sin t)/2, less its round holes."""
    sheet = flat.sheet
    corners = sum((e.x0 * e.y1 - e.x1 * e.y0) / 2 for e in outline.edges(sheet.outer))
    arcs = sum(_segment(e) for e in outline.edges(sheet.outer))
    return flat.thickness * (corners + arcs - sum(pi / 4 * h.diameter**2 for h in sheet.holes))


def _segment(edge: Edge):
    from math import atan, hypot, sin

    if not edge.bulge:
        return 0.0
    turn = 4 * atan(edge.bulge)
    radius = hypot(edge.x1 - edge.x0, edge.y1 - edge.y0) / 2 / abs(sin(turn / 2))
    return radius**2 * (turn - sin(turn)) / 2


def look_at_parts(into, text):
    """Every part that was made: one valid solid of its volume, and a closed mesh of nearly as much; their stems."""
    job, book, _ = check(text)
    for part in asked_for(job):
        shape = part.part.shape(part.book(book), part.job(job))
        (solid,) = importers.importStep(str(into / "parts" / f"{part.stem}.step")).solids().vals()
        assert solid.isValid()
        closed = (
            turned_volume(shape)
            if isinstance(shape, Profile)
            else flat_volume(shape)
            if isinstance(shape, Flat)
            else None
        )
        if closed is not None:
            assert solid.Volume() == pytest.approx(closed, rel=1e-6), part.stem
        mesh = trimesh.load(into / "parts" / f"{part.stem}.stl")
        assert mesh.is_watertight, part.stem
        assert mesh.volume == pytest.approx(solid.Volume(), rel=0.02), part.stem
    return [part.part.stem for part in asked_for(job)]


BETWEEN = """
import json, resource, subprocess, sys
code = subprocess.run(sys.argv[2:]).returncode
used = resource.getrusage(resource.RUSAGE_CHILDREN)
open(sys.argv[1], "w").write(json.dumps([code, used.ru_utime + used.ru_stime, used.ru_maxrss * 1024]))
"""  # a small process, for the account of the most memory begins with that of whoever starts one


def apart(folder, *arguments):
    """Run the command line in a process of its own: exit code, what it printed, processor's time [s], most memory [bytes]."""
    account = folder / "account.json"
    run = subprocess.run(
        [sys.executable, "-c", BETWEEN, account, sys.executable, "-m", "cli.main", *arguments], cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, encoding="utf-8", check=True,
    )  # fmt: skip
    code, seconds, held = json.loads(account.read_text())
    return code, run.stdout, run.stderr, seconds, held


def build(folder, count, *, always=True):
    """Make jobs that `check` takes; count how they ended, the processor's time of each [s] and the most it held [bytes]."""
    ends, seconds, held, made = {}, [], [], set()

    @examples(count, always=always)
    @given(texts(jobs((0.0, 0.002, 0.01, 0.04, 0.15, 0.5))).filter(taken))
    def each(text):
        file, into = written(folder, text.encode()), folder / "made"
        code, out, err, took, most = apart(folder, "make", file, "--into", into)
        ends[code] = ends.get(code, 0) + 1
        seconds.append(took)
        held.append(most)
        assert held[-1] < BYTES
        assert seconds[-1] < 3 * SECONDS
        if code == 2:
            assert out == ""
            assert all(re.fullmatch(r"topend: [\w.-]+ \(line \d+\): .+", line) for line in err.splitlines()), err
        else:
            assert code in (0, 1), err
            assert err == ""
            made.update(look_at_parts(into, text))

    each()
    return ends, seconds, held, made


def taken(text):
    try:
        job, book, _ = check(text)
    except JobError:
        return False
    wanted = asked_for(job)
    return bool(wanted) and all(n in p.book(book) for p in wanted for n in p.part.needs)


def test_what_check_takes_can_be_made(folder):
    ends, *_ = build(folder, 3)
    assert ends.get(0, 0) + ends.get(1, 0) > 0


@pytest.mark.long
def test_five_hundred_jobs_are_made(folder):
    ends, seconds, held, made = build(folder, 500, always=False)
    print(ends, f"at most {max(seconds):.1f} s of the processor and {max(held) / 1e6:.0f} MB each")
    assert made == {*PARTS}
