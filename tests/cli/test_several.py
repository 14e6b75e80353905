"""`explain` and `check` of a job with lists."""

import json
import resource
import subprocess
import sys
from statistics import median

import pytest

from cli.main import app
from cli.say import guarded
from parts.checked import checked
from tests.conftest import ROOT
from tests.listed import plugs, rings, several, studs, text, worked


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(text(several(worked())), encoding="utf-8")
    return str(path)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("stud.front.length", ["stud.front.length = 73.475 mm", "stud.front.tap_end_length"]),
        ("stud.rear.projection", ["job.stud.rear.head_thickness", "52.100 mm"]),
        ("joint.hole.3.gas_share", ["joint.rear.spring", "so that forces and moments balance"]),
        ("ring.second.on.top.free_gap", ["8.580 mm", "job.ring.top.free_gap", "contoured mandrel"]),
        ("job.stud.rear.shank", ["6.000 mm", "given"]),
    ],
)
def test_explain_says_how_a_size_of_one_comes_about(name, told, file, capsys):
    assert guarded(app, ["explain", file, name]) == 0
    out = capsys.readouterr().out
    assert all(one in out for one in told), out


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("stud.length", "stud.front.length or stud.rear.length"),
        ("ring.closed_gap", "ring.top.closed_gap or ring.second.closed_gap or ring.third.closed_gap"),
        ("stud.frnt.length", "stud.front.length or"),
        ("job.plug.length", "job.plug.breather.length or job.plug.oil-drain.length"),
    ],
)
def test_explain_asks_which_was_meant(name, meant, file, capsys):
    assert guarded(app, ["explain", file, name]) == 2
    assert f"{name}: is not a size of this job; did you mean {meant}" in capsys.readouterr().err


def test_check_prints_what_is_of_one_together(file, capsys):
    assert guarded(app, ["check", file]) == 1  # its fourth old hole stands in the oil drain
    lines = capsys.readouterr().out.split("\n")
    heads = [line for line in lines if line and not line.startswith(" ")]
    for head, start in (("Stud, front", "stud.front."), ("Joint, rear", "joint.rear."), ("Ring, third", "ring.third.")):
        assert heads.count(head) == 1
        begin = lines.index(head) + 1
        end = next(n for n in range(begin, len(lines)) if not lines[n].startswith("  "))
        assert {line.split()[0].startswith(start) for line in lines[begin:end]} == {True}
    printed = [line.split()[0] for line in lines if line.startswith("  ")]
    assert guarded(app, ["check", file, "--json"]) == 1
    sizes = json.loads(capsys.readouterr().out)["sizes"]
    wanted = {n for n, s in sizes.items() if not n.startswith("job.") and not isinstance(s["value"], list)}
    assert wanted <= set(printed)


def test_many_of_each_take_at_most_twice_as_long_to_check(tmp_path):
    """Four kinds of stud, three rings with mandrels, three plugs, against the worked job; the process's processor time."""
    many = studs(worked(), **{f"s{n}": {"holes": [n]} for n in (1, 2, 3, 4)})
    many = rings(many, ["top", "mid", "low"], top={}, mid={"free_gap": "8.4 mm"}, low={"axial_width": "2.5 mm"})
    many["ring"][2]["groove"] = {"width": "2.54 mm", "root_diameter": "51.4 mm"}
    many = plugs(many, "breather", "drain")
    passages = many["barrel"]["passages"]
    passages.append({**passages[0], "name": "feed", "at": ["42.0 mm", "0.0 mm"]})
    many["plug"].append({**many["plug"][0], "passage": "feed"})

    def spent(job):
        path = tmp_path / "job.toml"
        path.write_text(text(job), encoding="utf-8")
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([sys.executable, "-m", "cli.main", "check", path], cwd=ROOT, capture_output=True, check=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime

    assert {"stepped-stud-s4", "expander-mandrel-low", "blanking-plug-feed"} <= set(checked(text(many)).shapes)
    assert median(spent(many) / spent(worked()) for _ in range(5)) < 2  # in turn: a busy machine slows both
