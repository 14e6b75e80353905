"""Single edges by brute force: every answer against ten thousand points of the edge, placed by a formula of its own."""

from itertools import pairwise
from math import atan, cos, hypot, pi, radians, sin, tan
from random import Random

import pytest

from parts.geometry import forms, outline
from parts.geometry.arcs import fitted
from parts.geometry.edge import Edge
from parts.geometry.lands import boxed, loops_apart, room
from parts.geometry.meeting import apart, carriers_meet, crossings, nearest
from parts.geometry.offset import offset

MANY = 10_000


def drawn(seed):
    """An edge of any bend, long and short arcs to the left and to the right, and lines; and what it was drawn with."""
    chance = Random(seed)  # noqa: S311
    ends = [chance.uniform(-20, 20) for _ in range(4)]
    return Edge(*ends, chance.choice((0.0, 1.0, -1.0, chance.uniform(-4, 4), chance.uniform(-0.2, 0.2)))), chance


def points_of(edge):
    """Points of an edge; of an arc by the angle under which its first end sees them, half the turn still to go."""
    dx, dy = edge.x1 - edge.x0, edge.y1 - edge.y0
    half = 2 * atan(edge.bulge)  # of the arc's turn
    for n in range(MANY + 1):
        t = n / MANY
        if not edge.bulge:
            yield edge.x0 + t * dx, edge.y0 + t * dy
            continue
        turn, way = t * half, hypot(dx, dy) * sin(t * half) / sin(half)
        lean = turn - half
        yield (
            edge.x0 + way * (dx * cos(lean) - dy * sin(lean)) / hypot(dx, dy),
            edge.y0 + way * (dx * sin(lean) + dy * cos(lean)) / hypot(dx, dy),
        )


@pytest.mark.parametrize("seed", range(120))
def test_an_edge_is_its_points(seed):
    edge, chance = drawn(seed)
    points = list(points_of(edge))
    x, y = (chance.uniform(-30, 30) for _ in range(2))
    near = min(points, key=lambda p: hypot(p[0] - x, p[1] - y))
    step = max(hypot(a[0] - b[0], a[1] - b[1]) for a, b in pairwise(points))
    assert edge.distance(x, y) == pytest.approx(hypot(near[0] - x, near[1] - y), abs=step**2)
    assert nearest(edge, x, y) == pytest.approx(near, abs=2 * step)
    assert edge.length == pytest.approx(sum(hypot(a[0] - b[0], a[1] - b[1]) for a, b in pairwise(points)), rel=1e-6)
    xs, ys = zip(*points, strict=True)
    assert boxed(edge) == pytest.approx((min(xs), min(ys), max(xs), max(ys)), abs=step**2)
    assert all(edge.distance(*p) < 1e-9 for p in edge.stations())
    for share in (0, MANY // 3, MANY - 1):
        assert edge.along(*points[share]) == pytest.approx(edge.length * share / MANY, abs=2 * step)
        assert edge.foot(*points[share]) == pytest.approx(points[share])
    ahead, back = (hypot(b[0] - a[0], b[1] - a[1]) for a, b in (points[:2], points[-2:]))
    assert (cos(edge.heading(0)), sin(edge.heading(0))) == pytest.approx(
        [(b - a) / ahead for a, b in zip(*points[:2], strict=True)], abs=1e-3
    )
    assert (cos(edge.heading(1)), sin(edge.heading(1))) == pytest.approx(
        [(b - a) / back for a, b in zip(*points[-2:], strict=True)], abs=1e-3
    )


@pytest.mark.parametrize("seed", range(60))
def test_two_edges_are_apart_by_their_nearest_points(seed):
    (one, _), (other, _) = drawn(seed), drawn(seed + 1000)
    gap = min(other.distance(*p) for p in list(points_of(one))[::5])
    step = 5 * one.length / MANY
    assert apart(one, other) == pytest.approx(gap, abs=step)
    for x, y in crossings(one, other):
        assert one.distance(x, y) + other.distance(x, y) < 1e-6
    assert bool(crossings(one, other)) == (gap < step)


def test_circles_that_only_just_cross():
    """Radii of 5 and 5, 9.96 apart: half the chord is sqrt(25 - 4.98^2), 0.447."""
    one, other = Edge(5, 0, -5, 0, 1.0), Edge(14.96, 0, 4.96, 0, 1.0)
    found = sorted(carriers_meet(one, other))
    assert found == [pytest.approx((4.98, -0.4467), abs=1e-3), pytest.approx((4.98, 0.4467), abs=1e-3)]


def test_outlines_that_overlap_a_little():
    square = outline.rectangle(10, 10)
    beside = outline.transformed(square, 9.6, 3)
    assert loops_apart(square, beside) == pytest.approx(-0.4)
    assert room(square, outline.transformed(outline.rectangle(2, 2), 4.6, 0)) == pytest.approx(-0.6)


def test_room_is_that_of_the_edge_not_of_the_corners_alone():
    """A circle of 6 in a rectangle of 7 by 6.2: its two vertices have 0.5, its top 0.1."""
    assert room(outline.rectangle(7, 6.2), outline.circle(0, 0, 3)) == pytest.approx(0.1)


def test_small_ones():
    assert outline.bounds(outline.rectangle(0.8, 0.5, 0.1)) == pytest.approx((-0.4, -0.25, 0.4, 0.25))
    assert len(outline.flatten(outline.circle(3, 4, 0.002), 0.005)) >= 4  # smaller than what a chord may miss it by
    assert outline.lens(1, 5, 2) == outline.lens(5, 1, 2) == pytest.approx(pi)  # the one within the other
    assert outline.lens(1, 5, 7) == 0


def test_roundings_that_take_the_whole_of_each_side():
    full = forms.cornered([(x, y, 5.0) for x, y in ((3, 7), (13, 7), (13, 17), (3, 17))])
    assert outline.as_circle(full) == pytest.approx((8, 12, 5))
    assert len(full) == 4
    in_line = forms.lobes([(0, 0, 5), (10, 0, 5), (20, 0, 5), (10, 8, 0)])  # the second on its neighbours' tangent
    assert len(in_line) == 6


def test_points_of_a_polygon_are_fitted_by_its_corners():
    corners = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0), (0.0, 0.0)]
    assert fitted(corners, 0.001) == ([(*p, 0.0) for p in corners], 0.0)


@pytest.mark.parametrize("d", [1.5, -1.5])
def test_beside_an_arc_lies_one_about_the_same_centre_and_beside_a_line_a_parallel(d):
    shape = ((10.0, 0.0, 0.4), (-10.0, 0.0, 0.0), (0.0, -12.0, 0.0))
    arc, *lines = outline.edges(shape)
    moved, *others = outline.edges(offset(shape, d))
    assert (*moved.centre, moved.radius) == pytest.approx((*arc.centre, arc.radius + d))
    for line, other in zip(lines, others, strict=True):
        for x, y in ((other.x0, other.y0), (other.x1, other.y1)):
            foot = line.foot(x, y)
            assert hypot(foot[0] - x, foot[1] - y) == pytest.approx(1.5)
    gothic = offset(((8.0, 0.0, tan(pi / 12)), (0.0, 14.0, tan(pi / 12)), (-8.0, 0.0, 0.0)), d)
    assert len(gothic) == 3


@pytest.mark.parametrize(("half", "far"), [(5, True), (30, False)])
@pytest.mark.parametrize("d", [0.1, 0.5, 1.5])
def test_a_tip_is_rounded_where_its_sides_would_meet_far_beyond(half, far, d):
    """Of a tip of twice 5 degrees they meet 11.5 d beyond, of twice 30 degrees 2 d."""
    lens = ((-20.0, 0.0, tan(radians(half) / 2)), (20.0, 0.0, tan(radians(half) / 2)))
    moved = outline.edges(offset(lens, d))
    assert len(moved) == (4 if far else 2)
    assert [edge.radius for edge in moved[1::2] if far] == pytest.approx([d] * (2 if far else 0))


def test_a_sheet_is_cut_by_its_round_holes_and_its_openings():
    sheet = outline.Region(
        outline.rectangle(40, 30), (outline.Hole(3, 4, 8.0, "BORE"),), (outline.Opening(forms.slot(2, 6), "PASSAGES"),)
    )
    hole, slot = sheet.cuts
    assert (outline.as_circle(hole.loop), hole.layer, slot.layer) == ((3, 4, 4), "BORE", "PASSAGES")
