"""Where output goes: a reader who has had enough, a closed or full stdout, another code page, names that hold escape sequences."""

import json
import os
import signal
import subprocess
import sys
import time
from io import StringIO
from pathlib import Path

import pytest

from cli.streams import PLAIN, Held, written
from tests.conftest import JOBS, ROOT, topend

FULL = Path("/dev/full")
full = pytest.mark.skipif(not FULL.exists(), reason="no /dev/full here")
VERBS = [["check", "JOB"], ["check", "JOB", "--json"], ["explain", "JOB", "gasket.area"], ["schema"], ["--help"], ["check", "--help"], ["--version"],
         ["compare", "JOB", "--vary", "gasket.thickness=0.8mm,1.2mm"]]  # fmt: skip


@pytest.fixture
def shell():
    """Run the command line by a shell, `topend` and `JOB` filled in; its exit code is that of the command by itself."""

    def run(line, job=JOBS / "gasket.toml", **env):
        line = line.replace("topend", f"{sys.executable} -m cli.main").replace("JOB", str(job))
        return subprocess.run(
            ["bash", "-o", "pipefail", "-c", line], cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT), **env},
            capture_output=True, check=False,
        )  # fmt: skip

    return run


@pytest.fixture(scope="module")
def stops(tmp_path_factory, demo):
    """A job that stops."""
    path = tmp_path_factory.mktemp("stops") / "job.toml"
    path.write_text(demo.swap('deck_depth = "32 mm"', 'deck_depth = "24 mm"'), encoding="utf-8")
    return path


# readers --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("reader", ["head -1", "head -c 1", "true", "sed q"])
def test_a_reader_who_has_had_enough_changes_no_exit_code(shell, stops, demo, tmp_path, reader):
    passes = tmp_path / "job.toml"
    passes.write_text(demo, encoding="utf-8")
    for job, code in ((passes, 0), (stops, 1)):
        found = shell(f"topend check JOB | {reader}", job)
        assert (found.returncode, found.stderr) == (code, b"")


@pytest.mark.parametrize("verb", VERBS, ids=" ".join)
def test_a_closed_stdout_ends_in_a_sentence(shell, verb):
    found = shell(f"topend {' '.join(verb)} >&-")
    assert found.returncode == 3
    assert found.stderr == b"topend: what there is to say could not be printed on stdout: it is closed\n"


@full
@pytest.mark.parametrize("verb", VERBS, ids=" ".join)
def test_a_full_stdout_ends_in_a_sentence(shell, verb):
    found = shell(f"topend {' '.join(verb)} > /dev/full")
    assert found.returncode == 3
    assert found.stderr == b"topend: what there is to say could not be printed on stdout: No space left on device\n"


@full
@pytest.mark.parametrize("to", ["2>&-", "2>/dev/full"])
def test_a_stderr_that_takes_nothing_leaves_the_exit_code(shell, tmp_path, to):
    found = shell(f"topend check JOB {to}", tmp_path / "nowhere.toml")
    assert (found.returncode, found.stdout, found.stderr) == (2, b"", b"")


def test_a_wrong_job_is_told_though_stdout_is_closed(shell, tmp_path):
    found = shell("topend check JOB >&-", tmp_path / "nowhere.toml")
    assert found.returncode == 2
    assert found.stderr.count(b"\n") == 1
    assert b"can't be read" in found.stderr


def test_a_make_without_any_stream_makes(shell, tmp_path):
    """No file of the folder, nor the kernel's pipes, gets the number of a stream that is closed."""
    job = tmp_path / "job.toml"
    job.write_text(
        '[engine]\nbore = "57.20 mm"\n[plug]\nhole = "8.50 mm"\nfit = "bonded"\nlength = "12 mm"\nbond_clearance = "0.04 mm"\n'
    )
    closed, usual = (tmp_path / name for name in ("closed", "usual"))
    assert shell(f"topend make JOB --into {closed} <&- >&- 2>&-", job).returncode == 3
    assert shell(f"topend make JOB --into {usual}", job).returncode == 0
    names = sorted(p.relative_to(usual) for p in usual.rglob("*"))
    assert names == sorted(p.relative_to(closed) for p in closed.rglob("*"))
    assert all((closed / n).read_bytes() == (usual / n).read_bytes() for n in names if (usual / n).is_file())


def test_no_file_gets_the_number_of_a_closed_stream(tmp_path):
    """What the kernel prints by itself would go into it."""
    program = (
        f"from cli.streams import settle; settle(); f = open({str(tmp_path / 'f')!r}, 'w'); f.write(str(f.fileno()))"
    )
    line = f'{sys.executable} -c "{program}" <&- >&- 2>&-'
    subprocess.run(["bash", "-c", line], cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, check=True)
    assert int((tmp_path / "f").read_text()) > 2


def test_what_cannot_be_written_is_told_and_goes_nowhere():
    assert written("", None) == ""
    assert written("text", None) == "it is closed"
    out = StringIO()
    assert written("text", out) == ""
    assert out.getvalue() == "text"
    assert not Held(None).isatty()


# code pages -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("page", ["cp437", "cp850", "cp1252", "ascii", "latin-1", "utf-8", "utf-16", "ascii:strict"])
def test_a_console_in_another_code_page(shell, page, stops):
    """Text in its letters, a sign that it lacks written plainly; JSON is the same whatever the page."""
    name = page.partition(":")[0]
    usual, found = (shell("topend check JOB", stops, **env) for env in ({}, {"PYTHONIOENCODING": page}))
    assert (found.returncode, found.stderr) == (usual.returncode, b"")
    text, wanted = found.stdout.decode(name), usual.stdout.decode("utf-8")
    for sign, plain in PLAIN.items():
        if sign.encode(name, "replace").decode(name) != sign:
            wanted = wanted.replace(sign, plain)
    assert text == wanted
    assert ("±" in text) == (name != "ascii")
    usual, found = (shell("topend check JOB --json", stops, **env) for env in ({}, {"PYTHONIOENCODING": page}))
    assert json.loads(found.stdout.decode(name)) == json.loads(usual.stdout.decode("utf-8"))


def test_a_title_that_the_page_has_no_letters_for(shell, tmp_path):
    job = tmp_path / "job.toml"
    job.write_text('[job]\ntitle = "Kühlrippe Жл"\n[engine]\nbore = "57.2 mm"\n', encoding="utf-8")
    assert shell("topend check JOB", job, PYTHONIOENCODING="cp437").stdout.decode("cp437").startswith("Kühlrippe ??\n")
    told = json.loads(shell("topend check JOB --json", job, PYTHONIOENCODING="cp437").stdout.decode("cp437"))
    assert told["sizes"]["job.engine.bore"]["value"] == 57.2


def test_a_pipe_is_utf_8_in_a_locale_that_is_not(shell, stops):
    usual, found = (
        shell("topend check JOB", stops, **env)
        for env in ({}, {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"})
    )
    assert found.stdout == usual.stdout


# names that hold escape sequences ---------------------------------------------------------------------------------------

RED = "a\x1b[31mred\x1b[0m\x9b31m\x07"
SHOWN = r"a\x1b[31mred\x1b[0m\x9b31m\x07"


@pytest.fixture
def red(tmp_path):
    """A job file of a name that would colour a terminal."""
    (tmp_path / f"{RED}.toml").write_bytes((JOBS / "gasket.toml").read_bytes())
    return tmp_path


@pytest.mark.parametrize("verb", [
    ["check", f"{RED}-not-there.toml"], ["new", f"{RED}2.toml"], ["new", f"{RED}.toml"], ["compare", f"{RED}.toml", "other.toml"], ["compare", f"{RED}.toml"],
    ["compare", f"{RED}.toml", "other.toml", "--csv", f"{RED}.csv"], ["compare", "other.toml", "--vary", f"gasket.thickness=1 mm,{RED}"], ["explain", "other.toml", RED],
    ["make", f"{RED}.toml", "--into", f"{RED}.toml"], ["make", "other.toml", "--only", RED], ["check", "other.toml", f"--{RED}"], [RED],
], ids=lambda verb: verb[0])  # fmt: skip
def test_escape_sequences_in_names_are_shown(red, verb):
    """Written as in a program, on stdout and stderr."""
    text = (red / f"{RED}.toml").read_text(encoding="utf-8")
    (red / "other.toml").write_text(f"# other\n{text.replace('1.2 mm', '1.3 mm')}", encoding="utf-8")
    found = topend(*verb, cwd=red)
    said = found.stdout + found.stderr
    assert not {c for c in said if not c.isprintable()} - {"\n"}
    assert r"\x1b[31mred" in said
    assert "in a way it should not" not in said


def test_a_made_folder_of_such_a_name_is_shown_and_its_json_is_escaped(red):
    made = topend("make", f"{RED}.toml", "--into", f"{RED}-o", cwd=red)
    assert made.returncode in (0, 1)
    assert made.stdout.startswith(f"{SHOWN}-o: written")
    (red / "other.toml").write_bytes((JOBS / "lists.toml").read_bytes())
    told = topend("compare", f"{RED}.toml", "other.toml", "--json", cwd=red).stdout
    assert not {c for c in told if not c.isprintable()} - {"\n"}
    assert any(case["name"] == f"{RED}.toml" for case in json.loads(told)["cases"])


# told to stop -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT])
@pytest.mark.parametrize("moment", ["at once", "while it writes"])
def test_told_to_stop_nothing_is_left(tmp_path, demo, number, moment):
    """By the system, by a terminal that is closed (twice, as a shell does), from the keyboard."""
    (tmp_path / "job.toml").write_text(demo, encoding="utf-8")
    (tmp_path / "tmp").mkdir()
    env = {**os.environ, "PYTHONPATH": str(ROOT), "TMPDIR": str(tmp_path / "tmp")}
    command = [sys.executable, "-m", "cli.main", "make", "job.toml", "--into", "o"]
    run = subprocess.Popen(command, cwd=tmp_path, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    begun = (
        (lambda: list(tmp_path.glob(".o.topend-*/parts/*")))
        if moment == "while it writes"
        else (lambda: list(tmp_path.glob(".o.topend-lock")))
    )
    end = time.monotonic() + 60
    while not begun():
        assert time.monotonic() < end
        time.sleep(0.01)
    run.send_signal(number)
    run.send_signal(number)
    out, err = run.communicate(timeout=60)
    assert (run.returncode, out, err) == (128 + number, b"", b"topend: stopped: nothing was changed\n")
    assert sorted(p.name for p in tmp_path.iterdir()) == ["job.toml", "tmp"]
    assert list((tmp_path / "tmp").iterdir()) == []


def test_a_signal_that_was_set_to_be_ignored_stays_so(tmp_path):
    """As `nohup` does it."""
    (tmp_path / "job.toml").write_bytes((JOBS / "gasket.toml").read_bytes())
    line = f"trap '' HUP; exec {sys.executable} -m cli.main make job.toml --into o"
    run = subprocess.Popen(
        ["bash", "-c", line],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    time.sleep(1)
    run.send_signal(signal.SIGHUP)
    assert run.communicate(timeout=120)[1] == b""
    assert run.returncode in (0, 1)
    assert (tmp_path / "o" / "manifest.json").exists()


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT])
def test_told_to_stop_when_all_is_done_changes_no_exit_code(number):
    program = (
        "import os, sys\n"
        "from cli.main import run\n"
        "end = os._exit\n"
        f"os._exit = lambda code: (os.kill(os.getpid(), {int(number)}), end(code))\n"
        "sys.argv = ['topend', '--version']\n"
        "run()\n"
    )
    found = subprocess.run([sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=False)
    assert (found.returncode, found.stderr) == (0, "")
    assert found.stdout.startswith("topend ")
