"""What is said of a change: as it would stand in the file, and what it gives."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.job import toml
from parts.judging.findings import in_words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from parts.judging.finding import Finding


def value(held: object) -> str:
    """A value as the file has it, without quotes round a text.

    >>> value("6.2 mm"), value(0.37), value(None)
    ('6.2 mm', '0.37', 'not given')
    """
    return "not given" if held is None else held if isinstance(held, str) else toml(held)


def one_change(one: Mapping[str, Any]) -> str:
    """One key changed, as its record has it.

    >>> one_change({"key": "stud.shank", "from": "6.2 mm", "to": "6.4 mm"})
    'stud.shank: 6.2 mm -> 6.4 mm'
    """
    return f"{one['key']}: {value(one['from'])} -> {value(one['to'])}"


def against(found: Finding, system: str) -> str:
    """A finding's value against its limit, as the job's sheets print them; empty where it has no figures."""
    if found.value is None or found.limit is None:
        return ""
    return f"{in_words(found.value, found.unit, system)} against {in_words(found.limit, found.unit, system)}"
