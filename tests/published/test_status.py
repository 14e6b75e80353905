"""Every row of a table of figures here says whether it was seen in print, computed from a printed formula, or is memory."""

from importlib import import_module
from pathlib import Path

import pytest

FILES = sorted(p.stem for p in Path(__file__).parent.glob("test_*.py") if p != Path(__file__))
INPUTS = {"test_beams.BARS"}  # no figures: bars that two methods are tried on
ROW = type(pytest.param())


@pytest.mark.parametrize("file", FILES)
def test_every_row_says_where_it_comes_from(file):
    module = import_module(f"tests.published.{file}")
    for name, rows in vars(module).items():
        if isinstance(rows, list) and rows and isinstance(rows[0], ROW) and f"{file}.{name}" not in INPUTS:
            for row in rows:
                assert row.id.rpartition(", ")[2] in ("seen", "computed", "memory"), f"{name}: {row.id}"
