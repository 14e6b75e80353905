"""Whether the head drops onto its studs: by tolerances before they are drilled, by what was measured after."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.book import DECIMALS
from parts.relations import drop as relation
from parts.relations import drop_place as place
from parts.relations.drop import off_of, patterns

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def size_drop(book: Book, job: Job) -> None:
    """Add the room round each stud in the head's holes, and the chance that the head drops on."""
    count = len(book.numbers("deck.hole"))
    if job.head is None or not book.has("joint.head_float", "deck.hole.1.x"):
        return
    held = job.head.located_by or "studs"
    room, drilled, holes = "joint.head_float", "job.barrel.drilled_within", "job.head.holes_within"
    measured = [n for n in range(1, count + 1) if {f"deck.hole.{n}.{axis}" for axis in "xy"} & book.made.keys()]
    if not measured:
        if book.has(drilled):
            _open(book, count)
            within = {"room": room, "drilled": drilled, "holes": holes, "fitted": "drop.left_open"}
            book.add("drop.room", relation.room_left, **within)
            chance = relation.chance_fixed if held in ("dowels", "spigot") else relation.chance_floating
            book.add("drop.chance", chance, **within, count=count)
        return
    _as_drilled(book, job, count, held)


def _open(book: Book, count: int) -> None:
    """Put down how far the readings that the pattern comes from leave a hole open, along X or Y."""
    places = [f"deck.hole.{n}.{axis}" for n in range(1, count + 1) for axis in "xy"]
    source = "greatest of all holes: the pattern's own ±, or two standard errors where it was fitted"
    book.enter("drop.left_open", round(max(map(book.spread, places)), DECIMALS), "mm", "computed", source)


def _as_drilled(book: Book, job: Job, count: int, held: str) -> None:
    """Add how far each stud is off, with the room of the tightest, and what to open its hole to."""
    plan, numbers, room = book.plan or book, range(1, count + 1), "joint.head_float"
    places: dict[str, str | float] = {}
    for n in numbers:
        for axis in "xy":
            places[f"{axis}{n}"] = f"deck.hole.{n}.{axis}"
            places[f"hole_{axis}{n}"] = plan[f"deck.hole.{n}.{axis}"].value
    opened = place.to_open(*patterns(count, {a: book.number(n) for a, n in places.items()}), held, book[room].value)
    for n in numbers:
        name = f"drop.hole.{n}"
        book.add(f"{name}.off", off_of(n, count, held), **places)
        book.add(f"{name}.room", relation.room_as_drilled, room=room, off=f"{name}.off")
        if n - 1 in opened:
            book.add(
                f"{name}.open_to", relation.opened_to, stud=job.of_hole(n, "stud.nut_end_nominal"), off=opened[n - 1]
            )
