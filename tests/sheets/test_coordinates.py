"""coordinates.csv of a job with lists: every hole where a drawing board puts it, with its own drill and depth.

A tapping drill leaves the minor diameter between its limits for 6H: ISO 965-2, M10 8.376 to 8.676, M12 10.106 to 10.441.
Depth under a bottoming tap: the thread engaged, one pitch, and three pitches of the tap's lead (common practice, no
source).
"""

import csv
from io import StringIO
from math import atan2, degrees, hypot

import pytest

from parts.checked import checked
from parts.sheets.coordinates import HEAD, INCHES, coordinates_csv, machine_csv, rows
from tests.conftest import JOBS, Text

M10, M12 = (8.376, 8.676), (10.106, 10.441)
OLD = {"1": (27.577, 27.577, 9.6, 22.0), "2": (-37.67, 10.094, 9.6, 22.0), "3": (10.094, -37.67, 11.0, 25.0)}
NEW = {  # engaged 1.5 d in cast iron for the M12, 20 mm as given for the M10
    "1": (30.0, 29.0, M10, 20 + 4 * 1.5),
    "2": (-30.0, 29.0, M12, 1.5 * 12 + 4 * 1.75),
    "3": (-30.0, -29.0, M10, 20 + 4 * 1.5),
    "4": (30.0, -29.0, M12, 1.5 * 12 + 4 * 1.75),
}
PASSAGES = {
    "breather": (0.0, 42.0, 8.5, 18.0),
    "Oil drain": (-44.0, -8.0, 7.0, 15.0),
    "push rod": (43.0, 0.0, 9.0, None),
}


@pytest.fixture(scope="module")
def crossed():
    """The studs of two kinds stand crosswise, both tapped straight."""
    return Text((JOBS / "lists.toml").read_text(encoding="utf-8")).swap(
        "holes = [1, 2]", "holes = [3, 1]", "holes = [3, 4]", "holes = [2, 4]",
        'insert = { length = "1.5 d", tap = "bottoming" }', 'engagement = "20 mm"',
    )  # fmt: skip


def test_every_hole_has_its_own_drill_and_depth(crossed):
    done = checked(crossed)
    text = coordinates_csv(rows(done.book, done.job))
    assert text.splitlines()[0] == HEAD
    read = {(r["kind"], r["hole"]): r for r in csv.DictReader(StringIO(text))}
    wanted = {(kind, n): v for kind, of in (("old", OLD), ("new", NEW), ("passage", PASSAGES)) for n, v in of.items()}
    assert list(read) == [("bore", "bore"), *wanted]
    for key, (x, y, diameter, depth) in wanted.items():
        row = read[key]
        assert (float(row["x_mm"]), float(row["y_mm"])) == pytest.approx((x, y), abs=1e-6)
        assert float(row["radius_mm"]) == pytest.approx(hypot(x, y), abs=1e-6)
        assert float(row["angle_deg"]) == pytest.approx(degrees(atan2(y, x)) % 360, abs=1e-6)
        low, high = diameter if isinstance(diameter, tuple) else (diameter - 1e-6, diameter + 1e-6)
        assert low < float(row["diameter_mm"]) < high
        assert row["depth_mm"] == ("" if depth is None else f"{depth:.6f}")


def test_an_inch_job_reads_in_inches_too():
    """After the millimetres, whose figures they are over 25.4 (exact: the inch of 1959)."""
    text = (JOBS / "inch.toml").read_text(encoding="utf-8")
    text += '\n[measured.machine]\nreadings = [{ hole = "bore", at = ["4.0 in", "2.0 in"] },'
    done = checked(text + ' { hole = "new 1", at = ["6.0 in", "2.0 in"] }]\n')
    table = rows(done.book, done.job)
    both = [(coordinates_csv(table, inch=True), coordinates_csv(table))]
    both.append((machine_csv(done.book, table, inch=True), machine_csv(done.book, table)))
    names = ("x", "y", "radius", "diameter", "depth"), ("machine_x", "machine_y")
    for (text, plain), lengths in zip(both, names, strict=True):
        read = list(csv.DictReader(StringIO(text)))
        assert text.splitlines()[0] == plain.splitlines()[0] + "".join(f",{name}_in" for name in lengths)
        assert [[row[key] for key in plain.splitlines()[0].split(",")] for row in read] == [
            line.split(",") for line in plain.splitlines()[1:]
        ]
        for row in read:
            for name in lengths:
                mm, inch = row[f"{name}_mm"], row[f"{name}_in"]
                assert (mm == inch == "") or float(inch) == pytest.approx(float(mm) / 25.4, abs=6e-7)
    assert {float(row["machine_x_in"]) for row in read} >= {4.0}


def test_the_folder_of_an_inch_job_has_the_inches(made_of):
    for name, more in (("inch", INCHES), ("bsf", "")):
        assert (made_of(name) / "coordinates.csv").read_text(encoding="utf-8").splitlines()[0] == HEAD + more


def test_one_entry_and_two_alike_give_the_rows_of_the_plain_table(demo):
    plain = checked(demo)
    one = checked(demo.swap("[stud]", '[[stud]]\nname = "all"\nholes = [4, 2, 3, 1]'))
    stud = demo[demo.index("[stud]") + len("[stud]") : demo.index("[gasket]")]
    two = checked(
        demo.swap("[stud]", f'[[stud]]\nname = "a"\nholes = [1, 4]{stud}[[stud]]\nname = "b"\nholes = [3, 2]')
    )
    for listed in (one, two):
        assert rows(listed.book, listed.job) == rows(plain.book, plain.job)


def test_the_machine_is_told_every_hole_of_a_list(crossed):
    """Touched off on the bore and on new hole 1, the table turned a quarter: X reads what Y was, less the zero."""
    given = '\n[measured.machine]\nreadings = [{ hole = "bore", at = ["100.0 mm", "50.0 mm"] },'
    given += ' { hole = "new 1", at = ["71.0 mm", "80.0 mm"] }]\n'
    done = checked(crossed + given)
    text = machine_csv(done.book, rows(done.book, done.job))
    read = {(r["kind"], r["hole"]): r for r in csv.DictReader(StringIO(text))}
    x, y = (float(read["old", "3"][f"machine_{axis}_mm"]) for axis in "xy")
    assert (x, y) == pytest.approx((100 + 37.67, 50 + 10.094), abs=1e-6)
    assert len(read) == 1 + 3 + 4 + 3
