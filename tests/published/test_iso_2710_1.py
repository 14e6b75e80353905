"""ISO 2710-1: swept volume, clearance volume, compression ratio as it defines them."""

from math import pi

import pytest

from parts.relations import compression


def test_ratio_is_the_whole_over_the_clearance():
    swept = compression.swept_volume(56, 50)
    assert swept == pytest.approx(pi / 4 * 56**2 * 50)
    assert compression.ratio(swept, swept / 5) == pytest.approx(6)


def test_air_without_loss():
    """Ideal gas, exponent 1.4, 8 to 1 from one atmosphere: 18.62 bar absolute; real air 18.38 by its tables."""
    gauge = compression.cranking_pressure(8, 1.4)
    assert gauge * 10 + 1.01325 == pytest.approx(18.62, abs=5e-3)
    assert gauge * 10 + 1.01325 == pytest.approx(18.38, rel=0.015)
