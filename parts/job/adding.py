"""Where in the text of a job file a value goes that did not stand there."""

from __future__ import annotations

import re
import tomllib
from typing import TYPE_CHECKING, Any

from parts.job import TABLES, toml, toml_key
from parts.job.lines import DOTTED, Path, Places, split
from parts.job.splices import line_break, line_end, noted, replaced, value_at, with_value

if TYPE_CHECKING:
    from parts.job.lines import Section

ORDER = (*TABLES, "made")
OFF_HEADER = re.compile(rf"^[ \t]*(#[ \t]*)(\[\[?)[ \t]*({DOTTED})[ \t]*\]\]?[ \t]*\r?$", re.MULTILINE)
OFF_KEY = re.compile(rf"^[ \t]*#[ \t]*(({DOTTED})[ \t]*=[^\r\n]*)", re.MULTILINE)


def added(text: str, path: Path, value: object, note: str) -> str:
    """Return the text with a value that did not stand there, and a note in its line."""
    if isinstance(value, list) and value and len(path) == 1 and all(isinstance(one, dict) for one in value):
        return _each(text, path, dict(enumerate(value)), note)
    places = Places(text)
    for size in range(len(path) - 1, 0, -1):
        if path[:size] in places.values:
            return _inside(places, path[:size], path[size:], value, note)
    for size in range(len(path), 0, -1):
        for way in (_next_entry, _in_table, _at_its_comment, _above_its_tables, _beside_dotted):
            done = way(places, path[:size], path[size:], value, note)
            if done is not None:
                return done
    size = 2 if path[1:2] == (0,) else 1
    after = _place_of(places, str(path[0]))
    return _block(places, path[:size], with_value(None, path[size:], value), after, note)


def _each(text: str, table: Path, held: dict[Any, Any], note: str) -> str:
    """The text with each key of a table, or each entry of a list."""
    for key, value in held.items():
        text = added(text, (*table, key), value, note)
    return text


def _inside(places: Places, holder: Path, rest: Path, value: object, note: str) -> str:
    """The text with a value in an inline table or list; a name alone becomes a table with that name."""
    text, (start, end) = places.text, places.values[holder]
    entries = places.inside.get(holder)
    if not entries or (text[start] == "[" and rest[0] != len(entries)):
        return replaced(text, (start, end), with_value(value_at(tomllib.loads(text), holder), rest, value), note)
    new = toml(with_value(None, rest[1:], value))
    new = new if isinstance(rest[0], int) else f"{toml_key(rest[0])} = {new}"
    at = entries[-1][1][1]
    return noted(f"{text[:at]}, {new}{text[at:]}", at + len(new) + 2, note)


# ways to a table that has lines of its own, or None where it is not the one -------------------------------------------


def _next_entry(places: Places, table: Path, rest: Path, value: object, note: str) -> str | None:
    """Behind the last entry of a list of tables: its next."""
    of_all = [s.end for s in places.sections if s.path[: len(table) - 1] == table[:-1]]
    if table[-1] != places.count.get(table[:-1], -2) + 1:
        return None
    return _block(places, table, with_value(None, rest, value), max(of_all), note)


def _in_table(places: Places, table: Path, rest: Path, value: object, note: str) -> str | None:
    """In a table under its header: in the place of the key's commented line, or behind the last key."""
    section = next((s for s in places.sections if s.path == table), None)
    return _line(places, section, rest, with_value(None, rest[1:], value), note) if section else None


def _at_its_comment(places: Places, table: Path, rest: Path, value: object, note: str) -> str | None:
    """In a table whose header stands in a comment, as `topend new` writes them: it is taken out of that."""
    held, found = with_value(None, rest, value), _off_header(places, table)
    if found is None or not isinstance(held, dict):
        return None
    return _each(places.text[: found.start(1)] + places.text[found.end(1) :], table, held, note)


def _above_its_tables(places: Places, table: Path, rest: Path, value: object, note: str) -> str | None:
    """In a table of which only tables inside it have a header: above those."""
    under = next((s for s in places.sections if s.path[: len(table)] == table), None)
    return _block(places, table, with_value(None, rest, value), under.start - 1, note) if under else None


def _beside_dotted(places: Places, table: Path, rest: Path, value: object, note: str) -> str | None:
    """In a table that dotted keys tell of: behind the last of them, dotted as they are."""
    size = len(table)
    found = [(s, end) for s in places.sections for key, (_, end) in s.keys.items() if key[:size] == table]
    if not found:
        return None
    section, end = found[-1]
    return _line_at(places.text, end, (*table, *rest[:1])[len(section.path) :], with_value(None, rest[1:], value), note)


def _off_header(places: Places, path: Path) -> re.Match[str] | None:
    """The commented header of a table, or of the first entry of a list, with no key that stands below it."""
    bracket, names = ("[[", path[:-1]) if path[-1] == 0 else ("[", path)
    for found in OFF_HEADER.finditer(places.text):
        if (found[2], split(found[3])) == (bracket, names):
            below = range(found.end(), _next_head(places, found.end()))
            if not any(start in below for s in places.sections for start, _ in s.keys.values()):
                return found
    return None


def _next_head(places: Places, at: int) -> int:
    """Where the next header stands, commented or not; the end of the text, where none does."""
    off = OFF_HEADER.search(places.text, at)
    return min([s.start for s in places.sections if s.start > at] + [off.start() if off else len(places.text)])


def _line(places: Places, section: Section, rest: Path, held: object, note: str) -> str:
    """The text with another key in a table: in the place of its commented line, or behind the last."""
    text = places.text
    for found in OFF_KEY.finditer(text, section.head, _next_head(places, section.head)):
        live = any(start <= found.start() < end for start, end in section.keys.values())
        if split(found[2]) == rest[:1] and not live and (off := _read(found[1])):
            line = replaced(off.text, off.values[rest[:1]], held, note)
            return text[: found.start()] + line + text[found.end() :]
    return _line_at(text, section.end, rest[:1], held, note)


def _read(line: str) -> Places | None:
    """Where a commented key's value stands, if it is one."""
    try:
        tomllib.loads(line)
    except tomllib.TOMLDecodeError:
        return None
    return Places(line)


def _line_at(text: str, at: int, key: Path, value: object, note: str) -> str:
    """The text with another key in a line behind that of a place."""
    end = line_end(text, at)
    new = f"{'.'.join(toml_key(str(k)) for k in key)} = {toml(value)}"
    return noted(text[:end] + line_break(text) + new + text[end:], end + len(line_break(text)) + len(new), note)


def _block(places: Places, table: Path, held: object, after: int, note: str) -> str:
    """The text with another table under its header, between the tables that stand there, behind a place."""
    text, end = places.text, line_break(places.text)
    if not isinstance(held, dict):
        return text
    names = ".".join(toml_key(step) for step in table if isinstance(step, str))
    header = f"[[{names}]]" if isinstance(table[-1], int) else f"[{names}]"
    block = end.join([header, *(f"{toml_key(key)} = {toml(value)}" for key, value in held.items())])
    at = _above(text, _next_head(places, after), after)
    gap = "" if not at or text[:at].endswith(end * 2) else end if text[at - 1] == "\n" else end * 2
    text = f"{text[:at]}{gap}{block}{end}{end if at < len(text) else ''}{text[at:]}"
    return noted(text, at + len(gap) + len(block), note)


def _above(text: str, head: int, after: int) -> int:
    """Where the comment right above a header begins; the header's own place, where that is the top of the file's."""
    start = line_end(text, after) if after > 0 else 0
    at, lines = head, text[start:head].split("\n")[after > 0 : -1]
    while head < len(text) and lines and lines[-1].lstrip()[:1] == "#":
        at -= len(lines.pop()) + 1
    return at or head


def _place_of(places: Places, table: str) -> int:
    """Behind which place a new table comes: behind the last of those that come before it in the order of tables."""
    before = ORDER[: ORDER.index(table)] if table in ORDER else ORDER
    return max(s.end for s in places.sections if not s.path or s.path[0] in before)
