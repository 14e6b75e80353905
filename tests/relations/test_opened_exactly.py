"""Stresses, pin and disc, and the round mandrel of an opened ring against the exact elastica, integrated here by scipy.

The bar's equations and the two boundary problems are those of `test_contact_against_elastica.py`.
"""

from math import asin, cos, degrees, hypot, pi, sin

import numpy as np
import pytest
from scipy.optimize import brentq

from parts.checked import check
from parts.relations import mandrel as relation
from parts.relations.contact import Blank
from parts.relations.ring_elastica import on_round
from tests.relations.test_contact_against_elastica import exact_pin, exact_round

RINGS = [  # blank, gap that it is held open by
    pytest.param(Blank(57.295493, 2.4, 2.38, 0.5, 1e5), 9.005263, id="worked job"),
    pytest.param(Blank(57.295493, 2.4, 2.38, 0.5, 1e5), 18.9, id="opened twice as far"),
    pytest.param(Blank(25.1, 25 / 18, 1.2, 0.3, 1.1e5), 4.6, id="small and stiff"),
    pytest.param(Blank(120.2, 4.0, 3.0, 1.0, 1.6e5), 33.0, id="large and slender"),
]
FORM = 'form = "contoured"'


def sizes(ring, gap):
    return {"open_gap": gap, "slit": ring.slit, "outside": ring.outside, "thickness": ring.thickness}


def inner_face(ring, opened):
    """Dense points of one half of the ring's inside, from the back to its corner: half a thickness inside the mean line."""
    corner = pi - asin(ring.slit / 2 / (ring.radius - ring.thickness / 2))  # the saw's sides are parallel
    x, y, turn, _ = opened.sol(np.linspace(0, ring.radius * corner, 4001))
    return x + ring.thickness / 2 * np.cos(turn), y - ring.thickness / 2 * np.sin(turn)


@pytest.mark.parametrize(("ring", "gap"), RINGS)
def test_stress_by_a_pin_is_the_exact_bars(ring, gap):
    opened, _ = exact_pin(ring, gap)
    bent = max(1 / ring.radius - k for k in opened.sol(np.linspace(0, ring.half, 2001))[3])
    found = relation.opened_stress(ring.modulus, **sizes(ring, gap))
    assert found == pytest.approx(ring.modulus * ring.thickness / 2 * bent, rel=1e-8)


@pytest.mark.parametrize(("ring", "gap"), RINGS)
def test_the_lean_of_an_end_by_a_pin_is_the_exact_bars(ring, gap):
    opened, _ = exact_pin(ring, gap)
    lean = ring.half / ring.radius - opened.y[2, -1]
    assert relation.tip_angle(**sizes(ring, gap)) == pytest.approx(lean, rel=1e-7)


@pytest.mark.parametrize(("ring", "gap"), RINGS)
def test_the_disc_touches_the_exact_rings_back_and_corners_and_nothing_else(ring, gap):
    """The largest disc by search: its middle is moved along the axis until the nearest metal is farthest off."""
    opened, _ = exact_pin(ring, gap)
    x, y = inner_face(ring, opened)
    end_x, end_y, turn, _ = opened.y[:, -1]
    lean = ring.half / ring.radius - turn
    corner = end_x - ring.thickness / 2 * cos(lean), end_y - ring.thickness / 2 * sin(lean)

    def nearest(middle):
        return min(np.hypot(x - middle, y).min(), hypot(corner[0] - middle, corner[1]))

    middles = np.linspace(-0.1 * ring.radius, 0.2 * ring.radius, 3001)
    best = max(map(nearest, middles))
    disc = relation.disc_diameter(**sizes(ring, gap))
    assert disc == pytest.approx(2 * best, abs=3e-4 * ring.radius)
    pin = relation.pin_position(**sizes(ring, gap))
    middle = end_x + gap / 2 * np.tan(lean) - pin  # of the disc, from the pin
    assert nearest(middle) == pytest.approx(disc / 2, abs=1e-4)  # the saw cuts its corner a little shorter
    assert middle - x[0] == pytest.approx(disc / 2, abs=1e-6)  # from the back


def test_the_pin_as_first_order_had_it_pulled_the_back_on_to_the_disc():
    """28.817 from the middle of a disc of 53.90, the worked job opened to 9.005: 26.95 to the back's inside, nothing clear."""
    ring = RINGS[0].values[0]
    opened, _ = exact_pin(ring, 9.005263)
    end_x, _, turn, _ = opened.y[:, -1]
    lean = ring.half / ring.radius - turn
    at_pin = end_x + 9.005263 / 2 * np.tan(lean)
    back = -ring.radius + ring.thickness / 2
    assert at_pin - 28.817 - back < 53.90 / 2  # no room at all
    clear = at_pin - relation.pin_position(**sizes(ring, 9.005263)) - back
    turned = relation.disc_turned(relation.disc_diameter(**sizes(ring, 9.005263)))
    assert clear - turned / 2 == pytest.approx(0.2, abs=1e-6)


@pytest.mark.parametrize(("ring", "gap"), RINGS)
def test_the_round_mandrels_gap_and_stress_are_the_exact_bars(ring, gap):
    inside = ring.outside - 2 * ring.thickness
    mandrel = inside + (gap - ring.slit) / 3.2491
    opened, _, leaves, _ = exact_round(ring, mandrel)
    held = on_round(inside, ring.thickness, ring.slit, mandrel)
    assert held.gap == pytest.approx(2 * opened.y[1, -1], rel=1e-8)
    along = np.linspace(leaves, ring.half, 20001)
    bent = 1 / ring.radius - opened.sol(along)[3]
    stress = relation.round_opened_stress(ring.modulus, ring.thickness, inside, ring.slit, mandrel)
    assert stress == pytest.approx(ring.modulus * ring.thickness / 2 * bent.max(), rel=1e-7)
    assert held.at * ring.radius == pytest.approx(along[bent.argmax()], abs=0.02)
    wrapped = 1 / ring.radius - 2 / (mandrel + ring.thickness)
    assert bent.max() / wrapped == pytest.approx(1.186, abs=0.002)
    assert 78 < degrees(held.at) < 90


def test_a_small_opening_has_the_greatest_stress_a_quarter_turn_from_the_end():
    """Moment of the end's force: F r sin(angle from the end), 1 / sin(122.566 deg) of what it is where the wrap ends."""
    held = on_round(52.4, 2.4, 1e-9, 52.4 + 1e-3)
    bent, wrapped = 2 / 54.8 - held.straightest, 2 / 54.8 - 2 / (54.8 + 1e-3)
    assert bent / wrapped == pytest.approx(1 / sin(122.566 * pi / 180), rel=1e-4)
    assert held.at == pytest.approx(pi / 2, abs=1e-3)


@pytest.mark.parametrize(("free", "share"), [(8.58, 0.95), (14.0, 0.95), (16.0, 0.75), (20.0, 0.6)])
def test_a_round_mandrel_opens_by_what_is_wanted_within_a_hundredth(free, share):
    """By the exact bar; the rule of 3.2491 alone is 1.2 % short at 18 mm and 2.5 % at 32."""
    ring = Blank(57.295493, 2.4, 2.38, 0.5, 1e5)
    inside, wanted = ring.outside - 2 * ring.thickness, (free - ring.slit) / share
    mandrel = relation.round_diameter(inside, ring.thickness, free, ring.slit, share)
    opened = 2 * exact_round(ring, mandrel)[0].y[1, -1] - ring.slit
    assert opened == pytest.approx(wanted, rel=0.007)
    if wanted > 0.25 * 2 * ring.radius:
        by_search = brentq(
            lambda d: 2 * exact_round(ring, d)[0].y[1, -1] - ring.slit - wanted, mandrel - 0.3, mandrel + 0.3
        )
        assert mandrel == pytest.approx(by_search, abs=1e-6)


@pytest.mark.parametrize(("form", "stress"), [("contoured", 464.4), ("pin", 438.0), ("round", 382.5)])
def test_a_free_gap_of_14_mm_stops_whatever_opens_it(demo, form, stress):
    """At work 448 MPa; on the round mandrel 1.1856 times what wraps, 322.6; least strength of the iron 300 MPa."""
    _, book, found = check(demo.swap('free_gap = "8.58 mm"', 'free_gap = "14 mm"', FORM, f'form = "{form}"'))
    assert book["ring.working_stress"].value == pytest.approx(447.9, abs=0.5)
    assert book["mandrel.opened_stress"].value == pytest.approx(stress, rel=0.02)
    stops = {f.name for f in found if f.verdict == "stop"}
    assert {"ring.working_stress", "mandrel.opened_stress"} <= stops


def test_no_free_gap_clears_one_rule_and_breaks_another_unseen(demo):
    """Whatever the gap: over the piston, at work, on the mandrel or on the wall one of them says so outside 7.2 to 9 mm."""
    watched = {"ring.working_stress", "mandrel.opened_stress", "ring.contact_pressure"}
    for gap, wanted in (("14 mm", True), ("9.2 mm", True), ("8.58 mm", False), ("6.9 mm", True), ("4 mm", True)):
        _, _, found = check(demo.swap('free_gap = "8.58 mm"', f'free_gap = "{gap}"'))
        assert bool({f.name for f in found if f.verdict != "ok"} & watched) is wanted, gap
