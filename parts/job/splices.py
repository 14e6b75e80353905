"""Single changes in the text of a job file: a value replaced, a note put in a comment, lines put behind a `#`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from parts.job import toml
from parts.job.lines import TEXT, Path

if TYPE_CHECKING:
    from parts.job.lines import Span

COLUMN = 44  # of a comment, where there is room; as in the template
REST = re.compile(rf"""(?:{TEXT}|[^"'#\n])*+""")
COMMENT = re.compile(r"[ \t]*#[ \t]*")


def with_value(raw: Any, path: Path, value: object) -> Any:  # noqa: ANN401 - TOML data
    """Return the data of a job file with one value in it, None takes it out; what is not on its path is shared.

    LookupError where the path goes through a value, or names an entry that a list does not have and that is not its
    next.

    >>> with_value({"stud": {"nut": "ISO 4032 class 10"}}, ("stud", "nut", "height"), "6.5 mm")
    {'stud': {'nut': {'name': 'ISO 4032 class 10', 'height': '6.5 mm'}}}
    >>> with_value({"plug": [{"fit": "press"}], "job": {"page": "A4"}}, ("job", "page"), None)
    {'plug': [{'fit': 'press'}], 'job': {}}
    """
    if not path:
        return value
    step, rest = path[0], path[1:]
    if isinstance(step, int):
        return _with_item(raw or [], step, rest, value)
    table = {"name": raw} if isinstance(raw, str) else {} if raw is None else raw
    if not isinstance(table, dict):
        raise LookupError(f"{step} would stand in what is no table")  # noqa: TRY004 - what the file lacks
    if value is None and (not rest or step not in table):
        return {key: held for key, held in table.items() if key != step}
    return {**table, step: with_value(table.get(step), rest, value)}


def _with_item(items: Any, step: int, rest: Path, value: object) -> list[Any]:  # noqa: ANN401 - TOML data
    """A list with one value in an entry of it, or with its next."""
    if not isinstance(items, list) or step > len(items):
        has = f"its list has {len(items)}" if items and isinstance(items, list) else "the job file has no such list"
        raise LookupError(f"there is no item {step}, counted from 0: {has}")
    there = items[step : step + 1]
    if value is None and not (there and rest):
        return items[:step] + items[step + 1 :]
    return [*items[:step], with_value(there[0] if there else None, rest, value), *items[step + 1 :]]


def value_at(raw: Any, path: Path) -> Any:  # noqa: ANN401 - TOML data
    """The value at a path; None where there is none."""
    for step in path:
        known = range(len(raw)) if isinstance(raw, list) else raw if isinstance(raw, dict) else ()
        if step not in known:
            return None
        raw = raw[step]
    return raw


def replaced(text: str, span: Span, value: object, note: str) -> str:
    """The text with another value in the place of one; a comment behind it keeps its column where there is room."""
    new = toml(value)
    start, end = span
    room = len(text) - end - len(text[end:].lstrip(" "))
    if room > 1 and text[end + room : end + room + 1] == "#":
        new, end = new.ljust(end - start + room - 2) + "  ", end + room
    return noted(text[:start] + new + text[end:], start + len(new), note)


def noted(text: str, at: int, note: str) -> str:
    """The text with a note in a comment at the end of the line, before what is said there."""
    found = REST.match(text, at)
    if not note or not found:
        return text
    if said := COMMENT.match(text, found.end()):
        return f"{text[: said.start()]}# {note}; {text[said.end() :]}"
    line = text[text.rfind("\n", 0, at) + 1 : at] + found[0].rstrip()
    end = at + len(found[0].rstrip())
    return f"{text[:end]}{' ' * (COLUMN - len(line))}  # {note}{text[end:]}"


def commented(text: str, spans: list[Span], note: str) -> str:
    """The text with the lines of these spans behind a `#`, the note in the last."""
    for start, end in sorted(spans, reverse=True):
        text, note = noted(text, end, note), ""
        stop = line_end(text, end)
        lines = [line if line.lstrip()[:1] in ("", "#") else f"# {line}" for line in text[start:stop].split("\n")]
        text = text[:start] + "\n".join(lines) + text[stop:]
    return text


def line_end(text: str, at: int) -> int:
    """Where the line ends, before its line end."""
    end = text.find("\n", at)
    end = len(text) if end < 0 else end
    return end - (text[at:end][-1:] == "\r")


def line_break(text: str) -> str:
    """How the file ends its lines."""
    return "\r\n" if "\r\n" in text else "\n"
