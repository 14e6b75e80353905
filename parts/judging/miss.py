"""One size that was measured, and what rests on it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from parts.judging.limits import Limits, limits_of
from parts.units import printed

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.judging.finding import Finding

MOST_BAR = 5.0  # MPa, up to which a pressure is a gas's and printed in bar

Answer = tuple[str, str] | None  # a size's own verdict, and what to do next


@dataclass(frozen=True)
class Miss:
    """One size that was measured, and what rests on it."""

    book: Book
    """as made"""
    plan: Book
    job: Job
    """as made"""
    name: str
    worse: tuple[Finding, ...]
    """findings that rest on it and are worse than planned"""

    @cached_property
    def limits(self) -> Limits | None:
        """What it had to lie between."""
        return limits_of(self.plan, self.name)

    @property
    def value(self) -> float:
        """As measured."""
        return float(self.book[self.name].value)

    @property
    def by(self) -> float:
        """How far beyond its limits: below 0 under the lower one."""
        return self.limits.miss(self.value) if self.limits else 0.0

    @property
    def stopped(self) -> bool:
        """Whether something that rests on it has become a stop, or can't be at all."""
        return bool(self.book.cannot) or any(f.verdict == "stop" for f in self.worse)

    def every(self, name: str) -> dict[str, str]:
        """A size by its name here, or, where it is another of several of a kind, all of them -> which one."""
        if name in self.book:
            return {name: ""}
        reals = {one.real(name): f" ({one.name})" for one in self.job.named()}
        return {real: which for real, which in reals.items() if real != name and real in self.book}

    def show(self, value: float, unit: str = "mm") -> str:
        """Print a value as the job's sheets do; the pressure of a gas as a gauge shows it."""
        if unit == "MPa" and self.job.job.print_units == "metric" and value < MOST_BAR:
            return f"{10 * value:.1f} bar"
        return printed(value, unit, self.job.job.print_units)

    def size(self, name: str) -> str:
        """Print a size as made."""
        return self.show(self.book[name].value, self.book[name].unit)

    def moved(self, name: str) -> float:
        """How far a size lies from where it was planned."""
        return float(self.book[name].value - self.plan[name].value)
