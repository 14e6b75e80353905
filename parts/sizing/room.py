"""Room on deck and head: the thinnest metal anywhere, passages, washers against each other and what stands near."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from parts.geometry.outline import as_circle
from parts.relations import deck as relation
from parts.relations.outlines import beside, between, neck_of, within
from parts.relations.press import thinnest
from parts.sizing.deck import OLD, bore_in, old_diameters
from parts.sizing.scenes import by_old_hole, scenes

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.outline_models import Outline, Passage

WASHER = "stud.washer_outside"
NECKED = ("points", "lobes", "dxf")
"""forms of an outline that may have a neck"""


def size_passages(book: Book, job: Job) -> None:
    """Add the metal round each passage, then the thinnest metal of the whole deck."""
    for number in range(len(job.barrel.passages) if job.barrel else 0):
        _passage(book, job, number)
    metal = {}
    walls = [
        f"deck.hole.{n}.to_{what}"
        for n in book.numbers("deck.hole")
        for what in ("bore", "edge", "next", "old", "passage")
    ]
    walls += [f"deck.passage.{n}.to_{what}" for n in range(36) for what in ("bore", "edge", "hole")]
    for name in (*(view.real("deck.floor") for view, _, _ in scenes(book, job, "stud")), *walls):
        if name in book and not (name.endswith(".to_old") and _in_filler(book, name)):
            metal[name.removeprefix("deck.").replace(".", "_")] = name
    if metal:
        book.add("deck.thinnest", thinnest, **metal)
    else:
        book.lacks("deck.thinnest", "job.stud.tap_end" if book.numbers("deck.hole") else "job.head.holes")


def _in_filler(book: Book, name: str) -> bool:
    share = name.rpartition(".")[0] + ".in_filler"
    return share in book and book[share].value > 0


def cut_into(book: Book, job: Job, hole: int) -> list[int]:
    """Numbers of the old holes, or of the plugs screwed into them, that a new hole's tapped thread runs into."""
    x, y = (book[f"deck.hole.{hole}.{axis}"].value for axis in "xy")
    major = job.of_hole(hole, "deck.tapped_major")
    return [
        number
        for number, view, _ in by_old_hole(book, job)
        for wide in [next(name for name in map(view.real, ("screwed.nominal", OLD)) if name in book)]
        if major in book
        and hypot(x - book[f"deck.old.{number}.x"].value, y - book[f"deck.old.{number}.y"].value)
        < (book[major].value + book[wide].value) / 2
    ]


def _passage(book: Book, job: Job, number: int) -> None:
    name, given = f"deck.passage.{number}", f"job.barrel.passages.{number}"
    passage = job.barrel.passages[number] if job.barrel else None
    if passage is not None and passage.form != "diameter":
        _shaped_passage(book, job, name, passage)
        return
    here = {"x": f"{given}.at.0", "y": f"{given}.at.1"}
    book.add(f"{name}.radius", relation.radius, **here)
    diameter = f"{given}.diameter"
    book.add(f"{name}.to_bore", relation.metal_to_bore, radius=f"{name}.radius", bore=bore_in(book), diameter=diameter)
    outline = job.barrel.outline if job.barrel else None
    where = {**here, "diameter": diameter, "radius": f"{name}.radius"}
    _to_edge(book, f"{name}.to_edge", outline, "job.barrel.outline.circle", where)
    walls = {}
    for hole in book.numbers("deck.hole"):
        there = {"other_x": f"deck.hole.{hole}.x", "other_y": f"deck.hole.{hole}.y"}
        wall, major = f"{name}.from_hole_{hole}", job.of_hole(hole, "deck.tapped_major")
        if major not in book:
            continue
        book.add(wall, relation.metal_between, **here, diameter=diameter, **there, other_diameter=major)
        walls[f"hole_{hole}"] = wall
    if walls:
        book.add(f"{name}.to_hole", thinnest, **walls)


def _shaped_passage(book: Book, job: Job, name: str, passage: Passage) -> None:
    """Add the metal round a passage that is not round."""
    wall, outline = beside(passage.loops()), job.barrel.outline if job.barrel else None
    book.add(f"{name}.to_bore", wall, x=0.0, y=0.0, diameter=bore_in(book))
    if outline is not None:
        book.add(f"{name}.to_edge", between(passage.loops(), outline.loop()))
    walls = {}
    for hole in book.numbers("deck.hole"):
        there, major = f"{name}.from_hole_{hole}", job.of_hole(hole, "deck.tapped_major")
        if major in book:
            book.add(there, wall, x=f"deck.hole.{hole}.x", y=f"deck.hole.{hole}.y", diameter=major)
            walls[f"hole_{hole}"] = there
    if walls:
        book.add(f"{name}.to_hole", thinnest, **walls)


def _to_edge(book: Book, name: str, outline: Outline | None, circle: str, where: dict[str, str]) -> None:
    """Add the metal from a round thing to the edge of an outline, where there is one."""
    if outline is None:
        return
    whole = as_circle(outline.loop())
    if whole:
        deck: str | float = circle if outline.circle is not None else 2 * whole[2]
        book.add(name, relation.metal_to_circle, deck=deck, radius=where["radius"], diameter=where["diameter"])
    else:
        place = {part: where[part] for part in ("x", "y", "diameter")}
        book.add(name, within(outline.loop()), **place)


def size_head_room(book: Book, job: Job) -> None:
    """Add the room of each washer: to the next, to the spigot, to the head's edge; and what the head covers."""
    studs = list(book.numbers("deck.hole"))
    outline = job.head.outline if job.head else None
    washers = {n: job.of_hole(n, WASHER) for n in studs}
    _bosses(book, job, studs)
    for number in studs if book.has(*washers.values()) else []:
        _washer(book, number, washers, outline)
    if outline is None:
        return
    for number in studs:
        hole = job.of_hole(number, "gasket.hole_diameter")
        _covered(book, f"gasket.hole.{number}.under_head", outline, f"deck.hole.{number}", hole)
    for number, wide in enumerate(old_diameters(book, job), 1):
        _covered(book, f"deck.old.{number}.under_head", outline, f"deck.old.{number}", wide)


def _bosses(book: Book, job: Job, holes: list[int]) -> None:
    """Add how far the head's bosses stay inside the deck's edge, and the necks of both outlines."""
    deck = job.barrel.outline if job.barrel else None
    for number in holes if "job.head.boss" in book else []:
        name = f"deck.hole.{number}"
        where = {"x": f"{name}.x", "y": f"{name}.y", "diameter": "job.head.boss", "radius": f"{name}.radius"}
        _to_edge(book, f"{name}.boss_to_edge", deck, "job.barrel.outline.circle", where)
    for name, casting in (("deck.neck", job.barrel), ("head.neck", job.head)):
        if casting is not None and casting.outline is not None and casting.outline.form in NECKED:
            book.add(name, neck_of(casting.outline.loop()))


def _washer(book: Book, number: int, washers: dict[int, str], outline: Outline | None) -> None:
    name, hole = f"deck.washer.{number}", f"deck.hole.{number}"
    here = {"x": f"{hole}.x", "y": f"{hole}.y", "diameter": washers[number]}
    round_the_bore = {**here, "radius": f"{hole}.radius"}
    gaps = {}
    for other in (n for n in washers if n != number):
        there = {"other_x": f"deck.hole.{other}.x", "other_y": f"deck.hole.{other}.y", "other_diameter": washers[other]}
        gaps[f"washer_{other}"] = f"{name}.from_{other}"
        book.add(f"{name}.from_{other}", relation.metal_between, **here, **there)
    if gaps:
        book.add(f"{name}.to_next", thinnest, **gaps)
    spigot = {"radius": f"{hole}.radius", "bore": "job.head.spigot", "diameter": washers[number]}
    if "job.head.spigot" in book:
        book.add(f"{name}.to_spigot", relation.metal_to_bore, **spigot)
    _to_edge(book, f"{name}.to_edge", outline, "job.head.outline.circle", round_the_bore)


def _covered(book: Book, name: str, outline: Outline, hole: str, diameter: str) -> None:
    where = {"x": f"{hole}.x", "y": f"{hole}.y", "diameter": diameter, "radius": f"{hole}.radius"}
    _to_edge(book, name, outline, "job.head.outline.circle", where)
