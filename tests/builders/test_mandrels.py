"""The mandrel in its three forms for every ring that a small engine may have, 25 to 120 mm and D/a 18 to 30.

All of them build; the contoured seat lies on the curve that is integrated here once more, by scipy; the ring's ends
have their relief; the mark of a printed one runs into no hole; the clamp plate bears on the rings and not on the seat.
"""

from math import hypot, pi

import numpy as np
import pytest
import shapely
from hypothesis import example, given
from hypothesis import strategies as st

from parts.checked import check
from parts.register import PARTS
from parts.shapes.mandrel import RELIEF, relieved
from parts.sizing.clamp_plate import bolt_label
from tests.builders.test_parts import RingJob, box_of, built, mandrel_job, sampled, seat_faces, sizes, spread, surface

FORMS = ("contoured", "pin", "round")
WIDE = {"bore": st.just(117.08), "slender": st.just(19.09)}


@st.composite
def sane_rings(draw):
    """Rings as rules of thumb have them: gap 0.002 to 0.005, opening 0.11 to 0.17, a saw of 0.2 to 1 mm."""
    bore = draw(sizes(25, 120))
    return RingJob(
        bore,
        draw(sizes(18, 30)),
        draw(sizes(1, 4)),
        draw(sizes(0.2, 1.0)),
        round(bore * draw(st.integers(20, 50)) / 1e4, 2),
        draw(st.integers(110, 170)) / 1000,
        draw(st.integers(1, 4)),
        draw(st.integers(75, 100)) / 100,
    )


LARGE = RingJob(117.08, 19.09, 2.93, 0.83, 0.07, 0.17, 2)
"""whose mark ran into the pin's hole"""


@spread(20)
@given(r=sane_rings(), purpose=st.sampled_from(["heat set", "fit check"]))
@example(r=LARGE, purpose="fit check")
@example(r=RingJob(25, 18, 1, 1.0, 0.05, 0.11), purpose="fit check")
@example(r=RingJob(25, 30, 1, 0.2, 0.12, 0.17, 1, 0.75), purpose="heat set")
@example(r=RingJob(120, 18, 4, 0.2, 0.6, 0.17, 4, 0.75), purpose="heat set")
def test_all_three_forms_build(demo, r, purpose):
    for form in FORMS:
        solid, s, _ = built(mandrel_job(demo, r, form, purpose), "expander-mandrel")
        assert len(solid.Solids()) == 1
        box = solid.BoundingBox(1e-5)
        assert box.zmin == pytest.approx(-s["mandrel.flange_thickness"], abs=1e-4)
        assert r.count * r.height - 0.3 - 1e-4 <= box.zmax < r.count * r.height
        assert box.ymax == pytest.approx(s["mandrel.flange_diameter"] / 2, abs=1e-3)


@spread(20)
@given(r=sane_rings())
def test_the_contoured_seat_lies_on_the_curve(demo, r):
    solid, s, (shape, _, _) = built(mandrel_job(demo, r, "contoured", "heat set"), "expander-mandrel")
    upper = surface(r, r.thickness / 2, min(1.0, s["mandrel.open_gap"] / 4))
    curve = shapely.LineString(np.vstack([upper[:0:-1] * (1, -1), upper]))
    off = [
        curve.distance(shapely.Point(x, y))
        for face in seat_faces(solid, s["mandrel.seat_height"])
        for x, y, _ in sampled(face)
    ]
    assert len(off) > 400
    assert max(off) < 0.002
    # relief behind the tips: the gap's side lies 1.5 mm under the curve's end
    end, inner = shape.seat[-1], relieved(shape.seat)
    assert hypot(end[0] - inner[0], end[1] - inner[1]) == pytest.approx(RELIEF)
    assert shape.length > s["mandrel.tip_length"]


@spread(20)
@given(r=sane_rings(), form=st.sampled_from(["contoured", "pin", "round"]))
def test_the_mandrel_ends_under_the_stack_and_the_lead_in_lies_in_the_top_ring(demo, r, form):
    """So a flat plate bears on the rings alone, and each of them stands on the seat by half its width or more."""
    solid, s, _ = built(mandrel_job(demo, r, form, "heat set"), "expander-mandrel")
    top, stack = box_of(solid)[5], r.count * r.height
    assert stack - 0.3 - 1e-4 <= top < stack - 0.05
    assert s["mandrel.seat_height"] > stack - 0.55 * r.height


@spread(20)
@given(r=sane_rings())
def test_the_clamp_plate_bears_on_the_rings_at_every_angle_of_the_contour(demo, r):
    """Whole thickness of the ring between the plate's hole and its edge, all round; it lies flat on Z = 0."""
    job = mandrel_job(demo, r, "contoured", "heat set") + "\n[clamp_plate]\n"
    plate, _, (flat, book, task) = built(job, "clamp-plate")
    contour = PARTS["expander-mandrel"].shape(book, task)
    seat = [hypot(x, y) for x, y in contour.seat]
    hole, edge = flat.sheet.holes[0].diameter / 2, box_of(plate)[1]
    assert hole < min(seat) - 1
    assert max(seat) + r.thickness < edge
    assert box_of(plate)[4] == pytest.approx(0, abs=1e-6)
    assert plate.Volume() == pytest.approx(pi * (edge**2 - hole**2) * flat.thickness, rel=1e-5)


def test_an_inch_sheet_names_an_inch_bolt(demo):
    """Bore of the mandrel 10 mm, 0.394 in: 3/8-16 wants 25/64, 0.391 (ASME B18.2.8, close, from memory)."""
    job, book, _ = check(demo.swap('print_units = "metric"', 'print_units = "inch"') + "\n[clamp_plate]\n")
    assert bolt_label(book, job) == "3/8-16 UNC"
    assert book["clamp_plate.bolt"].value == pytest.approx(0.375 * 25.4)
    # ASME B18.2.2: a 3/8 nut is at most 0.337 high; B18.21.1: washers of 0.065; two threads of 1/16 over
    grip = book["mandrel.flange_thickness"].value + book["mandrel.stack"].value + book["clamp_plate.thickness"].value
    by_hand = grip + (2 * 0.065 + 0.337 + 2 / 16) * 25.4
    assert book["clamp_plate.bolt_length"].value == pytest.approx(by_hand, abs=0.01)


def test_the_bolt_of_the_clamp_plate_reaches_through_and_has_two_threads_to_spare(demo):
    """Worked by hand: flange 7 (6.56), stack 7.14, plate 7, two washers ISO 7089 of 1.6, nut ISO 4032 M8 of 6.8, 2 x 1.25."""
    _, book, _ = check(demo + "\n[clamp_plate]\n")
    assert (book["clamp_plate.bolt"].value, book["clamp_plate.hole"].value) == (8.0, 10.0)
    by_hand = book["mandrel.flange_thickness"].value + 7.14 + 7.0 + 3.2 + 6.8 + 2.5
    assert book["clamp_plate.bolt_length"].value == pytest.approx(by_hand)


def test_a_disc_at_hand_is_taken(demo):
    job = demo.swap('form = "contoured"', 'form = "pin"\ndisc = "53.5 mm"')
    _, book, _ = check(job)
    assert book["mandrel.disc_turned"].value == 53.5
    solid, _, _ = built(job, "expander-mandrel")
    assert solid.isInside((-26.7, 0, 2))
    assert not solid.isInside((-26.8, 0, 2))
