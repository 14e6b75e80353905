"""What a drawing that is put on the job's holes says of them, where it does not tell of all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.finding import NOT_JUDGED, Finding
from parts.judging.rules import stop_of
from parts.sizing.placing import NEAR, drawn_shapes
from parts.tables import PRACTICE
from parts.units import printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job

OFF = "deck.drawing_off"


def drawing_lacks_holes(book: Book, job: Job) -> Iterator[Finding]:
    """Of a hole that the drawing has no circle for it does not tell; those that it has are judged all the same."""
    if OFF not in book or not book["deck.drawing_unjudged"].value:
        return
    put = (shape.put for _, shape in drawn_shapes(job) if shape.put)
    names = ", ".join(dict.fromkeys(name for _, unjudged in put for name in unjudged))
    off, stop = book[OFF].value, stop_of(OFF)
    near = printed(NEAR, "mm", job.job.print_units)
    says = (
        f"whether the drawing fits {names}: it has no circle within {near} of them, or no third one by which to tell; "
        "trace or draw them too, or see by the paper template whether all holes lie where they are"
    )
    if off > stop:
        worst, most = (printed(value, "mm", job.job.print_units) for value in (off, stop))
        says = (
            f"Holes of a drawing off those of the job: {worst}, at most {most} is wanted; and it is not judged {says}"
        )
    else:
        says = f"{NOT_JUDGED} {says}"
    yield Finding(OFF, "stop" if off > stop else "caution", off, stop, "mm", says, PRACTICE, past=(None, off - stop))


DRAWING_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [("", drawing_lacks_holes)]
