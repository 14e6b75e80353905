"""What a thread in a metal wants, and what heat leaves of a metal's strength; of several it could be the weakest."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from parts.tables.read import STATUS, Figure, table

if TYPE_CHECKING:
    from collections.abc import Iterable

    Row = tuple[float, Figure]


def thread_wants(families: Iterable[str]) -> tuple[float, Figure]:
    """Look up how much thread to cut in a metal, and the full thread that the stud standards ask for, in diameters.

    >>> thread_wants(("iron", "aluminium"))[0]
    2.25
    """
    rows = [row for row in table("thread_wants").rows if row["family"] in set(families)]
    row = max(rows, key=lambda row: float(row["rule"]))
    return float(row["engaged"]), Figure(float(row["rule"]), "d", STATUS[row["status"]], row["source"])


@lru_cache(None)
def hot_metal(material: str) -> str | None:
    """Name the metal of the table of hot strengths that a material loses strength as; None where it is not listed.

    >>> hot_metal("42CrMo4 +QT"), hot_metal("C45")
    ('quenched and tempered steel', 'steel')
    """
    return next((row["hot"] for row in table("families_of").rows if row["material"] == material), None)


@lru_cache(None)
def hot_strength(metal: str, strength: str, exposure: str) -> tuple[Row, ...]:
    """Look up what heat leaves: temperature [degC] and least share of the cold strength, in rising order.

    Parameters
    ----------
    metal : str
        A family, or "quenched and tempered steel"
    strength : str
        "yield" or "tensile"
    exposure : str
        "short" or "long"; metals that lose no more with time have only "long"
    """
    wanted = (metal, strength, exposure)
    rows = [r for r in table("hot_strengths").rows if (r["metal"], r["strength"], r["exposure"]) == wanted]
    if not rows:
        return hot_strength(metal, strength, "long")
    return tuple((float(row["at"]), _left(row)) for row in rows)


def _left(row: dict[str, str]) -> Figure:
    source = f"{row['metal']}, {row['source']}; least of {row['least']} to {row['most']}"
    return Figure(float(row["least"]), "1", STATUS[row["status"]], source)


def hot_between(metals: Iterable[str], strength: str, exposure: str, temperature: float) -> tuple[Row, Row]:
    """The two rows that a temperature [degC] lies between, of the metal that is weakest there; the last ones beyond."""
    found = []
    for metal in metals:
        steps = list(pairwise(hot_strength(metal, strength, exposure)))
        found.append(next((step for step in steps if temperature <= step[1][0]), steps[-1]))
    return min(found, key=lambda step: _at(step, temperature))


def _at(step: tuple[Row, Row], temperature: float) -> float:
    (cooler, before), (hotter, after) = step
    return before.value + (after.value - before.value) * (temperature - cooler) / (hotter - cooler)
