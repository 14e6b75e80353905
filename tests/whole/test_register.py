"""A part is a row of the register and modules of its name: what a row lacks is named here.

Each part's table is taken out of a job that asks for every part, and what it alone brings is looked at: its sizes, its
steps of work, its stock. The lists of the tests come from the register too, and nobody types the names again.
"""

import ast
from importlib import import_module
from pathlib import Path

import pytest

from parts.checked import check
from parts.fixtures import FIXTURES
from parts.job import PART_TABLES, TABLES
from parts.job.schema import template
from parts.judging.limits import limits_of
from parts.register import PARTS, Part, load, tables, verbs
from parts.sheets.page import steps, stock, tools
from parts.sheets.page.words import Words

TESTS = Path(__file__).parents[1]
every = pytest.mark.parametrize("table", tables())
row = pytest.mark.parametrize("part", PARTS.values(), ids=list(PARTS))


def words(text):
    job, book, _ = check(text)
    return Words(book, job)


@pytest.fixture(scope="module")
def with_all(whole):
    return words(whole)


def without(whole, table):
    """The job without a part: and without what is made for it alone."""
    lost = {table, *({"mandrel"} if table == "ring" else ())}
    return words(whole.without(*lost, *(name for name, one in FIXTURES.items() if lost & {*one.beside})))


def lacking(part, with_all):
    """What a row of the register lacks, each in a word."""
    book, job = with_all.book, with_all.job
    if part.table not in PART_TABLES:
        yield "table"
    if f"# [{part.table}]" not in template():
        yield "place in the commented job file"
    if not any(one.table == part.table for one in verbs().values()):
        yield "verb"
    yield from (f"size {name}" for name in part.needs if name not in book)
    try:
        part.shape(book, job)
    except (ImportError, AttributeError) as error:
        yield f"shape: {error}"
    if not any(one.drawn or one.outlined for one in PARTS.values() if one.table == part.table):
        yield "drawing"
    for place in filter(None, (part.drawing, part.outlines)):
        try:
            load(place)
        except (ImportError, AttributeError) as error:
            yield f"drawing or outline: {error}"
    try:
        import_module(f"parts.sheets.page.{part.table}")
    except ImportError as error:
        yield f"module of the job sheet: {error}"


@row
def test_every_part_has_all_that_a_part_has(part, with_all):
    assert list(lacking(part, with_all)) == []


def test_what_a_row_lacks_is_named(with_all):
    found = list(lacking(Part("bent-spoon", "bent spoon", "spoon", "STEEL", ("spoon.length",)), with_all))
    assert [one.partition(":")[0] for one in found] == [
        "table",
        "place in the commented job file",
        "verb",
        "size spoon.length",
        "shape",
        "drawing",
        "drawing or outline",
        "module of the job sheet",
    ]


@every
def test_every_part_brings_a_step_of_work_its_stock_and_sizes_with_limits(table, whole, with_all):
    other = without(whole, table)
    new = [step for step in steps(with_all) if step.key not in {step.key for step in steps(other)}]
    assert new, "no step of work"
    held = [line.name for step in new for line in step.lines if limits_of(with_all.book, line.name) is not None]
    assert any(name.removeprefix("job.").startswith(f"{table}.") for name in held), "no size with limits"
    there = {(item.what, item.size, item.note) for item in (*stock(other), *tools(other))}
    assert [i for i in (*stock(with_all), *tools(with_all)) if (i.what, i.size, i.note) not in there], "no stock line"


@row
def test_every_part_has_its_files_and_its_picture(part, made_whole):
    ends = ["step", "stl", "3mf", "preview.png", *(("dxf", "pdf", "svg") if part.drawn else ())]
    assert [e for e in ends if not (made_whole / "parts" / f"{part.stem}.{e}").stat().st_size > 500] == []


def test_tables_of_parts_are_known_to_the_job(with_all):
    assert set(tables()) == set(PART_TABLES) <= set(TABLES)
    assert {step.turn for step in steps(with_all)}


def displays():
    """Lists, tuples, sets and dicts of the tests that name several parts: file, line and the names."""
    for path in sorted(p for p in TESTS.rglob("*.py") if "second_model" not in p.parts):  # another hand wrote that
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            inside = getattr(node, "elts", getattr(node, "keys", None))
            if isinstance(inside, list):
                names = {one.value for one in inside if isinstance(one, ast.Constant)} & {*PARTS, *verbs()}
                if len(names) > len(PARTS) // 2:
                    yield f"{path.relative_to(TESTS)}:{node.lineno} {sorted(names)}"


def test_no_test_types_the_names_of_the_parts_again():
    assert list(displays()) == []
