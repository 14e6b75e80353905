"""Whatever is typed behind a verb: right files or one clear sentence a fault, and then nothing was written.

Verbs and flags are taken from the program, their values from the examples in its help, spoilt in one way or another.
"""

import json
import random
import re

import pytest
import typer
from hypothesis import given
from hypothesis import strategies as st

from cli.main import VERBS, app
from parts.job.examples import demo_text
from parts.register import verbs
from tests.whole.test_fuzz import examples, ran

PARTS = tuple(verbs())
GROUP = typer.main.get_command(app)
SMALL = """
[engine]
bore = "57.20 mm"
[plug]
hole = "8.50 mm"
fit = "bonded"
length = "12 mm"
bond_clearance = "0.04 mm"
"""
WORDS = ("", " ", "-", "--", "0", "-1", "1e999", "nan", "three", "57,2 mm", "57.2", "1 mm ± 2 mm", "\x00", "\n", "[made]\nx=1",
         "'", '"', "{", "{}", "[]", "{ a = 1 }", "\udcff", "ä€😀", "\u2028", "x" * 3000, "\x01" * 3000, "[" * 5000, "1..2/0",
         "gasket.thickness=", "gasket.thickness=1..2mm/0", "ring.slit=0.2..0.3mm/1e-9", "=", "*", "../up", "a/b", "job.toml",
         "NaN mm", "1 mm\n2 mm", "M10x1.5 LH", "5/0 in", "1_0 mm", "0x10 mm", "%s", "{0}", "$HOME", "~", "con", "true")  # fmt: skip
RIGHT = {
    "check": [["small.toml"], ["job.toml", "--json"]],
    "explain": [["job.toml", "stud.projection"], ["small.toml", "plug.diameter"]],
    "compare": [
        ["job.toml", "--vary", "gasket.thickness=1..1.2mm/0.1"],
        ["job.toml", "small.toml", "--show", "plug.*"],
    ],
    "advise": [
        ["small.toml"],
        ["small.toml", "--json", "--keep", "plug.length"],
        ["small.toml", "--write", "best.toml"],
    ],
    "make": [["small.toml", "--into", "made"]],
    "new": [["mine.toml"], ["mine.toml", "--from", "demo"]],
    "schema": [[]],
    "demo": [["--into", "left.toml"]],
}


def flags(verb):
    """Flags of a verb, each with the value that its help shows; none where it takes none."""
    for parameter in GROUP.get_command(None, verb).params:
        for name in getattr(parameter, "opts", []):
            if name.startswith("--") and name != "--help":
                shown = re.search(r"like (.+?)(?: \[|$)", getattr(parameter, "help", None) or "")
                yield name, None if getattr(parameter, "is_flag", False) else shown[1] if shown else "metric"


ALL_FLAGS = {verb: dict(flags(verb)) for verb in VERBS}


@st.composite
def typed(draw):
    """What a user may type: a verb with what goes with it, spoilt in a few places."""
    chance = random.Random(draw(st.integers(0, 2**32)))  # noqa: S311
    verb = chance.choice([*VERBS, *PARTS])
    known = ALL_FLAGS[verb]
    words = list(chance.choice(RIGHT[verb])) if verb in RIGHT else []
    for name, example in known.items() if verb in PARTS else ():
        if name not in ("--into", "--threads", "--print-units") and chance.random() < 0.6:
            words += [name, example]
    for _ in range(chance.choice((0, 1, 1, 2, 4))):
        at = chance.randint(0, len(words))
        value = draw(st.text(max_size=12)) if chance.random() < 0.2 else chance.choice(WORDS)
        how = chance.choice(("instead", "instead", "between", "flag", "gone"))
        if how == "instead" and words:
            words[min(at, len(words) - 1)] = value
        elif how == "between":
            words.insert(at, value)
        elif how == "flag" and known:
            name = chance.choice(list(known))
            words += [name] if known[name] is None else [name, value]
        elif words:
            del words[min(at, len(words) - 1)]
    return [verb, *words]


def standing(folder):
    return {p.relative_to(folder): p.read_bytes() if p.is_file() else None for p in folder.rglob("*")}


def type_in(folder, words):
    """Run what was typed; return its exit code."""
    before = standing(folder)
    code, out, err = ran(*words, seconds=60)
    assert code in (0, 1, 2, 3)
    if code in (0, 1):
        assert err == ""
        return code
    assert standing(folder) == before
    if "--json" in words:
        told = json.loads(out or "{}")
        assert told.get("errors") or err
    else:
        assert out == "" or "Usage" in out
    for line in err.rstrip("\n").split("\n") if err else ():
        assert re.fullmatch(r"topend: .+", line, re.DOTALL), err
        assert len(line) < 1500, line
    return code


@pytest.fixture
def folder(tmp_path, monkeypatch):
    place = tmp_path / "here" / "there"
    place.mkdir(parents=True)
    (place / "job.toml").write_text(demo_text(), encoding="utf-8")
    (place / "small.toml").write_text(SMALL, encoding="utf-8")
    (place / "left.toml").write_text("a file where a folder should be")
    monkeypatch.chdir(place)
    return tmp_path


def type_often(folder, count, *, always=True):
    """Type this often; count how it ended."""
    ends = {}

    @examples(count, always=always)
    @given(typed())
    def each(words):
        code = type_in(folder, words)
        ends[code] = ends.get(code, 0) + 1

    each()
    return ends


def test_whatever_is_typed(folder):
    ends = type_often(folder, 150)
    assert ends[2] > 50
    assert ends[0] > 5


@pytest.mark.long
def test_two_thousand_odd_commands(folder):
    print(type_often(folder, 2000, always=False))
