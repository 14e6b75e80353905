"""Jobs side by side: which sizes differ, and which findings change their verdict. Files, or variants of one job."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from math import prod
from typing import TYPE_CHECKING, Any

from parts.checked import check, judged
from parts.comparing.comparison import Case, Comparison, Shared, Worked, side_by_side
from parts.comparing.sweep import MOST, numbered, value_at, with_value
from parts.errors import Fault, JobError
from parts.job import load, read_data, read_toml, toml
from parts.job.kept import Kept
from parts.sizing.variant import FirstBook, VariantBook, bears_on_anything
from parts.tables.unknown import Range

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from parts.book import Book
    from parts.comparing.sweep import Varied
    from parts.job import Job

TOLD = 5  # reasons, where every variant is refused


def compare_files(texts: Mapping[str, str]) -> Comparison:
    """Compare whole jobs, with all that can be worked out of them.

    Parameters
    ----------
    texts : mapping
        Text of each job file by its name

    Returns
    -------
    comparison : Comparison

    Raises
    ------
    JobError
        With every fault of every file, each with the file's name.
    """
    told: dict[str, Worked] = {}
    faults: list[Fault] = []
    for name, text in texts.items():
        try:
            told[name] = Worked(*check(text, ranges=False))
        except JobError as error:
            faults += [Fault(f"{name}: {f.key}" if f.key else name, f.says, f.line) for f in error.faults]
    if faults:
        raise JobError(*faults)
    first = next(iter(told.values()))
    found = side_by_side(first, [one.case(name, first) for name, one in told.items()])
    found.written.update(_written(texts))
    return found


def _written(texts: Mapping[str, str]) -> dict[str, list[str]]:
    """Keys that are not written alike in all files, as each has them, empty where it has none."""
    flat = [dict(_flat("", read_toml(text.removeprefix("\ufeff")))) for text in texts.values()]
    keys = dict.fromkeys(key for one in flat for key in one)
    rows = {key: [one.get(key, "") for one in flat] for key in keys}
    return {key: row for key, row in rows.items() if len(set(row)) > 1}


def _flat(key: str, raw: object) -> Iterable[tuple[str, str]]:
    """Every value of a job file's data under its dotted key, as it is written."""
    inside = raw.items() if isinstance(raw, dict) else enumerate(raw) if isinstance(raw, list) else None
    if inside is None:
        yield key, raw if isinstance(raw, str) else toml(raw)
    for step, value in inside or ():
        yield from _flat(f"{key}.{step}".lstrip("."), value)


def vary_job(text: str, varied: Sequence[Varied], *, contact: bool = False) -> Comparison:
    """Compare a job with its variants: every combination of the values of the varied keys.

    Parameters
    ----------
    text : str
        Of the job file
    varied : sequence of Varied
        Keys and their values
    contact : bool
        Also solve how the ring presses, for each

    Returns
    -------
    comparison : Comparison
        The job as it stands first, or in its place among the variants if it is one of them

    Raises
    ------
    JobError
        The job file is wrong whatever the varied keys hold; or every variant is refused; or they are too many.
    """
    _refuse_too_many(varied)
    kept = Kept(read_data(text))
    given, raw = kept.given, kept.data
    varied = [replace(v, path=numbered(v.path, raw)) for v in varied]
    tables = {str(v.path[0]) for v in varied}
    _refuse_other_faults(text, tables)
    variants = Variants(kept, contact=contact)
    now = tuple(_now(raw, v) for v in varied)
    variants.put(", ".join(n or "not given" for n in now), now, given, base=True)
    as_it_stands = variants.cases[0]
    for values in product(*(zip(v.written, v.values, strict=True) for v in varied)):
        data = given
        for one, (_, value) in zip(varied, values, strict=True):
            data = with_value(data, one.path, value)
        written = tuple(written for written, _ in values)
        variants.put(", ".join(written), written, data)
    tried = [case for case in variants.cases if case is not as_it_stands]
    if variants.first is None or all(case.refused for case in tried):
        reasons = dict.fromkeys(says for case in tried for says in case.refused)
        raise JobError(*(Fault("--vary", f"every variant is refused: {says}") for says in list(reasons)[:TOLD]))
    found = side_by_side(variants.first, variants.cases, tuple(v.key for v in varied))
    return replace(found, apart=len(tried) < len(variants.cases), steps=varied[-1].steps)


class Variants:
    """Works out one variant after the other, each by what it has in common with the first."""

    def __init__(self, kept: Kept, *, contact: bool) -> None:
        self.kept, self.contact = kept, contact
        self.first: Worked | None = None
        self.cases: list[Case] = []
        self.shared = Shared()

    def put(self, name: str, given: tuple[str, ...], raw: dict[str, Any], *, base: bool = False) -> None:
        """Work out a variant; one that is the job as it stands takes that one's place."""
        try:
            told = self._told(raw)
        except JobError as error:
            self.cases.append(Case(name, given, refused=tuple(map(str, error.faults)), base=base))
            return
        self.first = self.first or told
        case = self.shared.of(told.case(name, self.first, given, base=base))
        here = self.cases[0] if self.cases else None
        if here and here.base and not (here.refused or case.sizes) and told.job.whole() == self.first.job.whole():
            self.cases = [*self.cases[1:], replace(case, base=True)]
        else:
            self.cases.append(case)

    def _told(self, raw: dict[str, Any]) -> Worked:
        job = self.kept.read(raw)
        if bears_on_anything(job):
            return self._of(job, None)
        first = self.first.book if self.first else None
        book = VariantBook(first) if isinstance(first, FirstBook) else FirstBook()
        return self._of(job, book)

    def _of(self, job: Job, book: Book | None) -> Worked:
        now = judged(job, contact=self.contact, book=book, ranges=False).now
        return Worked(job, now.book, now.findings)


def _now(raw: dict[str, Any], one: Varied) -> str:
    value = value_at(raw, one.path)
    return "" if value is None else str(value) if isinstance(value, str | Range) else toml(value)


def _refuse_too_many(varied: Sequence[Varied]) -> None:
    count = prod(len(v.values) for v in varied)
    if count > MOST:
        each = " x ".join(str(len(v.values)) for v in varied)
        raise JobError(Fault("--vary", f"asks for {each} = {count} variants; {MOST} are the most in one run"))
    twice = {v.key for n, v in enumerate(varied) if v.key in [w.key for w in varied[:n]]}
    if twice:
        raise JobError(Fault("--vary", f"names {min(twice)} twice: give all its values in one"))


def _refuse_other_faults(text: str, tables: set[str]) -> None:
    """Refuse a job file that is wrong in tables which no variant changes."""
    try:
        load(text)
    except JobError as error:
        if any(f.key.partition(".")[0] not in tables for f in error.faults):
            raise
