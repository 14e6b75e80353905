"""Does the head drop on: against scipy's minimiser, against numpy's draws, and patterns whose answer is plain."""

import math
from random import Random

import numpy as np
import pytest
from scipy.optimize import minimize

from parts.relations.drop import chance_fixed, chance_floating, room_left
from parts.relations.drop_place import best_place, circle_round, offs, to_open

HEAD = [(30.0, 29.0), (-30.0, 29.0), (-30.0, -29.0), (30.0, -29.0)]


def missed(seed, by):
    dice = np.random.default_rng(seed)
    return [(x + dx, y + dy) for (x, y), (dx, dy) in zip(HEAD, dice.normal(0, by, (4, 2)), strict=True)]


@pytest.mark.parametrize("seed", range(12))
def test_the_best_place_is_the_one_that_a_general_minimiser_finds(seed):
    studs = missed(seed, 0.3)

    def above(p):  # the least bound b over all distances, a smooth problem: shift, turn, b
        return [p[3] - d for d in offs(HEAD, studs, (p[0], p[1], p[2]))]

    start = [0.0, 0.0, 0.0, max(offs(HEAD, studs, (0.0, 0.0, 0.0))) + 0.1]
    found = minimize(lambda p: p[3], start, constraints={"type": "ineq", "fun": above}, options={"ftol": 1e-12})
    ours = max(offs(HEAD, studs, best_place(HEAD, studs, "studs")))
    assert ours == pytest.approx(found.x[3], abs=2e-6)


@pytest.mark.parametrize("seed", range(6))
def test_a_spigot_lets_it_turn_alone(seed):
    studs = missed(seed, 0.3)
    turns = np.linspace(-0.03, 0.03, 60001)
    least = min(max(offs(HEAD, studs, (0.0, 0.0, float(t)))) for t in turns[::20])
    place = best_place(HEAD, studs, "spigot")
    assert place[:2] == (0.0, 0.0)
    assert least - 1e-3 < max(offs(HEAD, studs, place)) <= least + 1e-9  # the grid is 2e-5 rad, 0.8 um at a stud
    assert best_place(HEAD, studs, "dowels") == (0.0, 0.0, 0.0)


def test_a_pattern_turned_and_shifted_as_a_whole_fits_without_a_miss():
    c, s = math.cos(0.01), math.sin(0.01)
    studs = [(c * x - s * y + 0.2, s * x + c * y - 0.1) for x, y in HEAD]
    place = best_place(HEAD, studs, "studs")
    assert place == pytest.approx((0.2, -0.1, 0.01), abs=1e-6)
    assert offs(HEAD, studs, place) == pytest.approx([0.0] * 4, abs=1e-5)
    assert offs(HEAD, studs, (0.2, -0.1, 0.0)) == pytest.approx([0.01 * math.hypot(30, 29)] * 4, rel=1e-4)


def test_the_smallest_circle_of_a_triangle():
    # 3-4-5 on its longest side; an equilateral triangle of side 1 on all three, 1/sqrt 3
    assert circle_round([(0, 0), (3, 0), (0, 4)]) == (pytest.approx((1.5, 2.0)), pytest.approx(2.5))
    assert circle_round([(0, 0), (1, 0), (0.5, math.sqrt(3) / 2)])[1] == pytest.approx(1 / math.sqrt(3))


def test_one_hole_alone_is_opened_where_that_does():
    studs = [(32.0, 29.0), *HEAD[1:]]
    opened = to_open(HEAD, studs, "studs", 0.5)
    assert list(opened) == [0]
    # the others hold the head within 0.5 of its place: between 2 - 0.5 less what a turn gains, and 2
    assert 1.0 < opened[0] < 1.6
    assert to_open(HEAD, studs, "dowels", 0.5) == {0: 2.0}
    assert to_open(HEAD, HEAD, "studs", 0.5) == {}


def test_with_two_studs_off_no_one_hole_is_opened_alone():
    """One to the right, its neighbour upwards: whichever is left out, the head does not drop over the other three."""
    square = [(30.0, 30.0), (-30.0, 30.0), (-30.0, -30.0), (30.0, -30.0)]
    assert len(to_open(square, [(31.5, 30.0), (-30.0, 31.5), *square[2:]], "studs", 0.2)) > 1
    assert list(to_open(square, [(31.5, 30.0), *square[1:]], "studs", 0.2)) == [0]


def test_two_holes_that_pull_apart_are_both_opened():
    studs = [(31.5, 29.0), (-31.5, 29.0), *HEAD[2:]]
    assert sorted(to_open(HEAD, studs, "dowels", 0.5)) == [0, 1]
    assert len(to_open(HEAD, studs, "studs", 0.5)) > 0


@pytest.mark.parametrize(
    ("room", "drilled", "holes", "fitted", "count"),
    [(0.5, 0.2, 0.2, 0.0, 4), (0.5, 0.3, 0.3, 0.2, 4), (0.3, 0.3, 0.1, 0.05, 6)],
)
def test_the_chance_of_a_head_that_is_held_is_that_of_many_draws(room, drilled, holes, fitted, count):
    """A tolerance along an axis is two standard deviations along it."""
    dice = np.random.default_rng(5)
    off = sum(dice.normal(0, within / 2, (100_000, count, 2)) for within in (drilled, holes, fitted))
    share = float((np.hypot(off[..., 0], off[..., 1]) <= room).all(axis=1).mean())
    assert chance_fixed(room, drilled, holes, fitted, count) == pytest.approx(share, abs=0.005)


def test_the_chance_of_a_head_that_floats():
    """Of two studs it is closed: their difference has to lie in a circle of twice the room, a Rayleigh of sqrt 2 s."""
    s2 = (0.4**2 + 0.4**2) / 4
    exact = 1 - math.exp(-((2 * 0.5) ** 2) / (2 * 2 * s2))
    assert chance_floating(0.5, 0.4, 0.4, 0.0, 2) == pytest.approx(exact, abs=0.01)
    assert chance_floating(0.5, 0.6, 0.0, 0.6, 2) == pytest.approx(1 - math.exp(-1 / (4 * 0.18)), abs=0.03)
    assert chance_floating(0.0, 0.1, 0.1, 0.0, 4) == 0.0
    assert chance_fixed(0.5, 0.0, 0.0, 0.0, 4) == 1.0


def test_the_worst_way_is_corner_against_corner():
    """Each place anywhere in its square: the farthest that two of them come apart, tried over all corners."""
    corners = [(x, y) for x in (-1, 1) for y in (-1, 1)]
    worst = max(math.hypot(0.1 * a[0] - 0.2 * b[0], 0.1 * a[1] - 0.2 * b[1]) for a in corners for b in corners)
    assert room_left(0.5, 0.1, 0.2, 0.0) == pytest.approx(0.5 - worst)


@pytest.mark.parametrize("seed", range(40))
def test_towards_the_stud_that_lies_off_the_head_is_pushed_until_the_others_just_fit(seed):
    """The way from where the others lie best is retraced by what is told of the one: then one of them has no room left."""
    chance, room = Random(seed), 0.5  # noqa: S311
    spread = [(x + chance.uniform(-0.25, 0.25), y + chance.uniform(-0.25, 0.25)) for x, y in HEAD]
    studs = [(spread[0][0] + chance.uniform(1.5, 2.5), spread[0][1] + chance.uniform(-1, 1)), *spread[1:]]
    ((k, least),) = to_open(HEAD, studs, "studs", room).items()
    rest, there = ([one for n, one in enumerate(of) if n != k] for of in (HEAD, studs))
    dx, dy, turn = best_place(rest, there, "studs")
    x, y = HEAD[k]
    ax, ay = (
        studs[k][0] - x * math.cos(turn) + y * math.sin(turn) - dx,
        studs[k][1] - x * math.sin(turn) - y * math.cos(turn) - dy,
    )
    pushed = 1 - least / math.hypot(ax, ay)
    assert 0 < pushed < 1
    left = [room - off for off in offs(rest, there, (dx + pushed * ax, dy + pushed * ay, turn))]
    assert min(left) == pytest.approx(0, abs=1e-6)
    assert max(left) > 1e-3
