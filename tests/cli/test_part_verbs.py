"""One part from flags alone: the same models, sizing and writers as a job file."""

import json
import shlex
import tomllib

import pytest

from cli.main import app
from cli.say import guarded
from parts.job import TABLES
from parts.register import PARTS, verbs

VERBS = verbs()


def example(verb):
    return [verb, *shlex.split(VERBS[verb].verb.example)]


@pytest.mark.parametrize("verb", VERBS)
def test_the_example_in_the_help_works(verb, tmp_path):
    table, into = VERBS[verb].table, tmp_path / "out"
    stems = {part.stem for part in PARTS.values() if part.table == table}
    assert guarded(app, [*example(verb), "--into", str(into)]) == 0
    made = {e["part"] for e in json.loads((into / "manifest.json").read_text(encoding="utf-8"))}
    assert made - {"ring-pressure"} == stems | {"job"}
    assert ("ring-pressure" in made) is ("mandrel" in (into / "job.toml").read_text(encoding="utf-8"))
    assert table in tomllib.loads((into / "job.toml").read_text(encoding="utf-8"))
    for stem in stems:
        assert (into / "parts" / f"{stem}.step").stat().st_size > 1000


def test_a_stud_has_true_threads_where_they_are_asked_for(tmp_path):
    """True flanks are splines; plain threads have none."""
    assert guarded(app, [*example("stud"), "--threads", "detailed", "--into", str(tmp_path / "out")]) == 0
    assert "B_SPLINE_SURFACE" in (tmp_path / "out" / "parts" / "stepped-stud.step").read_text(encoding="utf-8")


def test_a_thread_too_short_to_be_true_writes_nothing(tmp_path, capsys):
    short = [*example("stud"), "--nut-end-length", "4 mm", "--threads", "detailed", "--into", str(tmp_path / "out")]
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
    assert guarded(app, [*example("ring"), flag, text, "--into", str(tmp_path / "out")]) == 2
    told = capsys.readouterr().err
    assert told.startswith(f"topend: {flag} (")
    assert told.endswith(f": {says}\n")
    assert "line" not in told


def test_a_stud_that_lacks_what_it_needs_names_the_flags(tmp_path, capsys):
    assert guarded(app, ["stud", "--tap-end", "M10", "--nut-end", "M8", "--into", str(tmp_path / "out")]) == 2
    told = capsys.readouterr().err
    assert "--head-thickness" in told
    assert "--gasket-thickness" in told


@pytest.mark.parametrize("verb", VERBS)
def test_a_verb_without_flags_says_which_is_missing_and_gives_an_example(verb, tmp_path, capsys):
    assert guarded(app, [verb, "--into", str(tmp_path / "out")]) == 2
    *missing, last = capsys.readouterr().err.splitlines()
    assert last.startswith(f"topend: for example: topend {verb} --")
    assert "--only" not in "".join(missing)
    assert not (tmp_path / "out").exists()
    needed = [k for k, field in TABLES[VERBS[verb].table].model_fields.items() if field.is_required()]
    for key in needed:
        assert any(line.startswith(f"topend: --{key.replace('_', '-')} (") for line in missing), key


def test_a_verb_that_lacks_another_table_names_its_flags(tmp_path, capsys):
    assert guarded(app, ["mandrel", "--form", "pin", "--into", str(tmp_path / "out")]) == 2
    told = capsys.readouterr().err
    assert "--engine-bore" in told
    assert "--ring-axial-width and --ring-radial-thickness" in told
    assert "[" not in told


def test_flags_can_not_smuggle_in_another_table(tmp_path, capsys):
    nasty = '8.5 mm"\n[engine]\nbore = "57 mm'
    assert (
        guarded(app, ["plug", "--hole", nasty, "--fit", "bonded", "--length", "12 mm", "--into", str(tmp_path / "o")])
        == 2
    )
    assert "plug.hole" in capsys.readouterr().err
