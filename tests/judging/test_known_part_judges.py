"""What is known stops the job even where the rest is not, and what is not known is never ok; each worked by hand."""

import pytest

from parts.job import load
from parts.judging.findings import judge
from parts.sizing import size
from tests.conftest import Text

HOT = """[engine.hot]                                # working temperatures of the top end, run in
stud = "145 degC"
head = "170 degC"
barrel = "160 degC"
ring = "200 degC"
bore_wall = "160 degC"
"""
SHARE, PASSAGE = "preload_share = 0.37 ", 'at = ["0.0 mm", "42.0 mm"]'


def judged(text):
    job = load(text)
    book = size(job, contact=False)
    return book, {f.name: f for f in judge(book, job)}


def test_the_run_up_alone_stops_a_stud(demo):
    """0.8 of the proof load and a quarter on top is all of it, before any heat: over 1 in the run-up."""
    book, found = judged(Text(demo).swap(HOT, "", SHARE, "preload_share = 0.80 "))
    assert book["joint.proof_use"].value > 1.25 * 0.8
    assert found["joint.proof_use"].verdict == "stop"
    assert found["joint.washer_pressure"].verdict != "ok"
    assert found["joint.run_in"].says.startswith("not judged:")


def test_the_run_up_alone_is_not_all_of_it(demo):
    assert "joint.run_in" not in judged(demo)[1]
    _, found = judged(Text(demo).swap(HOT, ""))
    assert found["joint.run_in"].verdict == "caution"
    assert any("engine.hot" in f.says and "Least preload in any state" in f.says for f in found.values())


def test_a_barrel_hotter_in_the_run_up_than_one_not_told_of(demo):
    """Without the heat run in 200 degC is taken; a barrel of 230 degC in the run-up has that at least."""
    run_up = ('barrel = "140 degC"', 'barrel = "230 degC"')
    assert judged(Text(demo).swap(HOT, ""))[0]["barrel.hottest"].value == 200
    assert judged(Text(demo).swap(HOT, "", *run_up))[0]["barrel.hottest"].value == 230


def test_no_more_than_all_of_a_thread_lies_in_filler(demo):
    """Old holes of 24 mm on a circle that brings one another's edge over the new hole: each has it whole."""
    holes = '{ points = [["30 mm", "29 mm"], ["31 mm", "30 mm"]] }'
    change = ('{ circle = "78 mm", count = 3, first = "45 deg" }', holes, 'diameter = "9.6 mm"', 'diameter = "24 mm"')
    book, found = judged(Text(demo).swap(*change))
    assert book["deck.hole.1.in_filler"].value == 1
    assert found["deck.hole.1.in_filler"].verdict == "stop"
    assert book["strip.sound_force"].value == 0


@pytest.mark.parametrize("studs", ["none", "one kind", "two kinds"])
def test_a_passage_by_the_bore_stops_whatever_the_studs(demo, studs):
    """Hole of 8.5 mm at 34.5: 34.5 - 4.25 - 28.6 = 1.65 mm of metal to the bore, and 2 mm is the least."""
    text = Text(demo).swap(PASSAGE, 'at = ["0.0 mm", "34.5 mm"]').without("plug")
    if studs == "none":
        text = text.without("stud", "gasket")
    elif studs == "two kinds":
        text = two_kinds(text)
    book, found = judged(text)
    assert book["deck.passage.0.to_bore"].value == pytest.approx(1.65)
    assert found["deck.thinnest"].verdict == "stop"


def two_kinds(text):
    """The studs as a list of two, of two holes each."""
    before, _, rest = str(text).partition("[stud]")
    keys, _, after = rest.partition("[gasket]")
    lists = "".join(f'[[stud]]\nname = "{n}"\nholes = {h}{keys}' for n, h in (("front", [1, 4]), ("rear", [2, 3])))
    return Text(f"{before}{lists}[gasket]{after}")


def test_studs_under_gas_without_a_gasket_are_not_judged(demo):
    """What pushes on the head hangs on the diameter that seals: it is asked for, and so is what the studs stand in."""
    for table, asked in (("gasket", "gasket.thickness"), ("barrel", "barrel.material")):
        _, found = judged(Text(demo).without(table, "plug", "gasket"))
        told = [f for f in found.values() if f.says.startswith("not judged:") and asked in f.says]
        assert {f.verdict for f in told} == {"caution"}
    assert not any(
        "gasket." in f.says
        for f in judged(Text(demo).without("engine", "gasket", "ring", "mandrel"))[1].values()
        if f.name.startswith("not_judged")
    )


def test_two_studs_across_the_bore_are_never_ok(demo):
    """The bore's axis lies on their line, 0 inside: a caution, whether or not it is known what seals."""
    across = (
        'rectangle = ["60.0 mm", "58.0 mm"], turned = "0 deg"',
        'points = [["40 mm", "0 mm"], ["-40 mm", "0 mm"]]',
    )
    for text in (Text(demo), Text(demo).without("gasket")):
        assert judged(text.swap(*across))[1]["joint.bore_inside"].verdict == "caution"


def test_metal_under_an_old_hole_has_its_least_without_studs(demo):
    """32 - 0.12 - 30.5 = 1.38 mm of metal: under 2 mm, which hangs on no stud."""
    text = Text(demo).without("stud", "gasket").swap('depth = "22 mm"', 'depth = "30.5 mm"')
    book, found = judged(text)
    assert book["deck.old.1.floor"].value == pytest.approx(1.38)
    assert found["deck.old.1.floor"].verdict == "caution"


def test_an_old_gasket_that_is_not_given_leaves_the_squish_not_judged(demo):
    """A new one of 1.2 under a squish of 1.6 and a skim of 0.12 is 1.48, had the old been 1.2; had it been 2.2 it is 0.48."""
    _, found = judged(Text(demo).swap('old_thickness = "1.60 mm"', ""))
    assert found["compression.old_gasket"].says.startswith("not judged:")
    assert "compression.old_gasket" not in judged(demo)[1]


def test_a_mandrel_for_the_oven_tells_its_metal_and_its_heat(demo):
    heat = 'heat_set = { temperature = "600 degC", soak = "1 hour", set_fraction = 0.95 }'
    for change in ((heat, ""), ('material = "C45"', "")):
        found = judged(Text(demo).swap(*change))[1]["mandrel.material"]
        assert (found.verdict, found.says[:11]) == ("caution", "not judged:")


def test_a_land_that_wants_an_outline_says_so(demo):
    _, found = judged(Text(demo).swap('outline = { circle = "112 mm" }', ""))
    assert any("Narrowest land" in f.says and "barrel.outline" in f.says for f in found.values())


def test_a_gas_force_without_a_raised_face_says_that_it_was_not_given(demo):
    """The deck's outline gives the seating stress, not the gas force: without either the face is still asked for."""
    _, found = judged(Text(demo).swap('outline = { circle = "112 mm" }', "", 'joint_face = "66 mm"', ""))
    assert found["gasket.joint_face"].says.startswith("not judged:")


def test_a_thread_that_strips_cold_stops_whatever_the_heat(demo):
    """0.6 of 810 pi/4 6.2^2 = 14.67 kN, 18.34 as the wrench may leave it; 1.25 times that, 22.9 kN, is more than is left."""
    run_up = 'stud = "115 degC"\nhead = "180 degC"\nbarrel = "140 degC"\n'
    start = str(demo).index("[engine.run_up]")
    cut = str(demo)[:start] + str(demo)[str(demo).index(run_up) + len(run_up) :]
    text = Text(cut).swap(
        HOT, "", 'length = "1.5 d"', 'length = "1 d"', SHARE, 'step_depth = "7 mm"\npreload_share = 0.6 '
    )
    book, found = judged(text)
    assert "joint.greatest_preload" not in book
    assert book["joint.hardest_preload"].value == pytest.approx(18341, abs=1)
    assert book["strip.sound_force"].value < 22926
    assert found["strip.sound_force"].verdict == "stop"
    assert any(f.says.startswith("not judged:") and "engine.hot" in f.says for f in found.values())


def test_a_washer_bears_no_further_than_the_boss(demo):
    """Washer of 16 on a boss of 14 with a hole of 9: pi/4 (14^2 - 9^2) = 90.32 mm^2, not 137.44."""
    assert judged(demo)[0]["joint.washer_area"].value == pytest.approx(137.44, abs=0.01)
    book, _ = judged(Text(demo).swap('boss = "24 mm"', 'boss = "14 mm"'))
    assert book["joint.washer_area"].value == pytest.approx(90.32, abs=0.01)
