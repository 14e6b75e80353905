"""The rules on what squish and compression rest on; all of them in COMPRESSION_CHOICES."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.finding import ASSUMED, NOT_JUDGED, Finding
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job


RESTS_ON_IT = ("compression.squish", "compression.ratio_after")


def chamber_known(book: Book, _: Job) -> Iterator[Finding]:
    """Compression is a guess where a chamber was not measured."""
    if "compression.chamber_unchanged" in book and "compression.ratio_after" in book:
        says = (
            "not judged: the ratio as it will be; a chamber volume is missing and was taken as unchanged: "
            "measure both heads by burette before you trust it"
        )
        yield Finding("compression.chambers", "caution", None, None, "1", says, ASSUMED)


def old_gasket_known(book: Book, job: Job) -> Iterator[Finding]:
    """How far the head comes down hangs on the gasket that was there."""
    name = "compression.old_thickness"
    if name in book and book[name].status == "assumed" and any(n in book for n in RESTS_ON_IT):
        taken = printed(book[name].value, "mm", job.job.print_units)
        says = (
            f"{NOT_JUDGED} squish and ratio as they will be; the old gasket was not given and was taken as thick as "
            f"the new one, {taken}: a thicker one brings the piston nearer; measure it and give gasket.old_thickness"
        )
        yield Finding("compression.old_gasket", "caution", None, None, "1", says, ASSUMED)


COMPRESSION_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("", chamber_known),
    ("", old_gasket_known),
]
