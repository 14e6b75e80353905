"""Machinery's Handbook, jig boring: factors for the coordinates of holes equally spaced on a circle.

For a circle of unit diameter, from its tangents at the left and at the top, x to the right and y downwards. Type A has
hole 1 at the top, type B straddles the top. The figures are worked out anew from that definition, five places; the
senses of numbering differ between tables, so they are compared as sets. The chord from hole to hole is sin(180/n).
"""

from itertools import pairwise
from math import hypot

import pytest

from parts.checked import check

TYPE_A = {
    3: [(0.5, 0.0), (0.93301, 0.75), (0.06699, 0.75)],
    4: [(0.5, 0.0), (1.0, 0.5), (0.5, 1.0), (0.0, 0.5)],
    5: [(0.5, 0.0), (0.97553, 0.34549), (0.79389, 0.90451), (0.20611, 0.90451), (0.02447, 0.34549)],
    6: [(0.5, 0.0), (0.93301, 0.25), (0.93301, 0.75), (0.5, 1.0), (0.06699, 0.75), (0.06699, 0.25)],
    8: [
        (0.5, 0.0), (0.85355, 0.14645), (1.0, 0.5), (0.85355, 0.85355),
        (0.5, 1.0), (0.14645, 0.85355), (0.0, 0.5), (0.14645, 0.14645),
    ],
}  # fmt: skip
TYPE_B = {
    3: [(0.06699, 0.25), (0.5, 1.0), (0.93301, 0.25)],
    4: [(0.14645, 0.14645), (0.14645, 0.85355), (0.85355, 0.85355), (0.85355, 0.14645)],
    5: [(0.20611, 0.09549), (0.02447, 0.65451), (0.5, 1.0), (0.97553, 0.65451), (0.79389, 0.09549)],
    6: [(0.25, 0.06699), (0.0, 0.5), (0.25, 0.93301), (0.75, 0.93301), (1.0, 0.5), (0.75, 0.06699)],
    8: [
        (0.30866, 0.03806), (0.03806, 0.30866), (0.03806, 0.69134), (0.30866, 0.96194),
        (0.69134, 0.96194), (0.96194, 0.69134), (0.96194, 0.30866), (0.69134, 0.03806),
    ],
}  # fmt: skip
CHORDS = {3: 0.86603, 4: 0.70711, 5: 0.58779, 6: 0.5, 8: 0.38268}


def holes(count, first):
    """Coordinates of a job's holes on a circle of 100 mm, as the deck has them."""
    job = f'[head]\nholes = {{ circle = "100 mm", count = {count}, first = "{first} deg" }}\n'
    _, book, _ = check(job)
    return [(book[f"deck.hole.{n}.x"].value, book[f"deck.hole.{n}.y"].value) for n in range(1, count + 1)]


def factors(places):
    """From the tangents at the left and the top, as shares of the diameter, to five places."""
    return {(round(0.5 + x / 100, 5) + 0.0, round(0.5 - y / 100, 5) + 0.0) for x, y in places}


@pytest.mark.parametrize("count", TYPE_A)
def test_type_a_has_hole_1_at_the_top(count):
    assert factors(holes(count, 90)) == set(TYPE_A[count])
    assert holes(count, 90)[0] == pytest.approx((0, 50), abs=1e-9)


@pytest.mark.parametrize("count", TYPE_B)
def test_type_b_straddles_the_top(count):
    assert factors(holes(count, 90 + 180 / count)) == set(TYPE_B[count])


@pytest.mark.parametrize("count", CHORDS)
def test_chord_from_hole_to_hole(count):
    places = holes(count, 17)
    for (x0, y0), (x1, y1) in pairwise([*places, places[0]]):
        assert hypot(x1 - x0, y1 - y0) / 100 == pytest.approx(CHORDS[count], abs=5e-6)


@pytest.mark.parametrize("count", CHORDS)
def test_holes_go_round_anticlockwise_from_the_first(count):
    """The job file's own rule: numbered from `first`, anticlockwise as seen from above."""
    places = holes(count, 30)
    assert places[0] == pytest.approx((43.30127, 25), abs=1e-5)
    for (x0, y0), (x1, y1) in pairwise([*places, places[0]]):
        assert x0 * y1 - x1 * y0 > 0


@pytest.mark.parametrize("count", CHORDS)
def test_a_circle_measured_over_two_neighbours_is_found_by_the_chord(count):
    """A reading over two 8 mm pins in neighbouring holes, by the printed factor, on a circle of 100 mm."""
    reading = 100 * CHORDS[count] + 8
    job = (
        f'[measured.new]\nform = "circle"\ncount = {count}\ndiameter = "8 mm"\n'
        f'readings = [{{ over = [1, 2], reads = "{reading:.3f} mm" }}]\n'
    )
    _, book, _ = check(job)
    assert book["measured.new.circle"].value == pytest.approx(100, abs=5e-4 / CHORDS[count])  # half of the last digit
