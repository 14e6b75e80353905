"""The deck: where the holes are, and what metal they leave."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from parts.relations import deck as relation
from parts.relations import fills
from parts.relations import stud as lengths
from parts.relations.deck import share_in_all
from parts.relations.outlines import beside, to_outline
from parts.sizing.scenes import by_old_hole, scenes
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.models import Pattern

MAJOR, OLD = "deck.tapped_major", "job.barrel.old_holes.diameter"
CORNERS = ((1, 1), (-1, 1), (-1, -1), (1, -1))  # from the +X+Y corner anticlockwise
BEHIND = 0.5  # of the tapped major, sound metal wanted behind a thread: as far as any wall of the deck
Centre = tuple[str, str, str]
"""names of x, y and diameter in the book"""


def size_deck(book: Book, job: Job) -> None:
    """Add the holes of the deck and the metal round them, each new hole's by the stud that it takes."""
    size_new_holes(book, job, _old(book, job))


def size_new_holes(book: Book, job: Job, olds: list[str] | None = None) -> None:
    """Add the holes of the studs and the metal round them, among old holes of these diameters, by name."""
    pattern = job.head.holes if job.head else None
    add_pattern(book, "deck.hole", "job.head.holes", pattern)
    for view, _, _ in scenes(book, job, "stud"):
        _hole(view)
    if job.listed("stud"):
        book.add(MAJOR, relation.widest_of, **{one.name: one.real(MAJOR) for one in job.instances("stud")})
    for number in range(1, (pattern.holes if pattern else 0) + 1):
        hole = next(view for view, _, _ in scenes(book, job, "stud") if number in view.numbers("deck.hole"))
        pitch = hole.real(f"{hole_of(hole)}.tapped_pitch_diameter")
        _metal(
            book, job, number, hole.real(MAJOR), pitch, others(job, number, pattern.holes if pattern else 0, olds or [])
        )


def _old(book: Book, job: Job) -> list[str]:
    """Add the old holes, numbered through; return the name of each one's diameter."""
    before = 0
    for view, own, _ in scenes(book, job, "old"):
        pattern = own.old.pattern if own.old else None
        before += add_pattern(book, "deck.old", view.real("job.barrel.old_holes.pattern"), pattern, before)
    return old_diameters(book, job)


def old_diameters(book: Book, job: Job) -> list[str]:
    """Name of the diameter of each old hole, in the order of their numbers."""
    return [view.real(OLD) for _, view, _ in by_old_hole(book, job)]


def _hole(book: Book) -> None:
    """Add what is common to the holes of one kind of stud: the drill's point, the metal under it, the tapped size."""
    hole = hole_of(book)
    book.add("deck.drill_point", relation.point_depth, drill=f"{hole}.tap_drill")
    book.add(
        "deck.floor",
        relation.floor,
        deck_depth="job.barrel.deck_depth",
        skim="job.barrel.skim",
        drill_depth=f"{hole}.drill_depth",
        point="deck.drill_point",
    )
    book.add(MAJOR, lengths.as_given, length="insert.tapped_major" if hole == "insert" else "stud.tap_end_nominal")


def add_pattern(book: Book, prefix: str, given: str, pattern: Pattern | None, before: int = 0) -> int:
    """Add x, y, radius and angle of every hole of a pattern, numbered on from those before; return their count."""
    if pattern is None:
        book.lacks(f"{prefix}.{before + 1}.x", given)
        return 0
    for number in range(1, pattern.holes + 1):
        name = f"{prefix}.{before + number}"
        _centre(book, name, given, pattern, number)
        book.add(f"{name}.radius", relation.radius, x=f"{name}.x", y=f"{name}.y")
        book.add(f"{name}.angle", relation.angle, x=f"{name}.x", y=f"{name}.y")
    return pattern.holes


def _centre(book: Book, name: str, given: str, pattern: Pattern, number: int) -> None:
    if pattern.points:
        for axis, place in (("x", 0), ("y", 1)):
            book.add(f"{name}.{axis}", relation.as_measured, reading=f"{given}.points.{number - 1}.{place}")
    elif pattern.rectangle:
        side_x, side_y = CORNERS[number - 1]
        turned: str | float = f"{given}.turned" if pattern.turned is not None else 0.0
        sides = {"across": f"{given}.rectangle.0", "up": f"{given}.rectangle.1"}
        for axis, corner in (("x", relation.corner_x), ("y", relation.corner_y)):
            book.add(f"{name}.{axis}", corner, **sides, turned=turned, side_x=side_x, side_y=side_y)
    else:
        first: str | float = f"{given}.first" if pattern.first is not None else 0.0
        for axis, place_on in (("x", relation.circle_x), ("y", relation.circle_y)):
            book.add(
                f"{name}.{axis}", place_on, circle=f"{given}.circle", first=first, number=number, count=f"{given}.count"
            )


def others(job: Job, number: int, count: int, olds: list[str]) -> dict[str, list[Centre]]:
    """Whatever a new hole may come too near to, by kind: names of centre and diameter."""
    new = [n for n in range(1, count + 1) if n != number]
    passages = [n for n, one in enumerate(job.barrel.passages if job.barrel else ()) if one.form == "diameter"]
    return {
        "next": [(f"deck.hole.{n}.x", f"deck.hole.{n}.y", job.of_hole(n, MAJOR)) for n in new],
        "old": [(f"deck.old.{n}.x", f"deck.old.{n}.y", wide) for n, wide in enumerate(olds, 1)],
        "passage": [tuple(f"job.barrel.passages.{n}.{k}" for k in ("at.0", "at.1", "diameter")) for n in passages],  # type: ignore[misc]
    }


def _metal(book: Book, job: Job, number: int, major: str, pitch_diameter: str, near: dict[str, list[Centre]]) -> None:
    name = f"deck.hole.{number}"
    book.add(f"{name}.to_bore", relation.metal_to_bore, radius=f"{name}.radius", bore=bore_in(book), diameter=major)
    to_edge(book, job, name, major)
    if major in book:
        for kind in ("next", "old"):
            to_nearest(book, name, kind, near[kind], major)
        to_passage(book, job, name, near["passage"], major)
    _in_filler(book, name, pitch_diameter, near["old"])
    _sound_metal(book, name, pitch_diameter, major, near["old"])


def bore_in(book: Book) -> str:
    """Name of the hole in the barrel's casting: the bore, or what the liner sits in."""
    liner = "job.barrel.liner.outside"
    return liner if liner in book else "job.engine.bore"


def to_passage(book: Book, job: Job, name: str, centres: list[Centre], wide: str) -> None:
    """Add the metal from a hole of this width to the nearest passage, of whatever shape."""
    where = {"x": f"{name}.x", "y": f"{name}.y", "diameter": wide}
    drawn = [beside(p.loops()) for p in (job.barrel.passages if job.barrel else ()) if p.form != "diameter"]
    nearest = min(drawn, key=lambda metal: metal(**{k: book[n].value for k, n in where.items()}), default=None)
    to_nearest(book, name, "passage", centres, wide)
    found = f"{name}.to_passage"
    if nearest and not (found in book and book[found].value <= nearest(**{k: book[n].value for k, n in where.items()})):
        book.add(found, nearest, **where)


def to_nearest(book: Book, name: str, kind: str, centres: list[Centre], wide: str) -> None:
    """Add the metal from a hole of this width to the nearest of others."""
    if nearest := _nearest(book, name, centres):
        x, y, diameter = nearest
        where = {"x": f"{name}.x", "y": f"{name}.y", "other_x": x, "other_y": y}
        book.add(f"{name}.to_{kind}", relation.metal_between, **where, diameter=wide, other_diameter=diameter)


def _nearest(book: Book, name: str, centres: list[Centre]) -> Centre | None:
    def metal(centre: Centre) -> float:
        x, y, diameter = (book[n].value for n in centre)
        return float(hypot(book[f"{name}.x"].value - x, book[f"{name}.y"].value - y) - diameter / 2)

    return min(centres, key=metal, default=None)


def to_edge(book: Book, job: Job, name: str, major: str) -> None:
    """Add the metal from a hole to the edge of the deck."""
    outline = job.barrel.outline if job.barrel else None
    if outline is None:
        book.lacks(f"{name}.to_edge", "job.barrel.outline")
    elif outline.circle is not None:
        book.add(
            f"{name}.to_edge",
            relation.metal_to_circle,
            deck="job.barrel.outline.circle",
            radius=f"{name}.radius",
            diameter=major,
        )
    else:
        book.add(f"{name}.to_edge", to_outline(outline.loop()), x=f"{name}.x", y=f"{name}.y", diameter=major)


def _in_filler(book: Book, name: str, pitch_diameter: str, old: list[Centre]) -> None:
    if not old:
        return
    shares: dict[str, str] = {}
    for number, (x, y, diameter) in enumerate(old, 1):
        if pitch_diameter not in book:
            book.lacks(f"{name}.in_filler", pitch_diameter)
            return
        apart = hypot(book[f"{name}.x"].value - book[x].value, book[f"{name}.y"].value - book[y].value)
        if apart < (book[pitch_diameter].value + book[diameter].value) / 2:
            between, share = f"{name}.from_old_{number}", f"{name}.in_old_{number}"
            book.add(between, relation.distance, x=f"{name}.x", y=f"{name}.y", other_x=x, other_y=y)
            book.add(
                share, relation.share_in_filler, distance=between, pitch_diameter=pitch_diameter, old_diameter=diameter
            )
            shares[f"old_{number}"] = share
    book.add(f"{name}.in_filler", share_in_all, **shares)


def _sound_metal(book: Book, name: str, pitch_diameter: str, major: str, old: list[Centre]) -> None:
    """Add the share of a hole's thread that lies in filler, or leans on too thin a wall before it."""
    if not old or not book.has(pitch_diameter, major):
        return
    wall, shares = f"{name}.wall_wanted", dict[str, str]()
    book.add(wall, fills.wall_behind, major=major, share=BEHIND)
    reach = book[major].value / 2 + book[wall].value
    for number, (x, y, diameter) in enumerate(old, 1):
        apart = hypot(book[f"{name}.x"].value - book[x].value, book[f"{name}.y"].value - book[y].value)
        if apart < reach + book[diameter].value / 2:
            share = f"{name}.leaning_{number}"
            between = f"{name}.from_old_{number}"
            book.add(between, relation.distance, x=f"{name}.x", y=f"{name}.y", other_x=x, other_y=y)
            circle, two = f"{name}.circle_{number}", {"distance": between, "old_diameter": diameter}
            book.add(circle, fills.leaning_circle, **two, pitch_diameter=pitch_diameter, major=major, wall=wall)
            book.add(share, relation.share_in_filler, **two, pitch_diameter=circle)
            shares[f"old_{number}"] = share
    book.add(f"{name}.unsound", fills.leaning_on_all, **shares)
