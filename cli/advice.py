"""Advice as a machinist reads it: first what to change, then what stays, then finding by finding."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from cli.say import coloured, shown
from parts.advising.records import change_record, comes_to
from parts.advising.words import one_change
from parts.judging.finding import NOT_JUDGED

if TYPE_CHECKING:
    from pathlib import Path

    from parts.advising.advice import Advice, Told
    from parts.advising.clearing import Clearing
    from parts.advising.trials import Outcome
    from parts.judging.finding import Finding

WIDTH = 110


def print_advice(advice: Advice, written: Path | None) -> None:
    """Print advice on a job."""
    changes = len(advice.design)
    print(f"As it stands: {counts(advice.before)}.")
    if changes:
        print(f"With {changes} change{'s' * (changes > 1)}: {counts(advice.after)}. Only what is chosen is changed.\n")
        print("-- Change")
        for change, why in advice.why.items():
            print(f"   {one_change(change_record(change))}")
            wrapped(f"without it {why}", 6)
    elif advice.before.counts > (0, 0):
        print("No change of what is chosen makes that fewer.")
    if advice.left:
        print("\n-- What then remains, and why" if changes else "\n-- What stands in the way")
        for finding, why in advice.left:
            print_heading(finding)
            wrapped(why, 8)
    if advice.told:
        print_each(advice)
    if written is not None:
        print(f"\n{shown(written)}: written, with what stood there beside each change; look at it, then: topend check")


def counts(outcome: Outcome) -> str:
    """Count stops and cautions in words."""
    stops, cautions = outcome.counts
    return f"{stops or 'no'} stop{'s' * (stops != 1)}, {cautions or 'no'} caution{'s' * (cautions != 1)}"


def print_heading(finding: Finding) -> None:
    """Print what a finding is about; several that can't be judged may wait for one thing each of the same size."""
    about, lacks = finding.says.partition(";")[0], finding.name.removeprefix("not_judged.")
    if lacks != finding.name:
        about = about.replace(NOT_JUDGED, f"{NOT_JUDGED[:-1]} without {lacks}:")
    print(f"{coloured(f'{finding.verdict:8}', finding.verdict)}{about}")


def print_each(advice: Advice) -> None:
    """Print what there is to say of each stop and caution."""
    print("\n-- Each by itself, from the job as it stands: the best way first")
    if advice.unknown:
        print("   at the values taken; what is above is judged over the range of what is not known")
    for told in advice.told:
        print_told(told, advice.system)


def print_told(told: Told, system: str) -> None:
    """Print what there is to say of one stop or caution."""
    print_heading(told.finding)
    for way in told.changes:
        print_way(way, system)
    if told.way:
        wrapped(told.way, 8)


def print_way(way: Clearing, system: str) -> None:
    """Print one way to make a finding better, and what it does elsewhere."""
    print("   " + "\n   and ".join(one_change(change_record(one)) for one in way.design))
    wrapped(comes_to(way, system), 8)


def wrapped(text: str, indent: int) -> None:
    """Print a text in lines that a page takes."""
    for line in textwrap.wrap(text, WIDTH - indent, break_long_words=False) or [""]:
        print(" " * indent + line)
