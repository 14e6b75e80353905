"""The drill plate: its bushes by the holes' tapping drills, its spigot by the bore, what a drill strays in it."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from parts import tables
from parts.relations import drill_plate as relation
from parts.relations.fits import deviations
from parts.relations.press import thinnest
from parts.relations.stud import as_given
from parts.sizing.scenes import by_hole
from parts.sizing.stud import hole_of
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

SPIGOT_PLAY, SPIGOT_HELD = 0.03, 0.01  # mm on diameter
PLACED = 0.02  # mm that a careful hand holds a bush's hole to its place, by buttons or a rotary table
WALL = 5.0  # mm of plate outside a bush
HELD = 0.1  # mm either way, of what nothing fits to
BOLT_HOLE = 11.0  # mm, for the M10 or 3/8 in bolt that holds it down
FRONT = 1.0  # mm that the flat which marks the front is deep
LENGTHS = ("short", "medium", "long")


def size(book: Book, job: Job) -> None:
    """Add plate, spigot and bushes."""
    for name, value, says in (
        ("spigot_play", SPIGOT_PLAY, "a close sliding fit by hand"),
        ("placed", PLACED, "by buttons, or on a rotary table"),
        ("wall_wanted", WALL, "metal outside a bush"),
        ("centre_hole", BOLT_HOLE, "for a bolt of M10 or 3/8 in that holds it down"),
        ("front_flat", FRONT, "depth of the flat that marks the front"),
    ):
        book.enter(f"drill_plate.{name}", value, "mm", "assumed", f"{says}: {PRACTICE}")
    bore = {"bore": "job.engine.bore"}
    book.add(
        "drill_plate.spigot_diameter", relation.spigot_diameter, SPIGOT_HELD, **bore, play="drill_plate.spigot_play"
    )
    book.add("drill_plate.spigot_length", relation.spigot_length, HELD, **bore)
    holes = [_bush(book, n, view) for n, view, _ in by_hole(book, job)]
    if not holes or not all(holes):
        for name in ("diameter", "thickness"):
            book.lacks(f"drill_plate.{name}", *([] if holes else ["job.head.holes"]), "job.stud.tap_end")
        return
    _plate(book, len(holes))


def _bush(book: Book, number: int, view: Book) -> bool:
    """Enter the bush over one hole, no longer than the drill needs to keep to its place; False where none is known."""
    name, hole = f"drill_plate.hole.{number}", hole_of(view)
    drill, deep = (view.real(f"{hole}.{size}") for size in ("tap_drill", "drill_depth"))
    if not book.has(drill, deep, f"deck.hole.{number}.x"):
        return False
    bush = tables.drill_bush(book[drill].value)
    book.add(f"{name}.drill", as_given, length=drill)
    book.enter(f"{name}.bush", bush.outside, "mm", bush.status, bush.source)
    shaft, over = deviations(book[drill].value, "f7"), "ISO 286-2, F7: as far over the drill as f7 is under it"
    book.enter(f"{name}.bush_over", -shaft.lower, "mm", shaft.status, over)
    under = tables.it_grade(book[drill].value, 8)
    book.enter(f"{name}.drill_under", under.value, "mm", "memory", f"ISO 235, drills h8: {under.source}")
    book.add(f"{name}.play", relation.drill_play, over=f"{name}.bush_over", under=f"{name}.drill_under")
    within = book["job.barrel.drilled_within"].value if "job.barrel.drilled_within" in book else PLACED
    for length in bush.lengths:
        stray = relation.drift(book[f"{name}.play"].value, length, book[deep].value)
        if relation.hole_off(stray, SPIGOT_PLAY, PLACED) <= within:
            break
    why = f"{bush.source}: the shortest whose drill keeps to its place, else the longest"
    book.enter(f"{name}.bush_length", length, "mm", bush.status, why)
    book.add(f"{name}.drift", relation.drift, play=f"{name}.play", length=f"{name}.bush_length", deep=deep)
    apart = {"spigot": "drill_plate.spigot_play", "placed": "drill_plate.placed"}
    book.add(f"{name}.off", relation.hole_off, drift=f"{name}.drift", **apart)
    place = {"x": f"deck.hole.{number}.x", "y": f"deck.hole.{number}.y"}
    book.add(f"{name}.reach", relation.edge_of_bush, **place, bush=f"{name}.bush")
    return True


def _plate(book: Book, count: int) -> None:
    numbers = range(1, count + 1)
    furthest = max(numbers, key=lambda n: book[f"drill_plate.hole.{n}.reach"].value)
    outside = {"reach": f"drill_plate.hole.{furthest}.reach", "wall": "drill_plate.wall_wanted"}
    book.add("drill_plate.diameter", relation.plate_diameter, HELD, **outside)
    longest = max(numbers, key=lambda n: book[f"drill_plate.hole.{n}.bush_length"].value)
    given = "job.drill_plate.thickness"
    thick = given if given in book else f"drill_plate.hole.{longest}.bush_length"
    book.add("drill_plate.thickness", as_given, HELD, length=thick)
    offs = {f"hole_{n}": f"drill_plate.hole.{n}.off" for n in numbers}
    book.add("drill_plate.off", relation.worst, **offs)
    walls: dict[str, str | float] = {"rim": "drill_plate.wall_wanted"}
    for one, other in combinations(numbers, 2):
        name = f"drill_plate.wall.{one}.{other}"
        mine, its = ({a: f"deck.hole.{n}.{a}" for a in "xy"} for n in (one, other))
        bushes = {"bush": f"drill_plate.hole.{one}.bush", "other": f"drill_plate.hole.{other}.bush"}
        book.add(name, relation.bush_wall, **mine, other_x=its["x"], other_y=its["y"], **bushes)
        walls[f"between_{one}_and_{other}"] = name
    book.add("drill_plate.wall", thinnest, **walls)
