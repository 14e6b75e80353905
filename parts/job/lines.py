"""Which line of a TOML text holds which key: the standard parser does not say."""

from __future__ import annotations

import re
import tomllib

Path = tuple[str | int, ...]

TABLE = re.compile(r"\s*+(\[\[?)([^\]\[]++)\]\]?\s*+(?:#.*)?$")
KEY = re.compile(r"""\s*((?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+)(?:\s*\.\s*(?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+))*)\s*=""")
DEEPEST = 6  # no key of a job file lies deeper
NO_BRACKETS = re.compile(r""""(?:[^"\\]|\\.)*"|'[^']*'|#.*""")
PART = re.compile(r'"([^"]*)"|\'([^\']*)\'|([A-Za-z0-9_-]+)')


def split(text: str) -> tuple[str, ...]:
    r"""Split a dotted key, quoted parts whole.

    >>> split('barrel."old.holes".depth')
    ('barrel', 'old.holes', 'depth')
    >>> split(r'"a\nb"')
    ('a\nb',)
    """
    return tuple(_plain(quoted) if quoted else literal or bare for quoted, literal, bare in PART.findall(text))


def _plain(quoted: str) -> str:
    """What stands between double quotes, its escapes read."""
    try:
        return str(tomllib.loads(f'key = "{quoted}"')["key"]) if "\\" in quoted else quoted
    except tomllib.TOMLDecodeError:
        return quoted


def lines(text: str) -> dict[Path, int]:
    r"""Path of each key, list items by their number, to its line from 1.

    >>> lines('[a]\nb = 1\n[[c]]\nd = 2\n[[c]]\nd = 3')[("c", 1, "d")]
    6
    >>> lines('[a]\nb = [\n{ c = 1 },\n{ c = 2 },\n]')[("a", "b", 1)]
    4
    """
    at: dict[Path, int] = {}
    implied: dict[Path, int] = {}  # [engine.hot] is a line of engine where no [engine] stands
    table: Path = ()
    count: dict[Path, int] = {}
    fence = ""
    rows: Path = ()
    deep = 0  # in a list that goes over several lines
    for number, line in enumerate(text.split("\n"), 1):
        if fence:
            _, closed, rest = line.partition(fence)
            fence = "" if closed else fence
            deep = max(deep + _opened(rest), 0)
        elif deep:
            if line.lstrip()[:1] in ("{", "[") and deep == 1:
                count[rows] = count.get(rows, -1) + 1
                at.setdefault((*rows, count[rows]), number)
            deep = max(deep + _opened(line), 0)
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
            value = line[found.end() :].lstrip()
            fence = _fence(value)
            rows, deep = (*table, *keys), 0 if fence else max(_opened(value), 0)
    return implied | at


def _opened(line: str) -> int:
    """How many square brackets a line leaves open."""
    bare = NO_BRACKETS.sub("", line)
    return bare.count("[") - bare.count("]")


def _fence(value: str) -> str:
    """Quotes of a text that goes over several lines, where a value begins one and does not end it."""
    quotes = value[:3]
    return quotes if quotes in ('"""', "'''") and quotes not in value[3:] else ""


def line_of(path: Path, at: dict[Path, int]) -> int | None:
    """Line of the key itself, or of what holds it."""
    return next((at[path[:k]] for k in range(len(path), 0, -1) if path[:k] in at), None)
