"""ISO 10123:1990, shear strength of anaerobic retaining compounds: pin 12.7 in a collar 11.1 wide, 442.9 mm2."""

import pytest

from parts.relations import plug, press


def test_specimen_area():
    """442.9 mm2 as printed: what 1 MPa on it holds, and what 1 MPa of a press fit with a friction of 1 would."""
    assert plug.hold_force(1.0, 12.7, 11.10) == pytest.approx(442.9, abs=0.05)
    assert press.push_out_force(1.0, 12.7, 11.10, 1.0) == pytest.approx(442.9, abs=0.05)
    assert press.push_out_force(2.0, 12.7, 11.10, 0.12) == pytest.approx(0.24 * 442.9, abs=0.02)


def test_safeties_divide():
    """15 MPa on 12 by 10 mm, a safety of 3 in all: 1885 N against 565 N of gas at 5 MPa, worked by hand."""
    hold = plug.hold_force(15, 12, 10)
    assert press.allowed_force(hold, 1.5, 2.0, 1.0) == pytest.approx(1885, abs=0.5)
    assert plug.gas_force(12, 5) == pytest.approx(565.5, abs=0.05)
    assert press.hold_times(1885, 565.5) == pytest.approx(3.33, abs=5e-3)
