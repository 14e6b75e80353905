"""The tables of ranges against the other tables, which were taken from standards each by itself, and against print."""

from fnmatch import fnmatchcase

import pytest

from parts.job.material_models import MaterialSpec
from parts.sizing.materials import PROPERTIES
from parts.tables import family_of, material, material_names
from parts.tables.read import table
from parts.tables.unknown import Kind, family_range, has_range, how_to_measure, usual_range

ROWS = table("unknown_ranges").rows
FAMILIES = table("family_ranges").rows
PRINTED = [  # key, material, low, high as remembered of print; none was looked up
    pytest.param("stud.friction", "", 0.08, 0.16, id="VDI 2230-1 table A5, class B, memory"),
    pytest.param(
        "ring.material.modulus", "ring iron, grey", 85e3, 115e3, id="ISO 6621-3, grey, not heat treated, memory"
    ),
]


@pytest.mark.parametrize(("key", "name", "low", "high"), PRINTED)
def test_a_range_holds_the_band_in_print(key, name, low, high):
    found = usual_range(key, Kind(), default=None, material=name)
    assert found.low <= low
    assert found.high >= high


@pytest.mark.parametrize("row", [*ROWS, *FAMILIES], ids=lambda row: f"{row.get('key') or row['family']} {row['low']}")
def test_every_row_is_in_order_and_says_where_it_comes_from(row):
    assert row["status"] in ("seen", "derived", "memory")
    assert row["source"]
    if row["low"]:
        low, taken, high = (float(row[end]) for end in ("low", "taken", "high"))
        assert low <= taken <= high
        assert low < high


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["key"])
def test_no_end_is_what_few_engines_have(row):
    """By the table of usual values: what one table takes the other does not call odd."""
    usual = [u for u in table("usual_ranges").rows if fnmatchcase(row["key"], u["key"]) and not u["of"]]
    for one in usual:
        assert float(one["low"]) <= float(row["low"])
        assert float(row["high"]) <= float(one["high"])


@pytest.mark.parametrize("name", material_names())
def test_the_range_of_a_family_holds_its_materials(name):
    """The figures of materials.csv are those of the materials' own standards."""
    for key, prop in PROPERTIES.items():
        known = family_range([family_of(name)], key, sheet="annealed" in name)
        for _, figure in material(name).figures.get(prop, ()) if known else ():
            assert known.low <= figure.value <= known.high, (key, figure)


def test_every_key_with_a_range_has_a_way_to_measure_it():
    assert [row["key"] for row in ROWS if not how_to_measure(row["key"].replace("*", ""))] == []
    assert [row["property"] for row in FAMILIES if not how_to_measure(f"head.material.{row['property']}")] == []


def test_every_property_of_a_family_is_one_of_a_material():
    assert {row["property"] for row in FAMILIES} <= MaterialSpec.model_fields.keys()


def test_no_choice_has_a_range():
    choices = ("stud.preload_share", "ring.free_gap", "plug.safety_heat", "barrel.drilled_within", "gasket.thickness")
    assert not any(map(has_range, choices))


def test_of_an_engine_that_could_be_either_the_range_is_of_both():
    """From the least of a two-stroke to the most of a four-stroke; of either one its own row."""
    two, four, any_ = (usual_range("engine.peak_pressure", Kind(cycle=c)) for c in ("two-stroke", "four-stroke", None))
    assert two.low < four.low
    assert two.high < four.high
    assert (any_.low, any_.high) == (two.low, four.high)
