"""Sound metal behind a thread: rays cut by another library, and by hand."""

from math import asin, cos, degrees, pi, sin

import pytest
from shapely.geometry import LineString, Point

from parts.relations.deck import share_in_filler
from parts.relations.fills import leaning_circle

RAYS = 3600
CASES = [  # distance, pitch diameter, tapped major, wall wanted, old hole
    pytest.param(2.81, 11.026, 11.949, 5.97, 9.6, id="well into the filler"),
    pytest.param(10.85, 11.026, 11.949, 5.97, 9.6, id="a wall of 0.08"),
    pytest.param(14.1, 11.026, 11.949, 5.97, 9.6, id="a wall of 3.3"),
    pytest.param(7.0, 9.0, 10.0, 5.0, 6.0, id="half out"),
    pytest.param(1.0, 9.0, 10.0, 5.0, 16.0, id="all in filler"),
    pytest.param(0.5, 9.0, 10.0, 5.0, 6.0, id="all round a smaller hole"),
    pytest.param(20.0, 9.0, 10.0, 5.0, 6.0, id="clear"),
]


@pytest.mark.parametrize(("distance", "pitch", "major", "wall", "old"), CASES)
def test_the_share_is_that_of_rays_through_filler(distance, pitch, major, wall, old):
    """Rays from the pitch line to the back of the wall, each held against the disc of filler, by shapely."""
    filler = Point(distance, 0).buffer(old / 2, quad_segs=500)
    turned = [2 * pi * (n + 0.5) / RAYS for n in range(RAYS)]
    ends = (pitch / 2, major / 2 + wall)
    rays = [LineString([(r * cos(a), r * sin(a)) for r in ends]) for a in turned]
    counted = sum(ray.intersects(filler) for ray in rays) / RAYS
    circle = leaning_circle(distance, pitch, major, wall, old)
    assert share_in_filler(distance, circle, old) == pytest.approx(counted, abs=2 / RAYS)


def test_where_the_tangents_reach_it_is_the_angle_between_them():
    """An old hole of 6 mm, 10 mm off, is seen under 2 asin(3/10), which is 34.92 degrees of 360."""
    share = share_in_filler(10.0, leaning_circle(10.0, 9.0, 10.0, 5.0, 6.0), 6.0)
    assert share * 360 == pytest.approx(2 * degrees(asin(0.3)))
