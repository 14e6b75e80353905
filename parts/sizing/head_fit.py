"""The other head on this barrel: chamber against bore and gasket, spark plug, valves and what drives them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import head_fit as relation
from parts.tables import plug_reaches

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

LONGER = 0.5  # mm that a spark plug may stand into the chamber: common practice, no source


def size_head_fit(book: Book, job: Job) -> None:
    """Add the sizes of what the job tells of the head."""
    head = job.head
    if head is None:
        return
    if head.chamber_mouth is not None:
        _mouth(book, loose=head.located_by in (None, "studs"))
    if head.plug_reach is not None:
        _plug(book, float(head.plug_reach))
    if head.valves is not None:
        book.add("fit.valve_room", relation.valve_room, tried="job.head.valves", drop="compression.head_drop")
    if head.valve_gear == "push rods":
        book.add("fit.push_rod_change", relation.push_rod_change, drop="compression.head_drop")
    if head.valve_gear == "chain":
        book.add("fit.chain_slack", relation.chain_slack, drop="compression.head_drop")


def _mouth(book: Book, *, loose: bool) -> None:
    mouth = "job.head.chamber_mouth"
    book.add("fit.mouth_over_bore", relation.mouth_over_bore, mouth=mouth, bore="job.engine.bore")
    shift: str | float = "joint.head_float" if loose and "joint.head_float" in book else 0.0
    book.add(
        "fit.gasket_in_chamber", relation.gasket_in_chamber, mouth=mouth, gasket="gasket.bore_diameter", shift=shift
    )


def _plug(book: Book, hole: float) -> None:
    """Add the longest usual spark plug that does not stand into the chamber, the shortest where all would."""
    reaches = plug_reaches()
    reach = max((r for r in reaches if r.value <= hole + LONGER), key=lambda r: r.value, default=reaches[0])
    book.enter("fit.plug_reach", reach.value, "mm", reach.status, reach.source)
    book.add("fit.plug_short", relation.plug_short, hole="job.head.plug_reach", reach="fit.plug_reach")
