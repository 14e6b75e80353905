"""Verdicts and ranges of what is not known, against draws worked out from the file by themselves, and against bisection."""

import random
import re

import pytest

from parts.book import Book
from parts.checked import checked
from parts.errors import JobError
from parts.job import load, load_data
from parts.job.edit import edited
from parts.job.examples import demo_text
from parts.judging.finding import NOT_JUDGED, WORST, as_records
from parts.judging.findings import judge
from parts.sizing import size
from parts.sizing.variant import FirstBook
from parts.unknowns.states import with_taken
from parts.unknowns.words import IS
from tests.unknowns.jobs import SEVEN, drawn, unknown

RATHER = 1e-9
EACH = 43  # of each of the seven: 301
MANY = 1430  # by hand: ten thousand
RING = ("set_fraction", "ring.material")
WITHIN = 5e-3  # of the range: what a turning point is held to
NO_GAUGE = SEVEN["worked"]


def worked_out(job, values, *, contact, cut=()):
    """A job with such values, by itself: nothing is taken over from another but what was designed, and is cut so."""
    data = job.data
    for path in job.unknown:
        data = with_taken(data, path, values[job.in_the_book(path)])
    job, book = load_data(data), Book()
    book.made = dict(cut)
    book = size(job, contact=contact, book=book)
    return book, judge(book, job)


def designed(done):
    return {name: entry for name, entry in done.book.items() if entry.status == "designed"}


def outside(text, draws, seed):
    """Of so many draws what lies outside of what was said: verdicts, then sizes."""
    job, done, bad = load(text), checked(text), []
    rng = random.Random(seed)  # noqa: S311
    for number in range(draws):
        values, contact = drawn(job, rng), number % 20 == 0
        if not contact:  # the ring's own is then not looked at: it takes longest
            values |= {key: known.taken for key, known in named(job).items() if key.endswith(RING)}
        try:
            book, found = worked_out(job, values, contact=contact, cut=designed(done))
        except JobError:
            assert any(f.name.startswith("unknown.") for f in done.findings)
            continue
        bad += [f"{f.name}: {f.verdict}: {f.says}" for f in found if not told(f, done)]
        bad += [f"{n}: {e.value}, said {done.ranges.get(n)}" for n, e in book.items() if not holds(n, e, done)]
    return bad


def named(job):
    return {job.in_the_book(path): known for path, known in job.unknown.items()}


def told(finding, done):
    """Whether a verdict lies between the best and the worst that findings of that name say."""
    same = [f for f in done.findings if f.name == finding.name]
    ranks = [rank for f in same for rank, word in enumerate(IS) if re.search(rf"\b{word}\b", f.holds_if)]
    ranks += [WORST[f.verdict] for f in same if not f.holds_if]
    return min(ranks, default=0) <= WORST[finding.verdict] <= max(ranks, default=0)


def holds(name, entry, done):
    if type(entry.value) is not float or name not in done.book:
        return True
    low, high = done.ranges.get(name, [done.book[name].value] * 2)
    near = RATHER * max(1.0, abs(low), abs(high))
    return low - near <= entry.value <= high + near


@pytest.mark.parametrize("name", SEVEN)
def test_no_draw_is_outside_of_what_was_said(name):
    assert outside(SEVEN[name], EACH, name) == []


@pytest.mark.long
@pytest.mark.parametrize("name", SEVEN)
def test_no_draw_of_ten_thousand_is_outside_of_what_was_said(name):
    assert outside(SEVEN[name], MANY, f"{name} by hand") == []


def turned(text, key, written, taken, end, finding):
    """Where a verdict turns by bisection, each time a file read, sized and judged by itself."""

    def verdict(value):
        job = load(text.replace(written, written.replace('"unknown"', value_of(value))))
        return max((f.verdict for f in judge(size(job, contact=False), job) if f.name == finding), key=WORST.get)

    def value_of(value):
        return f"{value}" if key.endswith("fraction") else f'"{value:.9f} {"MPa" if "pressure" in key else "degC"}"'

    first = verdict(taken)
    while abs(end - taken) > 1e-6 * abs(end):
        middle = (taken + end) / 2
        taken, end = (middle, end) if verdict(middle) == first else (taken, middle)
    return end


@pytest.mark.parametrize("key", ["peak_pressure", "ring", "head", "set_fraction"])
def test_where_a_verdict_turns_is_where_bisection_finds_it(key):
    text = unknown(demo_text(), key) if key in ("peak_pressure", "set_fraction") else demo_text()
    if key in ("ring", "head"):  # the first of that name is the one run in
        value = {"ring": '"200 degC"', "head": '"170 degC"'}[key]
        text = text.replace(f"{key} = {value}", f'{key} = "unknown"', 1)
    done = checked(text)
    (one,) = done.unknowns
    end = one.high if one.turns_at > one.taken else one.low
    found = turned(text, one.key, f'{key} = "unknown"', one.taken, end, one.decides[0])
    assert one.turns_at == pytest.approx(found, abs=WITHIN * (one.high - one.low))


def test_a_verdict_that_turns_says_where_and_is_never_in_order():
    done = checked(unknown(demo_text(), "peak_pressure"))
    (known,) = done.unknowns
    deciding = [f for f in done.findings if f.name in known.decides]
    assert deciding
    assert all(f.verdict != "ok" and f.holds_if and f.holds_if in f.says for f in deciding)
    assert any("above" in f.holds_if or "below" in f.holds_if for f in deciding)


def test_it_stops_only_where_the_value_taken_does():
    done, job = checked(NO_GAUGE), load(NO_GAUGE)
    taken = {f.name for f in judge(size(job, contact=False), job) if f.verdict == "stop"}
    assert {f.name for f in done.findings if f.verdict == "stop"} == taken


def test_what_rests_on_nothing_unknown_says_nothing_of_it():
    done = checked(unknown(demo_text(), "bond_strength"))
    moved = {f.name for f in done.findings if f.holds_if}
    assert moved == {"plug.bond_reserve"}
    assert {n.partition(".")[0] for n in done.ranges} <= {"plug", "job"}


def test_what_decides_most_stands_first_and_what_changes_nothing_last():
    done = checked(NO_GAUGE)
    stops = {f.name for f in done.findings if f.verdict == "stop" or "stops" in f.holds_if}
    order = [(-len(stops & set(one.decides)), -len(one.decides)) for one in done.unknowns]
    assert order == sorted(order)
    assert done.unknowns[-1].decides == []
    assert done.unknowns[-1].key == "stud.friction"


def test_a_size_and_what_it_rests_on_have_their_range_in_the_record():
    sizes = checked(NO_GAUGE).record
    assert sizes["job.engine.peak_pressure"]["range"] == [2.5, 6.0]
    low, high = sizes["joint.gas_force"]["range"]  # force = pressure times area: by hand
    assert high / low == pytest.approx(6.0 / 2.5)
    assert "range" not in sizes["stud.length"]


def test_with_all_known_nothing_is_looked_for():
    done = checked(demo_text())
    assert (done.unknowns, done.ranges) == ([], {})
    assert not isinstance(done.book, FirstBook)
    assert not any(f.holds_if for f in done.findings)
    assert all(record.keys().isdisjoint({"holds_if", "past"}) for record in as_records(done.findings))


def test_what_was_made_is_judged_over_the_range_too():
    done = checked(unknown(demo_text(), "peak_pressure") + '\n[made]\n"stud.shank_diameter" = "6.0 mm"\n')
    assert done.made.unknowns[0].decides
    assert done.made.ranges["joint.gas_force"] == done.ranges["joint.gas_force"]


def test_a_state_that_can_not_be_is_told_and_not_judged(monkeypatch):
    from parts.unknowns import states

    def refusing(job, **options):
        if options.get("book") is not None and job.engine.peak_pressure > 5:
            from parts.errors import Fault

            raise JobError(Fault("engine.peak_pressure", "allows no such stud"))
        return size(job, **options)

    monkeypatch.setattr(states, "size", refusing)
    found = [f for f in checked(unknown(demo_text(), "peak_pressure")).findings if f.name.startswith("unknown.")]
    assert [f.verdict for f in found] == ["caution"]
    assert found[0].says.startswith(NOT_JUDGED)
    assert "60 bar" in found[0].says


def test_a_verdict_that_a_choice_takes_back_says_so():
    """An aluminium head that is taken as hotter than the metal keeps its shape at: it stops, and not below."""
    done = checked(unknown(demo_text(), "peak_pressure").replace('head = "170 degC"', 'head = "unknown"', 1))
    hot = [f for f in done.findings if f.name == "head.material_hot"]
    assert [f.verdict for f in hot] == ["caution"]
    assert "engine.hot.head: holds up to 200" in hot[0].holds_if


def test_what_the_heat_leaves_moves_the_mandrel_and_not_the_ring():
    """The mandrel is made to what a trial ring kept: held at 0.5 + (8.58 - 0.5) / share, by hand."""
    done = checked(unknown(demo_text(), "set_fraction"))
    assert done.ranges["mandrel.open_gap"] == pytest.approx([0.5 + 8.08 / 1.0, 0.5 + 8.08 / 0.8])
    assert not {"job.ring.free_gap", "ring.contact_pressure", "ring.working_stress"} & done.ranges.keys()
    (share,) = done.unknowns
    assert "the mandrel is made to that" in share.measure


def test_what_was_designed_is_cut_so_and_stays_whatever_is_true():
    bare = re.sub(r"^(preload_share|shank) = .*\n", "", NO_GAUGE, flags=re.MULTILINE)
    done = checked(bare)
    share, shank = (done.book[f"job.stud.{key}"] for key in ("preload_share", "shank"))
    assert share.status == shank.status == "designed"
    assert not {"job.stud.preload_share", "joint.preload_share", "stud.shank_diameter"} & done.ranges.keys()
    assert done.ranges["joint.preload_share_most"][0] < done.ranges["joint.preload_share_most"][1]
    cut = edited(bare, {("stud", "preload_share"): share.value, ("stud", "shank"): f"{shank.value} mm"})
    job, rng = load(cut), random.Random(7)  # noqa: S311
    for _ in range(20):
        values = drawn(job, rng) | {key: known.taken for key, known in named(job).items() if key.endswith(RING)}
        _, found = worked_out(job, values, contact=False)
        assert [f.name for f in found if not told(f, done)] == []
