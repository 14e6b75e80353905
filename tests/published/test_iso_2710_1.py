"""ISO 2710-1: swept volume, clearance volume, compression ratio as it defines them."""

import pytest

from parts.relations import compression


def test_ratio_is_the_whole_over_the_clearance():
    """The engine that octane numbers are measured with, ASTM D 2699 (memory): 3.25 by 4.50 in, 37.33 in^3, ratio 4 to 18."""
    swept = compression.swept_volume(3.25 * 25.4, 4.5 * 25.4)
    assert swept / 25.4**3 == pytest.approx(37.33, abs=0.005)
    assert compression.ratio(swept, swept / 3) == pytest.approx(4)
    assert compression.ratio(swept, swept / 17) == pytest.approx(18)


def test_air_without_loss():
    """Ideal gas, exponent 1.4, 8 to 1 from one atmosphere: 18.62 bar absolute; real air 18.38 by its tables."""
    gauge = compression.cranking_pressure(8, 1.4)
    assert gauge * 10 + 1.01325 == pytest.approx(18.62, abs=5e-3)
    assert gauge * 10 + 1.01325 == pytest.approx(18.38, rel=0.015)
