"""Turned profiles: volumes against closed forms, and what is refused."""

from math import pi

import pytest

from parts.errors import JobError
from parts.geometry.profile import Profile, bounds, meridian, volume

STUD = ((-20, 0), (-20, 4.2), (-19, 5), (0, 5), (0, 3.1), (50, 3.1), (50, 4), (70, 4), (70, 0))
CYLINDER = ((0, 0), (0, 10), (8, 10), (8, 0))


def test_volume_is_the_sum_of_cylinders_and_cones():
    cone = pi / 3 * (4.2**2 + 4.2 * 5 + 5**2)
    assert volume(Profile(STUD)) == pytest.approx(cone + pi * (25 * 19 + 3.1**2 * 50 + 16 * 20), rel=1e-14)


def test_a_sharp_cone_is_a_third():
    assert volume(Profile(((0, 0), (0, 3), (10, 0)))) == pytest.approx(pi * 9 * 10 / 3)


def test_bores_are_taken_out():
    through = ((0, 0), (0, 6), (8, 6), (8, 0))
    assert volume(Profile(CYLINDER, (through,))) == pytest.approx(pi * 8 * (100 - 36))
    drilled = ((3, 0), (4, 2), (8, 2), (8, 0))
    below = ((0, 0), (0, 3), (2, 3), (2, 0))
    expected = pi * (800 - 4 * 4 - 4 / 3 - 9 * 2)
    assert volume(Profile(CYLINDER, (drilled, below))) == pytest.approx(expected)


def test_a_thin_pin_is_turned():
    assert volume(Profile(((0, 0), (0, 0.2), (8, 0.2), (8, 0)))) == pytest.approx(pi * 0.32)


def test_an_undercut_is_no_fault():
    under = Profile(((0, 0), (0, 5), (4, 5), (3, 8), (10, 8), (10, 0)))
    assert volume(under) == pytest.approx(pi * (4 * 25 - (64 + 40 + 25) / 3 + 64 * 7))


def test_bounds():
    assert bounds(Profile(STUD)) == (-20, 70, 5)


def test_half_section_of_a_ring_and_of_blind_holes():
    ring = Profile(CYLINDER, (((0, 0), (0, 6), (8, 6), (8, 0)),))
    assert meridian(ring) == ((0, 10), (8, 10), (8, 6), (0, 6))
    above = Profile(CYLINDER, (((3, 0), (4, 2), (8, 2), (8, 0)),))
    assert meridian(above) == ((0, 0), (0, 10), (8, 10), (8, 2), (4, 2), (3, 0))
    below = Profile(CYLINDER, (((0, 0), (0, 2), (4, 2), (5, 0)),))
    assert meridian(below) == ((5, 0), (4, 2), (0, 2), (0, 10), (8, 10), (8, 0))
    assert meridian(Profile(CYLINDER)) == CYLINDER


@pytest.mark.parametrize(
    ("points", "bores", "says"),
    [
        pytest.param(((0, 0), (0, 5)), (), "from the axis", id="two points"),
        pytest.param(((0, 1), (0, 5), (5, 5), (5, 0)), (), "from the axis", id="begins off the axis"),
        pytest.param(CYLINDER[::-1], (), "upwards", id="downwards"),
        pytest.param(((0, 0), (0, 5), (5, 0), (6, 5), (6, 0)), (), "r > 0", id="necked to nothing"),
        pytest.param(((0, 0), (0, 5), (5, -1), (6, 5), (6, 0)), (), "r > 0", id="through the axis"),
        pytest.param(((0, 0), (0, 5), (8, 5), (4, 6), (4, 2), (10, 2), (10, 0)), (), "crosses", id="crosses"),
        pytest.param(((0, 0), (0, 5), (0, 5), (8, 5), (8, 0)), (), "crosses", id="a point twice"),
        pytest.param(CYLINDER, (((0, 0), (0, 11), (8, 11), (8, 0)),), "crosses", id="bore wider than the part"),
        pytest.param(CYLINDER, (((0, 0), (0, 10), (8, 10), (8, 0)),), "crosses", id="bore as wide as the part"),
        pytest.param(CYLINDER, (((-1, 0), (4, 2), (8, 2), (8, 0)),), "crosses", id="bore deeper than the part"),
        pytest.param(CYLINDER, (((2, 0), (2, 3), (4, 3), (4, 0)),), "neither end", id="a hole with no mouth"),
        pytest.param(
            CYLINDER, (((2, 0), (8, 3), (8, 0)), ((4, 0), (8, 1), (8, 0))), "neither end", id="one mouth twice"
        ),
        pytest.param(((0, 0), (0, 5), (9, 0)), (((8, 0), (8, 0.1), (9, 0)),), "flat end", id="bore at a point"),
        pytest.param(CYLINDER, (((2, 0), (7, 3), (8, 0)),), "flat end", id="bore with no flat mouth"),
        pytest.param(
            CYLINDER, (((0, 0), (0, 3), (6, 3), (6, 0)), ((4, 0), (4, 2), (8, 2), (8, 0))), "crosses", id="bores meet"
        ),
    ],
)
def test_what_cannot_be_turned_is_refused(points, bores, says):
    with pytest.raises(JobError, match=says):
        Profile(points, bores)
