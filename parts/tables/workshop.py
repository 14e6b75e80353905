"""Words of the workshop for a material: what is usually meant by one where it stands, and what is usual there."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from parts.tables.material import material
from parts.tables.read import table


class Meant(NamedTuple):
    """What a word usually means, by names of the table of materials."""

    takes: str
    """the weakest of it, by which is sized"""
    to: str
    """the best of it"""


@lru_cache(None)
def meant(place: str, word: str) -> Meant | None:
    """Look up what a word usually means at a place: barrel, head, sheet, bar or ring; None where it is no such word.

    >>> meant("barrel", "Cast  iron"), meant("head", "putty")
    (Meant(takes='EN-GJL-150', to='EN-GJL-250'), None)
    """
    plain = " ".join(word.lower().split())
    rows = table("workshop_words").rows
    return next((Meant(r["takes"], r["to"]) for r in rows if (r["place"], r["word"]) == (place, plain)), None)


def words_at(place: str) -> list[str]:
    """The words of the workshop that are known at a place."""
    return [row["word"] for row in table("workshop_words").rows if row["place"] == place]


def usual_at(place: str) -> list[str]:
    """Name the materials that are usual at a place, the most usual first."""
    return [row["material"] for row in table("usual_materials").rows if row["place"] == place]


def meant_range(
    word: tuple[str, str], prop: str, *, diameter: float | None, section: float | None
) -> tuple[float, float] | None:
    """Range of a property over what a word usually means, in the table's unit; arguments as of `Material.figure`."""
    found = [material(name).figure(prop, diameter=diameter, section=section) for name in word]
    values = [one.value for one in found if one]
    return (min(values), max(values)) if values else None
