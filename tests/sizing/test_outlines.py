"""A deck, a face and passages of any shape in a job: walls, areas and lands by shapely; a drawing put on measured holes."""

from math import cos, radians, sin

import ezdxf
import pytest
from shapely.geometry import LineString, MultiPoint, Point, Polygon

from parts.advising.free import free_changes
from parts.advising.trials import Design, Trials
from parts.checked import check, checked
from parts.errors import JobError
from parts.geometry import outline
from parts.job.examples import demo_text
from parts.job_text import JobText
from parts.writers.dxf import write_loops_dxf

FACE = 'joint_face = { lobes = [["30 mm", "29 mm", "9 mm"], ["-30 mm", "29 mm", "9 mm"], ["-30 mm", "-29 mm", "9 mm"], ["30 mm", "-29 mm", "9 mm"]] }'
DECK = 'outline = { points = [["62 mm", "55 mm", "R12 mm"], ["-62 mm", "55 mm"], ["-70 mm", "0 mm", "through"], ["-62 mm", "-55 mm", "R0 mm"], ["62 mm", "-55 mm", "R12 mm"]] }'
PASSAGES = """
[[barrel.passages]]
name = "push rods"
at = ["48 mm", "0 mm"]
slot = ["7 mm", "20 mm"]
turned = "80 deg"
[[barrel.passages]]
name = "oil"
points = [["-46 mm", "-4 mm", "R1 mm"], ["-40 mm", "-4 mm", "R1 mm"], ["-43 mm", "4 mm", "R1 mm"]]
[[barrel.passages]]
name = "drain"
at = ["0 mm", "-44 mm"]
rectangle = ["10 mm", "6 mm"]
corner = "2 mm"
"""


def job(deck=DECK, face=FACE, passages=PASSAGES):
    text = demo_text().replace('outline = { circle = "112 mm" }', deck).replace('joint_face = "66 mm"', face)
    return text.replace("[head]", f"{passages}\n[head]", 1)


def polygon(loop):
    return Polygon(outline.flatten(loop, 1e-4))


def turned(shape, degrees, at):
    from shapely import affinity

    return affinity.translate(affinity.rotate(shape, degrees, origin=(0, 0)), *at)


def test_walls_areas_and_lands():
    read, book, found = check(job())
    size = {name: book[name].value for name in book}
    deck = polygon(read.barrel.outline.loop())
    slot = turned(MultiPoint([(-6.5, 0), (6.5, 0)]).convex_hull.buffer(3.5, 512), 80, (48, 0))
    drain = turned(Polygon([(-3, -1), (3, -1), (3, 1), (-3, 1)]).buffer(2, 512), 0, (0, -44))
    oil = Polygon([(-46, -4), (-40, -4), (-43, 4)]).buffer(-1, join_style="mitre").buffer(1, 512)
    bore = Point(0, 0).buffer(28.6, 1024)
    for number, shape in enumerate((slot, oil, drain)):
        name = next(
            f"deck.passage.{n}"
            for n, p in enumerate(read.barrel.passages)
            if p.name == ("push rods", "oil", "drain")[number]
        )
        assert size[f"{name}.to_bore"] == pytest.approx(shape.distance(bore), abs=1e-3)
        assert size[f"{name}.to_edge"] == pytest.approx(deck.exterior.distance(shape), abs=1e-3)
    for hole in range(1, 5):
        major = Point(size[f"deck.hole.{hole}.x"], size[f"deck.hole.{hole}.y"]).buffer(
            size["deck.tapped_major"] / 2, 512
        )
        assert size[f"deck.hole.{hole}.to_edge"] == pytest.approx(deck.exterior.distance(major), abs=1e-3)
        assert size[f"deck.hole.{hole}.to_passage"] == pytest.approx(
            min(major.distance(s) for s in (slot, drain, oil, Point(0, 42).buffer(4.25, 512))), abs=1e-3
        )
    cut = [
        Point(0, 0).buffer(29.1, 1024),
        *(Point(x, y).buffer(4.25, 512) for x in (30, -30) for y in (29, -29)),
        slot,
        oil,
        drain,
    ]
    gasket = deck.difference(cut[0])
    for one in cut[1:]:
        gasket = gasket.difference(one)
    assert size["gasket.area"] == pytest.approx(gasket.area, rel=1e-4)
    lands = [a.distance(b) for n, a in enumerate(cut) for b in cut[n + 1 :]] + [
        deck.exterior.distance(one) for one in cut
    ]
    assert size["gasket.narrowest_land"] == pytest.approx(min(lands), abs=1e-3)
    face = polygon(read.head.joint_face.loop())
    assert size["gasket.pressed_area"] == pytest.approx(gasket.intersection(face).area, rel=1e-4)
    assert size["gasket.seating_stress"] == pytest.approx(
        4 * size["joint.preload"] / gasket.intersection(face).area, rel=1e-4
    )
    assert size["head.face_round_bore"] == pytest.approx(2 * face.exterior.distance(Point(0, 0)), abs=1e-3)
    assert {"gasket.narrowest_land", "deck.neck"} <= {f.name for f in found}


def test_a_face_given_as_a_circle_is_the_same_either_way():
    plain, drawn = (check(job(face=face))[1] for face in ('joint_face = "66 mm"', 'joint_face = { circle = "66 mm" }'))
    for name in (
        "gasket.pressed_area",
        "gasket.seating_stress",
        "joint.bending_stress",
        "joint.stiffness_share",
        "gasket.working_stress",
    ):
        assert drawn[name].value == pytest.approx(plain[name].value, rel=1e-6)


@pytest.mark.parametrize(("change", "key", "says"), [
    pytest.param(('passage = "breather"', 'passage = "oil"'), "plug.passage", "'oil', which is not round: a plug is turned", id="plug"),
    pytest.param(('slot = ["7 mm", "20 mm"]', 'slot = ["20 mm", "7 mm"]'), "barrel.passages.1", "width first", id="slot"),
    pytest.param(('slot = ["7 mm", "20 mm"]', 'slot = ["7 mm", "20 mm"]\ndiameter = "8 mm"'), "barrel.passages.1", "wants just one of", id="two"),
    pytest.param(('corner = "2 mm"', 'corner = "4 mm"'), "barrel.passages.3", "more than half the shorter side", id="corner"),
    pytest.param(('"R12 mm"', '"R80 mm"'), "barrel.outline.points", "has no room for the rounding at corner", id="rounding"),
    pytest.param(('"R12 mm"', '"12 mm"'), "barrel.outline", "wants R before the radius of corner 1", id="plain radius"),
    pytest.param(('at = ["48 mm", "0 mm"]', 'at = ["33 mm", "0 mm"]'), "barrel.passages", "meets the passage", id="in the bore"),
    pytest.param(('at = ["48 mm", "0 mm"]\n', ""), "barrel.passages.1", "wants at, X and Y of its centre", id="nowhere"),
    pytest.param(("outline = { points", 'outline = { dxf = "../deck.dxf" } #'), "barrel.outline.dxf", "is not of the form", id="elsewhere"),
    pytest.param(("outline = { points", 'outline = { dxf = "deck.dxf" } #'), "barrel.outline.dxf", "deck.dxf does not stand beside the job file", id="not there"),
])  # fmt: skip
def test_wrong_shapes_are_told_by_key(change, key, says):
    text = job().replace(*change)
    assert text != job()
    with pytest.raises(JobError) as error:
        checked(text)
    assert any(f.key.startswith(key) and says in f.says for f in error.value.faults), error.value.faults


# drawings put on holes ------------------------------------------------------------------------------------------------

TRACED = outline.transformed(outline.rectangle(120, 104, 12))
PLACES = [(30, 29), (-30, 29), (-30, -29), (30, -29)]
READ = """
[measured.new]
form = "rectangle"
readings = [
  { centres = [1, 2], reads = "60.12 mm ± 0.02 mm" }, { centres = [2, 3], reads = "58.12 mm ± 0.02 mm" },
  { centres = [3, 4], reads = "60.12 mm ± 0.02 mm" }, { centres = [4, 1], reads = "58.12 mm ± 0.02 mm" },
]
"""


def moved(points, turn, x, y, scale=1.0):
    c, s = scale * cos(radians(turn)), scale * sin(radians(turn))
    return [(c * px - s * py + x, s * px + c * py + y, *more) for px, py, *more in points]


def drawn_job(folder, turn=0.0, x=0.0, y=0.0, *, measured=False, bored=True, off=0.0, has=range(4)):
    """A deck drawn as it was traced, turned and moved, with some of its holes and its bore."""
    holes = [
        outline.circle(*at, 4.25)
        for at in moved([(px + off * (n == 1), py) for n, (px, py) in enumerate(PLACES) if n in has], turn, x, y)
    ]
    shapes = [("OUTLINE", tuple(moved(TRACED, turn, x, y))), *(("HOLES", loop) for loop in holes)]
    if bored:
        shapes.insert(1, ("BORE", outline.circle(x, y, 28.6)))
    write_loops_dxf(shapes, folder / "deck.dxf", "traced")
    text = job(
        deck='outline = { dxf = "deck.dxf", at_holes = ["new 1", "new 3"] }', face='joint_face = "66 mm"', passages=""
    )
    if measured:
        text = text.replace('holes = { rectangle = ["60.0 mm", "58.0 mm"], turned = "0 deg" }\n', "") + READ
    return JobText(text, folder)


@pytest.mark.parametrize(
    ("turn", "x", "y", "bored"), [(0, 0, 0, True), (17, 40, -25, True), (-40, 5, 9, False), (88, 100, 100, True)]
)
def test_a_drawing_is_put_on_two_holes(tmp_path, turn, x, y, bored):
    done = checked(drawn_job(tmp_path, turn, x, y, bored=bored))
    loop = done.job.barrel.outline.loop()
    line = LineString(polygon(loop).exterior.coords)
    true = LineString(polygon(TRACED).exterior.coords)
    assert line.hausdorff_distance(true) < 1e-3
    assert done.book["deck.drawing_off"].value == pytest.approx(0, abs=1e-6)
    assert {f.name: f.verdict for f in done.findings}["deck.drawing_off"] == "ok"


def test_the_outline_follows_measured_holes(tmp_path):
    """Callipers say 0.2 % more than the picture: the outline grows with the holes, and what is left over is told."""
    done = checked(drawn_job(tmp_path, 17, 3, -2, measured=True))
    loop = done.job.barrel.outline.loop()
    across = 120 * (60.12 * 60 + 58.12 * 58) / (60**2 + 58**2)  # by least squares over four corners
    assert polygon(loop).bounds[2] * 2 == pytest.approx(across, abs=2e-3)
    assert done.book["deck.hole.1.x"].value == pytest.approx(30.06, abs=1e-3)


@pytest.mark.parametrize(("off", "verdict"), [(0.1, "ok"), (0.5, "caution"), (1.9, "stop")])
def test_picture_and_callipers_that_disagree_are_a_finding(tmp_path, off, verdict):
    """One hole of four is off: least squares leave it with somewhat less."""
    done = checked(drawn_job(tmp_path, off=off))
    finding = next(f for f in done.findings if f.name == "deck.drawing_off")
    assert finding.verdict == verdict
    assert 0.4 * off < finding.value < off


def test_a_drawing_goes_with_a_pattern_that_advice_turns(tmp_path):
    """It lies on the holes: a variant with these elsewhere is judged as the file with them there is."""
    text = JobText(drawn_job(tmp_path).replace("[head]\n", "[head]\nmay_turn = true\n"), tmp_path)
    trials = Trials(text)
    turn = free_changes(trials.raw)["head.holes.turned"][0]
    edited = JobText(text.replace('turned = "0 deg"', f'turned = "{turn.value}"'), tmp_path)
    found = trials.of(Design((turn,))).found
    assert set(found.values()) == set(check(edited)[2])
    assert found != trials.base.found


@pytest.mark.parametrize(("has", "off", "verdict", "says"), [
    pytest.param((0, 1, 2), 0.0, "caution", "not judged: whether the drawing fits new 4: it has no circle within 2.000 mm", id="one lacks"),
    pytest.param(range(4), 4.0, "caution", "not judged: whether the drawing fits new 2: it has no circle within", id="one elsewhere"),
    pytest.param((0, 1, 2), 1.99, "stop", "at most 1.000 mm is wanted; and it is not judged whether the drawing fits new 4", id="one lacks and one is off"),
    pytest.param((0, 2), 0.0, "caution", "fits new 1, new 2, new 3, new 4: ", id="two alone tell nothing"),
])  # fmt: skip
def test_a_hole_without_a_circle_is_not_judged(tmp_path, has, off, verdict, says):
    done = checked(drawn_job(tmp_path, off=off, has=has, bored=has != (0, 2)))
    (finding,) = (f for f in done.findings if f.name == "deck.drawing_off")
    assert finding.verdict == verdict
    assert says in finding.says
    assert finding.past == (None, pytest.approx(finding.value - 1.0))  # it stops over 1 mm


def test_a_circle_is_the_hole_it_lies_nearest_to(tmp_path):
    """A new hole beside each old one: the drawing has the old ones alone, and tells of them alone."""
    text = drawn_job(tmp_path).replace('"new 1", "new 3"', '"old 1", "old 3"')
    old = 'circle = "78 mm", count = 3, first = "45 deg"'
    text = text.replace(old, 'rectangle = ["60 mm", "58 mm"]').replace('["60.0 mm", "58.0 mm"]', '["62.4 mm", "58 mm"]')
    done = checked(JobText(text, tmp_path))
    assert done.book["deck.drawing_off"].value == pytest.approx(0, abs=1e-6)
    assert {f.name: f.verdict for f in done.findings}["deck.drawing_off"] == "ok"


def test_holes_that_the_drawing_has_not_are_refused(tmp_path):
    text = drawn_job(tmp_path)
    for new, says in (
        ('["new 1", "new 9"]', "names 'new 9', and the job has no such hole"),
        ('["new 1", "new 1"]', "two different holes"),
        ('["new 1", "old 1"]', "has no two circles"),
    ):
        with pytest.raises(JobError) as error:
            checked(JobText(text.replace('["new 1", "new 3"]', new), tmp_path))
        assert says in str(error.value)
        assert error.value.faults[0].key == "barrel.outline.at_holes"
        assert error.value.faults[0].line


def test_a_changed_drawing_is_another_job(tmp_path):
    first = checked(drawn_job(tmp_path)).job.whole()
    assert checked(drawn_job(tmp_path, 5)).job.whole() == checked(drawn_job(tmp_path, 5)).job.whole() != first
    assert ezdxf.readfile(tmp_path / "deck.dxf")
