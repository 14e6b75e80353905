"""Drawings as other CAD programs show them: two of Debian's packages, headless. By hand: tests/run_long programs.

`librecad` draws with a font of its own, lays every dimension's text anew and fills `<>` in by its own measure;
`freecad` shows no text of a dimension but what it measures itself, and stops at letters beyond ASCII.
With the environment's CAD_PICTURES set to a folder, the pictures are kept there, to be looked at.
"""

import json
import os
import re
import shutil
import subprocess
from pathlib import Path

import ezdxf
import numpy as np
import pypdfium2
import pytest
from cadquery.func import box

from parts.geometry.outline import Hole, Region, circle
from parts.sheets.drawing.compose import write_drawing
from parts.writers.dxf import write_outline_dxf
from parts.writers.step import STEEL, write_step
from tests.sheets.paper import contents_of

pytestmark = pytest.mark.long
JOBS_DRAWN = ("demo", "inch job", "bsf job")
DPI = 150
LIBRECAD = pytest.mark.skipif(
    not (shutil.which("librecad") and shutil.which("xvfb-run")), reason="librecad and xvfb are not installed"
)
FREECAD = pytest.mark.skipif(not shutil.which("freecadcmd"), reason="freecad is not installed")
NUMBER = re.compile(r"\d+(?:\.\d+)?")


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    """Drawings of three jobs: their DXF files by job."""
    found = {}
    for name in JOBS_DRAWN:
        folder = tmp_path_factory.mktemp(name.replace(" ", "-"))
        for content, job in contents_of(name):
            write_drawing(content, job, folder)
        found[name] = sorted(folder.glob("*.dxf"))
    return found


def kept(name):
    """Where a picture is kept, or None."""
    folder = os.environ.get("CAD_PICTURES")
    return Path(folder, name) if folder else None


# librecad -------------------------------------------------------------------------------------------------------------


def printed(document, folder, name):
    """A document as librecad prints it, fitted to its paper: pixels, dark where there is ink, row 0 on top."""
    document.saveas(folder / f"{name}.dxf")
    subprocess.run(
        ["xvfb-run", "-a", "librecad", "dxf2pdf", "-a", str(folder / f"{name}.dxf")],
        env=os.environ | {"HOME": str(folder)}, check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    picture = pypdfium2.PdfDocument(folder / f"{name}.pdf")[0].render(scale=DPI / 72).to_pil().convert("L")
    if kept(name):
        picture.save(kept(f"{name}.png"))
    return np.asarray(picture) < 200


def exploded(path):
    """The drawing with lines and words in the place of its dimensions, drawn by the library that wrote it."""
    document = ezdxf.readfile(path)
    model = document.modelspace()
    for dimension in list(model.query("DIMENSION")):
        for entity in list(dimension.virtual_entities()):
            if entity.dxftype() != "POINT":
                model.add_foreign_entity(entity) if entity.doc is None else model.add_entity(entity)
        model.delete_entity(dimension)
    return document


def grown(ink, by):
    """Ink with all that lies within some dots of it."""
    out = ink.copy()
    for axis in (0, 1):
        base = out.copy()
        for step in range(1, by + 1):
            for way in (-step, step):
                out |= np.roll(base, way, axis)
    return out


@LIBRECAD
@pytest.mark.parametrize("name", JOBS_DRAWN)
def test_librecad_shows_every_figure_as_it_is_drawn(drawn, name, tmp_path):
    """Its own texts of the dimensions lie on those that stand in their places as words: other figures would not."""
    for path in drawn[name]:
        stem = f"{name.replace(' ', '-')}-{path.stem}"
        shown = printed(ezdxf.readfile(path), tmp_path, stem)
        words = printed(exploded(path), tmp_path, f"{stem}-words")
        assert shown.shape == words.shape
        near = DPI // 25  # a millimetre
        assert (shown & ~grown(words, near)).sum() == (words & ~grown(shown, near)).sum() == 0, path.name


@LIBRECAD
@pytest.mark.parametrize("name", JOBS_DRAWN)
def test_librecad_draws_nothing_over_the_frame(drawn, name, tmp_path):
    """Fitted to the paper, the frame is what touches its edges, so that no ink lies outside the frame's corners."""
    for path in drawn[name]:
        document = ezdxf.readfile(path)
        ink = printed(document, tmp_path, path.stem)
        model = document.modelspace()
        for entity in list(model):
            if entity.dxf.layer != "FRAME":
                model.delete_entity(entity)
        frame = printed(document, tmp_path, f"{path.stem}-frame")
        for axis in (0, 1):
            of_all, of_frame = (np.flatnonzero(p.any(axis=axis))[[0, -1]] for p in (ink, frame))
            assert np.abs(of_all - of_frame).max() <= 1, path.name


# freecad --------------------------------------------------------------------------------------------------------------

READ = """
import json, os
import FreeCAD, Import
settings = FreeCAD.ParamGet("User parameter:BaseApp/Preferences/Mod/Draft")
settings.SetBool("dxftext", True)
settings.SetBool("dxfShowDialog", False)
found = {}
for path in json.loads(os.environ["PATHS"]):
    document = FreeCAD.newDocument("drawing")
    if path.endswith(".step"):
        Import.insert(path, document.Name)
        found[path] = [o.Label for o in document.Objects]
        continue
    Import.readDXF(path, document.Name)
    texts = [t for o in document.Objects if o.TypeId == "App::Annotation" for t in o.LabelText]
    spans = [o.Distance.Value for o in document.Objects if "Distance" in o.PropertiesList]
    found[path] = texts, spans
with open(os.environ["INTO"], "w") as out:
    json.dump(found, out)
"""


def read_by_freecad(paths, folder):
    """What freecad finds in files: of a drawing its texts and what its dimensions measure, of a solid its names."""
    (folder / "read.py").write_text(READ)
    env = os.environ | {"HOME": str(folder), "PATHS": json.dumps(paths), "INTO": str(folder / "read.json")}
    env.pop("PYTHONPATH", None)
    subprocess.run(["freecadcmd", str(folder / "read.py")], env=env, check=True, capture_output=True, timeout=300)
    return json.loads((folder / "read.json").read_text())


@pytest.fixture(scope="module")
def read(drawn, tmp_path_factory):
    """All drawings as freecad reads them."""
    paths = [str(path) for files in drawn.values() for path in files]
    return read_by_freecad(paths, tmp_path_factory.mktemp("freecad"))


@FREECAD
@pytest.mark.parametrize("name", JOBS_DRAWN)
def test_freecad_reads_every_line_of_text(drawn, read, name):
    for path in drawn[name]:
        written = [t.dxf.text.strip() for t in ezdxf.readfile(path).modelspace().query("TEXT")]
        texts, _ = read[str(path)]
        assert [t.replace("\\U", "") for t in written] == [t.strip() for t in texts]  # it passes over a code's letter


@FREECAD
@pytest.mark.parametrize("name", JOBS_DRAWN)
def test_what_freecad_measures_is_what_the_drawing_says(drawn, read, name):
    unit = 25.4 if name == "inch job" else 1.0
    for path in drawn[name]:
        dimensions = ezdxf.readfile(path).modelspace().query("DIMENSION")
        _, spans = read[str(path)]
        assert len(spans) == len(dimensions)
        for dimension, span in zip(dimensions, spans, strict=True):
            assert span == pytest.approx(dimension.get_measurement(), abs=1e-5)
            first, *others = NUMBER.findall(dimension.dxf.text)
            limits = " / " in dimension.dxf.text and float(others[0]) <= span / unit <= float(first)
            place = 10.0 ** -len(first.partition(".")[2])
            assert limits or abs(float(first) - span / unit) <= 0.501 * place, (path.name, dimension.dxf.text, span)


@FREECAD
@pytest.mark.parametrize("name", ["Stehbolzen Ø8 Größe", "a\\b 'x'", "Bolt 喷雾机"])
def test_freecad_reads_the_names_of_solids_and_outlines_of_any_title(name, tmp_path):
    path, outline_path = str(tmp_path / "block.step"), str(tmp_path / "outline.dxf")
    write_step(box(1, 1, 1), name, STEEL, tmp_path / "block.step")
    write_outline_dxf(Region(circle(0, 0, 20), (Hole(0, 0, 9, "BORE"),)), tmp_path / "outline.dxf", name)
    found = read_by_freecad([path, outline_path], tmp_path)
    assert found[path] == [name]
    assert outline_path in found
