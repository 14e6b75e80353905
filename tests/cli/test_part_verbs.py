"""One part from flags alone: the same models, sizing and writers as a job file."""

import json
import shlex
import tomllib
from importlib import import_module

import pytest

from cli.main import app
from cli.say import guarded

STEMS = {
    "stud": {"stepped-stud"},
    "plug": {"blanking-plug"},
    "ring": {"ring-blank", "ring-split"},
    "gasket": {"head-gasket"},
    "mandrel": {"expander-mandrel"},
}


@pytest.mark.parametrize("part", STEMS)
def test_the_example_in_the_help_works(part, tmp_path):
    example = import_module(f"cli.{part}").EXAMPLE
    into = tmp_path / "out"
    assert guarded(app, [*shlex.split(example)[1:], "--into", str(into)]) == 0
    made = {e["part"] for e in json.loads((into / "manifest.json").read_text(encoding="utf-8"))}
    assert made - {"ring-pressure"} == STEMS[part] | {"job"}
    assert ("ring-pressure" in made) is (part == "mandrel")
    assert part in tomllib.loads((into / "job.toml").read_text(encoding="utf-8"))
    for stem in STEMS[part]:
        assert (into / "parts" / f"{stem}.step").stat().st_size > 1000


def test_a_stud_has_true_threads_where_they_are_asked_for(tmp_path):
    """True flanks are splines; plain threads have none."""
    example = [*shlex.split(import_module("cli.stud").EXAMPLE)[1:], "--threads", "detailed"]
    assert guarded(app, [*example, "--into", str(tmp_path / "out")]) == 0
    assert "B_SPLINE_SURFACE" in (tmp_path / "out" / "parts" / "stepped-stud.step").read_text(encoding="utf-8")


def test_a_thread_too_short_to_be_true_writes_nothing(tmp_path, capsys):
    example = shlex.split(import_module("cli.stud").EXAMPLE)[1:]
    short = [*example, "--nut-end-length", "4 mm", "--threads", "detailed", "--into", str(tmp_path / "out")]
    assert guarded(app, short) == 2
    assert "stud.nut_end" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_a_wrong_flag_value_is_told_as_in_a_job_file_by_the_name_of_the_flag(tmp_path, capsys):
    into = tmp_path / "out"
    assert guarded(app, ["plug", "--hole", "8,5 mm", "--fit", "loose", "--length", "12", "--into", str(into)]) == 2
    told = capsys.readouterr().err
    assert [line.split(": ")[1] for line in told.splitlines()] == [
        "--hole (plug.hole)",
        "--fit (plug.fit)",
        "--length (plug.length)",
    ]
    assert "decimal point" in told
    assert not into.exists()


@pytest.mark.parametrize(
    ("flag", "text", "says"),
    [
        ("--count", "three", "wants a whole number, not 'three'"),
        ("--count", "3\n[made]", "wants a whole number, not '3\\n[made]'"),
        ("--slit", "0.5 mm" + " " * 10_000, "is too long: 10006 characters"),
        ("--material", "\udcff", "is no UTF-8 text"),
        ("--print-units", "feet", "must be 'metric' or 'inch', not 'feet'"),
    ],
)
def test_a_flag_that_is_no_value_at_all_is_told_by_its_own_rule(tmp_path, capsys, flag, text, says):
    """Not as a line of a file that nobody wrote."""
    example = shlex.split(import_module("cli.ring").EXAMPLE)[1:]
    assert guarded(app, [*example, flag, text, "--into", str(tmp_path / "out")]) == 2
    told = capsys.readouterr().err
    assert told.startswith(f"topend: {flag} (")
    assert told.endswith(f": {says}\n")
    assert "line" not in told


def test_a_stud_that_lacks_what_it_needs_names_the_keys(tmp_path, capsys):
    assert guarded(app, ["stud", "--tap-end", "M10", "--nut-end", "M8", "--into", str(tmp_path / "out")]) == 2
    told = capsys.readouterr().err
    assert "head.thickness" in told
    assert "gasket.thickness" in told


def test_flags_can_not_smuggle_in_another_table(tmp_path, capsys):
    nasty = '8.5 mm"\n[engine]\nbore = "57 mm'
    assert (
        guarded(app, ["plug", "--hole", nasty, "--fit", "bonded", "--length", "12 mm", "--into", str(tmp_path / "o")])
        == 2
    )
    assert "plug.hole" in capsys.readouterr().err
