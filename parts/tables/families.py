"""Families of materials: what a thread in one wants, and what heat leaves of its strength."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from parts.tables.read import STATUS, Figure, table

WEAKEST = {"stud": "steel"}
"""part -> weakest family that it could be; every other part could be of cast light alloy"""
LIGHT = "aluminium"


@dataclass(frozen=True, slots=True)
class Family:
    """What a thread in such a metal wants, in diameters."""

    name: str
    engaged: float
    """length to cut where none is given"""
    rule: Figure
    """full thread that the stud standards ask for"""


@lru_cache(None)
def families() -> dict[str, Family]:
    """All families by name."""
    return {
        row["family"]: Family(
            row["family"],
            float(row["engaged"]),
            Figure(float(row["rule"]), "d", STATUS[row["status"]], row["source"]),
        )
        for row in table("families").rows
    }


@lru_cache(None)
def _families_of() -> dict[str, str]:
    return {row["material"]: row["family"] for row in table("material_families").rows}


def family_of(material: str) -> str | None:
    """Name the family of a material of the table, None where the table has no such material."""
    return _families_of().get(material)


def weakest(part: str) -> str:
    """Name the weakest family that a part could be of: by that it is judged where nothing is known.

    >>> weakest("barrel"), weakest("stud")
    ('aluminium', 'steel')
    """
    return WEAKEST.get(part, LIGHT)


@lru_cache(None)
def hot_strength(family: str, strength: str, exposure: str) -> tuple[tuple[float, Figure], ...]:
    """Look up what heat leaves: temperature [degC] and least share of the cold strength, in rising order.

    Parameters
    ----------
    family : str
        As in `families()`
    strength : str
        "yield" or "tensile"
    exposure : str
        "short" or "long"; families that lose no more with time have only "long"
    """
    wanted = (family, strength, exposure)
    rows = [r for r in table("hot_strengths").rows if (r["family"], r["strength"], r["exposure"]) == wanted]
    if not rows:
        return hot_strength(family, strength, "long")
    return tuple((float(row["at"]), _left(row)) for row in rows)


def _left(row: dict[str, str]) -> Figure:
    source = f"{row['family']}, {row['source']}; least of {row['least']} to {row['most']}"
    return Figure(float(row["least"]), "1", STATUS[row["status"]], source)


def hot_between(
    family: str, strength: str, exposure: str, temperature: float
) -> tuple[tuple[float, Figure], tuple[float, Figure]]:
    """The two rows of `hot_strength` that a temperature [degC] lies between; the last two beyond the end."""
    steps = list(pairwise(hot_strength(family, strength, exposure)))
    return next((step for step in steps if temperature <= step[1][0]), steps[-1])
