"""Names that the job file leaves out and the rest of it settles: they stand in the tables from the start."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.tables import it_grade

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from pydantic import BaseModel

    from parts.job.fields import Measure

    Found = Mapping[str, Any]

FINE = 7  # grade of ISO 286 that a hole must be known to, to press a plug into it


def settled(found: Found) -> dict[str, Any]:
    """The tables with a form for each mandrel, a fit for each plug and an outline for the gasket that has none."""
    return {
        table: [_filled(one, key, settle, found) for one in found[table]]
        if isinstance(found[table], list)
        else _filled(found[table], key, settle, found)
        for table, key, settle in SETTLED
        if found.get(table) is not None
    }


def _filled(table: BaseModel, key: str, settle: Callable[[Found, Any], str], found: Found) -> BaseModel:
    """A table with one key filled in, which still counts as left out."""
    if key in table.model_fields_set:
        return table
    filled = table.model_copy(update={key: settle(found, table)})
    filled.model_fields_set.discard(key)
    return filled


def _form(found: Found, _: Any) -> str:  # noqa: ANN401
    """The even form where something can cut its curve; a printer's is only to try."""
    shop = found.get("workshop")
    return "contoured" if shop is not None and (shop.cnc or shop.rotary_table) else "pin"


def _fit(found: Found, plug: Any) -> str:  # noqa: ANN401
    """A press fit wants a hole that is known as finely as its own tolerance."""
    passages = found["barrel"].passages if found.get("barrel") is not None else []
    hole: Measure | None = plug.hole or next((p.diameter for p in passages if p.name == plug.passage), None)
    return "press" if hole is not None and _is_fine(hole) else "bonded"


def _is_fine(hole: Measure) -> bool:
    try:
        return 0 < 2 * hole.spread <= it_grade(hole, FINE).value
    except ValueError:  # beyond the standard's table
        return False


def _outline(found: Found, _: Any) -> str:  # noqa: ANN401
    """A deck face that nobody gave can't be followed."""
    barrel = found.get("barrel")
    return "deck" if barrel is not None and barrel.outline is not None else "bosses"


SETTLED: tuple[tuple[str, str, Callable[[Found, Any], str]], ...] = (
    ("mandrel", "form", _form),
    ("plug", "fit", _fit),
    ("gasket", "outline", _outline),
)
