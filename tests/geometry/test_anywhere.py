"""Plane geometry knows no place and no direction: whatever is moved, turned or mirrored comes to the same, moved alike.

The places are such that corners come to lie on the axes, on the diagonals and on each other's coordinates.
"""

from itertools import product
from math import cos, hypot, pi, radians, sin
from random import Random

import pytest
from shapely.geometry import LinearRing, Polygon

from parts.errors import JobError
from parts.geometry import forms, outline
from parts.geometry.arcs import fitted
from parts.geometry.edge import crosses_itself
from parts.geometry.lands import least_land, loops_apart, middle, room, within
from parts.geometry.meeting import apart, crossings
from parts.geometry.neck import narrowest
from parts.geometry.offset import offset
from parts.geometry.outline import Hole, Opening, Region
from parts.geometry.overlap import common_area

PLACES = list(product([(0, 0), (0, 10), (10, 0), (-10, -10), (-7, 3), (20, -40), (6, 4)], (0, 90, 180, 270, 37)))
ANYWHERE = pytest.mark.parametrize(("shift", "turned"), PLACES)
POINTS = [(0, 0, 0.0), (10, 0, 0.0), (10, 10, 0.0), (0, 10, 0.0)]
IN_LINE = [(0, 0, 3.0), (10, 0, 3.0), (20, 0, 3.0), (20, 15, 0.0), (8, 1, 1.0), (0, 0, 3.0)]
LOBES = [(0, 0, 4.0), (20, 2, 6.0), (12, 12, 2.0), (18, 28, 4.0), (-2, 22, 5.0)]
MIXED = [(0, 0, 2.0), (14, -6, "through"), (28, 0, 1.5), (28, 20, 0.0), (14, 8, 0.1), (0, 20, 3.0)]
ELL = outline.polygon([(0, 0), (30, 0), (30, 10), (10, 10), (10, 30), (0, 30)])
BAY = ((10.0, 0.0, 1.0), (-10.0, 0.0, 0.0), (-6.0, 0.0, -1.0), (6.0, 0.0, 0.0))
MOON = ((10.0, 0.0, 1.0), (-10.0, 0.0, -0.9))
BUILT = {
    "band of points": lambda move: outline.band([(*move(x, y), r) for x, y, r in POINTS]),
    "band of circles in line": lambda move: outline.band([(*move(x, y), r) for x, y, r in IN_LINE]),
    "lobes": lambda move: forms.lobes([(*move(x, y), r) for x, y, r in LOBES]),
    "corners": lambda move: forms.cornered([(*move(x, y), r) for x, y, r in MIXED]),
    "polygon": lambda move: outline.polygon([move(x, y) for x, y, _ in POINTS]),
}


def moves(shift, turned):
    """What moves a point, and what moves a loop."""
    c, s = (round(f(radians(turned)), 15) for f in (cos, sin))
    return (
        lambda x, y: (x * c - y * s + shift[0], x * s + y * c + shift[1]),
        lambda loop: outline.transformed(loop, *shift, turned),
    )


def same(one, other):
    """Whether two loops have the same vertices, wherever they begin."""
    assert len(one) == len(other)
    for x, y, bulge in one:
        near = min(other, key=lambda v: hypot(v[0] - x, v[1] - y))
        assert near == pytest.approx((x, y, bulge), abs=1e-9)


@ANYWHERE
@pytest.mark.parametrize("name", BUILT)
def test_a_loop_is_built_alike(name, shift, turned):
    point, loop = moves(shift, turned)
    same(BUILT[name](point), loop(BUILT[name](lambda x, y: (x, y))))


@ANYWHERE
@pytest.mark.parametrize("d", [2.0, -1.0])
def test_an_outline_beside_is_alike(d, shift, turned):
    _, loop = moves(shift, turned)
    for one in (ELL, BUILT["lobes"](lambda x, y: (x, y)), ((10.0, 0.0, 0.4), (-10.0, 0.0, 0.0), (0.0, -12.0, 0.0))):
        same(offset(loop(one), d), loop(offset(one, d)))


@ANYWHERE
def test_where_an_arc_and_its_neighbour_do_not_meet_a_cutter_rolls_round(shift, turned):
    """The tips of half a moon, left by a wheel of 0.5: about each the edge keeps just that radius."""
    _, loop = moves(shift, turned)
    moved = offset(loop(MOON), 0.5)
    same(moved, loop(offset(MOON, 0.5)))
    tips = {v[:2] for v in loop(MOON)}
    rolled = [e for e in outline.edges(moved) if e.bulge and e.radius == pytest.approx(0.5)]
    assert len(rolled) == 2
    assert all(min(hypot(e.centre[0] - x, e.centre[1] - y) for x, y in tips) < 1e-9 for e in rolled)
    assert all(0 < e.sweep < pi for e in rolled)


@pytest.mark.parametrize("way", [1, -1])
@ANYWHERE
def test_measures_are_alike(way, shift, turned):
    def loop(one):
        return outline.transformed(one, *shift, turned, mirrored=way < 0)

    square = outline.rectangle(40, 30)
    slot = outline.transformed(forms.slot(4, 12), 8, 5)
    dot = outline.circle(-8, -4, 3)
    there = [loop(one) for one in (square, slot, dot)]
    hole = middle(loop(dot))
    sheet = Region(there[0], (Hole(*hole, 6.0, "BORE"),), (Opening(there[1], "PASSAGES"),))
    assert outline.area(sheet) == pytest.approx(1200 - 9 * pi - (8 * 4 + 4 * pi))
    assert least_land(sheet) == pytest.approx(6.0)  # the slot's end, 8 + 6 from the middle, to the side at 20
    assert loops_apart(there[1], there[2]) == pytest.approx(hypot(8 - 4 + 8, 5 + 4) - 2 - 3)
    assert room(there[0], there[2]) == pytest.approx(15 - 4 - 3)
    assert within(there[0], *hole) == pytest.approx(11)
    assert narrowest(loop(ELL)) == pytest.approx(10)
    assert common_area([there[0], loop(outline.transformed(square, 35, 20))], all) == pytest.approx(5 * 10)
    assert common_area([loop(BAY), there[0]], all) == pytest.approx(pi * (100 - 36) / 2)
    assert outline.as_circle(there[2]) == pytest.approx((*hole, 3.0))
    one, other = outline.edges(there[0])[:2]
    assert crossings(one, other) == [pytest.approx((one.x1, one.y1))]
    assert apart(*outline.edges(there[0])[::2]) == pytest.approx(40 + 30 - one.chord)  # two opposite sides


@ANYWHERE
def test_a_curve_by_points_is_fitted_alike(shift, turned):
    """Half a circle and two lines are three; the arc's points are true, and a point 0.004 off is told as that."""
    point, _ = moves(shift, turned)
    arc = [(10 * cos(radians(a)), 10 * sin(radians(a))) for a in range(0, 181, 3)]
    points = [(10.0, -8.0), (10.0, -4.0), *arc, (-10.0, -4.0), (-10.0, -8.0)]
    vertices, worst = fitted([point(*p) for p in points], 0.02)
    assert len(vertices) == 4
    assert vertices[-1] == (*point(-10.0, -8.0), 0.0)
    assert worst < 0.02
    arc_alone, exact = fitted([point(*p) for p in arc], 0.02)
    assert (len(arc_alone), exact) == (2, pytest.approx(10 * (1 - cos(radians(1.5))), rel=1e-3))  # the chord's middle
    three, off = fitted([point(*p) for p in arc[:15:7]], 0.2)  # 21 degrees apart: 0.167 from chord to arc
    assert (len(three), off, abs(outline.edges(three)[0].radius)) == (
        2,
        pytest.approx(0.16745, rel=1e-4),
        pytest.approx(10),
    )
    line = [(float(n), 0.0) for n in range(20)]
    for off in (1, 10, 18):
        bent = [(x, 0.004 if n == off else y) for n, (x, y) in enumerate(line)]
        assert fitted([point(*p) for p in bent], 0.02)[1] == pytest.approx(0.004, rel=0.3)


def test_what_crosses_does_so_whatever_is_done_to_it():
    chance = Random(5)  # noqa: S311
    for _ in range(150):
        points = [(chance.randint(-3, 3), chance.randint(-3, 3)) for _ in range(chance.randint(3, 6))]
        ring = LinearRing(points)
        crosses = (
            not ring.is_simple
            or Polygon(points).area == 0
            or any(a == b for a, b in zip(points, points[1:] + points[:1], strict=True))
        )
        for (dx, dy), (a, b, c, d), back in product(
            [(0, 0), (5, 0), (0, -9)], [(1, 0, 0, 1), (0, -1, 1, 0), (-1, 0, 0, 1), (0, 1, 1, 0)], (1, -1)
        ):
            moved = [(a * x + b * y + dx, c * x + d * y + dy) for x, y in points][::back]
            assert crosses_itself(moved) == crosses


def test_a_refusal_names_the_corner_as_it_stands_in_the_file():
    """The rounding that has no room, wherever the list begins: with a point of an arc too."""
    corners = [(14, -2, "through"), (28, 0, 0.0), (28, 20, 40.0), (0, 20, 0.0), (0, 0, 0.0)]
    for start in range(5):
        moved = [*corners[start:], *corners[:start]]
        with pytest.raises(JobError, match=f"corner {moved.index((28, 20, 40.0)) + 1}:"):
            forms.cornered(moved)


def test_a_lobe_within_another_is_refused_and_one_that_just_looks_out_is_not():
    with pytest.raises(JobError, match="one within the other"):
        forms.lobes([(0, 0, 10.0), (4, 0, 6.0)])  # touches it from within
    assert len(forms.lobes([(0, 0, 10.0), (4.001, 0, 6.0)])) == 4
