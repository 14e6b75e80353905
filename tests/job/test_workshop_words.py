"""Words of the workshop for a material: taken for the weakest that they usually mean, as an assumption with its range."""

import pytest

from parts import tables
from parts.checked import check, checked
from parts.job import JobError, load
from parts.tables.read import table
from tests.listed import studs as studs_in_lists
from tests.listed import text, worked

WORDS = [
    pytest.param(row["place"], row["word"], id=f"{row['place']}: {row['word']}") for row in table("workshop_words").rows
]
STRENGTHS = ("yield", "tensile", "bending")
PLACE = {  # place -> a job with the word in it
    "barrel": '[barrel]\nmaterial = "{}"\ndeck_depth = "30 mm"\n',
    "head": '[head]\nmaterial = "{}"\n',
    "sheet": '[gasket]\nmaterial = "{}"\nthickness = "1 mm"\n',
    "bar": '[stud]\nmaterial = "{}"\ntap_end = "M10"\nnut_end = "M8"\n',
    "ring": '[engine]\nbore = "60 mm"\n[ring]\nmaterial = "{}"\naxial_width = "2.38 mm"\nradial_thickness = "2.4 mm"\n'
    'free_gap = "8.6 mm"\nclosed_gap = "0.2 mm"\nslit = "0.5 mm"\n',
}
PART = {"barrel": "barrel", "head": "head", "sheet": "gasket", "bar": "stud", "ring": "ring"}


@pytest.mark.parametrize(("place", "word"), WORDS)
def test_a_word_is_taken_for_the_weakest_of_what_it_means(place, word):
    meant = tables.meant(place, word)
    assert {meant.takes, meant.to} <= set(tables.material_names())
    for prop in STRENGTHS:
        for section in (5.0, 12.0, 16.0, 35.0):
            taken, best = (tables.material(name).figure(prop, diameter=section, section=section) for name in meant)
            if taken and best:
                assert taken.value <= best.value, (prop, section)


@pytest.mark.parametrize(("place", "word"), WORDS)
def test_a_word_is_sized_by_as_an_assumption(place, word):
    _, book, _ = check(PLACE[place].format(word.capitalize()))
    entry, meant = book[f"{PART[place]}.modulus"], tables.meant(place, word)
    assert entry.status == "assumed"
    assert entry.value == tables.material(meant.takes).figure("modulus").value
    assert f"{word.capitalize()}, taken as {meant.takes}" in entry.source


def test_the_range_is_told_with_the_value():
    """EN 1561: 110 MPa of grade 150 at 20 mm, 195 MPa of grade 250."""
    _, book, _ = check('[barrel]\nmaterial = "cast iron"\ndeck_depth = "20 mm"\n')
    assert book["barrel.tensile_strength"].value == 110
    assert "of 110 to 195" in book["barrel.tensile_strength"].source


def test_the_range_stands_in_the_record_of_the_size_and_of_no_other():
    job = '[barrel]\nmaterial = "cast iron"\ndeck_depth = "20 mm"\n[head]\nmaterial = "EN-GJL-150"\n'
    record = checked(job).record
    assert record["barrel.tensile_strength"]["range"] == [110, 195]
    assert not any("range" in size for name, size in record.items() if not name.startswith("barrel."))
    studs = studs_in_lists(worked(), front={"holes": [1, 2], "material": "steel"}, rear={"holes": [3, 4]})
    record = checked(text(studs)).record
    low, high = record["stud.front.tensile_strength"]["range"]
    assert low == record["stud.front.tensile_strength"]["value"] < high
    assert "range" not in record["stud.rear.tensile_strength"]


def test_a_name_of_the_table_is_no_assumption():
    _, book, _ = check('[barrel]\nmaterial = "EN-GJL-150"\n')
    assert book["barrel.modulus"].status == "memory"


@pytest.mark.parametrize(
    ("place", "says"),
    [
        ("barrel", "usual here are 'EN-GJL-250', 'EN-GJL-200', 'AlSi7Mg0.3 T6'."),
        ("head", "usual here are 'AlSi7Mg0.3 T6', 'AlSi7Mg0.3 permanent mould T6', 'EN-GJL-250'."),
        ("sheet", "usual here are 'copper, annealed', 'aluminium, annealed', 'CuZn39Pb3'."),
        ("bar", "usual here are '42CrMo4 +QT', 'C45 +QT', '11SMn30'."),
    ],
)
def test_what_no_word_means_names_the_three_that_are_usual_there(place, says):
    with pytest.raises(JobError, match="is not in the material table") as error:
        load(PLACE[place].format("putty"))
    assert says in str(error.value)
    assert str(error.value).count("'") <= 10


def test_a_word_means_nothing_where_it_is_not_usual():
    with pytest.raises(JobError, match="'silver steel' is not in the material table: usual here"):
        load(PLACE["sheet"].format("silver steel"))


def test_a_word_with_the_user_s_own_values_is_a_name():
    job = load('[barrel]\nmaterial = { name = "cast iron", modulus = "105 GPa" }\n')
    assert job.barrel.material.label == "cast iron"
