"""One thing that is not known, and what it decides."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Unknown:
    """One thing that is not known: between what values it lies, and which verdicts go by it."""

    key: str
    low: float
    high: float
    taken: float
    unit: str
    decides: list[str]
    """names of findings: those first that it turns by itself, and of them those that may stop the job"""
    turns_at: float | None
    """the value, nearest to the one taken, at which the first of those turns, the others as taken"""
    measure: str
    """how it is measured"""
