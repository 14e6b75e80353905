"""Headers that are commented out while keys below them are not: what a half filled in file goes wrong by."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from parts.errors import Fault

if TYPE_CHECKING:
    from collections.abc import Callable, Container

COMMENTED = re.compile(r"\s*#[#\s]*(\[\[?)([a-z_.]+)\]\]?\s*(?:#.*)?$")
HEADER = re.compile(r"\s*\[\[?[^\[\],]+\]\]?\s*(?:#.*)?$")
KEY = re.compile(r"\s*([a-z_]+)\s*[.=]")
LONGEST = 200  # characters of a line that is looked at
MOST = 4  # keys that are named


def hidden(text: str, keys_of: Callable[[str], Container[str]]) -> dict[int, Fault]:
    r"""Keys that stand under a header that is commented out, and are keys of its table.

    Parameters
    ----------
    text : str
        Of a job file
    keys_of : callable
        Dotted name of a table -> its keys; none where there is no such table

    Returns
    -------
    faults : dict of int to Fault
        By the line of each such key; one fault for all below one header, at the header's line

    Examples
    --------
    >>> {n: str(f) for n, f in hidden('# [engine]\nbore = "60 mm"', {"engine": ["bore"]}.get).items()}
    {2: 'engine (line 1): is commented out, and bore below it is not: take the # off [engine]'}
    """
    below: dict[tuple[int, str, str], dict[int, str]] = {}
    at: tuple[int, str, str] | None = None
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST:
            continue
        if found := COMMENTED.match(line):
            at = (number, found[2], line.strip().lstrip("# ").partition("#")[0].strip())
        elif HEADER.match(line):
            at = None
        elif at and (found := KEY.match(line)) and found[1] in (keys_of(at[1]) or ()):
            below.setdefault(at, {})[number] = found[1]
    return {number: _fault(*at, list(keys.values())) for at, keys in below.items() for number in keys}


def _fault(line: int, table: str, header: str, keys: list[str]) -> Fault:
    some = ", ".join(keys[:MOST]) + (f" and {len(keys) - MOST} more" if len(keys) > MOST else "")
    are = "are" if len(keys) > 1 else "is"
    return Fault(table, f"is commented out, and {some} below it {are} not: take the # off {header}", line)
