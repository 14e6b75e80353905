"""What could stop the job and can't be judged: one finding for each key that would have to be measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.job.schema import described
from parts.judging.finding import MAY_STOP, NOT_JUDGED, Finding
from parts.judging.rules import Of
from parts.sizing.scenes import scene_of, scenes

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from parts.book import Book
    from parts.job import Job
    from parts.judging.rules import Rule

TOLD = ("engine.run_up", "engine.hot_stop")
"""told of by a rule of their own"""
MANY = 3
JOINED = {"stud": ("barrel", "head", "gasket"), "head": ("gasket",)}
"""table -> what stands in the same joint: with [engine] beside it the gas is on it, and they are asked for"""


def not_judged(book: Book, job: Job, about: Mapping[Rule, list[str]]) -> Iterator[Finding]:
    """What can't be judged without it, of all that may stop the job."""
    waits: dict[str, dict[str, None]] = {}
    for rule, names in about.items():
        for name in names if rule.stop is not None else ():
            for key in _missing(book, job, rule, name) if _may_lack(book, rule, name) else ():
                waits.setdefault(key, {})[rule.what] = None
    together: dict[tuple[str, ...], list[str]] = {}
    for key, whats in waits.items():
        together.setdefault(tuple(whats), []).append(key)
    for some, keys in together.items():
        more = f" and {len(some) - MANY} more" if len(some) > MANY else ""
        wanted = "; and ".join(f"{key}: {says}" if (says := described(key)) else key for key in keys)
        says = f"{NOT_JUDGED} {'; '.join(some[:MANY])}{more}; give {wanted}"
        yield Finding(f"not_judged.{keys[0]}", "caution", None, None, "1", says, MAY_STOP)


def _may_lack(book: Book, rule: Rule, name: str) -> bool:
    """Whether a rule may wait for something: a size that is not there, or the size that its stop is a share of."""
    return name not in book or (isinstance(rule.stop, Of) and rule.stop.size not in book)


def _missing(book: Book, job: Job, rule: Rule, name: str) -> Iterator[str]:
    """Keys, of tables that the job has, without which a size or its stop is not known."""
    for view, own, _ in scenes(book, job, rule.kind) if rule.kind else [scene_of(book, job, name)]:
        size = view.local(name)
        if rule.unless and rule.unless(view, size):
            continue
        if size in view:
            size = rule.stop.size if isinstance(rule.stop, Of) else ""
        roots = map(view.local, view.needs(size) or [view.comes_from.get(size, "")]) if size not in view else ()
        keys = dict.fromkeys(_table_or_key(own, root) for root in roots if root.startswith("job."))
        if all(_asked_for(own, key) for key in keys):
            yield from (view.real(f"job.{key}").removeprefix("job.") for key in keys if not key.startswith(TOLD))


def _asked_for(job: Job, key: str) -> bool:
    """Whether a key is of a table that the job has, or cannot do without."""
    table, _, rest = key.partition(".")
    asked = [t for name, tables in JOINED.items() if job.engine and getattr(job, name) for t in tables]
    return bool(rest) and (getattr(job, table, None) is not None or table in asked)


def _table_or_key(job: Job, root: str) -> str:
    """The key to give, or the whole table that it would stand in."""
    steps, table = root.split(".")[1:], job
    for depth, step in enumerate(steps, 1):
        if getattr(table, step, None) is None:
            return ".".join(steps[: max(depth, 2)])
        table = getattr(table, step)
    return ".".join(steps)
