"""Book and job as each instance sees them: what is written for one is done for every one of its kind."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.book import Book
    from parts.errors import Fault
    from parts.job import Job
    from parts.job.instances import Instance


def scenes(book: Book, job: Job, kind: str) -> Iterator[tuple[Book, Job, Instance | None]]:
    """Book and job as each instance of a kind sees them; as they are where there is no kind, or none of it."""
    instances = job.instances(kind)
    if not instances:
        yield book, job, None
    for one in instances:
        yield book.at(one), job.at(one), one


HOLES = ("deck.hole.", "deck.washer.", "gasket.hole.", "drop.hole.")
"""what is numbered as the new holes are, and goes with the stud of each"""


def scene_of(book: Book, job: Job, name: str) -> tuple[Book, Job, Instance | None]:
    """Book and job as the instance sees them that a size, by its name in the whole book, is about."""
    for one in job.named:
        if one.local(name) != name or (one.holes and _of_a_hole(name, one.holes)):
            return book.at(one), job.at(one), one
    return book, job, None


def _of_a_hole(name: str, holes: tuple[int, ...]) -> bool:
    number = next((name.removeprefix(start).partition(".")[0] for start in HOLES if name.startswith(start)), "")
    return number.isdecimal() and int(number) in holes


def placed(fault: Fault, instance: Instance | None) -> Fault:
    """A fault by the place of its key in the file."""
    if instance is None or not instance.name:
        return fault
    return replace(fault, key=".".join(map(str, instance.path(tuple(fault.key.split("."))))))
