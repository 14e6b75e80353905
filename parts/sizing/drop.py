"""Whether the head drops onto its studs: by tolerances before they are drilled, by what was measured after."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sizing import drop_place as place
from parts.sizing import drop_relations as relation

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job

OFF = """How far a stud stands off the middle of its hole, the head where it fits best.

    off = distance of stud {number} from its hole, the head at the place where the greatest of them is least

    Returns
    -------
    off : float
        Distance [mm]

    References
    ----------
    .. [1] Smallest circle round the differences of both patterns, over all small turns (derived)."""


def size_drop(book: Book, job: Job) -> None:
    """Add the room round each stud in the head's holes, and the chance that the head drops on."""
    count = sum(f"deck.hole.{n}.x" in book for n in range(1, 37))
    if job.head is None or not book.has("joint.head_float", "deck.hole.1.x"):
        return
    held = job.head.located_by or "studs"
    room, drilled, holes = "joint.head_float", "job.barrel.drilled_within", "job.head.holes_within"
    measured = [n for n in range(1, count + 1) if {f"deck.hole.{n}.{axis}" for axis in "xy"} & book.made.keys()]
    if not measured:
        if book.has(drilled):
            book.add("drop.room", relation.room_left, room=room, drilled=drilled, holes=holes)
            chance = relation.chance_fixed if held in ("dowels", "spigot") else relation.chance_floating
            book.add("drop.chance", chance, room=room, drilled=drilled, holes=holes, count=count)
        return
    _as_drilled(book, count, held)


def _as_drilled(book: Book, count: int, held: str) -> None:
    plan, numbers, room = book.plan or book, range(1, count + 1), "joint.head_float"
    places: dict[str, str | float] = {}
    for n in numbers:
        for axis in "xy":
            places[f"{axis}{n}"] = f"deck.hole.{n}.{axis}"
            places[f"hole_{axis}{n}"] = plan[f"deck.hole.{n}.{axis}"].value
    opened = place.to_open(*_patterns(count, {a: book.number(n) for a, n in places.items()}), held, book[room].value)
    for n in numbers:
        name = f"drop.hole.{n}"
        book.add(f"{name}.off", off_of(n, count, held), **places)
        book.add(f"{name}.room", relation.room_left, room=room, drilled=f"{name}.off", holes=0.0)
        if n - 1 in opened:
            book.add(f"{name}.open_to", relation.opened_to, stud="stud.nut_end_nominal", off=opened[n - 1])


def _patterns(count: int, at: dict[str, float]) -> tuple[list[place.Point], list[place.Point]]:
    """Holes of the head as drawn, and studs as they stand, of their coordinates by name."""
    numbers = range(1, count + 1)
    holes = [(at[f"hole_x{n}"], at[f"hole_y{n}"]) for n in numbers]
    return holes, [(at[f"x{n}"], at[f"y{n}"]) for n in numbers]


def off_of(number: int, count: int, held: str) -> Callable[..., float]:
    """Give the relation for one stud of a pattern.

    Parameters
    ----------
    number : int
        Of the stud, from 1
    count : int
        Studs
    held : str
        What locates the head

    Returns
    -------
    relation : callable
        Of x1, y1, hole_x1, hole_y1 and so on [mm], to the distance [mm]
    """

    def off(**at: float) -> float:
        holes, studs = _patterns(count, at)
        return place.offs(holes, studs, place.best_place(holes, studs, held))[number - 1]

    off.__doc__ = OFF.format(number=number)
    return off
