"""[measured]: patterns and the machine's zero from readings, against exact constructions and scipy.

Exact: readings are worked out here from a pattern that is known, each kind by its own geometry, and the pattern must come
back. Noise: standard errors against a simulation. The fit itself, and the turn of the machine, against scipy.
"""

import csv
import json
import random
from io import StringIO
from itertools import combinations
from math import atan2, cos, degrees, hypot, pi, radians, sin, sqrt
from statistics import stdev

import numpy as np
import pytest
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation
from scipy.stats import chi2

from cli.main import app
from cli.say import guarded
from parts.checked import check
from parts.errors import JobError
from parts.job import load
from parts.job.examples import demo_text
from parts.relations.least_squares import SIGMAS
from parts.relations.pattern_fit import CHANCE, Span, chance_of, fitted, limit_of
from parts.sizing.measured import fit_measured, values_of
from parts.sizing.pattern_model import model_of, readings_of

BORE, PIN = 57.2, 8.5
CORNERS = [(1, 1), (-1, 1), (-1, -1), (1, -1)]  # from the +X+Y corner anticlockwise
HEAD_HOLES = 'holes = { rectangle = ["60.0 mm", "58.0 mm"], turned = "0 deg" }\n'


def turned(x, y, angle):
    c, s = cos(radians(angle)), sin(radians(angle))
    return c * x - s * y, s * x + c * y


def rectangle(a, b, angle=0.0, middle=(0.0, 0.0)):
    places = [turned(sx * a / 2, sy * b / 2, angle) for sx, sy in CORNERS]
    return [(x + middle[0], y + middle[1]) for x, y in places]


def circle(diameter, count, first=0.0, middle=(0.0, 0.0)):
    turns = [radians(first + 360 * i / count) for i in range(count)]
    return [(diameter / 2 * cos(t) + middle[0], diameter / 2 * sin(t) + middle[1]) for t in turns]


class Bench:
    """A known pattern; gives readings of it as lines of a job file."""

    def __init__(self, holes, zero=(0.0, 0.0), turn=0.0, off=None, spread="", hand=1):
        self.holes, self.zero, self.turn, self.off, self.spread, self.hand = holes, zero, turn, off or {}, spread, hand
        self.lines = []

    def apart(self, a, b):
        return hypot(self.holes[a - 1][0] - self.holes[b - 1][0], self.holes[a - 1][1] - self.holes[b - 1][1])

    def reads(self, what, value):
        value += self.off.get(len(self.lines) + 1, 0.0)
        self.lines.append(f'{{ {what}, reads = "{value:.12f} mm{self.spread}" }}')
        return self

    def over(self, a, b):
        return self.reads(f"over = [{a}, {b}]", self.apart(a, b) + PIN)

    def between(self, a, b):
        return self.reads(f"between = [{a}, {b}]", self.apart(a, b) - PIN)

    def centres(self, a, b):
        return self.reads(f"centres = [{a}, {b}]", self.apart(a, b))

    def wall(self, a, wall=BORE):
        return self.reads(f"wall = {a}", hypot(*self.holes[a - 1]) - PIN / 2 - wall / 2)

    def at(self, hole):
        x, y = (0.0, 0.0) if hole == "bore" else self.holes[hole - 1]
        x, y = turned(x, y, self.turn)
        x, y = self.hand * (self.zero[0] + x) + self.off.get(len(self.lines) + 1, 0.0), self.zero[1] + y
        name = '"bore"' if hole == "bore" else hole
        spread = self.spread
        self.lines.append(f'{{ hole = {name}, at = ["{x:.12f} mm{spread}", "{y:.12f} mm{spread}"] }}')
        return self

    def table(self, form, name="new", **keys):
        given = {"diameter": f"{PIN} mm", **keys}
        told = "\n".join(
            f"{k} = {json.dumps(v) if isinstance(v, str) else v}" for k, v in given.items() if v is not None
        )
        rows = ",\n  ".join(self.lines)
        return f'[measured.{name}]\nform = "{form}"\n{told}\nreadings = [\n  {rows},\n]\n'


def engine(text):
    return f'[engine]\nbore = "{BORE} mm"\n{text}'


def sized(text):
    job, book, found = check(engine(text))
    return book, {f.name: f for f in found}, job


def value(book, name):
    return book[name].value


def agrees(book, holes, prefix="measured.new.hole", within=2e-9):
    for number, (x, y) in enumerate(holes, 1):
        assert value(book, f"{prefix}.{number}.x") == pytest.approx(x, abs=within)
        assert value(book, f"{prefix}.{number}.y") == pytest.approx(y, abs=within)


# exact readings give the pattern back


def test_a_rectangle_from_distances_alone():
    holes = rectangle(60, 58, 12)
    bench = Bench(holes).over(1, 2).between(2, 3).centres(1, 3)
    book, found, _ = sized(bench.table("rectangle", turned="12 deg"))
    assert value(book, "measured.new.side_x") == pytest.approx(60, abs=2e-9)
    assert value(book, "measured.new.side_y") == pytest.approx(58, abs=2e-9)
    agrees(book, holes)
    agrees(book, holes, "deck.hole")
    assert book["measured.new.turned"].status == "given"
    assert book["measured.new.centre.x"].status == "assumed"
    assert found["measured.new.centre"].verdict == "caution"
    assert "No reading tells where the bore lies" in found["measured.new.centre"].says
    assert found["measured.new.fit"].verdict == "ok"


def test_a_rectangle_that_lies_off_the_bore_is_taken_by_points():
    holes = rectangle(60, 58, -20, (0.4, -0.1))
    bench = Bench(holes).over(1, 2).over(2, 3).over(1, 3).over(2, 4).wall(1).wall(2).wall(3)
    book, found, _ = sized(bench.table("rectangle", turned="-20 deg"))
    assert value(book, "measured.new.centre.x") == pytest.approx(0.4, abs=2e-9)
    assert value(book, "measured.new.centre.y") == pytest.approx(-0.1, abs=2e-9)
    agrees(book, holes, "deck.hole")
    assert found["measured.new.centre"].verdict == "caution"
    assert "lies 0.412 mm off the bore (X 0.400 mm, Y -0.100 mm)" in found["measured.new.centre"].says
    assert "points = [" in found["measured.new.pattern"].says


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6, 8, 36])
def test_a_circle_from_neighbours(count):
    holes = circle(78, count, 45)
    bench = Bench(holes)
    for a in range(1, min(count, 5)):
        bench.over(a, a + 1)
    book, _, _ = sized(bench.table("circle", count=count, turned="45 deg"))
    assert value(book, "measured.new.circle") == pytest.approx(78, abs=5e-9)
    agrees(book, holes, "deck.hole", 1e-8)


def test_a_circle_from_three_walls_alone():
    holes = circle(78, 3, 0, (0.2, 0.3))
    book, _, _ = sized(Bench(holes).wall(1).wall(2).wall(3).table("circle", count=3, turned="0 deg"))
    assert value(book, "measured.new.circle") == pytest.approx(78, abs=2e-9)
    agrees(book, holes)


def test_another_round_wall_than_the_bore():
    holes = rectangle(60, 58)
    bench = Bench(holes).over(1, 2).over(2, 3).wall(1, 50).wall(2, 50).wall(3, 50)
    book, _, _ = sized(bench.table("rectangle", round_wall="50 mm", turned="0 deg"))
    assert value(book, "measured.new.centre.x") == pytest.approx(0, abs=2e-9)
    agrees(book, holes)


@pytest.mark.parametrize("turn", [0.0, 33.3, 120.0, 179.9, -179.9, -90.0])
def test_scales_in_any_position_and_turn(turn):
    """The readings themselves don't tell the turn: the user does, by hole 1."""
    holes = circle(78, 3, 45, (0.3, -0.2))
    bench = Bench(holes, (412.5, -87.25), turn).at(1).at(2).at(3).at("bore")
    book, _, _ = sized(bench.table("circle", count=3, turned="45 deg"))
    assert value(book, "measured.new.circle") == pytest.approx(78, abs=2e-9)
    agrees(book, holes)


@pytest.mark.parametrize(("form", "holes"), [("rectangle", rectangle(60, 58, 7.5)), ("circle", circle(78, 3, 45))])
def test_a_part_set_square_tells_the_turn(form, holes):
    bench = Bench(holes, (100, 50)).at(1).at(2).at(3).at("bore")
    count = None if form == "rectangle" else 3
    book, found, _ = sized(bench.table(form, count=count, turned="as read"))
    name = "turned" if form == "rectangle" else "first"
    assert value(book, f"measured.new.{name}") == pytest.approx(7.5 if form == "rectangle" else 45, abs=1e-8)
    assert book[f"measured.new.{name}"].status == "computed"
    agrees(book, holes, "deck.hole")
    assert "measured.new.turn" not in found


def test_a_head_read_from_beneath():
    holes = rectangle(60, 50, 10)
    bench = Bench(holes, (100, 50), hand=-1).at(1).at(2).at(3).at(4).at("bore")
    book, _, _ = sized(bench.table("rectangle", seen="from beneath", turned="as read"))
    agrees(book, holes)
    with pytest.raises(JobError, match="go round the other way"):
        sized(bench.table("rectangle", turned="as read"))


def test_scales_and_callipers_together():
    holes = rectangle(60, 58, 5, (0.2, 0.1))
    bench = Bench(holes, (200, 80)).at(1).at(3).over(1, 2).between(2, 3).wall(2).at("bore")
    book, _, _ = sized(bench.table("rectangle", turned="as read"))
    agrees(book, holes)


def test_a_usual_tolerance_stands_in_the_book_where_a_reading_gives_none():
    """Of scales, also where X alone has one."""
    for spread, usual in (("", {"callipers", "scales"}), (" ± 0.02 mm", set())):
        bench = Bench(rectangle(60, 58), (200, 80), spread=spread).at(1).at(3).over(1, 2)
        book, _, _ = sized(bench.table("rectangle", turned="as read"))
        assert {n for n in ("callipers", "scales") if f"measured.{n}" in book} == usual
    half = bench.table("rectangle", turned="as read").replace(' ± 0.02 mm"] }', '"] }')
    assert "measured.scales" in sized(half)[0]


POINTS = [(30.0, 29.0), (-31.5, 27.0), (-28.0, -30.5), (33.0, -26.0), (2.0, 41.0)]


def test_points_off_the_scales():
    bench = Bench(POINTS, (200, 80))
    for n in (1, 2, 3, 4, 5, "bore"):
        bench.at(n)
    book, _, _ = sized(bench.table("points", count=5, turned="as read"))
    agrees(book, POINTS, "deck.hole")


def test_points_from_distances_and_a_sketch():
    bench = Bench(POINTS)
    for a, b in combinations(range(1, 6), 2):
        bench.over(a, b)
    for n in range(1, 6):
        bench.wall(n)
    rough = [[f"{round(x / 5) * 5} mm", f"{round(y / 5) * 5} mm"] for x, y in POINTS]
    text = bench.table("points", count=5, roughly=rough, turned=f"{degrees(atan2(29, 30)):.12f} deg")
    book, found, _ = sized(text)
    agrees(book, POINTS, "deck.hole", 1e-8)
    assert found["measured.new.fit"].verdict == "ok"


def test_the_old_pattern_takes_its_place_too():
    holes = circle(78, 3, 45)
    bench = Bench(holes).over(1, 2).over(2, 3).over(1, 3)
    text = bench.table("circle", "old", count=3, turned="45 deg")
    text += '[barrel]\nmaterial = "EN-GJL-250"\nold_holes = { diameter = "9.6 mm" }\n'
    book, found, _ = sized(text)
    agrees(book, holes, "deck.old")
    assert 'pattern = { circle = "78.000 mm' in found["measured.old.pattern"].says


def measured_head(**keys):
    bench = Bench(rectangle(60, 58)).over(1, 2).over(2, 3).over(1, 3).over(2, 4).wall(1).wall(2).wall(3)
    return bench.table("rectangle", **{"turned": "0 deg", **keys})


def test_the_worked_job_with_its_head_measured_has_the_same_deck():
    text = demo_text()
    assert HEAD_HOLES in text
    _, given, judged = check(text)
    _, measured, found = check(text.replace(HEAD_HOLES, "") + "\n" + measured_head())
    decks = [n for n in given if n.startswith(("deck.", "gasket.", "stud.", "joint."))]
    assert len(decks) > 100
    assert [n for n in decks if n not in measured] == []
    for name in decks:
        assert value(measured, name) == pytest.approx(value(given, name), abs=1e-6, rel=1e-9), name
    for name in ("deck.hole.1.x", "deck.hole.3.y", "deck.hole.2.to_bore"):
        assert value(measured, name) == pytest.approx(value(given, name), abs=3e-9)
    key = "job.head.holes.rectangle.0"
    assert (measured[key].status, given[key].status) == ("computed", "given")
    assert "fitted to your readings" in measured[key].source
    assert measured.spread(key) == pytest.approx(measured.spread("measured.new.side_x"), abs=1e-9)
    assert not [f for f in judged if f.name.startswith("measured")]
    assert {f.name for f in judged} <= {f.name for f in found}


def test_a_job_without_readings_has_nothing_of_them():
    assert not [n for n in check(demo_text())[1] if n.startswith("measured")]


# what it says


def test_a_reading_that_is_off_is_named():
    bench = Bench(rectangle(60, 58), off={4: 0.31}).over(1, 2).over(2, 3).over(3, 4).over(1, 3).over(2, 4).over(1, 4)
    book, found, _ = sized(bench.table("rectangle", turned="0 deg"))
    told = found["measured.new.fit"]
    assert told.verdict == "caution"
    assert told.says.startswith("Reading 4 of the head's holes (over 1 and 3, ")
    assert "is 0.310 mm off what the others say: measure it again" in told.says
    assert "without it the others agree" in told.says
    assert value(book, "measured.new.worst.reading") == 4
    assert value(book, "measured.new.reading.4.off") == pytest.approx(0.31, abs=1e-4)
    assert value(book, "measured.new.spare") == 4


def test_what_the_bad_reading_moves_is_the_difference_of_two_fits():
    def bench(off, skip=None):
        b = Bench(rectangle(60, 58), off={4: off}).over(1, 2).over(2, 3).over(3, 4).over(1, 3).over(2, 4)
        b.lines = [line for n, line in enumerate(b.lines, 1) if n != skip]
        return sized(b.table("rectangle", turned="0 deg"))[0]

    with_it, without = bench(0.31), bench(0.31, skip=4)
    way = hypot(*(value(with_it, f"deck.hole.1.{k}") - value(without, f"deck.hole.1.{k}") for k in "xy"))
    assert value(with_it, "measured.new.worst.moves") == pytest.approx(way, abs=1e-8)
    assert way > 0.02


def test_of_three_readings_that_check_each_other_none_can_be_blamed():
    bench = Bench(rectangle(60, 58), off={2: 0.31}).over(1, 2).over(2, 3).over(1, 3)
    _, found, _ = sized(bench.table("rectangle", turned="0 deg"))
    assert "Readings 1, 2 and 3 of the head's holes do not agree" in found["measured.new.fit"].says


def test_two_bad_readings_leave_the_others_in_dispute():
    bench = Bench(rectangle(60, 58), off={1: 0.6, 6: -0.5})
    for a, b in combinations(range(1, 5), 2):
        bench.over(a, b).centres(a, b)
    _, found, _ = sized(bench.table("rectangle", turned="0 deg"))
    assert found["measured.new.fit"].says.startswith("Reading 1 of")
    assert "even the others do not agree" in found["measured.new.fit"].says


def test_readings_without_a_spare_are_not_trusted():
    bench = Bench(rectangle(60, 58)).over(1, 2).over(2, 3)
    book, found, _ = sized(bench.table("rectangle", turned="0 deg"))
    assert value(book, "measured.new.spare") == 0
    assert found["measured.new.fit"].verdict == "caution"
    assert found["measured.new.fit"].says.startswith("Nothing checks the readings of the head's holes")


def test_a_reading_that_no_other_checks_is_named():
    bench = Bench(rectangle(60, 58)).over(1, 2).over(3, 4).over(2, 3)
    _, found, _ = sized(bench.table("rectangle", turned="0 deg"))
    assert found["measured.new.unchecked"].says.startswith("Nothing checks reading 3 of the head's holes")
    assert (found["measured.new.unchecked"].value, found["measured.new.unchecked"].limit) == (1, 0)


def test_a_turn_that_nothing_tells_is_a_caution():
    _, found, _ = sized(measured_head(turned=None))
    assert found["measured.new.turn"].verdict == "caution"
    assert "No reading tells how the head's holes are turned" in found["measured.new.turn"].says


@pytest.mark.parametrize(("middle", "verdict", "says"), [
    ((0.0, 0.0), "ok", "lies on the bore's centre, as far as the readings tell: within 0.063 mm"),
    ((0.3, -0.4), "caution", "lies 0.500 mm off the bore (X 0.300 mm, Y -0.400 mm)"),
])  # fmt: skip
def test_where_the_middle_of_a_pattern_lies_is_told(middle, verdict, says):
    """0.5 is the way of 0.3 and 0.4; two standard errors of three walls, by scipy's least squares, are 0.0627."""
    holes = rectangle(60, 58, 0, middle)
    bench = Bench(holes).over(1, 2).over(2, 3).over(1, 3).over(2, 4).wall(1).wall(2).wall(3)
    _, found, _ = sized(bench.table("rectangle", turned="0 deg"))
    told = found["measured.new.centre"]
    assert told.verdict == verdict
    assert says in told.says
    assert told.value == pytest.approx(hypot(*middle), abs=1e-9)

    def reads(q):
        h = rectangle(q[0], q[1], 0, q[2:])
        pairs = [hypot(h[a][0] - h[b][0], h[a][1] - h[b][1]) for a, b in ((0, 1), (1, 2), (0, 2), (1, 3))]
        return np.array([*pairs, *(hypot(*h[n]) for n in (0, 1, 2))]) / (0.05 / 2)

    fit = least_squares(lambda q: reads(q) - reads([60, 58, *middle]), [60, 58, *middle])
    errors = 2 * np.sqrt(np.diag(np.linalg.inv(fit.jac.T @ fit.jac)))
    assert told.limit == pytest.approx(hypot(*errors[2:]), rel=1e-3)


def test_a_pattern_that_is_given_and_measured_is_compared():
    text = demo_text()
    _, _, found = check(text + "\n" + measured_head())
    assert {f.name: f.verdict for f in found}["measured.new.pattern"] == "ok"
    wrong = text.replace('["60.0 mm", "58.0 mm"]', '["60.0 mm", "58.6 mm"]')
    _, book, found = check(wrong + "\n" + measured_head(turned=None))
    told = {f.name: f for f in found}["measured.new.pattern"]
    assert told.verdict == "caution"
    assert told.value == pytest.approx(0.3, abs=1e-6)
    assert 'holes = { rectangle = ["60.000 mm ± ' in told.says
    assert value(book, "deck.hole.1.y") == 29.3  # the job's own pattern is used
    assert book["measured.new.turned"].status == "given"  # the job's pattern tells the turn


def test_the_line_to_write_is_one_that_is_read():
    _, found, _ = sized(measured_head())
    line = found["measured.new.pattern"].says.partition("write ")[2]
    job = load(f"[head]\n{line}\n")
    assert [float(side) for side in job.head.holes.rectangle] == pytest.approx([60, 58], abs=1e-3)


def test_a_pattern_of_another_count_is_told():
    text = demo_text().replace(HEAD_HOLES, 'holes = { circle = "83 mm", count = 6 }\n')
    _, _, found = check(text + "\n" + measured_head())
    assert (
        "gives 6 holes for the head's holes, and 4 were measured"
        in {f.name: f.says for f in found}["measured.new.pattern"]
    )


# readings that contradict each other

SKEWED = [(30.0, 29.0), (-30.0, 29.0), (-30.0, -29.0), (33.0, -29.0)]  # one hole 3 mm off: no rectangle


def of_all(holes, form, walls=True, **keys):
    bench = Bench(holes)
    for a, b in combinations(range(1, len(holes) + 1), 2):
        bench.over(a, b)
    for n in range(1, len(holes) + 1) if walls else ():
        bench.wall(n)
    return bench.table(form, **keys)


BARREL = '[barrel]\nmaterial = "EN-GJL-250"\noutline = { circle = "112 mm" }\n[head]\nhole_diameter = "9 mm"\nlocated_by = "dowels"\n[stud]\ntap_end = "M10x1.5"\nnut_end = "M8x1.25"\nmaterial = "42CrMo4 +QT"\n'


@pytest.mark.parametrize("walls", [True, False])
def test_a_skewed_pattern_is_no_rectangle(walls):
    """Sum of squares by scipy for the best rectangle, over chi-squared of its spare readings, 1 in 1000."""
    book, found, _ = sized(of_all(SKEWED, "rectangle", walls, turned="0 deg") + BARREL)
    told = found["measured.new.fit"]
    assert told.verdict == "caution"
    assert "contradict each other as a rectangle" in told.says
    assert 'With form = "points" they agree' in told.says

    def misfits(q):
        h = rectangle(q[0], q[1], 0, (q[2], q[3]) if walls else (0, 0))
        pairs = [(a, b, hypot(*(SKEWED[a][i] - SKEWED[b][i] for i in (0, 1)))) for a, b in combinations(range(4), 2)]
        out = [d - hypot(h[a][0] - h[b][0], h[a][1] - h[b][1]) for a, b, d in pairs]
        out += [hypot(*p) - hypot(*g) for p, g in zip(SKEWED, h, strict=True)] if walls else []
        return np.array(out) / (0.05 / 2)

    fit = least_squares(misfits, [60, 58, 0, 0], xtol=1e-14, ftol=1e-14)
    spare = (6 + 4 - 4) if walls else (6 - 2)
    assert value(book, "measured.new.spare") == spare
    assert value(book, "measured.new.together") == pytest.approx(sqrt(2 * fit.cost / chi2.isf(1e-3, spare)), rel=1e-5)
    assert value(book, "measured.new.as_points") < 1e-6


def test_what_the_readings_leave_open_lowers_the_chance_that_the_head_drops_on():
    """Of the best rectangle each hole is left open by more than the play: the chance is all but gone."""
    good, found, _ = sized(of_all(rectangle(60, 58), "rectangle", turned="0 deg") + BARREL)
    assert found["drop.chance"].verdict == "ok"
    worst = max(good.spread(f"deck.hole.{n}.{axis}") for n in (1, 2, 3, 4) for axis in "xy")
    assert 0 < worst < 0.05
    assert value(good, "drop.left_open") == pytest.approx(worst)
    spread = (0.1**2 + 0.1**2 + worst**2) / SIGMAS**2
    hand = (1 - np.exp(-(0.5**2) / (2 * spread))) ** 4
    assert value(good, "drop.chance") == pytest.approx(hand, abs=1e-9)
    bad, found, _ = sized(of_all(SKEWED, "rectangle", turned="0 deg") + BARREL)
    assert value(bad, "drop.left_open") > 0.5
    assert found["drop.chance"].verdict == "stop"


def test_an_uneven_circle_is_named_too():
    holes = circle(78, 5, 45)
    holes[2] = (holes[2][0] + 1.0, holes[2][1])
    _, found, _ = sized(of_all(holes, "circle", count=5, turned="45 deg"))
    assert "contradict each other as an even circle" in found["measured.new.fit"].says
    assert 'With form = "points" they agree' in found["measured.new.fit"].says


def test_points_that_contradict_each_other_ask_for_more():
    bench = Bench(POINTS, off={1: 0.2, 4: -0.2, 7: 0.2, 9: -0.15, 12: 0.2, 14: -0.2})
    for a, b in combinations(range(1, 6), 2):
        bench.over(a, b)
    for n in range(1, 6):
        bench.wall(n)
    rough = [[f"{round(x / 5) * 5} mm", f"{round(y / 5) * 5} mm"] for x, y in POINTS]
    book, found, _ = sized(bench.table("points", count=5, roughly=rough, turned="44 deg"))
    assert value(book, "measured.new.together") > 1
    assert found["measured.new.fit"].verdict == "caution"


@pytest.mark.parametrize("sign", [1, -1])
def test_a_residual_is_what_was_read_less_what_was_fitted(sign):
    """Two readings of one distance, 60.0 and 60.1: the fit lies at 60.05, the second is 0.05 over it."""
    rows = ", ".join(f'{{ centres = [1, 2], reads = "{60 + d:.2f} mm" }}' for d in (0.0, 0.1 * sign))
    book, _, _ = sized(f'[measured.new]\nform = "circle"\ncount = 2\nturned = "0 deg"\nreadings = [ {rows} ]\n')
    assert value(book, "measured.new.reading.1.residual") == pytest.approx(-0.05 * sign, abs=1e-9)
    assert value(book, "measured.new.reading.2.residual") == pytest.approx(0.05 * sign, abs=1e-9)
    assert value(book, "measured.new.reading.2.off") == pytest.approx(0.1 * sign, abs=1e-9)


def test_a_tolerance_is_two_standard_deviations_of_readings_and_places_alike():
    """One home: the spread of a single reading's length is its tolerance, and so is that of a hole's place."""
    text = '[measured.new]\nform = "circle"\ncount = 2\nturned = "0 deg"\nreadings = [ { centres = [1, 2], reads = "60.00 mm ± 0.08 mm" } ]\n'
    _, pattern, _ = noisy(text)
    assert readings_of(pattern, BORE)[0].sigma == pytest.approx(0.08 / SIGMAS)
    assert SIGMAS == 2
    book, _, _ = sized(text)
    assert book.spread("measured.new.circle") == pytest.approx(0.08)


# noise and weights


def noisy(text, name="new"):
    job = load(engine(text))
    return job, getattr(job.measured, name), fit_measured(job)[name]


def shaken(one, dice):
    """A reading with an error thrown by its own standard deviation."""
    fields = {f: getattr(one, f) for f in one.__slots__}
    for f, sigma in (("length", "sigma"), ("x", "sigma_x"), ("y", "sigma_y")):
        if f in fields:
            fields[f] += dice.gauss(0, fields[sigma])
    return type(one)(**fields)


def test_honest_readings_are_seldom_blamed():
    """Errors as the tolerances tell: over the limits of 1 in 20 and 1 in 1000 come no more than that many of them."""
    bench = Bench(rectangle(60, 58))
    for a, b in combinations(range(1, 5), 2):
        bench.over(a, b).centres(a, b)
    _, pattern, _ = noisy(bench.wall(1).wall(2).wall(3).wall(4).table("rectangle", turned="0 deg"))
    readings = readings_of(pattern, BORE)
    model, dice = model_of(pattern, readings), random.Random(17)  # noqa: S311
    squares = [
        one.misfit**2 * limit_of(1)
        for _ in range(500)
        for one in fitted(model, [shaken(r, dice) for r in readings], "").told
    ]
    over = {chance: sum(square > chi2.isf(chance, 1) for square in squares) / len(squares) for chance in (0.05, 0.001)}
    assert 0.025 < over[0.05] < 0.055  # rather fewer: where the others scatter, more is allowed
    assert over[0.001] < 0.0015


def test_standard_errors_are_those_of_a_simulation():
    """2000 benches with the noise that the tolerances tell: the spread of what comes out, to 5 %."""
    bench = Bench(rectangle(60, 58, 0, (0.1, 0)), (100, 50), spread=" ± 0.06 mm")
    bench.over(1, 2).over(2, 3).centres(1, 3).wall(1).wall(2).wall(3).at(1).at(3).at("bore")
    _, pattern, found = noisy(bench.table("rectangle", turned="as read"))
    readings = readings_of(pattern, BORE)
    model = model_of(pattern, readings)
    dice, out = random.Random(7), {name: [] for name in found.values}  # noqa: S311

    for _ in range(2000):
        fit = fitted(model, [shaken(one, dice) for one in readings], "")
        for name, figure in values_of(pattern, fit, found.turn).items():
            out[name].append(figure)
    for name, figures in out.items():
        assert found.spreads[name] / 2 == pytest.approx(stdev(figures), rel=0.05), name


def test_the_fit_and_its_errors_are_scipy_s():
    """Rectangle and bore in the deck's own frame, the Jacobian by differences: another way to the same answer."""
    dice = random.Random(3)  # noqa: S311
    bench = Bench(
        rectangle(60, 58, 0, (0.3, -0.2)), off={n: dice.gauss(0, 0.04) for n in range(1, 10)}, spread=" ± 0.08 mm"
    )
    bench.over(1, 2).over(2, 3).over(3, 4).over(1, 4).over(1, 3).wall(1).wall(2).wall(3).wall(4)
    job, pattern, found = noisy(bench.table("rectangle", turned="0 deg"))
    sigma = 0.04

    def misfits(q):
        a, b, x, y = q
        h = rectangle(a, b, 0, (x, y))
        out = []
        for one in pattern.readings:
            if one.wall:
                out.append(hypot(*h[one.wall - 1]) - PIN / 2 - BORE / 2 - one.reads)
            else:
                (p, q2) = (h[n - 1] for n in one.over)
                out.append(hypot(p[0] - q2[0], p[1] - q2[1]) + PIN - one.reads)
        return np.array(out) / sigma

    fit = least_squares(misfits, [61, 57, 0, 0], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    scale = max(1.0, sqrt(2 * fit.cost / 5))
    errors = scale * np.sqrt(np.diag(np.linalg.inv(fit.jac.T @ fit.jac)))
    for name, figure, error in zip(("side_x", "side_y", "centre.x", "centre.y"), fit.x, errors, strict=True):
        assert found.values[name] == pytest.approx(figure, abs=1e-6)
        assert found.spreads[name] / 2 == pytest.approx(error, rel=1e-4)
    assert found.fit.scatter == pytest.approx(scale, rel=1e-6)
    assert job.measured.new is pattern


def test_how_far_a_reading_is_off_is_what_a_fit_without_it_says():
    dice = random.Random(5)  # noqa: S311
    bench = Bench(rectangle(60, 58), off={n: dice.gauss(0, 0.05) for n in range(1, 8)})
    bench.over(1, 2).over(2, 3).over(3, 4).over(1, 4).over(1, 3).over(2, 4)
    _, pattern, found = noisy(bench.table("rectangle", turned="0 deg"))
    readings = readings_of(pattern, BORE)
    for one, told in zip(readings, found.fit.told, strict=True):
        others = fitted(found.fit.model, [r for r in readings if r is not one], "")
        (x, y), (u, v) = (others.model.points[n].at(others.unknowns) for n in (one.one, one.other))
        assert told.off[0] == pytest.approx(one.length - hypot(x - u, y - v), abs=2e-4)


def test_the_limits_of_the_test_are_one_in_a_thousand():
    assert CHANCE == 1e-3
    for freedom in (*range(1, 40), 99, 200):
        assert limit_of(freedom) == pytest.approx(chi2.isf(1e-3, freedom), rel=1e-9)
        for squares in (0.1 * freedom, freedom, 2.0 * freedom, 5.0 * freedom):
            assert chance_of(squares, freedom) == pytest.approx(chi2.sf(squares, freedom), rel=1e-9, abs=1e-300)


def test_a_finer_reading_weighs_more():
    """Two readings of one distance, 60.00 +- 0.01 and 60.10 +- 0.02: their mean by inverse squares is 60.02."""
    text = (
        '[measured.new]\nform = "circle"\ncount = 2\nturned = "0 deg"\nreadings = [ { centres = [1, 2], reads = "60.00 mm '
        '± 0.01 mm" }, { centres = [1, 2], reads = "60.10 mm ± 0.02 mm" } ]\n'
    )
    book, _, _ = sized(text)
    assert value(book, "measured.new.circle") == pytest.approx(60.02, abs=1e-9)
    scatter = sqrt((0.02 / 0.005) ** 2 + (0.08 / 0.01) ** 2)  # sigmas are half the tolerances
    assert value(book, "measured.new.scatter") == pytest.approx(scatter, abs=1e-9)
    assert book.spread("measured.new.circle") == pytest.approx(scatter * 2 / sqrt(1 / 0.005**2 + 1 / 0.01**2), abs=1e-9)


def test_a_pin_not_known_well_moves_all_readings_over_it():
    bench = Bench(rectangle(60, 58), spread=" ± 0.001 mm").over(1, 2).over(3, 4).over(2, 3).over(1, 4)
    book, _, _ = sized(bench.table("rectangle", turned="0 deg", diameter=f"{PIN} mm ± 0.05 mm"))
    assert book.spread("measured.new.side_x") == pytest.approx(hypot(0.05, 0.001 / sqrt(2)), abs=1e-6)
    bench.between(1, 2).between(3, 4)
    book, _, _ = sized(bench.table("rectangle", turned="0 deg", diameter=f"{PIN} mm ± 0.05 mm"))
    assert book.spread("measured.new.side_x") == pytest.approx(0.001 / 2, abs=1e-6)  # over and between: it cancels


@pytest.mark.parametrize(
    "kinds", ["over", "between", "wall", "over centres", "over at", "over between wall centres at"]
)
@pytest.mark.parametrize("common", ["diameter", "round_wall"])
def test_what_readings_share_moves_all_by_the_slope_of_two_fits(kinds, common):
    """The share of a pin or a wall in each spread: the fit made anew with it a hundredth larger and smaller."""
    bench = Bench(rectangle(60, 58, 7), (80, -30), 7, spread=" ± 0.02 mm")
    for kind in kinds.split():
        for n in (1, 2, 3, 4):
            bench.at(n) if kind == "at" else bench.wall(n, 62.0) if kind == "wall" else getattr(bench, kind)(
                n, n % 4 + 1
            )
    if kinds == "wall":
        bench.centres(1, 3)
        bench.centres(1, 2)

    def fit(size, spread=""):
        own = {"diameter": f"{PIN} mm", "round_wall": "62.0 mm", common: f"{size} mm{spread}"}
        return sized(bench.table("rectangle", turned="7 deg", **own))[0]

    middle = {"diameter": PIN, "round_wall": 62.0}[common]
    sure, unsure, up, down = (*(fit(middle, s) for s in ("", " ± 0.05 mm")), fit(middle + 0.01), fit(middle - 0.01))
    for size in ("side_x", "side_y", "hole.1.x", "hole.3.y"):
        name = f"measured.new.{size}"
        slope = (value(up, name) - value(down, name)) / 0.02
        assert unsure.spread(name) ** 2 - sure.spread(name) ** 2 == pytest.approx((0.05 * slope) ** 2, abs=1e-8)


# the machine's zero


def machine(*pairs):
    rows = ", ".join(f'{{ hole = "{name}", at = ["{x:.12f} mm", "{y:.12f} mm"] }}' for name, x, y in pairs)
    return f"[measured.machine]\nreadings = [ {rows} ]\n"


def seen(hole, zero, turn, off=(0.0, 0.0)):
    x, y = turned(*hole, turn)
    return zero[0] + x + off[0], zero[1] + y + off[1]


OLD = circle(78, 3, 45)
NEW = rectangle(60, 58)


@pytest.mark.parametrize("turn", [0.0, 0.37, 90.0, 179.99, -135.0])
def test_two_holes_give_the_way_from_the_deck_to_the_machine(turn):
    zero = (212.35, -48.2)
    text = machine(("old 1", *seen(OLD[0], zero, turn)), ("old 3", *seen(OLD[2], zero, turn)))
    _, book, found = check(demo_text() + "\n" + text)
    assert value(book, "measured.machine.x0") == pytest.approx(zero[0], abs=1e-8)
    assert value(book, "measured.machine.y0") == pytest.approx(zero[1], abs=1e-8)
    assert value(book, "measured.machine.turn") == pytest.approx(turn, abs=1e-8)
    agrees(book, [seen(h, zero, turn) for h in NEW], "measured.machine.hole", 1e-7)
    assert {f.name: f.verdict for f in found}["measured.machine.fit"] == "ok"


def test_the_turn_of_the_machine_is_scipy_s():
    """Five places with noise: rotation of least squares by scipy, which takes unit weights here."""
    dice, zero = random.Random(11), (100.0, 40.0)  # noqa: S311
    places = [*((f"old {n}", h) for n, h in enumerate(OLD, 1)), ("new 2", NEW[1]), ("bore", (0.0, 0.0))]
    off = [(dice.gauss(0, 0.01), dice.gauss(0, 0.01)) for _ in places]
    pairs = [(name, *seen(h, zero, 21, o)) for (name, h), o in zip(places, off, strict=True)]
    _, book, _ = check(demo_text() + "\n" + machine(*pairs))
    known, read = np.array([h for _, h in places]), np.array([p[1:] for p in pairs])
    flat = [np.column_stack([m - m.mean(axis=0), np.zeros(len(m))]) for m in (read, known)]
    rotation, rssd = Rotation.align_vectors(*flat)
    matrix = rotation.as_matrix()[:2, :2]
    assert value(book, "measured.machine.turn") == pytest.approx(degrees(atan2(matrix[1, 0], matrix[0, 0])), abs=1e-7)
    x0, y0 = read.mean(axis=0) - matrix @ known.mean(axis=0)
    assert value(book, "measured.machine.x0") == pytest.approx(x0, abs=1e-8)
    assert value(book, "measured.machine.y0") == pytest.approx(y0, abs=1e-8)
    assert value(book, "measured.machine.rms") == pytest.approx(rssd / sqrt(2 * len(places)), abs=1e-8)


def test_how_well_the_turn_and_the_zero_are_known():
    """Standard error of a turn: sigma over the root of the sum of squares about the middle; of the zero by scipy."""
    zero, places = (100.0, 40.0), [*((f"old {n}", h) for n, h in enumerate(OLD, 1)), ("bore", (0.0, 0.0))]
    _, book, _ = check(demo_text() + "\n" + machine(*((name, *seen(h, zero, 21)) for name, h in places)))
    known = np.array([h for _, h in places])
    about = known - known.mean(axis=0)
    assert book.spread("measured.machine.turn") == pytest.approx(degrees(0.02 / sqrt((about**2).sum())), rel=1e-6)

    def reads(q):
        return np.concatenate([seen((x, y), (q[0], q[1]), q[2]) for x, y in known]) / 0.01

    at = np.array([*zero, 21])
    slopes = np.array([(reads(at + d) - reads(at - d)) / 2e-4 for d in np.eye(3) * 1e-4]).T
    errors = 2 * np.sqrt(np.diag(np.linalg.inv(slopes.T @ slopes)))
    assert book.spread("measured.machine.x0") == pytest.approx(errors[0], rel=1e-4)
    assert book.spread("measured.machine.y0") == pytest.approx(errors[1], rel=1e-4)


def test_scales_of_another_unit_of_length_are_told():
    """Every place 0.5 % too far out: none of them alone is to blame."""
    pairs = [
        (name, *seen((1.005 * x, 1.005 * y), (100.0, 40.0), 5))
        for name, (x, y) in zip(
            ("old 1", "old 2", "old 3", "new 1", "new 2", "new 3", "new 4"), (*OLD, *NEW), strict=True
        )
    ]
    _, book, found = check(demo_text() + "\n" + machine(*pairs))
    told = {f.name: f for f in found}["measured.machine.fit"]
    assert value(book, "measured.machine.together") > 1
    assert told.verdict == "caution"


def test_a_distance_that_is_off_on_the_scales_is_told():
    zero = (100.0, 40.0)
    (x, y), other = seen(OLD[0], zero, 0), seen((0, 0), zero, 0)
    text = machine(("old 1", x + 0.3 * cos(pi / 4), y + 0.3 * sin(pi / 4)), ("bore", *other))
    _, book, found = check(demo_text() + "\n" + text)
    assert value(book, "measured.machine.distance_off") == pytest.approx(0.3, abs=1e-8)
    told = {f.name: f for f in found}["measured.machine.fit"]
    assert told.verdict == "caution"
    assert "The distance on the scales is 0.300 mm longer than on the deck: touch off old 1 and bore again" in told.says


def test_a_hole_that_was_touched_off_wrong_is_named():
    zero, pairs = (100.0, 40.0), []
    for n, hole in enumerate(OLD, 1):
        pairs.append((f"old {n}", *seen(hole, zero, 5, (0.5, 0) if n == 2 else (0, 0))))
    pairs += [("bore", *zero), ("new 1", *seen(NEW[0], zero, 5))]
    _, _, found = check(demo_text() + "\n" + machine(*pairs))
    told = {f.name: f for f in found}["measured.machine.fit"]
    assert told.says.startswith("old 2 is 0.500 mm off where the others put it")


def test_machine_coordinates_are_a_file_of_their_own(tmp_path, capsys):
    zero, turn = (212.35, 48.2), 3.0
    text = (
        f'[engine]\nbore = "{BORE} mm"\n[barrel]\nmaterial = "EN-GJL-250"\noutline = {{ circle = "112 mm" }}\n'
        f'[gasket]\nthickness = "1.2 mm"\nhole = "8.5 mm"\n{measured_head()}'
    )
    file = tmp_path / "job.toml"
    for number, more in enumerate(["", machine(("bore", *zero), ("new 3", *seen(NEW[2], zero, turn)))]):
        file.write_text(text + more, encoding="utf-8")
        assert guarded(app, ["make", str(file), "--into", str(tmp_path / str(number))]) == 0, capsys.readouterr().err
    without, with_it = ({p.name for p in (tmp_path / n).iterdir()} for n in "01")
    assert with_it - without == {"machine-coordinates.csv"}
    head = (tmp_path / "1" / "coordinates.csv").read_text(encoding="utf-8").partition("\n")[0]
    assert head == "hole,kind,x_mm,y_mm,radius_mm,angle_deg,diameter_mm,depth_mm"
    rows = list(csv.DictReader(StringIO((tmp_path / "1" / "machine-coordinates.csv").read_text(encoding="utf-8"))))
    assert [(r["hole"], r["kind"]) for r in rows] == [("bore", "bore"), *((str(n), "new") for n in range(1, 5))]
    for row, hole in zip(rows, [(0, 0), *NEW], strict=True):
        assert (float(row["machine_x_mm"]), float(row["machine_y_mm"])) == pytest.approx(
            seen(hole, zero, turn), abs=2e-6
        )
    listed = json.loads((tmp_path / "1" / "manifest.json").read_text(encoding="utf-8"))
    assert "machine-coordinates.csv" in {entry["path"] for entry in listed}
    page = (tmp_path / "1" / "index.html").read_text(encoding="utf-8")
    assert "On the machine&#39;s scales" in page
    assert f"{seen(NEW[0], zero, turn)[0]:.3f}" in page


def test_holes_that_are_not_known_leave_the_machine_out():
    """New holes without numbers can't be; old ones that only a given pattern has can."""
    text = engine(machine(("bore", 0, 0), ("old 1", 10, 10)))
    with pytest.raises(JobError, match="the job gives no old holes"):
        check(text)


# what is refused


def refused(text):
    with pytest.raises(JobError) as caught:
        check(text)
    return [(f.key, f.line, f.says) for f in caught.value.faults]


OPEN = [
    (
        Bench(rectangle(60, 58)).over(1, 2).over(3, 4),
        "rectangle",
        {},
        "don't tell the holes' distances: add the distance of holes 2 and 3 (over)",
    ),
    (
        Bench(rectangle(60, 58)).over(1, 2).over(2, 3).wall(1),
        "rectangle",
        {},
        "don't tell where the bore lies: add hole 2 to the bore (wall)",
    ),
    (
        Bench(rectangle(60, 58)).over(1, 2).over(2, 3).wall(1).wall(3),
        "rectangle",
        {},
        "don't tell where the bore lies: add hole 2 to the bore (wall)",
    ),
    (
        Bench(rectangle(60, 58)).at(1),
        "rectangle",
        {},
        "don't tell where the holes lie: add X and Y of hole 2, and X and Y of hole 3",
    ),
    (
        Bench(POINTS[:3]).over(1, 2).over(2, 3).over(1, 3),
        "points",
        {"count": 3, "roughly": [["30 mm", "29 mm"], ["-30 mm", "29 mm"], ["-30 mm", "-29 mm"]]},
        "don't tell where the bore lies: add hole 1 to the bore (wall), and hole 2 to the bore (wall)",
    ),
    (
        Bench(POINTS[:3]).at(1).at(2).at(3),
        "points",
        {"count": 3},
        "don't tell where the bore lies: add X and Y of the bore",
    ),
    (
        Bench(circle(78, 4)).at("bore"),
        "circle",
        {"count": 4},
        "don't tell where the holes lie: add X and Y of hole 1, and X and Y of hole 2",
    ),
]


@pytest.mark.parametrize(("bench", "form", "keys", "says"), OPEN)
def test_readings_that_leave_something_open_are_told_what_is_lacking(bench, form, keys, says):
    ((key, line, told),) = refused(engine(bench.table(form, **keys)))
    assert (key, told) == ("measured.new.readings", says)
    assert engine(bench.table(form, **keys)).splitlines()[line - 1] == "readings = ["


def test_what_was_said_to_be_lacking_is_enough():
    bench = Bench(rectangle(60, 58)).at(1).over(1, 2).over(2, 3).at(2)
    book, _, _ = sized(bench.table("rectangle", turned="0 deg"))
    agrees(book, rectangle(60, 58))


def one(reading, says, key="", **keys):
    """A table with one wrong reading, the second."""
    bench = Bench(rectangle(60, 58)).over(1, 2)
    bench.lines.append(reading)
    text = engine(bench.table("rectangle", **keys))
    line = 1 + text.splitlines().index(f"  {reading},")
    return pytest.param(text, [(f"measured.new.readings.1{key}", line, says)], id=says[:40])


REFUSED = [
    one('{ over = [1, 5], reads = "60 mm" }', "names hole 5, and the pattern has 4", ".over"),
    one('{ over = [2, 2], reads = "60 mm" }', "names hole 2 twice: a reading goes from one hole to another", ".over"),
    one('{ wall = 7, reads = "60 mm" }', "names hole 7, and the pattern has 4", ".wall"),
    one('{ over = [1, 2], reads = "8.5 mm" }', "must be more than the diameter of 8.5 mm that it goes over, not '8.5 mm'", ".reads"),
    one('{ over = [1, 2], reads = "60 deg" }', "is a length (in mm um cm m in thou), like \"57.20 mm\", not '60 deg'", ".reads"),
    one('{ over = [1, 2], reads = "-60 mm" }', "must lie between 0.01 and 2000 mm, not '-60 mm'", ".reads"),
    one('{ over = [1, 2, 3], reads = "60 mm" }', "wants at most 2 entries, not 3", ".over"),
    one("{ over = [1, 2] }", 'wants reads and no at with over, like { over = [1, 2], reads = "68.31 mm" }'),
    one('{ hole = 1, reads = "60 mm" }', 'wants at and no reads with hole, like { hole = 1, at = ["112.40 mm", "85.06 mm"] }'),
    one('{ reads = "60 mm" }', 'wants just one of over, between, centres, wall and hole, like { over = [1, 2], reads = "68.31 mm" }'),
    one('{ over = [1, 2], wall = 1, reads = "60 mm" }', 'wants just one of over, between, centres, wall and hole, like { over = [1, 2], reads = "68.31 mm" }'),
    one('{ hole = "boar", at = ["1 mm", "2 mm"] }', "wants the number of a hole from 1 to 36, or \"bore\", not 'boar'", ".hole"),
    one('{ hole = true, at = ["1 mm", "2 mm"] }', 'wants the number of a hole from 1 to 36, or "bore", not true', ".hole"),
    one('{ ovr = [1, 2], reads = "60 mm" }', "is not a key here; did you mean over?", ".ovr"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "told"), REFUSED)
def test_a_wrong_reading_is_told_on_its_own_line(text, told):
    assert refused(text) == told


TABLES = [
    ('form = "rectangle"\ncount = 3\n', "measured.new", "has a count of 3, and a rectangle has 4 holes"),
    ('form = "circle"\n', "measured.new", 'as circle wants a count, like form = "circle", count = 3'),
    ('form = "oval"\n', "measured.new.form", "must be 'circle', 'rectangle' or 'points', not 'oval'"),
    ('form = "circle"\ncount = 4\nroughly = [["1 mm", "2 mm"], ["3 mm", "4 mm"]]\n', "measured.new", "takes no roughly with circle"),
    ('form = "points"\ncount = 4\nroughly = [["1 mm", "2 mm"], ["3 mm", "4 mm"]]\n', "measured.new", "has 2 places in roughly, and a count of 4"),
    ('form = "rectangle"\nturned = "12 mm"\n', "measured.new.turned", "is an angle (in deg rad), like \"45 deg\", not '12 mm'"),
    ('form = "rectangle"\nturned = "as read"\n', "measured.new.turned", 'is "as read" and needs X and Y of two holes, like { hole = 1, at = ["112.40 mm", "85.06 mm"] }'),
    ('form = "points"\ncount = 3\n', "measured.new.readings", 'wants X and Y of every hole, and has none of hole 1: read it off the scales, or sketch where all holes are, like roughly = [["30 mm", "29 mm"], ...]'),
]  # fmt: skip


@pytest.mark.parametrize(("keys", "key", "says"), TABLES)
def test_a_wrong_table_is_told(keys, key, says):
    text = engine(f'[measured.new]\n{keys}readings = [ {{ centres = [1, 2], reads = "60 mm" }} ]\n')
    assert [(k, s) for k, _, s in refused(text)] == [(key, says)]


def test_what_a_reading_needs_beside_it_is_asked_for():
    text = '[measured.new]\nform = "rectangle"\nreadings = [\n{ over = [1, 2], reads = "68 mm" },\n{ wall = 1, reads = "9 mm" },\n]\n'
    assert refused(text) == [
        ("measured.new.readings.0.over", 4, 'needs the diameter of the pins or holes beside the readings, like diameter = "8.50 mm"'),
        ("measured.new.readings.1.wall", 5, 'needs the diameter of the pins or holes beside the readings, like diameter = "8.50 mm"'),
        ("measured.new.readings.1.wall", 5, "needs the wall's diameter: engine.bore, or round_wall beside the readings, like \"57.20 mm\""),
    ]  # fmt: skip


def test_all_faults_of_both_patterns_and_the_machine_are_told_together():
    bad = Bench(rectangle(60, 58))
    bad.lines = ['{ over = [1, 9], reads = "60 mm" }', '{ centres = [3, 3], reads = "60 mm" }']
    text = engine(
        bad.table("rectangle", "old") + bad.table("rectangle", "new") + machine(("new 5", 0, 0), ("old 4", 1, 1))
    )
    keys = [k for k, _, _ in refused(text)]
    assert keys == [
        *(f"measured.{name}.readings.{n}" for name in ("old", "new") for n in ("0.over", "1.centres")),
        "measured.machine.readings.0.hole",
    ]


MACHINES = [
    ([("bore", 0, 0), ("old 4", 1, 1)], "measured.machine.readings.1.hole", "names 'old 4', and that pattern has 3 holes"),
    ([("bore", 0, 0), ("hole 1", 1, 1)], "measured.machine.readings.1.hole", "wants \"bore\", or old or new and a hole's number, like \"old 1\", not 'hole 1'"),
    ([("bore", 0, 0), ("bore", 1, 1)], "measured.machine.readings", "touches 'bore' alone: another hole tells the turn"),
    ([("bore", 0, 0)], "measured.machine.readings", "wants at least 2 entries, not 1"),
]  # fmt: skip


@pytest.mark.parametrize(("pairs", "key", "says"), MACHINES)
def test_a_wrong_touch_is_told(pairs, key, says):
    assert [(k, s) for k, _, s in refused(demo_text() + "\n" + machine(*pairs))] == [(key, says)]


def test_old_holes_are_given_or_measured():
    text = demo_text().replace('pattern = { circle = "78 mm", count = 3, first = "45 deg" }\n', "")
    ((key, _, says),) = refused(text)
    assert key == "barrel.old_holes.pattern"
    assert says.startswith('is missing: where the old holes are, like { circle = "78 mm", count = 3')


def test_readings_of_no_such_pattern_are_told_in_a_sentence():
    bench = Bench(rectangle(60, 58))
    bench.lines = [
        '{ centres = [1, 2], reads = "60 mm" }', '{ centres = [2, 3], reads = "58 mm" }', '{ centres = [1, 3], reads = "300 mm" }'
    ]  # fmt: skip
    _, found, _ = sized(bench.table("rectangle", turned="0 deg"))
    assert found["measured.new.fit"].verdict == "caution"


def test_a_list_over_several_lines_keeps_the_lines_of_what_follows():
    """Its last row looks like the head of a table, and is none."""
    text = engine(
        '[measured.new]\nform = "points"\ncount = 2\nroughly = [\n  ["30 mm", "0 mm"],\n  ["-30 mm", "0 mm"]\n]\n'
        'readings = [\n  { over = [1, 2], reads = "60 mm" }, # [1]\n  { wall = 3, reads = "6 mm" }\n]\n[head]\nboss = "2 m"\nhole = 1\n'
    )
    assert [(key, line) for key, line, _ in refused(text)] == [
        ("measured.new.readings.0.over", 11), ("measured.new.readings.1.wall", 12), ("measured.new.readings.1.wall", 12),
        ("head.hole", 16),
    ]  # fmt: skip


@pytest.mark.parametrize("off", [5.0, 20.0, -5.0])
def test_a_slip_of_the_pen_is_named_too(off):
    bench = Bench(POINTS, off={4: off})
    for a, b in combinations(range(1, 6), 2):
        bench.over(a, b)
    for n in range(1, 6):
        bench.wall(n)
    rough = [[f"{round(x / 5) * 5} mm", f"{round(y / 5) * 5} mm"] for x, y in POINTS]
    _, found, _ = sized(bench.table("points", count=5, roughly=rough, turned="44 deg"))
    assert found["measured.new.fit"].says.startswith("Reading 4 of the head's holes (over 1 and 5, ")


def test_points_turn_as_the_job_s_own_pattern_does():
    bench = Bench(POINTS, (200, 80), 33)
    for n in (1, 2, 3, 4, 5, "bore"):
        bench.at(n)
    own = ", ".join(f'["{x} mm", "{y} mm"]' for x, y in POINTS)
    book, found, _ = sized(bench.table("points", count=5) + f"[head]\nholes = {{ points = [{own}] }}\n")
    agrees(book, POINTS)
    assert found["measured.new.pattern"].verdict == "ok"
    assert "measured.new.turn" not in found


def test_points_without_a_turn_lie_as_the_scales_do():
    bench = Bench(POINTS, (200, 80))
    for n in (1, 2, 3, 4, 5, "bore"):
        bench.at(n)
    book, found, _ = sized(bench.table("points", count=5))
    agrees(book, POINTS, "deck.hole")
    assert found["measured.new.turn"].verdict == "caution"
    assert value(book, "measured.new.first") == pytest.approx(degrees(atan2(29, 30)), abs=1e-8)


@pytest.mark.parametrize("scales", [False, True])
def test_points_without_a_turn_lie_as_they_were_sketched(scales):
    """The line from hole 1 to the one farthest from it has the sketch's direction, whatever way the scales lie."""
    bench = Bench(POINTS, (200, 80), 33)
    for a, b in combinations(range(1, 6), 2):
        bench.over(a, b)
    for n in range(1, 6):
        bench.wall(n)
        if scales:
            bench.at(n)
    rough = [(float(round(x / 5) * 5), float(round(y / 5) * 5)) for x, y in POINTS]
    book, found, _ = sized(bench.table("points", count=5, roughly=[[f"{x} mm", f"{y} mm"] for x, y in rough]))
    far = max(range(5), key=lambda n: hypot(rough[n][0] - rough[0][0], rough[n][1] - rough[0][1]))
    way = [value(book, f"deck.hole.{far + 1}.{k}") - value(book, f"deck.hole.1.{k}") for k in "xy"]
    sketched = degrees(atan2(rough[far][1] - rough[0][1], rough[far][0] - rough[0][0]))
    assert degrees(atan2(way[1], way[0])) == pytest.approx(sketched, abs=1e-6)
    lies = degrees(atan2(POINTS[far][1] - POINTS[0][1], POINTS[far][0] - POINTS[0][0]))
    turns = [turned(x, y, sketched - lies) for x, y in POINTS]
    agrees(book, turns, "deck.hole", 1e-6)
    assert found["measured.new.turn"].verdict == "caution"


def test_places_that_lie_in_one_spot_tell_no_turn():
    text = engine('[head]\nholes = { points = [["0.2 mm", "0 mm"]] }\n' + machine(("bore", 0, 0), ("new 1", 0.2, 0)))
    assert [(k, s) for k, _, s in refused(text)] == [
        ("measured.machine.readings", "touches places that lie within 0.200 mm: one farther off tells the turn")
    ]


def test_every_kind_of_span_is_one():
    bench = Bench(rectangle(60, 58)).over(1, 2).between(1, 2).centres(1, 2).wall(1)
    _, pattern, _ = noisy(bench.over(2, 3).wall(2).table("rectangle"))
    spans = readings_of(pattern, BORE)
    assert all(isinstance(one, Span) for one in spans)
    assert [one.length for one in spans[:3]] == pytest.approx([60, 60, 60], abs=1e-9)
    assert spans[3].length == pytest.approx(hypot(30, 29), abs=1e-9)
