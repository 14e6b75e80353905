"""The exact factors that stand in units.py, against the unit library and against their definitions."""

import pytest

from parts.units import EXACT, IN_INCHES, IN_PINT, KINDS, convert, pint_name, printed, registry, with_spread
from tests.conftest import ROOT

FOUND = [
    (unit, base)
    for _, (base, _, units) in KINDS.items()
    for unit in units.replace(",", "").split()
    if (unit, base) in EXACT
]
VALUES = (1.0, 0.3, 57.2, 1234.5, 1e-3)


@pytest.mark.parametrize(("unit", "base"), sorted(EXACT))
def test_an_exact_factor_is_that_of_the_unit_library(unit, base):
    kind = next(kind for kind, (of, _, units) in KINDS.items() if of == base and unit in units.replace(",", "").split())
    for value in VALUES:
        by_library = registry().Quantity(value, IN_PINT.get(unit, unit).replace("^", "**")).m_as(pint_name(base))
        assert convert(value, unit, kind) == pytest.approx(float(by_library), rel=1e-15, abs=0)


@pytest.mark.parametrize(
    ("value", "unit", "kind", "defined"),
    [
        (1.0, "in", "length", 25.4),  # international yard and pound agreement of 1959
        (2.5, "in", "length", 63.5),
        (1000.0, "thou", "length", 25.4),
        (38.0, "bar", "pressure", 3.8),  # SI Brochure, table 8 of the 8th edition: 1 bar = 0.1 MPa
        (31.0, "cm^3", "volume", 31000.0),
        (11.5, "um/m/K", "expansion", 11.5e-6),
    ],
)
def test_what_is_exact_comes_out_exact(value, unit, kind, defined):
    assert convert(value, unit, kind) == defined


def test_every_factor_belongs_to_a_kind():
    assert set(FOUND) == set(EXACT)


@pytest.mark.parametrize("unit", sorted(IN_INCHES))
def test_what_is_printed_in_inch_units_is_what_the_unit_library_has(unit):
    _, name, places = IN_INCHES[unit]
    by_library = (
        registry().Quantity(54321.0, pint_name(unit).replace("^", "**")).m_as(pint_name(name).replace("^", "**"))
    )
    assert printed(54321.0, unit, "inch") == f"{by_library:.{places}f} {name}"


@pytest.mark.parametrize(
    ("value", "unit", "system", "shown"),
    [
        (31000.0, "mm^3", "metric", "31.00 cm^3"),
        (100.0, "degC", "inch", "212 degF"),  # water boils
        (-40.0, "degC", "inch", "-40 degF"),
        (11.5e-6, "1/K", "inch", "11.5 um/m/K"),
        (57.2, "mm", "metric", "57.200 mm"),
        (0.98765, "1", "metric", "0.9877"),
        (1.23456, "MPa", "metric", "1.235 MPa"),
        (99.96, "MPa", "metric", "99.960 MPa"),
        (123.456, "MPa", "metric", "123.5 MPa"),
        (9999.6, "N", "metric", "9999.6 N"),
        (10000.4, "N", "metric", "10000 N"),
        (57.2, "N/mm", "metric", "57 N/mm"),
    ],
)
def test_how_many_figures_are_printed(value, unit, system, shown):
    """Our own choice: micrometres, a tenth of a newton or a MPa, and four figures or so elsewhere."""
    assert printed(value, unit, system) == shown


def test_a_spread_is_printed_to_the_same_decimals():
    """10 K are 18 F; half of the last decimal is still shown, less is told by it."""
    assert with_spread(100.0, 10.0, "degC", "inch") == "212 degF ± 18 degF"
    assert with_spread(25.4, 0.0127, "mm", "inch") == "1.0000 in ± 0.0005 in"
    assert with_spread(57.2, 0.00052, "mm") == "57.200 mm ± 0.001 mm"
    assert with_spread(57.2, 0.00048, "mm") == "57.200 mm ± under 0.001 mm"


def test_the_worked_job_is_checked_without_the_unit_library():
    import subprocess
    import sys

    code = (
        "import contextlib, io, sys\nfrom cli.main import app\nfrom cli.say import guarded\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n    code = guarded(app, ['check', 'parts/job/examples/demo.toml'])\n"
        "print(code, sorted({'pint', 'numpy', 'scipy'} & set(sys.modules)))"
    )
    told = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert told.stdout == "0 []\n"
