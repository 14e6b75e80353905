"""Shigley, Mechanical Engineering Design, ch. 8: solved problems and examples, with their printed figures.

Problem 8-22 and the frusta of 8-24 and 8-25 as in the solutions to the 7th edition; example 8-3 from memory.
"""

from math import exp

import pytest

from parts.relations import joint, stud
from tests.published.status import seen

LBF, INCH = 4.4482216, 25.4

FRUSTA = seen(  # D and t [in], E [Mpsi], printed k [Mlbf/in], over a bolt of 0.5 in
    pytest.param(0.75, 0.5, 30, 33.30, id="33.3"),
    pytest.param(1.327, 0.11, 14.5, 173.8, id="173.8"),
    pytest.param(0.86, 0.515, 14.5, 21.47, id="21.47"),
    pytest.param(0.75, 0.095, 30, 97.27, id="97.27"),
    pytest.param(0.75, 0.4225, 30, 36.14, id="36.14"),
    pytest.param(1.018, 0.1725, 30, 134.6, id="134.6"),  # the page prints E 70 there: it is 30
    pytest.param(0.75, 0.25, 14.5, 23.49, id="23.49"),
)

SEALED, PEAK, BOLTS, CLASS_8_8 = 150.0, 6.0, 10, 600.0  # problem 8-22; ISO 898-1 has 580 where it takes 600


@pytest.mark.parametrize(("start", "length", "modulus", "printed"), FRUSTA)
def test_a_layer_that_is_all_cone_gives_as_the_frustum_does(start, length, modulus, printed):
    layer = joint.layer_compliance(start, length, length, 0.5, start + 2 * length, modulus)
    assert 1e6 / layer == pytest.approx(printed, rel=6e-4)


@pytest.fixture(scope="module")
def bolt():
    """Stiffness of the bolt: 15 mm of thread at 84.3 mm2 and 30 mm of shank at 113 mm2, E 207 GPa."""
    thread, shank = stud.bar_compliance(15, 207e3, 84.3), stud.bar_compliance(30, 207e3, 113)
    return stud.stiffness(0, thread, shank, 0, 0)


@pytest.fixture(scope="module")
def members():
    """Stiffness of a steel half over an iron half, by the fit k = E d A exp(B d/l) that the solution takes."""
    steel = 207e3 * 12 * 0.78715 * exp(0.62873 * 12 / 40)
    iron = 100e3 * 12 * 0.77871 * exp(0.61616 * 12 / 40)
    assert (steel / 1e3, iron / 1e3) == pytest.approx((2361, 1124), abs=0.5)
    return joint.clamped_stiffness(0, 1e6 / (2 * steel), 0, 1e6 / (2 * iron))


def test_problem_8_22_stiffness(bolt, members):
    assert bolt / 1e3 == pytest.approx(466.8, abs=0.05)
    assert members / 1e3 == pytest.approx(1523, abs=0.5)
    assert joint.stiffness_share(bolt, members) == pytest.approx(0.2346, abs=5e-5)


def test_problem_8_22_loads(bolt, members):
    each = joint.gas_force(SEALED, PEAK) / BOLTS
    assert each / 1e3 == pytest.approx(10.6, abs=0.05)
    proof = joint.proof_load(CLASS_8_8, 84.3)
    preload = joint.preload(0.75, proof)
    assert preload / 1e3 == pytest.approx(37.9, abs=0.05)
    share = joint.stiffness_share(bolt, members)
    assert joint.load_factor(proof, preload, share, each) == pytest.approx(5.1, abs=0.05)


def test_frusta_come_near_the_fit():
    """Two halves of 20 mm in one metal, washer face 1.5 d: the cones against the fit, within 8 %."""
    cones = 1e6 / joint.layer_compliance(18, 20, 20, 12, 18 + 2 * 20, 207e3) / 2
    assert cones == pytest.approx(207e3 * 12 * 0.78715 * exp(0.62873 * 12 / 40), rel=0.08)


def test_example_8_3_torque():
    """3/4-16 UNF, 25 000 lbf, friction 0.15 both ways, bearing ring of mean diameter 1.25 d: 3551 lbf in, K 0.189."""
    pitch = INCH / 16
    lbf_in = LBF * INCH / 1000
    ring = 1.25 * 0.75 * INCH
    full = joint.torque(25000 * LBF, pitch, 0.75 * INCH - 0.649519 * pitch, 30, 0.15, ring) / lbf_in
    assert full == pytest.approx(3551, rel=3e-3)  # the book keeps the product of lead and friction
    assert joint.torque_by_factor(0.2, 25000 * LBF, 0.75 * INCH) / lbf_in == pytest.approx(3750, abs=0.5)
    assert joint.nut_factor(3551 * lbf_in, 25000 * LBF, 0.75 * INCH) == pytest.approx(0.189, abs=5e-4)
