"""Which line of a TOML text holds which key: the standard parser does not say."""

from __future__ import annotations

import re

Path = tuple[str | int, ...]

TABLE = re.compile(r"\s*+(\[\[?)([^\]\[]++)\]\]?\s*+(?:#.*)?$")
KEY = re.compile(r"""\s*((?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+)(?:\s*\.\s*(?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+))*)\s*=""")
DEEPEST = 6  # no key of a job file lies deeper
PART = re.compile(r'"([^"]*)"|\'([^\']*)\'|([A-Za-z0-9_-]+)')


def split(text: str) -> tuple[str, ...]:
    """Split a dotted key, quoted parts whole.

    >>> split('barrel."old.holes".depth')
    ('barrel', 'old.holes', 'depth')
    """
    return tuple(next((group for group in found if group), "") for found in PART.findall(text))


def lines(text: str) -> dict[Path, int]:
    r"""Path of each key, list items by their number, to its line from 1.

    >>> lines('[a]\nb = 1\n[[c]]\nd = 2\n[[c]]\nd = 3')[("c", 1, "d")]
    6
    """
    at: dict[Path, int] = {}
    implied: dict[Path, int] = {}  # [engine.hot] is a line of engine where no [engine] stands
    table: Path = ()
    count: dict[tuple[str, ...], int] = {}
    fence = ""
    for number, line in enumerate(text.split("\n"), 1):
        if fence:
            fence = "" if fence in line else fence
        elif found := TABLE.match(line):
            table = keys = split(found[2])
            if found[1] == "[[":
                count[keys] = count.get(keys, -1) + 1
                table = (*keys, count[keys])
            at.setdefault(keys, number)
            at.setdefault(table, number)
            implied.setdefault(keys[:1], number)
        elif found := KEY.match(line):
            keys = split(found[1])
            for depth in range(1, min(len(keys), DEEPEST) + 1):
                at.setdefault((*table, *keys[:depth]), number)
            fence = _fence(line[found.end() :].lstrip())
    return implied | at


def _fence(value: str) -> str:
    """Quotes of a text that goes over several lines, where a value begins one and does not end it."""
    quotes = value[:3]
    return quotes if quotes in ('"""', "'''") and quotes not in value[3:] else ""


def line_of(path: Path, at: dict[Path, int]) -> int | None:
    """Line of the key itself, or of what holds it."""
    return next((at[path[:k]] for k in range(len(path), 0, -1) if path[:k] in at), None)
