"""Two hundred jobs of the matrix made, each part, drawing and page read back by readers that did not write them."""

import json
import random
from hashlib import sha256

import ezdxf
import pypdfium2
import pytest
import trimesh

from parts.errors import JobError
from parts.making.make import make
from parts.register import PARTS
from tests.matrix import WAYS, written
from tests.sheets.test_page import Page

pytestmark = pytest.mark.long


def test_two_hundred_jobs_of_the_matrix_are_made(demo, tmp_path):
    made = set()
    chosen = random.Random(15).sample(WAYS, 200)  # noqa: S311 - for a test
    for number, ways in enumerate(chosen):
        into = tmp_path / "one"  # each in the place of the one before: what it did not ask for goes
        found, refused = made_or_refused(written(demo, ways), into)
        if refused:  # a gasket without studs has no holes
            assert "can't be made without" in refused, ways
            assert ways.get("tables") in {"[stud]", "[gasket]"}, (ways, refused)
            continue
        made |= look_at(into, ways)
        assert found, number
    assert {*PARTS} - made <= {"clamp-plate"}  # the worked job has none


def made_or_refused(text, into):
    """Findings, or why it is not made."""
    try:
        return make(text, into)[0], ""
    except JobError as error:
        return [], str(error)


def look_at(into, ways):
    """Read a folder back; return the parts in it."""
    listed = json.loads((into / "manifest.json").read_text(encoding="utf-8"))
    assert listed, ways
    for entry in listed:
        data = (into / entry["path"]).read_bytes()
        assert (len(data), sha256(data).hexdigest()) == (entry["bytes"], entry["sha256"]), (ways, entry["path"])
    page = Page((into / "index.html").read_text(encoding="utf-8"))
    assert len(page.all("h1")) == 1, ways
    assert "Order of work" in page.text
    for path in into.glob("parts/*.dxf"):
        document = ezdxf.readfile(path)
        audit = document.audit()
        assert not audit.errors, (ways, path.name)
        assert not audit.fixes, (ways, path.name)
    for path in into.glob("parts/*.pdf"):
        with pypdfium2.PdfDocument(path) as pdf:
            assert len(pdf) >= 1, (ways, path.name)
    for path in into.glob("parts/*.3mf"):
        mesh = trimesh.load(path, force="mesh")
        assert mesh.is_watertight, (ways, path.name)
        stl = trimesh.load(path.with_suffix(".stl"))
        assert mesh.volume == pytest.approx(stl.volume, rel=1e-5), (ways, path.name)
    return {entry["part"] for entry in listed} & {*PARTS}
