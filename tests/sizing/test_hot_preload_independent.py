"""Preload hot, derived a second time from the measured job alone: nothing of the product's sizing is used here.

Compliances are summed over thin slices of one 30 degree cone from the nut's face, cut off at the boss; every figure is
typed in from the job file, from ISO 724, 4032 and 7089, DIN 938 and the materials' handbook values.
"""

from math import pi, radians, tan

import pytest

from parts.job import load
from parts.sizing import size

E_STUD, E_HEAD, E_COPPER, E_IRON = 210e3, 73.5e3, 116e3, 110e3
GROWS = {"stud": 11.7e-6, "washer": 11.5e-6, "head": 21.75e-6, "copper": 17.1e-6, "iron": 11.7e-6}


def area(d):
    return pi / 4 * d * d


def stress_area(d, pitch):
    """ISO 898-1: over the mean of pitch and root diameter."""
    return area(d - (0.649519 + 1.226869) / 2 * pitch)


def stud_compliance():
    """M8 nut end 22 mm long (DIN 938), waist 6.2, M10 tap end whose step is 1 mm and first coil 1.5 mm down."""
    free_nut_end = 22 - (6.8 + 2 * 1.25)
    waist = 48.8 + 1.5 - free_nut_end - 0.5
    nut_end, tap_end, root = stress_area(8, 1.25), stress_area(10, 1.5), area(10 - 1.226869 * 1.5)
    lengths = [
        (0.4 * 8, nut_end),  # inside the nut
        (free_nut_end, nut_end),
        (waist, area(6.2)),
        (0.5, tap_end),
        (0.5 * 10, root),  # inside the insert
        (0.4 * 10, tap_end),
    ]
    return sum(length / section for length, section in lengths) / E_STUD


def clamped_compliance(slices=4000):
    """Washer, head, gasket and the 1.5 mm of barrel above the first coil, under a cone that starts at 11.6."""
    layers = [(1.6, E_STUD, 8.4), (46.0, E_HEAD, 9.0), (1.2, E_COPPER, 8.5), (1.5, E_IRON, 10 + 1.299038 * 1.5)]
    depth, total = 0.0, 0.0
    for thickness, modulus, hole in layers:
        step = thickness / slices
        for n in range(slices):
            cone = min(24.0, 11.6 + 2 * tan(radians(30)) * (depth + (n + 0.5) * step))
            total += step / (modulus * (area(cone) - area(hole)))
        depth += thickness
    return total


def rise(stud, head, barrel):
    """Load that heat adds: what the parts outgrow the stud by, shared by both compliances."""
    copper = (head + barrel) / 2
    parts = (
        1.6 * GROWS["washer"] * (head - 20)
        + 46 * GROWS["head"] * (head - 20)
        + 1.2 * GROWS["copper"] * (copper - 20)
        + 1.5 * GROWS["iron"] * (barrel - 20)
    )
    outgrown = parts - 50.3 * GROWS["stud"] * (stud - 20)
    return outgrown / (stud_compliance() + clamped_compliance())


@pytest.fixture(scope="module")
def sized(demo):
    return {name: entry.value for name, entry in size(load(demo)).items()}


def test_stiffness_of_stud_and_parts(sized):
    assert 1 / stud_compliance() == pytest.approx(sized["stud.stiffness"], rel=1e-4)
    assert 1 / clamped_compliance() == pytest.approx(sized["joint.clamped_stiffness"], rel=1e-3)


def test_hot_preload_within_a_hundredth(sized):
    preload = 0.36 * 0.9 * 900 * area(6.2)
    assert preload + rise(145, 170, 160) == pytest.approx(sized["joint.hot_preload"], rel=0.01)


def test_greatest_preload_within_a_hundredth(sized):
    """The run-up is the worst: head hot, studs not yet; wrench a quarter high, a quarter of the gas on each stud."""
    ks, km = 1 / stud_compliance(), 1 / clamped_compliance()
    gas = 3.8 * area(58.2) / 4
    greatest = 1.25 * 0.36 * 810 * area(6.2) + rise(115, 180, 140) + ks / (ks + km) * gas
    assert greatest == pytest.approx(sized["joint.greatest_preload"], rel=0.01)
    assert rise(115, 180, 140) > rise(145, 170, 160)
