"""Advice as one JSON object, and as changes of a job file's text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.job import toml
from parts.job.edit import edited

if TYPE_CHECKING:
    from parts.advising.advice import Advice
    from parts.advising.clearing import Clearing
    from parts.advising.free import Change
    from parts.advising.trials import Outcome


def as_record(advice: Advice) -> dict[str, Any]:
    """Advice as `topend advise --json` prints it."""
    return {
        "findings": [
            {
                "name": one.finding.name,
                "verdict": one.finding.verdict,
                "changes": [_way(way) for way in one.changes],
                "in_the_way": one.way,
            }
            for one in advice.told
        ],
        "design": {
            "changes": [{**_set(one), "why": why} for one, why in advice.why.items()],
            "before": _counts(advice.before),
            "after": _counts(advice.after),
            "left": [{"name": f.name, "verdict": f.verdict, "in_the_way": why} for f, why in advice.left],
        },
    }


def _way(way: Clearing) -> dict[str, Any]:
    there = way.finding
    return {
        "set": [_set(one) for one in way.design],
        "verdict": there.verdict if there else "ok",
        "value": there.value if there else None,
        "limit": there.limit if there else None,
        "better": way.better,
        "worse": way.worse,
        "stops": way.stops,
    }


def _set(change: Change) -> dict[str, Any]:
    return {"key": change.key, "from": change.was, "to": change.value}


def _counts(outcome: Outcome) -> dict[str, int]:
    stops, cautions = outcome.counts
    return {"stop": stops, "caution": cautions}


def rewritten(text: str, advice: Advice) -> str:
    """Return the job file's text with the whole design; each changed line says what stood there."""
    notes = {one.path: "was not given" if one.was is None else f"was {toml(one.was)}" for one in advice.design}
    return edited(text, {one.path: one.value for one in advice.design}, notes)
