"""DXF files written by ezdxf: every kind of curve, units, what is open, doubled or crossing; areas by shapely."""

from io import StringIO
from math import pi
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from PIL import Image
from scipy.interpolate import BSpline
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon

from cli.main import app
from parts.drawn import drawing
from parts.errors import JobError
from parts.geometry.outline import flatten


def file(draw, units=4):
    document = ezdxf.new("R2010", units=units)
    draw(document.modelspace(), document)
    text = StringIO()
    document.write(text)
    return text.getvalue().encode()


def read(draw, insunits=4, units=None):
    return drawing(file(draw, insunits), "deck.dxf", units)


def polygon(loop):
    return Polygon(flatten(loop, 1e-4))


def on(layer="OUTLINE"):
    return {"dxfattribs": {"layer": layer}}


def test_lines_and_arcs_are_joined_where_they_meet():
    """A slot of two lines and two arcs, drawn in any order and direction, its ends up to 0.01 mm apart."""

    def draw(m, _):
        m.add_line((-10, 5), (10, 5.008), **on())
        m.add_arc((-10, 0), 5, 90, 270, **on())
        m.add_line((10, -5), (-10, -5), **on())
        m.add_arc((10, 0), 5, 270, 90, **on())

    (loop,) = read(draw).on("OUTLINE")
    assert polygon(loop).area == pytest.approx(200 + 25 * pi, abs=0.1)
    assert len(loop) == 4


def test_ellipses_and_splines_lie_within_a_hundredth_in_arcs():
    def draw(m, _):
        m.add_ellipse((3, 4), (20, 5), 0.4, **on())
        m.add_spline(**on("SPLINE")).set_closed([(0, 0, 0), (30, 5, 0), (40, 40, 0), (-10, 30, 0)])

    drawn = read(draw)
    (loop,) = drawn.on("OUTLINE")
    true = affinity.translate(
        affinity.rotate(
            affinity.scale(Point(0, 0).buffer(1, 4096), 425**0.5, 0.4 * 425**0.5), 14.036243467926479, origin=(0, 0)
        ),
        3,
        4,
    )
    assert LineString(polygon(loop).exterior.coords).hausdorff_distance(LineString(true.exterior.coords)) <= 0.0105
    assert len(loop) < 80
    document = ezdxf.new()
    spline = document.modelspace().add_spline()
    spline.set_closed([(0, 0, 0), (30, 5, 0), (40, 40, 0), (-10, 30, 0)])
    curve = spline.construction_tool()
    knots = curve.knots()
    true = BSpline(knots, [(p.x, p.y) for p in curve.control_points], 3)(np.linspace(knots[3], knots[-4], 8000))
    assert LineString(polygon(drawn.on("SPLINE")[0]).exterior.coords).hausdorff_distance(LineString(true)) <= 0.0115


@pytest.mark.parametrize(("units", "scale"), [(1, 25.4), (4, 1.0), (5, 10.0)])
def test_units_of_the_file(units, scale):
    drawn = read(lambda m, _: m.add_circle((1, 2), 3, **on()), units)
    assert polygon(drawn.on("OUTLINE")[0]).area == pytest.approx(pi * 9 * scale**2, rel=1e-4)


def test_units_that_are_not_told_or_wrong():
    def draw(m, _):
        m.add_circle((0, 0), 10, **on())

    with pytest.raises(JobError, match="does not say what its units are"):
        read(draw, 0)
    with pytest.raises(JobError, match="20000 mm across by the units it says it has, over 2000 mm"):
        read(draw, 6)
    assert read(draw, 6, units="mm").circles == [(0, 0, 10)]
    assert read(draw, 0, units="in").circles == [(0, 0, pytest.approx(254))]


def test_the_bore_is_the_origin_and_blocks_are_looked_into():
    def draw(m, document):
        block = document.blocks.new("HOLE")
        block.add_circle((0, 0), 4, **on("HOLES"))
        m.add_blockref("HOLE", (130, 79))
        m.add_circle((100, 50), 28.6, **on("BORE"))
        m.add_lwpolyline([(40, -10), (160, -10), (160, 110), (40, 110)], close=True, **on())
        m.add_text("deck", **on())

    drawn = read(draw)
    assert drawn.bored
    assert drawn.circles == [(30, 29, 4)]
    assert polygon(drawn.on("OUTLINE")[0]).bounds == pytest.approx((-60, -60, 60, 60))


def test_what_is_drawn_from_behind_is_seen_from_the_front():
    flipped = {"dxfattribs": {"layer": "OUTLINE", "extrusion": (0, 0, -1)}}
    drawn = read(lambda m, _: m.add_circle((10, 5), 4, **flipped))
    assert drawn.circles == [(-10, 5, 4)]


FAULTY = {
    "is open at (0, 10) mm": lambda m: [m.add_line(a, b, **on()) for a, b in (((0, 0), (10, 0)), ((10, 0), (10, 10)), ((10, 10), (0, 10)), ((0, 9.9), (0, 0)))],
    "is drawn twice at (5, 0) mm": lambda m: [m.add_line(a, b, **on()) for a, b in (((0, 0), (10, 0)), ((10, 0), (0, 0)), ((10, 0), (5, 9)), ((5, 9), (0, 0)))],
    "has more than two ends at (10, 0) mm": lambda m: [m.add_line(a, b, **on()) for a, b in (((0, 0), (10, 0)), ((10, 0), (5, 9)), ((5, 9), (0, 0)), ((10, 0), (20, 0)))],
    "crosses itself at (5, 5) mm": lambda m: m.add_lwpolyline([(0, 0), (10, 10), (10, 0), (0, 10)], close=True, **on()),
    "crosses another outline": lambda m: [m.add_circle((x, 0), 10, **on()) for x in (0, 12)],
    "is drawn twice at (0, 10) mm": lambda m: [m.add_circle((0, 0), 10, **on()) for _ in range(2)],
}  # fmt: skip


@pytest.mark.parametrize("says", FAULTY)
def test_faults_are_told_with_their_place(says):
    drawn = read(lambda m, _: FAULTY[says](m))
    with pytest.raises(JobError) as error:
        drawn.on("OUTLINE")
    assert says in str(error.value)
    assert "deck.dxf, layer OUTLINE" in str(error.value)


@pytest.mark.parametrize(
    "data", [b"", b"no drawing", b"\x00\xff" * 500, b"0\nSECTION\n2\nENTITIES\n", b"AutoCAD Binary DXF\r\n\x1a\x00"]
)
def test_what_is_no_drawing(data):
    with pytest.raises(JobError, match=r"not a DXF file|does not say|nothing closed"):
        drawing(data, "deck.dxf").on("OUTLINE")


def test_what_is_wrong_is_drawn(tmp_path, monkeypatch, capsys):
    """Red dots about the place of each flaw, none without one; the file itself stays as it is."""
    monkeypatch.chdir(tmp_path)
    open_ = file(lambda m, _: FAULTY["is open at (0, 10) mm"](m))
    Path("open.dxf").write_bytes(open_)
    assert app(["look", "open.dxf", "--into", "open.png"], standalone_mode=False) == 1
    assert "1: is open at (0, 10) mm\n  2: is open at (0, 9.9) mm" in capsys.readouterr().out
    assert Path("open.dxf").read_bytes() == open_
    assert red(Path("open.png")) == pytest.approx((80, 80 + 1600 * 0.1 / 20), abs=25)  # the upper left corner
    Path("whole.dxf").write_bytes(file(lambda m, _: m.add_circle((0, 0), 10, **on())))
    assert app(["look", "whole.dxf", "--into", "whole.png"], standalone_mode=False) == 0
    assert red(Path("whole.png")) is None
    assert "layer OUTLINE: 1 closed outline\n" in capsys.readouterr().out
    Path("bare.dxf").write_bytes(file(lambda m, _: m.add_text("deck")))
    with pytest.raises(JobError, match="has no line, arc, circle"):
        app(["look", "bare.dxf", "--into", "bare.png"], standalone_mode=False)
    assert not Path("bare.png").exists()


def red(path):
    """Middle of all red dots."""
    with Image.open(path) as picture:
        dots = np.asarray(picture).astype(int)
    y, x = np.nonzero((dots[..., 0] > 180) & (dots[..., 1] < 90) & (dots[..., 2] < 90))
    return (x.mean(), y.mean()) if len(x) else None
