"""Many jobs that are much alike, each as its file would be read; a table is read once for all that have the same."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.job import known, load_data, read_tables
from parts.job.splices import value_at, with_value
from parts.job.unknown import UNKNOWN, is_unknown, kind_of

if TYPE_CHECKING:
    from parts.job import Job


class Kept:
    """Tables as they were read, by what stands in them.

    Parameters
    ----------
    raw : dict
        Data of the first job file, as the TOML parser gave it
    """

    def __init__(self, raw: dict[str, Any]) -> None:
        self.data, unknown = known(raw)
        """of the first, with ranges in the place of what is not known"""
        tables = {path[:-1] for path in unknown.ranges if is_unknown(value_at(raw, path[:-1]))}
        for table in tables:
            raw = with_value(raw, table, {path[-1]: UNKNOWN for path in unknown.ranges if path[:-1] == table})
        self.given = raw
        """of the first, each key by itself of a table of which nothing is known"""
        self._kind = kind_of(raw)
        self._first = {name: read_tables({name: held})[0] for name, held in self.data.items()}
        self._others: dict[tuple[str, str], dict[str, Any]] = {}

    def read(self, raw: dict[str, Any]) -> Job:
        """Read a job; what is not known, or left out, has the range that the rest of this job gives it.

        Raises
        ------
        JobError
            As `load_data`.
        """
        there = self.data if kind_of(raw) == self._kind else {}
        same = {name: there[name] for name, held in raw.items() if name in there and held is self.given[name]}
        data, tables = known({**raw, **same}, same)[0], dict[str, Any]()
        for name, held in data.items():
            if held == self.data.get(name):
                tables |= self._first[name]
                continue
            if (name, repr(held)) not in self._others:
                self._others[name, repr(held)] = read_tables({name: held})[0]  # nothing of one that is wrong
            tables |= self._others[name, repr(held)]
        return load_data(data, kept=tables)
