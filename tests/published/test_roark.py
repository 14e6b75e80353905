"""Roark's Formulas for Stress and Strain: rings under radial loads, circular plates. The formulas are from memory.

They are held against other solvers here: the ring's load as a Fourier series, the plate's slope integrated along its radius.
"""

from math import pi

import pytest
from scipy.integrate import solve_ivp

from parts.relations.ring_pot import grip, jaw_ovality, pot_ovality
from parts.relations.test_plate import bulge, moment


def by_fourier(force, radius, stiffness, terms=400):
    """Three loads are 3 F / (pi R) in every third wave; a wave of n lobes bends by q R^4 / (E I (n^2 - 1)^2) [mm]."""
    waves = (3 * force / (pi * radius) * radius**4 / (stiffness * ((3 * k) ** 2 - 1) ** 2) for k in range(1, terms, 2))
    return 2 * sum(waves)  # of the odd ones crest and hollow, the even ones are alike at a load and midway


@pytest.mark.parametrize(("force", "radius", "modulus", "second"), [(80.0, 27.4, 1e5, 2.742), (300.0, 55.0, 7e4, 40.0)])
def test_a_ring_under_three_loads(force, radius, modulus, second):
    assert jaw_ovality(force, radius, modulus, second) == pytest.approx(
        by_fourier(force, radius, modulus * second), rel=1e-6
    )


def test_blank_and_pot_share_the_load():
    """A pot of no stiffness leaves the bare blank; half of a pot twice as stiff as the blank halves it."""
    bare = jaw_ovality(80.0, 27.4, 1e5, 2.742)
    assert pot_ovality(80.0, 27.4, 1e5, 0.0, 1e5, 2.742) == pytest.approx(bare)
    assert pot_ovality(80.0, 27.4, 1e5, 2 * 2.742, 1e5, 2.742) == pytest.approx(bare / 2)


def test_the_grip_holds_the_cut_by_its_safety():
    """Moment of the jaws' friction about the axis over that of the cut."""
    force = grip(2.5, 12.6, 52.5, 0.12, 57.3)
    assert 3 * force * 0.12 * 57.3 / 2 == pytest.approx(2.5 * 12.6 * 52.5 / 2)


def plate(pressure, loaded, reach, poisson, modulus=2.1e5, thick=6.0):
    """Moment in the middle, and lift, of a plate simply supported at its edge: its slope by the plate's own equation.

    D d/dr(1/r d(r phi)/dr) = Q, Q the shear by length; superposed so that the edge has no moment.
    """
    stiff, edge = modulus * thick**3 / (12 * (1 - poisson**2)), reach / 2

    def shear(r):
        inside = min(r, loaded / 2)
        return pressure * inside**2 / (2 * r)

    def slopes(r, y):
        phi, rate, _ = y
        return [rate, shear(r) / stiff - rate / r + phi / r**2, phi]

    def shot(start):
        first = 1e-6
        got = solve_ivp(slopes, (first, edge), [start * first, start, 0.0], rtol=1e-10, atol=1e-14)
        phi, rate, lift = got.y[:, -1]
        return rate + poisson * phi / edge, lift

    (none, _), (one, _) = shot(0.0), shot(1.0)
    start = -none / (one - none)
    return -stiff * (1 + poisson) * start, -shot(start)[1]


@pytest.mark.parametrize(("loaded", "reach"), [(68.2, 83.4), (40.0, 83.4), (83.3999, 83.4)])
def test_a_plate_under_pressure_in_its_middle(loaded, reach):
    assert moment(0.5, loaded, reach, 0.3) == pytest.approx(plate(0.5, loaded, reach, 0.3)[0], rel=2e-4)


def test_a_plate_under_pressure_all_over():
    """And lifts less where only its middle is loaded."""
    full, part = (plate(0.5, loaded, 83.4, 0.3)[1] for loaded in (83.3999, 68.2))
    assert bulge(0.5, 83.4, 0.3, 2.1e5, 6.0) == pytest.approx(full, rel=2e-4)
    assert part < full
