"""How a head bends over a raised face that ends inside its studs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import bending as relation
from parts.sizing.scenes import scenes
from parts.sizing.seal import face_of

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def size_bending(book: Book, job: Job) -> None:
    """Add the moment that the studs bend the head by, its stress, and how far its face lifts at the bore."""
    face = face_of(book)
    for view, _, _ in scenes(book, job, "stud"):
        names = {
            n: view.real(f"joint.{n}") for n in ("lever", "head_outside", "head_moment", "bending_stress", "face_lift")
        }
        if face not in book:
            book.lacks(names["bending_stress"], face)
            continue
        reach, mouth = view.real("joint.reach"), "gasket.bore_diameter"
        book.add(names["lever"], relation.lever, reach=reach, face=face, bore=mouth)
        book.add(names["head_outside"], relation.outside, reach=reach, boss=view.real("joint.boss"))
        load = view.real("joint.greatest_preload")
        book.add(names["head_moment"], relation.twist, count="joint.studs", load=load, lever=names["lever"])
        ring = {"moment": names["head_moment"], "thickness": view.real("job.head.thickness")}
        ring |= {"inside": mouth, "outside": names["head_outside"]}
        book.add(names["bending_stress"], relation.bending_stress, **ring)
        lifted = {"modulus": "head.modulus", "width": "gasket.pressed_width"}
        book.add(names["face_lift"], relation.face_lift, **ring, **lifted)
