"""Several parts on a sheet: gaps and edges by shapely, at least as many as go by their boxes, worked by hand for some."""

import pytest
from shapely.geometry import Polygon, box

from parts.errors import JobError
from parts.geometry import forms, outline
from parts.geometry.outline import Region
from parts.shapes.nest import nest

PARTS = {
    "disc": outline.circle(5, -3, 50),
    "three lobes": forms.lobes([(0, 50, 12), (-45, -28, 14), (45, -28, 14)]),
    "five lobes": forms.lobes([(40, 36, 15), (-40, 36, 15), (-44, -30, 14), (0, -52, 9), (44, -30, 14)]),
    "corners": forms.cornered([(40, 0, 6.0), (20, 30, "through"), (-30, 35, 6.0), (-40, -20, 0.0), (0, -5, 3.0)]),
}
SHEETS = [(300, 200), (210, 297), (1000, 500)]
BY_HAND = {  # of discs of 100 mm, a row every 104 mm, or shifted by half a step every 104 sin 60 = 90.07 mm
    (300, 200): 4,  # 2 and 2: 4 + 1.5 x 104 + 100 + 4 = 264, and 4 + 90.07 + 100 + 4 = 198.07
    (1000, 500): 45,  # 9 a row, 9 x 104 + 4 + 52 = 992, of 5: 4 x 90.07 + 108 = 468.3
}


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("name", PARTS)
def test_parts_keep_their_gap_and_lose_none_by_it(name, sheet):
    part = Region(PARTS[name], (outline.Hole(0, 0, 8, "HOLES"),))
    found = nest(part, sheet, "gasket.sheet")
    shapes = [Polygon(outline.flatten(one.outer, 0.005)) for one in found]
    assert all(a.distance(b) >= 3.99 for n, a in enumerate(shapes) for b in shapes[:n])
    assert all(box(4, 4, sheet[0] - 4, sheet[1] - 4).buffer(0.001).contains(shape) for shape in shapes)
    assert all(shape.area == pytest.approx(shapes[0].area, rel=1e-4) for shape in shapes)
    own = Polygon(outline.flatten(part.outer, 0.005))
    for one, shape in zip(found, shapes, strict=True):  # the hole went with its part
        from_hole = [((x - h.x) ** 2 + (y - h.y) ** 2) ** 0.5 for h in one.holes for x, y in shape.exterior.coords]
        assert min(from_hole) == pytest.approx(min((x * x + y * y) ** 0.5 for x, y in own.exterior.coords), abs=0.01)
    by_box = 0
    for turn in range(0, 180, 5):
        left, low, right, high = outline.bounds(outline.transformed(part.outer, turned=turn))
        sides = zip(sheet, (right - left, high - low), strict=True)
        across, up = (int((room - 4 + 1e-6) // (side + 4)) for room, side in sides)
        by_box = max(by_box, across * up)
    assert len(found) >= by_box
    if name == "disc" and sheet in BY_HAND:
        assert len(found) == BY_HAND[sheet]
    if name == "three lobes":  # head to foot
        assert len(found) > by_box


def test_a_sheet_that_holds_none_is_refused():
    with pytest.raises(JobError, match=r"must hold the part of 100 x 100 mm and 4 mm round it, not 107 x 300 mm"):
        nest(Region(PARTS["disc"]), (107, 300), "gasket.sheet")
