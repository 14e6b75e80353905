"""Turned and flat solids against closed forms worked out here."""

from math import asin, cos, hypot, pi, tan

import cadquery
import pytest
from cadquery.func import box, compound, cut, cylinder

from parts.builders import checked, kernel
from parts.builders.flat import plate
from parts.builders.turned import turned
from parts.errors import BuildError, JobError
from parts.geometry import outline
from parts.geometry.outline import Hole, Region
from parts.geometry.profile import Profile

CORNERS = [(30.0, 29.0), (-30.0, 29.0), (-30.0, -29.0), (30.0, -29.0)]
HOLES = (*(Hole(x, y, 8.5, "STUD HOLES") for x, y in CORNERS), Hole(0, 0, 58.2, "BORE"))


def box_of(solid):
    b = solid.BoundingBox(1e-4)
    return b.xmin, b.xmax, b.ymin, b.ymax, b.zmin, b.zmax


def test_a_stepped_stud_stands_on_its_axis():
    profile = Profile(((-20, 0), (-20, 4), (-19, 5), (0, 5), (0, 3.1), (50, 3.1), (50, 4), (70, 4), (70, 0)))
    stud = turned(profile)
    assert stud.ShapeType() == "Solid"
    assert stud.Volume() == pytest.approx(pi * (61 / 3 + 25 * 19 + 3.1**2 * 50 + 16 * 20), rel=1e-9)
    assert box_of(stud) == pytest.approx((-5, 5, -5, 5, -20, 70), abs=1e-3)
    assert stud.Center().toTuple()[:2] == pytest.approx((0, 0), abs=1e-9)


def test_a_ring_has_two_cylinders_and_two_planes():
    ring = turned(Profile(((0, 0), (0, 30), (3, 30), (3, 0)), (((0, 0), (0, 27), (3, 27), (3, 0)),)))
    assert ring.Volume() == pytest.approx(pi * 3 * (900 - 729), rel=1e-9)
    assert sorted(f.geomType() for f in ring.Faces()) == ["CYLINDER", "CYLINDER", "PLANE", "PLANE"]


def test_blind_holes_from_both_ends_with_a_drill_point():
    bores = (((0, 0), (0, 3), (5, 3), (5, 0)), ((20, 0), (22, 3.5), (40, 3.5), (40, 0)))
    solid = turned(Profile(((0, 0), (0, 10), (40, 10), (40, 0)), bores))
    expected = pi * (100 * 40 - 9 * 5 - 3.5**2 * 18 - 3.5**2 * 2 / 3)
    assert solid.Volume() == pytest.approx(expected, rel=1e-9)


def test_a_point_and_an_undercut():
    assert turned(Profile(((0, 0), (0, 3), (10, 0)))).Volume() == pytest.approx(pi * 30, rel=1e-9)
    under = turned(Profile(((0, 0), (0, 5), (4, 5), (3, 8), (10, 8), (10, 0))))
    assert under.Volume() == pytest.approx(pi * (4 * 25 - (64 + 40 + 25) / 3 + 64 * 7), rel=1e-9)


@pytest.mark.parametrize("mirrored", [False, True], ids=["anticlockwise", "clockwise"])
def test_a_gasket_lies_on_the_plane(mirrored):
    outer = outline.transformed(outline.band([(x, y, 12.0) for x, y in CORNERS]), mirrored=mirrored)
    gasket = plate(Region(outer, HOLES), 1.2)
    face = 60 * 58 + 24 * (60 + 58) + 144 * pi - pi / 4 * (4 * 8.5**2 + 58.2**2)
    assert gasket.ShapeType() == "Solid"
    assert gasket.Volume() == pytest.approx(1.2 * face, rel=1e-9)
    assert box_of(gasket) == pytest.approx((-42, 42, -41, 41, 0, 1.2), abs=1e-3)


def test_every_hole_goes_through_where_it_was_drawn():
    gasket = plate(Region(outline.rectangle(90, 80, 6), HOLES), 2)
    round_faces = [f for f in gasket.Faces() if f.geomType() == "CYLINDER"]
    assert len(round_faces) == 4 + 5
    for hole in HOLES:
        near = min(hypot(f.Center().x - hole.x, f.Center().y - hole.y) for f in round_faces)
        assert near == pytest.approx(0, abs=1e-6)


def test_a_round_plate_is_one_cylinder():
    disc = plate(Region(outline.circle(3, 1, 40), (Hole(3, 1, 10, "BORE"),)), 1)
    assert len(disc.Faces()) == 4
    assert disc.Volume() == pytest.approx(pi * (1600 - 25), rel=1e-9)


def test_a_split_ring_is_a_plate_of_arcs():
    gap, outer, inner = 0.2, 28.6, 26.2
    loop, slit = [], 0.0
    for r, way in ((outer, 1), (inner, -1)):
        half = asin(gap / 2 / r)
        slit += way * (r**2 * half + r * cos(half) * gap / 2)
        loop += [(r * cos(half), way * gap / 2, way * tan((pi - half) / 2)), (r * cos(half), -way * gap / 2, 0.0)]
    ring = plate(Region(tuple(loop)), 2.4, "split ring")
    assert ring.Volume() == pytest.approx(2.4 * (pi * (outer**2 - inner**2) - slit), rel=1e-9)
    assert ring.BoundingBox(1e-4).xmin == pytest.approx(-outer, abs=1e-3)


def test_impossible_plates_are_refused_before_the_kernel():
    with pytest.raises(JobError, match="gasket: thickness -1 mm"):
        plate(Region(outline.circle(0, 0, 40)), -1, "gasket")
    with pytest.raises(JobError, match="least land -1 mm"):
        plate(Region(outline.circle(0, 0, 40), (Hole(36, 0, 10, "STUD HOLES"),)), 1)
    with pytest.raises(JobError, match="least land 0 mm"):
        plate(Region(outline.circle(0, 0, 40), (Hole(0, 0, 10, "BORE"), Hole(10, 0, 10, "STUD HOLES"))), 1)


def test_what_the_kernel_throws_names_the_part():
    with pytest.raises(BuildError, match="stepped stud: the kernel could not build it"), kernel("stepped stud"):
        cadquery.Solid.makeBox(0, 0, 0)
    with pytest.raises(JobError, match="a circle needs a radius"), kernel("stepped stud"):
        outline.circle(0, 0, -1)


def test_only_one_valid_solid_of_the_right_volume_passes():
    assert checked(compound(box(2, 3, 4)), "block", 24).ShapeType() == "Solid"
    assert checked(box(2, 3, 4), "block", 24 * (1 + 0.9e-6)).isValid()
    with pytest.raises(BuildError, match=r"block: the solid's volume is 24 mm\^3, by its dimensions 24.00005 mm\^3"):
        checked(box(2, 3, 4), "block", 24.00005)
    with pytest.raises(BuildError, match="made 2"):
        checked(compound(box(1, 1, 1), box(1, 1, 1).moved(x=5)), "pair", 2)
    with pytest.raises(BuildError, match="made 0"):
        checked(cut(box(1, 1, 1), box(9, 9, 9)), "nothing", 1)
    with pytest.raises(BuildError, match="by its dimensions nan"):
        checked(cylinder(2, 3), "unknown", float("nan"))
    inside_out = cadquery.Solid(box(2, 3, 4).wrapped.Reversed())
    for volume in (24, -24):
        with pytest.raises(BuildError, match="volume is -24"):
            checked(inside_out, "inside out", volume)
