"""Whether there is a preload that all limits leave room for, where it was designed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.judging.finding import Finding
from parts.sizing.preload_window import KEY, LEAST, MOST, deciding
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from parts.book import Book
    from parts.job import Job

NAME = "joint.preload_window"
SOURCE = f"Shigley, Mechanical Engineering Design, ch. 8, and VDI 2230-1 for the limits; the middle is {PRACTICE}"


def preload_window(book: Book, _: Job) -> Iterator[Finding]:
    """Where the least that is asked for lies over the most that is allowed, two limits meet: which."""
    if not book.has(KEY, LEAST, MOST):
        return
    share, least, most = (float(book[name].value) for name in (KEY, LEAST, MOST))
    opens, breaks = (float(book[f"joint.preload_share_{end}"].value) for end in ("opens", "breaks"))
    past = (least - most, opens - breaks)
    asks, allows = deciding(book, LEAST), deciding(book, MOST)
    if least <= most:
        between = f"from {least:.2f} ({asks}) to {most:.2f} ({allows})"
        designed = "midway" if round(least + most - 2 * share, 6) == 0 else "where every state leaves it room"
        where = designed if book[KEY].status == "designed" else "as it was made"
        says = f"The preload of {share:.2f} of the proof load lies {where}: {between}"
        yield Finding(NAME, "ok", share, most, "1", says, SOURCE, past=past)
        return
    at_most = f"at most {most:.2f}" if most > 0 else "of which the heat alone is more"
    says = (
        f"No preload satisfies both {asks}, at least {least:.2f} of the proof load, and {allows}, {at_most}: "
        f"{share:.2f} is taken; change what one of the two rests on"
    )
    yield Finding(NAME, "caution" if opens <= breaks else "stop", share, most, "1", says, SOURCE, past=past)


PRELOAD_CHOICES: list[tuple[str, Callable[[Book, Job], Iterator[Finding]]]] = [
    ("stud", preload_window),
    ("base", preload_window),
]
