"""How a head bends over a raised face that ends inside its studs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import bending as relation
from parts.sizing.scenes import scenes
from parts.sizing.seal import face_of

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

MOUTH = "gasket.bore_diameter"


def size_levers(book: Book, job: Job) -> None:
    """Add by what lever the studs bend the head, and the diameter where it ends."""
    face = face_of(book)
    for view, _, _ in scenes(book, job, "stud"):
        reach = view.real("joint.reach")
        if face not in book:
            book.lacks(view.real("joint.bending_stress"), face)
            continue
        book.add(view.real("joint.lever"), relation.lever, reach=reach, face=face, bore=MOUTH)
        book.add(view.real("joint.head_outside"), relation.outside, reach=reach, boss=view.real("joint.boss"))


def size_bending(book: Book, job: Job) -> None:
    """Add the moment that the studs bend the head by, its stress, and how far its face lifts at the bore."""
    face = face_of(book)
    for view, _, _ in scenes(book, job, "stud"):
        if face not in book:
            continue
        load, lever, moment = (view.real(f"joint.{n}") for n in ("greatest_preload", "lever", "head_moment"))
        book.add(moment, relation.twist, count="joint.studs", load=load, lever=lever)
        ring = {"moment": moment, "thickness": view.real("job.head.thickness")}
        ring |= {"inside": MOUTH, "outside": view.real("joint.head_outside")}
        book.add(view.real("joint.bending_stress"), relation.bending_stress, **ring)
        lifted = {"modulus": "head.modulus", "width": "gasket.pressed_width"}
        book.add(view.real("joint.face_lift"), relation.face_lift, **ring, **lifted)
