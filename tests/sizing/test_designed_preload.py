"""The preload that is designed: against a printed example, and against the verdicts themselves, share by share."""

import re

import pytest

from parts.checked import judged
from parts.job import load
from parts.relations import preload_window as relation
from tests.listed import studs, text, worked

SHARE = r"^preload_share.*\n"
WASHER = ('washer = "ISO 7089 300 HV"', 'washer = { name = "turned 300 HV", thickness = "3 mm", outside = "20 mm" }')
INSIDE = ('outside = "20 mm" }', 'outside = "20 mm", inside = "8.4 mm" }')
MILD = (
    ('peak_pressure = "38 bar"', 'peak_pressure = "20 bar"'),
    ('stud = "115 degC"', 'stud = "150 degC"'),
    ('head = "180 degC"', 'head = "150 degC"'),
    ('joint_face = "66 mm"', 'joint_face = "62 mm"'),
)
LIMITS = re.compile(
    r"joint\.(separation_factor|load_factor|preload_share|tightening_use|proof_use|lowest_preload|bending_stress|face_lift|washer_pressure|nut_pressure)"
    r"|joint\.(nut_proof_load|tap_end_strip_force|nut_end_strip_force)|strip\.sound_force"
    r"|gasket\.(seating_stress|least_seating_stress|working_stress|greatest_stress)"
)
FINE, COARSE = 0.001, 0.02
SOFT = (
    'material = { name = "a soft sheet", modulus = "100 GPa", expansion = "17 um/m/K", tensile_strength = "220 MPa" }'
)
MIDWAY = {
    "the stud's heat over the gasket": (WASHER, INSIDE, *MILD),
    "the thin washer over the gasket": MILD,
    "the stud's heat over settling": (WASHER, INSIDE, *MILD, ('material = "copper, annealed"', SOFT)),
}
CROSSED = {  # and whether the joint then opens before the stud is overloaded
    "a wider face": ((WASHER, INSIDE, *MILD[:3]), "caution"),
    "a stud of mild steel": ((WASHER, INSIDE, *MILD, ('"42CrMo4 +QT"', '"C45 +QT"')), "stop"),
}


def changed(demo, changes, share=None):
    out = demo
    for old, new in changes:
        assert old in out, old
        out = out.replace(old, new)
    return re.sub(SHARE, "" if share is None else f"preload_share = {share:.6f}\n", out, flags=re.MULTILINE)


def sized(demo, changes, share=None):
    return judged(load(changed(demo, changes, share)), contact=False)


def verdicts(done):
    return {f.name: f.verdict for f in done.findings if LIMITS.fullmatch(f.name)}


def ends(demo, changes, fine):
    """Lowest and highest share at which none of the limits' findings is worse than the best it can be."""
    coarse = {n * COARSE: verdicts(sized(demo, changes, n * COARSE)) for n in range(3, 50)}
    names = next(iter(coarse.values()))
    rank = {"ok": 0, "caution": 1, "stop": 2}
    best = {name: min(rank[found[name]] for found in coarse.values()) for name in names}

    def right(share):
        found = verdicts(sized(demo, changes, share))
        return all(rank[found[name]] == best[name] for name in names)

    good = [share for share, found in coarse.items() if all(rank[found[n]] == best[n] for n in names)]
    assert good, "no share of the coarse steps satisfies all"
    low, high = good[0], good[-1]
    while right(low - fine):
        low -= fine
    while right(high + fine):
        high += fine
    return low, high


def test_the_load_factor_of_a_printed_joint_comes_back_as_its_preload():
    """Shigley, 7th edition, problem 8-22: M12 of class 8.8, Sp 600, At 84.3, C 0.2346, P 10.6 kN, Fi 37.9 kN, n 5.1."""
    proof = 600 * 84.3
    share = relation.share_at_load(proof, 1.0, 0.0, 5.08, 0.2346, 10603, 0.0, proof)
    assert share * proof == pytest.approx(37900, rel=0.003)
    assert share == pytest.approx(0.75, abs=0.002)  # Shigley, eq. 8-31: 0.75 for a joint that comes apart again


def test_separation_of_the_printed_joint():
    """Of the same joint: n0 = Fi / (P (1 - C)) = 37.9 / (10.6 x 0.7654) = 4.67, so that share for 4.67 is 0.75."""
    proof = 600 * 84.3
    opening = 10603 * (1 - 0.2346)
    assert relation.share_left(37940 / opening, opening, 0, 0, 0, 0, 0, 0, 0, proof) == pytest.approx(0.75, abs=0.001)


@pytest.mark.parametrize("name", MIDWAY)
def test_it_lies_midway_between_the_shares_at_which_a_verdict_worsens(demo, name):
    done = sized(demo, MIDWAY[name])
    low, high = ends(demo, MIDWAY[name], FINE)
    least, most = (done.book[f"joint.preload_share_{end}"].value for end in ("least", "most"))
    assert least == pytest.approx(low, abs=FINE)
    assert most == pytest.approx(high, abs=FINE)
    assert done.book["job.stud.preload_share"].value == pytest.approx((low + high) / 2, abs=FINE)
    window = next(f for f in done.findings if f.name == "joint.preload_window")
    assert window.verdict == "ok"


@pytest.mark.parametrize("name", CROSSED)
def test_where_two_limits_cross_it_says_which(demo, name):
    changes, verdict = CROSSED[name]
    done = sized(demo, changes)
    book = done.book
    least, most, opens, breaks = (
        book[f"joint.preload_share_{end}"].value for end in ("least", "most", "opens", "breaks")
    )
    assert least > most
    window = next(f for f in done.findings if f.name == "joint.preload_window")
    assert window.verdict == verdict
    assert re.match(r"No preload satisfies both .*gasket.* and .*, at most 0\.\d\d: ", window.says), window.says
    assert ("stop" in verdicts(done).values()) == (opens > breaks) == (verdict == "stop")
    assert book["job.stud.preload_share"].value <= breaks + 1e-9


def test_the_worked_job_asks_for_what_it_can_t_have(demo):
    """Its thin washer bears 107 MPa, hot: the heat alone loads it beyond that."""
    done = sized(demo, ())
    assert "what the head bears under the washer" in done.book["job.stud.preload_share"].source
    assert "stop" not in verdicts(done).values()


def test_each_kind_of_stud_gets_its_own():
    job = studs(worked(), front={"holes": [1, 2, 4]}, rear={"holes": [3], "nut_end": "M10x1.5", "shank": "7.6 mm"})
    for stud in job["stud"]:
        del stud["preload_share"]
    job["head"]["hole_diameter"] = "11 mm"
    done = judged(load(text(job)), contact=False)
    shares = [done.book[f"job.stud.{name}.preload_share"] for name in ("front", "rear")]
    assert {s.status for s in shares} == {"designed"}
    assert shares[0].value != shares[1].value
    found = {f.name for f in done.findings}
    assert {"joint.front.preload_window", "joint.rear.preload_window"} <= found


def test_a_share_that_is_given_stands(demo):
    done = sized(demo, (), 0.4)
    assert done.book["joint.preload_share"].status == "given"
    assert not any(n.startswith("joint.window") or n == "joint.preload_share_least" for n in done.book)
    assert not any(f.name == "joint.preload_window" for f in done.findings)
