"""What no engine has is told with the slip behind it; what is left out is never ok. Usual ranges: common practice, no source."""

import pytest

from parts.job import load
from parts.judging.findings import judge
from parts.judging.rules import RULES
from parts.judging.usual import _slip as slip_of
from parts.sizing import size


def judged(text):
    job = load(text)
    return {f.name: f for f in judge(size(job, contact=False), job)}


SLIPS = [  # change, key, verdict, what it probably is, the slip
    (
        'peak_pressure = "38 bar"',
        'peak_pressure = "3.8 bar"',
        "engine.peak_pressure",
        "stop",
        "3.800 MPa",
        "decimal point",
    ),
    (
        'peak_pressure = "38 bar"',
        'peak_pressure = "8.4 bar"',
        "engine.peak_pressure",
        "stop",
        "8.400 MPa",
        "decimal",
    ),
    ('stroke = "2 1/2 in"', 'stroke = "2.5 mm"', "engine.stroke", "stop", "63.500 mm", "in inches"),
    ('stroke = "2 1/2 in"', 'stroke = "6.35 mm"', "engine.stroke", "stop", "63.500 mm", "decimal point"),
    ('"31.0 cm^3"', '"310 cm^3"', "engine.clearance_volume", "stop", "31.00 cm^3", "decimal point"),
    ('squish = "1.60 mm"', 'squish = "16 mm"', "engine.squish", "stop", "1.600 mm", "decimal point"),
    ('circle = "78 mm"', 'circle = "39 mm"', "barrel.old_holes.pattern.circle", "stop", "78.000 mm", "radius"),
    ('circle = "78 mm"', 'circle = "156 mm"', "barrel.old_holes.pattern.circle", "caution", "78.000 mm", "twice"),
    ('head = "170 degC"', 'head = "340 degC"', "engine.hot.head", "caution", "171.1 degC", "degF"),
    ('skim = "0.12 mm"', 'skim = "1.2 mm"', "barrel.skim", "caution", "0.120 mm", "decimal point"),
    ('deck_depth = "32 mm"', 'deck_depth = "320 mm"', "barrel.deck_depth", "stop", "32.000 mm", "decimal point"),
]


@pytest.mark.parametrize(("was", "now", "key", "verdict", "probably", "slip"), SLIPS)
def test_the_likely_slip_is_named(demo, was, now, key, verdict, probably, slip):
    found = judged(demo.swap(was, now))[f"usual.{key}"]
    assert found.verdict == verdict
    assert key in found.says
    assert f"probably {probably}" in found.says
    assert slip in found.says


@pytest.mark.parametrize(
    ("kind", "written", "meant", "slip"),
    [  # mm, mm^3, MPa, degC as they are read, and what they should have been; the inch and the psi by their definitions
        ("length", 5.72, 57.2, "decimal point"),
        ("length", 572.0, 57.2, "decimal point"),
        ("length", 0.572, 57.2, "decimal point"),
        ("length", 5720.0, 57.2, "decimal point"),
        ("length", 28.6, 57.2, "a radius, where a diameter"),
        ("length", 114.4, 57.2, "a diameter, where a radius"),
        ("length", 2.25, 57.15, "in inches"),
        ("length", 1452.88, 57.2, "in millimetres"),
        ("volume", 3100.0, 31000.0, "decimal point"),
        ("volume", 310000.0, 31000.0, "decimal point"),
        ("volume", 31.0, 31000.0, "in cm^3"),
        ("volume", 31e6, 31000.0, "in mm^3"),
        ("volume", 1891.7, 31000.0, "in in^3"),  # 16.387 cm^3 to the cubic inch
        ("pressure", 0.38, 3.8, "decimal point"),
        ("pressure", 38.0, 3.8, "decimal point"),
        ("pressure", 0.262, 3.8, "in bar, not psi"),  # 0.0689476 bar to the psi
        ("pressure", 55.1, 3.8, "in psi, not bar"),
        ("temperature", 338.0, 170.0, "in degF"),
        ("temperature", 76.7, 170.0, "in degC"),
    ],
)
def test_every_slip_turns_what_was_written_into_what_was_meant(kind, written, meant, slip):
    """Within a thousandth, where nothing else is usual."""
    value, told = slip_of(written, kind, 0.98 * meant, 1.02 * meant)
    assert value == pytest.approx(meant, rel=1e-3)
    assert slip in told


def test_a_ratio_of_one_point_two_stops(demo):
    """163.2 cm^3 swept over 816 is 1.2 to 1."""
    found = judged(demo.swap('"31.0 cm^3"', '"816 cm^3"'))
    assert {n for n, f in found.items() if n.startswith("usual.") and f.verdict == "stop"} == {
        "usual.engine.clearance_volume"
    }


def test_a_peak_under_what_turning_over_gives_stops(demo):
    """At 6.84 to 1 a gauge reads up to 0.101 (6.84^1.2 - 1) = 0.917 MPa: 9 bar can't be the peak, 13 bar is doubtful."""
    never, doubtful = (judged(demo.swap('"38 bar"', f'"{p} bar"'))["usual.engine.peak_pressure"] for p in (9, 13))
    assert never.verdict == "stop"
    assert doubtful.verdict == "caution"


@pytest.mark.parametrize("name", ["inch", "bsf", "gasket"])
def test_right_jobs_have_nothing_unusual(name, demo):
    from tests.conftest import JOBS

    for text in (demo, (JOBS / f"{name}.toml").read_text(encoding="utf-8")):
        assert not [n for n in judged(text) if n.startswith("usual.")]


OUT = [  # line of the worked job that is left out, what the finding asks for
    ('peak_pressure = "38 bar"', "engine.peak_pressure"),
    ('stroke = "2 1/2 in"', "engine.stroke"),
    ('squish = "1.60 mm"', "engine.squish"),
    ('deck_depth = "32 mm"', "barrel.deck_depth"),
    ('outline = { circle = "112 mm" }', "barrel.outline"),
    ('thickness = "46 mm"', "head.thickness"),
    ('hole_diameter = "9.0 mm"', "head.hole_diameter"),
    ('joint_face = "66 mm"', "joint_face"),
    ('chamber_volume = "24.8 cm^3"', "burette"),
    ('bond_strength = "12 MPa"', "plug.bond_strength"),
    ('material = "11SMn30"', "plug.material"),
    ('depth = "22 mm"', "old_holes.depth"),
    ('piston_diameter = "57.10 mm"', "ring.piston_diameter"),
    ('groove = { width = "2.42 mm", root_diameter = "51.40 mm" }', "ring.groove"),
]


@pytest.mark.parametrize(("line", "asked"), OUT)
def test_what_is_left_out_is_not_ok(demo, line, asked):
    """Each finding that may stop the job is still there, or one says that it was not judged and what to measure."""
    at = next(n for n, one in enumerate(demo.split("\n")) if one.lstrip().startswith(line) or f"\n{line}" in f"\n{one}")
    text = "\n".join(one for n, one in enumerate(demo.split("\n")) if n != at)
    said = [f for f in judged(text).values() if f.says.startswith("not judged: ") and asked in f.says]
    assert said
    assert all(f.verdict == "caution" for f in said)


def test_a_limit_that_has_a_standard_beside_it_says_which_part_is_practice():
    """Ring slenderness, fitting share 1.5, nut pressure 1.5 and back clearance 0.3 stand in no standard."""
    for size_name in ("ring.slenderness", "ring.fitting_share", "joint.nut_pressure", "ring.back_clearance"):
        rules = [rule for rule in RULES if rule.size == size_name]
        assert rules
        assert all("common practice, no source" in rule.cited for rule in rules)
