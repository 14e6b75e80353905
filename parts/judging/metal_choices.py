"""Rules on metals of which neither the job nor the table says what family they are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.finding import Finding
from parts.sizing.materials import metals, unnamed
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job
    from parts.job.material_models import MaterialSpec


def castings_named(_: Book, job: Job) -> Iterator[Finding]:
    """What kind of metal a casting is decides what a thread in it wants, and what heat leaves of it."""
    if job.instances("stud"):
        for part, table in (("barrel", job.barrel), ("head", job.head)):
            yield from _unnamed(part, table.material if table else None)


def crankcase_named(_: Book, job: Job) -> Iterator[Finding]:
    """What kind of metal the crankcase is, in the view of its joint."""
    yield from _unnamed("barrel", job.barrel.material if job.barrel else None)


def stud_metal_named(_: Book, job: Job) -> Iterator[Finding]:
    """What kind of steel a stud is decides what heat leaves of it."""
    yield from _unnamed("stud", job.stud.material if job.stud else None)


def _unnamed(part: str, spec: MaterialSpec | None) -> Iterator[Finding]:
    if spec is None or not unnamed(spec):
        return
    says = (
        f"What metal {spec.name!r} is was not given: threads and heat are taken as of the weakest that it could be: "
        f"{', '.join(metals(spec))}; give the family beside its name"
    )
    yield Finding(f"{part}.family", "caution", None, None, "1", says, PRACTICE)


METAL_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("", castings_named),
    *((kind, stud_metal_named) for kind in ("stud", "base")),
    *((kind, crankcase_named) for kind in ("base", "through")),
]
