"""The job file described: the template of `topend new`, the schema, and that both agree with what is read."""

import json
import tomllib

import pytest

from cli.main import app
from cli.say import guarded
from parts.job import TABLES, JobError, load
from parts.job.examples import demo_text
from parts.job.schema import job_schema, template


def keys(model_or_table, path=()):
    for key, value in model_or_table.items():
        if isinstance(value, dict):
            yield from keys(value, (*path, key))
        else:
            yield (*path, key)


def filled_in():
    """The template with every # before a key or a table taken off."""
    lines = [
        line.removeprefix("# ") if line.startswith("# [") or " = " in line.partition("  #")[0] else line
        for line in template().splitlines()
    ]
    return "\n".join(lines)


def test_the_template_with_every_key_taken_is_a_job():
    text = filled_in().replace('\nhole = "8.50 mm"', "", 1)  # a plug wants its passage or its hole, not both
    start = text.index("[[barrel.passages]]")
    passage, rest = text[start:].split("\n\n", 1)
    others = ("slot", "rectangle", "corner", "turned", "points", "lobes", "dxf", "layer", "dxf_units", "at_holes")
    kept = [line for line in passage.splitlines() if line.split(" = ")[0] not in others]  # one form of a passage
    text = text[:start] + "\n".join(kept) + "\n\n" + rest
    for other in ('wanted_squish = "1.2 mm"', "wanted_ratio = 6.5"):  # and a gasket its thickness or what it is to give
        text = text.replace(other, "", 1)
    job = load(text)
    assert all(getattr(job, name) is not None for name in TABLES)


def test_the_template_has_every_key_of_the_worked_job():
    known = set(keys(tomllib.loads(filled_in())))
    for path in keys(tomllib.loads(demo_text())):
        assert path in known or path[:2] in {p[:2] for p in known}, path


def test_new_writes_once_and_never_over(tmp_path, capsys):
    file = tmp_path / "mine.toml"
    assert guarded(app, ["new", str(file), "--from", "demo"]) == 0
    assert file.read_text(encoding="utf-8") == demo_text()
    assert guarded(app, ["new", str(file)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert file.read_text(encoding="utf-8") == demo_text()


def test_new_into_a_missing_folder_is_one_sentence(tmp_path, capsys):
    assert guarded(app, ["new", str(tmp_path / "nowhere" / "x.toml")]) == 3
    assert "could not be written" in capsys.readouterr().err


def test_the_schema_knows_every_table_and_refuses_others(capsys):
    assert guarded(app, ["schema"]) == 0
    schema = json.loads(capsys.readouterr().out)
    assert schema == job_schema()
    assert set(schema["properties"]) == {*TABLES, "made"}
    assert schema["additionalProperties"] is False
    assert schema["$defs"]["Engine"]["properties"]["bore"]["type"] == "string"
    assert "bore" in schema["$defs"]["Engine"]["required"]


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("stud.projection", ["58.100 mm", "gasket + head + washer + nut + 2 * pitch", "job.gasket.thickness", "46 mm"]),
        ("insert.drill_depth", ["21.000 mm", "ASME B18.29"]),
        ("job.stud.friction", ["0.1400", "given"]),
        ("mandrel.profile", ["86 points", "26.2477"]),
        ("ring.closed_gap", ["0.200 mm", "± 0.031 mm"]),  # pi times the 0.01 mm that the turner holds the blank to
    ],
)
def test_explain_says_how_a_size_comes_about(name, told, tmp_path, capsys):
    file = tmp_path / "job.toml"
    file.write_text(demo_text(), encoding="utf-8")
    assert guarded(app, ["explain", str(file), name]) == 0
    out = capsys.readouterr().out
    assert [t for t in told if t not in out] == []


def test_explain_of_every_size_says_something(tmp_path, capsys):
    from parts.sizing import size

    file = tmp_path / "job.toml"
    file.write_text(demo_text(), encoding="utf-8")
    for name in list(size(load(demo_text())))[::17]:
        assert guarded(app, ["explain", str(file), name]) == 0
        assert "source" in capsys.readouterr().out


def test_explain_of_an_unknown_name_offers_the_nearest(tmp_path, capsys):
    file = tmp_path / "job.toml"
    file.write_text(demo_text(), encoding="utf-8")
    assert guarded(app, ["explain", str(file), "stud.projektion"]) == 2
    assert "did you mean stud.projection" in capsys.readouterr().err


def test_explain_of_a_size_left_out_says_what_it_needs(tmp_path, capsys):
    file = tmp_path / "job.toml"
    file.write_text('[engine]\nbore = "57.20 mm"\n', encoding="utf-8")
    assert guarded(app, ["explain", str(file), "compression.swept_volume"]) == 2
    assert "give engine.stroke (stroke)" in capsys.readouterr().err


def test_a_job_of_no_part_can_be_checked_but_not_made(tmp_path, capsys):
    file = tmp_path / "job.toml"
    file.write_text('[engine]\nbore = "57.20 mm"\n', encoding="utf-8")
    assert guarded(app, ["check", str(file)]) == 0
    assert guarded(app, ["make", str(file), "--into", str(tmp_path / "out")]) == 2
    assert "asks for no part" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_the_worked_job_reads_without_a_fault():
    try:
        load(demo_text())
    except JobError as error:  # shown in full, not as a repr
        pytest.fail(str(error))
