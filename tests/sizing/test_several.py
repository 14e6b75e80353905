"""More than one of a kind, sized: entries of the same values give the numbers of the plain table, unequal ones those of
statics by hand."""

import tomllib
from math import cos, pi, radians, sin

import numpy as np
import pytest

from parts.job import load
from parts.judging.findings import judge
from parts.relations.contact import Blank, ContourForm, open_on
from parts.relations.contour import Law, ring_law, walk
from parts.relations.shared_mandrel import on_mandrel_of
from parts.sizing import size
from tests.conftest import JOBS
from tests.listed import old_holes, one_of_each, plain, plugs, rings, several, studs, text, worked

WORKED = worked()
CLOSE = 1e-9
OWN_OF_LISTS = ("joint.mean_", "job.stud.holes.")
"""sizes that lists alone have"""


def sized(job, **kwargs):
    read = load(text(job))
    return read, size(read, **kwargs)


def numbers(value):
    return np.array(value, dtype=float)


def same(before, after, job):
    """Every size of a plain job stands in that of lists, with the same number, once for each entry."""
    seen = set()
    for name, entry in after.items():
        local = plain(job, name)
        seen.add(local)
        if not local.startswith(OWN_OF_LISTS):
            assert entry.unit == before[local].unit, name
            if isinstance(entry.value, str):
                assert entry.value == before[local].value
                continue
            assert numbers(entry.value) == pytest.approx(numbers(before[local].value), rel=CLOSE, abs=CLOSE), name
            assert after.spread(name) == pytest.approx(before.spread(local), rel=1e-6, abs=CLOSE), name
    assert seen >= set(before)


def test_one_entry_of_each_gives_the_numbers_of_the_plain_tables():
    _, before = sized(WORKED)
    job, after = sized(one_of_each(WORKED))
    same(before, after, job)
    assert len(after) > len(before)
    assert {plain(job, name) for name in after.left_out} == set(before.left_out)


@pytest.mark.parametrize(
    "file",
    [f for f in sorted(JOBS.glob("*.toml")) if "[[stud]]" not in f.read_text(encoding="utf-8")],
    ids=lambda f: f.stem,
)
def test_so_it_is_with_other_jobs(file):
    data = tomllib.loads(file.read_text(encoding="utf-8"))
    _, before = sized(data, contact=False)
    job, after = sized(one_of_each(data), contact=False)
    same(before, after, job)


def test_two_kinds_of_the_same_values_give_them_too():
    _, before = sized(WORKED, contact=False)
    two = studs(WORKED, front={"holes": [1, 2]}, rear={"holes": [3, 4]})
    two = old_holes(plugs(two, "breather"), {"pattern": {**WORKED["barrel"]["old_holes"]["pattern"]}})
    two = rings(two, ["top", "low"], top={}, low={})
    job, after = sized(two, contact=False)
    for name, entry in before.items():
        for real in {name, *(one.real(name) for one in job.named())} & set(after):
            if name not in {"joint.studs", "joint.proof_thread"}:  # one old hole runs into a front stud's
                assert after[real].value == pytest.approx(entry.value, rel=CLOSE, abs=CLOSE), real
    for kind in ("front", "rear"):
        assert after[f"joint.{kind}.studs"].value == 2
        assert after[f"joint.{kind}.gas_share"].value == pytest.approx(0.25, abs=CLOSE)
        assert after[f"stud.{kind}.length"].value == before["stud.length"].value
    assert after["gasket.seating_stress"].value == pytest.approx(before["gasket.seating_stress"].value, abs=CLOSE)
    assert after["gasket.working_stress"].value == pytest.approx(before["gasket.working_stress"].value, abs=CLOSE)


def on_springs(places, springs):
    """Share of a unit force at the origin on each spring under a stiff plate: equilibrium by unknown forces.

    Forces f, plate z = a + b x + c y: f = k z at every spring, sum f = 1, sum f x = 0, sum f y = 0. Solved all at once by
    least squares, no elimination: numpy's singular values give the plate that tilts least where nothing holds it.
    """
    count, scale = len(places), max(springs)
    matrix, right = np.zeros((count + 3, count + 3)), np.zeros(count + 3)
    for row, ((x, y), k) in enumerate(zip(places, springs, strict=True)):
        matrix[row, row] = -1.0
        matrix[row, count:] = k / scale * np.array([1.0, x, y])
        matrix[count : count + 3, row] = 1.0, x, y
    right[count] = 1.0
    return np.linalg.lstsq(matrix, right, rcond=None)[0][:count]


PATTERNS = {
    "four, front and rear": ({"rectangle": ["60 mm", "58 mm"]}, {"front": [1, 2], "rear": [3, 4]}),
    "four, across": ({"rectangle": ["64 mm", "56 mm"], "turned": "7 deg"}, {"front": [1, 3], "rear": [2, 4]}),
    "four, one of them": ({"rectangle": ["60 mm", "58 mm"]}, {"front": [1, 2, 4], "rear": [3]}),
    "three, two and one": ({"circle": "84 mm", "count": 3, "first": "20 deg"}, {"front": [1, 3], "rear": [2]}),
    "six": ({"circle": "90 mm", "count": 6, "first": "10 deg"}, {"front": [1, 2, 4], "rear": [3, 5, 6]}),
    "points": (
        {"points": [["35 mm", "22 mm"], ["-30 mm", "31 mm"], ["-28 mm", "-36 mm"], ["33 mm", "-29 mm"], ["44 mm", "-3 mm"]]},
        {"front": [1, 5], "rear": [2, 3, 4]},
    ),
    "two on a line through the bore": ({"circle": "86 mm", "count": 2, "first": "35 deg"}, {"front": [1], "rear": [2]}),
}  # fmt: skip


def unequal(pattern, holes):
    """Studs of two kinds: another thread, shank and thickness of head, without an insert."""
    rear = {
        "holes": holes["rear"], "head_thickness": "38 mm", "tap_end": "M12x1.5", "nut_end": "M10x1.25", "shank": "8 mm",
        "nut": "ISO 4032 class 10", "washer": "ISO 7089 300 HV", "preload_share": 0.3,
    }  # fmt: skip
    job = studs(
        {**WORKED, "head": {**WORKED["head"], "holes": pattern, "hole_diameter": "11 mm"}},
        front={"holes": holes["front"]},
        rear=rear,
    )
    del job["stud"][1]["insert"]
    job["barrel"] = {k: v for k, v in job["barrel"].items() if k not in ("passages", "outline")} | {
        "outline": {"circle": "140 mm"}
    }
    job.pop("plug")
    return job


@pytest.mark.parametrize("case", PATTERNS)
def test_a_stiff_head_on_springs_of_two_kinds(case):
    pattern, holes = PATTERNS[case]
    _, book = sized(unequal(pattern, holes), contact=False)
    kind = {n: name for name, many in holes.items() for n in many}
    numbers = sorted(kind)
    places = [(book[f"deck.hole.{n}.x"].value, book[f"deck.hole.{n}.y"].value) for n in numbers]
    stiff = {k: book[f"stud.{k}.stiffness"].value + book[f"joint.{k}.clamped_stiffness"].value for k in holes}
    assert abs(stiff["front"] / stiff["rear"] - 1) > 0.1
    wanted = on_springs(places, [stiff[kind[n]] for n in numbers])
    found = [book[f"joint.hole.{n}.gas_share"].value for n in numbers]
    assert found == pytest.approx(list(wanted), abs=1e-8)
    assert sum(found) == pytest.approx(1, abs=1e-8)
    for axis in (0, 1):  # no moment is left
        assert sum(s * p[axis] for s, p in zip(found, places, strict=True)) == pytest.approx(0, abs=1e-6)
    force = book["joint.gas_force"].value
    for name in holes:
        most = max(wanted[numbers.index(n)] for n in holes[name])
        assert book[f"joint.{name}.gas_share"].value == pytest.approx(most, abs=1e-8)
        assert book[f"joint.{name}.gas_force_each"].value == pytest.approx(most * force, rel=1e-7)
        own = stiff[name] - book[f"joint.{name}.clamped_stiffness"].value
        opens = most * force * (1 - own / stiff[name])
        factor = book[f"joint.{name}.preload"].value / opens
        assert book[f"joint.{name}.separation_factor"].value == pytest.approx(factor, rel=1e-6)


@pytest.mark.parametrize("case", PATTERNS)
def test_the_gasket_is_seated_by_the_sum_of_all(case):
    pattern, holes = PATTERNS[case]
    _, book = sized(unequal(pattern, holes), contact=False)

    def total(name):
        return sum(len(many) * book[f"joint.{kind}.{name}"].value for kind, many in holes.items())

    area = book["gasket.pressed_area"].value
    for stress, preload in (("seating", "preload"), ("least_seating", "least_preload")):
        assert book[f"gasket.{stress}_stress"].value == pytest.approx(total(preload) / area, rel=1e-9)
    assert book["gasket.greatest_stress"].value == pytest.approx(total("greatest_preload") / area, rel=1e-9)
    force = book["joint.gas_force"].value
    off = sum(
        (1 - book[f"joint.{kind}.stiffness_share"].value) * book[f"joint.hole.{n}.gas_share"].value * force
        for kind, many in holes.items()
        for n in many
    )
    assert book["gasket.working_stress"].value == pytest.approx(
        (total("lowest_preload") - off) / area, rel=1e-8, abs=1e-7
    )


def test_each_hole_is_held_to_its_own_stud():
    pattern, holes = PATTERNS["four, one of them"]
    job, book = sized(unequal(pattern, holes), contact=False)
    for hole in (1, 2, 3, 4):
        kind = "rear" if hole in holes["rear"] else "front"
        major = book[f"deck.{kind}.tapped_major"].value
        x, y = (book[f"deck.hole.{hole}.{axis}"].value for axis in "xy")
        assert book[f"deck.hole.{hole}.to_bore"].value == pytest.approx((x**2 + y**2) ** 0.5 - 57.2 / 2 - major / 2)
        assert job.of_hole(hole, "stud.length") == f"stud.{kind}.length"
    apart = 60 - (book["deck.front.tapped_major"].value + book["deck.rear.tapped_major"].value) / 2
    assert book["deck.hole.4.to_next"].value <= apart + CLOSE
    assert book["deck.tapped_major"].value == max(book[f"deck.{k}.tapped_major"].value for k in holes)
    assert book["joint.head_float"].value == min(book[f"joint.{k}.head_float"].value for k in holes)


def test_studs_on_a_line_beside_the_bore_can_t_hold_it_and_stop():
    """From (-30, 31) to (34, 49) the line passes the bore at 2524/sqrt(64^2 + 18^2): no share balances the gas."""
    pattern = {"points": [["-30 mm", "31 mm"], ["2 mm", "40 mm"], ["34 mm", "49 mm"]]}
    job, book = sized(unequal(pattern, {"front": [1, 3], "rear": [2]}), contact=False)
    assert {"joint.hole.1.gas_share", "joint.front.gas_share", "joint.rear.gas_share"}.isdisjoint(book)
    far = abs(-30 * 49 - 34 * 31) / (64**2 + 18**2) ** 0.5
    assert book["joint.bore_inside"].value == pytest.approx(-far, abs=1e-6)
    assert next(f for f in judge(book, job) if f.name == "joint.bore_inside").verdict == "stop"


def test_a_stud_that_the_tilt_presses_down_does_not_open():
    pattern = {"points": [["-30 mm", "31 mm"], ["30 mm", "31 mm"], ["0 mm", "60 mm"]]}
    _, book = sized(unequal(pattern, {"front": [1, 2], "rear": [3]}), contact=False)
    assert book["joint.hole.3.gas_share"].value == pytest.approx(
        on_springs([(-30, 31), (30, 31), (0, 60)], [1, 1, 1])[2]
    )
    assert book["joint.hole.3.gas_share"].value < 0
    assert book["joint.rear.gas_share"].value == 1e-3
    assert book["joint.rear.separation_factor"].value > 100


# one mandrel for several rings ----------------------------------------------------------------------------------------


def test_a_ring_of_the_same_shape_presses_as_on_its_own_mandrel():
    _, book = sized(rings(WORKED, ["top"], top={}, same={}, wide={"axial_width": "2.6 mm"}))
    for name in ("same", "wide"):
        for figure in ("pressure_ratio_least", "light_gap"):
            assert book[f"ring.{name}.on.top.{figure}"].value == pytest.approx(
                book[f"ring.top.{figure}"].value, abs=2e-3
            )
        assert book[f"ring.{name}.on.top.free_gap"].value == pytest.approx(8.58, abs=1e-3)


def test_a_finer_slit_leaves_the_ring_longer_by_as_much():
    """The curve goes on past the tips by the same law, so the gap shrinks by about what the ring is longer."""
    _, book = sized(rings(WORKED, ["top"], top={}, fine={"slit": "0.3 mm", "closed_gap": "0.2 mm"}))
    ring = Blank(book["ring.fine.outside_diameter"].value, 2.4, 2.38, 0.3, 1e5)
    law = ring_law(57.2, 2.4, book["ring.top.outside_diameter"].value, 8.58, book["ring.top.closed_gap"].value, 0.95)
    held = 2 * walk(law, ring.half)[-1][2]  # of the ring on the curve, by the contour's own integral
    kept = Law(law.radius, law.blank_radius, law.parameter, 1.0)
    assert open_on(ring, ContourForm(law, bound=True)).gap == pytest.approx(held, abs=5e-3)
    assert book["ring.fine.on.top.free_gap"].value == pytest.approx(2 * walk(kept, ring.half)[-1][2], abs=2e-2)


def test_a_thicker_ring_lies_further_out_on_the_contour():
    """Its mean line is the curve's parallel: held against points of that curve, moved out along their normals."""
    law, beside = ring_law(57.2, 2.4, 57.295493, 8.58, 0.2, 0.95), 0.25
    ring = Blank(57.295493 + 0.5, 2.4 + 2 * beside, 2.38, 0.5, 1e5)
    points = walk(law, pi * law.blank_radius, 4000)
    out = np.array([(x - beside * cos(law.direction(s)), y + beside * sin(law.direction(s))) for s, x, y in points])
    along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(out, axis=0).T))])
    end = np.interp(ring.half, along, out[:, 1])
    assert open_on(ring, ContourForm(law, bound=True, outside=beside)).gap == pytest.approx(2 * end, abs=5e-3)
    turn = np.unwrap(np.arctan2(*np.gradient(out, axis=0).T))
    bend = np.gradient(turn, along)
    curvature = open_on(ring, ContourForm(law, bound=True, outside=beside)).curvature
    places = np.linspace(0, ring.half, len(curvature))
    assert list(curvature)[5:-5] == pytest.approx(list(np.interp(places, along, bend))[5:-5], rel=1e-4)


def test_what_does_not_open_or_press_is_no_fault_of_the_file():
    ring = {
        "bore": 57.2, "thickness": 2.4, "width": 2.38, "modulus": 1e5, "outside": 57.2, "slit": 0.2, "set_fraction": 0.95,
        "pressure": 0.17,
    }  # fmt: skip
    for form, own in (("pin", {"open_gap": 0.1}), ("round", {"mandrel": 40.0})):
        assert on_mandrel_of(form, "free_gap")(**ring, **own) == 0.2
        assert on_mandrel_of(form, "pressure_ratio_least")(**ring, **own) == 0
        assert on_mandrel_of(form, "light_gap")(**ring, **own) == 0
    assert on_mandrel_of("pin", "pressure_ratio_least")(**ring, open_gap=0.201) < 0.01


def test_which_mandrels_are_tried():
    job = rings(
        WORKED,
        ["top", "low"],
        top={},
        low={"free_gap": "7 mm"},
        thick={"radial_thickness": "2.5 mm"},
        tall={"axial_width": "9 mm"},
    )
    tried = {n for n in sized(job)[1] if ".on." in n and n.endswith(".free_gap")}
    assert tried == {
        "ring.thick.on.top.free_gap",
        "ring.thick.on.low.free_gap",
    }  # the tall one is taller than their seats
    for change in ({"form": "pin"}, {"purpose": "fit check"}):
        job["mandrel"] = [{**one, **change} for one in job["mandrel"]]
        assert not any(".on." in n for n in sized(job)[1])
    assert not any(".on." in n for n in sized(rings(WORKED, top={}, low={}))[1])
    assert not any(".on." in n for n in sized(rings(WORKED, ["top"], top={}, low={}), contact=False)[1])


def test_each_ring_is_cut_from_its_own_length_of_bar():
    _, book = sized(several(WORKED), contact=False)
    for name, width in (("top", 2.38), ("second", 2.38), ("third", 2.5)):
        assert book[f"ring.{name}.stock_length"].value == pytest.approx(3 * (width + 2.0) + 1.0)


def test_old_holes_of_two_sizes_are_filled_each_by_its_own():
    _, book = sized(several(WORKED), contact=False)
    x, y = (book[f"deck.hole.3.{axis}"].value for axis in "xy")
    to_small = ((x - 0) ** 2 + (y + 45) ** 2) ** 0.5 - 7 / 2
    circle = [(39 * cos(radians(a)), 39 * sin(radians(a))) for a in (45, 165, 285)]
    to_large = min(((x - a) ** 2 + (y - b) ** 2) ** 0.5 - 9.6 / 2 for a, b in circle)
    nearest = min(to_small, to_large) - book["deck.rear.tapped_major"].value / 2
    assert book["deck.hole.3.to_old"].value == pytest.approx(nearest)
