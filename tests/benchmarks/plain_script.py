"""What a user would write by hand: the worked job's parts in plain CadQuery, their sizes typed in, as STEP and STL.

`topend make` is measured against it. It sizes, checks, draws and reads back nothing. The meshes are as fine as ours.

    python tests/benchmarks/plain_script.py FOLDER
"""

import csv
import sys
from math import cos, radians, sin
from pathlib import Path

import cadquery as cq
from cadquery import exporters

CURVE = Path(__file__).parents[2] / "outputs" / "demo" / "parts" / "expander-mandrel-outline.csv"
SAGITTA, ANGLE = 0.01, 0.5


def turned(*points):
    """Revolve a half section, given as (radius, height), about Z."""
    return cq.Workplane("XZ").polyline(points).close().revolve(360, (0, 0, 0), (0, 1, 0))


def stepped_stud():
    below = [(0, -15.375), (4.08, -15.375), (5, -14.455), (5, -1)]
    return turned(*below, (3.1, -1), (3.1, 36.1), (4, 36.1), (4, 57.333), (3.2, 58.1), (0, 58.1))


def blanking_plug():
    return turned((0, -12), (3.73, -12), (4.23, -11.5), (4.23, 0.3), (0, 0.3))


def ring_blank():
    return cq.Workplane("XY").circle(28.648).circle(26.248).extrude(2.38)


def split_ring():
    slit = cq.Workplane("XY").center(27.4, 0).rect(6, 0.2).extrude(2.38)
    return cq.Workplane("XY").circle(28.6).circle(26.2).extrude(2.38).cut(slit)


def gasket():
    sheet = cq.Workplane("XY").circle(56).circle(29.1).extrude(1.2)
    return sheet.faces(">Z").workplane().rect(60, 58, forConstruction=True).vertices().hole(8.5)


def curve(less=0.0):
    """Points of the seat, from the lower end round the back to the upper: the gap on +X."""
    with CURVE.open(encoding="utf-8") as file:
        rows = [(radians(float(r["angle_deg"])), float(r["radius_mm"]) - less) for r in csv.DictReader(file)]
    upper = [(-radius * cos(angle), radius * sin(angle)) for angle, radius in rows]
    return [(x, -y) for x, y in reversed(upper[1:])] + upper


def section(less, height):
    return cq.Workplane("XY").workplane(offset=height).spline(curve(less)).close().wires().val()


def contoured_mandrel():
    seat = cq.Workplane(cq.Solid.makeLoft([section(0, 0), section(0, 7.14), section(0.5, 8.14)], True))
    flange = cq.Workplane("XY").workplane(offset=-6.562).circle(36.9).extrude(6.562)
    return flange.union(seat).faces(">Z").workplane(origin=(0, 0)).hole(10)


def main(folder):
    folder.mkdir(parents=True, exist_ok=True)
    for build in (stepped_stud, blanking_plug, ring_blank, split_ring, gasket, contoured_mandrel):
        solid = build()
        exporters.export(solid, str(folder / f"{build.__name__}.step"))
        solid.val().exportStl(str(folder / f"{build.__name__}.stl"), SAGITTA, ANGLE, relative=False)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
