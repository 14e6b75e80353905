"""Pictures of the frame, taken by other code than traces them, and the way from one to a gasket's cutting outline."""

import json
import subprocess
import sys

import cv2
import ezdxf
import pytest
from PIL import Image
from shapely.geometry import LineString

from cli.main import app
from parts.errors import JobError
from parts.job_text import read_file
from parts.making.make import make
from parts.sheets.frame import Frame, write_frame
from parts.tracing.trace import Asked, trace
from tests.tracing.judged import misses
from tests.tracing.shots import FRAME, ODD, PLAIN, WAISTED, Shot, taken, write

SMALL = (2000, 2667)
SHOTS = {
    "scan": Shot(dpi=200, gasket=WAISTED),
    "scan of a sheet printed too large": Shot(dpi=150, printed=(1.006, 0.996), paper="Letter", at=(107, 150)),
    "tilted, through a bent lens, in uneven light": Shot(
        size=SMALL, tilt=(13, -9), roll=20, lens=0.05, shadow=(0.3, 0.2)
    ),
    "upside down, mirrored, rings missing and smudged": Shot(
        size=SMALL,
        quarters=2,
        mirrored=True,
        tilt=(4, -9),
        lacking=((12, 12, 7, 255), (198, 61.3, 7, 255), (12, 285, 3.0, 120)),
    ),
    "thick": Shot(size=SMALL, thick=3.0, tilt=(10, 8), height=520, quarters=1),
    "glare on it": Shot(size=SMALL, glare=((60, 220, 9), (75, 160, 6))),
}


@pytest.fixture(scope="module")
def frames(tmp_path_factory):
    folder = tmp_path_factory.mktemp("frames")
    for paper in FRAME:
        write_frame(folder / f"{paper}.pdf", paper)
    return folder


def traced(shot, frames, folder):
    across, along = (span * grown for span, grown in zip(Frame(shot.paper).spans, shot.printed, strict=True))
    path = write(shot, frames / f"{shot.paper}.pdf", folder / "shot.jpg", 12)
    return trace(path, Asked(across, along, thick=shot.thick))


@pytest.mark.parametrize("name", SHOTS)
def test_outlines_lie_where_they_are(name, frames, tmp_path):
    shot = SHOTS[name]
    found = traced(shot, frames, tmp_path)
    holes, outlines, stated, wrong = misses(
        found.record()["loops"], [one.loop for one in found.loops], shot.gasket, shot.turned
    )
    assert not wrong
    assert holes <= 0.05
    if not shot.thick:
        assert outlines <= 0.1
    assert all(off <= plus_minus for off, plus_minus in stated)
    told = " ".join(found.notes)
    assert ("mirror image" in told) == shot.mirrored
    assert ("not used: 3 of the 16 rings" in told) == bool(shot.lacking)
    assert ("soft" in told) == bool(shot.glare)


def test_the_sheet_s_lengths_are_as_printed(frames):
    """pdfium draws the rings where the frame says they are, and the printed lengths are those between them."""
    for paper, (wide, tall) in FRAME.items():
        frame = Frame(paper)
        page = taken(
            Shot(dpi=254.0, gasket=PLAIN, paper=paper, noise=0, roll=1e-9, ink=255), frames / f"{paper}.pdf", 12
        )
        assert (frame.rings[4][0] - frame.rings[0][0], frame.rings[5][1] - frame.rings[0][1]) == pytest.approx(
            frame.spans
        )
        assert frame.size == (wide, tall)
        for x, y in frame.rings:
            at = page[
                round((tall - y) * 10) + 12 - 34 : round((tall - y) * 10) + 12 + 34,
                round(x * 10) + 12 - 34 : round(x * 10) + 12 + 34,
            ]
            assert at.min() < 30  # black ink in a box round each ring


@pytest.mark.parametrize("curls", ["sides", "ends", "askew"])
def test_a_sheet_that_curls_is_laid_flat(curls, frames, tmp_path):
    """One that lies up by 1.5 mm at its edge would put holes and outlines off by 0.2 to 0.4 mm."""
    curled = traced(Shot(size=SMALL, curl=1.5, curls=curls, tilt=(10, 8)), frames, tmp_path)
    holes, outlines, stated, wrong = misses(curled.record()["loops"], [one.loop for one in curled.loops], ODD, 7.0)
    assert not wrong
    assert holes <= 0.05
    assert outlines <= 0.1
    assert all(off <= plus_minus for off, plus_minus in stated)
    assert "off flat" in " ".join(curled.notes)


def test_what_is_not_sure_is_told(frames, tmp_path):
    """A sheet too far covered to be laid flat, and glare that has eaten an edge."""
    rings = Frame("A4").rings
    covered = tuple((*rings[n], 7.0, 255) for n in (1, 2, 6, 7, 11))
    curled = traced(Shot(size=SMALL, curl=1.5, tilt=(10, 8), lacking=covered), frames, tmp_path)
    assert "not flat" in " ".join(curled.notes)
    holes, outlines, stated, _ = misses(curled.record()["loops"], [one.loop for one in curled.loops], ODD, 7.0)
    assert max(holes, outlines) > 0.1
    assert all(off <= plus_minus for off, plus_minus in stated)
    eaten = traced(Shot(size=SMALL, glare=((55, 150, 8),)), frames, tmp_path)
    assert "an edge is soft near" in " ".join(eaten.notes)
    assert max(one.plus_minus for one in eaten.loops) > 2


def refused(path):
    with pytest.raises(JobError) as error:
        trace(path, Asked(186.0, 273.0))
    return str(error.value)


def test_bad_pictures_are_refused_in_a_sentence(frames, tmp_path):
    (text := tmp_path / "text.jpg").write_text("no picture")
    assert "is not a picture that can be read" in refused(text)
    assert "no such file" in refused(tmp_path / "none.jpg")
    Image.new("L", (500, 500), 255).save(small := tmp_path / "small.png")
    assert "500 x 500 dots" in refused(small)
    Image.new("1", (14000, 14500)).save(large := tmp_path / "large.png")
    assert "too many dots: at most 100 million" in refused(large)
    Image.new("L", (1500, 2000), 230).save(blank := tmp_path / "blank.png")
    assert "the frame of topend frame is not in the picture: 0 of its rings" in refused(blank)
    page = taken(Shot(dpi=150), frames / "A4.pdf", 12)
    cv2.imwrite(str(blurred := tmp_path / "blurred.jpg"), cv2.GaussianBlur(page, (0, 0), 25))
    assert "is it sharp" in refused(blurred)
    empty = taken(Shot(dpi=150, ink=255), frames / "A4.pdf", 12)
    cv2.imwrite(str(bare := tmp_path / "bare.png"), empty)
    assert "field" in refused(bare)
    with pytest.raises(JobError, match=r"--across: must lie within 3 % of what the sheet says, 186\.0 mm, not 200 mm"):
        trace(write(Shot(dpi=150), frames / "A4.pdf", tmp_path / "scan.jpg", 12), Asked(200.0, 273.0))


def test_a_rubbing_in_ink_is_traced_along_the_middle_of_its_lines(frames, tmp_path):
    page = taken(Shot(dpi=300, ink=255, noise=0, roll=1e-9), frames / "A4.pdf", 12)
    scale, tall = 300 / 25.4, FRAME["A4"][1]

    def dots(x, y):
        return round(x * scale + 12), round((tall - y) * scale + 12)

    cv2.circle(page, dots(105, 155), round(50 * scale), 20, round(1.2 * scale), cv2.LINE_AA)
    cv2.circle(page, dots(105, 155), round(28 * scale), 20, round(0.8 * scale), cv2.LINE_AA)
    cv2.imwrite(str(path := tmp_path / "rubbing.png"), page)
    found = trace(path, Asked(186.0, 273.0))
    assert [one.layer for one in found.loops] == ["OUTLINE", "BORE"]
    assert [2 * one.circle.radius for one in found.loops] == pytest.approx([100.0, 56.0], abs=0.12)
    assert "drawn as lines: their middle is taken" in found.notes


# the whole way --------------------------------------------------------------------------------------------------------

JOB = """
[engine]
bore = "57.2 mm"
[barrel]
material = "EN-GJL-250"
outline = { dxf = "deck.dxf", at_holes = ["new 1", "new 3"] }
[[barrel.passages]]
name = "tunnels"
dxf = "deck.dxf"
layer = "OPENINGS"
at_holes = ["new 1", "new 3"]
[[barrel.passages]]
name = "oil"
dxf = "deck.dxf"
layer = "HOLES"
at = ["0 mm", "-46 mm"]
at_holes = ["new 1", "new 3"]
[head]
holes = { rectangle = ["60 mm", "58 mm"] }
joint_face = { lobes = [["30 mm", "29 mm", "9 mm"], ["-30 mm", "29 mm", "9 mm"], ["-30 mm", "-29 mm", "9 mm"], ["30 mm", "-29 mm", "9 mm"]] }
[gasket]
thickness = "1.2 mm"
hole = "8.5 mm"
bore_clearance = "0 mm"
"""


def test_from_the_sheet_to_the_cut_part(tmp_path, monkeypatch, capsys):
    """An odd gasket's picture becomes a DXF, a job, and a cutting outline that lies on the true part within 0.15 mm."""
    monkeypatch.chdir(tmp_path)

    def run(*words):
        app(list(words), standalone_mode=False)
        return capsys.readouterr().out

    run("frame", "frame.pdf")
    shot = Shot(size=(3024, 4032), tilt=(9, -7), lens=0.03, thick=1.2, turned=21.0, height=500)
    write(shot, tmp_path / "frame.pdf", tmp_path / "photo.jpg", 12)
    before = (tmp_path / "photo.jpg").read_bytes()
    said = json.loads(
        run(
            "trace",
            "photo.jpg",
            "--across",
            "186 mm",
            "--along",
            "273 mm",
            "--into",
            "deck.dxf",
            "--thick",
            "1.2 mm",
            "--json",
        )
    )
    assert said["marks"]["found"] == 16
    assert said["marks"]["rms_mm"] < 0.02
    assert sorted(one["layer"] for one in said["loops"]) == ["BORE", *["HOLES"] * 5, *["OPENINGS"] * 2, "OUTLINE"]
    assert (tmp_path / "photo.jpg").read_bytes() == before
    with Image.open("deck.check.png") as check:
        assert 1000 < max(check.size) <= 2000
    (tmp_path / "job.toml").write_text(JOB)
    make(read_file(tmp_path / "job.toml"), tmp_path / "out", ["head-gasket"])
    cut = ezdxf.readfile("out/parts/head-gasket.dxf").modelspace()
    loops = [LineString([(p.x, p.y) for p in ezdxf.path.make_path(entity).flattening(0.001)]) for entity in cut]
    for shape in (ODD.outer, *ODD.cuts):
        true = LineString(shape.exterior.coords)
        assert min(loop.hausdorff_distance(true) for loop in loops) <= 0.15
    assert len(loops) == 9
    again = make(read_file(tmp_path / "out" / "job.toml"), tmp_path / "again", ["head-gasket"])
    assert again.written
    assert (tmp_path / "again" / "deck.dxf").read_bytes() == (tmp_path / "deck.dxf").read_bytes()


def test_no_file_is_overwritten_and_none_left_behind(frames, tmp_path):
    write(Shot(dpi=150), frames / "A4.pdf", tmp_path / "scan.jpg", 12)
    ask = [
        sys.executable,
        "-m",
        "cli.main",
        "trace",
        str(tmp_path / "scan.jpg"),
        "--across",
        "186 mm",
        "--along",
        "273 mm",
        "--into",
    ]
    for into, says in (("deck.png", "ends in .dxf"), ("none/deck.dxf", "could not be written"), ("scan.dxf", "")):
        done = subprocess.run([*ask, str(tmp_path / into)], capture_output=True, text=True, check=False)
        assert says in done.stderr
        assert len(done.stderr.splitlines()) <= 1
    done = subprocess.run([*ask, str(tmp_path / "scan.dxf")], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "is not overwritten" in done.stderr
    assert sorted(p.name for p in tmp_path.iterdir()) == ["scan.check.png", "scan.dxf", "scan.jpg"]
    assert not ezdxf.readfile(tmp_path / "scan.dxf").audit().errors
