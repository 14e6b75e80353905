"""[made]: sizes as they came out at the bench, by the names that the job sheet prints beside its lines."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Annotated, Any, TypeAlias

from parts.job.fields import Reads
from parts.units import LONGEST, shown

if TYPE_CHECKING:
    from parts.errors import Fault
    from parts.job.lines import Path

DEEPEST = 8
EXAMPLES = {  # what `topend new` shows
    "job.engine.bore": ("57.30 mm", "a value of this file as it came out: its table and key behind job"),
    "job.barrel.skim": ("0.40 mm", "what really came off the deck"),
    "ring.outside_diameter": ("57.27 mm", "a size by its name in the sheet or in topend check; the worst of several"),
    "stud.nut_end_over_wires": (
        "8.05 mm ± 0.01 mm",
        "over three wires; or stud.nut_end_pitch_diameter, stud.nut_end_major",
    ),
    "deck.hole.1.x": ("30.35 mm", "a hole as it was drilled"),
    "plug.below_deck": ("0.15 mm", "the plug's face under the deck, faced off"),
    "ring.free_gap_inside": ("8.01 mm", "of a trial ring, after the heat, by callipers at the inner corners"),
    "ring.free_width": ("60.40 mm", "of the same ring, at right angles to the gap"),
}


@dataclass(frozen=True)
class Made:
    """What was measured of the work."""

    values: dict[str, str | float]
    """name of a size, or job.<table>.<key> -> as written"""
    at: dict[str, Path] = field(default_factory=dict)
    """name -> where it stands in the file"""
    faults: tuple[Fault, ...] = ()
    """what is wrong with those values, told together with the rest"""
    wrong: list[tuple[Path, str]] = field(default_factory=list)
    """where something stands that was not measured, and why"""

    def sizes(self) -> dict[str, str | float]:
        """Those that are sizes, not values of the job file."""
        return {name: value for name, value in self.values.items() if not name.startswith("job.")}

    def givens(self) -> dict[str, str | float]:
        """Those that are values of the job file, by their keys."""
        return {n.removeprefix("job."): v for n, v in self.values.items() if n.startswith("job.")}


def read_made(table: object) -> Made:
    """Read the table: names in quotes, or as nested tables; a value is a quantity or a plain number."""
    if not isinstance(table, dict):
        raise ValueError(f"wants a table of sizes, not {shown(table)}")  # noqa: TRY004
    made = Made({})
    _flatten(table, ("made",), made)
    return made


def _flatten(table: dict[str, Any], path: Path, made: Made) -> None:
    for key, value in table.items():
        here = (*path, key)
        name = ".".join(map(str, here[1:]))
        if len(name) > LONGEST or not name.isprintable():
            made.wrong.append((here, "is a name that no size has"))
        elif isinstance(value, dict) and len(here) < DEEPEST:
            _flatten(value, here, made)
        elif isinstance(value, bool) or not isinstance(value, str | int | float):
            made.wrong.append((here, f'wants what was measured, like "57.27 mm", not {shown(value)}'))
        elif name in made.values:
            made.wrong.append((here, "stands there twice"))
        else:
            made.values[name], made.at[name] = value, here


MadeTable: TypeAlias = Annotated[
    Made,
    Reads(
        read_made,
        {
            "type": "object",
            "title": "sizes as they came out",
            "description": "name of a size, or job.<table>.<key>, and what was measured",
            "additionalProperties": {"type": ["string", "number", "object"]},
            "examples": [{name: value for name, (value, _) in EXAMPLES.items()}],
        },
    ),
]


def put_in(raw: dict[str, Any], givens: dict[str, str | float]) -> tuple[dict[str, Any], list[tuple[str, str]]]:
    """Put values into a copy of the file's data by their keys; return it, and what could not be placed and why."""
    out, faults = deepcopy(raw), list[tuple[str, str]]()
    for key, value in givens.items():
        *way, last = key.split(".")
        place: Any = out
        for step in way:
            place = _below(place, step)
        if isinstance(place, dict) and way:
            place[last] = value
        elif isinstance(place, list) and last.isdecimal() and int(last) < len(place):
            place[int(last)] = value
        else:
            faults.append((key, "stands in a table that this job does not have: give that first"))
    return out, faults


def _below(place: Any, step: str) -> Any:  # noqa: ANN401 - TOML data
    if isinstance(place, dict):
        return place.get(step)
    if isinstance(place, list) and step.isdecimal() and int(step) < len(place):
        return place[int(step)]
    return None
