"""Tables for the terminal: sizes by subject, what was assumed, what was left out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.lacking import lacking
from parts.units import printed, with_spread
from parts.unknowns.words import told

if TYPE_CHECKING:
    from parts.book import Book
    from parts.checked import Checked
    from parts.job import Job


def print_sizes(book: Book, job: Job) -> None:
    """Print every computed size by its subject, of several of a kind one after the other, with its limits."""
    subject, system = "", job.job.print_units
    whose = {name: n for n, one in enumerate(job.named(), 1) for name in book if one.local(name) != name}
    for name, entry in sorted(book.items(), key=lambda item: (item[0].partition(".")[0], whose.get(item[0], 0))):
        if name.startswith("job.") or isinstance(entry.value, list):
            continue
        this = name.partition(".")[0].capitalize()
        if name in whose:
            this += f", {job.named()[whose[name] - 1].name}"
        if this != subject:
            subject = this
            print(subject)
        value = with_spread(entry.value, book.spread(name), entry.unit, system)
        mark = "" if entry.status in ("computed", "published", "given") else f"  ({entry.status})"
        print(f"  {name:39} {value}{mark}")
    print()


def print_assumed(book: Book, system: str) -> None:
    """Print what was not given and was assumed."""
    assumed = {n: e for n, e in book.items() if e.status == "assumed"}
    if assumed:
        print("Assumed, since the job file does not say")
        for name, entry in assumed.items():
            print(f"  {name.removeprefix('job.'):34}{printed(entry.value, entry.unit, system)}  [{entry.source}]")
        print()


def print_left_out(left_out: dict[str, list[str]]) -> None:
    """Print what would have to be measured or chosen, and what could not be sized without it."""
    told = lacking(left_out)
    if told:
        print("Left out")
        for need, names in told:
            print(f"  give {need}")
            print(f"    for {names}")
        print()


def print_unknown(done: Checked) -> None:
    """Print what is not known by what it decides, and what has no usual range."""
    if done.unknowns:
        print("What you don't know, by what it decides: the reading worth taking first on top")
        for known, decides, measure in told(done.job, done.unknowns):
            print(f"  {known}\n    {decides}\n    to measure: {measure}")
        print()
    if done.job.absent:
        print("Not known, and without a usual range")
        for key, measure in done.job.absent.items():
            print(f"  {key}: {measure}")
        print()
