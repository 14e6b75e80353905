"""Rings of a list that have no mandrel of their own: how each would press, set on another ring's.

`ring.NAME.on.OTHER.free_gap`, `.pressure_ratio_least` and `.light_gap`, for every mandrel in the list that goes into
the oven and whose seat is high enough. A pin holds the ends of a ring of its own thickness alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.job.part_models import NO_TRIAL, SET_FRACTION
from parts.relations.shared_mandrel import FIGURES, on_mandrel_of
from parts.sizing.ring_contact import COMMON

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.instances import Instance

NO_LIMITS = 0.0  # they bend at every change of contact, so that a slope says little of them
SHARE = COMMON["set_fraction"]
OWN = {
    "contoured": {
        "own_thickness": "job.ring.radial_thickness",
        "own_outside": "ring.outside_diameter",
        "own_free_gap": "job.ring.free_gap",
        "own_closed_gap": "ring.closed_gap",
        "own_set_fraction": SHARE,
    },
    "pin": {"open_gap": "mandrel.open_gap"},
    "round": {"mandrel": "mandrel.diameter"},
}
"""argument -> size of the ring that a mandrel is made for"""


def lacking_mandrel(job: Job) -> list[Instance]:
    """Rings of a list without a mandrel, where others have one."""
    rings = [one for one in job.instances("ring") if one.name]
    without = [one for one in rings if "mandrel" not in one.tables]
    return without if len(without) < len(rings) else []


def size_shared_mandrels(book: Book, job: Job) -> None:
    """Add how a ring without a mandrel would press, set on each that there is."""
    for one in lacking_mandrel(job) if book.contact else ():
        if one.real(SHARE) not in book:
            book.enter(one.real(SHARE), SET_FRACTION, "1", "assumed", NO_TRIAL)
        common = {argument: one.real(name) for argument, name in COMMON.items()}
        if not book.has(*common.values()) or book[one.real("ring.closed_gap")].value < 0:
            continue
        for other in job.instances("ring"):
            if _goes_on(book, one, other):
                _tried(book, one, other, common)


def _goes_on(book: Book, one: Instance, other: Instance) -> bool:
    """Tell whether a ring can be put on another ring's mandrel and into the oven."""
    mandrel, thickness = other.tables.get("mandrel"), "job.ring.radial_thickness"
    if mandrel is None or mandrel.purpose == "fit check":
        return False
    if mandrel.form == "pin" and book[one.real(thickness)].value != book[other.real(thickness)].value:
        return False
    stack = other.real("mandrel.stack")
    own = {other.real(name) for name in OWN[mandrel.form].values()}
    return book.has(stack, *own) and bool(book[one.real("job.ring.axial_width")].value <= book[stack].value)


def _tried(book: Book, one: Instance, other: Instance, common: dict[str, str]) -> None:
    form = other.tables["mandrel"].form
    own = {argument: other.real(name) for argument, name in OWN[form].items()}
    for figure in FIGURES:
        book.add(one.real(f"ring.on.{other.name}.{figure}"), on_mandrel_of(form, figure), NO_LIMITS, **common, **own)
