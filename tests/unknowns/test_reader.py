"""What is unknown in a job file: taken out in any spelling and at any depth, with a range where it has one."""

import pytest

from parts.errors import JobError
from parts.job import load, load_data
from parts.job.examples import demo_text
from parts.job.schema import job_schema
from parts.sizing import size
from tests.unknowns.jobs import ROUND_TWO, unknown

LISTS = """
[engine]
bore = "57.2 mm"

[head]
thickness = "46 mm"
holes = { circle = "80 mm", count = 4 }

[[stud]]
name = "Front"
holes = [1, 2]
tap_end = "M10"
nut_end = "M8"
friction = "unknown"

[[stud]]
name = "rear"
holes = [3, 4]
tap_end = "M10"
nut_end = "M8"
friction = 0.12
material = { name = "my own steel", family = "steel", modulus = "unknown", expansion = "11 um/m/K" }
"""


def ranges(job):
    return {job.in_the_book(path): known for path, known in job.unknown.items()}


@pytest.mark.parametrize("word", ["unknown", "Unknown ", " UNKNOWN"])
def test_a_value_is_taken_for_it_and_said_to_be_assumed(word):
    job = load(demo_text().replace('"38 bar"', f'"{word}"'))
    known, entry = ranges(job)["engine.peak_pressure"], size(job, contact=False)["job.engine.peak_pressure"]
    assert known.low < known.taken < known.high
    assert (entry.value, entry.status, entry.source) == (known.taken, "assumed", known.source)


def test_words_that_only_hold_it_are_words():
    job = load('[job]\ntitle = "an unknown engine"\n[engine]\nbore = "57.2 mm"')
    assert (job.job.title, job.unknown, job.absent) == ("an unknown engine", {}, {})


def test_a_whole_table_is_all_its_keys():
    job = load('[engine]\nbore = "57.2 mm"\nhot = "unknown"')
    assert [*ranges(job)] == [f"engine.hot.{part}" for part in ("stud", "head", "barrel", "ring", "bore_wall")]
    assert load('[engine]\nbore = "57.2 mm"').engine.hot is None


def test_in_a_list_and_an_inline_table_it_is_named_as_the_book_does():
    job = load(LISTS)
    named = ranges(job)
    assert named["stud.front.friction"].taken == 0.14
    assert "stud.rear.friction" not in named
    assert {"stud.rear.material.modulus", "stud.rear.material.tensile_strength"} <= named.keys()
    assert "stud.rear.material.expansion" not in named
    assert size(job, contact=False)["stud.rear.modulus"].status == "assumed"


def test_a_default_with_a_usual_range_is_as_unknown_and_keeps_its_value():
    job = load(demo_text().replace("friction = 0.14\n", "").replace(", set_fraction = 0.95", ""))
    assert {key: known.taken for key, known in ranges(job).items()} == {
        "stud.friction": 0.14,
        "ring.heat_set.set_fraction": 0.95,
    }
    assert not load(demo_text()).unknown


def test_a_choice_has_no_range():
    job = load(unknown(demo_text(), "preload_share"))
    assert not job.unknown
    assert job.absent == {"stud.preload_share": "share of the proof load of the weakest section"}
    assert job.stud.preload_share is None


def test_without_a_range_it_is_as_absent_and_how_to_measure_it_is_told():
    job = load(unknown(demo_text(), "thickness").replace('thickness = "unknown"\nold', 'thickness = "1.2 mm"\nold'))
    assert job.head.thickness is None
    assert job.absent == {"head.thickness": "through the head at the stud bosses"}


@pytest.mark.parametrize(
    ("text", "key", "line", "says"),
    [
        ('[engine]\nbore = "unknown"', "engine.bore", 2, "can't be unknown"),
        ('[job]\ntitle = "Unknown"\n[engine]\nbore = "50 mm"', "job.title", 2, "any words"),
        (LISTS.replace('"rear"', '"unknown"'), "stud.1.name", 17, "any words"),
        (demo_text().replace('passage = "breather"', 'passage = "unknown"'), "plug.passage", None, "one of 'breather'"),
        (
            '[barrel]\nmaterial = "EN-GJL-250"\n[[barrel.passages]]\nname = "a"\ndiameter = "6 mm"\nat = ["1 mm", "unknown"]',
            "barrel.passages.0.at",
            6,
            "can't be unknown",
        ),
        ('[engine]\nbore = "50 mm"\nbohr = "unknown"', "engine.bohr", 3, "is not a key here"),
        ('engin = "unknown"\n[engine]\nbore = "50 mm"', "engin", 1, "is not a table"),
        ('[stud]\ntap_end = "unknown"\nnut_end = "M8"', "stud.tap_end", 2, "can't be unknown"),
    ],
)
def test_what_can_not_be_unknown_is_refused_with_what_is_possible(text, key, line, says):
    with pytest.raises(JobError) as refused:
        load(text)
    fault = next(f for f in refused.value.faults if f.key == key)
    assert says in fault.says
    assert line is None or fault.line == line


def test_a_metal_that_is_not_known_is_as_if_not_given_and_a_magnet_tells_it():
    job = load('[barrel]\nmaterial = "unknown"\noutline = { circle = "112 mm" }')
    assert job.barrel.material is None
    assert "magnet" in job.absent["barrel.material"]


def test_a_range_goes_by_the_kind_of_engine():
    two, four = (
        ranges(load(f'[engine]\ncycle = "{c}"\nbore = "50 mm"\npeak_pressure = "unknown"'))["engine.peak_pressure"]
        for c in ("two-stroke", "four-stroke")
    )
    either = ranges(load('[engine]\nbore = "50 mm"\npeak_pressure = "unknown"'))["engine.peak_pressure"]
    assert (either.low, either.high) == (min(two.low, four.low), max(two.high, four.high))
    assert two.high < four.high


def test_the_barrel_s_metal_counts():
    iron, light = (
        ranges(load(f'[engine]\nbore = "50 mm"\nhot = "unknown"\n[barrel]\nmaterial = "{m}"'))["engine.hot.barrel"]
        for m in ("EN-GJL-250", "AlSi7Mg0.3 T6")
    )
    assert light.high < iron.high


def test_a_family_s_range_holds_its_own_materials():
    """A material given by its family alone; one of the table has its own figures."""
    job = load(ROUND_TWO)
    keys = {key.rpartition(".")[2] for key in ranges(job) if key.startswith("barrel.material")}
    assert keys == {"modulus", "poisson", "expansion", "yield_strength", "tensile_strength", "bearing"}
    assert not any(key.startswith("stud.material") for key in ranges(job))
    assert ranges(job)["head.material.yield_strength"].low == ranges(job)["barrel.material.yield_strength"].low


def test_data_that_was_read_is_read_again_alike():
    job = load(ROUND_TWO)
    again = load_data(job.data)
    assert again.whole() == job.whole()
    assert again.unknown == job.unknown


def test_what_was_made_and_is_unknown_was_not_measured():
    job = load(demo_text() + '\n[made]\n"ring.closed_gap" = "unknown"\n"plug.diameter" = "8.45 mm"\n')
    assert job.made.values == {"plug.diameter": "8.45 mm"}


def test_editors_take_a_key_that_is_not_known():
    keys = job_schema()["$defs"]
    for table, key in (
        ("Stud", "friction"),
        ("Engine", "cycle"),
        ("Ring", "count"),
        ("Engine", "hot"),
        ("Gasket", "outline"),
    ):
        assert {"const": "unknown"} in keys[table]["properties"][key]["anyOf"], key
    assert keys["Engine"]["properties"]["bore"]["type"] == "string"  # any text, this one too
    assert keys["Stud"]["properties"]["friction"]["description"] == "friction in thread and under the nut"
