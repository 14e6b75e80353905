"""assembly.step read back: names, colours, places; and no two bodies share metal."""

import hashlib
from itertools import combinations, pairwise
from math import pi

import pytest
from cadquery import Assembly, Shape
from cadquery.func import intersect
from OCP.Quantity import Quantity_Color, Quantity_TypeOfColor

from parts.checked import check, checked
from parts.errors import WriteError
from parts.making.solids import Order, fill
from parts.pictures import write_exploded
from parts.register import ASSEMBLY
from parts.shapes.assembly import assembly_shape
from parts.writers import step
from parts.writers.step_assembly import Placed, components, write_assembly
from tests.conftest import JOBS

DEMO = ["deck", "filler 1", "filler 2", "filler 3", *(f"insert {n}" for n in (1, 2, 3, 4)), "plug", "ring", "gasket"]
DEMO += [f"{kind} {n}" for kind in ("stud", "washer", "nut") for n in (1, 2, 3, 4)]


def bodies_of(text):
    done = checked(text)
    return done.bodies, done.book


def write(bodies, name, folder):
    filled = fill(Order(ASSEMBLY, ASSEMBLY, bodies, name, folder, write=True, show=False))
    write_exploded(filled.meshes, folder / "assembly.preview.png")


@pytest.fixture(scope="module")
def read(made):
    return {name: Shape.cast(shape) for name, shape in components(made[1] / "assembly.step")}


def test_names_and_count(read):
    assert list(read) == DEMO
    assert all(shape.isValid() for shape in read.values())


def test_every_body_stands_in_its_place(read):
    box = {name: shape.BoundingBox() for name, shape in read.items()}
    assert box["deck"].zmax == pytest.approx(0.0, abs=1e-6)
    assert box["deck"].xlen == pytest.approx(112, abs=1e-5)
    assert box["plug"].center.y == pytest.approx(42.0)
    assert box["plug"].zmax == pytest.approx(0.0, abs=1e-6)  # faced off with the deck
    assert (box["gasket"].zmin, box["gasket"].zmax) == pytest.approx((0.0, 1.2), abs=1e-6)
    assert box["washer 3"].zmin == pytest.approx(47.2)  # gasket 1.2, head 46
    assert box["nut 2"].center.x == pytest.approx(-30.0)
    assert box["stud 1"].zmin == pytest.approx(-15.375)  # 1.5 set down, 15 of insert, less 0.75 P
    assert box["ring"].zmax < 0


def test_one_level_and_coloured(made, demo):
    bodies, _ = bodies_of(demo)
    read = Assembly.importStep(str(made[1] / "assembly.step"))
    assert [child.name for child in read.children] == DEMO
    for child, body in zip(read.children, bodies, strict=True):
        assert child.children == []
        assert child.loc.toTuple()[0] == pytest.approx(body.place, abs=1e-6)
        wanted = Quantity_Color(*getattr(step, body.color), Quantity_TypeOfColor.Quantity_TOC_sRGB)
        assert child.color.wrapped.GetRGB().Distance(wanted) < 0.01, body.name


def test_the_same_bytes_twice(made, demo, tmp_path):
    done = checked(demo)
    write(done.bodies, f"assembly, {done.job.job.title}", tmp_path)
    for name in ("assembly.step", "assembly.preview.png"):
        first, second = ((d / name).read_bytes() for d in (made[1], tmp_path))
        assert hashlib.sha256(first).digest() == hashlib.sha256(second).digest()


def shared(solids):
    """Every pair that shares more metal than the kernel's own error [mm^3]."""
    boxes = {name: solid.BoundingBox() for name, solid in solids.items()}
    found = {}
    for a, b in combinations(solids, 2):
        p, q = boxes[a], boxes[b]
        apart = (
            p.xmin >= q.xmax,
            q.xmin >= p.xmax,
            p.ymin >= q.ymax,
            q.ymin >= p.ymax,
            p.zmin >= q.zmax,
            q.zmin >= p.zmax,
        )
        if not any(apart):
            common = intersect(solids[a], solids[b])
            volume = sum(s.Volume() for s in common.Solids())
            if volume > 1e-3:
                found[a, b] = volume
    return found


def test_no_two_bodies_share_metal(read):
    assert shared(read) == {}


@pytest.mark.parametrize("name", ["inch", "bsf", "lists"])
def test_nor_in_other_jobs(name):
    from parts.builders.assembly import build

    bodies, _ = bodies_of((JOBS / f"{name}.toml").read_text(encoding="utf-8"))
    placed = {b.name: solid.moved(x=b.place[0], y=b.place[1], z=b.place[2]) for b, solid in build(bodies)}
    assert shared(placed) == {}


def test_filled_holes_lose_what_the_new_holes_cut(read):
    whole = pi / 4 * 9.6**2 * 22
    assert read["filler 2"].Volume() == pytest.approx(whole, rel=1e-6)
    assert read["filler 1"].Volume() < 0.5 * whole


def test_the_exploded_layers_are_clear_of_each_other(demo):
    bodies, _ = bodies_of(demo)
    spans = {}
    for body in bodies:
        low, high = body.height
        kind = body.name.partition(" ")[0]
        kind = kind if kind in ("gasket", "stud", "washer", "nut", "deck") else "inside"
        was = spans.get(kind, (1e9, -1e9))
        spans[kind] = (min(was[0], low + body.lift), max(was[1], high + body.lift))
    layers = [spans[k] for k in ("deck", "inside", "gasket", "stud", "washer", "nut")]
    assert all(below[1] < above[0] for below, above in pairwise(layers))


def test_a_job_without_a_deck_has_no_assembly():
    bodies, _ = bodies_of((JOBS / "gasket.toml").read_text(encoding="utf-8"))
    assert bodies == ()


@pytest.mark.parametrize(
    "sides", ['["100.0 mm", "58.0 mm"]', '["40.0 mm", "38.0 mm"]'], ids=["off the deck", "into the bore"]
)
def test_a_pattern_that_stops_the_job_is_shown_all_the_same(demo, sides, tmp_path):
    text = demo.swap('["60.0 mm", "58.0 mm"]', sides).without("gasket")
    done = checked(text)
    assert any(f.verdict == "stop" for f in done.findings)
    write(assembly_shape(done.book, done.job, {}), "stopped", tmp_path)
    assert "deck" in dict(components(tmp_path / "assembly.step"))


def test_a_file_that_reads_back_otherwise_is_refused(tmp_path):
    from cadquery.func import box

    twice = [Placed(name, "block", box(1, 1, 1), step.STEEL, (0.0, 0.0, 0.0)) for name in ("one", "one")]
    with pytest.raises(WriteError, match="read back"):
        write_assembly(twice, "blocks", tmp_path / "a.step")


# more than one of a kind ------------------------------------------------------------------------------------------------

HOLES = {1: (30.0, 29.0), 2: (-30.0, 29.0), 3: (-30.0, -29.0), 4: (30.0, -29.0)}  # corners of 60 by 58
KIND = {1: "front", 2: "front", 3: "rear", 4: "rear"}
HEAD = {"front": 46.0, "rear": 40.0}  # under the nuts, the gasket of 1.2 between
LISTS = ["deck", "filler 1", "filler 2", "filler 3", "insert 1 front", "insert 2 front", "plug breather"]
LISTS += ["plug oil-drain", "ring top", "ring second", "gasket"]
LISTS += [f"{what} {n} {KIND[n]}" for what in ("stud", "washer", "nut") for n in HOLES]


@pytest.fixture(scope="module")
def lists(made_of):
    return {name: Shape.cast(shape) for name, shape in components(made_of("lists") / "assembly.step")}


def pappus(points):
    """Volume of a turned body from its half section: its area times the way of its centroid (Pappus)."""
    around = [*points, points[0]]
    moment = sum((r + s) * (z * s - y * r) for (z, r), (y, s) in pairwise(around)) / 6  # area times centroid's radius
    return abs(2 * pi * moment)


def test_each_stud_plug_and_ring_stands_in_its_own_place(lists):
    assert list(lists) == LISTS
    for n, place in HOLES.items():
        for what in ("stud", "washer", "nut", *(["insert"] if n < 3 else [])):
            centre = lists[f"{what} {n} {KIND[n]}"].Center()
            assert (centre.x, centre.y) == pytest.approx(place, abs=1e-9)
        box = lists[f"washer {n} {KIND[n]}"].BoundingBox()
        assert box.zmin == pytest.approx(1.2 + HEAD[KIND[n]], abs=1e-6)
        assert lists[f"nut {n} {KIND[n]}"].BoundingBox().zmin == pytest.approx(box.zmax, abs=1e-6)
    for name, place in (("breather", (0.0, 42.0)), ("oil-drain", (-44.0, -8.0))):
        centre = lists[f"plug {name}"].Center()
        assert (centre.x, centre.y) == pytest.approx(place, abs=1e-9)
    top, second = (lists[f"ring {name}"].BoundingBox() for name in ("top", "second"))
    assert (top.zlen, second.zlen) == pytest.approx((2.38, 3.18), abs=1e-6)
    assert second.zmax < top.zmin < top.zmax < 0


def test_each_is_as_large_as_its_own_section_turned(lists):
    done = checked((JOBS / "lists.toml").read_text(encoding="utf-8"))
    for n, kind in KIND.items():
        section = done.shapes[f"stepped-stud-{kind}"].points
        assert lists[f"stud {n} {kind}"].Volume() == pytest.approx(pappus(section), rel=1e-9)
    # ISO 7089: washers of 16 by 8.4 and 1.6 thick, and of 20 by 10.5 and 2
    for n, (outside, inside, thick) in ((1, (16, 8.4, 1.6)), (4, (20, 10.5, 2.0))):
        ring = pi / 4 * (outside**2 - inside**2) * thick
        assert lists[f"washer {n} {KIND[n]}"].Volume() == pytest.approx(ring, rel=1e-9)
    # braze of 9.6 by 22 clear of all, and an iron plug of 11 by 25
    for n, whole in ((2, pi / 4 * 9.6**2 * 22), (3, pi / 4 * 11**2 * 25)):
        assert lists[f"filler {n}"].Volume() == pytest.approx(whole, rel=1e-9)


def test_each_hole_of_the_deck_is_of_its_own_size(lists):
    """Diameters by axis; an insert's thread lies outside its nominal by 1.299 P (ASME B18.29.1), a tapped one on it."""
    found = {}
    for face in lists["deck"].Faces():
        if face.geomType() == "CYLINDER":
            tube = face._geomAdaptor().Cylinder()
            at = tube.Axis().Location()
            found.setdefault((round(at.X(), 6) + 0.0, round(at.Y(), 6) + 0.0), set()).add(round(2 * tube.Radius(), 3))
    insert = round(10 + 1.299038 * 1.5, 3)
    assert {place: max(found[place]) for place in HOLES.values()} == {
        HOLES[1]: insert, HOLES[2]: insert, HOLES[3]: 12.0, HOLES[4]: 12.0
    }  # fmt: skip
    assert found[-37.67, 10.094] == {9.6}
    assert found[10.094, -37.67] == {11.0}
    assert found[-44.0, -8.0] == {7.0, 10.0}  # passage, and the seat of its plug's shoulder


def test_rings_of_two_widths_stay_apart_in_the_exploded_view():
    top, second = (
        b for b in bodies_of((JOBS / "lists.toml").read_text(encoding="utf-8"))[0] if b.name.startswith("ring")
    )
    assert second.height[1] + second.lift < top.height[0] + top.lift


# the check that is made before anything is built ------------------------------------------------------------------------


def verdicts(text):
    return {f.name: f for f in check(text)[2] if f.name.startswith("assembly.")}


def test_the_demo_is_clear(demo):
    found = verdicts(demo)
    assert {f.verdict for f in found.values()} == {"ok"}
    assert found["assembly.stud.gasket"].value == pytest.approx(0.5)  # hole 8.5 round a thread of 8
    assert found["assembly.plug.passage"].value == pytest.approx(0.04)
    # 58 mm from centre to centre, M8 nuts 13 mm across flats: corners 13 / cos 30
    assert found["assembly.nut.nut"].value == pytest.approx(58 - 13 / 0.8660254)


@pytest.mark.parametrize(
    ("old", "new", "name"),
    [
        ('hole_diameter = "9.0 mm"', 'hole_diameter = "7.9 mm"', "assembly.stud.head"),
        ('stands_proud = "0.30 mm" ', 'stands_proud = "0.30 mm"\nshoulder = { diameter = "55 mm", thickness = "3 mm" } ', "assembly.plug.stud"),
        ('rectangle = ["60.0 mm", "58.0 mm"]', 'rectangle = ["84.0 mm", "13.0 mm"]', "assembly.nut.nut"),
    ],
)  # fmt: skip
def test_what_shares_metal_is_a_stop(demo, old, new, name):
    assert verdicts(demo.swap(old, new))[name].verdict == "stop"
