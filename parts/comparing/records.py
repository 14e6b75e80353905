"""A comparison as records: which sizes to show, a table for a spreadsheet, one JSON object."""

from __future__ import annotations

import csv
import io
from fnmatch import fnmatchcase
from typing import TYPE_CHECKING, Any

from parts.errors import Fault, JobError
from parts.units import printed
from parts.writers.cells import number, words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from parts.comparing.comparison import Case, Comparison

WATCHED = (  # what a person watches, in the order of the work; each is shown where it differs
    "deck.thinnest", "deck.floor", "stud.length", "stud.shank_diameter", "stud.nut_end_length", "stud.projection",
    "insert.tap_drill", "insert.drill_depth", "joint.preload", "joint.torque", "joint.greatest_preload",
    "joint.proof_use", "joint.lowest_preload", "joint.separation_factor", "joint.washer_pressure",
    "joint.tap_end_strip_force", "gasket.bore_diameter", "gasket.narrowest_land", "gasket.seating_stress",
    "gasket.working_stress", "plug.diameter", "plug.hold_force", "plug.bond_reserve", "ring.outside_diameter",
    "ring.closed_gap", "ring.hot_gap", "ring.free_gap", "ring.tangential_force", "ring.contact_pressure",
    "ring.working_stress", "ring.fitting_stress", "ring.side_clearance", "ring.back_clearance",
    "ring.pressure_ratio_back", "ring.pressure_ratio_least", "ring.tip_force", "ring.light_gap", "ring.free_width",
    "mandrel.open_gap", "mandrel.opened_stress", "mandrel.diameter", "mandrel.pin_diameter", "mandrel.disc_diameter",
    "compression.ratio_after", "compression.squish", "compression.cranking_low", "compression.cranking_high",
    "turning.sections", "turning.deflection",
)  # fmt: skip


def shown(found: Comparison, wanted: list[str]) -> list[str]:
    """Names of the sizes to show: those that are wanted, else the watched ones that print differently.

    JobError where a wanted name fits no size.
    """
    for name in wanted:
        if not any(fnmatchcase(n, name) for n in found.units):
            raise JobError(Fault("--show", f"no size is called {name!r}; topend check lists them"))
    if wanted:
        return [n for n in found.units if any(fnmatchcase(n, name) for name in wanted)]
    differing = [n for n in found.differing() if not n.startswith("job.") and seen(found, n)]
    watched = [n for name in WATCHED for n in differing if found.plain.get(n, n) == name]
    changing = [n for n in found.changing() if n in differing and n not in watched]
    if found.keys:
        return watched + changing or differing
    return differing


def seen(found: Comparison, name: str) -> bool:
    """Tell whether a size prints differently in any two cases."""
    first, *others = found.sized
    here = in_print(found, first, name)
    return any(in_print(found, case, name) != here for case in others if name in case.sizes or name in first.sizes)


def in_print(found: Comparison, case: Case, name: str) -> str:
    """A size as the job's sheets print it, empty where the case has none."""
    value = found.size(case, name)
    return "" if value is None else printed(value, found.units[name], found.system)


def as_csv(found: Comparison) -> Iterator[str]:
    """Give a line a case, with all sizes that differ and all verdicts that change; lengths mm, numbers unrounded.

    As any spreadsheet takes it: numbers without a decimal point or comma (73475E-3), words never as a formula.
    """
    sizes, findings = found.differing(), found.changing()
    keys = list(found.keys) or ["file"]
    heads = [f"{n} [{found.units[n]}]" for n in sizes]
    yield _line(map(words, (*keys, "as it stands", "verdict", "stops", "cautions", *heads, *findings, "refused")))
    for case in found.cases:
        sized = not case.refused
        yield _line(
            [
                *(words(text) for text in case.given or [case.name]),
                "yes" if case.base else "",
                case.verdict,
                *((case.stops, case.cautions) if sized else ("", "")),
                *("" if (value := found.size(case, n)) is None or not sized else number(value) for n in sizes),
                *(found.verdict(case, n) if sized else "" for n in findings),
                words("; ".join(case.refused)),
            ]
        )


def _line(cells: Iterable[object]) -> str:
    out = io.StringIO()
    csv.writer(out).writerow(cells)
    return out.getvalue()


def as_record(found: Comparison) -> dict[str, Any]:
    """Return a comparison as one JSON object: all cases, with the sizes that differ and the verdicts that change."""
    sizes, findings = found.differing(), found.changing()
    return {
        "keys": list(found.keys),
        "units": {n: found.units[n] for n in sizes},
        "written": found.written,
        "left_out": found.left_out(),
        "cases": [
            {
                "name": case.name,
                "given": dict(zip(found.keys, case.given, strict=True)) if found.keys else {},
                "as_it_stands": case.base,
                "verdict": case.verdict,
                "stops": case.stops,
                "cautions": case.cautions,
                "sizes": {} if case.refused else {n: found.size(case, n) for n in sizes},
                "findings": {} if case.refused else {n: found.verdict(case, n) for n in findings},
                "refused": list(case.refused),
            }
            for case in found.cases
        ],
    }
