"""More than one of a kind, judged: whatever a plain job is told, a job of lists is told of each entry, by its name."""

import re
from collections import Counter

import pytest

from parts.checked import check
from parts.errors import JobError
from parts.job import load
from parts.job.instances import SIZES
from parts.judging.findings import judge, judged_by
from parts.judging.rules import RULES
from parts.register import pieces
from parts.sizing import size
from parts.sizing.as_made import LIMIT
from parts.sizing.scenes import scene_of
from tests.listed import old_holes, one_of_each, plain, plugs, rings, several, studs, text, toml_text, worked

WORKED = worked()
READINGS = {"bore_readings": [["57.22 mm", "57.21 mm"], ["57.23 mm", "57.20 mm"], ["57.25 mm", "57.21 mm"]]}


def changed(path, value):
    """The worked job with one value changed, or taken out."""
    *way, last = path.split(".")
    out = place = {**WORKED}
    for step in way:
        place[step] = {**place[step]}
        place = place[step]
    place.pop(last, None)
    return out if value is None else (place.update({last: value}) or out)


CHANGED = {
    "as it is": WORKED,
    "bore as honed": {**WORKED, "engine": {**WORKED["engine"], **READINGS}},
    "clamp plate": {**WORKED, "clamp_plate": {}},
    **{
        f"{path} {value}": changed(path, value)
        for path, value in (
            ("mandrel.form", "pin"), ("mandrel.form", "round"), ("mandrel.material", "AlSi7Mg0.3 T6"), ("mandrel", None),
            ("mandrel.purpose", "fit check"), ("plug.fit", "press"), ("plug.shoulder", {"diameter": "12 mm", "thickness": "3 mm"}),
            ("stud.insert", None), ("stud.insert", {"length": "1.5 d", "tap": "plug"}), ("stud.tap_end", "M8x1.25"), ("stud.thread_relief", "undercut"),
            ("stud.held_by", "bottomed"), ("head.boss", None), ("head.outline", {"circle": "110 mm"}), ("head.spigot", "70 mm"),
            ("head.located_by", None), ("head.joint_face", None), ("head.hole_diameter", "10.5 mm"), ("engine.run_up", None),
            ("ring.closed_gap", "0.6 mm"), ("ring.slit", "0.1 mm"), ("gasket.outline", "bosses"), ("job.print_units", "inch"),
            ("head.holes", {"circle": "83 mm", "count": 5}),
        )
    },
}  # fmt: skip


def told(job):
    """Findings of a job, and the job."""
    read, _, found = check(text(job))
    return read, found


@pytest.mark.parametrize("case", CHANGED)
def test_a_list_of_one_is_told_all_that_a_plain_table_is(case):
    _, before = told(CHANGED[case])
    job, after = told(one_of_each(CHANGED[case]))
    counted = [Counter((plain(job, f.name), f.verdict) for f in found) for found in (before, after)]
    assert counted[0] == counted[1]
    for finding in after:
        if plain(job, finding.name) != finding.name:
            assert re.search(r"\((front|breather|top)\)", finding.says), finding


def test_each_of_several_is_told_what_one_is():
    """Three rings with mandrels, two studs, two plugs: the same names as the plain job's, once for each entry."""
    _, before = told(WORKED)
    names = Counter(f.name for f in before)
    listed = rings(
        plugs(studs(WORKED, front={"holes": [1, 2]}, rear={"holes": [3, 4]}), "breather", "drain"),
        ["top", "second", "low"], top={}, second={}, low={},
    )  # fmt: skip
    job, after = told(listed)
    found = Counter(f.name for f in after)
    mine = {}
    for name, count in names.items():
        reals = {real for kind in SIZES for one in job.instances(kind) if one.name and (real := one.real(name)) != name}
        mine[name] = reals & set(found) if name not in found else {name}
        assert mine[name], f"{name} is judged of none"
        for real in mine[name]:
            assert found[real] >= count, real
    for name in ("stud.held_by", "joint.separation_factor", "joint.tap_end_strip_force", "turning.sections"):
        assert mine[name] == {f"{name.partition('.')[0]}.{k}.{name.partition('.')[2]}" for k in ("front", "rear")}
    assert mine["plug.bond_reserve"] == {"plug.breather.bond_reserve", "plug.drain.bond_reserve"}
    assert len(mine["ring.closed_gap"]) == len(mine["mandrel.material"]) == 3
    assert set(found) - set().union(*mine.values()) == {"joint.opens_first"}
    for shared in ("job.head.hole_diameter", "job.engine.hot.barrel"):  # of the whole job, held against each
        assert sorted(re.findall(r"\((\w+)\):", "".join(f.says for f in after if f.name == shared))) == (
            ["front", "rear"] if "head" in shared else ["breather", "drain"]
        )


ONCE = (
    "joint.run_up", "joint.crankcase", "head.located_by", "gasket.joint_face", "deck.order", "compression.chambers",
    "ring.bore_mean", "ring.bore_taper", "ring.bore_ovality", "deck.thinnest", "gasket.seating_stress", "drop.room",
)  # fmt: skip


def test_what_is_about_the_whole_job_is_told_once():
    job = several({**WORKED, "engine": {**WORKED["engine"], **READINGS}})
    job["head"] = {k: v for k, v in job["head"].items() if k != "chamber_volume"}
    found = Counter(f.name for f in told(job)[1])
    assert {name: found[name] for name in ONCE} == dict.fromkeys(ONCE, 1)


def test_every_rule_holds_of_each():
    """A rule whose limit is of an entry, on a size of the whole job, has its kind: else it would be skipped without a word."""
    job = load(text(several(WORKED)))
    book = size(job)
    for rule in RULES:
        for bound in (rule.caution, rule.stop):
            of = getattr(bound, "size", None)
            for name in judged_by(tuple(book), tuple(job.named()))[rule.size] if of else ():
                views = (
                    [book.at(one) for one in job.instances(rule.kind)] if rule.kind else [scene_of(book, job, name)[0]]
                )
                for view in views:
                    assert of in view or of in view.left_out, (name, of)


def test_a_size_is_held_against_its_own_limit():
    """The wall at hole 3 against the thread of hole 3, not of hole 1."""
    job = studs(WORKED, front={"holes": [1, 2]}, rear={"holes": [3, 4], "tap_end": "M12x1.75"})
    _, book, found = check(text(job))
    limits = {f.name: f.limit for f in found}
    for hole, kind in ((1, "front"), (3, "rear")):
        assert limits[f"deck.hole.{hole}.to_bore"] == pytest.approx(book[f"deck.{kind}.tapped_major"].value / 2)
    assert limits["deck.hole.1.to_bore"] < limits["deck.hole.3.to_bore"]


def test_the_weakest_stud_is_named_with_its_hole():
    weak = studs(WORKED, front={"holes": [1, 2, 4]}, rear={"holes": [3], "preload_share": 0.1})
    _, book, found = check(text(weak))
    (first,) = [f for f in found if f.name == "joint.opens_first"]
    factors = {k: book[f"joint.{k}.separation_factor"].value for k in ("front", "rear")}
    assert first.value == min(factors.values()) == factors["rear"]
    assert "hole 3, on a rear stud" in first.says
    assert first.verdict == next(f.verdict for f in found if f.name == "joint.rear.separation_factor") == "caution"
    line = {"points": [["-30 mm", "31 mm"], ["2 mm", "40 mm"], ["34 mm", "49 mm"]]}
    tips = studs({**WORKED, "head": {**WORKED["head"], "holes": line}}, front={"holes": [1, 2, 3]})
    tips["barrel"] = {**WORKED["barrel"], "outline": {"circle": "160 mm"}}
    told = {f.name: f for f in check(text(tips))[2]}
    assert told["joint.bore_inside"].verdict == "stop"
    assert "the head tilts open" in told["joint.bore_inside"].says
    assert "joint.opens_first" not in told


SHARED = {
    "same": (
        {},
        "ok",
        "Set on the mandrel of top, the ring other gets a free gap of 8.580 mm where 8.580 mm is wanted",
    ),
    "nearly": (
        {"free_gap": "8.4 mm"},
        "ok",
        "where 8.400 mm is wanted, its least pressure over any 10 degrees is 1.02",
    ),
    "another opening": ({"free_gap": "7.6 mm"}, "caution", 'give it its own, [[mandrel]] with ring = "other"'),
    "thicker": ({"radial_thickness": "2.5 mm"}, "caution", "and leaves the wall bare: give it its own"),
    "taller than the seat": ({"axial_width": "9 mm"}, "caution", "No mandrel of the list takes the ring other"),
}


@pytest.mark.parametrize("case", SHARED)
def test_a_ring_without_a_mandrel_is_told_which_serves_it(case):
    change, verdict, says = SHARED[case]
    _, found = told(rings(WORKED, ["top"], top={}, other=change))
    (finding,) = [f for f in found if f.name == "ring.other.mandrel"]
    assert finding.verdict == verdict
    assert says in finding.says
    assert not any(f.name == "ring.top.mandrel" for f in found)


def test_the_better_of_two_mandrels_serves():
    listed = rings(WORKED, ["top", "low"], top={"free_gap": "9 mm"}, low={}, other={"free_gap": "8.5 mm"})
    assert "Set on the mandrel of low" in next(f.says for f in told(listed)[1] if f.name == "ring.other.mandrel")


@pytest.mark.parametrize("order", [("same", "near"), ("near", "same")])
def test_of_two_mandrels_that_serve_the_one_with_more_pressure_is_named(order):
    own = {"same": {}, "near": {"free_gap": "8.5 mm"}}
    listed = rings(WORKED, list(order), **{name: own[name] for name in order}, other={})
    (finding,) = [f for f in told(listed)[1] if f.name == "ring.other.mandrel"]
    assert "Set on the mandrel of same" in finding.says
    assert finding.verdict == "ok"


def test_a_form_that_fails_its_own_ring_is_told_so():
    listed = rings(WORKED, ["top"], top={}, other={})
    listed["mandrel"][0]["form"] = "round"
    (finding,) = [f for f in told(listed)[1] if f.name == "ring.other.mandrel"]
    assert finding.verdict == "caution"
    assert finding.says.endswith("of the contoured form: that of top leaves its own ring too little pressure as well")


def test_without_any_mandrel_none_is_missed():
    assert not any(f.name.endswith(".mandrel") for f in told(rings(WORKED, top={}, other={}))[1])


# what was measured ----------------------------------------------------------------------------------------------------

LISTED = one_of_each(WORKED)


def of_made(job, name, value):
    """What is told of one measured size."""
    read = load(f'{text(job)}\n[made]\n"{name}" = {value}\n')
    book = size(read, contact=False)
    return [f for f in judge(book, read) if f.name.startswith("made.")]


def measured():
    """Every size of the worked job that sheets print with limits, a little off."""
    book = size(load(text(WORKED)), contact=False)
    names = [n for n, e in book.items() if not isinstance(e.value, list) and e.unit in ("mm", "N m", "deg")]
    whole = {n.removesuffix(end): n for n in names for end in LIMIT if n.endswith(end)}
    for name, of in {**{n: n for n in names if not n.endswith(LIMIT)}, **whole}.items():
        yield name, f'"{1.03 * book[of].value:.5f} {book[of].unit}"'


def without_names(says):
    names = r"\.(front|breather|top)\b|(?<=old_holes)\.0| \((front|breather|top|0)\)|(?<=rings) top"
    return re.sub(names, "", says)


@pytest.mark.parametrize(
    "start", ["stud.", "job.", "plug.", "ring.", "mandrel.", "insert.", "deck.hole.1.", "joint.", "gasket."]
)
def test_a_measured_size_of_an_entry_is_told_what_the_plain_one_is(start):
    job = load(text(LISTED))
    names = [(n, v) for n, v in measured() if n.startswith(start)][:: 1 if start in ("stud.", "plug.", "job.") else 3]
    for name, value in names:
        real = next((real for one in job.named() if (real := one.real(name)) != name), name)
        try:
            before = of_made(WORKED, name, value)
        except JobError:
            with pytest.raises(JobError):
                of_made(LISTED, real, value)
            continue
        after = of_made(LISTED, real, value)
        assert [f.verdict for f in after] == [f.verdict for f in before], name
        assert [plain(job, f.name) for f in after] == [f.name for f in before]
        if not start.startswith("deck.hole"):  # a hole off its place: shares by springs and by sectors differ
            assert [without_names(f.says) for f in after] == [f.says for f in before], name


def test_what_one_stud_came_out_at_leaves_the_other_alone():
    two = studs(WORKED, front={"holes": [1, 2]}, rear={"holes": [3, 4]})
    made = '\n[made]\n"stud.front.nut_end_over_wires" = "8.00 mm"\n"job.stud.rear.shank" = "6.0 mm"\n'
    job, book, found = check(text(two) + made)
    assert book["stud.front.nut_end_over_wires_max"].status == "made"
    assert book["stud.rear.nut_end_over_wires_max"].status == "computed"
    assert book["job.stud.rear.shank"].value == 6.0
    assert book["job.stud.front.shank"].value == 6.2
    assert book["stud.front.stress_area"].value < book["stud.rear.stress_area"].value
    told_of = {f.name for f in found if f.name.startswith("made.")}
    assert told_of == {"made.stud.front.nut_end_over_wires", "made.job.stud.rear.shank"}
    assert job.instances("stud")[1].tables["stud"].shank == 6.2  # as planned


def test_a_hole_off_its_place_is_opened_for_its_own_stud():
    two = studs(WORKED, front={"holes": [1, 2]}, rear={"holes": [3, 4], "nut_end": "M6"})
    _, book, found = check(text(two) + '\n[made]\n"deck.hole.3.x" = "-31.9 mm"\n')
    opened = [n for n in book if n.endswith(".open_to")]
    assert opened == ["drop.hole.3.open_to"]
    assert book[opened[0]].inputs["stud"] == "stud.rear.nut_end_nominal"
    assert any(f.name == "drop.hole.3.open_to" for f in found)


def test_what_touches_several_names_each():
    listed = several(WORKED)
    (skim,) = [f for f in of_made(listed, "job.barrel.skim", '"0.9 mm"') if f.name == "made.job.barrel.skim"]
    assert "squish" in skim.says
    (bore,) = of_made(listed, "job.engine.bore", '"57.30 mm"')
    for name in ("top", "second", "third"):
        assert f"turn the rings {name} to it" in bore.says
    (passage,) = of_made(listed, "job.barrel.passages.1.diameter", '"8.62 mm"')
    assert "turn the plug to the hole as it is" in passage.says


def test_a_finding_is_about_the_part_that_bears_its_name():
    job, _, found = check(text(several(WORKED)))
    for piece in pieces(job):
        about = [f for f in found if piece.about(f.name)]
        if piece.instance is not None and piece.instance.kind != "old":
            assert all(f".{piece.instance.name}." in f.name for f in about), piece.stem
    assert old_holes(WORKED, {})["barrel"]["old_holes"][0]["fill"]


def test_what_was_made_of_all_studs_together_is_told_beside_that_of_one():
    """A size of the whole joint stands in no stud's own book, and does not make its reading fail."""
    made = '\n[made]\n"joint.mean_stiffness_share" = 0.2\n"hot.front.run_in.proof_use" = 0.9\n'
    job = load(toml_text(several(worked())) + made)
    names = {f.name for f in judge(size(job, contact=False), job)}
    assert {"made.joint.mean_stiffness_share", "made.hot.front.run_in.proof_use"} <= names
