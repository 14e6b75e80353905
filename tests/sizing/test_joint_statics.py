"""Do the studs surround the bore, what does each carry, where is metal, how does the head bend: by other solvers."""

import numpy as np
import pytest
from scipy.integrate import solve_bvp
from scipy.spatial import ConvexHull, Delaunay

from parts.job import load
from parts.job.examples import demo_text
from parts.judging.findings import judge
from parts.relations import bending, joint, shares
from parts.sizing import size
from tests.conftest import Text

HOLES = 'rectangle = ["60.0 mm", "58.0 mm"], turned = "0 deg"'
FACE = 'joint_face = "66 mm"'


def sized(*changes):
    job = load(Text(demo_text()).swap(*changes))
    book = size(job)
    return book, {f.name: f for f in judge(book, job)}


def points(*places):
    return (HOLES, "points = [" + ", ".join(f'["{x} mm", "{y} mm"]' for x, y in places) + "]")


def named(places, **more):
    return {f"{axis}_{n}": v for n, place in enumerate(places, 1) for axis, v in zip("xy", place, strict=True)} | more


# do they surround it


@pytest.mark.parametrize("seed", range(40))
def test_inside_the_studs_is_what_a_hull_says(seed):
    """Sign by Delaunay's triangles, distance by walking along the hull's sides in steps of a thousandth."""
    dice = np.random.default_rng(seed)
    places = dice.uniform(-40, 40, (dice.integers(3, 9), 2)) + dice.uniform(-30, 30, 2)
    corners = places[ConvexHull(places).vertices]
    steps = np.linspace(0, 1, 1001)[:, None]
    sides = [a + steps * (b - a) for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True)]
    near = min(np.hypot(*side.T).min() for side in sides)
    sign = 1 if Delaunay(places).find_simplex([0, 0]) >= 0 else -1
    assert shares.bore_inside(**named(places)) == pytest.approx(sign * near, abs=0.05)


@pytest.mark.parametrize(
    ("places", "inside"),
    [
        ([(30, 29), (30, -29)], -30.0),
        ([(30, 29), (-30, -29)], 0.0),
        ([(30, 29), (15, 14.5)], -np.hypot(15, 14.5)),
        ([(30, 40)], -50.0),
        ([(30, 0), (60, 0), (90, 0)], -30.0),
        ([(10, -30), (10, 30), (70, 0)], -10.0),
        ([(-10, -30), (-10, 30), (50, 0)], 10.0),
    ],
)
def test_studs_on_a_line_have_no_inside(places, inside):
    assert shares.bore_inside(**named(places)) == pytest.approx(inside, abs=1e-9)


def test_two_studs_to_one_side_are_a_stop_with_the_reason():
    _, found = sized(*points((30, 29), (30, -29)))
    told = found["joint.bore_inside"]
    assert (told.verdict, told.value) == ("stop", -30.0)
    assert "the head tilts open" in told.says


def test_three_studs_to_one_side_balance_on_paper_and_stop_too():
    """Springs that could push as well would hold it: one of them would have to push the head down."""
    book, found = sized(*points((30, 30), (30, -30), (45, 0)))
    assert min(book[f"joint.hole.{n}.gas_share"].value for n in (1, 2, 3)) < 0
    assert found["joint.bore_inside"].verdict == "stop"


# what each carries


@pytest.mark.parametrize("seed", range(10))
def test_shares_are_the_least_energy_that_balances(seed):
    """Forces k (a + b x + c y) with sum 1 and no moment: numpy solves the three equations."""
    dice = np.random.default_rng(seed)
    places, k = dice.uniform(-40, 40, (5, 2)), dice.uniform(1e5, 9e5, 5)
    plane = np.column_stack([np.ones(5), places])
    carried = k * (plane @ np.linalg.solve(plane.T @ (k[:, None] * plane), [1, 0, 0]))
    springs = named(places, **{f"spring_{n}": float(v) for n, v in enumerate(k, 1)})
    for n, part in enumerate(carried, 1):
        assert shares.share_on_springs(n, **springs) == pytest.approx(part, abs=1e-9)
    assert carried.sum() == pytest.approx(1)
    assert np.abs(carried @ places).max() < 1e-9


def test_the_plain_stud_is_loaded_by_statics_too():
    """A triangle at 40 mm to +X and two at -20, 34.64: even by its own symmetry, though its sectors were too. Moved
    1 mm to -X the stud at +X carries (20 + 1)/60, by moments about the line of the other two."""
    book, _ = sized(*points((39, 0), (-21, 34.641), (-21, -34.641)))
    assert book["joint.hole.1.gas_share"].value == pytest.approx(21 / 60, abs=1e-9)
    assert book["joint.hole.2.gas_share"].value == pytest.approx(39 / 120, abs=1e-9)
    assert book["joint.gas_share"].value == pytest.approx(21 / 60, abs=1e-9)
    assert book["joint.gas_force_each"].value == pytest.approx(0.35 * book["joint.gas_force"].value)


# where it seals


@pytest.mark.parametrize(
    ("change", "diameter"),
    [
        ((), (66 + 58.2) / 2),  # a narrow ring: its middle
        (
            (FACE, 'joint_face = "100 mm"'),
            58.2 + 8.37529209,
        ),  # gas that reached a stud hole is out: (83.45 - 8.5 - 58.2)/2
        ((FACE, ""), 58.2 + 8.37529209),  # nothing known of the face: as far as the first hole
    ],
)
def test_the_gas_pushes_on_the_diameter_that_seals(change, diameter):
    book, _ = sized(*change)
    assert book["gasket.effective_diameter"].value == pytest.approx(diameter, abs=1e-6)
    assert book["joint.gas_force"].value == pytest.approx(np.pi / 4 * diameter**2 * 3.8, rel=1e-7)


def test_a_passage_beside_the_bore_takes_nothing_off_what_the_gas_pushes_on():
    """It lets the gas out at its own place; all round else the ring seals, its middle at (66 + 58.2)/2 = 62.1 mm."""
    text = Text(demo_text()).without("plug").swap('at = ["0.0 mm", "42.0 mm"]', 'at = ["0.0 mm", "33.0 mm"]')
    book = size(load(text.swap("blank = true ", "blank = false ", 'diameter = "8.50 mm"', 'diameter = "4 mm"')))
    assert book["gasket.narrowest_land"].value == pytest.approx(33 - 2 - 29.1)
    assert book["gasket.effective_diameter"].value == pytest.approx(62.1)


# where metal is


def layer(book, name, thickness, modulus):
    """Area of a plain layer by what it gives: um/kN."""
    return 1e6 * thickness / (modulus * book[f"joint.{name}_compliance"].value)


def test_no_cone_runs_beside_the_raised_face():
    """Inside the studs each has a quarter of the ring of 66 by 58.2; where the face goes round them, 12 mm of boss."""
    book, _ = sized()
    quarter = np.pi / 16 * (66**2 - 58.2**2)
    assert layer(book, "gasket", 1.2, 116e3) == pytest.approx(quarter, rel=1e-6)
    assert layer(book, "barrel", 1.5, 110.5e3) == pytest.approx(quarter, rel=1e-6)
    wide, _ = sized(FACE, 'joint_face = "108 mm"')
    assert layer(wide, "gasket", 1.2, 116e3) == pytest.approx(np.pi / 4 * (24**2 - 8.5**2), rel=1e-6)
    cut, _ = sized(FACE, 'joint_face = "100 mm"')  # its edge 8.27 mm from the stud: 16.55 of metal
    assert layer(cut, "gasket", 1.2, 116e3) == pytest.approx(np.pi / 4 * (16.549415820**2 - 8.5**2), rel=1e-6)


# how the head bends


def plate(load, thickness, modulus, radii, nu=0.33):
    """Slope at the face and greatest stress at the mouth of an annular plate: pushed up at the face, down at the studs.

    Kirchhoff: D (phi'' + phi'/r - phi/r^2) = Q, Q = -F/(2 pi r) between the two circles; both edges free.
    """
    mouth, face, studs, edge = radii
    stiff = modulus * thickness**3 / 12 / (1 - nu**2)

    def rows(r, u):
        shear = np.where((r > face) & (r < studs), load / (2 * np.pi * r), 0.0) / stiff
        return np.vstack([u[1], shear - u[1] / r + u[0] / r**2])

    def edges(a, b):
        return np.array([a[1] + nu * a[0] / mouth, b[1] + nu * b[0] / edge])

    mesh = np.linspace(mouth, edge, 600)
    found = solve_bvp(rows, edges, mesh, np.zeros((2, mesh.size)), tol=1e-5, max_nodes=100000)
    assert found.success
    at = found.sol(np.array([mouth, face]))
    hoop = 6 * stiff / thickness**2 * (at[0][0] / mouth + nu * at[1][0])
    return abs(at[0][1]), abs(hoop)


@pytest.mark.parametrize("thickness", [20.0])
def test_the_head_bends_as_a_plate_does(thickness):
    """The twisted ring against a thin plate solved by collocation: slope and stress within a quarter."""
    mouth, face, reach, edge = 58.2, 62.1, 41.72529, 107.45058
    count, load = 4, 23000.0
    moment = bending.twist(count, load, bending.lever(reach, 66, mouth))
    slope, stress = plate(count * load, thickness, 73500, (mouth / 2, face / 2, reach, edge / 2))
    lifted = bending.face_lift(moment, thickness, mouth, edge, 73500, 1.0)
    assert lifted == pytest.approx(slope, rel=0.25)
    assert bending.bending_stress(moment, thickness, mouth, edge) == pytest.approx(stress, rel=0.25)


@pytest.mark.parametrize(("off", "held"), [(0.0, True), (0.3, True), (0.5, False), (9.0, False)])
@pytest.mark.parametrize("turn", [0.0, 30.0, 45.0, 90.0])
def test_two_studs_hold_a_head_whose_bore_lies_on_their_line(off, held, turn):
    """42 mm to each side, the line turned and moved off the bore: half each, and nothing where it is over 0.42 mm off."""
    c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))
    places = named([(x * c - off * s, x * s + off * c) for x in (42.0, -42.0)], spring_1=5e5, spring_2=5e5)
    assert shares.balanced(**places) == held
    if held:
        assert shares.share_on_springs(1, **places) == pytest.approx(0.5)


def test_a_thin_head_over_a_narrow_face_is_a_stop():
    book, found = sized('thickness = "46 mm"', 'thickness = "16 mm"')
    assert found["joint.bending_stress"].verdict == "stop"
    each, lever = book["joint.greatest_preload"].value, 41.72529209 - (66 + 58.2) / 4
    hand = 6 * 4 * each * lever / (np.pi * 16**2 * 58.2 * np.log(107.45058418 / 58.2))
    assert book["joint.bending_stress"].value == pytest.approx(hand, rel=1e-6)


def test_room_of_a_face_is_what_lies_round_the_stud():
    assert joint.room_in_face(100, 41.72529209) == pytest.approx(2 * (50 - 41.72529209))
