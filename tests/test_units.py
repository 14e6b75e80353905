"""The exact factors that stand in units.py, against the unit library and against their definitions."""

import pytest

from parts.units import EXACT, IN_PINT, KINDS, convert, pint_name, registry
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
