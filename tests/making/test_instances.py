"""Files of a job with lists: each instance has its own, and is made again for what it shows itself."""

from pathlib import Path

import pytest

from parts.checked import checked
from parts.errors import JobError
from parts.job import load
from parts.making.make import make
from parts.making.manifest import read_manifest
from parts.making.plan import plan
from parts.making.standing import Options
from parts.register import PARTS, asked_for
from tests.conftest import JOBS, Text

STEMS = [
    "stepped-stud-front", "stepped-stud-rear", "blanking-plug-breather", "blanking-plug-oil-drain", "ring-blank-top",
    "ring-blank-second", "ring-split-top", "ring-split-second", "head-gasket", "expander-mandrel-top",
    "expander-mandrel-second", "clamp-plate-top", "clamp-plate-second",
]  # fmt: skip
SHEETS = ["deck-template", "ring-pressure-top", "ring-pressure-second"]
DRAWN = ("step", "stl", "3mf", "preview.png", "dxf", "svg", "pdf")


@pytest.fixture(scope="module")
def lists():
    return Text((JOBS / "lists.toml").read_text(encoding="utf-8"))


def test_each_instance_has_files_and_a_name_in_the_manifest_of_its_own(made_of):
    by = {}
    for one in read_manifest(made_of("lists")):
        by.setdefault(one["part"], set()).add(one["path"])
    assert by.keys() == {*STEMS, "ring-pressure-top", "ring-pressure-second", "job"}
    paths = [path for files in by.values() for path in files]
    assert len(paths) == len({path.lower() for path in paths})
    for stem in STEMS:
        ends = DRAWN[:4] if "ring-split" in stem else DRAWN
        wanted = {f"parts/{stem}.{end}" for end in ends}
        if stem == "expander-mandrel-top":  # the contoured one
            wanted |= {f"parts/{stem}-outline.{end}" for end in ("dxf", "csv")}
        assert by[stem] == wanted
    for stem in SHEETS[1:]:
        assert by[stem] == {f"parts/{stem}.svg", f"parts/{stem}.png"}


def test_the_step_files_are_called_for_their_instance(made_of):
    text = (made_of("lists") / "parts" / "stepped-stud-rear.step").read_text(encoding="ascii")
    assert "stepped stud, rear, Chaff cutter engine" in text


CHANGES = {  # what is changed; the parts and sheets that show it, besides the page
    "a rear stud's nut end": (('nut_end = "M10x1.5"', 'nut_end = "M10x1.5"\nnut_end_length = "27 mm"'), {"stepped-stud-rear", "assembly", "head-gasket"}),  # all studs press it
    "one plug's gap": (('bond_clearance = "0.04 mm"\nlength', 'bond_clearance = "0.05 mm"\nlength'), {"blanking-plug-oil-drain", "assembly"}),
    "one ring's gap": (
        ('closed_gap = "0.25 mm"', 'closed_gap = "0.26 mm"'),
        {f"{stem}-second" for stem, part in PARTS.items() if part.table in {"ring", "mandrel", "clamp_plate"}} | {"ring-pressure-second", "assembly"},
    ),
    "one mandrel's rings": (("rings = 2", "rings = 1"), {f"{s}-second" for s in ("expander-mandrel", "ring-pressure", "clamp-plate")}),
    "one size of old holes": (('diameter = "11.0 mm"\ndepth', 'diameter = "11.2 mm"\ndepth'), {"head-gasket", "deck-template", "assembly"}),
}  # fmt: skip


@pytest.mark.parametrize("name", CHANGES)
def test_a_change_to_one_instance_asks_for_just_what_shows_it(name, lists):
    """By the hashes: of the job as it was, and as it is."""
    change, wanted = CHANGES[name]
    before, after = (planned(text) for text in (lists, lists.swap(*change)))
    assert {stem for stem in after if before[stem] != after[stem]} == {*wanted, "page"}


def planned(text):
    done = checked(text)
    return plan(done, asked_for(done.job), Options(), Path("nowhere")).hashes


def test_only_takes_one_instance_or_all_of_a_part(lists):
    job = load(lists)
    assert [p.stem for p in asked_for(job)] == STEMS
    assert [p.stem for p in asked_for(job, ["stepped-stud-rear"])] == ["stepped-stud-rear"]
    assert [p.stem for p in asked_for(job, ["stepped-stud", "ring-split-top"])] == [*STEMS[:2], "ring-split-top"]
    with pytest.raises(JobError, match=r"'stepped-stud-middle' is no part; the parts are .*stepped-stud-front"):
        asked_for(job, ["stepped-stud-middle"])


def test_one_instance_made_alone_then_the_other(lists, tmp_path):
    few = lists.without("stud", "gasket", "ring", "mandrel", "clamp_plate")
    make(few, tmp_path / "o", ["blanking-plug-oil-drain"])
    assert parts_of(tmp_path / "o") == {"job", "blanking-plug-oil-drain"}
    first = {one["path"]: one for one in read_manifest(tmp_path / "o")}
    done = make(few, tmp_path / "o", ["blanking-plug-breather"])
    assert parts_of(tmp_path / "o") == {"job", *STEMS[2:4]}
    kept = {one["path"] for one in read_manifest(tmp_path / "o") if first.get(one["path"]) == one}
    assert {path for path in first if "oil-drain" in path} <= kept
    assert done.kept >= len(DRAWN)


def parts_of(folder):
    return {one["part"] for one in read_manifest(folder)}


def test_one_instance_is_made_to_its_size_as_made(lists):
    text = lists + '\n[made]\n"stud.rear.shank_diameter" = "7.9 mm"\n'
    done = checked(text, ["stepped-stud-rear"])
    assert done.made.shapes.keys() == {"stepped-stud-rear"}
    radii = {r for _, r in done.of("stepped-stud-rear").shapes["stepped-stud-rear"].waist}
    assert radii == {7.9 / 2}
    assert {r for _, r in done.of("stepped-stud-front").shapes["stepped-stud-front"].waist} == {6.2 / 2}


def test_a_ring_called_for_the_file_of_another_s_outline_is_refused(lists):
    """`expander-mandrel-top-outline.dxf` is the outline for the top ring: a ring "top outline" would draw over it."""
    text = lists.swap('name = "second"', 'name = "Top outline"', 'ring = "second"', 'ring = "Top outline"')
    with pytest.raises(JobError) as told:
        load(text)
    assert [fault.key for fault in told.value.faults] == ["ring.1.name"]
