"""What is said of what is not known: where a verdict turns, and what is worth measuring first."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.job import Job
    from parts.unknowns.states import Place
    from parts.unknowns.turns import Turn
    from parts.unknowns.unknown import Unknown

IS = ("holds", "is a caution", "stops")
"""what a verdict is called, by how bad it is"""
MANY = 3
ZEROS = re.compile(r"\.0+(?= |$)|(?<=\.\d)0+(?= |$)|(?<=\.\d\d)0+(?= |$)")


def holds(job: Job, ranks: tuple[int, int, int], turned: Sequence[Turn], by: Sequence[str]) -> str:
    """Say for what values a verdict holds.

    Parameters
    ----------
    job : Job
        Whose sheets print the values
    ranks : three of int
        How bad it is at its best, with the values taken, and at its worst
    turned : sequence of Turn
        Where it turns along one unknown, the others as taken
    by : sequence of str
        All that it rests on
    """
    best, rank, worst = ranks
    said = [_turned(job, rank, turned, key) for key in dict.fromkeys(turn.key for turn in turned)]
    alone = [rank, *(turn.rank for turn in turned)]
    said = said or ([f"{IS[rank]} with the values taken"] if best < worst else [])
    said += [f"{IS[worst]} where {some(by)} come together at their worst"] if worst > max(alone) else []
    said += [f"{IS[best]} where {some(by)} come together at their best"] if best < min(alone) else []
    return "; ".join(said) or f"{IS[rank]} over the whole range of {some(by)}"


def _turned(job: Job, rank: int, turned: Sequence[Turn], key: str) -> str:
    """Where a verdict turns along one unknown: upwards, and downwards."""
    said = []
    for above, to, beyond in ((True, "up to", "above"), (False, "down to", "below")):
        mine = [turn for turn in turned if turn.key == key and turn.above == above]
        for number, turn in enumerate(mine):
            at = value(job, key, turn.at)
            said.append(
                f"{IS[rank]} {to} {at}, {IS[turn.rank]} {beyond}" if not number else f"{IS[turn.rank]} from {at}"
            )
    return f"{key}: {', '.join(said)}"


def at_worst(here: str, worst: str) -> str:
    """What a finding says at its worst, as far as it does not say so already.

    >>> at_worst("Shank: 6 mm, at most 7 mm is wanted", "Shank: 8 mm, at most 7 mm is wanted; a thinner one")
    '; at worst: 8 mm, at most 7 mm is wanted; a thinner one'
    """
    what, colon, rest = worst.partition(": ")
    told, _, advice = (rest if colon and here.startswith(f"{what}: ") else worst).partition("; ")
    said = told if not advice or advice in here else f"{told}; {advice}"
    return f"; at worst: {said}" if here != worst else ""


def value(job: Job, key: str, number: float) -> str:
    """Print a value of what is not known as the job's sheets do, a pressure as a gauge shows it."""
    unit = next(known.unit for path, known in job.unknown.items() if job.in_the_book(path) == key)
    if key.endswith("pressure") and job.job.print_units == "metric":
        return f"{10 * number:.3g} bar"
    return ZEROS.sub("", printed(number, unit, job.job.print_units))


def joined(job: Job, place: Place) -> str:
    """Name values of what is not known."""
    return " and ".join(f"{key} is {value(job, key, number)}" for key, number in place)


def some(keys: Sequence[str]) -> str:
    """Name the first few of some keys."""
    more = f" and {len(keys) - MANY} more" if len(keys) > MANY else ""
    return ", ".join(keys[:MANY]) + more


def told(job: Job, unknowns: Sequence[Unknown]) -> list[tuple[str, str, str]]:
    """What is not known, what it decides, and how it is measured: what is worth measuring first stands first."""
    return [(_range(job, one), _decides(job, one), one.measure) for one in unknowns]


def _range(job: Job, one: Unknown) -> str:
    low, high, taken = (value(job, one.key, number) for number in (one.low, one.high, one.taken))
    return f"{one.key}, {low} to {high}, taken as {taken}"


def _decides(job: Job, one: Unknown) -> str:
    if not one.decides:
        return "changes no verdict"
    turns = f"; the first of them turns at {value(job, one.key, one.turns_at)}" if one.turns_at is not None else ""
    return f"decides {some(one.decides)}{turns}"
