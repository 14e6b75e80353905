"""Values put into the text of a job file: what else stands there stays as it is, letter by letter."""

from __future__ import annotations

import json
import tomllib
from typing import TYPE_CHECKING, Any

from parts.errors import Fault, JobError
from parts.job import dotted
from parts.job.adding import added
from parts.job.lines import Path, Places
from parts.job.splices import commented, noted, replaced, value_at, with_value

if TYPE_CHECKING:
    from collections.abc import Mapping

    from parts.job.lines import Span


def edited(text: str, changes: Mapping[Path, Any], notes: Mapping[Path, str] | None = None) -> str:
    r"""Put values into the text of a job file.

    A value that stands there is replaced. One that does not comes to its table: in the place of its commented line
    where there is one, else behind the last key. A table that does not stand there comes to its place in the order of
    tables. What is taken out stands behind a `#` afterwards, so that nothing is lost.

    Parameters
    ----------
    text : str
        Of a file that is TOML; a byte order mark and the file's line ends stay
    changes : mapping
        Path of a key -> its value as the TOML parser would give it; None takes it out. An entry that a list does not
        have yet goes behind its last.
    notes : mapping, optional
        Path of a changed key -> what to say in a comment on its line

    Returns
    -------
    text : str
        Whose data are the old with the changes, and nothing else

    Raises
    ------
    JobError
        The file has no place for a value.

    Examples
    --------
    >>> edited("[ring]\ncount = 3  # to make", {("ring", "count"): 2}, {("ring", "count"): "was 3"})
    '[ring]\ncount = 2  # was 3; to make'
    >>> edited('# [stud]\n# shank = "6 mm"  # waist', {("stud", "shank"): "7 mm"})
    '[stud]\nshank = "7 mm"  # waist'
    """
    mark = "\ufeff" if text.startswith("\ufeff") else ""
    text = text.removeprefix("\ufeff")
    for path, value in changes.items():
        text = _changed(text, path, value, _one_line((notes or {}).get(path, "")))
    return mark + text


def _changed(text: str, path: Path, value: object, note: str) -> str:
    """The text with one value changed, held against what its data should be."""
    try:
        wanted = with_value(tomllib.loads(text), path, value)
        done = _put(text, path, value, note)
        if _plain(tomllib.loads(done)) == _plain(wanted):
            return done
        says = "it would be another file"
    except LookupError as error:
        says = str(error)
    except tomllib.TOMLDecodeError as error:
        says = f"it would not be TOML, {error}"
    raise JobError(Fault(dotted(path), f"can't be written into this file as it stands: {says}"))


def _plain(data: object) -> str:
    """The data of a file as text, to tell two apart: whole numbers, others, true and false are not the same."""
    return json.dumps(_without_empty(data), sort_keys=True, default=repr)


def _without_empty(data: Any) -> Any:  # noqa: ANN401 - TOML data
    """The data without lists that have no entry: a list of tables that lost its last is no longer there."""
    if isinstance(data, dict):
        return {key: _without_empty(held) for key, held in data.items() if held != []}
    return [_without_empty(one) for one in data] if isinstance(data, list) else data


def _one_line(note: str) -> str:
    return "".join(c if c.isprintable() else " " for c in note)


def _put(text: str, path: Path, value: object, note: str) -> str:
    """Put one value into a text, one thing at a time: where things stand is read anew each time."""
    places = Places(text)
    there = value_at(tomllib.loads(text), path)
    if there is None:
        return text if value is None else added(text, path, value, note)
    if value is None:
        return _out(places, path, note)
    if span := places.values.get(path):
        return replaced(text, span, value, note)
    if isinstance(there, dict) and isinstance(value, dict):
        for key in {**there, **value}:
            text = _put(text, (*path, key), value.get(key), note)
        return text
    return _put(_out(places, path, ""), path, value, note)


def _out(places: Places, path: Path, note: str) -> str:
    """The text without a value or a table: its lines behind a `#`, or an inline table or a list without it."""
    lines = _lines(places, path)
    if lines:
        return commented(places.text, lines, note)
    holder = next(path[:k] for k in range(len(path) - 1, 0, -1) if path[:k] in places.values)
    entries = places.inside[holder]
    start, end = places.values[holder]
    number = next((n for n, (entry, _) in enumerate(entries) if entry == path), None)
    if number is None or len(entries) == 1:
        rest = with_value(value_at(tomllib.loads(places.text), holder), path[len(holder) :], None)
        return replaced(places.text, (start, end), rest, note)
    cut = (entries[number - 1][1][1], entries[number][1][1]) if number else (entries[0][1][0], entries[1][1][0])
    return noted(places.text[: cut[0]] + places.text[cut[1] :], cut[0], note)


def _lines(places: Places, path: Path) -> list[Span]:
    """Where a key or a table stands that has lines of its own: of its headers and its keys."""
    size = len(path)
    headers = [(s.start, s.head) for s in places.sections if s.path[:size] == path]
    return headers + [span for s in places.sections for key, span in s.keys.items() if key[:size] == path]
