"""One verdict, and lists of them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable

NOT_JUDGED, MAY_STOP = "not judged:", "what may stop a job"
"""how a finding begins that would need what the job does not give, and its source"""
ASSUMED = "assumed"
"""source of a finding on what was not measured, and a value taken for it"""
WORST = {"ok": 0, "caution": 1, "stop": 2}


class Finding(NamedTuple):
    """One verdict."""

    name: str
    verdict: str
    """ok, caution or stop"""
    value: float | None
    limit: float | None
    unit: str
    says: str
    source: str
    holds_if: str = ""
    """where the verdict turns, of one that rests on what is not known"""
    past: tuple[float | None, float | None] = (None, None)
    """how far beyond its caution and its stop, with all against it; below 0 inside; None for what is no number"""
    least: bool | None = None
    """the value must be at least the limit, else at most; None where it is held against none"""
    changes: tuple[dict[str, Any], ...] = ()
    """what was found to change, the best first, each as `topend advise --json` has it"""


def worst(found: list[Finding]) -> str:
    """The worst verdict of a list, ok where it is empty."""
    return max((f.verdict for f in found), key=WORST.__getitem__, default="ok")


def as_records(found: Iterable[Finding]) -> list[dict[str, Any]]:
    """Findings as they stand in findings.json."""
    return [_as_record(finding) for finding in found]


def _as_record(finding: Finding) -> dict[str, Any]:
    record = finding._asdict()
    del record["past"], record["least"]
    return {key: held for key, held in record.items() if held or key not in ("holds_if", "changes")}
