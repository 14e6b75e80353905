"""The rules on choices about what holds the work: what it is made of, and whether the studs are sized with it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from parts.fixtures import FIXTURES, TURNED
from parts.judging.finding import NOT_JUDGED, Finding
from parts.judging.metal_choices import not_told, soft_above
from parts.sizing.materials import is_plastic
from parts.tables import PRACTICE
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job

UNFIT = {
    "clamp_plate": "it goes into the oven, and burns",
    "splitting_fixture": "a clamp is pulled on it beside a saw",
    "ring_pot": "jaws grip it, and it gives",
    "turned_washer": "the stud's load crushes it, and the head comes loose",
    "test_plate": "it bursts under pressure",
}
"""what plastic is no good for, and why"""
PRINTED = "printed: NO HEAT, no clamp pulled on it, nothing that it would have to hold"


def fixture_is_fit(table: str, book: Book, job: Job) -> Iterator[Finding]:
    """What is printed bears no heat and holds nothing by force."""
    own = getattr(job, table)
    if own is None or not is_plastic(book, table):
        return
    what, name = table.replace("_", " "), own.material.name
    verdict, says = "ok", f"A {what} of {name} is {PRINTED}"
    if table in UNFIT:
        verdict, says = "stop", f"A {what} must not be of {name}: {UNFIT[table]}"
    yield Finding(f"{table}.material", verdict, None, None, "1", says, PRACTICE)


def plate_stands_the_heat(book: Book, job: Job) -> Iterator[Finding]:
    """The clamp plate goes into the oven with the rings."""
    plate, ring = job.clamp_plate, job.ring
    if plate is None or ring is None or is_plastic(book, "clamp_plate"):
        return
    heat = float(ring.heat_set.temperature) if ring.heat_set else None
    if heat is None:
        says = f"{NOT_JUDGED} whether the clamp plate stands the heat; give ring.heat_set"
        yield Finding("clamp_plate.material", "caution", heat, None, "degC", says, PRACTICE)
        return
    most, sure = soft_above(plate.material)
    stands = most is None or heat <= most
    if most is not None and not stands and not sure:
        yield not_told("clamp_plate.material", plate.material, heat, most)
        return
    says = f"The clamp plate {'stands the heat' if stands else 'does not keep its shape in the oven: make it of steel'}"
    verdict = "ok" if stands else "stop"
    yield Finding("clamp_plate.material", verdict, heat, most, "degC", says, "handbook value (memory)")


def washer_is_used(book: Book, job: Job) -> Iterator[Finding]:
    """A turned washer under a stud that was sized for another leaves the nut short of thread."""
    if job.turned_washer is None or job.stud is None or "turned_washer.longer" not in book:
        return
    more = book["turned_washer.longer"].value
    longer = printed(more, "mm", job.job.print_units)
    says = (
        f"The studs are sized for another washer: with the turned one each wants {longer} more; "
        f'give stud.washer = "{TURNED}", or the nut runs short of thread'
    )
    yield Finding("turned_washer.longer", "caution", more, 0.0, "mm", says, "geometry")


FIXTURE_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    *((one.kind, partial(fixture_is_fit, table)) for table, one in FIXTURES.items()),
    ("ring", plate_stands_the_heat),
    ("stud", washer_is_used),
]
