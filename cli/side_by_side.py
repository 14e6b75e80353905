"""A comparison on the terminal: a column a case while they fit, else a row a case; then what changes, and the best."""

from __future__ import annotations

from dataclasses import replace
from itertools import accumulate, groupby
from pathlib import Path
from shutil import get_terminal_size
from typing import TYPE_CHECKING

from cli.say import coloured, shown
from parts.comparing.records import in_print, seen

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from parts.comparing.comparison import Case, Comparison

WIDE = 120  # columns, where there is no terminal
ROWS = 24  # of a table with a row a case
NARROWEST = 5  # columns that a case takes at least
NAMED = 6  # cases or reasons named in a line
Row = tuple[str, list[str]]


def print_comparison(found: Comparison, names: list[str], csv: Path | None) -> None:
    """Print a comparison, all of it that fits."""
    found = replace(found, cases=[_shown(case) for case in found.cases])
    if found.keys:
        print(f"{found.title}\n")
    else:
        found = _short(found)
    width = get_terminal_size((WIDE, ROWS)).columns
    few = NARROWEST * len(found.cases) < width
    if not (few and _print_columns(found, names, width)):
        names = names[: _print_rows(found, names, width)]
    _print_changes(found)
    _print_left_out(found)
    _print_refused(found)
    _print_end(found, names, csv)


def _shown(case: Case) -> Case:
    """Show a case with what was typed as it may stand on a terminal."""
    given, refused = (tuple(map(shown, texts)) for texts in (case.given, case.refused))
    return replace(case, name=shown(case.name), given=given, refused=refused)


def _short(found: Comparison) -> Comparison:
    """Name files without their folders, where that tells them apart."""
    names = [Path(case.name).name for case in found.cases]
    if len(set(names)) < len(names):
        return found
    return replace(found, cases=[replace(c, name=name) for c, name in zip(found.cases, names, strict=True)])


def _given(found: Comparison) -> list[Row]:
    """What was varied, or what is not written alike."""
    if not found.keys:
        return list(found.written.items())
    many = len(found.keys) > 1
    return [(key, [case.given[n] or "-" for case in found.cases]) for n, key in enumerate(found.keys)] if many else []


def _counts(found: Comparison) -> list[Row]:
    return [
        (word, [str(getattr(case, word)) if not case.refused else "-" for case in found.cases])
        for word in ("stops", "cautions")
    ]


def _sizes(found: Comparison, names: Iterable[str]) -> list[Row]:
    return [_size(found, name, found.cases) for name in names]


def _size(found: Comparison, name: str, cases: Iterable[Case]) -> Row:
    """Label with the unit, and the numbers."""
    cells = ["" if case.refused else in_print(found, case, name) for case in cases]
    unit = next((cell.partition(" ")[2] for cell in cells if cell), "")
    return f"{name}{', ' if unit else ''}{unit}", [cell.partition(" ")[0] or "-" for cell in cells]


def _verdicts(found: Comparison) -> list[Row]:
    return [
        (name, ["-" if case.refused else found.verdict(case, name) or "-" for case in found.cases])
        for name in found.changing()
    ]


def _heads(found: Comparison) -> list[str]:
    if len(found.keys) > 1:
        return [f"{n}{' *' * case.base}" for n, case in enumerate(found.cases, 1)]
    return [f"{case.name}{' *' * case.base}" for case in found.cases]


def _columns(found: Comparison, rows: list[Row]) -> list[str]:
    """Lines of a table with a column a case, for two files with their difference."""
    heads = [*_heads(found), *(["difference"] if _two(found) else [])]
    lines = [(found.keys[0] if len(found.keys) == 1 else "", heads)]
    lines += [(label, [*cells, *([_difference(cells)] if _two(found) else [])]) for label, cells in rows]
    label = max(len(row[0]) for row in lines)
    wide = [max(len(row[1][n]) for row in lines) for n in range(len(heads))]
    return [
        f"  {name:{label}}" + "".join(f"  {c:>{w}}" for c, w in zip(cells, wide, strict=True)) for name, cells in lines
    ]


def _two(found: Comparison) -> bool:
    return not found.keys and len(found.cases) == 2  # noqa: PLR2004 - a difference is of two


def _difference(cells: list[str]) -> str:
    """Second less first, with as many decimals; nothing where they are no numbers."""
    try:
        first, second = (float(cell) for cell in cells)
    except ValueError:
        return ""
    places = max(len(cell.partition(".")[2]) for cell in cells)
    return f"{second - first:+.{places}f}"


def _print_columns(found: Comparison, names: list[str], width: int) -> bool:
    """Print a column a case, a gap between given, counts, sizes and verdicts; say whether that fits."""
    rows = [*_given(found), *_counts(found), *_sizes(found, names), *_verdicts(found)]
    table = _columns(found, rows)
    if max(map(len, table)) > width:
        return False
    given, verdicts = len(_given(found)), len(_verdicts(found))
    print(table[0])
    for number, line in enumerate(table[1:]):
        if number in {given, given + 2, len(rows) - verdicts} and number:
            print()
        print(_painted(line) if number >= len(rows) - verdicts else line)
    print()
    return True


def _painted(line: str) -> str:
    for verdict in ("stop", "caution"):
        line = line.replace(f" {verdict}", f" {coloured(verdict, verdict)}")
    return line


def _print_rows(found: Comparison, names: list[str], width: int) -> int:
    """Print a row a case, the most telling of them, with as many sizes as fit; return how many those are."""
    cases = telling(found)
    heads = [(key, [_marked(case.given[n], case, n) for case in cases]) for n, key in enumerate(found.keys)]
    heads = heads or [("file", [case.name for case in cases])]
    heads += [(word, ["-" if c.refused else str(getattr(c, word)) for c in cases]) for word in ("stops", "cautions")]
    columns = [_column(*row) for row in heads]
    left = width - sum(_wide(column) for column in columns)
    moved = sorted(names, key=lambda name: -moves(found, name))
    shown = list(accumulate(_wide(_column(*_size(found, name, cases))) for name in moved))
    fits = {name for name, so_far in zip(moved, shown, strict=True) if so_far <= left}
    columns += [_column(*_size(found, name, cases)) for name in names if name in fits]
    for line in zip(*columns, strict=True):
        print("".join(f"{cell:>{_wide(column)}}" for cell, column in zip(line, columns, strict=True)))
    if len(cases) < len(found.cases):
        which = "where verdicts change" if len(found.keys) == 1 else "the ends of those with the fewest cautions"
        print(f"  {len(cases)} of {len(found.cases)}: {which}")
    print()
    return len(fits)


def _marked(text: str, case: Case, column: int) -> str:
    return f"{text or '-'}{' *' * (case.base and not column)}"


def _column(label: str, cells: list[str]) -> list[str]:
    """A column: subject, size and unit above its cells."""
    name, _, unit = label.partition(", ")
    subject, _, size = name.rpartition(".")
    return [subject, size, unit, *cells]


def _wide(column: list[str]) -> int:
    return 2 + max(map(len, column))


def moves(found: Comparison, name: str) -> float:
    """How far a size moves from case to case, as a share of itself."""
    values = [v for case in found.sized if (v := found.size(case, name)) is not None]
    return (max(values) - min(values)) / (max(map(abs, values)) or 1.0)


def telling(found: Comparison) -> list[Case]:
    """All cases if they are few; else of one key's the ends of each run of like verdicts, of more keys' of the best."""
    if len(found.cases) <= ROWS:
        return found.cases
    names = found.changing()
    fewest = found.best()[0]

    def alike(case: Case) -> tuple[object, ...]:
        if len(found.keys) == 1:
            return (case.refused, *(found.verdict(case, name) for name in names))
        return case.given[:-1], (case.stops, case.cautions) == (fewest.stops, fewest.cautions) and not case.refused

    runs = [list(run) for _, run in groupby(found.cases, alike)]
    if len(found.keys) > 1:
        runs = [run for run in runs if alike(run[0])[1]]
    ends = {id(case) for run in runs for case in (run[0], run[-1])}
    chosen = [case for case in found.cases if id(case) in ends]
    some = chosen[:: -(-len(chosen) // (ROWS - 1))]
    return [case for case in found.cases if case.base or any(case is one for one in some)]


def _print_changes(found: Comparison) -> None:
    """Say of each finding that changes where it stands how, and what to do where it is worst."""
    names = found.changing()
    if names:
        print("Findings that change")
    for name in names:
        print(f"  {name}: {_where(found, name)}")
        worst = max(found.sized, key=lambda case: ("", "ok", "caution", "stop").index(found.verdict(case, name)))
        finding = found.finding(worst, name)
        if finding:
            print(f"    {coloured(finding.verdict, finding.verdict)} at {worst.name}: {finding.says}")
    if names:
        print()


def _where(found: Comparison, name: str) -> str:
    """Cases by the verdict of a finding: runs of them along one key, else how many."""
    cases = [case for case in found.tried if not case.refused]
    words = [found.verdict(case, name) or "none" for case in cases]
    if len(found.keys) > 1:
        return ", ".join(f"{word} in {words.count(word)}" for word in sorted(set(words), key=words.count))
    runs = groupby(zip(words, cases, strict=True), key=lambda pair: pair[0])
    return "; ".join(f"{word} {_run([case for _, case in run], found)}" for word, run in runs)


def _run(run: Sequence[Case], found: Comparison) -> str:
    """Name the cases of a run: the ends of a range, or each."""
    if len(run) <= 2 or not found.steps:  # noqa: PLR2004 - a range has two ends and more between
        return ", ".join(case.name for case in run)
    return f"{run[0].name} to {run[-1].given[-1]}"


def _print_left_out(found: Comparison) -> None:
    gathered: dict[tuple[str, str], list[str]] = {}
    for name, needs in found.left_out().items():
        out = _some([case.name for case in found.sized if name in case.left_out])
        gathered.setdefault((out, ", ".join(n.removeprefix("job.") for n in needs)), []).append(name)
    for (out, needed), names in gathered.items():
        print(f"Left out at {out}: {_some(names)}; needs {needed}")
    if gathered:
        print()


def _print_refused(found: Comparison) -> None:
    refused = [case for case in found.cases if case.refused]
    if refused:
        print("Refused")
    for case in refused[:NAMED]:
        print(f"  {case.name}: {'; '.join(case.refused)}")
    if len(refused) > NAMED:
        print(f"  and {len(refused) - NAMED} more")
    if refused:
        print()


def _some(names: list[str], between: str = ", ") -> str:
    more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    return between.join(names[:NAMED]) + more


def _print_end(found: Comparison, names: list[str], csv: Path | None) -> None:
    """Name the best, and say what is not shown."""
    if found.keys:
        best = found.best()
        which = _where_best(found, best)
        print(f"Fewest stops and cautions ({best[0].stops} and {best[0].cautions}): {which}")
    else:
        for case in found.cases:
            print(f"{case.name}: {case.stops} stops, {case.cautions} cautions")
    others = len([n for n in found.differing() if not n.startswith("job.") and seen(found, n)]) - len(names)
    notes = ["* the job as it stands"] if any(case.base for case in found.cases) else []
    notes += [f"{others} more sizes differ: --show '*', or --csv FILE"] if others > 0 and not csv else []
    notes += ["how the ring presses is not solved: --contact"] if found.keys and not _solved(found) else []
    notes += [f"{shown(csv)}: written"] if csv else []
    if notes:
        print("; ".join(notes))


def _solved(found: Comparison) -> bool:
    return "ring.light_gap" in found.units or "ring.outside_diameter" not in found.units


def _where_best(found: Comparison, best: list[Case]) -> str:
    """Name the best: runs along the last key, with the values of the keys before it."""
    chosen = {id(case) for case in best}
    runs = [list(run) for (good, _), run in groupby(found.tried, lambda c: (id(c) in chosen, c.given[:-1])) if good]
    named = [f"{case.name} as it stands" for case in best if case not in found.tried]
    named += [_run(run, found) for run in runs]
    return _some(named, "; " if len(found.keys) > 1 else ", ")
