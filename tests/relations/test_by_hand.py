"""Relations of one line, each against an answer worked by hand in another way; areas of circles from shapely or a table.

Circles (any handbook's table of areas): 4 is 12.566, 8 is 50.265, 8.5 is 56.745, 12 is 113.097, 57.2 is 2569.71, 58.2 is
2660.33, 70 is 3848.45.
"""

from cmath import rect
from math import pi, radians

import numpy as np
import pytest
from scipy.integrate import quad
from shapely.geometry import Point

from parts.geometry.outline import lens
from parts.relations import (
    as_made,
    base,
    bending,
    clamp_plate,
    drop,
    head_fit,
    joint,
    liner,
    mandrel,
    measured,
    ports,
    press,
    ring_bore,
    seal,
    strip,
)

WORKED = [  # what, the relation with its figures, the answer; its working
    # 13.12 half millimetres are 14 begun ones; 13.0 are 13
    ("plate of 6.56", clamp_plate.plate_thickness(6.56), 7.0),
    ("plate of 6.5", clamp_plate.plate_thickness(6.5), 6.5),
    # 6.5 + 7.14 + 7.0 and 1.6 under head and under nut
    ("grip", clamp_plate.grip(6.5, 7.14, 7.0, 1.6), 23.84),
    # 23.84 + 6.8 + 1.25 + 1.25
    ("bolt", clamp_plate.bolt_length(23.84, 6.8, 1.25), 33.14),
    # ISO 898-1, M8: d2 7.188 and d3 6.466, each 0.08 less, and their mean's circle
    ("thin thread", as_made.area_of_thin_thread(36.609, 0.08), pi * ((7.1081 + 6.38641) / 4) ** 2),
    # 746 mm^3 over 2660.33 mm^2
    ("gasket for the ratio", as_made.gasket_for_ratio(1.2, 28000, 27254, 58.2), 1.2 + 0.28042),
    ("pocket", as_made.depth_of_pocket(0.5, 8), 50.265 / 2),
    # 0.8 on each side, and 0.3 to one of them
    ("bare gasket", head_fit.gasket_in_chamber(60.0, 58.4, 0.3), 1.1),
    ("chain", head_fit.chain_slack(0.52), 0.52 + 0.52),
    # sheared: a strip of 26.704 by 3 at 276 MPa; pressed in: 113.097 - 56.745 at 200 MPa
    ("shoulder pressed in", press.shoulder_force(12.0, 8.5, 3.0, 460.0, 200.0), 11270.4),
    ("shoulder sheared", press.shoulder_force(12.0, 8.5, 1.0, 460.0, 200.0), 26.7035 * 276.0),
    # 66 wide from -33 to 33; the stud at 28 has 5 outside it
    ("metal round a stud in the face", joint.room_in_face(66.0, 28.0), 2 * 5.0),
    ("wall of a liner", liner.wall(64.0, 57.2), 32.0 - 28.6),
    # 10.05 um to the metre and kelvin, 140 K, 0.064 m
    ("growth of a liner", liner.growth(64.0, 11.7e-6, 21.75e-6, 160.0), -0.0900480),
    ("a quarter of a cylinder", base.ring_area_each(70.0, 57.2, 4), (3848.45 - 2569.71) / 4),
    # springs of 500, 400 and 2000 kN/mm in series: 2 + 2.5 + 0.5 um to the kN
    ("springs in series", base.series_stiffness(head=2.0, body=2.5, gasket=0.5), 200e3),
    # from 0.9 off: 4.9 from the middle, and 0.1 to spare all round
    ("opened hole", drop.opened_to(8.0, 0.9), 2 * 5.0),
    # 60 degrees from -30, the next at 40: 10 degrees of a circumference of 179.7
    ("bar", ports.gap_between(57.2, -30.0, 60.0, 40.0), 179.699 / 36),
    # from 330 to 30 and on from 40: the same
    ("bar over the zero", ports.gap_between(57.2, 330.0, 60.0, 40.0), 179.699 / 36),
    # 10, 20 and 30 thousandths over 57.2
    ("mean of six", ring_bore.mean_bore(57.2, 57.21, 57.22, 57.2, 57.2, 57.23), 57.21),
    # means of the heights: 57.205, 57.215, 57.19
    ("taper", ring_bore.taper(57.2, 57.21, 57.22, 57.21, 57.17, 57.21), 0.025),
    # radii 28.61 and 28.60: 0.005 each side of their mean
    ("oval", ring_bore.oval_lobe(0.02), (28.61 - 28.60) / 2),
    # the farthest metal of a boss of 24 round 41.5: 53.5 from the middle
    ("ring of the bosses", bending.outside(41.5, 24.0), 2 * 53.5),
    # middle of a face from 29 to 33: 31
    ("lever of a stud", bending.lever(41.5, 66.0, 58.0), 10.5),
    # 4 kN at 10.5 mm, four times
    ("twist of the head", bending.twist(4, 4000.0, 10.5), 168.0),
    # half of what the saw leaves of a mean line of 54.8
    ("half a ring", mandrel.tip_length(57.2, 2.4, 0.5), (172.1593 - 0.5) / 2),
    ("two holes", seal.holes_area(a=4.0, b=8.0), 12.566 + 50.265),
]


@pytest.mark.parametrize(("found", "worked"), [pytest.param(f, w, id=name) for name, f, w in WORKED])
def test_it_is_what_comes_out_by_hand(found, worked):
    assert found == pytest.approx(worked, rel=2e-5)


@pytest.mark.parametrize("turned", [0.0, 33.0, -120.0, 180.0])
def test_a_machines_scales_turn_and_shift_the_deck(turned):
    """A place is a complex number, a turn a factor of length 1."""
    place, zero = complex(30, -29), complex(412.5, -87.25)
    reads = zero + place * rect(1, radians(turned))
    assert measured.machine_x(place.real, place.imag, zero.real, turned) == pytest.approx(reads.real)
    assert measured.machine_y(place.real, place.imag, zero.imag, turned) == pytest.approx(reads.imag)


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [(5.0, 3.0, 4.0), (3.0, 5.0, 6.5), (4.0, 4.0, 1.0), (5.0, 2.0, 3.0), (2.0, 5.0, 1.0), (3.0, 4.0, 7.0)],
)
def test_what_two_circles_share_is_what_shapely_cuts_out(one, other, apart):
    a, b = (Point(x, 0).buffer(r, quad_segs=4000) for x, r in ((0, one), (apart, other)))
    assert lens(one, other, apart) == pytest.approx(a.intersection(b).area, rel=1e-5, abs=1e-6)


def test_a_twisted_rings_stress_and_lift_by_integration():
    """Turned by an angle a, a fibre at radius r and height y is stretched by a y / r: the moment of one half's pull is M / 2 pi."""
    moment, thick, inner, outer, modulus, width = 982.1, 46.0, 29.1, 53.725, 73500.0, 3.9
    by_angle = quad(lambda r: modulus / r, inner, outer)[0] * quad(lambda y: y * y, -thick / 2, thick / 2)[0]
    angle = 1000 * moment / (2 * pi) / by_angle
    stress = modulus * angle * (thick / 2) / inner
    assert bending.bending_stress(moment, thick, 2 * inner, 2 * outer) == pytest.approx(stress)
    assert bending.face_lift(moment, thick, 2 * inner, 2 * outer, modulus, width) == pytest.approx(angle * width)


def test_least_height_of_a_nut_is_no_more_than_print_has():
    """ISO 4032, greatest and least height as printed, M5 to M16."""
    printed = [(4.7, 4.4), (5.2, 4.9), (6.8, 6.44), (8.4, 8.04), (10.8, 10.37), (12.8, 12.1), (14.8, 14.1)]
    assert all(strip.least_nut_height(most) <= least for most, least in printed)
    assert np.max([strip.least_nut_height(most) / least for most, least in printed]) > 0.99
