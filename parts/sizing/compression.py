"""Compression and squish, before and after."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.relations import compression as relation
from parts.relations import ports

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


MULTIPLES = (0.5, 0.75, 1.0, 1.25, 1.5)  # of the gasket's thickness
CRANKING = {"low": 1.0, "high": 1.2}  # exponent of the compression when the engine is turned over
EXPECTED = "common practice, no source: takes in leaks, cold walls and a late inlet valve"


def size_compression(book: Book, job: Job) -> None:
    """Add swept volume, both ratios and the squish; also with other gaskets, where the book holds such."""
    add_swept(book)
    book.add(
        "compression.ratio_before",
        relation.ratio,
        swept="compression.swept_volume",
        clearance="job.engine.clearance_volume",
    )
    old, new, skim = old_thickness(book), "job.gasket.thickness", skim_name(book)
    both = chambers(book)
    _after(book, old, skim, both)
    gaskets = {"old_gasket": old, "new_gasket": new}
    book.add("compression.squish", relation.squish_after, before="job.engine.squish", **gaskets, skim=skim)
    after, before = "compression.ratio_after", "compression.ratio_before"
    book.add("compression.ratio_change", relation.ratio_change, after=after, before=before)
    book.add("compression.head_drop", relation.head_drop, **gaskets, skim=skim)
    if book.contact:
        _table(book, old, skim, both)
    _cranking(book, two_stroke=job.engine is not None and job.engine.cycle == "two-stroke")


def add_swept(book: Book) -> None:
    """Add the swept volume."""
    book.add("compression.swept_volume", relation.swept_volume, bore="job.engine.bore", stroke="job.engine.stroke")


def add_old_volumes(book: Book, old: str, skim: str | float) -> dict[str, str]:
    """Add the volumes of the old gasket and of the skim; their names."""
    old_bore = "job.gasket.old_bore" if "job.gasket.old_bore" in book else "gasket.bore_diameter"
    names = {"old_gasket": "compression.old_gasket_volume", "skim": "compression.skim_volume"}
    book.add(names["old_gasket"], relation.gasket_volume, bore=old_bore, thickness=old)
    book.add(names["skim"], relation.skim_volume, bore="job.engine.bore", skim=skim)
    return names


def _after(book: Book, old: str, skim: str | float, both: dict[str, str]) -> None:
    """Add the volumes that change, what is left above the piston, and the ratio."""
    new, new_bore = "job.gasket.thickness", "gasket.bore_diameter"
    volumes = add_old_volumes(book, old, skim)
    book.add("compression.new_gasket_volume", relation.gasket_volume, bore=new_bore, thickness=new)
    book.add(
        "compression.clearance_after",
        relation.clearance_after,
        before="job.engine.clearance_volume",
        **both,
        old_gasket=volumes["old_gasket"],
        new_gasket="compression.new_gasket_volume",
        skim=volumes["skim"],
    )
    _refuse_no_room(book)
    book.add(
        "compression.ratio_after",
        relation.ratio,
        swept="compression.swept_volume",
        clearance="compression.clearance_after",
    )


def _table(book: Book, old: str, skim: str | float, both: dict[str, str]) -> None:
    """Add ratio and squish with thinner and thicker gaskets."""
    for number, multiple in enumerate(MULTIPLES if "job.gasket.thickness" in book else (), 1):
        name = f"compression.at.{number}"
        thickness = f"{name}.thickness"
        book.add(thickness, relation.gasket_to_try, thickness="job.gasket.thickness", multiple=multiple)
        book.add(f"{name}.volume", relation.gasket_volume, bore="gasket.bore_diameter", thickness=thickness)
        book.add(
            f"{name}.clearance",
            relation.clearance_after,
            before="job.engine.clearance_volume",
            **both,
            old_gasket="compression.old_gasket_volume",
            new_gasket=f"{name}.volume",
            skim="compression.skim_volume",
        )
        if f"{name}.clearance" not in book or book[f"{name}.clearance"].value > 0:
            swept = "compression.swept_volume"
            book.add(f"{name}.ratio", relation.ratio, swept=swept, clearance=f"{name}.clearance")
        gaskets = {"old_gasket": old, "new_gasket": thickness}
        book.add(f"{name}.squish", relation.squish_after, before="job.engine.squish", **gaskets, skim=skim)


def _cranking(book: Book, *, two_stroke: bool) -> None:
    """Add the range in which a compression gauge should read; a two-stroke presses only what its ports have trapped."""
    ratio = "compression.ratio_after"
    if two_stroke:
        ratio, volume = "compression.trapped_ratio", "compression.trapped_volume"
        book.add(volume, ports.trapped_volume, bore="job.engine.bore", travel="compression.trapped_stroke")
        book.add(ratio, relation.ratio, swept=volume, clearance="compression.clearance_after")
    for end, exponent in CRANKING.items():
        by = f"compression.exponent_{end}"
        book.enter(by, exponent, "1", "assumed", EXPECTED)
        book.add(f"compression.cranking_{end}", relation.cranking_pressure, ratio=ratio, exponent=by)


def _refuse_no_room(book: Book) -> None:
    """Refuse volumes that leave nothing above the piston."""
    after = "compression.clearance_after"
    if after in book and book[after].value <= 0:
        says = f"leaves no room above the piston with the new head and gasket: {book[after].value / 1000:.2f} cm^3"
        raise JobError(Fault("engine.clearance_volume", says))


def old_thickness(book: Book) -> str:
    """Name of the old gasket's thickness: where it is not given, the new one's is assumed."""
    if "job.gasket.old_thickness" in book or "job.gasket.thickness" not in book:
        return "job.gasket.old_thickness"
    book.enter(
        "compression.old_thickness",
        book["job.gasket.thickness"].value,
        "mm",
        "assumed",
        "old gasket taken as thick as the new one",
    )
    return "compression.old_thickness"


def skim_name(book: Book) -> str | float:
    """Name of the skim, 0 where there is no barrel."""
    return "job.barrel.skim" if "job.barrel.skim" in book else 0.0


def chambers(book: Book) -> dict[str, str]:
    """Names of both chambers; where one is missing both are taken as that one."""
    old, new = "job.engine.old_chamber_volume", "job.head.chamber_volume"
    if book.has(old, new):
        return {"old_chamber": old, "new_chamber": new}
    if "job.engine.clearance_volume" not in book:
        return {"old_chamber": old, "new_chamber": new}
    known = next((n for n in (old, new) if n in book), None)
    value = book[known].value if known else 0.0
    book.enter(
        "compression.chamber_unchanged", value, "mm^3", "assumed", "a chamber volume is missing: taken as unchanged"
    )
    return {"old_chamber": "compression.chamber_unchanged", "new_chamber": "compression.chamber_unchanged"}
