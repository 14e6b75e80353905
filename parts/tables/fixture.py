"""Drill bushes, and grooves for O-rings."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from parts.tables.read import status_of, table


@dataclass(frozen=True, slots=True)
class Groove:
    """Groove of an O-ring that seals a face [mm]."""

    cord: float
    depth: float
    width: float
    status: str
    source: str


@dataclass(frozen=True, slots=True)
class DrillBush:
    """A drill bush for press fit [mm]."""

    outside: float
    lengths: tuple[float, ...]
    """as listed, the shortest first"""
    status: str
    source: str


@lru_cache(None)
def o_ring_grooves() -> tuple[Groove, ...]:
    """List the grooves of static face seals, by their cords, rising."""
    found = table("o_ring_grooves")
    return tuple(
        Groove(float(row["cord"]), float(row["depth"]), float(row["width"]), status_of(row), found.source)
        for row in found.rows
    )


def drill_bush(drill: float) -> DrillBush:
    """Look up the press fit bush for a drill [mm], by ISO 4247; of one larger than any that is listed the last row."""
    rows = table("drill_bushes").rows
    row = next((row for row in rows if drill <= float(row["to"])), rows[-1])
    outside, *long = (float(row[column]) for column in ("outside", "short", "medium", "long"))
    label = f"ISO 4247, over {row['over']} to {row['to']} mm"
    return DrillBush(outside, tuple(dict.fromkeys(long)), status_of(row), label)
