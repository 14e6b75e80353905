"""The questions: every key has its words, and what is asked for which parts is what these need."""

import re
import tomllib
from copy import deepcopy

import pytest

from parts import units
from parts.asking.cells import cells
from parts.asking.desk import sight
from parts.asking.drawn import picture
from parts.asking.lacking import bare_needs, lacking
from parts.asking.places import at, folded, put
from parts.asking.questions import opened, questions, screens
from parts.asking.words import fields, never, titles, words
from parts.checked import judged
from parts.errors import JobError
from parts.job import load_data
from parts.job.examples import demo_text
from parts.job.schema import job_schema
from parts.register import PARTS, pieces, shapes
from parts.sizing import size

ALL = list(PARTS)
PAIR = ["head-gasket", "stepped-stud"]
WHOLE = {"Pattern", "Outline", "MaterialSpec", "Nut", "Washer"}  # tables asked in one question
MOST = {"pair": 15, "worked job": 46}  # screens: some 15 and some 45 are aimed at


@pytest.fixture
def raw():
    return tomllib.loads(demo_text())


def keys_of_schema():
    """Every key of the JSON Schema with the numbers of lists left out; read off the schema, not off the models."""
    schema = job_schema()

    def below(name, node):
        for one in [node, *node.get("anyOf", ()), *node.get("oneOf", ())]:
            target = one.get("items", one).get("$ref", one.get("$ref", "")).rpartition("/")[2]
            if target in WHOLE or not target:
                continue
            for key, inner in schema["$defs"][target].get("properties", {}).items():
                yield f"{name}.{key}"
                yield from below(f"{name}.{key}", inner)

    for table, node in schema["properties"].items():
        if table != "made":
            yield from below(table, node)


def without_words(known):
    """Keys that are neither asked nor say why not; a table counts by its keys."""
    found = set(keys_of_schema())
    leaves = {key for key in found if not any(other.startswith(f"{key}.") for other in found)}
    return sorted(key for key in leaves if not (key in known and known[key].asks) and not never(key))


def asked(raw, make, **more):
    return [one for one in questions(raw, make, **more) if not one.designed]


# words ----------------------------------------------------------------------------------------------------------------


def test_every_key_is_asked_or_says_why_it_is_not():
    assert without_words(words()) == []
    assert set(words()) <= {*fields()}
    assert all(len(one.why.split()) > 2 for one in words().values() if not one.ask)


@pytest.mark.parametrize("key", ["engine.bore", "barrel.passages.at", "stud.name", "ring.groove.width"])
def test_a_key_without_words_is_seen(key):
    assert without_words({name: one for name, one in words().items() if name != key}) == [key]


def test_a_question_says_how_to_measure_in_plain_words():
    for key, one in words().items():
        if one.ask:
            assert one.asks[-1] == "?", key
            assert one.how[-1] == ".", key
            assert not one.stops or not one.more, key


NOT_ASKED = {  # size with a stop -> why no question decides it
    "joint.preload_share": "designed where it is not given",
    "joint.nut_proof_load": "by the thread of the nut end, which is asked",
    "job.engine.run_up.barrel": "cooler than run in, which is asked",
    "assembly.tap_end.gasket": "a stud's own step is one that fits",
}


def test_what_a_rule_stops_is_always_asked(raw):
    """A finding that can stop rests on some key that is asked for; by the rules' own table, on the worked job."""
    from parts.judging.rules import RULES

    book = size(load_data(raw), contact=False)
    always = {one.key for one in questions(raw, ALL) if not one.more}
    for rule in RULES:
        if rule.stop is not None and rule.size in book and rule.size not in NOT_ASKED:
            assert any(book.rests_on(rule.size, [f"job.{key}", *_leaves(book, key)]) for key in always), rule.size


def _leaves(book, key):
    return [name for name in book if name.startswith(f"job.{key}.")]


# what is asked --------------------------------------------------------------------------------------------------------


def test_no_more_is_asked_than_has_to_be(demo):
    """Screens between the first and the end, of an empty file and of the worked job with all its answers."""
    assert len(sight("[stud]\n[gasket]\n").screens) - 2 <= MOST["pair"]
    assert len(sight(demo).screens) - 2 <= MOST["worked job"]


def test_it_goes_in_the_order_of_measuring():
    keys = [one.key for one in questions({}, ALL)]
    order = ["engine.bore", "barrel.outline", "head.thickness", "head.holes", "stud.tap_end", "gasket.thickness"]
    assert [key for key in keys if key in order] == order
    assert len(keys) == len(set(keys))


def test_a_screen_asks_what_stands_together_in_the_order_of_asking():
    order = [key for key, one in words().items() if one.ask]
    for title in dict.fromkeys(titles().values()):
        keys = [key for key in titles() if titles()[key] == title and key != "make"]
        start = order.index(keys[0])
        assert order[start : start + len(keys)] == keys, title
        assert title[-1] == "?"


@pytest.mark.parametrize("raw", [{"stud": [{"name": "low"}, {"name": "high"}]}, {"barrel": {"passages": [{}, {}]}}])
def test_of_several_each_has_its_own_screen(raw):
    found = {one.key: {q.key for q in one.asked} for one in screens(questions(raw, PAIR))}
    assert all(len({key.split(".")[-2] for key in keys if re.search(r"\d", key)}) <= 1 for keys in found.values())
    assert sorted(key for keys in found.values() for key in keys) == sorted(q.key for q in questions(raw, PAIR))


def test_of_one_that_has_a_name_the_question_says_it():
    asks = {one.key: one.asks for one in questions({"stud": [{"name": "low"}, {}]}, PAIR)}
    assert asks["stud.0.tap_end"] == "What thread goes into the barrel, low?"
    assert asks["stud.1.tap_end"] == "What thread goes into the barrel?"


@pytest.mark.parametrize("make", [PAIR, ALL])
def test_whoever_answers_all_that_is_asked_has_all_judged_that_may_stop(raw, make):
    """The worked job with what is asked of its parts and no more: nothing is left that may stop it and isn't judged."""
    tables = {PARTS[stem].table for stem in make}
    parts = {part.table for part in PARTS.values()}
    left = {name: table for name, table in raw.items() if name in tables or name not in parts}
    given = [one.key for one in questions(left, make) if not (words()[folded(one.key)].more or one.designed)]
    kept = {table: {} for table in tables}
    for key in (key for key in given if not re.search(r"\.\d", key)):
        value, opens = at(left, key), words()[folded(key)].gate
        if value is not None and not (opens and isinstance(value, dict)):
            put(kept, key, value)
    told = [f.says for f in judged(load_data(kept)).findings if f.source == "what may stop a job"]
    assert told == []


def test_units_of_the_boxes_follow_the_job():
    def box(raw, key):
        return next(one for one in questions(raw, ALL) if one.key == key)

    inch = {"job": {"print_units": "inch"}}
    assert (box({}, "engine.bore").unit, box(inch, "engine.bore").unit) == ("mm", "in")
    assert (box({}, "engine.peak_pressure").unit, box(inch, "engine.peak_pressure").unit) == ("bar", "psi")
    assert units.read(box(inch, "engine.bore").example, "length")[0] == pytest.approx(57.2, abs=0.002)


def test_a_table_is_asked_for_once_it_is_opened():
    shut = {one.key for one in questions({}, PAIR)}
    assert "barrel.old_holes" in shut
    assert "barrel.old_holes.diameter" not in shut
    two = {one.key for one in questions({"barrel": {"old_holes": {}, "passages": [{}, {}]}}, PAIR)}
    assert {"barrel.old_holes.diameter", "barrel.passages.0.at", "barrel.passages.1.at"} <= two
    assert "barrel.passages.1.at" in {
        one.key for one in questions(opened({"barrel": {"passages": [{}, {}]}}, PAIR), PAIR)
    }


def test_a_list_of_studs_is_asked_for_each():
    keys = {one.key for one in questions({"stud": [{"name": "low"}, {"name": "high"}]}, PAIR)}
    assert {"stud.0.tap_end", "stud.1.head_thickness", "stud.1.holes"} <= keys
    assert "stud.holes" not in {one.key for one in questions({}, PAIR)}


@pytest.mark.parametrize(
    ("raw", "there", "gone"),
    [
        ({"engine": {"cycle": "two-stroke"}}, "engine.ports", "head.valves"),
        ({"engine": {"cycle": "four-stroke"}}, "head.valves", "engine.ports"),
        ({"barrel": {"passages": [{"name": "oil"}]}}, "plug.passage", "plug.hole"),
        ({}, "plug.hole", "plug.passage"),
        ({"plug": {"fit": "press"}}, "plug.tolerance", "plug.bond_strength"),
        ({}, "plug.bond_strength", "gasket.hole"),
        ({"gasket": {"wanted_squish": "1 mm"}}, "gasket.wanted_squish", "gasket.thickness"),
    ],
)
def test_an_answer_decides_what_is_asked_next(raw, there, gone):
    keys = {one.key for one in questions(raw, ALL, more=True)}
    assert there in keys
    assert gone not in keys


def test_a_gasket_alone_is_asked_for_its_holes():
    assert "gasket.hole" in {one.key for one in questions({}, ["head-gasket"])}


def test_a_material_offers_what_is_usual_where_it_stands():
    offered = {one.key: one.choices for one in questions({}, ALL) if one.kind == "material"}
    assert offered["barrel.material"][0] == "EN-GJL-250"
    assert offered["gasket.material"][0] == "copper, annealed"
    assert {len(choices) for choices in offered.values()} == {3}


def wrong_in(raw):
    """Keys that the reader refuses."""
    try:
        load_data(raw)
    except JobError as error:
        return {fault.key for fault in error.faults}
    return set()


def test_every_example_is_read_where_it_is_offered(raw):
    """Each question's own example put into the worked job in place of its answer is taken by the reader."""
    for one in questions(raw, ALL, more=True):
        if one.kind in ("quantity", "thread", "material", "choice", "words") and one.key != "job.title":
            changed = deepcopy(raw)
            *above, last = one.key.split(".")
            place = changed
            for step in above:
                place = place[int(step)] if step.isdecimal() else place.setdefault(step, {})
            place[last] = one.example
            assert one.key not in wrong_in(changed)


# what is lacking ------------------------------------------------------------------------------------------------------


def test_the_worked_job_lacks_nothing(raw):
    assert lacking(raw, ALL) == {stem: [] for stem in ALL}


def test_an_empty_file_lacks_what_its_parts_cannot_be_made_without():
    found = lacking({}, PAIR)
    assert "ring.slit" not in found["stepped-stud"]
    assert {"stud.tap_end", "stud.nut_end", "head.thickness", "gasket.thickness"} <= set(found["stepped-stud"])
    assert "engine.bore" in found["head-gasket"]


def cannot_make(raw, stem):
    """Whether `make` would refuse a part: by reading, sizing and shaping it, as `make` does."""
    try:
        job = load_data(raw)
        wanted = [piece for piece in pieces(job) if piece.part.stem == stem]
        shapes(wanted, size(job, contact=False), job)
    except JobError:
        return True
    return not wanted


IN_PLACE = ("plug.hole", "ring.groove", "gasket.hole")  # the worked job has what may stand in their place
NEEDED = [(stem, key) for stem in ALL for key in sorted(bare_needs([stem])) if key not in IN_PLACE]


@pytest.mark.parametrize(("stem", "key"), NEEDED)
def test_what_is_needed_is_what_make_refuses_to_do_without(raw, stem, key):
    *above, last = key.split(".")
    place = raw
    for step in above:
        place = place[step]
    del place[last]
    assert cannot_make(raw, stem)
    assert key in lacking(raw, [stem])[stem]


def test_a_file_that_is_not_right_yet_still_tells_what_is_lacking(raw):
    raw["engine"]["bore"] = "57.2"
    del raw["stud"]["nut_end"]
    assert lacking(raw, PAIR)["stepped-stud"] == ["stud.nut_end"]


# whatever a file holds ------------------------------------------------------------------------------------------------

JUNK = [5, -1.5, True, "x", "", "unknown", [], {}, [5], [["x"]], [{}], {"circle": 5}, {"points": 5}, {"points": [5]}]


def spoilt(raw, where, junk):
    changed = deepcopy(raw)
    place = changed
    for step in where[:-1]:
        place = place[step]
    place[where[-1]] = junk
    return changed


def places_in(table, above=()):
    for key, value in table.items() if isinstance(table, dict) else enumerate(table):
        yield (*above, key)
        if isinstance(value, dict | list):
            yield from places_in(value, (*above, key))


def test_whatever_stands_in_a_file_is_asked_about_and_drawn(raw):
    """Every key and table in turn is junk: nothing fails, neither what is asked nor its drawing nor its boxes."""
    for number, where in enumerate(places_in(raw)):
        changed = spoilt(raw, where, JUNK[number % len(JUNK)])
        found = questions(changed, ALL)
        for one in found:
            if one.key.startswith(".".join(map(str, where[:2]))):
                assert not one.picture or picture([(one, "")], changed)
                assert cells(one, changed)
        assert lacking(changed, PAIR).keys() == set(PAIR)
