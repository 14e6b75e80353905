"""Every file read back by a library that did not write it, and written twice."""

import hashlib
import os
import re
import subprocess
import sys
from math import cos, pi, sin
from pathlib import Path
from xml.etree import ElementTree as ET
from zipfile import ZipFile

import ezdxf
import numpy as np
import pytest
import trimesh
from cadquery import importers
from cadquery.func import box, compound, cut
from shapely.geometry import Polygon

from parts.builders.flat import plate
from parts.builders.turned import turned
from parts.errors import WriteError
from parts.geometry import outline
from parts.geometry.outline import Hole, Region
from parts.geometry.profile import Profile
from parts.writers import dxf, step, stl, three_mf
from parts.writers.dxf import write_curve_dxf, write_outline_dxf
from parts.writers.marks import Fill, Letters, Page, Shared, Stroke
from parts.writers.pdf import write_pdf
from parts.writers.step import COPPER, STEEL, write_step
from parts.writers.step_assembly import Placed, components, write_assembly
from parts.writers.stl import write_stl
from parts.writers.svg import write_svg
from parts.writers.three_mf import write_3mf

CORNERS = [(30.0, 29.0), (-30.0, 29.0), (-30.0, -29.0), (30.0, -29.0)]
STUDS = tuple(Hole(x, y, 8.5, "STUD HOLES") for x, y in CORNERS)
GASKET = Region(
    outline.transformed(outline.band([(x, y, 12.0) for x, y in CORNERS]), 0.0, 0.0, 7.0),
    (Hole(0, 0, 58.2, "BORE"), *STUDS[:2], Hole(0.5, 33.5, 5, "PASSAGES")),
)
FACE = 60 * 58 + 24 * (60 + 58) + 144 * pi - pi / 4 * (58.2**2 + 2 * 8.5**2 + 25)
STUD = ((-20, 0), (-20, 4.2), (-19, 5), (0, 5), (0, 3.1), (50, 3.1), (50, 4), (70, 4), (70, 0))
EGG = tuple((20 * cos(a) + 3, (15 + 3 * cos(a)) * sin(a), 0.02) for a in np.linspace(0, 2 * pi, 90, endpoint=False))
SQUARE = (("M", (10.0, 10.0)), ("L", (30.0, 10.0)), ("C", (30.0, 20.0, 20.0, 30.0, 10.0, 30.0)))
PAGE = Page(210.0, 297.0, [Stroke(SQUARE, 0.5), Fill(SQUARE), Letters("Ø58.2 ±0.1", 40.0, 40.0, (0.0, 1.0), 3.5)])
MANY = [Page(210.0, 297.0, [], [Shared(PAGE.marks, x, 5.0, (20.0, 20.0, 190.0, 280.0))]) for x in (5.0, -5.0)]
FORMATS = {
    "step": lambda path: write_step(stud(), "Stehbolzen Ø8", STEEL, path),
    "stl": lambda path: write_stl(stud(), path),
    "3mf": lambda path: write_3mf(meshed(path, stud()), "Stehbolzen Ø8 <\"&'>", STEEL, path),
    "gasket.step": lambda path: write_step(plate(GASKET, 1.2), "head gasket", COPPER, path),
    "gasket.stl": lambda path: write_stl(plate(GASKET, 1.2), path),
    "dxf": lambda path: write_outline_dxf(GASKET, path, "Head gasket"),
    "curve.dxf": lambda path: write_curve_dxf(EGG, path, "Mandrel"),
    "svg": lambda path: write_svg(PAGE, path, "Head gasket", "Print at 100 %."),
    "pdf": lambda path: write_pdf([PAGE, PAGE], path, "Head gasket"),
    "many.pdf": lambda path: write_pdf(MANY, path, "Head gasket"),
}


def meshed(path, solid):
    """An STL beside a path, or beside its folder where there is none."""
    folder = path.parent if path.parent.is_dir() else path.parent.parent
    write_stl(solid, folder / "mesh.stl")
    return folder / "mesh.stl"


def stud():
    return turned(Profile(STUD))


def write_all(folder):
    """Write one of each and return the digests."""
    found = {}
    for name, write in FORMATS.items():
        write(folder / name)
        found[name] = hashlib.sha256((folder / name).read_bytes()).hexdigest()
    return found


@pytest.fixture(scope="module")
def digests(tmp_path_factory):
    return write_all(tmp_path_factory.mktemp("first"))


def test_the_same_part_gives_the_same_bytes_in_any_order(tmp_path, digests):
    for name, write in reversed(FORMATS.items()):
        write(tmp_path / name)
        assert hashlib.sha256((tmp_path / name).read_bytes()).hexdigest() == digests[name], name


def test_a_fresh_interpreter_gives_the_same_bytes(tmp_path, digests):
    """With its own order of sets; this one's is another in every run."""
    code = f"import sys; sys.path[:0] = {[*sys.path, str(Path(__file__).parent)]!r}\n"
    code += f"from pathlib import Path; import test_writers as t; print(t.write_all(Path({str(tmp_path)!r})))"
    run = subprocess.run(
        [sys.executable, "-c", code],
        env=os.environ | {"PYTHONHASHSEED": "1"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert run.stdout.strip() == str(digests)


@pytest.mark.parametrize("name", FORMATS)
def test_a_missing_folder_is_an_error(tmp_path, name):
    path = tmp_path / "nowhere" / name
    with pytest.raises(WriteError, match="there is no folder"):
        FORMATS[name](path)
    assert not path.parent.exists()


@pytest.mark.parametrize("name", FORMATS)
def test_a_path_that_cannot_be_written_is_an_error(tmp_path, name):
    (tmp_path / name).mkdir()
    with pytest.raises(WriteError, match=r"could not be written|not be read") as caught:
        FORMATS[name](tmp_path / name)
    assert str(tmp_path / name) in str(caught.value)


@pytest.mark.parametrize("write", [lambda s, p: write_step(s, "x", STEEL, p), write_stl], ids=["step", "stl"])
@pytest.mark.parametrize(
    "solid",
    [cut(box(1, 1, 1), box(9, 9, 9)), compound(box(1, 1, 1), box(1, 1, 1).moved(x=5)), box(1, 1, 1).shells()],
    ids=["nothing", "two solids", "a shell"],
)
def test_what_is_not_one_solid_is_not_written(tmp_path, write, solid):
    with pytest.raises(WriteError, match="nothing to write"):
        write(solid, tmp_path / "part")
    assert not (tmp_path / "part").exists()


# STEP -----------------------------------------------------------------------------------------------------------------


def test_step_holds_name_colour_unit_and_volume(tmp_path, capfd):
    path = tmp_path / "stud.step"
    write_step(stud(), "Stehbolzen Ø8 — µ", COPPER, path)
    assert capfd.readouterr() == ("", "")
    text = path.read_text(encoding="ascii")
    assert "PRODUCT('Stehbolzen \\X2\\00D8\\X0\\8 \\X2\\2014\\X0\\ \\X2\\00B5\\X0\\'" in re.sub(r",\s+", ",", text)
    assert "SI_UNIT(.MILLI.,.METRE.)" in text
    assert "2000-01-01T00:00:00" in text
    rgb = [float(v) for v in text.split("COLOUR_RGB('',")[1].split(")")[0].split(",")]
    assert rgb == pytest.approx(COPPER, abs=1e-6)
    assert text.count("COLOUR_RGB") == text.count("= FILL_AREA_STYLE_COLOUR(") == 1
    (solid,) = importers.importStep(str(path)).solids().vals()
    assert solid.Volume() == pytest.approx(pi * ((4.2**2 + 4.2 * 5 + 25) / 3 + 25 * 19 + 3.1**2 * 50 + 320), rel=1e-9)
    assert solid.BoundingBox(1e-4).zmin == pytest.approx(-20, abs=1e-3)


WIDTHS = {"\\X2\\": "utf-16-be", "\\X4\\": "utf-32-be"}


def unescaped(text):
    """A string of a STEP file as ISO 10303-21 reads it: X2 and X4 up to X0, '' for '."""
    text = text.replace("''", "'")
    return re.sub(r"(\\X[24]\\)([0-9A-F]+)\\X0\\", lambda m: bytes.fromhex(m[2]).decode(WIDTHS[m[1]]), text)


@pytest.mark.parametrize(
    "name",
    ["Größe 8", "5 % 'x' \"y\"", "a\\b \\X2\\ \\X0\\", "5 \U0001f600 Ø", "T" + "喷雾机" * 60, "länger " * 28 + "."],
)
def test_step_names_are_ascii_with_the_formats_own_escapes(tmp_path, name):
    """ISO 10303-21; read by that rule, and by the kernel, which is told nothing of them."""
    write_step(box(1, 1, 1), name, STEEL, tmp_path / "a.step")
    write_assembly([Placed(name, name, box(1, 1, 1), STEEL, (0.0, 0.0, 0.0))], name, tmp_path / "b.step")
    assert [found for found, _ in components(tmp_path / "b.step")] == [name]
    for path in tmp_path.iterdir():
        assert path.read_bytes().isascii()
        products = re.findall(r" PRODUCT\(\s*'((?:[^']|'')*)'", path.read_text(encoding="ascii"))
        assert {unescaped(product) for product in products} == {name}
        (title,) = re.findall(r"FILE_NAME\(\s*'((?:[^']|'')*)'", path.read_text(encoding="ascii"))
        assert unescaped(title) == name


def test_step_is_mm_whatever_was_set_before(tmp_path):
    from OCP.Interface import Interface_Static

    write_step(stud(), "stud", STEEL, tmp_path / "a.step")
    Interface_Static.SetCVal_s("write.step.unit", "INCH")
    Interface_Static.SetCVal_s("write.step.schema", "AP203")
    write_step(stud(), "stud", STEEL, tmp_path / "b.step")
    assert (tmp_path / "a.step").read_bytes() == (tmp_path / "b.step").read_bytes()


def test_step_that_reads_back_otherwise_is_an_error(tmp_path, monkeypatch):
    monkeypatch.setattr(step, "whole", lambda *_: 7000.0)
    with pytest.raises(WriteError, match=r"written as a solid of 7000 mm\^3, read back as"):
        write_step(stud(), "stud", STEEL, tmp_path / "a.step")


# STL ------------------------------------------------------------------------------------------------------------------

SOLIDS = {
    "stud": stud,
    "gasket": lambda: plate(GASKET, 1.2),
    "ring": lambda: turned(Profile(((0, 0), (0, 30), (3, 30), (3, 0)), (((0, 0), (0, 27), (3, 27), (3, 0)),))),
    "egg": lambda: plate(Region(EGG), 5),
    "block": lambda: box(2, 3, 4),
}


@pytest.mark.parametrize("name", SOLIDS)
@pytest.mark.parametrize("sagitta", [0.1, 0.01])
def test_stl_is_closed_and_within_the_sagitta(tmp_path, name, sagitta):
    solid, path = SOLIDS[name](), tmp_path / "part.stl"
    write_stl(solid, path, sagitta)
    mesh = trimesh.load_mesh(path)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.volume == pytest.approx(solid.Volume(), abs=sagitta * solid.Area())
    b = solid.BoundingBox(1e-4)
    assert mesh.extents == pytest.approx((b.xlen, b.ylen, b.zlen), abs=2.1 * sagitta)
    assert mesh.bounds[0][2] == pytest.approx(b.zmin, abs=1e-4)


@pytest.mark.parametrize("name", ["ring", "stud", "gasket"])
@pytest.mark.parametrize("sagitta", [0.2, 0.01, 0.001])
def test_stl_sides_lie_within_the_sagitta_of_their_circles(tmp_path, name, sagitta):
    solid, path = SOLIDS[name](), tmp_path / "part.stl"
    write_stl(solid, path, sagitta)
    mesh = trimesh.load_mesh(path)
    sharp = mesh.face_adjacency_edges[mesh.face_adjacency_angles > 0.3]
    ends, depths = mesh.vertices[sharp], {}
    for circle in (edge for edge in solid.Edges() if edge.geomType() == "CIRCLE"):
        (x, y, z), radius = circle.arcCenter().toTuple(), circle.radius()
        far = np.abs(np.hypot(ends[..., 0] - x, ends[..., 1] - y) - radius) + np.abs(ends[..., 2] - z)
        middle = ends[np.all(far < 1e-4, axis=1)].mean(axis=1)
        depths[x, y, z, radius] = (radius - np.hypot(middle[:, 0] - x, middle[:, 1] - y)).max()
    assert len(depths) >= 4
    assert sagitta / 10 < max(depths.values()) <= sagitta


def test_stl_leaves_no_mesh_on_the_solid(tmp_path):
    from OCP.BRepTools import BRepTools

    solid = stud()
    write_stl(solid, tmp_path / "stud.stl")
    assert not BRepTools.Triangulation_s(solid.wrapped, 1.0)


def test_stl_head_is_binary_and_fixed(tmp_path):
    write_stl(box(1, 1, 1), tmp_path / "a.stl")
    data = (tmp_path / "a.stl").read_bytes()
    assert data[:80].rstrip() == b"topend, binary, mm"
    assert len(data) == 84 + 50 * int.from_bytes(data[80:84], "little") == 84 + 50 * 12


def facets(*triangles):
    return np.array(triangles, dtype=np.float32)


def test_an_open_or_twisted_mesh_is_not_closed():
    a, b, c, d = (0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1)
    whole = [(a, c, b), (a, b, d), (b, c, d), (c, a, d)]
    assert stl._closed(facets(*whole))
    assert not stl._closed(facets(*whole[:3]))
    assert not stl._closed(facets(*whole[:3], (a, c, d)))
    assert not stl._closed(facets(*whole, *whole))
    assert not stl._closed(np.zeros((0, 3, 3), dtype=np.float32))
    zero = (-0.0, 0, 0)
    assert stl._closed(facets((zero, c, b), *whole[1:]))


def test_a_mesh_of_another_volume_is_an_error(tmp_path, monkeypatch):
    monkeypatch.setattr(stl, "whole", lambda *_: 100.0)
    with pytest.raises(WriteError, match=r"the mesh holds 24 mm\^3, the solid 100 mm\^3"):
        write_stl(box(2, 3, 4), tmp_path / "a.stl")


# 3MF ------------------------------------------------------------------------------------------------------------------

MODEL = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"


@pytest.mark.parametrize("name", SOLIDS)
def test_3mf_is_the_mesh_of_the_stl_closed_and_manifold(tmp_path, name):
    path = tmp_path / "part.3mf"
    stl_path = meshed(path, SOLIDS[name]())
    write_3mf(stl_path, name, STEEL, path)
    mesh, of_stl = trimesh.load_mesh(path), trimesh.load_mesh(stl_path)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.euler_number == of_stl.euler_number
    assert (len(mesh.faces), len(mesh.vertices)) == (len(of_stl.faces), len(of_stl.vertices))
    assert mesh.volume == pytest.approx(of_stl.volume, rel=1e-7)
    assert mesh.bounds == pytest.approx(of_stl.bounds, abs=1e-6)


def test_3mf_says_unit_name_and_colour(tmp_path):
    """By the 3MF Core Specification 1.3: the package's relation leads to the model, the object's material to its colour."""
    name = "Stehbolzen Ø8 <\"&'> \U0001f600"
    write_3mf(meshed(tmp_path / "a.3mf", stud()), name, COPPER, tmp_path / "a.3mf")
    with ZipFile(tmp_path / "a.3mf") as package:
        assert package.testzip() is None
        (relation,) = ET.fromstring(package.read("_rels/.rels"))
        root = ET.fromstring(package.read(relation.get("Target").lstrip("/")))
        assert {info.date_time for info in package.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert root.get("unit") == "millimeter"
    (part,), (item,) = root.iter(f"{MODEL}object"), root.iter(f"{MODEL}item")
    assert (part.get("name"), part.get("id")) == (name, item.get("objectid"))
    (material,) = (m for m in root.iter(f"{MODEL}basematerials") if m.get("id") == part.get("pid"))
    shade = material[int(part.get("pindex"))].get("displaycolor")
    assert [int(shade[n : n + 2], 16) / 255 for n in (1, 3, 5)] == pytest.approx(COPPER, abs=1 / 510)
    (mesh,) = trimesh.load_scene(tmp_path / "a.3mf").geometry.values()
    assert mesh.units == "millimeter"


def test_a_3mf_that_reads_back_otherwise_is_an_error(tmp_path, monkeypatch):
    whole = three_mf._model
    monkeypatch.setattr(three_mf, "_model", lambda points, *more: whole(points + np.float32(1e-3), *more))
    with pytest.raises(WriteError, match="read back with others"):
        write_3mf(meshed(tmp_path / "a.3mf", stud()), "stud", STEEL, tmp_path / "a.3mf")


# DXF ------------------------------------------------------------------------------------------------------------------


def read(path):
    document = ezdxf.readfile(path)
    auditor = document.audit()
    assert not auditor.errors
    assert not auditor.fixes
    return document


def corners(polyline, sagitta=1e-6):
    return outline.flatten([(x, y, b) for x, y, b in polyline.get_points("xyb")], sagitta)


def test_dxf_holds_closed_outlines_on_their_layers_in_mm(tmp_path):
    write_outline_dxf(GASKET, tmp_path / "g.dxf", "Head gasket Ø58")
    document = read(tmp_path / "g.dxf")
    model = document.modelspace()
    found = sorted((e.dxftype(), e.dxf.layer) for e in model)
    assert found == sorted(
        [("LWPOLYLINE", "OUTLINE"), ("CIRCLE", "BORE"), *[("CIRCLE", "STUD HOLES")] * 2, ("CIRCLE", "PASSAGES")]
    )
    assert {"OUTLINE", "BORE", "STUD HOLES", "PASSAGES"} <= {layer.dxf.name for layer in document.layers}
    assert document.dxfversion == "AC1015"
    assert (document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == (4, 1)
    assert document.ezdxf_metadata()["TITLE"] == "Head gasket Ø58"
    (outer,) = model.query("LWPOLYLINE")
    assert outer.closed
    box = outline.bounds(GASKET.outer)
    assert document.header["$EXTMIN"][:2] == pytest.approx(box[:2])
    assert document.header["$EXTMAX"][:2] == pytest.approx(box[2:])
    inner = sum(pi * e.dxf.radius**2 for e in model.query("CIRCLE"))
    assert Polygon(corners(outer)).area - inner == pytest.approx(FACE, rel=1e-7)


def test_dxf_holds_the_centres_and_diameters(tmp_path):
    write_outline_dxf(GASKET, tmp_path / "g.dxf", "Head gasket")
    circles = {
        (c.dxf.center.x, c.dxf.center.y, 2 * c.dxf.radius)
        for c in read(tmp_path / "g.dxf").modelspace().query("CIRCLE")
    }
    assert circles == {(h.x, h.y, h.diameter) for h in GASKET.holes}


def test_a_round_outline_is_a_circle(tmp_path):
    write_outline_dxf(Region(outline.circle(0, 0, 56), STUDS), tmp_path / "g.dxf", "Round")
    (outer,) = read(tmp_path / "g.dxf").modelspace().query('*[layer=="OUTLINE"]')
    assert (outer.dxftype(), outer.dxf.radius) == ("CIRCLE", 56)


def test_a_curve_keeps_its_layer_and_its_arcs(tmp_path):
    write_curve_dxf(EGG, tmp_path / "m.dxf", "Mandrel", "MANDREL")
    (curve,) = read(tmp_path / "m.dxf").modelspace()
    assert (curve.dxf.layer, curve.closed, len(curve)) == ("MANDREL", True, 90)
    straight = Polygon([(x, y) for x, y, _ in EGG]).area
    chord = [((EGG[k - 1][0] - x) ** 2 + (EGG[k - 1][1] - y) ** 2) for k, (x, y, _) in enumerate(EGG)]
    lens = sum(chord) * 0.02 / 3  # an arc of bulge b over a chord c bulges out by b c^2/3 (1 + b^2/5 ...)
    assert Polygon(corners(curve)).area == pytest.approx(straight + lens, rel=1e-6)


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda d: setattr(d.modelspace().query("LWPOLYLINE").first, "closed", False), "1 open outlines"),
        (lambda d: d.modelspace().add_line((0, 0), (9, 0)), "1 open outlines"),
        (lambda d: d.modelspace().query("CIRCLE").first.dxf.set("radius", 29.2), "drawn with"),
    ],
    ids=["open", "loose line", "another hole"],
)
def test_a_dxf_that_reads_back_otherwise_is_an_error(tmp_path, monkeypatch, spoil, says):
    whole = dxf._frame
    monkeypatch.setattr(dxf, "_frame", lambda document, boxes: (whole(document, boxes), spoil(document)))
    with pytest.raises(WriteError, match=says):
        write_outline_dxf(GASKET, tmp_path / "g.dxf", "Head gasket")
