"""The order of work says what is true of the job at hand, and its tools are those that its steps name.

Jobs are the worked one with one choice of each of these at a time, in every pair of choices; what must stand in a page is
read from the choice alone. What belongs to which metal and which engine is common practice, no source, but where another
source is named.
"""

import re
from math import asin, degrees

import pytest

from parts.errors import JobError
from parts.job import load
from parts.judging.findings import judge
from parts.sheets.page import cared, steps, stock, tools
from parts.sheets.page.words import Words
from parts.sizing import size
from tests.matrix import BRAZE, CHOICES, WAYS, written


@pytest.fixture(scope="module")
def jobs(demo):
    """The worked job and every pair of other choices: what was chosen, the words of its sheet."""
    found = []
    for ways in ({}, *WAYS):
        job = load(written(demo, ways))
        found.append((ways, Words(size(job, contact=False), job)))
    return found


def chosen(ways, key):
    return ways.get(key, CHOICES[key][0])


def told(step):
    return " ".join([step.title, *step.do, *(line.says for line in step.lines)])


def each(jobs):
    """Every job with its steps by key and all that they say."""
    for ways, words in jobs:
        found = {step.key: step for step in steps(words)}
        yield ways, words, found, " ".join(map(told, found.values()))


def test_there_are_two_hundred(jobs):
    assert len(jobs) > 200


def test_dust_is_that_of_the_metal(jobs):
    for ways, _, found, _ in each(jobs):
        iron = "EN-GJL" in chosen(ways, "barrel")
        for key in {"fill", "skim", "face", "drill"} & found.keys():
            about = [caution.about for caution in found[key].cautions]
            assert ("Iron swarf and dust" in about) == iron, (ways, key)
            assert iron or "Swarf" in about


def test_nothing_is_said_of_a_braze_that_is_not_made(jobs):
    for ways, _, found, says in each(jobs):
        holes = ways.get("tables") != "[barrel.old_holes]"
        assert ("fill" in found) == holes
        assert bool(re.search("(?i)braz|torch comes", says)) == (holes and chosen(ways, "fill") == BRAZE), ways


def test_an_aluminium_barrel_is_not_brazed(jobs):
    """Bronze rod flows some 300 degC above where the alloy melts: handbooks, from memory."""
    for ways, _, found, _ in each(jobs):
        if "AlSi" in chosen(ways, "barrel") and chosen(ways, "fill") == BRAZE and "fill" in found:
            assert found["fill"].do[0].startswith("Do not braze this barrel")
            assert not re.search("Preheat|rod", " ".join(found["fill"].do[1:]))


def test_only_an_engine_with_valves_has_any(jobs):
    for ways, _, found, says in each(jobs):
        four = chosen(ways, "cycle") == CHOICES["cycle"][0]
        if not four:
            assert not re.search("(?i)valve|push rod|rocker|oil now", says), ways
        side = "side valves" in chosen(ways, "gear")
        assert ("clay on the crown under each" in says) == (four and not side and "drop" in found), ways


def test_a_sheet_is_annealed_as_its_metal_is(jobs):
    for ways, _, found, says in each(jobs):
        sheet = chosen(ways, "sheet") if "gasket" in found else ""
        assert ("dull red" in says) == ("copper, annealed" in sheet), ways
        assert ("hand soap" in says) == ("aluminium, annealed" in sheet), ways
        if "gasket" in found:
            assert ("Annealing sheet" in [c.about for c in found["gasket"].cautions]) == ("annealed" in sheet)


def test_a_plug_that_is_not_there_is_not_tested(jobs):
    for ways, _, found, _ in each(jobs):
        there = ways.get("tables") != "[plug]"
        for key in {"test", "run"} & found.keys():
            assert ("blanking plug" in told(found[key])) == there, ways


def test_what_stands_proud_is_faced_off_with_a_skim_or_without(jobs):
    for ways, _, found, _ in each(jobs):
        plug = ways.get("tables") != "[plug]" and chosen(ways, "proud") == CHOICES["proud"][0]
        filler = ways.get("tables") != "[barrel.old_holes]"
        skim = chosen(ways, "skim") == CHOICES["skim"][0]
        assert ("skim" in found) == skim, ways
        assert ("face" in found) == (not skim and (plug or filler)), ways


def test_a_printed_mandrel_is_tried_and_the_rings_are_set_all_the_same(jobs):
    for ways, _, found, _ in each(jobs):
        if "mandrel" not in found:
            continue
        printed = "fit check" in chosen(ways, "purpose")
        assert ("Print it" in told(found["mandrel"])) == printed
        assert ("Turn the" in told(found["mandrel"]) or "Cut the seat" in told(found["mandrel"])) != printed
        assert "heat" in found
        assert ("one of steel" in told(found["heat"])) == printed


def test_a_shoulder_has_its_counterbore(jobs):
    for ways, words, found, says in each(jobs):
        there = "shoulder" in chosen(ways, "plug") and "plug" in found
        assert ("Counterbore it" in says) == there, ways
        assert any(item.what == "counterbore" for item in tools(words)) == there
        if there:  # 12 mm and 0.2 of room; 3 mm and what the skim takes
            skim = 0.12 if "skim" in found else 0.0
            assert words.value("plug.counterbore_diameter") == pytest.approx(12.2)
            assert words.value("plug.counterbore_depth") == pytest.approx(3 + skim)
            lines = {line.name: line.limits for line in found["plug"].lines}
            if words.system == "metric":  # a tenth under the shoulder, a tenth either way of what it drops into
                assert lines["job.plug.shoulder.diameter"] == "11.900 to 12.000 mm"
                assert lines["plug.counterbore_diameter"] == "12.100 to 12.300 mm"


def test_threads_are_pulled_before_anything_is_set(jobs):
    for ways, words, found, _ in each(jobs):
        if "prove" not in found:
            assert ways.get("tables") in {"[stud]", "[gasket]"}, ways
            continue
        order = list(found)
        assert order.index("studs") < order.index("prove") < order.index("set")
        least, torque = words.value("joint.proof_pull_least"), words.value("joint.proof_torque")
        pulls = (least / 1000, "kN") if words.system == "metric" else (least / 4.4482216, "lbf")
        shown = float(re.search(rf"stood ([\d.]+) {pulls[1]} at the least", told(found["prove"]))[1])
        assert shown == pytest.approx(pulls[0], abs=0.05 if words.system == "metric" else 5)
        assert f"{torque:.1f} N m" in told(found["prove"]) or words.system == "inch"
        short = least < words.value("joint.preload")
        assert ("less than the nut will pull" in told(found["prove"])) == short, ways


def test_a_compound_cures_before_any_torque(jobs):
    for _, _, found, _ in each(jobs):
        if "set" in found and "retaining compound" in told(found["set"]):
            assert "cured in full" in told(found["set"])
            assert list(found).index("set") < list(found).index("tighten")


THINGS = [  # what a step says -> what then stands on the list
    ("(?i)micrometer|callipers", "micrometer and callipers"), ("bore gauge|measure the bore right away", "bore gauge"),
    ("burette", "burette"), ("crack dye", "crack dye"), ("by torch", "torch"), ("Preheat", "temperature crayon"),
    ("stop-off: neither", "stop-off paint"), ("dry lime", "dry lime, ash or vermiculite"), ("flat file|fine file|File the ends|file it|Rough-face", "flat file"),
    ("surface plate", "surface plate"), ("dial indicator", "dial indicator"), ("depth gauge", "depth gauge"),
    ("straight-edge", "straight-edge"), ("(?i)feelers?\\b", "feelers"), ("Centre-drill", "tap drill"), ("centre-cutting end mill", "centre-cutting end mill"),
    ("two pins", "two pins"), ("^Hone|Hone to", "hone"), ("Countersink", "countersink"), ("stone the burr|fine stone", "fine stone"),
    ("tap for wire inserts", "tap for wire inserts"), ("Wind the inserts", "wire inserts"), ("Tap M10x1.5", "tap"),
    ("screwcut it", "threading tool"), ("cut it by die", "die"), ("three wires", "three wires"), ("split bush", "split bush"),
    ("a spacer", "spacer"), ("torque wrench", "torque wrench"), ("two nuts locked", "two nuts"), ("retaining compound", "retaining compound"),
    ("Ream the", "reamer"), ("Counterbore it", "counterbore"), ("press it in", "press"), ("printed template", "template"),
    ("punch or bore", "punches or a boring head"), ("shears or fretsaw", "shears or fretsaw"), ("(?i)modelling clay", "modelling clay"),
    ("ring compressor", "ring compressor"), ("compression gauge|compression by gauge", "compression gauge"), ("Soapy water", "soapy water"),
    ("pot chuck", "pot chuck or split ring"), ("slitting saw", "slitting saw"), ("between two plates", "two plates and a clamp"),
    ("Heat with the oven", "oven"), ("second thermometer", "second thermometer"), ("shut tin", "shut tin with iron chips or charcoal"),
    ("A flat plate on top", "flat plate and bolt"), ("soft iron wire", "soft iron wire"), ("fine abrasive paper", "fine abrasive paper"),
    ("ring pliers", "ring pliers or thin sleeve"), ("on a rotary table", "rotary table"), ("drill for the pin", "drill and reamer"),
    ("Print it", "printer"), ("Set the rings on one of steel", "steel mandrel"), ("Saw each stub", "hacksaw"), ("with the tapping drill", "tapping drill"),
    ("second and bottoming tap", "taps"), ("cut its thread by die", "die"), ("Pin each", "drill for the pins"), ("fly cutter", "fly cutter or face mill"),
    ("out to clean metal", "drill or end mill"), ("part off", "parting tool"), ("nuts, all snug", "nuts"), ("Washers, ", "washers"),
]  # fmt: skip
ONLY_RINGS = {"parting tool"}  # part of every lathe: listed where its width counts


def test_every_thing_that_a_step_names_is_on_the_list_and_nothing_else(jobs):
    for ways, words, _, says in each(jobs):
        listed = {item.what for item in tools(words)}
        known = {thing for _, thing in THINGS}
        assert listed <= known, ways
        for thing in known - ONLY_RINGS:
            named = any(re.search(pattern, says) for pattern, what in THINGS if what == thing)
            assert named == (thing in listed), (thing, ways)


def test_stock_is_as_much_as_is_made(jobs):
    for ways, words, found, _ in each(jobs):
        if "studs" in found:
            # four and one to try, each faced on both ends and parted; 30 mm in the chuck
            whole = 5 * (words.value("stud.length") + 2 * 1.0 + 2.0) + 30
            bar = next(item.size for item in stock(words) if item.note.startswith("4 studs and one to try"))
            long = float(re.findall(r"× ([\d.]+) ", bar)[0]) * (25.4 if words.system == "inch" else 1)
            assert 0 <= long - whole < 1.7, ways
        iron = sum("bar, iron, for screwed plugs" in item.what for item in stock(words))
        assert iron == ("fill" in found and chosen(ways, "fill") != BRAZE)


def test_each_caution_stands_once_in_full_then_shortly(jobs):
    for ways, words, _, _ in each(jobs):
        work = steps(words)
        says, full = cared(work), {}
        for number, step in enumerate(work, 1):
            for caution in step.cautions:
                text = says[step.key, caution.about]
                if text == caution.says:
                    assert caution.about not in full, (ways, caution.about)
                    full[caution.about] = number
                else:
                    assert caution.again, caution.about
                    assert text == f"{caution.again} In full at step {full[caution.about]}."


def test_what_springs_open_is_warned_of(jobs):
    for _, _, found, _ in each(jobs):
        for key in {"heat", "fit"} & found.keys():
            assert "Brittle rings" in [caution.about for caution in found[key].cautions]


# screwed plugs


@pytest.mark.parametrize(
    ("given", "thread", "drill"),
    [
        ('"9.6 mm"', "M12x1.5", 10.5),  # ISO 2306: 10.5 for M12 x 1.5
        ('"5/16 BSF"', "M10x1", 9.0),  # a thread of 7.94: ISO 2306, 9.0 for M10 x 1
        ('"M8"', "M10x1", 9.0),
    ],
)
def test_a_screwed_plug_has_a_thread_larger_than_its_hole(demo, given, thread, drill):
    """Tapping drills of ISO 2306 (memory); lengths by hand: 22 mm deep less three pitches."""
    text = demo.swap(BRAZE, 'fill = "screwed iron plug"', 'diameter = "9.6 mm"', f"diameter = {given}")
    words = Words(size(job := load(text), contact=False), job)
    fill = next(step for step in steps(words) if step.key == "fill")
    assert words.value("screwed.tap_drill") == drill
    assert words.value("screwed.nominal") == pytest.approx(float(thread[1:].split("x")[0]))
    assert words.value("screwed.length") == pytest.approx(22 - 3 * float(thread.split("x")[1]))
    assert thread in " ".join(fill.do)
    assert any(item.what == "taps" and item.each == thread for item in fill.needs)


def test_a_thread_no_larger_than_the_hole_is_refused(demo):
    text = demo.swap(BRAZE, 'fill = "screwed iron plug"\nthread = "M10"')
    with pytest.raises(
        JobError, match=r"barrel.old_holes.thread.*leaves no thread in a hole of 9.6 mm: M10x1.5 wants 8.68 mm"
    ):
        size(load(text), contact=False)


def test_a_new_thread_that_only_meets_the_plugs_own_is_cut_into_it(demo):
    """By hand: centres 39 mm from the bore and 10.9 mm apart; M10 and M12 reach 11, the old hole of 9.6 only 9.8."""
    turned = 45 + degrees(2 * asin(10.9 / 2 / 39))
    text = demo.swap(
        BRAZE, 'fill = "screwed iron plug"',
        'holes = { rectangle = ["60.0 mm", "58.0 mm"], turned = "0 deg" }',
        f'holes = {{ circle = "78 mm", count = 4, first = "{turned:.6f} deg" }}',
        'insert = { length = "1.5 d", tap = "bottoming" }', "",
    )  # fmt: skip
    job = load(text)
    book = size(job, contact=False)
    assert book["deck.hole.1.to_old"].value == pytest.approx(10.9 - 5 - 4.8, abs=1e-6)
    assert "deck.hole.1.screwed_plug" in {f.name for f in judge(book, job) if f.verdict == "stop"}
