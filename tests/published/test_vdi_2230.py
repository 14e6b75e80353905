"""VDI 2230:2003: preload and torque at 90 % of Rp0.2, fine threads, 45 rows as printed.

Bearing faces of ISO 4014 and holes of ISO 273 medium; tolerance 0.3 % and 1.2 %: the table is rounded.
"""

from math import pi

import pytest

from parts.relations import joint
from tests.published.status import seen

CLASSES = {"8.8": 660, "10.9": 940, "12.9": 1100}
SIZES = {  # d, P, bearing face of the head, clearance hole
    "M8x1": (8, 1, 11.63, 9),
    "M10x1.25": (10, 1.25, 14.63, 11),
    "M12x1.25": (12, 1.25, 16.63, 13.5),
    "M14x1.5": (14, 1.5, 19.37, 15.5),
    "M16x1.5": (16, 1.5, 22.49, 17.5),
}
PRINTED = """
M8x1 0.1 20.7 30.4 35.6 22.8 33.5 39.2
M8x1 0.12 20.2 29.7 34.7 26.1 38.3 44.9
M8x1 0.14 19.7 28.9 33.9 29.2 42.8 50.1
M10x1.25 0.1 32.4 47.5 55.6 44 65 76
M10x1.25 0.12 31.6 46.4 54.3 51 75 87
M10x1.25 0.14 30.8 45.2 52.9 57 83 98
M12x1.25 0.1 49.1 72.1 84.4 79 116 135
M12x1.25 0.12 48.0 70.5 82.5 90 133 155
M12x1.25 0.14 46.8 68.7 80.4 101 149 174
M14x1.5 0.1 66.4 97.5 114.1 124 182 213
M14x1.5 0.12 64.8 95.2 111.4 142 209 244
M14x1.5 0.14 63.2 92.9 108.7 159 234 274
M16x1.5 0.1 89.6 131.6 154.0 189 278 325
M16x1.5 0.12 87.6 128.7 150.6 218 320 374
M16x1.5 0.14 85.5 125.5 146.9 244 359 420
"""
ROWS = seen(
    *(
        pytest.param(size, float(mu), name, float(force), float(torque), id=f"{size} {name} mu {mu}")
        for size, mu, *figures in (line.split() for line in PRINTED.strip().splitlines())
        for name, force, torque in zip(CLASSES, figures[:3], figures[3:], strict=True)
    )
)


def test_the_whole_table_is_here():
    assert len(ROWS) == 45


@pytest.mark.parametrize(("size", "mu", "name", "force", "torque"), ROWS)
def test_preload_and_torque(size, mu, name, force, torque):
    d, pitch, bearing, hole = SIZES[size]
    d2, d3 = d - 0.649519 * pitch, d - 1.226869 * pitch
    area = pi / 4 * ((d2 + d3) / 2) ** 2
    strength = 640 if name == "8.8" and d <= 16 else CLASSES[name]
    assert joint.tightening_preload(strength, area, pitch, d2, 30, mu) / 1e3 == pytest.approx(force, rel=3e-3)
    ring = joint.friction_diameter(bearing, hole)
    assert joint.torque(force * 1e3, pitch, d2, 30, mu, ring) == pytest.approx(torque, rel=1.2e-2)


def test_full_formula_against_the_rounded_one():
    """ISO 16047 (memory): M = F (0.16 P + 0.58 d2 mu + DKm/2 mu), whose factors are rounded."""
    short = 9782 * (0.16 * 1.25 + 0.58 * 7.188 * 0.14 + 5 * 0.14) / 1000
    assert joint.torque(9782, 1.25, 7.188, 30, 0.14, 10) == pytest.approx(short, rel=5e-3)


def test_fatigue_of_rolled_threads():
    """VDI 2230-1 (memory): 0.85 (150/d + 45), 51 MPa for M10."""
    assert joint.fatigue_limit(10) == 51.0
