"""Where in a TOML text each key and its value stand, and in which line: the standard parser does not say."""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from dataclasses import dataclass, field

Path = tuple[str | int, ...]
Span = tuple[int, int]

BASIC, LITERAL = r'"(?:[^"\\\n]|\\.)*+"', r"'[^'\n]*+'"
FENCED = r""" "{3}(?:[^"\\]|\\[\s\S]|"(?!""))*+"{3,5}|'{3}(?:[^']|'(?!''))*+'{3,5} """.strip()
PART = rf"{BASIC}|{LITERAL}|[A-Za-z0-9_-]+"
DOTTED = rf"(?:{PART})(?:[ \t]*\.[ \t]*(?:{PART}))*"
TEXT = rf"{FENCED}|{BASIC}|{LITERAL}"
DEEPEST = 6  # no key of a job file lies deeper

PARTS = re.compile(PART)
KEY = re.compile(rf"({DOTTED})[ \t]*=[ \t]*")
HEADER = re.compile(rf"(\[\[?)[ \t]*({DOTTED})[ \t]*\]\]?")
VALUE = re.compile(rf"{TEXT}|[^\s,\]}}#][^,\]}}#\r\n]*")
BETWEEN = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*+")


def split(text: str) -> tuple[str, ...]:
    r"""Split a dotted key, quoted parts whole.

    >>> split('barrel."old.holes".depth')
    ('barrel', 'old.holes', 'depth')
    >>> split(r'"a\nb"."\""')
    ('a\nb', '"')
    """
    return tuple(_plain(part) for part in PARTS.findall(text))


def _plain(part: str) -> str:
    """A part of a key without its quotes, its escapes read."""
    if part[0] == '"' and "\\" in part:
        return str(tomllib.loads(f"key = {part}")["key"])
    return part[1:-1] if part[0] in "\"'" else part


@dataclass
class Section:
    """A table under its header, or the top of the file, which has none."""

    path: Path
    start: int
    """of its header"""
    head: int
    """where that ends"""
    end: int
    """of its last value; of its header, where it has none"""
    keys: dict[Path, Span] = field(default_factory=dict)
    """of the keys that have a line of their own, with their values"""


class Places:
    """Where all stands in the text of a TOML file that the standard parser takes."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.values: dict[Path, Span] = {}
        """of every value, also of those inside others"""
        self.inside: dict[Path, list[tuple[Path, Span]]] = {}
        """of an inline table or a list -> its entries, with their keys"""
        self.sections = [Section((), 0, 0, 0)]
        self.count: dict[Path, int] = {}
        """number of the last entry of a list of tables, so far"""
        at = self._next(0)
        while at < len(text):
            at = self._next(self._header(at) if text[at] == "[" else self._line(at))

    def _next(self, at: int) -> int:
        """Where something stands again, after spaces, line ends and comments."""
        found = BETWEEN.match(self.text, at)
        return found.end() if found else at

    def _header(self, at: int) -> int:
        found = HEADER.match(self.text, at)
        if found is None:
            raise ValueError(f"no header at {at}")
        path = self._in_lists(split(found[2]))
        if found[1] == "[[":
            self.count[path] = self.count.get(path, -1) + 1
            path = (*path, self.count[path])
        self.sections.append(Section(path, at, found.end(), found.end()))
        return found.end()

    def _in_lists(self, keys: tuple[str, ...]) -> Path:
        """Path of a table under entries of lists: the last one so far."""
        out: Path = ()
        for key in keys:
            out = (*out, self.count[out]) if out in self.count else out
            out = (*out, key)
        return out

    def _line(self, at: int) -> int:
        section = self.sections[-1]
        path, section.end = self._pair(at, section.path)
        section.keys[path] = (at, section.end)
        return section.end

    def _pair(self, at: int, table: Path) -> tuple[Path, int]:
        """Read a key with its value: its path, and where it ends."""
        found = KEY.match(self.text, at)
        if found is None:
            raise ValueError(f"no key at {at}")
        path = (*table, *split(found[1]))
        return path, self._value(found.end(), path)

    def _value(self, at: int, path: Path) -> int:
        """Read a value: where it ends."""
        if self.text[at] == "[":
            end = self._items(at, path)
        elif self.text[at] == "{":
            end = self._inline(at, path)
        else:
            found = VALUE.match(self.text, at)
            end = at + len(found[0].rstrip()) if found else at
        self.values[path] = (at, end)
        return end

    def _items(self, at: int, path: Path) -> int:
        """Read a list: where it ends."""
        at, held = self._next(at + 1), self.inside.setdefault(path, [])
        while self.text[at] != "]":
            item = (*path, len(held))
            held.append((item, (at, self._value(at, item))))
            at = self._after(held[-1][1][1])
        return at + 1

    def _inline(self, at: int, path: Path) -> int:
        """Read an inline table: where it ends."""
        at, held = self._next(at + 1), self.inside.setdefault(path, [])
        while self.text[at] != "}":
            key, end = self._pair(at, path)
            held.append((key, (at, end)))
            at = self._after(end)
        return at + 1

    def _after(self, at: int) -> int:
        """Where the next of several stands, behind its comma."""
        at = self._next(at)
        return self._next(at + 1) if self.text[at] == "," else at


def lines_of_keys(text: str) -> dict[Path, int]:
    r"""Path of each key, list items by their number, to its line from 1.

    >>> lines_of_keys('[a]\nb = 1\n[[c]]\nd = 2\n[[c]]\nd = 3')[("c", 1, "d")]
    6
    >>> lines_of_keys('[a]\nb = [\n{ c = 1 },\n{ c = 2 },\n]')[("a", "b", 1)]
    4
    """
    places, at, implied = Places(text), dict[Path, int](), dict[Path, int]()
    for section in places.sections:
        if section.path:
            of_all = section.path[:-1] if isinstance(section.path[-1], int) else section.path
            at.setdefault(section.path, section.start)
            at.setdefault(of_all, section.start)
            implied.setdefault(
                section.path[:1], section.start
            )  # [engine.hot] is a line of engine where no [engine] stands
        for path, (start, _) in section.keys.items():
            for depth in range(len(section.path) + 1, min(len(path), len(section.path) + DEEPEST) + 1):
                at.setdefault(path[:depth], start)
    found = implied | {path: start for path, (start, _) in places.values.items()} | at
    ends = [end.start() for end in re.finditer("\n", text)]
    return {path: bisect_right(ends, start) + 1 for path, start in found.items()}


def line_of(path: Path, at: dict[Path, int]) -> int | None:
    """Line of the key itself, or of what holds it."""
    return next((at[path[:k]] for k in range(len(path), 0, -1) if path[:k] in at), None)
