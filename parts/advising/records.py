"""Advice as one JSON object, and as changes of a job file's text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.advising.words import against, one_change
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
                "changes": [way_record(way, advice.system) for way in one.changes],
                "in_the_way": one.way,
            }
            for one in advice.told
        ],
        "design": {
            "changes": [{**change_record(one), "why": why} for one, why in advice.why.items()],
            "before": _counts(advice.before),
            "after": _counts(advice.after),
            "left": [{"name": f.name, "verdict": f.verdict, "in_the_way": why} for f, why in advice.left],
        },
    }


def way_record(way: Clearing, system: str) -> dict[str, Any]:
    """One way to make a finding better, as it stands among the changes of a finding; `system`: how it prints."""
    there, changes = way.finding, [change_record(one) for one in way.design]
    return {
        "set": changes,
        "verdict": there.verdict if there else "ok",
        "value": there.value if there else None,
        "limit": there.limit if there else None,
        "better": way.better,
        "worse": way.worse,
        "stops": way.stops,
        "says": f"{' and '.join(map(one_change, changes))}; {comes_to(way, system)}",
    }


def comes_to(way: Clearing, system: str) -> str:
    """What a way gives against the limit, and what it does elsewhere; `system`: metric or inch."""
    there = way.finding
    said = [f"gives {gives}"] if there and (gives := against(there, system)) else []
    said += [f"still a {there.verdict}"] if there and there.verdict != "ok" else []
    worse = [f"{name} (a stop)" if name in way.stops else name for name in way.worse]
    return "; ".join([*said, f"worse: {', '.join(worse)}" if worse else "nothing gets worse"])


def change_record(change: Change) -> dict[str, Any]:
    """One key changed; values as the TOML parser has them."""
    return {"key": change.key, "from": change.was, "to": change.value}


def _counts(outcome: Outcome) -> dict[str, int]:
    stops, cautions = outcome.counts
    return {"stop": stops, "caution": cautions}


def rewritten(text: str, advice: Advice) -> str:
    """Return the job file's text with the whole design; each changed line says what stood there."""
    notes = {one.path: "was not given" if one.was is None else f"was {toml(one.was)}" for one in advice.design}
    return edited(text, {one.path: one.value for one in advice.design}, notes)
