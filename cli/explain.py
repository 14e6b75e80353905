"""`topend explain`: one size, how it comes about and where its inputs come from."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from parts.book import Book, Entry
    from parts.job import Job


def explain(
    file: Annotated[Path, typer.Argument(help="Job file.")],
    name: Annotated[str, typer.Argument(help="Dotted name of a size, or of a key as job.<table>.<key>.")],
) -> int:
    """One size: value, formula, the inputs with their values, the source.

    Example: topend explain job.toml stud.projection
    """
    from parts.checked import lines_of, sized
    from parts.job import load
    from parts.job_text import read_file
    from parts.unknowns.ranged import ranged

    text = read_file(file)
    job = load(text)
    with lines_of(text):
        book, found = sized(job)
    entry = find(book, name, job)
    system = job.job.print_units
    if found and job.made is not None:
        found = ranged(job, book, as_made=True)
    ranges = found.ranges if found else {}
    for line in account_of(book, name, entry, system, ranges.get(name)):
        print(line)
    return 0


def find(book: Book, name: str, job: Job) -> Entry:
    """Return a size by its name; JobError with what is missing, of which it is not said, or with the nearest names."""
    import difflib

    from parts.errors import Fault, JobError
    from parts.job.schema import in_workshop_words

    if name in book:
        return book[name]
    if name in book.left_out:
        needs = ", ".join(in_workshop_words(n.removeprefix("job.")) for n in book.needs(name))
        raise JobError(Fault(name, f"is left out: give {needs}"))
    own = dict.fromkeys(real for one in job.named() if (real := one.real(name)) in book or real in book.left_out)
    near = list(own) or difflib.get_close_matches(name, [*book, *book.left_out], 3, 0.5)
    hint = f"; did you mean {' or '.join(near)}?" if near else "; topend check lists all sizes"
    raise JobError(Fault(name, f"is not a size of this job{hint}"))


def account_of(book: Book, name: str, entry: Entry, system: str, ends: list[float] | None = None) -> list[str]:
    """Say how a size comes about, line by line; `ends` are those of its range, where it rests on what is not known."""
    from parts.units import printed, with_spread

    if isinstance(entry.value, list):
        lines = [f"{name}: {len(entry.value)} points, angle in deg and radius in mm"]
        lines += [f"  {angle:6.1f}  {radius:10.4f}" for angle, radius in entry.value]
    else:
        lines = [f"{name} = {with_spread(entry.value, book.spread(name), entry.unit, system)}"]
    if ends:
        low, high = (printed(end, entry.unit, system) for end in ends)
        lines.append(f"  range    {low} to {high}, by what is not known")
    lines.append(f"  status   {entry.status}")
    if book.plan is not None and name in book.plan and book.plan[name].value != entry.value:
        was = book.plan[name]
        lines.append(f"  planned  {printed(was.value, was.unit, system)}")
    if entry.inputs:
        lines.append(f"  formula  {entry.formula}")
        lines.append("  inputs   lengths in mm, forces in N, stresses in MPa")
    for argument, source in entry.inputs.items():
        if isinstance(source, str):
            below = book[source]
            value = f"{below.value:.9g} {below.unit if below.unit != '1' else ''}".strip()
            lines.append(f"    {argument:16} = {value:20} {source} ({below.status}: {below.source})")
        else:
            lines.append(f"    {argument:16} = {source:g}")
    lines.append(f"  source   {entry.source}")
    lines += _movers(book, name, entry)
    return lines


def _movers(book: Book, name: str, entry: Entry) -> list[str]:
    """Say which reading's tolerance moves the size most: shares of the squares, which add to the whole."""
    moved = {n: d * d for n, d in book.moved_by(name).items()} if isinstance(entry.value, float) else {}
    total = sum(moved.values())
    if not total or not entry.inputs:
        return []
    shares = sorted(moved.items(), key=lambda item: -item[1])
    return ["  moved by " + ", ".join(f"{n.removeprefix('job.')} {100 * d / total:.0f} %" for n, d in shares[:4])]
