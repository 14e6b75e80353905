"""What may stand and what may not.

Every rule on a number stands in RULES, one line each: the size, when it is a caution, when it stops the job, whose rule
it is, what to change. Rules on a choice rather than a number stand in choices.py, one small function each.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass
from fnmatch import fnmatchcase
from typing import TYPE_CHECKING, Any

from parts.choices import CHOICES
from parts.misses import misses, said
from parts.rules import RULES
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.book import Book
    from parts.errors import Fault
    from parts.job import Job
    from parts.misses import Miss
    from parts.rules import Limit, Rule

WORST = {"ok": 0, "caution": 1, "stop": 2}


@dataclass(frozen=True, slots=True)
class Finding:
    """One verdict."""

    name: str
    verdict: str
    """ok, caution or stop"""
    value: float | None
    limit: float | None
    unit: str
    says: str
    source: str


def findings(book: Book, job: Job) -> list[Finding]:
    """Judge every size that has a rule, every choice, and what was measured of the work: the worst first."""
    if book.plan is None or job.made is None:
        found = _all(book, job)
    else:
        as_made = job.made.job or job
        found = _all(book, as_made)
        told = [_of_miss(miss) for miss in misses(book, as_made, found, _all(book.plan, job))]
        found = [*told, *(_impossible(fault) for fault in book.cannot), *found]
    return sorted(found, key=lambda f: -WORST[f.verdict])


def _all(book: Book, job: Job) -> list[Finding]:
    found = [f for rule in RULES for f in _judged(rule, book, job.job.print_units)]
    return found + [Finding(*choice) for rule in CHOICES for choice in rule(book, job)]


def _impossible(fault: Fault) -> Finding:
    """What can't be with the sizes as they came out."""
    says = f"With what was made this can't be: {fault.key} {fault.says}"
    return Finding(f"made.{fault.key}", "stop", None, None, "1", says, "geometry")


def _of_miss(miss: Miss) -> Finding:
    """What was measured of one size, as a finding under `made.<size>`."""
    verdict, says = said(miss)
    limits = miss.limits
    bound = (limits.low if miss.by < 0 else limits.high) if limits else None
    source = limits.source if limits else "as measured"
    return Finding(f"made.{miss.name}", verdict, miss.value, bound, miss.book[miss.name].unit, says, source)


def worst(found: list[Finding]) -> str:
    """The worst verdict of a list, ok where it is empty."""
    return max((f.verdict for f in found), key=WORST.__getitem__, default="ok")


def as_records(found: list[Finding]) -> list[dict[str, Any]]:
    """Findings as they stand in findings.json."""
    return [asdict(f) for f in found]


def _judged(rule: Rule, book: Book, system: str) -> Iterator[Finding]:
    for name in (
        [n for n in book if fnmatchcase(n, rule.size)] if "*" in rule.size else [rule.size] * (rule.size in book)
    ):
        if rule.unless and rule.unless(book, name):
            continue
        caution, stop = limit(rule.caution, book), limit(rule.stop, book)
        if caution is None and stop is None:
            continue
        value, unit = book[name].value, book[name].unit
        bad = value - book.spread(name) if rule.least else value + book.spread(name)
        verdict = (
            "stop"
            if beyond(bad, stop, least=rule.least)
            else "caution"
            if beyond(bad, caution, least=rule.least)
            else "ok"
        )
        bound = stop if verdict == "stop" or caution is None else caution
        yield Finding(
            name,
            verdict,
            value,
            bound,
            unit,
            _says(rule, name, verdict, in_words(bad, unit, system), in_words(bound or 0.0, unit, system)),
            rule.source,
        )


def limit(given: Limit | None, book: Book) -> float | None:
    """Work out a limit: a number, or a share of another size that may not be in the book."""
    if given is None or isinstance(given, int | float):
        return given
    if given.size not in book:
        return None
    value = float(given.share * book[given.size].value)
    return value if given.floor is None else max(value, given.floor)


def beyond(value: float, bound: float | None, *, least: bool) -> bool:
    """Tell whether a value is on the wrong side of a bound."""
    return bound is not None and (value < bound if least else value > bound)


def _says(rule: Rule, name: str, verdict: str, value: str, bound: str) -> str:
    numbers = "".join(f" {part}" for part in name.split(".") if part.isdigit())
    side = "at least" if rule.least else "at most"
    text = f"{rule.what}{numbers}: {value}, {side} {bound} is wanted"
    return text if verdict == "ok" else f"{text}; {rule.change}"


def in_words(value: float, unit: str, system: str) -> str:
    """Print a value with its unit as the user's sheets do."""
    if system == "inch":
        return printed(value, unit, system)
    return figure(value) if unit == "1" else f"{figure(value)} {unit}"


def figure(value: float) -> str:
    """Print a number as a bench reads it: no places above 1000, three below 0.1.

    >>> figure(1234.5), figure(57.2), figure(0.0), figure(0.005)
    ('1234', '57.20', '0.00', '0.005')
    """
    for least, places in ((1000, 0), (100, 1), (0.1, 2)):
        if abs(value) >= least:
            return f"{value:.{places}f}"
    return f"{value:.3f}" if round(value, 3) else "0.00"
