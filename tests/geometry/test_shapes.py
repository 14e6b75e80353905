"""Rounded corners, arcs, lobes, slots, lands, common areas and offsets against shapely, which knows polygons alone."""

from itertools import pairwise
from math import atan2, cos, hypot, pi, radians, sin, tan
from random import Random

import pytest
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from parts.errors import JobError
from parts.geometry import forms, outline
from parts.geometry.arcs import fitted
from parts.geometry.edge import Edge
from parts.geometry.lands import least_land, loops_apart, room
from parts.geometry.meeting import apart
from parts.geometry.neck import narrowest
from parts.geometry.offset import offset
from parts.geometry.overlap import common_area

FINE = 1e-5  # mm: of the polygons that stand for arcs


def polygon(loop):
    return Polygon(outline.flatten(loop, FINE))


def lobed(circles):
    """The same by hulls of two circles each."""
    rounds = [Point(x, y).buffer(r, 512) for x, y, r in circles]
    arms = [unary_union([a, b]).convex_hull for a, b in pairwise([*rounds, rounds[0]])]
    return unary_union([*arms, *([Polygon([c[:2] for c in circles])] if len(circles) > 2 else [])])


def drawn(d):
    """A loop of some form, somewhere."""
    x, y, turned = d.uniform(-30, 30), d.uniform(-30, 30), d.uniform(0, 360)
    form = d.choice(["circle", "slot", "rectangle", "lobes", "corners"])
    if form == "circle":
        return outline.circle(x, y, d.uniform(3, 20))
    if form == "slot":
        width = d.uniform(3, 10)
        return outline.transformed(forms.slot(width, width + d.uniform(0, 20)), x, y, turned)
    if form == "rectangle":
        return outline.transformed(
            outline.rectangle(d.uniform(5, 20), d.uniform(5, 20), d.uniform(0.1, 2)), x, y, turned
        )
    around = sorted(d.uniform(0, 2 * pi) for _ in range(d.randint(3, 7)))
    places = [(x + d.uniform(10, 25) * cos(a), y + d.uniform(10, 25) * sin(a)) for a in around]
    try:
        return (
            forms.lobes([(*p, d.uniform(1, 5)) for p in places])
            if form == "lobes"
            else forms.cornered([(*p, d.uniform(0, 1)) for p in places])
        )
    except JobError:
        return drawn(d)


PAIRS = [pytest.param(n, id=str(n)) for n in range(60)]


@pytest.mark.parametrize("seed", PAIRS)
def test_lands_and_common_areas(seed):
    d = Random(seed)  # noqa: S311
    one, other = drawn(d), drawn(d)
    a, b = polygon(one), polygon(other)
    if (gap := a.distance(b)) > 0.001:
        assert loops_apart(one, other) == pytest.approx(gap, abs=2e-4)
    elif a.intersection(b).area > 0.01:
        assert loops_apart(one, other) <= 0
    if a.contains(b):
        assert room(one, other) == pytest.approx(a.exterior.distance(b), abs=2e-4)
    elif b.difference(a).area > 0.01:
        assert room(one, other) <= 0
    assert common_area([one, other], all) == pytest.approx(a.intersection(b).area, abs=2e-3)
    assert common_area([one, other], lambda w: w[0] and not w[1]) == pytest.approx(a.difference(b).area, abs=2e-3)


@pytest.mark.parametrize("seed", PAIRS[:20])
def test_edges_apart_by_points_along_them(seed):
    d = Random(seed)  # noqa: S311
    one, other = (Edge(*(d.uniform(-9, 9) for _ in range(4)), d.choice((0.0, d.uniform(-2, 2)))) for _ in range(2))

    def points(edge):
        if not edge.bulge:
            return [
                (edge.x0 + (edge.x1 - edge.x0) * n / 2000, edge.y0 + (edge.y1 - edge.y0) * n / 2000)
                for n in range(2001)
            ]
        return edge.at([edge.starts_at + edge.sweep * n / 2000 for n in range(2001)])

    lines = [LineString(points(edge)) for edge in (one, other)]
    assert apart(one, other) == pytest.approx(lines[0].distance(lines[1]), abs=1e-4)
    assert one.length == pytest.approx(lines[0].length, rel=1e-6)


def test_rounded_corners_are_those_of_a_polygon_worn_and_grown():
    """A convex polygon shrunk by r and grown by r again has all its corners rounded with r."""
    corners = [(40, 30), (-35, 42), (-50, -20), (5, -55), (48, -18)]
    loop = forms.cornered([(x, y, 7.0) for x, y in corners])
    worn = Polygon(corners).buffer(-7, join_style="mitre").buffer(7, quad_segs=2000)
    assert polygon(loop).symmetric_difference(worn).area < 0.01
    assert sum(1 for edge in outline.edges(loop) if edge.bulge) == 5
    assert {round(edge.radius, 9) for edge in outline.edges(loop) if edge.bulge} == {7.0}


@pytest.mark.parametrize("turned", range(5, 365, 10))
def test_a_narrow_notch_is_rounded_whichever_way_it_points(turned):
    """A corner that turns by t loses r^2 (tan(t/2) - t/2), one that goes in gains it; a notch of 15 degrees turns by 165."""
    corners = [(0, 0, 3.0), (40, 0, 0.0), (40, 30, 0.0), (22, 30, 0.0), (20, 15, 0.1), (18, 30, 0.0), (0, 30, 0.0)]
    c, s = cos(radians(turned)), sin(radians(turned))
    loop = forms.cornered([(x * c - y * s, x * s + y * c, r) for x, y, r in corners])
    turn = pi - 2 * atan2(2, 15)
    grown = 0.1**2 * (tan(turn / 2) - turn / 2) - 3.0**2 * (1 - pi / 4)
    assert outline.signed_area(loop) == pytest.approx(40 * 30 - 2 * 15 + grown, rel=1e-12)


def test_a_slot_as_wide_as_long_is_a_circle_about_the_origin():
    assert outline.as_circle(forms.slot(8, 8)) == (0, 0, 4)
    assert outline.bounds(forms.slot(4, 10, 90)) == pytest.approx((-2, -5, 2, 5))


def test_an_arc_goes_through_its_point():
    """Three points of a circle by its centre: 5, 12, 13."""
    loop = forms.cornered([(5, 12, 0.0), (-13, 0, "through"), (5, -12, 0.0)])
    assert outline.edges(loop)[0].radius == pytest.approx(13)
    assert outline.edges(loop)[0].centre == pytest.approx((0, 0))
    assert polygon(loop).area == pytest.approx(
        Polygon([(13 * cos(radians(a)), 13 * sin(radians(a))) for a in range(67, 294)]).area, rel=2e-2
    )


ROUNDED = {  # corners, whether they stick out
    "half a disc": ([(20, 0, 4.0), (0, 20, "through"), (-20, 0, 4.0)], True),
    "two arcs": ([(20, 0, 3.0), (0, 9, "through"), (-20, 0, 3.0), (0, -14, "through")], True),
    "more than half a disc": ([(16, 12, 4.0), (-20, 0, "through"), (16, -12, 4.0)], True),
    "a lug on a disc": ([(16, 12, 5.0), (-20, 0, "through"), (16, -12, 5.0), (30, -16, 0.0), (30, 16, 0.0)], False),
    "two discs": ([(0, 15, 6.0), (-36, 0, "through"), (0, -15, 6.0), (36, 0, "through")], False),
    "a disc with a bay": ([(16, 12, 2.5), (-20, 0, "through"), (16, -12, 2.5), (4, 0, "through")], True),
}  # fmt: skip


@pytest.mark.parametrize("name", ROUNDED)
def test_roundings_beside_arcs_are_those_of_a_ball_rolled_round(name):
    """Shrunk by r and grown by r again each corner that sticks out is rounded, the other way about each that goes in."""
    corners, out = ROUNDED[name]
    r = next(c[2] for c in corners if c[2] not in (0.0, "through"))
    loop = forms.cornered(corners)
    sharp = forms.cornered([(x, y, how if how == "through" else 0.0) for x, y, how in corners])
    sharp = Polygon(outline.flatten(sharp, 10 * FINE))  # of finer ones shapely loses a lug
    by = -r if out else r
    rolled = sharp.buffer(by, join_style="mitre").buffer(-by, quad_segs=2000)
    assert polygon(loop).symmetric_difference(rolled).area < 0.02
    assert polygon(loop).symmetric_difference(sharp).area > 0.3
    sides = outline.edges(loop)
    bends = [abs((b.heading(0) - a.heading(1) + pi) % (2 * pi) - pi) for a, b in pairwise([*sides, sides[0]])]
    assert sum(bend > 1e-9 for bend in bends) == sum(c[2] == 0.0 for c in corners)  # the others go over smoothly


@pytest.mark.parametrize("seed", range(200))
def test_any_rounding_touches_both_sides_or_is_refused(seed):
    d = Random(seed)  # noqa: S311
    around = sorted(d.uniform(0, 2 * pi) for _ in range(d.randint(4, 9)))
    corners = [
        (d.uniform(10, 25) * cos(a), d.uniform(10, 25) * sin(a), d.choice((0.0, 1.0, 1.0, "through")))
        for a in around
    ]  # fmt: skip
    try:
        loop = forms.cornered(corners)
    except JobError:
        return
    sides = outline.edges(loop)
    kinks = sum(abs((b.heading(0) - a.heading(1) + pi) % (2 * pi) - pi) > 1e-7 for a, b in pairwise([*sides, sides[0]]))
    assert kinks <= sum(c[2] == 0.0 for c in corners)
    assert sum(edge.radius == pytest.approx(1.0, abs=1e-9) for edge in sides) == sum(c[2] == 1.0 for c in corners)
    assert all(outline.distance(loop, x, y) < 1e-9 for x, y, how in corners if how == 0.0)


@pytest.mark.parametrize("circles", [
    [(40, 36, 15), (-40, 36, 15), (-44, -30, 14), (0, -52, 9), (44, -30, 14)],
    [(44, -30, 14), (0, -52, 9), (-44, -30, 14), (-40, 36, 15), (40, 36, 15)],
    [(34, 34, 12), (0, 20, 6), (-34, 34, 12), (0, -44, 16)],
    [(0, 0, 10), (30, 5, 4)],
])  # fmt: skip
def test_lobes_are_hulls_of_two_and_two(circles):
    assert polygon(forms.lobes(circles)).symmetric_difference(lobed(circles)).area < 0.02


REFUSED = {
    "corner 2": lambda: forms.cornered([(0, 0, 0.0), (10, 0, 6.0), (10, 10, 6.0), (0, 10, 0.0)]),
    "crosses or touches itself": lambda: forms.cornered([(0, 0, 1.0), (10, 10, 0.0), (10, 0, 0.0), (0, 10, 0.0)]),
    "does not go into an arc": lambda: forms.cornered([(20, 0, 20.0), (0, 20, "through"), (-20, 0, 0.0)]),
    "touches both of its sides": lambda: forms.cornered([(20, 0, 11.0), (0, 20, "through"), (-20, 0, 0.0)]),
    "corner 1: it takes 6.02 mm of a side of 4.16 mm": lambda: forms.cornered(
        [(10, 0, 3.0), (10.5, 2, "through"), (10, 4, 3.0), (-10, 4, 0.0), (-10, 0, 0.0)]
    ),
    "two points in a row": lambda: forms.cornered(
        [(0, 0, 0.0), (5, -3, "through"), (9, -3, "through"), (10, 10, 0.0), (0, 10, 0.0)]
    ),
    "has no corner": lambda: forms.cornered([(0, 0, "through"), (9, 0, "through"), (5, 8, "through")]),
    "in line with its ends": lambda: forms.cornered([(0, 0, 0.0), (9, 0, "through"), (5, 0, 0.0), (5, 8, 0.0)]),
    "same corner twice": lambda: forms.cornered([(0, 0, 1.0), (0, 0, 0.0), (9, 0, 1.0), (5, 8, 0.0)]),
    "one within the other": lambda: forms.lobes([(0, 0, 10), (3, 0, 4)]),
    "two lobes at least": lambda: forms.lobes([(0, 0, 10)]),
    "no wider than long": lambda: forms.slot(9, 8),
}


@pytest.mark.parametrize("says", REFUSED)
def test_what_can_not_be_drawn_is_refused(says):
    with pytest.raises(JobError, match=says):
        REFUSED[says]()


@pytest.mark.parametrize("seed", PAIRS[:30])
def test_an_offset_lies_at_its_distance(seed):
    """Every place of it, but for mitred corners, is d from the loop; its area lies between round corners and mitred ones."""
    d = Random(seed)  # noqa: S311
    loop = drawn(d)
    by = d.choice((0.3, -0.3))
    try:
        moved = offset(loop, by)
    except JobError:
        assert by < 0 or outline.as_circle(loop) is None
        return
    line = polygon(loop).exterior
    mitred = polygon(loop).buffer(by, join_style="mitre", mitre_limit=99, quad_segs=200).area
    plain = polygon(loop).buffer(by, quad_segs=200).area
    assert min(plain, mitred) - 0.02 <= abs(outline.signed_area(moved)) <= max(plain, mitred) + 0.02
    assert min(line.distance(Point(*edge.middle)) for edge in outline.edges(moved)) >= 0.3 - 1e-4


def test_a_neck_between_arcs():
    """A waist of two half circles, 4 mm apart where they are nearest: two discs joined by a bar that is worn hollow."""
    waist = (
        (30.0, 12.0, 0.0),
        (10.0, 12.0, -1.0),
        (-10.0, 12.0, 0.0),
        (-30.0, 12.0, 0.0),
        (-30.0, -12.0, 0.0),
        (-10.0, -12.0, -1.0),
        (10.0, -12.0, 0.0),
        (30.0, -12.0, 0.0),
    )
    assert narrowest(waist) == pytest.approx(4.0)


def test_the_land_of_a_sheet_goes_to_every_opening():
    slot = outline.Opening(outline.transformed(forms.slot(6, 18, 90), 43, 0), "PASSAGES")
    sheet = outline.Region(outline.circle(0, 0, 50), (outline.Hole(0, 0, 60, "BORE"),), (slot,))
    assert least_land(sheet) == pytest.approx(min(43 - 3 - 30, 50 - (hypot(43, 6) + 3)))
    assert outline.area(sheet) == pytest.approx(pi * (50**2 - 30**2) - (12 * 6 + 9 * pi))
    other = outline.Region(sheet.outer, sheet.holes, (slot, outline.Opening(outline.circle(43, 13, 3), "PASSAGES")))
    assert least_land(other) == pytest.approx(13 - 6 - 6)


def test_arcs_stay_by_their_points_and_are_few():
    d = Random(7)  # noqa: S311
    loop = forms.lobes([(40, 36, 15), (-40, 36, 15), (0, -52, 9)])
    line = polygon(loop).exterior
    points = [line.interpolate(n * 0.25).coords[0] for n in range(int(line.length / 0.25))]
    rough = [(x + d.uniform(-0.02, 0.02), y + d.uniform(-0.02, 0.02)) for x, y in points]
    vertices, worst = fitted([*rough, rough[0]], 0.05)
    off = [LineString([*outline.flatten(vertices[:-1], 0.0005), vertices[0][:2]]).distance(Point(p)) for p in rough]
    assert max(off) <= 0.051
    assert worst <= 0.05
    assert polygon(vertices[:-1]).symmetric_difference(polygon(loop)).area < 0.06 * polygon(loop).length
    assert len(vertices) < 30


def test_no_arc_goes_round_the_long_way():
    """Three points that turn back on themselves lie on a circle; the arc through them would go where there are none."""
    vertices, _ = fitted([(0.0, 0.0), (0.2, 0.05), (0.05, 0.02), (0.3, 0.3)], 0.2)
    assert all(edge.length < 1 for edge in outline.edges(vertices[:-1]))


def test_a_lobe_in_line_with_its_neighbours_leaves_no_edge_of_no_length():
    """Worked by hand: three circles of radius 1 at 0, 4 and 8; below the middle one the tangents run on as one line."""
    loop = forms.lobes([(0, 0, 1), (4, 0, 1), (8, 0, 1)])
    ends = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise([*loop, loop[0]])]
    assert sorted(round(end, 9) for end in ends) == [2, 2, 4, 4, 8]
    assert outline.signed_area(loop) == pytest.approx(16 + pi)
