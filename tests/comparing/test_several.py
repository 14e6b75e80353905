"""Variants of a job with lists: by the name or the number of an entry, each as a file edited by hand would be."""

from copy import deepcopy

import pytest

from parts.checked import judged
from parts.comparing.compare import vary_job
from parts.comparing.records import shown
from parts.comparing.sweep import numbered, read_varied, with_value
from parts.errors import JobError
from parts.job import load
from tests.listed import several, text, worked

JOB = several(worked())
VARIED = (
    "stud.front.shank=5.8mm,6.6mm", "stud.1.head_thickness=38mm,44mm", "stud.Rear.tap_end=M12x1.5,M10x1.25", "stud.rear.insert.length=2 d,1 d",
    "ring.second.free_gap=8.0mm,7.0mm", "ring.top.radial_thickness=2.5mm", "mandrel.top.form=pin,round", "plug.oil-drain.length=8mm,10mm",
    "plug.0.fit=press", "barrel.old_holes.1.diameter=6mm,11mm", "barrel.old_holes.0.fill=screwed iron plug", "gasket.thickness=1.0mm,1.5mm",
    "head.thickness=44mm", "barrel.deck_depth=26mm", "engine.bore=57.25mm",
)  # fmt: skip


@pytest.mark.parametrize("varied", VARIED)
def test_each_is_as_a_file_edited_by_hand(varied):
    one = read_varied(varied)
    found = vary_job(text(JOB), [one])
    assert found.tried
    for case, value in zip([c for c in found.cases if not c.base], one.values, strict=True):
        data = with_value(deepcopy(JOB), numbered(one.path, JOB), value)
        by_hand = judged(load(text(data)), contact=False)
        sizes = {n: e.value for n, e in by_hand.book.items() if not isinstance(e.value, list)}
        names = {*found.sizes, *case.sizes}
        assert {n: v for n in names if (v := found.size(case, n)) is not None} == sizes
        verdicts = {f.name: f.verdict for f in reversed(by_hand.findings)}
        assert {n: v for n in {*found.found, *case.found} if (v := found.verdict(case, n))} == verdicts
        assert set(case.left_out) == set(by_hand.book.left_out)


def test_what_a_person_watches_is_shown_of_each():
    names = shown(vary_job(text(JOB), [read_varied("stud.rear.preload_share=0.3,0.35")]), [])
    assert names[0] == "joint.rear.preload"
    assert "joint.rear.torque" in names
    assert not any(".front." in name for name in names)
    names = shown(vary_job(text(JOB), [read_varied("gasket.thickness=1.0mm,1.5mm")]), [])
    assert names[:2] == ["stud.front.length", "stud.rear.length"]


@pytest.mark.parametrize(
    ("varied", "says"),
    [
        ("stud.frnt.shank=6mm", "stud.frnt is not in the job file; did you mean front?"),
        ("stud.shank=6mm", "stud.shank stands in a list: say which, stud.front.shank or stud.rear.shank"),
        ("stud.front.shnk=6mm", "stud.front.shnk is not a key of the job file; did you mean shank?"),
        ("stud.7.shank=6mm", "there is no item 7, counted from 0: its list has 2"),
        ("mandrel.second.form=pin", "mandrel.second is not in the job file; known are top"),
    ],
)
def test_what_can_t_be_varied_is_told(varied, says):
    with pytest.raises(JobError) as told:
        vary_job(text(JOB), [read_varied(varied)])
    assert [f.says for f in told.value.faults] == [says]


def test_a_plain_table_has_no_names():
    with pytest.raises(JobError, match=r"stud\.front is not in the job file: it has no \[\[stud\]\]"):
        vary_job(text(worked()), [read_varied("stud.front.shank=6mm")])
