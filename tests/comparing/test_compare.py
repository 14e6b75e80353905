"""Comparisons: a variant is the job that a file with its values would give; grids, refusals, what changes."""

import cProfile
import csv
import io
import pstats
import re
import sys
from collections import Counter
from dataclasses import replace
from math import pi

import pytest

from parts.book import Book, record
from parts.checked import check, judged
from parts.comparing.compare import compare_files, vary_job
from parts.comparing.comparison import Moved
from parts.comparing.records import as_csv, as_record, shown
from parts.comparing.sweep import read_varied, value_at, with_value
from parts.errors import JobError
from parts.job import load, load_data, read_toml
from parts.job.examples import demo_text
from parts.judging import findings
from parts.judging.findings import judge
from parts.sizing import size
from parts.sizing.variant import FirstBook, NextBook, VariantBook
from tests.conftest import JOBS

FORMULAS = ["=1+1", "+1 mm", "-1 mm", "@sum"]


def swept(text, *varied, **kwargs):
    return vary_job(str(text), [read_varied(one) for one in varied], **kwargs)


def case_of(found, name):
    (case,) = [case for case in found.cases if case.name == name]
    return case


# a variant against the job file edited -----------------------------------------------------------------------------------


EDITS = [  # key, value, what stands in the file, what would
    pytest.param("gasket.thickness", "0.8 mm", 'thickness = "1.20 mm"', 'thickness = "0.8 mm"', id="gasket"),
    pytest.param("ring.slit", "0.2 mm", 'slit = "0.50 mm"', 'slit = "0.2 mm"', id="slit"),
    pytest.param("stud.preload_share", "0.55", "preload_share = 0.37", "preload_share = 0.55", id="preload"),
    pytest.param("mandrel.form", "pin", 'form = "contoured"', 'form = "pin"', id="form"),
    pytest.param("engine.bore", "57.30 mm ± 0.02 mm", 'bore = "57.20 mm"', 'bore = "57.30 mm ± 0.02 mm"', id="spread"),
    pytest.param("barrel.passages.0.diameter", "9.0 mm", 'diameter = "8.50 mm"', 'diameter = "9.0 mm"', id="passage"),
    pytest.param("stud.insert.length", "2 d", 'length = "1.5 d"', 'length = "2 d"', id="insert"),
    pytest.param("head.located_by", "studs", 'located_by = "dowels"', 'located_by = "studs"', id="choice"),
    pytest.param(
        "gasket.material",
        '"copper, annealed"',
        'material = "copper, annealed"',
        'material = "copper, annealed"',
        id="comma",
    ),
]


@pytest.mark.parametrize(("key", "value", "old", "new"), EDITS)
def test_a_variant_has_the_sizes_and_findings_of_the_edited_file(demo, key, value, old, new):
    found = swept(demo, f"{key}={value}", contact=True)
    case = found.cases[-1]
    _, book, judged = check(demo.swap(old, new))
    assert {n: found.size(case, n) for n in found.units if found.size(case, n) is not None} == {
        n: e.value for n, e in book.items() if not isinstance(e.value, list)
    }
    verdicts = [f.verdict for f in judged]
    assert (case.stops, case.cautions) == (verdicts.count("stop"), verdicts.count("caution"))
    assert {n: f for n in {*found.found, *case.found} if (f := found.finding(case, n))} == {
        f.name: f for f in reversed(judged)
    }
    assert dict(case.left_out) == {n: book.needs(n) for n in book.left_out}


@pytest.mark.parametrize(
    ("key", "value", "old"),
    [
        ("plug.fit", "press", 'fit = "bonded"'),
        ("plug.material", "CuZn39Pb3", 'material = "11SMn30"'),
        ("barrel.material", "AlSi7Mg0.3 T6", 'material = "EN-GJL-250"'),
        ("engine.cycle", "two-stroke", 'cycle = "four-stroke"'),
    ],
)
def test_what_is_usual_goes_by_the_variant_not_by_the_first(demo, key, value, old):
    """The usual friction of a press fit goes by both metals; of what the run-up is not told, by the kind of engine."""
    text = demo.swap('fit = "bonded"', 'fit = "press"') if key != "plug.fit" else str(demo)
    text = re.sub(r"\[engine.run_up\][^[]*", "", text).replace("[engine]", '[engine]\nrun_up = "unknown"', 1)
    case = swept(text, f"{key}={value}").cases[-1]
    by_hand = size(load(text.replace(old, f"{old.partition(' = ')[0]} = {value!r}", 1)), contact=False)
    assert {n: v for n, v in case.sizes.items() if v is not None}.items() <= {
        n: e.value for n, e in by_hand.items()
    }.items()
    assert "job.plug.friction" in by_hand


def leaves(raw, path=()):
    """Every value of the job file with its path."""
    inside = raw.items() if isinstance(raw, dict) else enumerate(raw) if isinstance(raw, list) else ()
    if not isinstance(raw, dict | list):
        yield path, raw
    for step, value in inside:
        yield from leaves(value, (*path, step))


def changed(value):
    """Another value of the same kind."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + 1
    if isinstance(value, float):
        return round(value * 0.97, 4)
    number, _, unit = value.partition(" ")
    return (
        f"{float(number) * 0.97 + 0.01:.4f} {unit}" if number.replace(".", "").isdigit() and "/" not in value else None
    )


def worked_out(job, book=None):
    """A job sized by closed forms, judged and shaped."""
    return judged(job, contact=False, book=book, ranges=False)


def same(one, other, place):
    """Both have the same sizes, findings and shapes."""
    assert record(one.book) == record(other.book), place
    assert one.book.left_out == other.book.left_out
    assert one.findings == other.findings, place
    assert repr(one.shapes) == repr(other.shapes), place


@pytest.mark.parametrize("path", [None, *sorted(JOBS.glob("*.toml"))], ids=lambda path: path.stem if path else "demo")
def test_every_key_varied_gives_the_same_record_as_a_book_worked_out_anew(demo, path):
    """What is taken over from the first must be what would have come out: all sizes, limits, sources, in their order.

    So must be what a variant takes over from the variant before, which took it over from the one before that.
    """
    text = path.read_text(encoding="utf-8") if path else str(demo)
    raw, base = read_toml(text), load(text)
    first = FirstBook()
    assert worked_out(base, first).book is first
    assert record(first) == record(size(base, contact=False))
    tried, last = 0, first
    for place, value in leaves(raw):
        other = changed(value)
        if other is None:
            continue
        try:
            job = load_data(with_value(raw, place, other))
            anew = worked_out(job)
        except JobError:
            continue
        there = worked_out(job, VariantBook(first))
        same(there, anew, place)
        assert list(there.book) == list(anew.book)
        assert there.book.comes_from == anew.book.comes_from
        last = NextBook(last)
        same(worked_out(job, last), anew, place)
        tried += 1
    assert tried > (60 if path is None else 3)


def test_keys_taken_away_or_put_in_give_the_same_record_too(demo):
    """A size that comes into being, or goes, must not be taken over from a book where it was not, or was."""
    text = str(demo)
    base = load(text)
    first = FirstBook()
    known = worked_out(base, first)
    tried = 0
    for table, keys in read_toml(text).items():
        for key in keys:
            raw = {**read_toml(text), table: {k: v for k, v in keys.items() if k != key}}
            try:
                job = load_data(raw)
                anew = worked_out(job)
            except JobError:
                continue
            back = FirstBook()
            same(worked_out(job, VariantBook(first)), anew, (table, key))
            same(worked_out(job, back), anew, (table, key))
            same(worked_out(base, VariantBook(back)), known, (table, key))
            tried += 1
    assert tried > 40


def test_a_variant_works_out_only_what_its_key_moves(demo, monkeypatch):
    """Counted: the relations evaluated and the sizes judged for one variant more, against those for the job alone."""
    counts = Counter()
    for where, name in ((Book, "_worked_out"), (findings, "_judged")):
        plain = getattr(where, name)
        monkeypatch.setattr(where, name, lambda *a, plain=plain, name=name: (counts.update([name]), plain(*a))[1])
    worked_out(load(str(demo)))
    alone = counts.copy()
    counts.clear()
    vary_job(str(demo), [read_varied("plug.length=8..27mm/1")])
    assert counts.total() > 0
    for name, once in alone.items():
        assert counts[name] < once + 20 * once / 10, name


def test_without_contact_the_closed_forms_are_the_same(demo):
    full, closed = size(load(demo)), size(load(demo), contact=False)
    assert {n: full[n] for n in closed} == dict(closed)
    assert "ring.tangential_force" in closed
    assert {n for n in full if n not in closed} >= {"ring.light_gap", "mandrel.profile", "ring.free_width"}
    assert not [
        n
        for n in full
        if n not in closed
        and not n.startswith(("ring.", "mandrel.profile", "mandrel.seat_", "mandrel.arc", "compression.at."))
    ]


# figures worked by hand -------------------------------------------------------------------------------------------------


def test_compression_along_the_gasket_is_that_worked_by_hand(demo):
    """Compression ratio by its definition (ISO 2710-1): (swept + clearance) / clearance.

    Bore 57.20, stroke 63.5, old clearance 31.0 cm^3 with a chamber of 26.5 and a gasket of 1.6 mm in a hole of 58.20; new
    chamber 24.8, skim 0.12 mm at the bore.
    """
    found = swept(demo, "gasket.thickness=0.8..2.0mm/0.2")
    area, hole = pi / 4 * 57.2**2, pi / 4 * 58.2**2
    swept_volume = area * 63.5
    assert len(found.cases) == 7
    for case in found.cases:
        thickness = float(case.name.split()[0])
        clearance = 31000 - 26500 + 24800 - hole * (1.6 - thickness) - area * 0.12
        by_hand = (swept_volume + clearance) / clearance
        assert found.size(case, "compression.ratio_after") == pytest.approx(by_hand, rel=1e-9)
        assert found.size(case, "compression.squish") == pytest.approx(1.60 - (1.6 - thickness) - 0.12, abs=1e-9)
    assert case_of(found, "1.2 mm").base


def test_the_torque_goes_with_the_preload(demo):
    """Torque and preload are in proportion to the share of the proof load (VDI 2230-1)."""
    found = swept(demo, "stud.preload_share=0.185..0.37/0.0925")
    low, _, high = found.cases
    for name in ("joint.preload", "joint.torque"):
        assert found.size(high, name) == pytest.approx(2 * found.size(low, name), rel=1e-9)


# what changes -----------------------------------------------------------------------------------------------------------


def test_the_preload_sweep_names_where_it_turns_and_what_is_best(demo):
    found = swept(demo, "stud.preload_share=0.2..0.7/0.05")
    verdicts = {case.name: found.verdict(case, "joint.proof_use") for case in found.cases}
    share = {case.name: found.size(case, "joint.proof_use") for case in found.cases}
    assert {name for name, verdict in verdicts.items() if verdict == "stop"} == {n for n, s in share.items() if s > 1.0}
    assert {"joint.proof_use", "gasket.seating_stress"} <= set(found.changing())
    assert found.changing()[0] in {n for n in found.changing() if "stop" in {found.verdict(c, n) for c in found.cases}}
    best = {case.name for case in found.best()}
    fewest = min((c.stops, c.cautions) for c in found.cases)
    assert best == {c.name for c in found.cases if (c.stops, c.cautions) == fewest}


def test_a_job_that_is_no_variant_of_itself_stands_first(demo):
    found = swept(demo, "gasket.thickness=1.0,1.1".replace("1.0", "1.0 mm").replace("1.1", "1.1 mm"))
    assert [(case.name, case.base) for case in found.cases] == [("1.20 mm", True), ("1.0 mm", False), ("1.1 mm", False)]


def test_the_job_apart_is_no_part_of_a_run(demo):
    found = swept(demo, "stud.preload_share=0.65..0.70/0.05")
    assert found.apart
    assert [case.name for case in found.tried] == ["0.65", "0.70"]
    assert found.stopped
    assert not swept(demo, "stud.preload_share=0.37..0.67/0.30").stopped


def test_several_keys_make_every_combination(demo):
    found = swept(demo, "gasket.thickness=1.0..1.2mm/0.1", "mandrel.form=contoured,pin")
    assert [case.given for case in found.cases] == [
        ("1.0 mm", "contoured"), ("1.0 mm", "pin"), ("1.1 mm", "contoured"), ("1.1 mm", "pin"), ("1.2 mm", "contoured"), ("1.2 mm", "pin"),
    ]  # fmt: skip
    assert [case.base for case in found.cases] == [False] * 4 + [True, False]


def test_a_key_that_the_file_has_not_may_be_varied(demo):
    found = swept(demo, "head.spigot=54..58mm/2")
    assert found.cases[0].name == "not given"
    assert found.size(found.cases[0], "deck.washer.1.to_spigot") is None
    assert found.size(case_of(found, "56 mm"), "deck.washer.1.to_spigot") is not None


def test_what_is_left_out_in_one_file_only_is_told(demo):
    found = compare_files({"old": str(demo), "new": str(demo.swap('squish = "1.60 mm"', ""))})
    assert found.left_out()["compression.squish"] == ["job.engine.squish"]
    assert {key: row for key, row in found.written.items() if key == "engine.squish"} == {
        "engine.squish": ["1.60 mm", ""]
    }
    assert found.verdict(found.cases[0], "compression.squish") == "ok"
    assert found.verdict(found.cases[1], "compression.squish") == ""


# refused ----------------------------------------------------------------------------------------------------------------


def test_a_variant_that_the_rules_refuse_is_a_row_that_says_why(demo):
    found = swept(demo, "plug.length=10..20mm/5")
    assert [case.verdict == "refused" for case in found.cases] == [False, False, False, True]
    (says,) = found.cases[-1].refused
    assert says == "plug.length: must not be more than the passage's depth of 18 mm, not '20 mm'"


def test_a_shape_that_can_t_be_is_refused_as_check_refuses_it(demo):
    text = demo.swap('free_gap = "8.58 mm"', 'free_gap = "0.52 mm"')
    with pytest.raises(JobError) as told:
        check(str(text))
    found = swept(demo, "ring.free_gap=0.52 mm,8.58 mm")
    assert case_of(found, "0.52 mm").refused == tuple(
        str(f).replace(f" (line {f.line})", "") for f in told.value.faults
    )


def test_a_file_wrong_in_the_varied_key_may_be_mended_by_the_sweep(demo):
    found = swept(demo.swap('length = "12 mm"', 'length = "19 mm"'), "plug.length=16mm,17mm".replace("mm", " mm"))
    assert [case.verdict == "refused" for case in found.cases] == [True, False, False]


@pytest.mark.parametrize(
    ("old", "new", "varied", "says"),
    [
        ('bore = "57.20 mm"', 'bore = "57,20 mm"', "gasket.thickness=1..2mm/1", "decimal point"),
        ('bore = "57.20 mm"', 'bore = "57.20 mm"', "plug.length=19..21mm/1", "every variant is refused: plug.length"),
        ('bore = "57.20 mm"', 'bore = "57.20 mm"', "gasket.thickness=1..2/1", "has no unit"),
        ('bore = "57.20 mm"', 'bore = "57.20 mm"', "stud.preload_share=0.3..0.5mm/0.1", "wants a plain number"),
        ('bore = "57.20 mm"', 'bore = "57.20 mm"', "barrel.passages.3.diameter=8..9mm/1", "has 1"),
    ],
)
def test_nothing_to_compare_is_an_error(demo, old, new, varied, says):
    with pytest.raises(JobError, match=says):
        swept(demo.swap(old, new), varied)


# the flag ---------------------------------------------------------------------------------------------------------------


READ = [
    ("gasket.thickness=0.8..1.2mm/0.2", ("0.8 mm", "1.0 mm", "1.2 mm")),
    ("gasket.thickness = 0.8 mm .. 1.2 mm / 0.2 mm", ("0.8 mm", "1.0 mm", "1.2 mm")),
    ("stud.preload_share=0.3..0.5/0.1", (0.3, 0.4, 0.5)),
    ("ring.count=1..3/1", (1, 2, 3)),
    ("gasket.thickness=1/32..1/16in/1/64", ("1/32 in", "3/64 in", "1/16 in")),
    ("head.thickness=1 1/2..2in/1/4", ("1 1/2 in", "1 3/4 in", "2 in")),
    ("ring.material.modulus=100..120N/mm^2/10", ("100 N/mm^2", "110 N/mm^2", "120 N/mm^2")),
    ("head.holes.turned=-5..5deg/5", ("-5 deg", "0 deg", "5 deg")),
    ("stud.insert.length=1..2d/0.5", ("1.0 d", "1.5 d", "2.0 d")),
    ("gasket.thickness=1..2mm/0.4", ("1.0 mm", "1.4 mm", "1.8 mm")),  # never past the end
    ("stud.nut_end=M8x1.25,5/16-24 UNF", ("M8x1.25", "5/16-24 UNF")),
    ('gasket.material="copper, annealed",aluminium', ("copper, annealed", "aluminium")),
    ("barrel.passages.0.blank=true,false", (True, False)),
    ('head.holes={ circle = "80 mm", count = 4 }', ({"circle": "80 mm", "count": 4},)),
    ("barrel.passages.0.at.1=41..42mm/1", ("41 mm", "42 mm")),
    ("job.gasket.thickness=1 mm", ("1 mm",)),
]


@pytest.mark.parametrize(("text", "values"), READ)
def test_values_are_those_that_the_file_would_hold(text, values):
    read = read_varied(text)
    assert read.values == tuple(v.strip('"') if isinstance(v, str) else v for v in values) or read.values == values


def test_a_range_has_no_noise():
    assert read_varied("gasket.thickness=0.1..2.0mm/0.1").written[2] == "0.3 mm"
    assert read_varied("stud.preload_share=0.1..0.9/0.1").values[2] == 0.3


WRONG = [
    ("gasket.thickness", "wants KEY="),
    ("gasket.thickness=", "wants KEY="),
    ("gasket.thicknes=1..2mm/1", "gasket.thicknes is not a key of the job file; did you mean thickness?"),
    ("gaskett.thickness=1..2mm/1", "gaskett is not a key of the job file; did you mean gasket?"),
    ("gasket=1", "gasket is a table: name a key of it"),
    ("gasket.thickness.deep=1", "gasket.thickness holds no keys"),
    ("gasket.thickness=0,8..2,0mm/0,2", "wants KEY="),
    ("gasket.thickness=1..2mm", "wants KEY="),
    ("gasket.thickness=1..2mm/0", "a step above zero"),
    ("gasket.thickness=2..1mm/0.1", "from the lower to the higher"),
    ("gasket.thickness=1..2mm/1thou", "one unit for the whole range"),
    ("gasket.thickness=1..2mm/0.00001", "100000 variants are the most"),
    ("gasket.thickness=1/0..2mm/1", "wants KEY="),
    ("mandrel.form=pin,,round", "empty value"),
]


@pytest.mark.parametrize(("text", "says"), [pytest.param(*row, id=row[0]) for row in WRONG])
def test_a_wrong_flag_is_one_sentence(demo, text, says):
    with pytest.raises(JobError) as told:
        swept(demo, text)
    (fault,) = told.value.faults
    assert fault.key == "--vary"
    assert says in fault.says
    assert "\n" not in fault.says


@pytest.mark.parametrize(
    ("varied", "says"),
    [
        (["gasket.thickness=0.8..2.0mm/0.01", "ring.slit=0.2..1mm/0.0005"], "121 x 1601 = 193721 variants"),
        (["ring.slit=0.2 mm", "ring.slit=0.3 mm"], "names ring.slit twice"),
    ],
)
def test_too_many_and_twice(demo, varied, says):
    with pytest.raises(JobError, match=says):
        swept(demo, *varied)


def test_the_data_of_the_file_is_not_changed(demo):
    raw = read_toml(str(demo))
    with_value(raw, ("barrel", "passages", 0, "diameter"), "9 mm")
    assert raw == read_toml(str(demo))
    assert value_at(raw, ("barrel", "passages", 0, "diameter")) == "8.50 mm"
    assert value_at(raw, ("barrel", "passages", 7, "diameter")) is None


# records ----------------------------------------------------------------------------------------------------------------


def test_the_csv_reads_back_as_the_comparison(demo):
    found = swept(demo, "plug.length=10..20mm/5", "gasket.thickness=1.0..1.2mm/0.2")
    rows = list(csv.DictReader(io.StringIO("".join(as_csv(found)))))
    assert len(rows) == len(found.cases) == 7
    for row, case in zip(rows, found.cases, strict=True):
        assert (row["plug.length"], row["gasket.thickness"]) == case.given
        assert row["verdict"] == case.verdict
        if case.refused:
            assert "18 mm" in row["refused"]
            assert row["compression.squish [mm]"] == ""
            continue
        assert float(row["compression.squish [mm]"]) == found.size(case, "compression.squish")
        assert float(row["plug.hold_force [N]"]) == found.size(case, "plug.hold_force")
        assert all("e" not in value for head, value in row.items() if head.endswith("]"))


def test_the_csv_holds_nothing_that_a_spreadsheet_reads_otherwise(demo):
    """No decimal point or comma in a number, no word that begins a formula: RFC 4180 tells of neither; common practice."""
    found = swept(demo, "gasket.thickness=0.9..1.2mm/0.1")
    found = replace(
        found, cases=[replace(case, given=(text,)) for case, text in zip(found.cases, FORMULAS, strict=True)]
    )
    for row, case in zip(csv.DictReader(io.StringIO("".join(as_csv(found)))), found.cases, strict=True):
        assert row["gasket.thickness"] == f"'{case.given[0]}"
        numbers = [row[f"{name} [{found.units[name]}]"] for name in found.differing()]
        assert all(re.fullmatch(r"-?\d+(E-\d+)?", value) for value in numbers), numbers
        assert [float(value) for value in numbers] == [found.size(case, name) for name in found.differing()]


def test_a_small_number_keeps_its_digits_in_the_csv(demo):
    found = swept(demo, "head.material=AlSi7Mg0.3 T6,EN-GJL-250")
    rows = list(csv.DictReader(io.StringIO("".join(as_csv(found)))))
    assert [float(row["head.expansion [1/K]"]) for row in rows] == [
        found.size(c, "head.expansion") for c in found.cases
    ]


def test_the_record_holds_what_differs(demo):
    found = swept(demo, "ring.slit=0.2..0.4mm/0.2")
    told = as_record(found)
    assert told["keys"] == ["ring.slit"]
    assert [case["given"]["ring.slit"] for case in told["cases"]] == ["0.50 mm", "0.2 mm", "0.4 mm"]
    assert set(told["cases"][1]["sizes"]) == set(told["units"]) == set(found.differing())


def test_sizes_are_picked_by_name_and_pattern(demo):
    found = swept(demo, "ring.slit=0.2..0.4mm/0.2")
    assert shown(found, ["ring.closed_gap"]) == ["ring.closed_gap"]
    assert shown(found, ["mandrel.*", "ring.hot_gap"])[0] == "ring.hot_gap"
    assert "ring.outside_diameter" in shown(found, [])
    with pytest.raises(JobError, match="no size is called"):
        shown(found, ["ring.colour"])


# speed ------------------------------------------------------------------------------------------------------------------


def called(call):
    """Functions called, and how often: the same on every machine, however busy it is."""
    counter, names = cProfile.Profile(), Counter()
    counter.runcall(call)
    for (_, _, name), (_, count, *_) in pstats.Stats(counter).stats.items():
        names[name] += count
    return names


@pytest.mark.parametrize("varied", ["gasket.thickness=0.805..1.3mm/0.005", "ring.slit=0.201..0.3mm/0.001"])
def test_a_variant_takes_a_small_part_of_a_whole_sizing(demo, varied):
    """Against sizing the whole job and judging it, in the same process; the ring is not followed for a variant."""
    job = load(demo)
    whole, alone = called(lambda: judge(size(job), job)), called(lambda: size(job, contact=False))
    many = called(lambda: swept(demo, varied))
    assert many.total() / len(swept(demo, varied).cases) < 0.4 * whole.total()
    assert [one["size_ring_limits"] > 0 for one in (whole, alone, many)] == [True] * 3
    assert [one["at_limits"] > 0 for one in (whole, alone, many)] == [True, False, False]


def test_variants_of_a_job_with_measured_sizes_are_those_of_a_file_edited_by_hand():
    text = demo_text() + '\n[made]\n"job.barrel.skim" = "0.40 mm"\n"ring.outside_diameter" = "57.27 mm"\n'
    found = vary_job(text, [read_varied("gasket.thickness=1.0mm,1.4mm")])
    names = {case.given[0]: case for case in found.cases}
    by_hand = size(load(text.replace('\nthickness = "1.20 mm"', '\nthickness = "1.4 mm"')), contact=False)
    assert names["1.4mm"].sizes["compression.squish"] == by_hand["compression.squish"].value == pytest.approx(1.0)


def room(thing, seen):
    """Bytes of a thing and of all in it that was not seen yet."""
    if id(thing) in seen:
        return 0
    seen.add(id(thing))
    inside = [*thing, *thing.values()] if isinstance(thing, dict) else thing if isinstance(thing, list | tuple) else ()
    slots = [name for one in type(thing).__mro__ for name in getattr(one, "__slots__", ()) if name in dir(thing)]
    return sys.getsizeof(thing) + sum(room(one, seen) for one in (*inside, *(getattr(thing, name) for name in slots)))


def test_a_variant_more_takes_little_room(demo):
    """A sweep of a hundred thousand has to stay in memory: what variants have alike is held once, their sizes packed."""
    cases, seen = swept(demo, "gasket.thickness=1.001..1.030mm/0.001").cases, set()
    room(cases[:10], seen)
    sizes = len(cases[20].sizes)
    assert sizes > 50
    assert room(cases[10:], seen) / len(cases[10:]) < 8 * sizes + 800  # bytes; with all their words it was 15,000


def test_packed_sizes_are_as_they_were():
    sizes = {"a": 1.5, "b": None, "c": 3}
    assert dict(Moved(sizes)) == sizes
    assert [type(v) for v in Moved({"a": 2.0, "b": 3}).values()] == [float, int]
    assert Moved({"a": 1.5}) == {"a": 1.5}
