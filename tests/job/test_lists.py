"""More than one of a kind: what a list may hold, how its entries are named, and where each of their values stands."""

import tomllib
from itertools import chain

import pytest

from parts.book import Book
from parts.checked import check
from parts.errors import JobError
from parts.job import TABLES, load
from parts.job.instances import LISTS, OWN, SIZES, TAKEN, _keys, folded
from parts.job.schema import job_schema, template
from parts.sizing import size
from tests.conftest import JOBS
from tests.listed import old_holes, plugs, rings, several, studs, text, worked

MEASURED_OLD = """
[measured.old]
form = "circle"
count = 3
readings = [{ centres = [1, 2], reads = "60 mm" }, { centres = [2, 3], reads = "60 mm" }, { centres = [1, 3], reads = "60 mm" }]
"""
MEASURED_NEW = MEASURED_OLD.replace("old", "new")
MACHINE = """
[measured.machine]
readings = [{ hole = "old %s", at = ["0 mm", "0 mm"] }, { hole = "new 1", at = ["30 mm", "74 mm"] }]
"""


def faults(job, more=""):
    """What is told of a job: key, what stands on the line, sentence."""
    written = text(job) + more
    with pytest.raises(JobError) as told:
        check(written)
    lines = written.split("\n")
    return [(f.key, lines[f.line - 1] if f.line else "", f.says) for f in told.value.faults]


def two(**rear):
    return studs(worked(), front={"holes": [1, 2]}, rear={"holes": [3, 4], **rear})


def without(job, table, *keys):
    return {**job, table: [{k: v for k, v in one.items() if k not in keys} for one in job[table]]}


NAMED = "name = {!r}".format
WORKED = worked()
WRONG = {
    "hole without a stud": (
        studs(WORKED, front={"holes": [1, 2]}, rear={"holes": [4]}),
        [("stud", "leaves hole 3 without a stud: name each hole of the head's pattern in one of the lists")],
    ),
    "hole with two, hole beyond, all at once": (
        studs(WORKED, front={"holes": [1, 2, 7]}, rear={"holes": [2]}),
        [
            ("stud", "leaves holes 3, 4 without a stud: name each hole of the head's pattern in one of the lists"),
            ("stud.0.holes.2", "must be a hole of the head's pattern, 1 to 4, not 7"),
            ("stud.1.holes.0", "gives hole 2 a second stud: it has that of 'front'"),
        ],
    ),
    "hole twice in one": (
        studs(WORKED, front={"holes": [1, 2, 2, 3, 4]}),
        [("stud.0.holes.2", "gives hole 2 a second stud: it has that of 'front'")],
    ),
    "hole zero, no holes": (
        studs(WORKED, front={"holes": [0, 1, 2, 3, 4]}, rear={"holes": []}),
        [("stud.0.holes.0", "must be at least 1, not 0"), ("stud.1.holes", "wants at least 1 entries, not 0")],
    ),
    "no name, no holes": (
        without(two(), "stud", "name", "holes"),
        [
            (f"stud.{n}.{key}", f"is missing: {says}")
            for n in (0, 1)
            for key, says in (
                ("name", 'what it is called, like "front"'),
                ("holes", "holes of the head's pattern that it stands in, by their numbers, like [1, 2]"),
            )
        ],
    ),
    "names that fold to one": (
        two(name="FRONT"),
        [("stud.1.name", "is used twice: 'FRONT' is written 'front' in sizes and files")],
    ),
    "a value of one": (two(shank="99"), [("stud.1.shank", "has no unit: write it like \"57.20 mm\", not '99'")]),
    "a size that can't be": (
        two(nut_end_length="90 mm"),
        [("stud.1.nut_end_length", "leaves no shank: the nut end of 90 mm reaches down to the tap end")],
    ),
    "a thickness where there is one stud": (
        {**WORKED, "stud": {**WORKED["stud"], "head_thickness": "40 mm"}},
        [("stud.head_thickness", "is not a key here; known are tap_end, ...")],
    ),
    "plug without a passage": (
        {**WORKED, "plug": [{"hole": "8 mm", "length": "9 mm", "fit": "bonded"}]},
        [("plug.0.passage", 'is missing: plugs in a list are named by their passages, like "breather"')],
    ),
    "two plugs for a passage": (
        plugs(WORKED, "breather", "breather"),
        [("plug.1.passage", "is used twice: 'breather' is written 'breather' in sizes and files")],
    ),
    "no such passage": (
        {**WORKED, "plug": [WORKED["plug"], {**WORKED["plug"], "passage": "drain"}]},
        [("plug.1.passage", "no passage is called 'drain'; the barrel has 'breather'")],
    ),
    "a plug too long for its passage": (
        without(plugs(WORKED, "breather", "drain", length="40 mm"), "plug", ""),
        [(f"plug.{n}.length", "must not be more than the passage's depth of 18 mm, not '40 mm'") for n in (0, 1)],
    ),
    "ring without its groove": (
        without(rings(WORKED, ["top"], top={}), "ring", "groove"),
        [("ring.0.groove", "is missing: rings in a list are told apart by their grooves")],
    ),
    "mandrel for no ring, and one too many": (
        rings(WORKED, ["low", "top", "Top"], top={}),
        [
            ("mandrel.0.ring", "is for no ring: 'low'; the rings are 'top'"),
            ("mandrel.2.ring", "is the second mandrel for the ring 'Top'"),
        ],
    ),
    "mandrels beside one ring": (
        {**WORKED, "mandrel": [{**WORKED["mandrel"], "ring": "top"}]},
        [("mandrel", "is a list, and [ring] is not: give [[ring]] with names, or one [mandrel]")],
    ),
    "one mandrel beside rings": (
        {**rings(WORKED, top={}), "mandrel": WORKED["mandrel"]},
        [("mandrel", 'wants [[mandrel]] with ring = "NAME" beside [[ring]]: which ring is it for?')],
    ),
    "a fault in a ring takes its mandrel with it": (
        rings(WORKED, ["top"], top={"closed_gap": "5"}),
        [("ring.0.closed_gap", "has no unit: write it like \"57.20 mm\", not '5'")],
    ),
    "a thick ring": (
        rings(WORKED, ["top"], top={}, low={"radial_thickness": "9 mm"}),
        [("ring.1.radial_thickness", "must lie between bore/60 and bore/10, 0.95 and 5.72 mm, not '9 mm'")],
    ),
    "no stud in the list": ({**WORKED, "stud": []}, [("stud", "wants a table of keys, not []")]),
    "no studs": ({**WORKED, "stud": ["M8"]}, [("stud", "wants a table of keys, not ['M8']")]),
    "a list of gaskets": ({**WORKED, "gasket": [{}]}, [("gasket", "wants a table of keys, not [{}]")]),
    "no old holes": (old_holes(WORKED), [("barrel.old_holes", "wants at least 1 entries, not 0")]),
    "old holes nowhere": (
        old_holes(WORKED, {"pattern": None}, {}),
        [("barrel.old_holes.0.pattern", "is missing: where the old holes are, ...")],
    ),
}  # fmt: skip
del WRONG["old holes nowhere"][0]["barrel"]["old_holes"][0]["pattern"]


@pytest.mark.parametrize("case", WRONG)
def test_what_is_wrong_is_told_all_at_once_at_its_place(case):
    job, told = WRONG[case]
    found = [(key, says) for key, _, says in faults(job)]
    assert sorted(key for key, _ in found) == sorted(key for key, _ in told)
    for key, says in told:
        begins, open_end, _ = says.partition("...")
        assert any(k == key and (s.startswith(begins) if open_end else s == says) for k, s in found), found


def test_a_fault_is_on_the_line_of_its_entry():
    found = faults(studs(WORKED, front={"holes": [1, 2]}, rear={"holes": [3, 3]}))
    assert [(key, line) for key, line, _ in found if key != "stud"] == [("stud.1.holes.1", "holes = [3, 3]")]
    found = faults(two(insert={"length": "1.5 d", "tap": "long"}))
    assert [(key, line) for key, line, _ in found] == [("stud.1.insert.tap", 'tap = "long"')]
    found = faults(plugs(WORKED, "breather", "Breather"))
    assert [(key, line) for key, line, _ in found] == [("plug.1.passage", 'passage = "Breather"')]


@pytest.mark.parametrize("name", ["length", "Shank", "nut", "torque", "hole", "washer", "on", "stud", "insert"])
def test_no_stud_is_called_as_a_size_is(name):
    ((key, line, says),) = faults(two(name=name))
    assert (key, line) == ("stud.1.name", f'name = "{name}"')
    assert says == f"can't be {name!r}: a size or a key is called so"


@pytest.mark.parametrize("name", ["12", "--", "ä" * 41, "Жук"])
def test_a_name_has_a_letter_and_is_not_too_long(name):
    ((key, _, says),) = faults(two(name=name))
    assert key == "stud.1.name"
    assert says.startswith("wants a name with a letter in it, of at most 40 letters, digits and hyphens, not")


def test_names_are_written_small_with_hyphens():
    assert [folded(n) for n in ("Oil drain", "Größe 2", " A--b_c ", "ÉCHAPPEMENT", "2nd")] == [
        "oil-drain", "grosse-2", "a-b-c", "echappement", "2nd",
    ]  # fmt: skip
    book = check(text(two(name="Hinten Links")))[1]
    assert "stud.hinten-links.length" in book


def test_every_one_word_part_of_a_size_is_kept_from_names():
    """Else an entry of that name would be taken for the size, and two studs share it."""
    begins = {*chain(*SIZES.values())}
    jobs = [text(WORKED), *(file.read_text(encoding="utf-8") for file in sorted(JOBS.glob("*.toml")))]
    jobs += [text({**WORKED, "mandrel": {**WORKED["mandrel"], "form": form}}) for form in ("pin", "round")]
    jobs += [
        text({**WORKED, "plug": {**WORKED["plug"], "fit": "press"}, "fixtures": {"make": ["all"]}}),
        text(several(WORKED)),
    ]
    seen = set()
    for written in jobs:
        job, book, found = check(written)
        names = {*book, *book.left_out, *(f.name for f in found)}
        names = {n for n in names if all(one.local(n) == n for one in job.named())}
        split = [n.split(".") for n in names]
        seen |= {steps[1] for steps in split if steps[0] in begins and len(steps) > 1}
        seen |= {steps[1] for steps in split if ".".join([steps[0], *steps[2:]]) in OWN["stud"]}
    words = {word for word in seen if "_" not in word and not word.isdecimal()}
    assert len(words) > 30
    assert words <= TAKEN | _keys()


def test_a_name_that_slipped_through_is_still_no_size(monkeypatch):
    monkeypatch.setattr("parts.job.instances.TAKEN", frozenset())
    job = load(text(two(name="boss")))
    with pytest.raises(JobError, match=r"has a name that can't be: a size is called joint\.boss"):
        size(job)


def test_old_holes_are_counted_through_by_readings_too():
    more = {"pattern": {"points": [["0 mm", "-45 mm"]]}, "diameter": "7 mm"}
    job = old_holes(WORKED, {}, more)
    book = check(text(job) + MACHINE % 4)[1]
    assert (book["deck.old.4.x"].value, book["deck.old.4.y"].value) == (0.0, -45.0)
    ((key, _, says),) = faults(job, MACHINE % 5)
    assert (key, says) == ("measured.machine.readings.0.hole", "names 'old 5', and that pattern has 4 holes")


def test_a_measured_pattern_is_of_one_table_of_old_holes():
    found = faults(old_holes(WORKED, {}, {}), MEASURED_OLD)
    assert ("measured.old", "[measured.old]") in [(key, line) for key, line, _ in found]
    says = "can't stand beside a list of old holes: which of them was measured? Give each of those its pattern"
    assert [s for key, _, s in found if key == "measured.old"] == [says]


def test_holes_of_a_measured_pattern_want_a_stud_each():
    job = studs(WORKED, front={"holes": [1]}, rear={"holes": [2]})
    job["head"] = {k: v for k, v in job["head"].items() if k != "holes"}
    ((key, _, says),) = faults(job, MEASURED_NEW)
    assert (key, says.partition(":")[0]) == ("stud", "leaves hole 3 without a stud")
    job["stud"][1]["holes"] = [2, 3]
    assert "joint.rear.preload" in check(text(job) + MEASURED_NEW)[1]


@pytest.mark.parametrize("gone", ["head", "gasket", "barrel", "lathe", "plug", "mandrel"])
def test_lists_stand_without_the_rest(gone):
    job = {name: table for name, table in several(WORKED).items() if name != gone}
    if gone == "barrel":
        job.pop("plug")
    _, book, _ = check(text(job))
    assert book.left_out or gone == "plug"
    assert isinstance(book, Book)


def test_an_instance_names_and_places_what_is_its_own():
    front, rear = load(text(two())).instances("stud")
    assert front.real("stud.length") == "stud.front.length"
    assert front.real("job.stud.insert.tap") == "job.stud.front.insert.tap"
    assert front.real("planned.stud.length") == "planned.stud.front.length"
    for shared in ("ring.closed_gap", "joint.gas_force", "deck.thinnest", "job.head.thickness", "stud.rear.length"):
        assert front.real(shared) == shared
        assert front.local(shared) == shared
    assert rear.path(("stud", "insert", "tap")) == ("stud", 1, "insert", "tap")
    for name in ("stud.length", "deck.floor", "gasket.hole_diameter", "job.stud.shank", "joint.preload"):
        assert rear.local(rear.real(name)) == name


def test_needs_of_an_entry_are_told_by_its_own_key():
    material = {"name": "my steel", "modulus": "205 GPa"}
    book = check(text(two(material=material)))[1]
    assert book.needs("stud.rear.yield_strength") == []  # no size: what it would need is its own key
    assert "job.stud.rear.material.yield_strength" in book.needs("joint.rear.proof_stress")
    assert not any("rear" in need for need in book.needs("joint.front.proof_stress"))


def test_the_schema_takes_both_forms():
    schema = job_schema()
    for name, model in LISTS.items():
        one, none, many = schema["properties"][name]["anyOf"]
        assert one == {"$ref": f"#/$defs/{TABLES[name].__name__}"}
        assert none == {"type": "null"}
        assert (many["type"], many["minItems"]) == ("array", 1)
        entry = schema["$defs"][many["items"]["$ref"].rpartition("/")[2]]
        assert entry["properties"].keys() == model.model_fields.keys()
        assert entry["additionalProperties"] is False
        assert set(entry.get("required", ())) == {
            key for key, field in model.model_fields.items() if field.is_required()
        }
    old = schema["$defs"]["Barrel"]["properties"]["old_holes"]
    assert "array" in str(old)


def test_the_template_tells_of_lists():
    lines = template().split("\n")
    for name in (*LISTS, "barrel.old_holes"):
        here = lines.index(f"# [{name}]")
        assert f"[[{name}]] instead" in lines[here + 1]
    assert tomllib.loads(template()) == {"job": {}}
