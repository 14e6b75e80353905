"""The command line from outside: exit codes, what is printed where, what is written and what is left alone."""

import csv
import hashlib
import json
import os
import pty
import re
import shutil
import subprocess
import sys
from math import isfinite
from pathlib import Path

import pytest

import cli.say
from cli.main import VERBS, app
from cli.say import guarded
from parts.register import PARTS
from tests.conftest import ROOT, stems_of_demo

HEAVY = {"cadquery", "OCP", "ezdxf", "scipy.optimize", "starlette", "uvicorn", "anyio"}
RING = """[job]
title = "Rings for the sprayer"
[engine]
bore = "57.20 mm"
[ring]
axial_width = "2.38 mm"
radial_thickness = "2.40 mm"
material = "ring iron, grey"
free_gap = "8.58 mm"
closed_gap = "0.20 mm"
slit = "0.50 mm"
"""


@pytest.fixture
def topend(capsys):
    """Run the command line in this process; return exit code, stdout and stderr."""

    def run(*arguments):
        code = guarded(app, [str(a) for a in arguments])
        return code, *capsys.readouterr()

    return run


@pytest.fixture
def job(tmp_path, demo):
    path = tmp_path / "sprayer.toml"
    path.write_bytes(demo.encode())
    return path


@pytest.fixture
def copy(made, tmp_path):
    """A copy of the made folder, to be made again."""
    return Path(shutil.copytree(made[1], tmp_path / "copy"))


def names(folder):
    return sorted(p.name for p in folder.iterdir())


def digests(folder):
    return {
        p.relative_to(folder).as_posix(): hashlib.sha256(p.read_bytes()).hexdigest()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }


def manifest(folder):
    return json.loads((folder / "manifest.json").read_text(encoding="utf-8"))


def parts_in(folder):
    return {e["part"] for e in manifest(folder)} - {"job", "ring-pressure"}


# demo and make --------------------------------------------------------------------------------------------------------


def test_demo_ends_with_0_and_is_quiet_in_a_pipe(made):
    run, into = made
    assert run.returncode == 0
    assert run.stderr == ""
    lines = run.stdout.splitlines()
    found = json.loads((into / "findings.json").read_text(encoding="utf-8"))
    bad = [f for f in found if f["verdict"] != "ok"]
    assert lines[0] == f"{into}: written; {len(found)} findings, {len(bad)} to look at"
    assert [line.split()[0] for line in lines[1:] if not line.startswith(("-- ", " "))] == [f["verdict"] for f in bad]
    assert {f["verdict"] for f in bad} == {"caution"}
    assert "\x1b" not in run.stdout


def test_demo_writes_the_parts_and_the_records(made, demo):
    _, into = made
    wanted = {"job.toml", "sizes.json", "findings.json", "coordinates.csv", "manifest.json"}
    wanted |= {f"parts/{stem}.{ending}" for stem in stems_of_demo() for ending in ("step", "stl", "3mf")}
    wanted |= {"parts/head-gasket.dxf", "parts/head-gasket.svg"}
    wanted |= {"parts/expander-mandrel-outline.dxf", "parts/expander-mandrel-outline.csv"}
    assert wanted <= set(digests(into))
    assert (into / "job.toml").read_bytes() == demo.encode()


def test_the_manifest_lists_every_file_with_its_digest(made):
    _, into = made
    listed = manifest(into)
    found = digests(into)
    found.pop("manifest.json")
    assert [e["path"] for e in listed] == sorted(found)
    assert {e["path"]: e["sha256"] for e in listed} == found
    assert all(e["bytes"] == (into / e["path"]).stat().st_size for e in listed)
    assert parts_in(into) == stems_of_demo()
    assert all(list(e) == ["path", "part", "kind", "bytes", "sha256", "made_from"] for e in listed)


def test_the_same_job_gives_the_same_bytes_and_keeps_the_users_files(made_small, topend, tmp_path):
    """Made again from the folder's own job file, over the old one."""
    first = made_small
    copy = shutil.copytree(first, tmp_path / "copy")
    (copy / "notes.txt").write_text("nuts by Friday")
    (copy / "parts" / "stud.nc").write_text("G21")
    code, _, err = topend("make", copy / "job.toml", "--into", copy, "--fresh")
    assert (code, err) == (0, "")
    found = digests(copy)
    assert (copy / "notes.txt").read_text() == "nuts by Friday"
    assert (copy / "parts" / "stud.nc").read_text() == "G21"
    assert {name: d for name, d in found.items() if name not in ("notes.txt", "parts/stud.nc")} == digests(first)


def test_coordinates_name_every_hole(made):
    _, into = made
    with (into / "coordinates.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert list(rows[0]) == ["hole", "kind", "x_mm", "y_mm", "radius_mm", "angle_deg", "diameter_mm", "depth_mm"]
    assert [r["kind"] for r in rows] == ["bore"] + ["old"] * 3 + ["new"] * 4 + ["passage"]
    assert rows[-1]["hole"] == "breather"
    new = [(float(r["x_mm"]), float(r["y_mm"]), float(r["depth_mm"])) for r in rows if r["kind"] == "new"]
    assert new == [(30, 29, 21), (-30, 29, 21), (-30, -29, 21), (30, -29, 21)]


def test_only_makes_one_part_and_keeps_those_that_still_match(copy, topend, tmp_path, demo):
    """A thicker gasket: the stud grows with it, so the old stud must go; plug and ring stay byte for byte."""
    before = digests(copy)
    thicker = tmp_path / "thicker.toml"
    thicker.write_text(demo.swap('thickness = "1.20 mm"', 'thickness = "1.50 mm"'), encoding="utf-8")
    code, _, err = topend("make", thicker, "--into", copy, "--only", "head-gasket")
    assert (code, err) == (0, "")
    after = digests(copy)
    assert parts_in(copy) == stems_of_demo() - {"stepped-stud"}
    assert not list((copy / "parts").glob("stepped-stud*"))
    same = [
        n for n in before if n.startswith("parts/") and not n.startswith(("parts/stepped-stud", "parts/head-gasket"))
    ]
    assert {n: after[n] for n in same} == {n: before[n] for n in same}
    assert after["parts/head-gasket.step"] != before["parts/head-gasket.step"]
    assert after["job.toml"] == hashlib.sha256(thicker.read_bytes()).hexdigest()
    sizes = json.loads((copy / "sizes.json").read_text(encoding="utf-8"))
    assert sizes["stud.projection"]["value"] == 58.4


def test_a_kept_part_that_was_changed_by_hand_is_not_kept(copy, topend, job):
    (copy / "parts" / "blanking-plug.step").write_text("mine now")
    assert topend("make", job, "--into", copy, "--only", "ring-blank")[0] == 0
    assert "blanking-plug" not in {e["part"] for e in manifest(copy) if e["path"] == "parts/blanking-plug.step"}
    assert (
        not (copy / "parts" / "blanking-plug.step").exists()
        or (copy / "parts" / "blanking-plug.step").read_text() == "mine now"
    )


def test_only_a_part_that_is_none_or_not_asked_for(topend, tmp_path):
    path = tmp_path / "ring.toml"
    path.write_text(RING)
    code, out, err = topend("make", path, "--only", "flywheel", "--into", tmp_path / "o")
    assert (code, out) == (2, "")
    assert err == f"topend: --only: 'flywheel' is no part; the parts are {', '.join(PARTS)}\n"
    code, out, err = topend("make", path, "--only", "stepped-stud", "--into", tmp_path / "o")
    assert (code, err) == (2, "topend: --only: 'stepped-stud' is not in this job: it has no [stud]\n")
    assert names(tmp_path) == ["ring.toml"]


def test_a_folder_of_someone_else_is_left_alone(topend, job, tmp_path):
    foreign = tmp_path / "photos"
    foreign.mkdir()
    (foreign / "july.jpg").write_bytes(b"\xff\xd8")
    code, out, err = topend("make", job, "--into", foreign)
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert "holds other files and no manifest.json of topend" in err
    assert digests(foreign) == {"july.jpg": hashlib.sha256(b"\xff\xd8").hexdigest()}
    code, _, err = topend("make", job, "--into", job)
    assert code == 2
    assert "is a file" in err


def test_make_without_a_folder_writes_outputs_by_the_files_name(topend, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("rings for two.toml").write_text(RING)
    code, _, err = topend("make", "rings for two.toml", "--only", "ring-blank")
    assert (code, err) == (0, "")
    assert parts_in(tmp_path / "outputs" / "rings for two") == {"ring-blank"}


def test_make_ends_with_1_where_a_finding_says_stop_and_still_writes(topend, tmp_path):
    path = tmp_path / "ring.toml"
    path.write_text(
        RING.replace('"0.20 mm"', '"1.30 mm"')
    )  # over 0.02 of the bore; the blank's 0.01 moves it by pi 0.01
    code, out, err = topend("make", path, "--into", tmp_path / "o", "--only", "ring-blank")
    assert (code, err) == (1, "")
    assert out.splitlines()[1] == "-- The rings and their mandrel"
    assert out.splitlines()[2].startswith("stop    Closed gap: 1.33 mm, at most 1.14 mm is wanted")
    assert parts_in(tmp_path / "o") == {"ring-blank"}


def test_a_part_that_lacks_its_sizes_names_the_keys(topend, tmp_path):
    path = tmp_path / "stud.toml"
    path.write_text('[stud]\ntap_end = "M10"\nnut_end = "M8"\n')
    code, out, err = topend("make", path, "--into", tmp_path / "o")
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert err.startswith("topend: stud (line 1): the stepped stud can't be made without ")
    for key in ("head.thickness", "gasket.thickness"):
        assert key in err
    assert names(tmp_path) == ["stud.toml"]
    assert topend("check", path)[0] == 0


def test_a_job_that_asks_for_no_part(topend, tmp_path):
    path = tmp_path / "engine.toml"
    path.write_text('[engine]\nbore = "57.20 mm"\nstroke = "63.5 mm"\n')
    assert topend("check", path)[0] == 0
    code, out, err = topend("make", path, "--into", tmp_path / "o")
    assert (code, out) == (2, "")
    assert err == "topend: the job asks for no part: give it a [stud], [plug], [ring], [gasket] or [mandrel]\n"
    assert not (tmp_path / "o").exists()


def test_a_missing_system_library_is_one_sentence_with_the_cure(run, job, tmp_path):
    """As a bare machine has it: the kernel's own import fails for want of libGL."""
    stub = tmp_path / "stub"
    (stub / "OCP").mkdir(parents=True)
    text = "libGL.so.1: cannot open shared object file: No such file or directory"
    (stub / "OCP" / "__init__.py").write_text(f"raise ImportError({text!r})\n")
    before = names(tmp_path)
    found = run("make", job, "--into", tmp_path / "o", first=stub)
    assert (found.returncode, found.stdout) == (3, "")
    assert found.stderr.count("\n") == 1
    assert "libGL.so.1" in found.stderr
    assert "apt-get install libgl1" in found.stderr
    assert names(tmp_path) == before


def test_a_kernel_that_fails_leaves_nothing_and_ends_with_3(topend, tmp_path, monkeypatch):
    import parts.builders.turned

    def fails(*_):
        raise RuntimeError("BRep_API: command not done")

    monkeypatch.setattr(parts.builders.turned, "revolve", fails)
    path = tmp_path / "ring.toml"
    path.write_text(RING)
    code, out, err = topend("make", path, "--into", tmp_path / "o", "--only", "ring-blank")
    assert (code, out) == (3, "")
    assert err == "topend: ring blank: the kernel could not build it (RuntimeError: BRep_API: command not done)\n"
    assert names(tmp_path) == ["ring.toml"]


# check ----------------------------------------------------------------------------------------------------------------


def test_check_prints_one_json_object_and_nothing_else(topend, job):
    code, out, err = topend("check", job, "--json")
    assert (code, err) == (0, "")
    told = json.loads(out)
    assert list(told) == ["sizes", "findings", "left_out", "unknowns"]
    assert told["unknowns"] == []
    keys = {"value", "unit", "limits", "status", "formula", "inputs", "source"}
    for name, size in told["sizes"].items():
        assert set(size) == keys, name
        assert size["status"] in {"given", "assumed", "published", "memory", "computed", "designed", "made"}, name
        assert size["unit"], name
        for argument, one in size["inputs"].items():
            assert set(one) == {"name", "value", "unit"}, (name, argument)
            if one["name"] in told["sizes"]:
                assert one["value"] == told["sizes"][one["name"]]["value"], (name, argument)
        if not isinstance(size["value"], list):
            assert isfinite(size["value"]), name
        if size["limits"]:
            assert size["limits"][0] <= size["value"] <= size["limits"][1], name
    for finding in told["findings"]:
        assert set(finding) == {"name", "verdict", "value", "limit", "unit", "says", "source"}
        assert finding["verdict"] in {"ok", "caution", "stop"}
    assert "stop" not in {f["verdict"] for f in told["findings"]}


def test_check_and_make_say_the_same(topend, job, made):
    """But for the first advice of a finding, which takes a search, and which `make` alone gives."""
    told = json.loads(topend("check", job, "--json")[1])
    sizes, findings = (json.loads((made[1] / f"{n}.json").read_text(encoding="utf-8")) for n in ("sizes", "findings"))
    assert told["sizes"] == sizes
    assert any("changes" in one for one in findings)
    assert told["findings"] == [{k: v for k, v in one.items() if k != "changes"} for one in findings]


def test_left_out_tells_what_is_missing(topend, tmp_path, demo):
    path = tmp_path / "job.toml"
    path.write_text(demo.swap('thickness = "46 mm"', "# ", 'stroke = "2 1/2 in"', "# "), encoding="utf-8")
    code, out, _ = topend("check", path, "--json")
    told = json.loads(out)
    assert code == 0
    assert told["left_out"]["stud.projection"] == ["job.head.thickness"]
    assert told["left_out"]["stud.length"] == ["job.head.thickness"]
    assert told["left_out"]["compression.ratio_after"] == ["job.engine.stroke"]
    assert not set(told["left_out"]) & set(told["sizes"])
    assert "ring.parameter" in told["sizes"]
    _, out, _ = topend("check", path)
    assert re.search(r"^  give engine\.stroke \(.*\)\n    for compression\.swept_volume, ", out, re.MULTILINE)
    assert topend("make", path, "--into", tmp_path / "o")[0] == 2
    assert names(tmp_path) == ["job.toml"]


def test_check_ends_with_1_where_a_finding_says_stop(topend, tmp_path, demo):
    path = tmp_path / "job.toml"
    path.write_text(demo.swap('deck_depth = "32 mm"', 'deck_depth = "24 mm"'), encoding="utf-8")
    code, out, err = topend("check", path, "--json")
    assert (code, err) == (1, "")
    (stop,) = (f for f in json.loads(out)["findings"] if f["name"] == "deck.floor")
    assert stop["verdict"] == "stop"
    assert stop["value"] == pytest.approx(24 - 0.12 - 21 - 3.1245, abs=1e-3)
    code, out, _ = topend("check", path)
    assert code == 1
    assert re.search(r"^stop +Metal under the blind holes, drill point included: -0\.24 mm", out, re.MULTILINE)


def test_check_lists_what_it_assumed(topend, tmp_path):
    path = tmp_path / "ring.toml"
    path.write_text(RING)
    out = topend("check", path)[1]
    assumed = out.split("Assumed, since the job file does not say\n")[1].split("\n\n")[0]
    assert re.search(r"^  ring\.parting_tool +2\.000 mm +\[common practice, no source\]$", assumed, re.MULTILINE)


def test_check_writes_nothing(topend, job, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    topend("check", job)
    assert names(tmp_path) == [job.name]


def test_errors_as_json_also_for_a_wrong_flag(topend, job):
    code, out, err = topend("check", job, "--jsn", "--json")
    assert (code, err) == (2, "")
    assert [set(e) for e in json.loads(out)["errors"]] == [{"key", "line", "says"}]


# terminals ------------------------------------------------------------------------------------------------------------


def on_a_terminal(*arguments, code=0, **env):
    """Run with a terminal as stdout; return what it shows."""
    try:
        ours, theirs = pty.openpty()
    except OSError as error:
        pytest.skip(f"no terminal to be had here: {error}")
    settings = {k: v for k, v in os.environ.items() if k != "NO_COLOR"} | {"PYTHONPATH": str(ROOT), **env}
    command = [sys.executable, "-m", "cli.main", *map(str, arguments)]
    with subprocess.Popen(command, stdout=theirs, stderr=subprocess.PIPE, env=settings, cwd=ROOT) as process:
        os.close(theirs)
        shown = b""
        while True:
            try:
                data = os.read(ours, 65536)
            except OSError:  # the other end is closed
                break
            if not data:
                break
            shown += data
        assert process.wait() == code
    os.close(ours)
    return shown.decode()


def test_colours_on_a_terminal_unless_no_color(job):
    assert "\x1b[33mcaution" in on_a_terminal("check", job)
    plain = on_a_terminal("check", job, NO_COLOR="1")
    assert "caution" in plain
    assert "\x1b" not in plain


def test_check_on_a_terminal_is_one_screen_of_what_matters(job):
    shown = on_a_terminal("check", job, NO_COLOR="1", COLUMNS="100").splitlines()
    assert len(shown) <= 40
    assert max(map(len, shown[:-1])) <= 100
    found = json.loads(subprocess.run([sys.executable, "-m", "cli.main", "check", job, "--json"], cwd=ROOT,
                                      capture_output=True, check=True).stdout)  # fmt: skip
    cautions = [f["says"] for f in found["findings"] if f["verdict"] == "caution"]
    assert [line[8:60] for line in shown if line.startswith("caution")] == [says[:52] for says in cautions]
    fine = sum(f["verdict"] == "ok" for f in found["findings"])
    sizes = sum(not name.startswith("job.") for name in found["sizes"])
    assert f"{fine} findings are in order, {sizes} sizes stand." in shown[-1]
    everything = on_a_terminal("check", job, "--all", NO_COLOR="1")
    assert "stud.length" in everything
    assert "stud.length" not in "\n".join(shown)


def test_the_screen_has_stops_first_and_what_is_missing_last(tmp_path, demo):
    path = tmp_path / "job.toml"
    path.write_text(
        demo.swap('deck_depth = "32 mm"', 'deck_depth = "24 mm"', 'thickness = "46 mm"', "# "), encoding="utf-8"
    )
    shown = on_a_terminal("check", path, code=1, NO_COLOR="1", COLUMNS="90").splitlines()
    assert len(shown) <= 40
    kinds = [line.split()[0].strip(",") for line in shown if line.startswith(("stop", "caution", "Missing"))]
    assert kinds == sorted(kinds, key=["stop", "caution", "Missing"].index)
    assert kinds[0] == "stop"
    assert re.fullmatch(r"  head\.thickness +[0-9]+ wait; through the head at the stud bosses", shown[-3])


@pytest.mark.parametrize("arguments", [(), ("--for", "head-gasket,stepped-stud")])
def test_an_untouched_file_says_in_three_lines_what_to_do(tmp_path, arguments, topend):
    path = tmp_path / "mine.toml"
    assert topend("new", path, *arguments)[0] == 0
    shown = on_a_terminal("check", path).splitlines()
    assert len(shown) == 3
    assert "[gasket]" in shown[0]
    assert f"topend check {path}" in shown[2]


def test_progress_on_a_terminal_alone(monkeypatch, capsys):
    monkeypatch.setattr(sys.stderr, "isatty", lambda: False)
    cli.say.progress()("ring blank")
    assert capsys.readouterr() == ("", "")
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    cli.say.progress()("ring blank")
    assert capsys.readouterr() == ("", "  ring blank ...\n")


# help, wrong verbs and flags ------------------------------------------------------------------------------------------


def test_no_arguments_print_the_verbs(topend):
    code, out, err = topend()
    assert (code, err) == (0, "")
    assert out == topend("--help")[1]
    assert out.startswith("Usage: topend ")
    for verb in VERBS:
        assert re.search(rf"^  {verb} +[A-Z].*\.$", out, re.MULTILINE), verb


@pytest.mark.parametrize("verb", VERBS)
def test_help_of_every_verb_has_an_example_of_itself(topend, verb):
    code, out, err = topend(verb, "--help")
    assert (code, err) == (0, "")
    assert re.search(rf"\n *Example: topend {verb}\b", out)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["maek"], "maek"),
        (["check"], "file"),
        (["check", "a.toml", "b.toml"], "b.toml"),
        (["check", "--fast", "a.toml"], "--fast"),
        (["--fast"], "--fast"),
        (["make", "a.toml", "--threads", "round"], "round"),
        (["new", "a.toml", "--from", "memory"], "memory"),
        (["explain", "a.toml"], "name"),
    ],
)
def test_a_wrong_verb_or_flag_is_one_sentence(topend, arguments, says, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    code, out, err = topend(*arguments)
    assert (code, out) == (2, "")
    assert re.fullmatch(r"topend: .*\n", err)
    assert says in err
    assert names(tmp_path) == []


def test_debug_shows_the_traceback_and_keeps_the_exit_code(topend, tmp_path):
    for arguments in (["--debug", "check", tmp_path / "none.toml"], ["check", tmp_path / "none.toml", "--debug"]):
        code, out, err = topend(*arguments)
        assert (code, out) == (2, "")
        assert "Traceback (most recent call last)" in err
        assert err.splitlines()[-1] == f"topend: {tmp_path}/none.toml can't be read: No such file or directory"


def test_an_interrupt_is_one_sentence(topend, job, monkeypatch):
    import parts.checked

    def stopped(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(parts.checked, "load", stopped)
    assert topend("check", job) == (130, "", "topend: stopped: nothing was changed\n")


# new and explain ------------------------------------------------------------------------------------------------------


def test_new_writes_a_job_and_never_overwrites(topend, tmp_path, demo):
    path = tmp_path / "new.toml"
    assert topend("new", path, "--from", "demo")[0] == 0
    assert path.read_bytes() == demo.encode()
    code, out, err = topend("new", path)
    assert (code, out) == (2, "")
    assert err == f"topend: {path} is there already and is not overwritten: name another file\n"
    assert path.read_bytes() == demo.encode()
    code, _, err = topend("new", tmp_path / "no" / "such" / "folder.toml")
    assert code == 3
    assert err.count("\n") == 1


def test_new_for_some_parts_writes_what_they_need_and_the_needed_first(topend, tmp_path):
    path = tmp_path / "mine.toml"
    assert topend("new", path, "--for", "head-gasket, stepped-stud")[0] == 0
    text = path.read_text(encoding="utf-8")
    assert [line for line in text.splitlines() if line and line[0] != "#"] == ["[job]"]
    for there in ("# [engine]", "# bore = ", "# [stud]", "# tap_end = ", "# [gasket]", "# [[barrel.passages]]"):
        assert f"\n{there}" in text
    for gone in ("# [ring]", "# [plug]", "# groove", "# piston_diameter"):
        assert gone not in text
    stud = text.split("# [stud]\n")[1].split("\n\n")[0].splitlines()
    assert ["needed" in line for line in stud] == [True, True] + [False] * (len(stud) - 2)


def test_a_file_for_some_parts_can_be_filled_in(topend, tmp_path):
    """With every # taken off it is a job, and its parts can be shaped."""
    path = tmp_path / "mine.toml"
    topend("new", path, "--for", "head-gasket,stepped-stud")
    lines = [line for line in path.read_text(encoding="utf-8").splitlines() if "wanted_" not in line]  # or a thickness
    path.write_text("\n".join(re.sub(r"^# (?=\[|[a-z_]+ = )", "", line) for line in lines), encoding="utf-8")
    code, out, err = topend("check", path, "--json")
    assert (code in (0, 1), err) == (True, "")
    assert {"stud.length", "gasket.area"} <= json.loads(out)["sizes"].keys()


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--for", "head-gasket,flywheel"), f"--for: 'flywheel' is no part; the parts are {', '.join(PARTS)}"),
        (("--for", "stepped-stud", "--from", "demo"), "--for: goes with no --from: the worked job has all parts"),
    ],
)
def test_new_for_what_is_no_part_writes_nothing(topend, tmp_path, arguments, says):
    assert topend("new", tmp_path / "mine.toml", *arguments) == (2, "", f"topend: {says}\n")
    assert names(tmp_path) == []


def test_explain_tells_formula_inputs_and_source(topend, job):
    code, out, err = topend("explain", job, "stud.projection")
    assert (code, err) == (0, "")
    assert "stud.projection = 58.100 mm" in out
    assert "projection = gasket + head + washer + nut + 2 * pitch" in out
    for argument, value, name in (
        ("gasket", "1.2 mm", "job.gasket.thickness"),
        ("head", "46 mm", "job.head.thickness"),
    ):
        assert re.search(rf"^ +{argument} += {value} +{name} ", out, re.MULTILINE)
    code, _, err = topend("explain", job, "stud.projektion")
    assert (code, err.count("\n")) == (2, 1)
    assert "stud.projection" in err


# what is loaded -------------------------------------------------------------------------------------------------------

LIGHT = f"""
import contextlib, io, sys
from cli.main import VERBS, app
from cli.say import guarded
job = sys.argv[1]
runs = [[], ["--help"], ["--version"], ["check", job], ["check", job, "--json"], ["schema"]]
runs += [["explain", job, "ring.hot_gap"], *([verb, "--help"] for verb in VERBS)]
for arguments in runs:
    with contextlib.redirect_stdout(io.StringIO()) as out:
        code = guarded(app, arguments)
    heavy = sorted({HEAVY!r} & set(sys.modules))
    print(code, heavy, bool(out.getvalue()), *arguments)
"""


def test_what_needs_no_kernel_loads_none(job):
    found = subprocess.run(
        [sys.executable, "-c", LIGHT, str(job)], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert found.stderr == ""
    lines = found.stdout.splitlines()
    assert len(lines) == 7 + len(VERBS)
    assert [line for line in lines if not line.startswith("0 [] True")] == []
