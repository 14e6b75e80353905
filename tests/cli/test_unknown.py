"""What is not known, as the verbs tell it."""

import json

import pytest

from cli.main import app
from cli.say import guarded
from parts.job.examples import demo_text
from tests.unknowns.jobs import unknown


@pytest.fixture
def topend(capsys):
    """Run the command line in this process; return exit code, stdout and stderr."""
    return lambda *arguments: (guarded(app, [str(a) for a in arguments]), *capsys.readouterr())


@pytest.fixture
def not_known(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(unknown(demo_text(), "peak_pressure", "chamber_volume", "friction"), encoding="utf-8")
    return path


def test_check_tells_in_json_what_is_not_known(topend, not_known):
    told = json.loads(topend("check", not_known, "--json")[1])
    pressure, friction = told["unknowns"]
    assert friction == {
        "key": "stud.friction",
        "low": 0.08,
        "high": 0.18,
        "taken": 0.14,
        "unit": "1",
        "decides": [],
        "turns_at": None,
        "measure": "tighten one stud to a torque, oiled as it will be, and measure how far it stretches",
    }
    assert (pressure["key"], pressure["unit"]) == ("engine.peak_pressure", "MPa")
    assert pressure["low"] < pressure["turns_at"] < pressure["high"]
    size = told["sizes"]["job.engine.peak_pressure"]
    assert (size["status"], size["value"], size["range"]) == ("assumed", 4.5, [2.5, 6.0])
    lowest = next(f for f in told["findings"] if f["name"] == pressure["decides"][0])
    assert "engine.peak_pressure: " in lowest["holds_if"]
    assert all("past" not in f for f in told["findings"])
    assert told["left_out"]["head.chamber_volume"] == ["chamber of the new head"]


def test_check_prints_what_is_not_known_by_what_it_decides(topend, not_known):
    out = topend("check", not_known)[1]
    listed = out[out.index("What you don't know") : out.index("Findings")]
    assert listed.index("engine.peak_pressure, 25 bar to 60 bar, taken as 45 bar") < listed.index(
        "stud.friction, 0.08 to 0.18"
    )
    assert "changes no verdict" in listed
    assert "to measure: read the cranking pressure" in listed
    assert "head.chamber_volume: chamber of the new head" in listed


def test_explain_tells_the_range(topend, not_known):
    out = topend("explain", not_known, "joint.gas_force")[1]
    assert "  range    " in out
    assert "range" not in topend("explain", not_known, "stud.length")[1]


def test_compare_stays_at_the_values_taken(topend, not_known):
    code, out, err = topend("compare", not_known, "--vary", "gasket.thickness=1.0..1.2mm/0.2", "--json")
    assert (code, err) == (0, "")
    assert len(json.loads(out)["cases"]) == 2
    code, out, err = topend("compare", not_known, "--vary", "engine.peak_pressure=38bar,45bar", "--json")
    assert (code, err) == (0, "")
    assert {case["given"]["engine.peak_pressure"] for case in json.loads(out)["cases"]} == {
        "38bar",
        "45bar",
    }  # that is the one taken


def test_a_name_that_is_unknown_is_refused_in_one_sentence(topend, tmp_path):
    path = tmp_path / "job.toml"
    path.write_text('[job]\ntitle = "unknown"\n[engine]\nbore = "57.2 mm"\n', encoding="utf-8")
    code, out, err = topend("check", path)
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert err.startswith("topend: job.title (line 2): is a name, which can't be unknown: ")
