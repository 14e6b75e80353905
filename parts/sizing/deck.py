"""The deck: where the holes are, and what metal they leave."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from parts.relations import deck as relation
from parts.relations import stud as lengths
from parts.relations.deck import share_in_all
from parts.relations.outlines import to_outline
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.models import Pattern

CORNERS = ((1, 1), (-1, 1), (-1, -1), (1, -1))  # from the +X+Y corner anticlockwise
Centre = tuple[str, str, str]
"""names of x, y and diameter in the book"""


def size_deck(book: Book, job: Job) -> None:
    """Add the holes of the deck and the metal round them."""
    hole = hole_of(book)
    olds = add_pattern(
        book,
        "deck.old",
        "job.barrel.old_holes.pattern",
        job.barrel.old_holes.pattern if job.barrel and job.barrel.old_holes else None,
    )
    count = add_pattern(book, "deck.hole", "job.head.holes", job.head.holes if job.head else None)
    book.add("deck.drill_point", relation.point_depth, drill=f"{hole}.tap_drill")
    book.add(
        "deck.floor",
        relation.floor,
        deck_depth="job.barrel.deck_depth",
        skim="job.barrel.skim",
        drill_depth=f"{hole}.drill_depth",
        point="deck.drill_point",
    )
    major = "deck.tapped_major"
    book.add(major, lengths.as_given, length="insert.tapped_major" if hole == "insert" else "stud.tap_end_nominal")
    for number in range(1, count + 1):
        _metal(book, job, number, major, f"{hole}.tapped_pitch", others(job, number, count, olds, major))


def add_pattern(book: Book, prefix: str, given: str, pattern: Pattern | None) -> int:
    """Add x, y, radius and angle of every hole of a pattern; return how many there are."""
    if pattern is None:
        book.lacks(f"{prefix}.1.x", given)
        return 0
    for number in range(1, pattern.holes + 1):
        name = f"{prefix}.{number}"
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


def others(job: Job, number: int, count: int, olds: int, major: str) -> dict[str, list[Centre]]:
    """Whatever a new hole may come too near to, by kind: names of centre and diameter."""
    new = [n for n in range(1, count + 1) if n != number]
    old = range(1, olds + 1)
    passages = range(len(job.barrel.passages)) if job.barrel else ()
    return {
        "next": [(f"deck.hole.{n}.x", f"deck.hole.{n}.y", major) for n in new],
        "old": [(f"deck.old.{n}.x", f"deck.old.{n}.y", "job.barrel.old_holes.diameter") for n in old],
        "passage": [tuple(f"job.barrel.passages.{n}.{k}" for k in ("at.0", "at.1", "diameter")) for n in passages],  # type: ignore[misc]
    }


def _metal(book: Book, job: Job, number: int, major: str, pitch_diameter: str, near: dict[str, list[Centre]]) -> None:
    name = f"deck.hole.{number}"
    book.add(f"{name}.to_bore", relation.metal_to_bore, radius=f"{name}.radius", bore="job.engine.bore", diameter=major)
    _to_edge(book, job, name, major)
    if major in book:
        for kind, centres in near.items():
            if nearest := _nearest(book, name, centres):
                x, y, diameter = nearest
                where = {"x": f"{name}.x", "y": f"{name}.y", "other_x": x, "other_y": y}
                book.add(f"{name}.to_{kind}", relation.metal_between, **where, diameter=major, other_diameter=diameter)
    _in_filler(book, name, pitch_diameter, near["old"])


def _nearest(book: Book, name: str, centres: list[Centre]) -> Centre | None:
    def metal(centre: Centre) -> float:
        x, y, diameter = (book[n].value for n in centre)
        return float(hypot(book[f"{name}.x"].value - x, book[f"{name}.y"].value - y) - diameter / 2)

    return min(centres, key=metal, default=None)


def _to_edge(book: Book, job: Job, name: str, major: str) -> None:
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
