"""The verb compare: tables that can be read, exit codes, the file for a spreadsheet, wrong flags in one sentence."""

import csv
import json
import re
import subprocess
from itertools import pairwise

import pytest

from cli.main import app
from cli.say import guarded
from parts.job.examples import demo_text
from tests.conftest import ROOT, topend


@pytest.fixture
def run(monkeypatch, capsys):
    """Run the command line in this process."""

    def here(*arguments, cwd=ROOT, **env):
        monkeypatch.chdir(cwd)
        for name, value in env.items():
            monkeypatch.setenv(name, value)
        return subprocess.CompletedProcess(arguments, guarded(app, [str(a) for a in arguments]), *capsys.readouterr())

    return here


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(demo_text(), encoding="utf-8")
    return path


@pytest.fixture
def other(tmp_path, demo):
    path = tmp_path / "other.toml"
    path.write_text(demo.swap('thickness = "1.20 mm"', 'thickness = "0.80 mm"'), encoding="utf-8")
    return path


def cells(out, label):
    """Cells of a row of the table."""
    line = next(line for line in out.splitlines() if re.match(rf"  {re.escape(label)}(,| |$)", line))
    return re.split(r"\s{2,}", line.strip())[1:]


def test_a_sweep_prints_a_column_a_variant(run, job):
    told = run("compare", job, "--vary", "gasket.thickness=0.8..2.0mm/0.2", COLUMNS="120")
    assert (told.returncode, told.stderr) == (0, "")
    assert cells(told.stdout, "gasket.thickness") == [
        "0.8 mm",
        "1.0 mm",
        "1.2 mm *",
        "1.4 mm",
        "1.6 mm",
        "1.8 mm",
        "2.0 mm",
    ]
    assert cells(told.stdout, "stops") == ["0"] * 7
    squish = [float(cell) for cell in cells(told.stdout, "compression.squish, mm")]
    assert squish == pytest.approx([0.68, 0.88, 1.08, 1.28, 1.48, 1.68, 1.88])
    assert "compression.squish: caution 0.8 mm; ok 1.0 mm to 2.0 mm" in told.stdout
    assert "--contact" in told.stdout
    assert max(map(len, told.stdout.split("Findings that change")[0].splitlines())) <= 120


def test_what_is_best_stands_at_the_end(run, job):
    told = run("compare", job, "--vary", "stud.preload_share=0.2..0.7/0.05")
    assert told.returncode == 0
    assert re.search(r"^Fewest stops and cautions \(0 and \d+\): 0\.37 as it stands$", told.stdout, re.MULTILINE)


def test_a_sweep_where_every_variant_stops_exits_1(run, job):
    assert run("compare", job, "--vary", "stud.preload_share=0.37..0.67/0.15").returncode == 0
    assert run("compare", job, "--vary", "stud.preload_share=0.65..0.70/0.05").returncode == 1


def test_files_exit_1_where_one_stops(run, job, other, tmp_path, demo):
    bad = tmp_path / "bad.toml"
    bad.write_text(demo.swap("preload_share = 0.37", "preload_share = 0.70"), encoding="utf-8")
    assert run("compare", job, other).returncode == 0
    assert run("compare", job, bad).returncode == 1
    assert run("compare", bad, job, other).returncode == 1


def test_two_files_with_their_difference(run, job, other):
    told = run("compare", job.name, other.name, cwd=job.parent, COLUMNS="140")
    assert (told.returncode, told.stderr) == (0, "")
    assert cells(told.stdout, "gasket.thickness") == ["1.20 mm", "0.80 mm"]
    assert cells(told.stdout, "stud.length, mm") == ["73.475", "73.075", "-0.400"]
    assert cells(told.stdout, "compression.squish, mm") == ["1.080", "0.680", "-0.400"]
    assert "compression.squish: ok job.toml; caution other.toml" in told.stdout
    assert "ring.outside_diameter" not in told.stdout  # the same in both


def test_three_files_have_no_difference(run, job, other, tmp_path):
    third = tmp_path / "third.toml"
    third.write_text(job.read_text(encoding="utf-8"), encoding="utf-8")
    three = run("compare", job, other, third)
    assert three.returncode == 0
    assert "difference" not in three.stdout
    assert cells(three.stdout, "stud.length, mm") == ["73.475", "73.075", "73.475"]


def test_inch_jobs_print_in_inches(run, tmp_path, demo):
    path = tmp_path / "inch.toml"
    path.write_text(demo.swap('print_units = "metric"', 'print_units = "inch"'), encoding="utf-8")
    told = run("compare", path, "--vary", "gasket.thickness=0.04..0.06in/0.01", COLUMNS="120")
    lengths = [float(cell) for cell in cells(told.stdout, "stud.length, in")]
    assert [b - a for a, b in pairwise(lengths[1:])] == pytest.approx([0.01, 0.01], abs=1e-9)  # the gasket's own steps


@pytest.mark.parametrize("columns", ["80", "120", "200"])
def test_a_thousand_variants_are_a_short_table(run, job, columns):
    varied = ("--vary", "gasket.thickness=0.8..1.7mm/0.1", "--vary", "ring.slit=0.2..0.65mm/0.05")
    told = run("compare", job, *varied, COLUMNS=columns)
    assert told.returncode == 0
    table = told.stdout.split("Findings that change")[0].splitlines()
    assert len(table) < 40
    assert max(map(len, table)) <= int(columns)
    assert " of 100:" in told.stdout


def test_the_csv_holds_all_and_is_never_overwritten(run, job, tmp_path):
    path = tmp_path / "sweep.csv"
    varied = ("--vary", "gasket.thickness=0.8..1.7mm/0.1", "--vary", "ring.slit=0.2..0.65mm/0.05", "--csv", path)
    assert run("compare", job, *varied).returncode == 0
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == 100
    assert {"gasket.thickness", "ring.slit", "verdict", "stops", "cautions", "compression.squish [mm]"} <= set(rows[0])
    assert [row["as it stands"] for row in rows].count("yes") == 1
    before = path.read_bytes()
    again = run("compare", job, *varied)
    assert (again.returncode, path.read_bytes()) == (2, before)
    assert "is not overwritten" in again.stderr
    assert run("compare", job, *varied[:-1], tmp_path / "none" / "x.csv").returncode == 3


def test_json_is_one_object(run, job, other):
    told = json.loads(run("compare", job, "--vary", "ring.slit=0.2..0.3mm/0.1", "--json").stdout)
    assert [case["name"] for case in told["cases"]] == ["0.50 mm", "0.2 mm", "0.3 mm"]
    files = json.loads(run("compare", job, other, "--json").stdout)
    assert files["written"] == {"gasket.thickness": ["1.20 mm", "0.80 mm"]}
    wrong = run("compare", job, "--vary", "ring.slitt=1..2mm/1", "--json")
    assert wrong.returncode == 2
    assert json.loads(wrong.stdout)["errors"][0]["key"] == "--vary"


def test_sizes_can_be_picked(run, job):
    told = run("compare", job, "--vary", "ring.slit=0.2..0.3mm/0.1", "--show", "mandrel.bar*", "--show", "ring.hot_gap")
    assert "mandrel.bar_width" in told.stdout
    assert "ring.hot_gap" in told.stdout
    assert "mandrel.open_gap" not in told.stdout


def test_contact_is_solved_on_wish(run, job):
    told = run("compare", job, "--vary", "mandrel.form=contoured,round", "--contact", COLUMNS="120")
    least = [float(cell) for cell in cells(told.stdout, "ring.pressure_ratio_least")[:2]]
    assert least[0] == pytest.approx(1.0, abs=0.01)
    assert least[1] < 0.2


def test_wrong_files_are_named(run, job, tmp_path, demo):
    bad = tmp_path / "bad.toml"
    bad.write_text(
        demo.swap('bore = "57.20 mm"', 'bore = "57,20 mm"', 'skim = "0.12 mm"', 'skimm = "0.12 mm"'), encoding="utf-8"
    )
    told = run("compare", job, bad)
    assert (told.returncode, told.stdout) == (2, "")
    assert [line.split(":")[1].strip() for line in told.stderr.splitlines()] == [str(bad)] * 2
    assert "engine.bore (line 11)" in told.stderr


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ([], "Missing argument"),
        (["JOB"], "name a second job file, or a key to --vary"),
        (["JOB", "JOB", "--vary", "ring.slit=0.2..0.3mm/0.1"], "takes one job file, not 2"),
        (["JOB", "JOB"], "is named twice"),
        (["JOB", "parts/job/examples/demo.toml", "--contact"], "--contact"),
        (["JOB", "--vary", "ring.slit"], "wants KEY="),
        (["JOB", "--vary", "ring.slit=0.2..0.3mm/0.1", "--show", "ring.colour"], "no size is called 'ring.colour'"),
        (["nowhere.toml", "JOB"], "nowhere.toml can't be read"),
    ],
)
def test_wrong_use_is_one_sentence(run, job, arguments, says):
    told = run("compare", *(job if a == "JOB" else a for a in arguments))
    assert (told.returncode, told.stdout) == (2, "")
    assert says in told.stderr
    assert "Traceback" not in told.stderr


def test_what_comes_out_twice_is_the_same(job):
    runs = [
        topend("compare", job, "--vary", "stud.shank=5.8..6.4mm/0.2", PYTHONHASHSEED=seed).stdout for seed in ("1", "2")
    ]
    assert runs[0] == runs[1]
