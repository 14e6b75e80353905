"""Every key that may be left out is designed: the parts are complete, the status says so, explain tells how."""

import copy

import pytest

from cli.explain import account_of
from parts.checked import checked, judged
from parts.comparing.compare import vary_job
from parts.comparing.sweep import read_varied
from parts.errors import JobError
from parts.job import load
from parts.register import pieces
from tests.listed import one_of_each, rings, studs, text, worked

KEYS = (
    *(f"ring.{key}" for key in ("axial_width", "radial_thickness", "material", "free_gap", "closed_gap", "slit")),
    *("stud.shank", "stud.preload_share", "stud.insert.length", "stud.washer", "stud.nut_end_length"),
    *("plug.fit", "plug.length", "mandrel.form"),
)
"""of the worked job; an engagement, a tolerance and a thickness want another job"""
CALLIPERS = {
    "34 mm two-stroke": """
[engine]
cycle = "two-stroke"
bore = "34.00 mm"
[barrel]
material = "EN-GJL-200"
outline = { circle = "70 mm" }
deck_depth = "24 mm"
[head]
material = "AlSi7Mg0.3 T6"
thickness = "24 mm"
hole_diameter = "6.6 mm"
holes = { circle = "52 mm", count = 4, first = "45 deg" }
joint_face = "42 mm"
[stud]
tap_end = "M6"
nut_end = "M6"
[gasket]
thickness = "0.6 mm"
[ring]
groove = { width = "1.53 mm", root_diameter = "30.1 mm" }
[mandrel]
""",
    "57 mm": """
[engine]
bore = "57.00 mm"
[barrel]
material = "EN-GJL-250"
outline = { circle = "112 mm" }
deck_depth = "32 mm"
passages = [{ name = "breather", at = ["0 mm", "44 mm"], diameter = "8.5 mm", depth = "18 mm", blank = true }]
[head]
material = "AlSi7Mg0.3 T6"
thickness = "46 mm"
hole_diameter = "9 mm"
holes = { rectangle = ["60 mm", "58 mm"] }
joint_face = "66 mm"
[stud]
tap_end = "M10x1.5"
nut_end = "M8x1.25"
insert = {}
[plug]
passage = "breather"
[gasket]
thickness = "1.2 mm"
[ring]
groove = { width = "2.42 mm", root_diameter = "51.2 mm" }
[mandrel]
""",
    "90 mm in inches": """
[job]
print_units = "inch"
[engine]
bore = "3.543 in"
[barrel]
material = "EN-GJL-200"
outline = { rectangle = ["6 1/2 in", "6 1/2 in"], corner = "1 in" }
deck_depth = "2 in"
[head]
material = "EN-GJL-200"
thickness = "2 in"
hole_diameter = "0.406 in"
holes = { circle = "4.9 in", count = 6, first = "30 deg" }
joint_face = "4.1 in"
[stud]
tap_end = "7/16-14 UNC"
nut_end = "3/8-24 UNF"
[gasket]
thickness = "0.05 in"
[ring]
groove = { width = "0.1275 in", root_diameter = "3.19 in" }
[mandrel]
[workshop]
saws = ["0.012 in", "0.020 in"]
rotary_table = true
""",
    "aluminium barrel": """
[engine]
bore = "52.00 mm"
[barrel]
material = "AlSi7Mg0.3 T6"
outline = { circle = "100 mm" }
deck_depth = "40 mm"
[barrel.liner]
outside = "58 mm"
material = "EN-GJL-250"
[head]
material = "AlSi7Mg0.3 T6"
thickness = "40 mm"
hole_diameter = "9 mm"
holes = { circle = "78 mm", count = 4, first = "45 deg" }
joint_face = "64 mm"
[stud]
tap_end = "M10x1.5"
nut_end = "M8x1.25"
[gasket]
thickness = "0.8 mm"
[ring]
groove = { width = "2.02 mm", root_diameter = "46.8 mm" }
[mandrel]
""",
}
HOT = """
[engine.hot]
stud = "140 degC"
head = "165 degC"
barrel = "155 degC"
ring = "190 degC"
bore_wall = "155 degC"
"""


def without(job, *keys):
    """A job as data, some keys left out."""
    job = copy.deepcopy(job)
    for key in keys:
        *tables, last = key.split(".")
        table = job
        for step in tables:
            table = table[step]
        table.pop(last, None)
    return job


@pytest.mark.parametrize("key", KEYS)
def test_each_key_left_out_is_designed_and_every_part_is_made(key):
    done = checked(text(without(worked(), key)))
    entry = done.book[f"job.{key}"]
    assert entry.status == "designed"
    assert {piece.stem for piece in pieces(done.job)} == done.shapes.keys()
    told = account_of(done.book, f"job.{key}", entry, "metric")
    assert "  status   designed" in told
    assert any(line.startswith("  source   ") and len(line) > 30 for line in told)
    assert done.record[f"job.{key}"]["status"] == "designed"


def test_all_of_them_left_out_at_once():
    done = checked(text(without(worked(), *KEYS)))
    assert {f"job.{key}" for key in KEYS} <= {n for n, e in done.book.items() if e.status == "designed"}
    assert {piece.stem for piece in pieces(done.job)} == done.shapes.keys()


def test_the_worked_job_gives_them_but_for_the_nut_end():
    designed = {n for n, e in checked(text(worked())).book.items() if e.status == "designed"}
    assert designed == {"job.stud.nut_end_length"}


def test_an_engagement_and_a_tolerance():
    job = without(worked(), "stud.insert", "plug.fit")
    job["barrel"]["passages"][0]["diameter"] = "8.500 mm ± 0.004 mm"
    done = checked(text(job))
    names = ("job.stud.engagement", "job.plug.fit", "job.plug.tolerance")
    assert [done.book[name].status for name in names] == ["designed"] * 3
    assert done.book["job.plug.fit"].value == "press"
    assert done.book["plug.interference_left"].value >= 0.002
    loose = {**job, "plug": {**job["plug"], "fit": "press", "tolerance": "k6"}}
    assert checked(text(loose)).book["plug.interference_left"].value < 0.002


def test_a_letter_of_a_fit_is_tight_in_frost_too():
    """Brass in iron by ISO 286-2 (memory), 6 to 10 mm: r6 from 19 um over, in a hole up to 4 um wide leaves 15, flat peaks 5.

    Frost takes some 2 um of that, since 20.5 and 11.7 um/m/K lie 9 apart: 8.5 mm, 30 K. What heat gives doesn't count.
    """
    job = without(worked(), "plug.fit")
    job["barrel"]["passages"][0]["diameter"] = "8.500 mm ± 0.004 mm"
    job["plug"] |= {"fit": "press", "material": "CuZn39Pb3"}
    book = checked(text(job)).book
    assert book["job.plug.tolerance"].value == "r6"
    assert book["plug.interference_left"].value - book["plug.interference_left_frost"].value == pytest.approx(
        0.0023, abs=3e-4
    )


def test_a_thread_has_the_room_that_the_deck_leaves_it():
    """32 mm less 0.12, four pitches of 1.5 (one over, three of the tap's chamfer), a point of 118 deg on 10 mm, 2 mm under it."""
    book = judged(load(text(without(worked(), "stud.insert"))), contact=False).book
    assert 10 * book["stud.room_multiple"].value == pytest.approx(32 - 0.12 - 6 - 3.0043 - 2, abs=1e-3)


@pytest.mark.parametrize("kind", ["one of each", "two rings, two studs"])
def test_lists_are_designed_too(kind):
    job = without(worked(), *KEYS)
    two = studs(job, front={"holes": [1, 2]}, rear={"holes": [3, 4], "preload_share": 0.3})
    two = rings(two, ["top"], top={}, low={"groove": {"width": "2.05 mm", "root_diameter": "51.40 mm"}})
    done = checked(text(one_of_each(job) if kind == "one of each" else two))
    designed = {n for n, e in done.book.items() if e.status == "designed" and n.startswith("job.")}
    assert {piece.stem for piece in pieces(done.job)} == done.shapes.keys()
    for one in done.job.named():
        if one.kind == "ring":
            assert {one.real(f"job.ring.{key}") for key in ("slit", "free_gap", "axial_width", "material")} <= designed
        if one.kind == "stud":
            assert {one.real(f"job.stud.{key}") for key in ("shank", "insert.length", "washer")} <= designed
    if kind != "one of each":
        assert done.book["job.ring.low.axial_width"].value == pytest.approx(2.0)
        assert "job.stud.front.preload_share" in designed
        assert "job.stud.rear.preload_share" not in designed


def test_an_insert_for_a_pitch_under_a_millimetre_loses_more_than_its_short_end():
    """M5x0.8: 0.75 pitches above the insert's end, and the 1 mm that the stud goes under the deck less one pitch: 0.8."""
    fine = CALLIPERS["57 mm"].replace('"M10x1.5"', '"M5x0.8"\nmaterial = "C45"').replace('"M8x1.25"', '"M5x0.8"')
    assert judged(load(fine), contact=False).book["stud.carried_multiple"].inputs["lost"] == pytest.approx(0.8)


@pytest.mark.parametrize("engine", CALLIPERS)
def test_what_callipers_reach_makes_every_part(engine):
    done = judged(load(CALLIPERS[engine]), contact=False)
    assert {piece.stem for piece in pieces(done.job)} == done.shapes.keys()
    lengths = [n for n in done.book if n.startswith("job.") and done.book[n].status == "designed"]
    assert {"job.stud.shank", "job.ring.free_gap", "job.ring.slit", "job.mandrel.form"} <= set(lengths)
    assert not [f for f in done.findings if f.verdict == "stop" and f.name.startswith(("ring.", "mandrel.", "stud."))]


def test_a_gasket_follows_the_deck_face_that_is_given_else_the_holes():
    bare = '[engine]\nbore = "70 mm"\n[head]\nholes = { circle = "86 mm", count = 4 }\n[gasket]\nhole = "8.5 mm"\nthickness = "1 mm"\n'
    done = judged(load(bare), contact=False)
    assert (done.book["job.gasket.outline"].value, done.book["job.gasket.outline"].status) == ("bosses", "designed")
    assert done.shapes["head-gasket"] == judged(load(f'{bare}outline = "bosses"\n')).shapes["head-gasket"]
    given = judged(load(bare + '[barrel]\noutline = { circle = "120 mm" }\n'), contact=False)
    assert given.book["job.gasket.outline"].value == "deck"
    assert not judged(load(f'{bare}outline = "deck"\n')).shapes  # what was asked for in words is not changed


@pytest.mark.parametrize("engine", CALLIPERS)
def test_with_pressure_and_heat_it_gets_its_preload(engine):
    hot = CALLIPERS[engine].replace("[barrel]", 'peak_pressure = "35 bar"\n' + HOT + "[barrel]", 1)
    hot = hot.replace("[stud]", '[stud]\nmaterial = "42CrMo4 +QT"').replace(
        "[gasket]", '[gasket]\nmaterial = "copper, annealed"'
    )
    done = judged(load(hot), contact=False)
    book = done.book
    assert book["job.stud.preload_share"].status == "designed"
    assert "joint.torque" in book
    opens, breaks = book["joint.preload_share_opens"].value, book["joint.preload_share_breaks"].value
    window = next(f for f in done.findings if f.name == "joint.preload_window")
    assert (window.verdict == "stop") == (opens > breaks)


@pytest.mark.parametrize(
    ("wanted", "thickness"),
    [('wanted_squish = "1.0 mm"', 1.2), ("wanted_ratio = 6.5", 2.0), ('wanted_squish = "0.3 mm"', 0.6)],
)
def test_a_gasket_is_the_nearest_sheet_that_leaves_the_piston_its_room(demo, wanted, thickness):
    done = checked(demo.swap('thickness = "1.20 mm"', wanted))
    assert done.book["job.gasket.thickness"].value == thickness
    assert done.book["job.gasket.thickness"].status == "designed"
    squish = {t: done.book["compression.squish"].value + t - thickness for t in (1.0, 1.2, 1.5, 2.0, 0.5, 0.6)}
    assert squish[thickness] >= 0.4
    if "squish" in wanted:
        aim = float(wanted.split('"')[1].split()[0])
        fitting = {t: s for t, s in squish.items() if s >= 0.4}
        assert min(fitting, key=lambda t: abs(fitting[t] - aim)) == thickness
    else:
        assert done.book["compression.ratio_after"].value == pytest.approx(6.5, abs=0.1)


@pytest.mark.parametrize(
    ("wanted", "says"),
    [
        (
            'wanted_squish = "9 mm"',
            r"gasket\.wanted_squish \(line \d+\): is out of reach .* they give 0\.48 to 2\.88 mm, not 9 mm",
        ),
        (
            "wanted_ratio = 20",
            r"gasket\.wanted_ratio \(line \d+\): is out of reach .* they give 5\.99 to 7\.20, not 20",
        ),
        ("", r"gasket \(line \d+\): wants just one of thickness, wanted_squish and wanted_ratio, not none"),
        ('thickness = "1 mm"\nwanted_ratio = 6', r"wants just one of .* not thickness and wanted_ratio"),
    ],
)
def test_what_is_out_of_reach_is_told_with_what_is_possible(demo, wanted, says):
    with pytest.raises(JobError, match=says):
        checked(demo.swap('thickness = "1.20 mm"', wanted))


def test_what_was_measured_of_a_designed_part_takes_its_place():
    job = text(without(worked(), *KEYS))
    made = '\n[made]\n"job.ring.axial_width" = "2.36 mm"\n"stud.shank_diameter" = "6.0 mm"\n'
    book = checked(job + made).now.book
    assert book["ring.side_clearance"].value == pytest.approx(2.42 - 2.36)
    assert book["stud.shank_diameter"].status == "made"
    assert book["job.stud.shank"].status == "designed"
    with pytest.raises(JobError, match=r"made\.job\.mandrel\.form .*: is chosen, not measured: give mandrel\.form"):
        checked(job + '\n[made]\n"job.mandrel.form" = "pin"\n')


@pytest.mark.parametrize("varied", ["workshop.cnc=true,false", "ring.slit=0.3mm,0.5mm", "stud.shank=6mm,6.4mm"])
def test_variants_are_designed_as_each_job_is_by_itself(varied):
    base = without(worked(), *KEYS)
    found = vary_job(text(base), [read_varied(varied)])
    (table, key), values = varied.partition("=")[0].split("."), varied.partition("=")[2].split(",")
    for case, value in zip([c for c in found.cases if not c.base], values, strict=True):
        own = {**base, table: {**base.get(table, {}), key: value == "true" if table == "workshop" else value}}
        book = judged(load(text(own)), contact=False).book
        assert case.sizes or varied.endswith(",false")  # which is as the job stands
        assert {n: v for n, v in case.sizes.items() if n in book} == {n: book[n].value for n in case.sizes if n in book}


def test_a_mandrel_s_form_follows_the_workshop():
    bare = without(worked(), "mandrel.form")
    forms = {}
    for shop in ({}, {"printer": True}, {"cnc": True}, {"rotary_table": True}):
        job = load(text({**bare, "workshop": shop} if shop else bare))
        forms[next(iter(shop), "none")] = job.mandrel.form
    assert forms == {"none": "pin", "printer": "pin", "cnc": "contoured", "rotary_table": "contoured"}
