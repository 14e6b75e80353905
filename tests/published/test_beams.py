"""Turning a slender bar: beam formulas against an integration of M/EI, forces against a worked bar.

Kienzle's values from memory (Tabellenbuch Metall), 15 % either way; beam tables: Shigley, table A-9.
"""

from itertools import pairwise
from math import pi

import pytest
from numpy import array, cumsum, ix_, linspace, sqrt, where, zeros
from numpy.linalg import solve

from parts.job import load
from parts.relations import turning
from parts.sizing import size

N = 4001


def bend(moment, length, stiffness):
    """Integrate M/EI twice from the chuck, where place and slope are nought."""
    step = length / (N - 1)
    slope = cumsum(moment) * step - step * (moment + moment[0]) / 2
    return (cumsum(slope) * step - step * (slope + slope[0]) / 2) / stiffness


def cantilever(push, at, length, stiffness):
    x = linspace(0, length, N)
    return bend(where(x < at, push * (at - x), 0.0), length, stiffness)


def propped(push, at, length, stiffness):
    """Chuck and centre: the centre's force is what brings the end back to nought."""
    free, unit = cantilever(push, at, length, stiffness), cantilever(1.0, length, length, stiffness)
    return free - free[-1] / unit[-1] * unit


def test_chuck_alone():
    place = cantilever(61.3, 120.0, 120.0, 210e3 * 490.87)
    assert turning.deflection_chuck(61.3, 120, 210e3, 490.87) == pytest.approx(place[-1], rel=1e-3)


def bent(push, section, length, end, stiffness, end_stiffness):
    """As the program works it out: bend where the tool stands worst in the section by the chuck."""
    held = turning.held(length, end, stiffness / 210e3, end_stiffness / 210e3)
    place = turning.worst_place(section, length + end, held)
    return place, turning.deflection_tailstock(push, place, length + end, held, 210e3, stiffness / 210e3)


def test_chuck_and_centre():
    """The tool bends the bar most where it stands at 0.586 of the length: 0.0098 F L^3/(E I)."""
    length, stiffness = 120.0, 210e3 * 490.87
    x = linspace(0, length, N)
    worst = max(abs(propped(61.3, at, length, stiffness)[round(at / length * (N - 1))]) for at in x[2300:2400:2])
    at, ours = bent(61.3, length, length, 0.0, stiffness, stiffness)
    assert ours == pytest.approx(worst, rel=2e-3)
    assert ours == pytest.approx(0.0098 * 61.3 * length**3 / stiffness, rel=5e-3)
    assert at == pytest.approx((2 - sqrt(2)) * length)
    there = abs(propped(61.3, at, length, stiffness)[round(at / length * (N - 1))])
    assert there == pytest.approx(worst, rel=1e-3)


def by_matrices(push, at, length, end, stiffness, end_stiffness):
    """Bend under the tool by two-node beam elements: chuck - tool - end of the waist - centre."""
    joints = sorted({0.0, at, length, length + end})
    size = 2 * len(joints)
    whole = zeros((size, size))
    for n, (left, right) in enumerate(pairwise(joints)):
        long, stiff = right - left, stiffness if right <= length else end_stiffness
        a, b, c, d = 12 / long**3, 6 / long**2, 4 / long, 2 / long
        element = array([[a, b, -a, b], [b, c, -b, d], [-a, -b, a, -b], [b, d, -b, c]])
        whole[2 * n : 2 * n + 4, 2 * n : 2 * n + 4] += stiff * element
    load = zeros(size)
    load[2 * joints.index(at)] = push
    free = [n for n in range(size) if n not in (0, 1, size - 2)]
    moved = zeros(size)
    moved[free] = solve(whole[ix_(free, free)], load[free])
    return moved[2 * joints.index(at)]


BARS = [  # section, waist, nut end; waist's and end's diameter
    pytest.param(37.1, 37.1, 22.0, 6.2, 8.0, id="worked job"),
    pytest.param(18.55, 37.1, 22.0, 6.2, 8.0, id="half of it"),
    pytest.param(60.0, 60.0, 20.0, 9.0, 6.0, id="thin end"),
    pytest.param(40.0, 40.0, 0.5, 8.0, 8.0, id="hardly an end"),
    pytest.param(30.0, 30.0, 30.0, 10.0, 4.0, id="very thin end"),
]


@pytest.mark.parametrize(("section", "waist", "end", "thin", "thick"), BARS)
def test_a_bar_of_two_diameters_by_beam_elements(section, waist, end, thin, thick):
    stiffness, end_stiffness = (210e3 * turning.second_moment(d) for d in (thin, thick))
    at, ours = bent(77.1, section, waist, end, stiffness, end_stiffness)
    there = by_matrices(77.1, at, waist, end, stiffness, end_stiffness)
    assert ours == pytest.approx(there, rel=1e-9)
    for x in linspace(0.02, 0.999, 80) * section:
        assert by_matrices(77.1, x, waist, end, stiffness, end_stiffness) <= ours * (1 + 1e-6)


def test_the_worked_job_bends_by_the_whole_bar(demo):
    """Waist 37.1 mm of 6.2 mm, nut end 22 mm of 8 mm between it and the centre: 8.5 um, where the waist alone had 2.5."""
    book = size(load(demo))
    push = book["turning.push"].value
    stiffness, end = (210e3 * pi * d**4 / 64 for d in (6.2, 8.0))
    worst = max(by_matrices(push, x, 37.1, 22.0, stiffness, end) for x in linspace(20, 37.0, 200))
    assert book["turning.deflection"].value == pytest.approx(worst, rel=1e-4)
    assert worst == pytest.approx(0.0085, abs=5e-5)


def test_a_worked_bar():
    """10 mm C45, 120 mm long, 0.5 deep, 0.1 a turn: Fc 153.2 N, Fp 61.3 N, 0.342 mm alone, 0.0101 mm with a centre."""
    specific = turning.specific_force(2220, 0.1, 0.14)
    force = turning.cutting_force(specific, 0.5, 0.1)
    push = turning.push_off(0.4, force)
    bar = turning.second_moment(10)
    assert (round(specific), round(force, 1), round(push, 1)) == (3064, 153.2, 61.3)
    assert turning.deflection_chuck(push, 120, 210e3, bar) == pytest.approx(0.342, abs=6e-4)
    assert bent(push, 120, 120, 0.0, 210e3 * bar, 210e3 * bar)[1] == pytest.approx(0.0101, abs=5e-5)


def test_reach_is_where_the_taper_is_just_allowed():
    reach = turning.reach_chuck(0.03, 210e3, 72.5, 77.1)
    assert 2 * turning.deflection_chuck(77.1, reach, 210e3, 72.5) == pytest.approx(0.03)


def test_sections_between_centres_are_the_fewest_that_stay_true():
    bar = {"length": 200.0, "whole": 220.0, "held": turning.held(200, 20, 72.5, 201), "modulus": 210e3, "moment": 72.5}

    def taper(sections):
        place = turning.worst_place(200 / sections, 220, bar["held"])
        return 2 * turning.deflection_tailstock(77.1, place, 220, bar["held"], 210e3, 72.5)

    found = turning.sections_tailstock(0.03, 77.1, **bar)
    assert found > 2
    assert taper(found) <= 0.03 < taper(found - 1)


@pytest.mark.parametrize(("length", "reach", "sections"), [(60, 60, 1), (60.1, 60, 2), (60, 19, 4), (5, 60, 1)])
def test_sections_are_the_next_whole_number(length, reach, sections):
    assert turning.sections(length, reach) == sections
