"""Between what values a figure lies that nobody has measured, which one is taken, and how it is measured."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fnmatch import fnmatchcase
from functools import lru_cache
from typing import TYPE_CHECKING

from parts.tables.family import family_figure, family_names
from parts.tables.read import table

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from parts.tables.read import Listing

IN_FAMILIES = {"modulus": "MPa", "expansion": "1/K"}
"""properties whose range stands with the families, and their units"""


@dataclass(frozen=True, slots=True)
class Range:
    """What stands in the place of a value that is not known."""

    low: float
    high: float
    taken: float
    unit: str
    source: str

    def __str__(self) -> str:
        return "unknown"

    def of(self, value: float) -> Range:
        """The same with another value taken."""
        return replace(self, taken=value)


@dataclass(frozen=True, slots=True)
class Kind:
    """What kind of engine it is, as far as that is known: a range goes by it."""

    cycle: str | None = None
    bore: float | None = None
    """[mm]"""
    metals: tuple[str, ...] = ()
    """that the barrel could be"""


@lru_cache(None)
def has_range(key: str) -> bool:
    """Whether a key of the job file, without the numbers of lists, has a usual range.

    >>> has_range("base.stud.friction"), has_range("stud.preload_share")
    (True, False)
    """
    return any(fnmatchcase(key, row["key"]) for row in table("unknown_ranges").rows)


def usual_range(key: str, kind: Kind, *, default: float | None = None, material: str = "") -> Range | None:
    """Look up the range of a key: of every kind of engine that it could be, together; None where it has none.

    Parameters
    ----------
    key : str
        Of the job file, without the numbers of lists
    kind : Kind
        Of engine
    default : float, optional
        Taken where the key has one: it stands with the key
    material : str
        Of the table that the key stands in, by its name
    """
    rows = [row for row in table("unknown_ranges").rows if fnmatchcase(key, row["key"]) and row["low"]]
    fitting = [row for row in rows if _fits(row, kind) and row["material"] in ("", material)]
    return _together(fitting, default) if fitting else None


def _fits(row: dict[str, str], kind: Kind) -> bool:
    """Whether a row could be about such an engine."""
    cycle = not row["cycle"] or kind.cycle in (None, row["cycle"])
    metal = not row["metals"] or not kind.metals or not set(row["metals"].split()).isdisjoint(kind.metals)
    over, upto = float(row["bore_over"] or 0), float(row["bore_to"] or "inf")
    return cycle and metal and (kind.bore is None or over < kind.bore <= upto)


def _together(rows: Sequence[dict[str, str]], default: float | None) -> Range:
    low, high = min(float(row["low"]) for row in rows), max(float(row["high"]) for row in rows)
    taken = max(float(row["taken"]) for row in rows) if default is None else default
    return Range(low, high, taken, rows[0]["unit"], " and ".join(dict.fromkeys(row["source"] for row in rows)))


def family_range(families: Iterable[str], prop: str, *, sheet: bool = False) -> Range | None:
    """Look up between what values the alloys of these families lie, cast, as bar or as sheet: None where one has none.

    >>> family_range(["iron"], "tensile_strength").low, family_range(["iron"], "modulus").high
    (80.0, 185000.0)
    """
    found = [
        (_of_family(f"{family} sheet", prop) if sheet else None) or _of_family(family, prop) for family in families
    ]
    known = [one for one in found if one is not None]
    if not known or len(known) < len(found):
        return None
    sources = " and ".join(dict.fromkeys(one.source for one in known))
    ends = min(one.low for one in known), max(one.high for one in known)
    return Range(*ends, min(one.taken for one in known), known[0].unit, sources)


def _of_family(family: str, prop: str) -> Range | None:
    if prop in IN_FAMILIES and family in family_names():
        low, high = (family_figure(family, f"{prop}_{end}") for end in ("low", "high"))
        source = f"{family}: {table('families').source.partition(':')[0]}"
        return Range(low, high, (low + high) / 2, IN_FAMILIES[prop], source)
    row = next((r for r in table("family_ranges").rows if (r["family"], r["property"]) == (family, prop)), None)
    if row is None:
        return None
    low, high, taken = (float(row[end]) for end in ("low", "high", "taken"))
    return Range(low, high, taken, row["unit"], f"{family}: {row['source']}")


def friction_range(families: Iterable[str], default: float) -> Range:
    """Look up the friction of a press fit of these metals: no less than the weakest pair that is printed."""
    known: Listing = table("unknown_ranges")
    row = next(row for row in known.rows if row["key"] == "plug.friction")
    least = min((family_figure(family, "friction") for family in families), default=default)
    taken = min(least, default)
    return Range(taken, float(row["high"]), taken, row["unit"], row["source"])


@lru_cache(None)
def how_to_measure(key: str) -> str:
    """How a figure is had that few have measured; empty where nothing is said of it."""
    return next((row["measure"] for row in table("unknown_measures").rows if fnmatchcase(key, row["key"])), "")
