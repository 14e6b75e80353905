"""Where a row's figures come from; it ends the row's name, so that `pytest tests/published -v` says it of each.

A row with figures of two kinds is of the weaker; the file's head says which. What a test holds by itself, its docstring tells.
"""

import pytest


def seen(*rows):
    """Read in print."""
    return _named(rows, "seen")


def computed(*rows):
    """Worked out by hand from a formula that is printed, or by another method that stands beside them."""
    return _named(rows, "computed")


def memory(*rows):
    """As remembered, and looked up nowhere."""
    return _named(rows, "memory")


def _named(rows, status):
    return [pytest.param(*r.values, id=f"{r.id or '-'.join(map(str, r.values))}, {status}") for r in rows]
