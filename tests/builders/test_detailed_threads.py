"""Studs with true threads, as the kernel has them, against the standards' forms and limits and against integrals worked out here.

The section of a thread is felt with rays from outside, so that it is the solid's and not what it was built from. Forms:
ISO 68-1 and ISO 965-1 (60 degrees, root radius H/8 at least), ASME B1.1, BS 84 (55 degrees, r = 0.137329 P), BS 93
(47.5 degrees, r = 0.1808346 P), BS 811 (60 degrees, r = P / 6, memory).
"""

from dataclasses import replace
from itertools import pairwise
from math import cos, hypot, pi, radians, sin, sqrt, tan

import cadquery
import numpy as np
import pytest
import trimesh
from OCP.BRep import BRep_Tool
from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector

from parts import tables
from parts.book import Book
from parts.builders.threaded_stud import build as threaded
from parts.checked import check, checked
from parts.errors import BuildError, JobError
from parts.making.make import make
from parts.making.plan import made_from
from parts.register import PARTS, THREADS, asked_for
from parts.shapes.stud import StudShape, _end
from parts.shapes.thread_form import strips
from parts.shapes.threaded_stud import threaded_stud
from parts.sizing.threads import size_thread
from parts.thread import read_thread
from parts.writers.step import STEEL, write_step
from parts.writers.stl import THREADED, write_stl

INCH = 25.4
WHOLE = [  # nominal and pitch [mm], half the angle between the flanks [deg], round crest
    ("M3", 3, 0.5, 30, False), ("M3x0.35", 3, 0.35, 30, False), ("M4", 4, 0.7, 30, False), ("M4x0.5", 4, 0.5, 30, False),
    ("M5", 5, 0.8, 30, False), ("M5x0.5", 5, 0.5, 30, False), ("M6", 6, 1, 30, False), ("M6x0.75", 6, 0.75, 30, False),
    ("M8", 8, 1.25, 30, False), ("M8x1", 8, 1, 30, False), ("M8x0.75", 8, 0.75, 30, False), ("M10", 10, 1.5, 30, False),
    ("M10x1.25", 10, 1.25, 30, False), ("M10x1", 10, 1, 30, False), ("M12", 12, 1.75, 30, False),
    ("M12x1.5", 12, 1.5, 30, False), ("M12x1.25", 12, 1.25, 30, False), ("M14", 14, 2, 30, False),
    ("M14x1.5", 14, 1.5, 30, False), ("M16", 16, 2, 30, False), ("M16x1.5", 16, 1.5, 30, False),
    ("1/4-20 UNC", INCH / 4, INCH / 20, 30, False), ("1/4-28 UNF", INCH / 4, INCH / 28, 30, False),
    ("5/16-18 UNC", 5 / 16 * INCH, INCH / 18, 30, False), ("5/16-24 UNF", 5 / 16 * INCH, INCH / 24, 30, False),
    ("3/8-16 UNC", 3 / 8 * INCH, INCH / 16, 30, False), ("3/8-24 UNF", 3 / 8 * INCH, INCH / 24, 30, False),
    ("1/4 BSW", INCH / 4, INCH / 20, 27.5, True), ("5/16 BSW", 5 / 16 * INCH, INCH / 18, 27.5, True),
    ("3/8 BSW", 3 / 8 * INCH, INCH / 16, 27.5, True), ("1/4 BSF", INCH / 4, INCH / 26, 27.5, True),
    ("5/16 BSF", 5 / 16 * INCH, INCH / 22, 27.5, True), ("3/8 BSF", 3 / 8 * INCH, INCH / 20, 27.5, True),
    ("5/16-26 BSC", 5 / 16 * INCH, INCH / 26, 30, True), ("0 BA", 6.0, 1.0, 23.75, True), ("2 BA", 4.7, 0.81, 23.75, True),
    ("4 BA", 3.6, 0.66, 23.75, True), ("6 BA", 2.8, 0.53, 23.75, True),
]  # fmt: skip
SOME = [row for row in WHOLE if row[0] in ("M3x0.35", "M10", "M16", "3/8-24 UNF", "1/4 BSW", "5/16-26 BSC", "2 BA")]
BEHIND = ("waist", "core", "half", "over", "shoulder")  # what stands behind a thread


# the threads, built alone and felt ------------------------------------------------------------------------------------


def sized(label):
    """A thread's sizes from the book."""
    book = Book()
    thread = read_thread(label)
    size_thread(book, "stud.tap_end", thread)
    return thread, book, {n.removeprefix("stud.tap_end_"): e.value for n, e in book.items()}


def end_of(label, face, last, *, behind=0.8, chamfer=1.0):
    """An end with so much behind it, in core radii if a number, and so much of the chamfer that reaches the root."""
    thread, book, v = sized(label)
    end = _end(book, "tap_end", thread, (face, last), chamfer * v["lead_in"], 1.0)
    core, crest = end.form.root / 2, end.form.major / 2
    radius = {
        "waist": 0.8 * core, "core": core - 0.004, "half": 0.6 * core + 0.4 * crest, "over": thread.nominal / 2,
        "shoulder": 0.7 * thread.nominal,
    }.get(behind, behind)  # fmt: skip
    return replace(end, behind=radius)


def stud(label, *, behind="waist", chamfer=1.0, pitches=8.0, other=None):
    """A stud with this thread below, and above it the same or another."""
    pitch = sized(label)[0].pitch
    low = end_of(label, -pitches * pitch, 0.0, behind=behind, chamfer=chamfer)
    high = end_of(other or label, 20 + 6 * pitch, 20.0, behind=low.behind if other is None else behind)
    return of_ends(low, high)


def of_ends(low, high):
    """A stud with these ends, the shank stepped half way where it must be."""
    half = (low.last + high.last) / 2
    waist = ((low.last, low.behind), (half, low.behind), (half, high.behind), (high.last, high.behind))
    plain = ((low.face, 0.0), (low.face, 1.0), (high.face, 1.0), (high.face, 0.0))
    return StudShape(plain, ends=(low, high), waist=tuple(dict.fromkeys(waist)))


def is_whole(solid):
    """One valid solid whose one shell is closed."""
    shells = solid.Shells()
    return (
        solid.ShapeType() == "Solid"
        and solid.isValid()
        and len(shells) == 1
        and BRep_Tool.IsClosed_s(shells[0].wrapped)
    )


class Feeler:
    """Radius of a solid at an azimuth and a height, by a ray from outside towards the axis."""

    def __init__(self, solid):
        self.found = IntCurvesFace_ShapeIntersector()
        self.found.Load(solid.wrapped, 1e-9)

    def __call__(self, psi, z):
        start = gp_Pnt(40 * cos(psi), 40 * sin(psi), z)
        self.found.PerformNearest(gp_Lin(start, gp_Dir(-cos(psi), -sin(psi), 0)), 0.0, 40.0)
        point = self.found.Pnt(1)
        return hypot(point.X(), point.Y())


@pytest.fixture(scope="module")
def m10():
    """M10x1.5 with its solid."""
    return threaded(threaded_stud(stud("M10x1.5", other="M8x1.25")))


# form and limits ------------------------------------------------------------------------------------------------------


def felt(feel, z0, pitch, count=400):
    """Radii over two pitches from z0 on."""
    at = z0 + np.arange(2 * count + 1) * pitch / count
    return at, np.array([feel(0.0, z) for z in at])


def flanks(at, r, low, high):
    """Slope dr/dz and place at mid height of each straight flank between two radii, in order."""
    inside = (r > low) & (r < high)
    edges = np.flatnonzero(np.diff(np.concatenate([[0], inside.astype(int), [0]])))
    found = []
    for a, b in edges.reshape(-1, 2):
        if a > 0 and b < len(r):  # whole ones
            slope, start = np.polyfit(at[a:b], r[a:b], 1)
            found.append((slope, ((low + high) / 2 - start) / slope))
    return found


FELT = [  # label, P, half angle; least and greatest major and pitch diameter as printed, root radius in pitches
    # ISO 965-2, class 6g
    ("M10x1.5", 1.5, 30, (9.732, 9.968), (8.862, 8.994), 0.14434),
    ("M8x1", 1.0, 30, (7.794, 7.974), (7.212, 7.324), 0.14434),
    # ASME B1.1, class 2A [in]
    ("3/8-16 UNC", INCH / 16, 30, (0.3643 * INCH, 0.3737 * INCH), (0.3287 * INCH, 0.3331 * INCH), 3 * sqrt(3) / 32),
    # BS 93, normal class: 6.00 - 0.025 and - 0.175; pitch 5.400 - 0.025 and - 0.105 (formulas of the standard)
    ("0 BA", 1.0, 23.75, (5.78, 5.975), (5.28, 5.375), 0.1808346),
]  # fmt: skip


@pytest.mark.parametrize(("label", "pitch", "half", "major", "middle", "radius"), FELT, ids=[row[0] for row in FELT])
def test_section_is_the_standards_form_inside_its_limits(label, pitch, half, major, middle, radius):
    feel = Feeler(threaded(threaded_stud(stud(label))))
    at, r = felt(feel, -5 * pitch, pitch)
    assert major[0] < 2 * r.max() < major[1]
    low, high = r.min() + 0.3 * np.ptp(r), r.max() - 0.3 * np.ptp(r)
    (a, at_a), (b, at_b), (_, at_c) = flanks(at, r, low, high)[:3]
    assert [abs(a), abs(b)] == pytest.approx([1 / tan(radians(half))] * 2, rel=1e-4)
    assert at_c - at_a == pytest.approx(pitch, abs=1e-5)
    ridge = at_b - at_a if a > 0 else at_c - at_b  # at mid height; wider by dr tan on both sides, deeper down
    effective = (low + high) + (ridge - pitch / 2) / tan(radians(half))
    assert middle[0] < effective < middle[1]
    deep = (r < r.min() + 0.3 * radius * pitch)[: len(r) // 2]  # the root's arc as a circle through three of its points
    assert circle(at[: len(r) // 2][deep], r[: len(r) // 2][deep]) == pytest.approx(radius * pitch, rel=5e-3)


def circle(x, y):
    """Radius of the circle nearest to points."""
    (a, b, c), *_ = np.linalg.lstsq(np.stack([x, y, np.ones_like(x)], axis=1), x**2 + y**2, rcond=None)
    return sqrt(c + a**2 / 4 + b**2 / 4)


@pytest.mark.parametrize(("label", "half"), [("M10x1.5", 30), ("3/8-24 UNF", 30), ("1/4 BSW", 27.5), ("2 BA", 23.75)])
def test_three_wires_find_the_middle_of_the_books_limits(label, half):
    """A wire that rests on two flanks as they are felt: its far side, twice, is the size over wires."""
    _, _, v = sized(label)
    feel = Feeler(threaded(threaded_stud(stud(label))))
    at, r = felt(feel, -5 * v["pitch"], v["pitch"])
    found = flanks(at, r, r.min() + 0.35 * np.ptp(r), r.max() - 0.35 * np.ptp(r))
    (down, z_down), (up, z_up) = next(pair for pair in pairwise(found) if pair[0][0] < 0)
    mid = (r.min() + r.max()) / 2
    apex_z = (up * z_up - down * z_down) / (up - down)  # where the flanks would meet
    apex = mid + up * (apex_z - z_up)
    wire = v["wire_diameter"] / 2
    over = 2 * (apex + wire / sin(radians(half)) + wire)
    assert over == pytest.approx((v["over_wires_max"] + v["over_wires_min"]) / 2, abs=2e-4)


@pytest.mark.parametrize("label", [row[0] for row in WHOLE])
def test_root_and_crest_are_the_forms(label):
    """ISO 68-1: H/8 to H/4 at the root, here H/6; ASME B1.1 UNR: root 3 H / 16 above the sharp V; BS 84, BS 93, BS 811."""
    thread = read_thread(label)
    form = end_of(label, -10.0, 0.0).form
    share = {
        "metric": sqrt(3) / 12,
        "unified": 3 * sqrt(3) / 32,
        "whitworth": 0.137329,
        "ba": 0.1808346,
        "cycle": 1 / 6,
    }
    assert form.root_radius / thread.pitch == pytest.approx(share[thread.family], rel=2e-3)
    parts = strips(form)
    assert parts[0].start.real == pytest.approx(parts[0].stop.real)
    assert all(one.stop == pytest.approx(next_.start) for one, next_ in pairwise(parts))
    if form.round_crest:  # a little rounder than the root, as the blank is cut under size
        assert form.root_radius < form.crest_radius < 1.25 * form.root_radius
    else:
        assert 0 < parts[0].high < thread.pitch / 4


# volume ---------------------------------------------------------------------------------------------------------------


def section_of(label, form):
    """Radius of the form over one pitch at many places, from flanks, crest and root arc as the standards draw them."""
    thread = read_thread(label)
    half, p = radians(thread.half_angle), thread.pitch
    z = (np.arange(4000) + 0.5) / 4000 * p - p / 2  # 0 in the middle of a crest
    high = p / (2 * tan(half))
    r = form.pitch_diameter / 2 + high / 2 - np.abs(z) / tan(half)  # sharp V
    top, floor = form.major / 2, form.root / 2
    if thread.family in ("whitworth", "ba", "cycle"):
        big = (form.pitch_diameter / 2 + high / 2 - top) / (1 / sin(half) - 1)
        on = np.abs(z) < big * cos(half)
        r = np.where(on, top - big + np.sqrt(np.maximum(big**2 - z**2, 0)), r)
    r = np.minimum(r, top)
    small = (floor - (form.pitch_diameter / 2 - high / 2)) / (1 / sin(half) - 1)
    off = p / 2 - np.abs(z)
    return np.where(off < small * cos(half), floor + small - np.sqrt(np.maximum(small**2 - off**2, 0)), r)


def volume_of(label, end, behind, length):
    """Volume from the face to a plane `length` behind it: at each height the mean over a turn of pi r^2.

    The thread lies under a 45 degree chamfer and over the floor of its run-out, at 30 degrees; in front of a waist under
    another 45 degree cone.
    """
    form, section = end.form, section_of(label, end.form)
    run, nominal = abs(end.last - end.face), read_thread(label).nominal
    total, steps = 0.0, 2000
    crest, root, step = form.major / 2, form.root / 2, length / steps
    for n in range(steps):
        s = (n + 0.5) * step
        under = crest - end.chamfer + s
        over, body = 0.0, crest
        if behind in ("waist", "core"):
            start = max(end.behind, root - 0.02) if behind == "waist" else end.behind
            under = min(under, start + run - s)
            over, under = (end.behind, end.behind) if s > run else (0.0, under)
        elif behind == "shoulder":
            over = min(nominal / 2 - (run - s) * tan(radians(30)), end.behind)
            body = crest if s < run else end.behind
            over = body if s > run else over
        else:
            over = min(root + (s - run) * tan(radians(30)), end.behind)
            if behind == "half":
                under = min(under, max(end.behind + run - s, end.behind))
        ridge = np.minimum(np.minimum(section, max(under, 0.0)), body)
        total += pi * float(np.mean(np.maximum(ridge, over) ** 2)) * step
    return total


def cases(rows):
    for n, row in enumerate(rows):
        for m, behind in enumerate(BEHIND):
            yield row[0], behind, (1.0, 0.6)[(n + m) % 2], (n + m) % 3 == 0


def built_and_weighed(label, behind, chamfer, left):
    """One end of the grid: whole, of the integral's volume."""
    name = f"{label} LH" if left else label
    shape = stud(name, behind=behind, chamfer=chamfer)
    solid = threaded(threaded_stud(shape))
    assert is_whole(solid)
    low, high = shape.ends
    total = sum(
        volume_of(label, end, behind, abs(end.last - end.face) + 10.0) for end in (low, high)
    )  # the shank's two halves
    assert solid.Volume() == pytest.approx(total, rel=1e-3)


@pytest.mark.parametrize(("label", "behind", "chamfer", "left"), list(cases(SOME))[::2])
def test_volume_is_the_integral_of_the_form(label, behind, chamfer, left):
    built_and_weighed(label, behind, chamfer, left)


@pytest.mark.long
@pytest.mark.parametrize(("label", "behind", "chamfer", "left"), list(cases(WHOLE)))
def test_volume_is_the_integral_of_the_form_for_every_size(label, behind, chamfer, left):
    built_and_weighed(label, behind, chamfer, left)


def any_stud(seed):
    """Two threads of any sizes, lengths, hands, chamfers, and anything behind them."""
    rng = np.random.default_rng(seed)
    labels = [f"M{d:g}x{p:g}" for d, ps in tables.metric_pitches().items() if d >= 3 for p in ps]
    labels += [row[0] for row in WHOLE[21:]]
    ends = []
    for last, way in ((0.0, -1), (40.0, 1)):
        label = str(rng.choice(labels)) + str(rng.choice(["", " LH"]))
        length = way * rng.uniform(4.01, 15) * read_thread(label).pitch
        end = end_of(label, last + length, last, chamfer=rng.uniform(0.3, 1.2))
        radius = rng.uniform(0.7 * end.form.root, 1.2 * end.nominal) / 2
        near = rng.choice([end.form.root / 2, end.form.major / 2, end.nominal / 2]) + rng.uniform(-0.03, 0.03)
        ends.append(replace(end, behind=float(rng.choice([radius, near]))))
    return of_ends(*ends)


@pytest.mark.parametrize("seed", range(6))
def test_any_two_threads_make_one_whole_solid(seed):
    assert is_whole(threaded(threaded_stud(any_stud(seed))))


@pytest.mark.long
def test_many_more_make_one_whole_solid():
    for seed in range(6, 400):
        assert is_whole(threaded(threaded_stud(any_stud(seed)))), seed


# hand -----------------------------------------------------------------------------------------------------------------


def test_left_hand_is_the_mirror_image_and_right_hand_rises_anticlockwise():
    right, left = (threaded(threaded_stud(stud(f"M10x1.5{hand}", behind="half"))) for hand in ("", " LH"))
    assert left.Volume() == pytest.approx(right.Volume(), rel=1e-9)
    feel, mirrored = Feeler(right), Feeler(left)
    rng = np.random.default_rng(4)
    places = [(rng.uniform(0, 2 * pi), rng.uniform(-12, 29)) for _ in range(150)]
    assert [mirrored(-psi, z) for psi, z in places] == pytest.approx([feel(psi, z) for psi, z in places], abs=2e-6)
    assert max(abs(mirrored(psi, z) - feel(psi, z)) for psi, z in places) > 0.3
    inside = [(psi, z) for psi, z in places if -9 < z < -4]
    turned = [feel(psi + 1.0, z + 1.5 / (2 * pi)) for psi, z in inside]  # anticlockwise from above, and up
    assert turned == pytest.approx([feel(psi, z) for psi, z in inside], abs=2e-6)


# files ----------------------------------------------------------------------------------------------------------------


def test_mesh_is_watertight_and_step_reads_back(m10, tmp_path):
    write_stl(m10, tmp_path / "stud.stl", THREADED)
    mesh = trimesh.load_mesh(tmp_path / "stud.stl")
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.volume == pytest.approx(m10.Volume(), rel=3e-3)
    assert 20_000 < len(mesh.faces) < 134_000  # two threads
    write_step(m10, "stud", STEEL, tmp_path / "stud.step")
    (read,) = cadquery.importers.importStep(str(tmp_path / "stud.step")).solids().vals()
    assert is_whole(read)
    assert read.Volume() == pytest.approx(m10.Volume(), rel=1e-6)
    assert (tmp_path / "stud.step").stat().st_size < 3_000_000
    write_step(m10, "stud", STEEL, tmp_path / "again.step")
    assert (tmp_path / "again.step").read_bytes() == (tmp_path / "stud.step").read_bytes()


def test_only_the_studs_solid_mesh_and_picture_change(demo, made, tmp_path):
    """Drawing, assembly and records are what they are with plain threads."""
    make(demo, tmp_path / "out", ["stepped-stud"], "detailed")
    new = [p.relative_to(tmp_path / "out") for p in (tmp_path / "out").rglob("*") if p.is_file()]
    assert {"assembly.step", "parts/stepped-stud.pdf", "parts/stepped-stud.dxf"} <= {p.as_posix() for p in new}
    differ = {p.as_posix() for p in new if (tmp_path / "out" / p).read_bytes() != (made[1] / p).read_bytes()}
    files = {*(f"parts/stepped-stud.{end}" for end in ("step", "stl", "3mf", "preview.png"))}
    assert differ == {
        *files,
        "index.html",
        "manifest.json",
    }  # the page lists the parts that were made, and shows the picture


def test_threads_are_no_reason_to_make_another_part_again(demo):
    done = checked(demo)
    pieces = list(asked_for(done.job))
    assert {piece.stem for piece in pieces} == set(done.shapes)
    for piece in pieces:
        one, other = (made_from(piece, done, kind) for kind in THREADS)
        assert (one == other) == (piece.stem != "stepped-stud")


# refusals -------------------------------------------------------------------------------------------------------------


def stud_of(job):
    task, book, _ = check(job)
    return PARTS["stepped-stud"].shape(book, task)


def test_true_threads_of_a_job_stand_where_the_plain_ones_do(demo):
    """Same ends and same deck face; crests in the middle of ISO 965-2's 9.732 to 9.968 and 7.760 to 7.972."""
    solid = threaded(threaded_stud(stud_of(demo)))
    feel = Feeler(solid)
    assert (solid.BoundingBox().zmin, solid.BoundingBox().zmax) == pytest.approx((-15.375, 58.1), abs=1e-6)
    assert 2 * max(feel(0.0, -8 + n * 0.03) for n in range(51)) == pytest.approx((9.732 + 9.968) / 2, abs=1e-3)
    assert 2 * max(feel(0.0, 48 + n * 0.025) for n in range(51)) == pytest.approx((7.760 + 7.972) / 2, abs=1e-3)
    assert 2 * feel(0.0, 10.0) == pytest.approx(6.2, abs=1e-6)


def test_a_thread_too_short_is_refused_by_name(demo):
    job = demo.swap('insert = { length = "1.5 d", tap = "bottoming" }', 'engagement = "6.5 mm"')
    with pytest.raises(JobError, match=r"stud\.tap_end: is 5\.5 mm long; a true thread wants 6 mm, 4 pitches"):
        threaded_stud(stud_of(job))


LONG = """[stud]
tap_end = "10 BA"
nut_end = "10 BA"
engagement = "8 mm"
nut_end_length = "300 mm"
[head]
thickness = "400 mm"
[gasket]
thickness = "1.2 mm"
"""


def test_a_thread_of_more_turns_than_can_be_made_is_refused_by_name(tmp_path):
    """300 mm of 10 BA, 0.35 mm from turn to turn (BS 93): before the kernel is asked."""
    says = (
        rf"stud\.nut_end \(line 3\): has {300 / 0.35:.0f} turns; true threads are made up to 250: leave --threads away"
    )
    with pytest.raises(JobError, match=says):
        make(LONG, tmp_path / "o", ["stepped-stud"], "detailed")
    assert not any(tmp_path.iterdir())
    assert len(threaded_stud(stud_of(LONG.replace("300 mm", "85 mm"))).zones) == 2  # 243 turns


def test_a_shank_without_room_for_both_run_outs_is_refused_by_name(demo):
    job = demo.swap('shank = "6.2 mm"', 'shank = "8 mm"\nnut_end_length = "58.2 mm"')
    with pytest.raises(JobError, match=r"stud\.shank: leaves no room between the two threads"):
        threaded_stud(stud_of(job))


def test_threads_are_one_of_two_kinds(demo, tmp_path):
    with pytest.raises(JobError, match=r"--threads: wants simplified or detailed, not 'rolled'"):
        make(demo, tmp_path / "out", ["stepped-stud"], "rolled")
    assert not (tmp_path / "out").exists()


def test_a_solid_of_another_volume_is_not_let_through(monkeypatch):
    from parts.shapes import threaded_stud as module

    shape = threaded_stud(stud("M8"))
    monkeypatch.setattr(module, "groove_volume", lambda _: 0.0)
    with pytest.raises(BuildError, match="by its dimensions"):
        threaded(shape)
