"""Which fixtures a job asks for: by a table of their own, by [fixtures], by a stud's washer; and what is refused."""

import pytest

from parts.checked import check
from parts.errors import JobError
from parts.fixtures import FIXTURES, stem_of
from parts.job import load
from parts.register import pieces

STEMS = {stem_of(table) for table in FIXTURES}


def asked(text):
    return {piece.part.stem for piece in pieces(load(text))} & STEMS


def test_all_are_asked_for_by_one_word(demo):
    assert asked(demo) == set()
    assert asked(demo + '\n[fixtures]\nmake = ["all"]\n') == STEMS
    assert asked(demo + "\n[fixtures]\n") == STEMS


def test_one_is_asked_for_by_its_name_or_by_its_table(demo):
    assert asked(demo + '\n[fixtures]\nmake = ["ring-pot", "test-plate"]\n') == {"ring-pot", "test-plate"}
    assert asked(demo + "\n[ring_pot]\n") == {"ring-pot"}
    text = demo + '\n[fixtures]\nmake = ["ring-pot"]\n[ring_pot]\nmaterial = "C45"\n'
    assert load(text).ring_pot.material.name == "C45"  # its own table stands


def test_all_are_those_whose_work_is_in_the_job(demo):
    without = demo.without("ring", "mandrel") + '\n[fixtures]\nmake = ["all"]\n'
    assert asked(without) == {stem_of(t) for t, one in FIXTURES.items() if not {"ring", "mandrel"} & {*one.beside}}
    assert "clamp-plate" not in asked(demo.without("mandrel") + '\n[fixtures]\nmake = ["all"]\n')


def test_a_turned_washer_of_a_stud_is_made(demo):
    assert asked(demo.swap('washer = "ISO 7089 300 HV"', 'washer = "turned"')) == {"turned-washer"}


@pytest.mark.parametrize(
    ("table", "key", "says"),
    [
        ('[fixtures]\nmake = ["spoon"]', "fixtures.make.0", "must be 'all', 'clamp-plate', "),
        ("[fixtures]\nmake = []", "fixtures.make", "wants at least 1 entries, not 0"),
        ('[fixtures]\nmake = "all"', "fixtures.make", "wants a list in square brackets, not 'all'"),
        ('[ring_pot]\ndepth = "3 mm"', "ring_pot.depth", "is not a key here"),
        ('[test_plate]\npressure = "60 bar"', "test_plate.pressure", "must lie between 0.05 and 2 MPa, not '60 bar'"),
    ],
)
def test_what_is_none_is_told_by_its_key(demo, table, key, says):
    with pytest.raises(JobError) as told:
        load(f"{demo}\n{table}\n")
    (fault,) = told.value.faults
    assert fault.key == key
    assert says in fault.says


def test_a_fixture_without_its_work_is_refused(demo):
    for text in (
        demo.without("ring", "mandrel") + "\n[ring_pot]\n",
        demo.without("ring", "mandrel") + '\n[fixtures]\nmake = ["ring-pot"]\n',
    ):
        with pytest.raises(JobError, match=r"ring_pot.*needs \[ring\]"):
            load(text)


def test_a_test_plate_without_room_for_its_seal_says_so(demo):
    """Bolts of M16 on a circle of 39 mm: 39 - 8.5 - 28.6 - 3 is less than the narrowest groove's 2.65."""
    big = demo.swap(
        'tap_end = "M10x1.5"', 'tap_end = "M16"', 'rectangle = ["60.0 mm", "58.0 mm"]', 'rectangle = ["56 mm", "54 mm"]'
    )
    with pytest.raises(
        JobError, match=r"test_plate.*has no room for an O-ring between bore and bolts: .* the thinnest wants 2\.65 mm"
    ):
        check(big + "\n[test_plate]\n")
