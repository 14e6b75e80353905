"""Which line of a TOML text holds which key: the standard parser does not say."""

from __future__ import annotations

import re
import tomllib

Path = tuple[str | int, ...]

TABLE = re.compile(r"\s*+(\[\[?)([^\]\[]++)\]\]?\s*+(?:#.*)?$")
KEY = re.compile(r"""\s*((?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+)(?:\s*\.\s*(?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+))*)\s*=""")
DEEPEST = 6  # no key of a job file lies deeper
FENCES = ('"""', "'''")
TOKEN = re.compile(r"""\"{3}|'{3}|"(?:[^"\\]|\\.)*"|'[^']*'|\#.*|.""")
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


def lines_of_keys(text: str) -> dict[Path, int]:
    r"""Path of each key, list items by their number, to its line from 1.

    >>> lines_of_keys('[a]\nb = 1\n[[c]]\nd = 2\n[[c]]\nd = 3')[("c", 1, "d")]
    6
    >>> lines_of_keys('[a]\nb = [\n{ c = 1 },\n{ c = 2 },\n]')[("a", "b", 1)]
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
            opened, fence = _scan(line, fence)
            deep = max(deep + opened, 0)
        elif deep:
            if line.lstrip()[:1] in ("{", "[") and deep == 1:
                count[rows] = count.get(rows, -1) + 1
                at.setdefault((*rows, count[rows]), number)
            opened, fence = _scan(line, "")
            deep = max(deep + opened, 0)
        elif found := TABLE.match(line):
            table = keys = _in_lists(split(found[2]), count)
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
            opened, fence = _scan(line[found.end() :], "")
            rows, deep = (*table, *keys), max(opened, 0)
    return implied | at


def _in_lists(keys: tuple[str, ...], count: dict[Path, int]) -> Path:
    """Path of a table under entries of lists: the last one so far.

    >>> _in_lists(("stud", "insert"), {("stud",): 1})
    ('stud', 1, 'insert')
    """
    out: Path = ()
    for key in keys:
        out = (*out, count[out]) if out in count else out
        out = (*out, key)
    return out


def _scan(text: str, fence: str) -> tuple[int, str]:
    """How many square brackets a piece of a value leaves open, and the quotes of a text that goes on in the next line.

    >>> _scan('[["a]", 1], # [', ""), _scan("['it', \'\'\'goes", ""), _scan("on\'\'\']", "\'\'\'")
    ((1, ''), (1, "\'\'\'"), (-1, ''))
    """
    opened, at = 0, 0
    while at < len(text):
        if fence:
            end = text.find(fence, at)
            if end < 0:
                break
            at, fence = end + len(fence), ""
        elif token := TOKEN.match(text, at):
            at = token.end()
            opened += (token[0] == "[") - (token[0] == "]")
            fence = token[0] if token[0] in FENCES else ""
    return opened, fence


def line_of(path: Path, at: dict[Path, int]) -> int | None:
    """Line of the key itself, or of what holds it."""
    return next((at[path[:k]] for k in range(len(path), 0, -1) if path[:k] in at), None)
