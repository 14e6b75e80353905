"""What a save changed: findings that came, went or turned, and sizes that moved, a line each."""

from __future__ import annotations

from itertools import zip_longest
from typing import TYPE_CHECKING, NamedTuple

from parts.judging.finding import WORST
from parts.making.plan import PAGE
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from parts.book import Book
    from parts.checked import Checked
    from parts.judging.finding import Finding
    from parts.making.standing import Outcome

    By = dict[tuple[str, bool | None], list[Finding]]

MOST = 8
"""sizes that are told one by one"""
OK = "ok"


class News(NamedTuple):
    """One line of what changed."""

    verdict: str
    """of what it is about; none for a size"""
    says: str

    def __str__(self) -> str:
        """In short, for the page, which has the whole sentence below."""
        return f"{self.verdict}, {self.says}".removeprefix(", ").partition(";")[0]


def news(before: Checked | None, after: Checked) -> list[News]:
    """Tell what is another than before, stops first; of a job that is new how it stands."""
    if before is None:
        return _first(after.now.findings)
    found = sorted(_findings(before.now.findings, after.now.findings), key=lambda one: -WORST[one.verdict])
    return [*found, *_sizes(before.now, after.now)]


def listed(made: Outcome) -> str:
    """List what was made; the job as read is always written where anything was."""
    names = ["job sheet" if name == PAGE else name for name in made.made]
    return ", ".join(names or (["job.toml"] if made.written else [f"nothing, all {made.kept} files stand"]))


# findings -------------------------------------------------------------------------------------------------------------


def _first(found: Sequence[Finding]) -> list[News]:
    bad = sorted((f for f in found if f.verdict != OK), key=lambda f: -WORST[f.verdict])
    return [News("", f"{len(found)} findings, {len(bad)} to look at"), *(News(f.verdict, _says(f)) for f in bad)]


def _findings(before: Iterable[Finding], after: Iterable[Finding]) -> Iterator[News]:
    old, new = _by_name(before), _by_name(after)
    for name in [*new, *(name for name in old if name not in new)]:
        for was, now in zip_longest(old.get(name, ()), new.get(name, ())):
            if line := _turned(was, now):
                yield line


def _by_name(found: Iterable[Finding]) -> By:
    """Findings by what is held against what side of its limits: several rules of a kind in their order."""
    out: By = {}
    for finding in found:
        out.setdefault((finding.name, finding.least), []).append(finding)
    return out


def _turned(was: Finding | None, now: Finding | None) -> News | None:
    """Say how a verdict turned; that something new is ok, or what was ok is gone, is no news."""
    if now is None:
        return None if was is None or was.verdict == OK else News(OK, f"gone, was {was.verdict}: {was.says}")
    old = was.verdict if was else OK
    if now.verdict == old:
        return None
    return News(now.verdict, f"{f'was {old}' if was else 'new'}: {_says(now)}")


def _says(finding: Finding) -> str:
    return f"{finding.says}  [{finding.source}]"


# sizes ----------------------------------------------------------------------------------------------------------------


def _sizes(before: Checked, after: Checked) -> list[News]:
    """What was changed in the file, then the sizes that moved furthest; how many more there are."""
    old, new, system = before.book, after.book, after.job.job.print_units
    moved = [name for name in new | old if _shown(old, name, system) != _shown(new, name, system)]
    moved.sort(key=lambda name: (not name.startswith("job."), -_share(old, new, name)))
    lines = [f"{name.removeprefix('job.')}  {_went(old, new, name, system)}" for name in moved[:MOST]]
    if more := len(moved) - len(lines):
        lines.append(f"and {more} more sizes moved")
    return [News("", line) for line in lines]


def _shown(book: Book, name: str, system: str) -> str:
    """A size as it is printed; nothing where it is not there, or no single value."""
    entry = book.get(name)
    return "" if entry is None or isinstance(entry.value, list) else printed(entry.value, entry.unit, system)


def _went(old: Book, new: Book, name: str, system: str) -> str:
    was, now = _shown(old, name, system), _shown(new, name, system)
    return f"{was} -> {now}" if was and now else f"{now}, new" if now else f"{was}, gone"


def _share(old: Book, new: Book, name: str) -> float:
    """How far a size moved, over the larger of both; 0 of one that is no number or was not there."""
    values = [book[name].value for book in (old, new) if name in book]
    if len(values) == 1 or any(isinstance(value, str) for value in values):
        return 0.0
    return float(abs(values[1] - values[0]) / (max(map(abs, values)) or 1.0))
