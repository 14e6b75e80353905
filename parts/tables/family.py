"""What metal a material is, and what may fill, bond, press and anneal what: by the tables, never by a name's sound."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from parts.tables.read import status_of, table

ANY, PLASTIC = "*", "plastic"
WORST = ("ok", "caution", "stop")


@dataclass(frozen=True, slots=True)
class Pair:
    """How one thing goes into another."""

    verdict: str
    heat: float | None
    """what the work takes it to, greatest [degC]"""
    says: str
    status: str


def family_names() -> list[str]:
    """Names of the families, as they are written in a job."""
    return [row["family"] for row in table("families").rows]


@lru_cache(None)
def family_of(material: str) -> str | None:
    """Family of a material of the table; None where it has none of that name.

    >>> family_of("CuZn39Pb3"), family_of("Aluminium bronze, my own")
    ('brass', None)
    """
    return next((row["family"] for row in table("families_of").rows if row["material"] == material), None)


@lru_cache(None)
def families_like(modulus: float | None, expansion: float | None) -> tuple[str, ...]:
    """Families that a material with these values could be of [MPa, 1/K]: every metal where none is known.

    >>> families_like(110e3, 11e-6), families_like(None, 21e-6)
    (('iron',), ('aluminium', 'brass', 'plastic'))
    """
    values = (("modulus", modulus), ("expansion", expansion))
    told = (modulus, expansion) != (None, None)
    return tuple(
        row["family"]
        for row in table("families").rows
        if (told or row["family"] != PLASTIC)
        and all(v is None or float(row[f"{of}_low"]) <= v <= float(row[f"{of}_high"]) for of, v in values)
    )


def family_figure(family: str, column: str) -> float:
    """Look up what holds for the weakest alloy of a family: melts, keeps [degC], friction."""
    return next(float(row[column]) for row in table("families").rows if row["family"] == family)


def bends(family: str) -> bool:
    """Whether a metal yields before it breaks."""
    return next(row["bends"] == "yes" for row in table("families").rows if row["family"] == family)


@lru_cache(None)
def pair(how: str, what: str, into: str = "") -> Pair:
    """Look up how one thing goes into another: the row of both, else the worst of those of one of them.

    >>> pair("fill", "bronze braze", "aluminium").verdict, pair("bond", "steel", "iron").verdict
    ('stop', 'ok')
    """
    rows = [row for row in table("pairs").rows if row["how"] == how]
    ranked = ([(what, into)], [(what, ANY), (ANY, into)], [(ANY, ANY)])
    found = next(fit for keys in ranked if (fit := [row for row in rows if (row["what"], row["into"]) in keys]))
    row = max(found, key=lambda row: WORST.index(row["verdict"]))
    return Pair(row["verdict"], float(row["heat"]) if row["heat"] else None, row["says"], status_of(row))
