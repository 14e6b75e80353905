"""ASME VIII-1 appendix 2, 2-5: gasket loads. The rules from memory; m and y of soft copper as printed, table 2-5.1."""

from math import pi

import pytest

from parts import tables
from parts.relations import seal

PSI, INCH = 0.006894757, 25.4


def test_soft_copper_in_table_2_5_1():
    copper = tables.material("copper, annealed")
    assert copper.figure("gasket_m").value == 4.75
    assert copper.figure("gasket_y").value == pytest.approx(13000 * PSI, abs=0.005)


def test_ring_of_half_an_inch():
    """ID 6, OD 7 in, 300 psi, soft copper: N 0.5, b 0.25, G 6.5 in; Wm1 24 492 lbf, Wm2 66 332 lbf with 3.14."""
    width = seal.face_width(7, 6) * INCH
    effective = seal.effective_width(width)
    diameter = seal.effective_diameter(6 * INCH, width, effective)
    assert (width / INCH, effective / INCH, diameter / INCH) == pytest.approx((0.5, 0.25, 6.5))
    lbf = 4.4482216 * pi / 3.14
    assert seal.seating_load(effective, diameter, 13000 * PSI) / lbf == pytest.approx(66332.5, abs=1)
    assert seal.operating_load(diameter, 300 * PSI, effective, 4.75) / lbf == pytest.approx(24492, rel=5e-4)


def test_ring_of_4_mm():
    """Copper ring 56 by 64 mm at 5 MPa, worked by the same rules: Wm1 32 044 N, Wm2 33 790 N."""
    width = seal.face_width(64, 56)
    effective = seal.effective_width(width)
    diameter = seal.effective_diameter(56, width, effective)
    assert (effective, diameter) == (2.0, 60.0)
    assert seal.operating_load(diameter, 5, effective, 4.75) == pytest.approx(32044, abs=1)
    assert seal.seating_load(effective, diameter, 89.63) == pytest.approx(33790, abs=1)


def test_wide_ring_counts_less():
    """As printed in inches, b = 0.5 sqrt(b0) over b0 = 1/4, G = OD - 2 b: ID 6, OD 8: b0 0.5, b 0.3536, G 7.2929 (by hand)."""
    effective = seal.effective_width(1.0 * INCH)
    assert effective / INCH == pytest.approx(0.3536, abs=5e-5)
    assert seal.effective_diameter(6 * INCH, 1.0 * INCH, effective) / INCH == pytest.approx(7.2929, abs=2e-4)


@pytest.mark.parametrize(("width", "effective"), [(0.48, 0.24), (0.5, 0.25), (0.52, 0.2550)])
def test_a_ring_is_wide_from_a_quarter_of_an_inch(width, effective):
    """Printed: b = b0 to 1/4; beyond it 0.5 sqrt(0.26) = 0.2550 (by hand)."""
    assert seal.effective_width(width * INCH) / INCH == pytest.approx(effective, abs=5e-5)


def test_stresses_by_hand():
    """Four studs of 10 kN on 800 mm2 press with 50 MPa; 8 kN of gas, a fifth of it in the studs, take off 8."""
    assert seal.seating_stress(4, 10e3, 800) == 50
    assert seal.working_stress(4, 10e3, 0.2, 8e3, 800) == pytest.approx(50 - 8)


def test_pitch_of_studs():
    """Khurmi and Gupta, A Textbook of Machine Design, ch. 32: at most 28.5 root d, 80.6 mm for 8 mm, 90.1 for 10."""
    assert [round(seal.pitch_limit(d), 1) for d in (8, 10)] == [80.6, 90.1]
