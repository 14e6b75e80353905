"""The preload that was designed at the values taken, held against what all states ask for and allow."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from parts.judging.preload_choices import NAME
from parts.sizing.preload_window import KEY, LEAST, MOST, deciding
from parts.sizing.scenes import scenes
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from parts.book import Book, Entry
    from parts.job import Job
    from parts.judging.finding import Finding

SOURCE = f"the middle of what every state leaves, over the range of what is not known: {PRACTICE}"


class Room(NamedTuple):
    """What all states together leave of one designed preload share."""

    key: str
    """of the share, in the whole book"""
    finding: str
    """name of the finding on it"""
    least: float
    most: float
    between: tuple[str, str]
    """the limits that ask for the least and allow the most, in words"""


def rooms(job: Job, base: Book, books: Sequence[Book]) -> Iterator[Room]:
    """What the states of a job leave of each preload share that was designed; `base`: with the values taken."""
    for kind in ("stud", "base"):
        for view, _, one in scenes(base, job, kind):
            if not view.has(KEY, LEAST, MOST) or view[KEY].status != "designed":
                continue
            views = [book.at(one) if one else book for book in books]
            low = max((v for v in views if LEAST in v), key=lambda v: float(v[LEAST].value))
            high = min((v for v in views if MOST in v), key=lambda v: float(v[MOST].value))
            ends, between = (low[LEAST].value, high[MOST].value), (deciding(low, LEAST), deciding(high, MOST))
            yield Room(view.real(KEY), view.real(NAME), *ends, between)


def moved(room: Room, entry: Entry) -> Entry | None:
    """The share where all states leave room for one: midway, if the values taken led out of it; else None."""
    if room.least > room.most or room.least <= entry.value <= room.most:
        return None
    ends = {"least": room.least, "most": room.most}
    middle = (room.least + room.most) / 2
    return entry._replace(value=middle, formula="share = (least + most) / 2", inputs=ends, source=SOURCE)


def crossed(room: Room, found: Finding) -> Finding:
    """The finding on a share that holds in each state by itself, where none holds in all: which two limits meet."""
    if found.verdict != "ok" or room.least <= room.most:
        return found
    asks, allows = room.between
    at_most = f"at most {room.most:.2f}" if room.most > 0 else "of which the heat alone may be more"
    says = (
        f"over the range of what is not known no preload satisfies both {asks}, at least {room.least:.2f} of the proof "
        f"load, and {allows}, {at_most}"
    )
    return found._replace(verdict="caution", says=f"{found.says}; {says}", holds_if=says)
