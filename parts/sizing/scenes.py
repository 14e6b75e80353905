"""Book and job as each instance sees them: what is written for one is done for every one of its kind."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from itertools import islice
from operator import itemgetter
from typing import TYPE_CHECKING

from parts.job.instances import JOINTS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.errors import Fault
    from parts.job import Job
    from parts.job.instances import Instance

    Scene = tuple[Book, Job, Instance | None]


def scenes(book: Book, job: Job, kind: str) -> Iterator[Scene]:
    """Book and job as each instance of a kind sees them; as they are where there is no kind, or none of it.

    What is about the joint on the crankcase is about nothing where there is none.
    """
    instances = job.instances(kind)
    if not instances and kind not in JOINTS:
        yield book, job, None
    for one in instances:
        yield book.at(one), job.at(one), one


def scenes_of(book: Book, job: Job) -> Callable[[str], tuple[Scene, ...]]:
    """As `scenes` by the kind, those of each kind put together once."""
    return lru_cache(None)(lambda kind: tuple(scenes(book, job, kind)))


def by_hole(book: Book, job: Job) -> list[tuple[int, Book, Job]]:
    """Number of each new hole, with book and job as its stud sees them."""
    studs = scenes(book, job, "stud")
    return sorted(((n, view, own) for view, own, _ in studs for n in view.numbers("deck.hole")), key=itemgetter(0))


def by_old_hole(book: Book, job: Job) -> list[tuple[int, Book, Job]]:
    """Number of each old hole, with book and job as its table sees them."""
    numbers = iter(book.numbers("deck.old"))
    found: list[tuple[int, Book, Job]] = []
    for view, own, one in scenes(book, job, "old"):
        pattern = own.old.pattern if own.old else None
        count = None if one is None or not one.name else pattern.holes if pattern else 0
        found += [(n, view, own) for n in islice(numbers, count)]
    return found


HOLES = ("deck.hole.", "deck.washer.", "gasket.hole.", "drop.hole.")
"""what is numbered as the new holes are, and goes with the stud of each"""
PASSAGE = "job.barrel.passages."


def scene_of(book: Book, job: Job, name: str) -> Scene:
    """Book and job as the instance sees them that a size, by its name in the whole book, is about."""
    for one in job.named():
        if one.local(name) != name or _stands_in(one, name, job):
            return book.at(one), job.at(one), one
    return book, job, None


def _stands_in(one: Instance, name: str, job: Job) -> bool:
    """Tell whether a size is of a hole that a stud stands in, or of the passage that a plug is for."""
    if one.holes is not None:
        return _of_a_hole(name, one.holes)
    number = name.removeprefix(PASSAGE).partition(".")[0]
    if one.kind != "plug" or not name.startswith(PASSAGE) or job.barrel is None:
        return False
    return bool(job.barrel.passages[int(number)].name == one.tables["plug"].passage)


def _of_a_hole(name: str, holes: tuple[int, ...]) -> bool:
    number = next((name.removeprefix(start).partition(".")[0] for start in HOLES if name.startswith(start)), "")
    return number.isdecimal() and int(number) in holes


def placed(fault: Fault, instance: Instance | None) -> Fault:
    """A fault by the place of its key in the file."""
    if instance is None or not instance.name:
        return fault
    return replace(fault, key=".".join(map(str, instance.path(tuple(fault.key.split("."))))))
