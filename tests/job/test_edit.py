"""Values put into a job file's text: right data by the standard parser, and all else as it stood."""

import tomllib
from copy import deepcopy
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from parts.errors import JobError
from parts.job.edit import edited
from parts.job.examples import demo_text
from parts.job.schema import template
from tests.strategies import jobs, places, toml_text

SLOW = settings(max_examples=15, deadline=timedelta(seconds=5), suppress_health_check=list(HealthCheck))


def put(data, path, value):
    """The data with a value at a path, in the plainest way: tables and entries on the way are made."""
    *way, last = path
    for step, below in zip(way, path[1:], strict=True):
        fresh = [] if isinstance(below, int) else {}
        if isinstance(data, list) and step == len(data):
            data.append(fresh)
        data = data.setdefault(step, fresh) if isinstance(data, dict) else data[step]
    if value is None:
        del data[last]
    elif isinstance(data, list) and last == len(data):
        data.append(value)
    else:
        data[last] = value


def leaves(held, path=()):
    """Path and value of everything that is no table."""
    if isinstance(held, dict) and held:
        for key, below in held.items():
            yield from leaves(below, (*path, key))
    else:
        yield path, held


@st.composite
def changed(draw):
    """A job's data, and changes of it in turn: values of another job put in, some of its own taken out or put elsewhere."""
    data, other = draw(jobs(decades=(0.04,))), draw(jobs(decades=(0.04,)))
    wanted, changes = tomllib.loads(toml_text(data)), {}  # nothing in it is shared
    for path, value in draw(st.lists(st.sampled_from(list(leaves(other))), max_size=6, unique_by=lambda one: one[0])):
        try:
            trial = deepcopy(wanted)
            put(trial, path, value)
        except (KeyError, IndexError, TypeError, AttributeError):
            continue  # the one has a list where the other has a table
        wanted, changes[path] = trial, value
    for path in draw(st.lists(st.sampled_from(list(places(data))), max_size=3, unique=True)):
        if path not in changes and not any(path[:n] in changes for n in range(9)) and path in set(places(wanted)):
            changes[path] = None
            put(wanted, path, None)
    return data, changes, wanted


@SLOW
@given(changed(), st.booleans(), st.booleans(), st.booleans(), st.booleans())
def test_the_data_are_the_wanted_ones_and_what_was_not_changed_stands(change, headers, comments, windows, mark):
    data, changes, wanted = change
    text = toml_text(data, headers=headers)
    if comments:
        text = "".join(f"# line {n}\n{line}  # {n}\n" for n, line in enumerate(text.splitlines()))
    text = text.replace("\n", "\r\n") if windows else text
    text = "\ufeff" + text if mark else text
    done = edited(text, changes, dict.fromkeys(changes, "another [value] = here"))
    assert done.startswith("\ufeff") == mark
    new = tomllib.loads(done.removeprefix("\ufeff"))
    assert new == {
        name: held for name, held in wanted.items() if held != [] or name in new
    }  # the last [[ring]] is gone
    assert not windows or "\n" not in done.replace("\r\n", "")
    if not changes:
        assert done == text
    if comments:
        kept = {line.strip("\ufeff\n\r") for line in done.splitlines()}
        assert [n for n in range(text.count("# line ")) if f"# line {n}" not in kept] == []


@SLOW
@given(jobs(decades=(0.04,)), st.booleans())
def test_a_job_written_key_by_key_into_the_template_is_that_job(data, windows):
    text = template().replace("\n", "\r\n") if windows else template()
    data.setdefault("job", {})
    done = edited(text, {path: value for path, value in leaves(data) if path != ("job",)})
    assert tomllib.loads(done) == data


def test_the_worked_job_keeps_its_comments_in_their_columns():
    was = demo_text()
    done = edited(was, {("stud", "shank"): "6.4 mm", ("stud", "insert", "length"): "2 d", ("ring", "peg"): "90 deg"})
    lines = [(a, b) for a, b in zip(was.splitlines(), done.splitlines(), strict=False) if a != b][:2]
    assert [b for _, b in lines] == [
        'shank = "6.4 mm"                            # waisted below the thread\'s core: a springier stud',
        'insert = { length = "2 d", tap = "bottoming" }   # wire thread insert in the barrel',
    ]
    assert 'facing = "1.0 mm"\npeg = "90 deg"\n\n[mandrel]' in done


def test_what_stood_there_is_said_on_the_line():
    was = 'a = 1\n[stud]\nshank = "6.2 mm"  # waisted\nfriction = 0.40\n'
    notes = {("stud", "shank"): 'was "6.2 mm"', ("stud", "friction"): "was 0.40", ("stud", "tap"): "not given before"}
    done = edited(was, {("stud", "shank"): "7 mm", ("stud", "friction"): 0.2, ("stud", "tap"): "plug"}, notes)
    assert done == (
        'a = 1\n[stud]\nshank = "7 mm"    # was "6.2 mm"; waisted\n'
        "friction = 0.2                                # was 0.40\n"
        'tap = "plug"                                  # not given before\n'
    )


TEMPLATE = (
    '# [engine]\n# bore = "57 mm"  # as honed; needed\n\n# [engine.hot]\n# stud = "145 degC"\n\n'
    '# [[plug]]\n# fit = "press"\n[ring]\ncount = 1\n'
)
PLACED = [  # text, path, value, text after
    pytest.param(TEMPLATE, ("engine", "bore"), "60 mm", TEMPLATE.replace('# [engine]\n# bore = "57 mm"', '[engine]\nbore = "60 mm"'), id="commented"),
    pytest.param(TEMPLATE, ("engine", "hot", "stud"), "9 degC", TEMPLATE.replace('# [engine.hot]\n# stud = "145 degC"', '[engine.hot]\nstud = "9 degC"'), id="commented, inside"),
    pytest.param(TEMPLATE, ("plug", 0, "fit"), "bonded", TEMPLATE.replace('# [[plug]]\n# fit = "press"', '[[plug]]\nfit = "bonded"'), id="commented list"),
    pytest.param(TEMPLATE, ("ring", "groove", "width"), "2 mm", TEMPLATE + 'groove = { width = "2 mm" }\n', id="a table that isn't there"),
    pytest.param("# of the rings\n[ring]\ncount = 1\n", ("stud", "shank"), "6 mm", '# of the rings\n\n[stud]\nshank = "6 mm"\n\n[ring]\ncount = 1\n', id="before the first, below the file's title"),
    pytest.param("# A job\n\n# of the rings\n[ring]\ncount = 1\n", ("stud", "shank"), "6 mm", '# A job\n\n[stud]\nshank = "6 mm"\n\n# of the rings\n[ring]\ncount = 1\n', id="before the first and its comment"),
    pytest.param("[engine]\nbore = 1\n\n# of the rings\n[ring]\ncount = 1\n", ("stud", "shank"), "6 mm", '[engine]\nbore = 1\n\n[stud]\nshank = "6 mm"\n\n# of the rings\n[ring]\ncount = 1\n', id="between two"),
    pytest.param("[engine]\nbore = 1", ("ring", "count"), 2, "[engine]\nbore = 1\n\n[ring]\ncount = 2\n", id="behind the last, which has no line end"),
    pytest.param("[engine.hot]\nstud = 1\n", ("engine", "bore"), 2, "[engine]\nbore = 2\n\n[engine.hot]\nstud = 1\n", id="above its own tables"),
    pytest.param("[[stud]]\nname = 'a'\n[stud.insert]\n\n[ring]\n", ("stud", 1, "name"), "b", '[[stud]]\nname = \'a\'\n[stud.insert]\n\n[[stud]]\nname = "b"\n\n[ring]\n', id="next of a list"),
    pytest.param("[engine]\nhot.stud = 1 # a\nbore = 2\n", ("engine", "hot", "head"), 3, "[engine]\nhot.stud = 1 # a\nhot.head = 3\nbore = 2\n", id="beside dotted ones"),
    pytest.param("ring.groove = { width = 1 }", ("ring", "groove", "root"), 2, "ring.groove = { width = 1, root = 2 }", id="inside an inline table"),
    pytest.param("x = [\n1, # one\n2, # two\n]", ("x", 0), None, "x = [\n2, # two\n]", id="out of a list"),
    pytest.param("x = [\n1, # one\n2, # two\n]", ("x", 1), None, "x = [\n1, # two\n]", id="the last out of a list"),
    pytest.param("x = { a = 1, b.c = 2, d = 3 }", ("x", "d"), None, "x = { a = 1, b.c = 2 }", id="out of an inline table"),
    pytest.param("x = [{ a = 1 }]", ("x", 0), None, "x = []", id="the only entry"),
    pytest.param('[a]\nb = """\nx"""  # c\nd = 1\n', ("a", "b"), None, '[a]\n# b = """\n# x"""  # c\nd = 1\n', id="a value of many lines"),
    pytest.param("[stud]\na = 1\n\n[stud.insert]\nb = 1\n[ring]\nc = 1\n", ("stud",), None, "# [stud]\n# a = 1\n\n# [stud.insert]\n# b = 1\n[ring]\nc = 1\n", id="a whole table"),
    pytest.param('[stud]\nwasher = "ISO 7089"\n', ("stud", "washer", "outside"), "20 mm", '[stud]\nwasher = { name = "ISO 7089", outside = "20 mm" }\n', id="a name becomes a table"),
    pytest.param("[stud.insert]\nlength = 1\n[ring]\n", ("stud", "insert"), {"length": 2, "tap": "plug"}, '[stud.insert]\nlength = 2\ntap = "plug"\n[ring]\n', id="a table for a table"),
    pytest.param("[stud]\n[stud.washer]\nname = 'x'\n", ("stud", "washer"), "y", "[stud]\nwasher = \"y\"\n# [stud.washer]\n# name = 'x'\n", id="a name for a table"),
    pytest.param("# [clamp_plate]\n", ("clamp_plate",), {}, "[clamp_plate]\n", id="an empty table"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "path", "value", "after"), PLACED)
def test_what_did_not_stand_there_comes_where_it_belongs(text, path, value, after):
    assert edited(text, {path: value}) == after
    assert edited("\ufeff" + text.replace("\n", "\r\n"), {path: value}) == "\ufeff" + after.replace("\n", "\r\n")


def test_what_was_taken_out_comes_back_to_its_line():
    out = edited(demo_text(), {("stud", "shank"): None, ("mandrel",): None})
    assert "stud" in tomllib.loads(out)
    assert "mandrel" not in tomllib.loads(out)
    back = edited(out, {("stud", "shank"): "6.2 mm", ("mandrel",): tomllib.loads(demo_text())["mandrel"]})
    assert back == demo_text()


WRONG = [
    pytest.param("a = 1", ("a", "b"), 2, "a.b", id="under a number"),
    pytest.param("[[stud]]\n", ("stud", 2, "shank"), 1, "stud.2.shank", id="past the end of a list"),
    pytest.param("[a]\n", ("b",), 2, "b", id="no table to stand in"),
    pytest.param("[stud]\n", ("stud", "shank"), float("nan"), None, id="nan is a value of the language"),
]


@pytest.mark.parametrize(("text", "path", "value", "key"), WRONG)
def test_what_has_no_place_is_refused(text, path, value, key):
    if key is None:
        assert "nan" in edited(text, {path: value})
        return
    with pytest.raises(JobError) as caught:
        edited(text, {path: value})
    assert [f.key for f in caught.value.faults] == [key]
