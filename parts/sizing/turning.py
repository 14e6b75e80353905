"""Turning the slender part of the stud: how the tool bends it, and in how many sections it stays true."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import stud as lengths
from parts.relations import turning as relation

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

PUSH, NOSE_PUSH = 0.4, 0.8  # of the cutting force
SLENDER = {"chuck": 3.0, "tailstock": 6.0}


def size_turning(book: Book, job: Job) -> None:
    """Add force, reach and sections for the longest slender diameter, chuck alone and with a tailstock."""
    if job.lathe is None or job.stud is None:
        book.lacks("turning.sections", "job.lathe.least_depth_of_cut" if job.stud else "job.stud.tap_end")
        return
    _bar(book)
    _force(book, job)
    alone = {"modulus": "stud.modulus", "moment": "turning.second_moment", "push": "turning.push"}
    between = {**alone, "whole": "turning.whole_length", "held": "turning.held"}
    length, taper = "turning.length", "job.lathe.taper_limit"
    book.add("turning.reach_chuck", relation.reach_chuck, **alone, taper=taper)
    book.add("turning.sections_chuck", relation.sections, length=length, reach="turning.reach_chuck")
    book.add("turning.sections_tailstock", relation.sections_tailstock, **between, length=length, taper=taper)
    support = "tailstock" if job.lathe.tailstock else "chuck"
    book.add("turning.sections", relation.taken, sections=f"turning.sections_{support}")
    free = "turning.free_length"
    book.add(free, relation.section_length, length=length, sections="turning.sections")
    if job.lathe.tailstock:
        place = {"section": free, "whole": "turning.whole_length", "held": "turning.held"}
        book.add("turning.place", relation.worst_place, **place)
        book.add("turning.deflection", relation.deflection_tailstock, **between, place="turning.place")
    else:
        book.add("turning.deflection", relation.deflection_chuck, **alone, length=free)
    diameter = "turning.diameter"
    book.add("turning.slenderness", relation.slenderness, length="turning.free_length", diameter=diameter)
    source = "workshop rule: 3 in the chuck alone, 6 to 10 with a centre, a steady beyond"
    book.enter("turning.slenderness_limit", SLENDER[support], "1", "memory", source)


def _bar(book: Book) -> None:
    """Add the longest slender diameter: the shank, or the nut end where that is longer."""
    shank, end = "stud.shank_length", "stud.nut_end_length"
    if not book.has(shank, end, "stud.shank_diameter"):
        for name in ("length", "diameter", "second_moment", "whole_length", "held"):
            book.lacks(f"turning.{name}", shank)
        return
    waist = book[shank].value >= book[end].value
    book.add("turning.length", lengths.as_given, length=shank if waist else end)
    diameter = "stud.shank_diameter" if waist else "stud.nut_end_nominal"
    book.add("turning.diameter", lengths.as_given, length=diameter)
    book.add("turning.second_moment", relation.second_moment, diameter="turning.diameter")
    _outer_end(book, end if waist else 0.0, "stud.nut_end_nominal" if waist else "turning.diameter")


def _outer_end(book: Book, length: str | float, diameter: str) -> None:
    """Add what lies between the slender diameter and the centre, and how the centre holds the whole bar."""
    book.add("turning.end_length", lengths.as_given, length=length)
    book.add("turning.end_moment", relation.second_moment, diameter=diameter)
    both = {"length": "turning.length", "end": "turning.end_length"}
    book.add("turning.whole_length", relation.whole_length, **both)
    moments = {"moment": "turning.second_moment", "end_moment": "turning.end_moment"}
    book.add("turning.held", relation.held, **both, **moments)


def _force(book: Book, job: Job) -> None:
    lathe = job.lathe
    feed, depth = "job.lathe.feed", "job.lathe.least_depth_of_cut"
    book.add("turning.specific_force", relation.specific_force, kc11="stud.kc11", feed=feed, mc="stud.mc")
    specific = "turning.specific_force"
    book.add("turning.cutting_force", relation.cutting_force, specific=specific, depth=depth, feed=feed)
    shallow = lathe is not None and lathe.least_depth_of_cut < lathe.nose_radius
    why = "0.4 of the cutting force" + (", doubled: the cut is shallower than the tool's nose" if shallow else "")
    book.enter(
        "turning.push_share", NOSE_PUSH if shallow else PUSH, "1", "memory", f"textbooks of metal cutting: {why}"
    )
    book.add("turning.push", relation.push_off, share="turning.push_share", force="turning.cutting_force")
