"""One verdict, and lists of them."""

from __future__ import annotations

from typing import Any, NamedTuple

NOT_JUDGED = "not judged:"
"""how a finding begins that would need what the job does not give"""
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
    least: bool | None = None
    """the value must be at least the limit, else at most; None where it is held against none"""


def worst(found: list[Finding]) -> str:
    """The worst verdict of a list, ok where it is empty."""
    return max((f.verdict for f in found), key=WORST.__getitem__, default="ok")


def as_records(found: list[Finding]) -> list[dict[str, Any]]:
    """Findings as they stand in findings.json."""
    return [{name: value for name, value in f._asdict().items() if name != "least"} for f in found]
