"""ISO 2768-1, table 1: permissible deviations for lengths, class m, as printed [mm]."""

import pytest

from parts.sizing.general import general
from tests.published.status import seen

LENGTHS = seen(  # over, up to, +-
    pytest.param(0.5, 3.0, 0.1, id="0.5 to 3"),
    pytest.param(3.0, 6.0, 0.1, id="3 to 6"),
    pytest.param(6.0, 30.0, 0.2, id="6 to 30"),
    pytest.param(30.0, 120.0, 0.3, id="30 to 120"),
    pytest.param(120.0, 400.0, 0.5, id="120 to 400"),
    pytest.param(400.0, 1000.0, 0.8, id="400 to 1000"),
    pytest.param(1000.0, 2000.0, 1.2, id="1000 to 2000"),
)


@pytest.mark.parametrize(("over", "upto", "half"), LENGTHS)
def test_a_length_is_held_to_the_printed_deviation(over, upto, half):
    assert general(over + 0.001) == general(upto) == half
