"""Meshes as a slicer opens them, `prusa-slicer` of Debian's packages. By hand: tests/run_long programs."""

import os
import shutil
import subprocess

import pytest
import trimesh

pytestmark = [
    pytest.mark.long,
    pytest.mark.skipif(not shutil.which("prusa-slicer"), reason="prusa-slicer is not installed"),
]


def told(path, home):
    """What the slicer says of a file."""
    run = subprocess.run(
        ["prusa-slicer", "--info", str(path)], env=os.environ | {"HOME": str(home)}, check=True, capture_output=True,
        text=True, timeout=120,
    )  # fmt: skip
    return dict(line.replace(" ", "").split("=", 1) for line in run.stdout.splitlines() if " = " in line)


@pytest.mark.parametrize("name", ["demo", "inch", "bsf"])
def test_a_slicer_finds_each_mesh_closed_and_of_its_size(name, made, made_of, tmp_path):
    into = made[1] if name == "demo" else made_of(name)
    paths = sorted((into / "parts").glob("*.3mf"))
    assert paths
    for path in paths:
        found, mesh = told(path, tmp_path), trimesh.load_mesh(path.with_suffix(".stl"))
        assert found["manifold"] == "yes", path.name
        assert (found["number_of_parts"], found["number_of_facets"]) == ("1", str(len(mesh.faces)))
        assert float(found["volume"]) == pytest.approx(mesh.volume, rel=1e-4)
        sizes = [float(found[f"size_{axis}"]) for axis in "xyz"]  # millimetres
        assert sizes == pytest.approx(list(mesh.extents), abs=1e-4)
        lows = [float(found[f"min_{axis}"]) for axis in "xyz"]
        assert lows == pytest.approx(list(mesh.bounds[0]), abs=1e-4)
