"""Lame's press fit against a direct solution of the two-cylinder boundary problem, and rows worked with it.

In plane stress u = A r + B/r and s = E/(1 - nu^2) (e_r + nu e_t): four conditions (inner face free, both faces meet
with the interference between them and the same pressure, outer face free) settle both cylinders.
"""

import numpy as np
import pytest

from parts.relations import press
from tests.published.status import computed

ROWS = computed(  # inside, fit, outside, interference, E and nu of plug, E and nu of ring, pressure
    pytest.param(0, 50, 80, 0.04, 210e3, 0.3, 210e3, 0.3, 51.188, id="steel in steel"),
    pytest.param(0, 12, 30, 0.02, 210e3, 0.3, 110e3, 0.26, 91.319, id="steel in iron"),
    pytest.param(0, 10, 25, 0.015, 100e3, 0.34, 110e3, 0.26, 69.71, id="brass in iron"),
    pytest.param(8, 12, 30, 0.02, 210e3, 0.3, 72e3, 0.33, 48.009, id="bush in aluminium"),
)


def solved(inside, fit, outside, interference, plug, plug_nu, ring, ring_nu):
    """Return pressure and hoop stress of the ring at the fit."""

    def radial(modulus, nu, r):
        return modulus / (1 - nu**2) * np.array([1 + nu, -(1 - nu) / r**2])

    def hoop(modulus, nu, r):
        return modulus / (1 - nu**2) * np.array([1 + nu, (1 - nu) / r**2])

    a, b, c = inside / 2, fit / 2, outside / 2
    rows, right = np.zeros((4, 4)), np.zeros(4)
    rows[0, :2] = radial(plug, plug_nu, a) if a else [0, 1]  # a solid plug stays in one piece: no B/r
    rows[1, 2:] = radial(ring, ring_nu, c)
    rows[2, :2], rows[2, 2:] = -radial(plug, plug_nu, b), radial(ring, ring_nu, b)
    rows[3], right[3] = [-b, -1 / b, b, 1 / b], interference / 2
    scale = np.array([1, 1 / b**2, 1, 1 / b**2])  # columns of one size
    answer = np.linalg.solve(rows / scale, right) / scale
    return -radial(ring, ring_nu, b) @ answer[2:], hoop(ring, ring_nu, b) @ answer[2:]


@pytest.mark.parametrize(
    ("inside", "fit", "outside", "interference", "plug", "plug_nu", "ring", "ring_nu", "pressure"), ROWS
)
def test_pressure_and_hoop_stress(inside, fit, outside, interference, plug, plug_nu, ring, ring_nu, pressure):
    found = press.fit_pressure(interference, fit, outside, ring, ring_nu, inside, plug, plug_nu)
    assert found == pytest.approx(pressure, abs=1e-3)
    direct, hoop = solved(inside, fit, outside, interference, plug, plug_nu, ring, ring_nu)
    assert found == pytest.approx(direct, rel=1e-6)
    assert press.hoop_stress(found, outside, fit) == pytest.approx(hoop, rel=1e-6)


def test_loose_is_loose():
    assert press.fit_pressure(-0.01, 12, 30, 110e3, 0.26, 0, 210e3, 0.3) == 0


def test_heat_tightens_brass_in_iron_and_loosens_steel_in_aluminium():
    """Linear expansion: 12 mm by 140 K by the difference of 9.45e-6 is 15.9 um."""
    assert press.hot_interference(0.02, 12, 21.15e-6, 11.7e-6, 160) - 0.02 == pytest.approx(0.0159, abs=5e-5)
    assert press.hot_interference(0.02, 12, 11.5e-6, 21.75e-6, 160) < 0.02


@pytest.mark.parametrize(("inside", "outside"), [(12.0, 30.0), (0.0, 12.0), (0.0, 8.0)])
def test_no_wall_no_fit(inside, outside):
    with pytest.raises(ValueError, match="no wall"):
        press.fit_pressure(0.02, 12, outside, 110e3, 0.26, inside, 210e3, 0.3)
