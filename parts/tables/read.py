"""The files of this folder as rows and figures.

Every file opens with `# source:` and `# status:` lines; a row's own status stands in its status column. The status
words of the files become those of the record: seen becomes published, derived becomes computed.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from itertools import takewhile
from pathlib import Path
from typing import NamedTuple

from parts.units import INCH

HERE = Path(__file__).parent
SAME_SIZE = 0.02  # [mm] 5/16 in is 7.9375 mm, and stands as 7.94 in some jobs
SAME_PITCH = 1e-6
STATUS = {"seen": "published", "derived": "computed", "memory": "memory"}


@dataclass(frozen=True, slots=True)
class Figure:
    """One value out of a table."""

    value: float
    unit: str
    status: str
    """published, memory or computed"""
    source: str


class Listing(NamedTuple):
    """A file as read: its rows by column, and what its head says."""

    rows: list[dict[str, str]]
    source: str
    unit: str


class Plain(NamedTuple):
    """A file as read, before its cells are put under their columns."""

    columns: list[str]
    cells: list[list[str]]
    source: str
    unit: str


@lru_cache(None)
def plain(name: str) -> Plain:
    """Read one file of this folder."""
    lines = (HERE / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    head = [line[2:].split(": ", 1) for line in takewhile(lambda line: line[0] == "#", lines)]
    source = "; ".join(text for word, text in head if word == "source")
    unit = next((text for word, text in head if word == "unit"), "1")
    columns, *cells = csv.reader(lines[len(head) :])
    return Plain(columns, cells, source, unit)


@lru_cache(None)
def table(name: str) -> Listing:
    """Read one file of this folder, its rows by column."""
    read = plain(name)
    return Listing([dict(zip(read.columns, row, strict=True)) for row in read.cells], read.source, read.unit)


def status_of(row: dict[str, str]) -> str:
    """Turn a row's own status word into that of the record; memory where it has none."""
    return STATUS[row.get("status", "memory")]


def row_at(found: Listing, column: str, wanted: float) -> dict[str, str]:
    """Find the row with this size or pitch [mm], or say what is listed."""
    close = SAME_SIZE if column == "nominal" else SAME_PITCH
    for row in found.rows:
        if abs(lengths(found, row, column)[0] - wanted) < close:
            return row
    raise ValueError(f"{found.source.split(';')[0]} lists no {column} of {wanted:g} mm, only {listed(found, column)}")


def listed(found: Listing, column: str = "nominal") -> str:
    """Name all sizes of a table."""
    return ", ".join(row.get("size", row[column]) for row in found.rows)


def lengths(found: Listing, row: dict[str, str], *columns: str) -> list[float]:
    """Turn a row's cells into millimetres."""
    scale = INCH if found.unit == "in" else 1.0
    return [round(float(row[column]) * scale, 6) for column in columns]
