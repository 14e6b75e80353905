"""Pictures: one of each part, read by a library that did not write them, the same bytes each time."""

import io
import time

import numpy as np
import pytest
from cadquery.func import box, cylinder
from PIL import Image

from parts.pictures import write_preview
from parts.pictures.camera import camera_for
from parts.pictures.mesh import edges, mesh_of
from parts.pictures.png import png
from parts.pictures.render import INK, MARGIN, PAPER, SIZE, render
from parts.register import PARTS
from parts.writers.step import COPPER, STEEL


@pytest.mark.parametrize("stem", ["assembly", *PARTS])
def test_every_part_has_a_picture(made_whole, stem):
    into = made_whole if stem == "assembly" else made_whole / "parts"
    with Image.open(into / f"{stem}.preview.png") as image:
        image.load()
        assert image.mode == "RGB"
        assert image.info == {}
        dots = np.asarray(image)
    assert max(dots.shape[:2]) <= 800
    assert tuple(dots[0, 0]) == PAPER
    shown = (dots != PAPER).any(axis=2)
    assert 0.03 < shown.mean() < 0.95
    rows, columns = np.flatnonzero(shown.any(axis=1)), np.flatnonzero(shown.any(axis=0))
    edge = (rows[0], columns[0], dots.shape[0] - 1 - rows[-1], dots.shape[1] - 1 - columns[-1])
    assert min(edge) >= MARGIN - 2
    assert len(np.unique(dots.reshape(-1, 3), axis=0)) > 60  # shaded, not flat


def test_png_gives_back_every_dot():
    dots = np.random.default_rng(3).integers(0, 256, (37, 53, 3), dtype=np.uint8)
    with Image.open(io.BytesIO(png(dots))) as image:
        assert np.array_equal(np.asarray(image), dots)


def test_the_same_solid_gives_the_same_bytes(tmp_path):
    for name in ("a.png", "b.png"):
        write_preview(mesh_of(cylinder(20, 30), STEEL), tmp_path / name)
    assert (tmp_path / "a.png").read_bytes() == (tmp_path / "b.png").read_bytes()


def test_a_disc_from_above_is_as_large_as_it_is():
    picture = render([mesh_of(cylinder(40, 5), COPPER)], camera_for(0.0, 90.0))
    shown = (picture != PAPER).any(axis=2)
    across = SIZE[1] - 2 * MARGIN  # dots, the smaller side fills up
    assert shown.sum() == pytest.approx(np.pi / 4 * across**2, rel=0.01)


def test_what_is_behind_is_hidden():
    near, far = mesh_of(box(10, 10, 1).moved(z=10), COPPER), mesh_of(box(8, 8, 1), STEEL)
    picture = render([far, near], camera_for(0.0, 90.0))
    alone = render([near], camera_for(0.0, 90.0))
    assert np.array_equal(picture, alone)


def test_edges_are_where_faces_meet_and_nowhere_else():
    mesh = mesh_of(box(10, 20, 30), STEEL)
    assert len(edges(mesh)) == 12
    assert np.allclose(np.linalg.norm(mesh.normals, axis=1), 1)
    round_one = mesh_of(cylinder(10, 10), STEEL)
    ends = round_one.points[edges(round_one)]
    assert np.allclose(ends[:, 0, 2], ends[:, 1, 2])  # two circles, no seam


def test_outlines_are_drawn():
    picture = render([mesh_of(box(10, 10, 10), STEEL)], camera_for())
    assert (np.abs(picture.astype(int) - INK).max(axis=2) < 40).sum() > 300


def test_a_picture_is_quick():
    solid = cylinder(60, 20)
    mesh = mesh_of(solid, STEEL)
    render([mesh], camera_for())
    start = time.process_time()
    png(render([mesh], camera_for()))
    assert time.process_time() - start < 1.0  # 0.3 s and less on a quiet machine
