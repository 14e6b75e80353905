"""A new job file with what some parts need and no more: every key with its question, in each table the needed first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.asking.lacking import bare_needs
from parts.asking.places import folded
from parts.asking.questions import opened, questions
from parts.asking.words import WHOLE, fields
from parts.errors import Fault, JobError
from parts.job import TABLES
from parts.job.schema import HEAD, example_of, key_line, table_in
from parts.register import PARTS

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

    from parts.asking.questions import Question


def fresh(make: Sequence[str]) -> str:
    """Return a job file for some parts, by their stems, all keys commented out; JobError where one is no part."""
    if wrong := [stem for stem in make if stem not in PARTS]:
        raise JobError(Fault("--for", f"{wrong[0]!r} is no part; the parts are {', '.join(PARTS)}"))
    by_table: dict[str, list[Question]] = {}
    for one in questions(opened({}, make, more=True), make, more=True):
        if not _is_table(folded(one.key)):
            by_table.setdefault(folded(one.key).rpartition(".")[0], []).append(one)
    order = [table for table in fields() if table in by_table]
    needed = bare_needs(make)
    lines = [line for table in order for line in _lines(table, by_table[table], needed)]
    return "\n".join([*HEAD, *lines]) + "\n"


def _is_table(key: str) -> bool:
    """Whether a key is a table with keys of its own that are asked for one by one."""
    field = fields()[key]
    inner = table_in(field) if field else None
    return key in TABLES or (inner is not None and inner not in WHOLE)


def _lines(table: str, some: Sequence[Question], needed: Collection[str]) -> Iterator[str]:
    """Lines of one table: what is needed, what is asked, what is designed where it is left out."""
    field = fields()[table]
    header = f"[[{table}]]" if field and example_of(field) == [] else f"[{table}]"
    yield header if table == "job" else f"# {header}"
    for one in sorted(some, key=lambda one: (folded(one.key) not in needed, one.designed)):
        key = folded(one.key)
        more = "; needed" if key in needed else "; left out, it is designed" if one.designed else ""
        if field := fields()[key]:
            yield key_line(key.rpartition(".")[2], field, one.asks + more)
    yield ""
