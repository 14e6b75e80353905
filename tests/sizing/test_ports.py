"""A two-stroke's ports: what they trap, how long they are open, and where the ring's ends go; worked by hand."""

from math import cos, pi, radians, sin, sqrt

import pytest

from parts.job import load
from parts.judging.findings import judge
from parts.relations import ports
from parts.sizing import size

CYCLE = 'cycle = "four-stroke"'
PORT = '[[engine.ports]]\nname = "{}"\nfrom = "{} deg"\nto = "{} deg"\ntop = "{} mm"\nbottom = "{} mm"\n\n'


def two_stroke(demo, *rows, skim="0.12 mm"):
    text = demo.swap(CYCLE, 'cycle = "two-stroke"', 'skim = "0.12 mm"', f'skim = "{skim}"')
    return text.swap("[engine.hot]", "".join(PORT.format(*row) for row in rows) + "[engine.hot]") if rows else text


def judged(text):
    job = load(text)
    book = size(job, contact=False)
    return book, {f.name: f for f in judge(book, job)}


def test_a_gauge_reads_what_the_ports_have_trapped(demo):
    """Exhaust at 38 mm, transfer at 46: 38 mm are swept, pi/4 57.2^2 38 = 97 648 mm^3 over what is left above the piston."""
    book, _ = judged(two_stroke(demo, ("exhaust", -30, 30, 38, 60), ("transfer", 60, 110, 46, 60)))
    left = book["compression.clearance_after"].value
    trapped = (pi / 4 * 57.2**2 * 38 + left) / left
    assert book["compression.trapped_ratio"].value == pytest.approx(trapped)
    assert book["compression.cranking_high"].value == pytest.approx(0.101325 * (trapped**1.2 - 1))
    assert trapped < book["compression.ratio_after"].value


def test_without_ports_a_two_stroke_s_pressure_is_not_judged(demo):
    book, found = judged(two_stroke(demo))
    assert "compression.cranking_high" not in book
    assert found["engine.ports"].says.startswith("not judged: ")
    assert found["ring.peg"].says.startswith("not judged: ")


def test_a_skim_leaves_the_timing_and_takes_from_the_depth(demo):
    before, after = (
        judged(two_stroke(demo, ("exhaust", -30, 30, 38, 60), skim=skim))[0] for skim in ("0 mm", "0.5 mm")
    )
    assert before["port.1.duration"].value == after["port.1.duration"].value
    assert before["port.1.top_after"].value - after["port.1.top_after"].value == pytest.approx(0.5)
    assert before["compression.squish"].value - after["compression.squish"].value == pytest.approx(0.5)


@pytest.mark.parametrize("after", [60, 95, 120, 150])
def test_a_port_opens_where_the_crank_has_brought_the_piston(after):
    """Crank of 25, rod of 100, so many degrees past the top: the piston is down by r (1 - cos) + l - sqrt(l^2 - (r sin)^2)."""
    a = radians(after)
    down = 25 * (1 - cos(a)) + 100 - sqrt(100**2 - (25 * sin(a)) ** 2)
    assert ports.duration(down, 50.0, 100.0) == pytest.approx(360 - 2 * after)


@pytest.mark.parametrize(
    ("peg", "begin", "end", "degrees"),
    [
        (90, -30, 30, 60),
        (-100, -30, 30, 70),
        (0, -30, 30, -30),
        (350, 10, 40, 20),
        (5, 350, 370, -5),
        (180, 170, -170, -10),
        (190, -10, 10, 160),
        (-185, -10, 10, 165),
    ],
)
def test_the_ends_of_a_pegged_ring(peg, begin, end, degrees):
    """Degrees between the peg and the port's nearer edge, below 0 inside it, along a bore of 57.2 mm, less half the gap."""
    room = ports.end_to_port(peg, begin, ports.span(begin, end), 57.2, 0.2)
    assert room == pytest.approx(57.2 * pi / 360 * degrees - 0.1)


def test_ports_that_run_into_each_other_are_seen_from_one_of_them(demo):
    _, found = judged(two_stroke(demo, ("a", -30, 30, 38, 60), ("b", 20, 60, 40, 60)))
    assert found["port.1.to_next"].verdict == "stop"


def test_ports_one_above_the_other_are_no_neighbours(demo):
    book, _ = judged(two_stroke(demo, ("a", -30, 30, 38, 50), ("b", -30, 30, 52, 62)))
    assert "port.1.to_next" not in book


def test_an_iron_liner_slackens_in_aluminium(demo):
    """64 mm, 11.7 against 21.75 um/m/K, 160 degC: 64 10.05e-6 140 = 0.0900 mm; 0.08 mm cold is loose."""
    text = demo.swap('material = "EN-GJL-250"', 'material = "AlSi7Mg0.3 T6"')
    liner = '[barrel.liner]\noutside = "64 mm"\nmaterial = "EN-GJL-250"\ninterference = "0.08 mm"\n\n[barrel.old_holes]'
    book, found = judged(text.swap("[barrel.old_holes]", liner))
    assert book["liner.growth_hot"].value == pytest.approx(-0.09005, abs=1e-5)
    assert found["liner.interference_hot"].verdict == "stop"
