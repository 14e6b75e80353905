"""The narrowest neck of an outline against shapely: worn off by a little less than half of it all round, it is still one piece."""

from itertools import product
from math import cos, radians, sin

import pytest
from shapely.geometry import Polygon

from parts.geometry.neck import narrowest

SHAPES = {  # two blocks and a bar between them; a slot that comes near to the far side; a bent bar; a wedge
    "bar": [
        (0, 0),
        (20, 0),
        (20, 8),
        (45, 8),
        (45, 0),
        (70, 0),
        (70, 22),
        (45, 22),
        (45, 12),
        (20, 12),
        (20, 22),
        (0, 22),
    ],
    "slot": [(0, 0), (60, 0), (60, 40), (33, 40), (33, 5), (30, 5), (30, 40), (0, 40)],
    "elbow": [(0, 0), (30, 0), (30, 26), (60, 26), (60, 60), (26, 60), (26, 30), (0, 30)],
    "wedge": [(0, 0), (30, 0), (36, 12), (42, 0), (80, 0), (80, 30), (41, 30), (36, 17), (31, 30), (0, 30)],
}


@pytest.mark.parametrize(("shape", "turned", "far"), list(product(SHAPES, (0.0, 33.0, 90.0, 201.0), (1, 40))))
def test_a_neck_is_where_wear_parts_the_piece(shape, turned, far):
    c, s = cos(radians(turned)), sin(radians(turned))
    points = [(c * x - s * y + 7 * far, s * x + c * y - 11 * far) for x, y in SHAPES[shape]]
    neck = narrowest(tuple((x, y, 0.0) for x, y in points))
    pieces = [Polygon(points).buffer(-neck / 2 * share, quad_segs=64) for share in (0.99, 1.01)]
    assert [piece.geom_type for piece in pieces] == ["Polygon", "MultiPolygon"]


def test_a_stout_piece_has_no_neck_but_its_shorter_side():
    """Across a block of 16 by 10 mm it is 10, and only 26 round to the other side: nothing to break at."""
    assert narrowest(((0, 0, 0), (16, 0, 0), (16, 10, 0), (0, 10, 0))) == pytest.approx(10, abs=1e-9)
