"""Turning a slender bar: beam formulas against an integration of M/EI, forces against a worked bar.

Kienzle's values from memory (Tabellenbuch Metall), 15 % either way; beam tables: Shigley, table A-9.
"""

import pytest
from numpy import cumsum, linspace, sqrt, where

from parts.relations import turning

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


def test_chuck_and_centre():
    """The tool bends the bar most where it stands at 0.586 of the length: 0.0098 F L^3/(E I)."""
    length, stiffness = 120.0, 210e3 * 490.87
    x = linspace(0, length, N)
    worst = max(abs(propped(61.3, at, length, stiffness)[round(at / length * (N - 1))]) for at in x[2300:2400:2])
    assert turning.deflection_tailstock(61.3, 120, 210e3, 490.87) == pytest.approx(worst, rel=2e-3)
    at = (2 - sqrt(2)) * length
    there = abs(propped(61.3, at, length, stiffness)[round(at / length * (N - 1))])
    assert there == pytest.approx(worst, rel=1e-3)


def test_a_worked_bar():
    """10 mm C45, 120 mm long, 0.5 deep, 0.1 a turn: Fc 153.2 N, Fp 61.3 N, 0.342 mm alone, 0.0101 mm with a centre."""
    specific = turning.specific_force(2220, 0.1, 0.14)
    force = turning.cutting_force(specific, 0.5, 0.1)
    push = turning.push_off(0.4, force)
    bar = turning.second_moment(10)
    assert (round(specific), round(force, 1), round(push, 1)) == (3064, 153.2, 61.3)
    assert turning.deflection_chuck(push, 120, 210e3, bar) == pytest.approx(0.342, abs=6e-4)
    assert turning.deflection_tailstock(push, 120, 210e3, bar) == pytest.approx(0.0101, abs=5e-5)


@pytest.mark.parametrize("support", ["chuck", "tailstock"])
def test_reach_is_where_the_taper_is_just_allowed(support):
    reach = getattr(turning, f"reach_{support}")(0.03, 210e3, 72.5, 77.1)
    assert 2 * getattr(turning, f"deflection_{support}")(77.1, reach, 210e3, 72.5) == pytest.approx(0.03)


@pytest.mark.parametrize(("length", "reach", "sections"), [(60, 60, 1), (60.1, 60, 2), (60, 19, 4), (5, 60, 1)])
def test_sections_are_the_next_whole_number(length, reach, sections):
    assert turning.sections(length, reach) == sections
