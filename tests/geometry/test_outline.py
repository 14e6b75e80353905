"""Plane outlines against closed forms, brute force and a library that did not draw them."""

from itertools import pairwise
from math import acos, cos, hypot, inf, pi, sin, sqrt, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPoint, Point, Polygon

from parts.errors import JobError
from parts.geometry import outline as o
from parts.geometry.lands import least_land
from parts.geometry.offset import offset

CORNERS = [(30.0, 29.0), (-30.0, 29.0), (-30.0, -29.0), (30.0, -29.0)]
GASKET = o.band([(x, y, 12.0) for x, y in CORNERS])
SMILE = ((10.0, 0.0, 1.0), (-10.0, 0.0, 0.0), (-6.0, 0.0, -1.0), (6.0, 0.0, 0.0))  # a half ring, one arc turning right
SLOT = ((-20.0, -5.0, 0.0), (20.0, -5.0, 1.0), (20.0, 5.0, 0.0), (-20.0, 5.0, 1.0))
ALL = pytest.mark.parametrize(
    "loop", [GASKET, SMILE, SLOT, o.circle(3, -2, 7)], ids=["band", "smile", "slot", "circle"]
)

small = st.floats(-50, 50)
circles = st.lists(st.tuples(small, small, st.floats(0.5, 30)), min_size=1, max_size=7)
cluster = st.lists(
    st.tuples(*[st.integers(-3, 3).map(float)] * 2, st.integers(0, 2).map(float)), min_size=3, max_size=9
)


def fine(loop, sagitta=1e-7):
    return Polygon(o.flatten(loop, sagitta))


def on_edge(loop, count=400):
    """Points on the true edge, by a parametrisation of its own."""
    for e in o.edges(loop):
        for k in range(count):
            t = k / count
            if not e.bulge:
                yield e.x0 + t * (e.x1 - e.x0), e.y0 + t * (e.y1 - e.y0)
                continue
            (cx, cy), half, (mx, my) = e.centre, e.sweep / 2, e.middle
            a = (2 * t - 1) * half
            yield cx + (mx - cx) * cos(a) - (my - cy) * sin(a), cy + (mx - cx) * sin(a) + (my - cy) * cos(a)


def test_areas_are_the_closed_forms():
    assert o.signed_area(o.circle(3, 4, 5)) == pytest.approx(25 * pi, rel=1e-14)
    assert o.signed_area(o.rectangle(60, 40, 8)) == pytest.approx(60 * 40 - (4 - pi) * 64, rel=1e-14)
    assert o.signed_area(o.rectangle(60, 40)) == 2400
    assert o.signed_area(SLOT) == pytest.approx(400 + 25 * pi, rel=1e-14)
    assert o.signed_area(SMILE) == pytest.approx(pi / 2 * (100 - 36), rel=1e-14)
    assert o.signed_area(GASKET) == pytest.approx(60 * 58 + 2 * 12 * (60 + 58) + 144 * pi, rel=1e-14)


@ALL
def test_areas_are_those_of_a_fine_polygon(loop):
    assert o.signed_area(loop) == pytest.approx(fine(loop, 1e-8).area, rel=1e-8)
    assert o.signed_area(loop) == -o.signed_area(o.transformed(loop, mirrored=True))


@pytest.mark.parametrize("angle", [1e-5, 0.9e-3, 1.1e-3, 0.1])
def test_the_area_of_a_short_arc_loses_no_digits(angle):
    bulge = tan(angle / 4)
    lens = ((0.0, 0.0, bulge), (10.0, 0.0, 0.0))
    radius = 5 / sin(angle / 2)
    series = radius**2 / 2 * angle**3 / 6 * (1 - angle**2 / 20 + angle**4 / 840)
    assert o.signed_area(lens) == pytest.approx(series, rel=1e-9)


def test_a_sheet_is_its_outer_loop_less_its_holes():
    sheet = o.Region(GASKET, (o.Hole(0, 0, 58.2, "BORE"), o.Hole(30, 29, 8.5, "STUD HOLES")))
    clockwise = o.Region(o.transformed(GASKET, mirrored=True), sheet.holes)
    expected = 60 * 58 + 24 * 118 + 144 * pi - pi / 4 * (58.2**2 + 8.5**2)
    assert o.area(sheet) == pytest.approx(expected, rel=1e-14)
    assert o.area(clockwise) == pytest.approx(expected, rel=1e-14)


@ALL
@pytest.mark.parametrize("point", [(0.0, 0.0), (3.0, 1.0), (25.0, 3.0), (-40.0, 33.0), (0.0, 12.0), (0.0, -8.0)])
def test_distance_and_side_by_brute_force(loop, point):
    brute = min(hypot(x - point[0], y - point[1]) for x, y in on_edge(loop))
    assert o.distance(loop, *point) <= brute + 1e-12
    assert o.distance(loop, *point) == pytest.approx(brute, abs=2e-3)
    assert o.inside(loop, *point) == fine(loop, 1e-4).contains(Point(point))


def test_distances_are_exact():
    assert o.distance(SLOT, 0, 0) == 5
    assert o.distance(SLOT, 22, 0) == pytest.approx(3, abs=1e-14)  # to the arc, not its chord
    assert o.distance(SLOT, 20, 0) == pytest.approx(5, abs=1e-14)  # at the arc's centre
    assert o.distance(SMILE, 0, -3) == pytest.approx(sqrt(45), abs=1e-14)  # beside both arcs: to an end
    assert o.distance(o.circle(0, 0, 7), 0, 0) == pytest.approx(7, abs=1e-14)


@settings(max_examples=60)
@given(small, small)
def test_side_of_any_point(x, y):
    for loop in (GASKET, SMILE, o.transformed(SLOT, 3, 4, 30)):
        if o.distance(loop, x, y) > 1e-3:
            assert o.inside(loop, x, y) == fine(loop, 1e-4).contains(Point(x, y))


def test_side_of_a_point_of_an_outline_with_an_odd_number_of_edges():
    triangle = ((0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (0.0, 10.0, 0.0))
    assert o.inside(triangle, 2.0, 3.0)
    assert not o.inside(triangle, 6.0, 6.0)
    assert not o.inside(triangle, -2.0, 3.0)


def test_points_level_with_vertices_and_with_the_tops_of_arcs():
    assert [o.inside(SLOT, x, 0.0) for x in (-26, -24.9, 0, 24.9, 26)] == [False, True, True, True, False]
    assert [o.inside(SMILE, x, 0.0001) for x in (-11, -8, 0, 8, 11)] == [False, True, False, True, False]
    assert [o.inside(SMILE, x, 6.0) for x in (-9, -7, 9)] == [False, True, False]
    assert not o.inside(o.circle(0, 0, 5), -9, 5)


def test_least_land():
    bore, stud = o.Hole(0, 0, 58.2, "BORE"), o.Hole(30, 29, 8.5, "STUD HOLES")
    assert least_land(o.Region(GASKET, (stud,))) == pytest.approx(12 - 4.25)
    assert least_land(
        o.Region(
            GASKET,
            (
                bore,
                o.Hole(30, 29, 12, "STUD HOLES"),
            ),
        )
    ) == pytest.approx(6)
    assert least_land(
        o.Region(
            GASKET,
            (
                bore,
                o.Hole(28, 27, 8.5, "STUD HOLES"),
            ),
        )
    ) == pytest.approx(hypot(28, 27) - 33.35)
    assert least_land(o.Region(GASKET, ())) == inf
    overlapping = o.Hole(20, 20, 8.5, "PASSAGES")
    assert least_land(
        o.Region(
            GASKET,
            (
                bore,
                overlapping,
            ),
        )
    ) == pytest.approx(-5.065729)
    assert least_land(o.Region(GASKET, (o.Hole(0, 38, 10, "PASSAGES"),))) == pytest.approx(
        -2
    )  # centre inside, sticks out
    assert least_land(o.Region(GASKET, (o.Hole(0, 44, 10, "PASSAGES"),))) == pytest.approx(-8)  # centre outside
    assert least_land(o.Region(GASKET, (o.Hole(0, 90, 10, "PASSAGES"),))) == pytest.approx(
        -54
    )  # not in the part at all


@settings(max_examples=80, deadline=None)
@given(circles)
def test_a_band_is_the_hull_of_its_circles(rounds):
    loop = o.band(rounds)
    hull = MultiPoint([p for c in rounds for p in o.flatten(o.circle(*c), 1e-3)]).convex_hull
    assert o.signed_area(loop) == pytest.approx(hull.area, abs=1e-3 * hull.length)
    assert o.bounds(loop) == pytest.approx(
        (
            min(x - r for x, _, r in rounds),
            min(y - r for _, y, r in rounds),
            max(x + r for x, _, r in rounds),
            max(y + r for _, y, r in rounds),
        ),
        abs=1e-7,
    )


@settings(max_examples=150, deadline=None)
@given(cluster)
def test_a_band_round_circles_in_line_and_inside_each_other(rounds):
    hull = MultiPoint([p for x, y, r in rounds for p in (o.flatten(o.circle(x, y, r), 1e-3) if r else [(x, y)])])
    if hull.convex_hull.geom_type != "Polygon":
        return
    loop = o.band(rounds)
    assert o.signed_area(loop) == pytest.approx(hull.convex_hull.area, abs=1e-3 * hull.convex_hull.length)
    assert all(e.chord > 1e-9 and e.bulge >= 0 for e in o.edges(loop))


def test_a_band_round_one_circle_is_that_circle():
    assert o.band([(1.0, 2.0, 3.0), (1.5, 2.0, 1.0)]) == o.circle(1, 2, 3)
    assert o.as_circle(o.band([(0.0, 0.0, 5.0)] * 3)) == pytest.approx((0, 0, 5))


def test_a_round_hull_keeps_its_two_tangents():
    big, little, apart = 36.0, 10.0, 40.0
    lean = acos((big - little) / apart)
    tangents = 2 * apart * sin(lean) * (big + little) / 2
    expected = tangents + big**2 * (pi - lean) + little**2 * lean
    assert o.signed_area(o.band([(0, 0, big), (0, apart, little)])) == pytest.approx(expected, rel=1e-13)


@settings(max_examples=60, deadline=None)
@given(circles, st.floats(-0.4, 5))
def test_an_offset_band_is_the_band_of_larger_circles(rounds, d):
    try:
        moved = offset(o.band(rounds), d)
    except JobError:
        assert d < 0
        return
    larger = o.band([(x, y, r + d) for x, y, r in rounds])
    assert o.signed_area(moved) == pytest.approx(o.signed_area(larger), rel=1e-9, abs=1e-6)
    assert o.bounds(moved) == pytest.approx(o.bounds(larger), abs=1e-6)


@pytest.mark.parametrize("mirrored", [False, True])
def test_offsets_either_way_round(mirrored):
    loop = o.transformed(SMILE, mirrored=mirrored)
    around = Polygon(o.flatten(loop, 1e-5)).buffer(0.5, quad_segs=400)
    assert abs(o.signed_area(offset(loop, 0.5))) == pytest.approx(around.area, rel=0.02)  # its two tips are not mitred
    slot = o.transformed(SLOT, mirrored=mirrored)
    assert abs(o.signed_area(offset(slot, 1))) == pytest.approx(40 * 12 + 36 * pi)
    assert abs(o.signed_area(offset(slot, -1))) == pytest.approx(40 * 8 + 16 * pi)
    ell = o.transformed(o.polygon([(0, 0), (30, 0), (30, 10), (10, 10), (10, 30), (0, 30)]), mirrored=mirrored)
    assert abs(o.signed_area(offset(ell, 1))) == pytest.approx(32 * 12 + 12 * 20)  # mitred, the inner corner too
    waist = ((-20.0, -10.0, 0.0), (20.0, -10.0, 1.0), (20.0, 10.0, 0.0), (-20.0, 10.0, -1.0))
    with pytest.raises(JobError, match="spike"):
        offset(waist, 1)


def test_an_arc_that_turns_right_shrinks_as_the_outline_grows():
    r, bulge = 5.0, tan(pi / 8)  # an L whose inner corner has a radius
    ell = ((0, 0, 0), (30, 0, 0), (30, 10, 0), (10 + r, 10, -bulge), (10, 10 + r, 0), (10, 30, 0), (0, 30, 0))
    moved = offset(ell, 2)
    assert min(e.radius for e in o.edges(moved)) == pytest.approx(3)
    assert max(abs(o.distance(ell, *e.middle) - 2) for e in o.edges(moved)) < 1e-12
    with pytest.raises(JobError, match="leaves nothing of the edge at \\(15, 10\\)"):
        offset(ell, 5)


def test_offsets_that_leave_nothing_are_refused():
    for loop, d in ((SLOT, -5.0), (o.circle(0, 0, 3), -3.0), (o.rectangle(10, 10), -5.0), (o.rectangle(10, 10), -7.0)):
        with pytest.raises(JobError, match="leaves nothing"):
            offset(loop, d)
    dumbbell = [
        (0, 0),
        (10, 0),
        (10, 4),
        (20, 4),
        (20, 0),
        (30, 0),
        (30, 10),
        (20, 10),
        (20, 6),
        (10, 6),
        (10, 10),
        (0, 10),
    ]
    assert o.signed_area(offset(o.polygon(dumbbell), -0.9)) == pytest.approx(2 * 8.2**2 + 11.8 * 0.2)
    with pytest.raises(JobError, match="cross itself"):
        offset(o.polygon(dumbbell), -1.5)
    with pytest.raises(JobError, match="spike"):
        offset(((0, 0, 0), (10, 0, 0), (0, 1e-9, 0)), 1)


def test_offset_by_nothing_and_there_and_back():
    assert [v for vertex in offset(GASKET, 0) for v in vertex] == pytest.approx(
        [v for vertex in GASKET for v in vertex]
    )
    back = offset(offset(GASKET, 1.5), -1.5)
    assert [v for vertex in back for v in vertex] == pytest.approx([v for vertex in GASKET for v in vertex])


def test_transformed_mirrors_then_turns_then_moves():
    ((x, y, bulge), *_) = o.transformed(((2.0, 1.0, 0.5), (0.0, 0.0, 0.0)), 10, 20, 90, mirrored=True)
    assert (x, y, bulge) == pytest.approx((10 - 1, 20 - 2, -0.5))
    assert o.signed_area(o.transformed(SMILE, 3, 4, 77)) == pytest.approx(o.signed_area(SMILE))


@pytest.mark.parametrize("turned", [0, 30, 45, 200])
def test_bounds_are_those_of_the_arcs(turned):
    for loop in (SMILE, SLOT, GASKET):
        turned_loop = o.transformed(loop, 1, 2, turned)
        points = list(on_edge(turned_loop))
        xs, ys = [x for x, _ in points], [y for _, y in points]
        box = o.bounds(turned_loop)
        assert box == pytest.approx((min(xs), min(ys), max(xs), max(ys)), abs=1e-3)
        assert box[0] <= min(xs) + 1e-12
        assert box[3] >= max(ys) - 1e-12
    assert o.bounds(o.circle(1, 2, 5)) == pytest.approx((-4, -3, 6, 7), abs=1e-14)


@ALL
@pytest.mark.parametrize("sagitta", [1.0, 0.01, 1e-5])
def test_flattened_points_lie_on_the_edge_and_chords_near_it(loop, sagitta):
    points = o.flatten(loop, sagitta)
    assert max(o.distance(loop, *p) for p in points) < 1e-9
    middles = [((x0 + x1) / 2, (y0 + y1) / 2) for (x0, y0), (x1, y1) in pairwise(points)]
    assert max(o.distance(loop, *m) for m in middles) <= sagitta * 1.000001


def test_a_circle_is_known_as_one():
    assert o.as_circle(o.circle(3, 4, 5)) == pytest.approx((3, 4, 5))
    quarters = tuple((5 * cos(k * pi / 2), 5 * sin(k * pi / 2), tan(pi / 8)) for k in range(4))
    assert o.as_circle(quarters) == pytest.approx((0, 0, 5))
    assert o.as_circle(SLOT) is None
    assert o.as_circle(((5.0, 0.0, 1.0), (-5.0, 0.0, 1.0 + 1e-6))) is None
    assert o.as_circle(((5.0, 0.0, 1.0), (-5.0, 0.0, -1.0))) is None


def test_polygons_that_cross_touch_or_fold():
    square = [(0, 0), (10, 0), (10, 10), (0, 10)]
    assert not o.crosses_itself(square)
    assert not o.crosses_itself([*square[:2], (10, 5), *square[2:]])  # a point on a straight side
    assert o.crosses_itself([(0, 0), (10, 10), (10, 0), (0, 10)])  # a bow tie
    assert o.crosses_itself([*square, (0, 0)])  # closed by a point given twice
    assert o.crosses_itself([(0, 0), (10, 0), (10, 10), (5, 0), (0, 10)])  # touches
    assert o.crosses_itself([(0, 0), (10, 0), (5, 0), (5, 5)])  # folds back
    assert o.crosses_itself([(0, 0), (10, 0), (0, 0), (5, 5)])  # runs back to a point
    assert o.crosses_itself([(5, 0), (5, 5), (0, 0), (10, 0)])  # folds back at the end of the list
    assert o.crosses_itself([(0, 0), (10, 0), (4, 0)])  # no area
    assert not o.crosses_itself([(0, 0), (0, 10), (3, 3)])
    assert not o.crosses_itself([(0, 0), (0.25, 0), (0.5, 0), (0.5, 0.5), (0, 0.5)])  # small, and on along a side


@pytest.mark.parametrize("shift", [(0, 0), (7, 0), (0, 7), (-9, 4), (20, -30), (-3, -3)])
def test_a_fold_is_one_wherever_it_lies_and_whichever_way_it_points(shift):
    for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)):
        for far, folds in ((4, True), (9, True), (15, False)):  # 4 back from 10, 9 back, and on to 15
            points = [
                (n * x - m * y + shift[0], n * y + m * x + shift[1]) for n, m in ((0, 0), (10, 0), (far, 0), (5, 5))
            ]
            assert o.crosses_itself(points) is folds
            assert Polygon(points).is_valid is not folds


@settings(max_examples=150, deadline=None)
@given(st.lists(st.tuples(st.integers(-4, 4), st.integers(-4, 4)), min_size=3, max_size=8))
def test_crossing_agrees_with_another_library(points):
    assert o.crosses_itself(points) == (len(set(points)) < len(points) or not Polygon(points).is_valid)


def test_three_points_are_an_outline():
    """Sides of 30 and 40 at a right angle."""
    assert o.signed_area(o.polygon([(0, 0), (30, 0), (0, 40)])) == pytest.approx(600)


def test_a_corner_rounder_than_the_shorter_side_allows_is_refused():
    assert o.signed_area(o.rectangle(40, 20, 10)) == pytest.approx(20 * 20 + pi * 10**2)
    for width, height, corner in ((40, 20, 10.5), (20, 40, 10.5), (40, 20, -1), (0, 20, 0), (40, -1, 0)):
        with pytest.raises(JobError, match="do not fit"):
            o.rectangle(width, height, corner)


def test_a_polygon_is_refused_with_its_reason():
    with pytest.raises(JobError, match="2 points needs at least 3"):
        o.polygon([(0, 0), (1, 1)])
    with pytest.raises(ValueError, match="must not cross"):
        o.polygon([(0, 0), (10, 10), (10, 0), (0, 10)])
    for wrong in (0, -1):
        with pytest.raises(JobError, match="radius over 0"):
            o.circle(0, 0, wrong)
    for size in ((10, 10, 5.1), (10, 10, -1), (0, 10, 0)):
        with pytest.raises(JobError, match="do not fit"):
            o.rectangle(*size)


def test_the_widest_corners_leave_no_edge_of_no_length():
    assert len(o.rectangle(20, 10, 5)) == 4
    assert o.as_circle(o.rectangle(10, 10, 5)) == pytest.approx((0, 0, 5))


def test_svg_path_turns_y_down():
    assert o.svg_path(SLOT) == "M-20 5L20 5A5 5 0 0 0 20 -5L-20 -5A5 5 0 0 0 -20 5Z"
    right = o.svg_path(((0.0, 0.0, 0.0), (8.0, 0.0, 0.0), (8.0, 4.0, -0.25), (0.0, 4.0, 2.0)))
    assert right == "M0 0L8 0L8 -4A8.5 8.5 0 0 1 0 -4A2.5 2.5 0 1 0 0 0Z"
