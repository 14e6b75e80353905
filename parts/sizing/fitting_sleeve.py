"""The fitting sleeve: a cone and a skirt, as thick as the ring's strength allows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import JobError
from parts.relations import fitting_sleeve as relation
from parts.relations import fixture
from parts.relations.mandrel import round_opened_stress
from parts.relations.ring import stress_share
from parts.relations.stud import as_given
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

PLAY, SMALLER, ANGLE = 0.1, 0.5, 8.0  # mm on diameter, mm on diameter, deg
WALLS = (1.0, 0.8, 0.6, 0.5, 0.4, 0.3)  # mm, what can be turned; a thinner one is rolled of shim
ALLOWED = 0.85  # of the iron's least bending strength, that the sleeve is made for
HELD, WALL_HELD = 0.1, 0.05  # mm either way


def size(book: Book, _: Job) -> None:
    """Add its sizes, and the stress of a ring on it."""
    own = "fitting_sleeve."
    for name, value, unit, says in (
        ("play", PLAY, "mm", "of the sleeve on the piston"),
        ("less_than_free", SMALLER, "mm", "of the small end inside a free ring"),
        ("angle", ANGLE, "deg", "of the cone, so that a ring slides by the thumbs"),
    ):
        book.enter(f"{own}{name}", value, unit, "assumed", f"{says}: {PRACTICE}")
    thickness = "job.ring.radial_thickness"
    ring = {"outside": "ring.outside_diameter", "free_gap": "ring.free_gap", "slit": "job.ring.slit"}
    book.add(f"{own}free_inside", relation.free_inside, **ring, thickness=thickness)
    _wall(book, own)
    piston = {"piston": "job.ring.piston_diameter", "play": f"{own}play"}
    book.add(f"{own}skirt_diameter", relation.outside, WALL_HELD, **piston, wall=f"{own}wall")
    book.add(f"{own}bore_diameter", fixture.over, WALL_HELD, size_of=piston["piston"], by=piston["play"])
    book.add(f"{own}small_end", fixture.under, HELD, size_of=f"{own}free_inside", by=f"{own}less_than_free")
    cone = {"outside": f"{own}skirt_diameter", "small": f"{own}small_end", "angle": f"{own}angle"}
    book.add(f"{own}cone_length", relation.cone_length, HELD, **cone)
    if "job.fitting_sleeve.reach" in book:
        book.add(f"{own}reach", as_given, HELD, length="job.fitting_sleeve.reach")
    else:
        book.add(f"{own}reach", relation.reach, HELD, width="job.ring.axial_width")
    book.add(f"{own}hole", fixture.share_of, HELD, size_of=f"{own}small_end", part=0.7)
    on_it = {"inside": f"{own}free_inside", "slit": "ring.free_gap", "mandrel": f"{own}skirt_diameter"}
    book.add(f"{own}stress", round_opened_stress, modulus="ring.modulus", thickness=thickness, **on_it)
    book.add(f"{own}stress_share", stress_share, stress=f"{own}stress", strength="ring.bending_strength")


def _wall(book: Book, own: str) -> None:
    """Enter the thickest wall that can be turned and keeps the ring's stress under what is allowed."""
    names = (
        "job.ring.piston_diameter",
        f"{own}free_inside",
        "job.ring.radial_thickness",
        "ring.free_gap",
        "ring.modulus",
    )
    if not book.has(*names):
        book.lacks(f"{own}wall", *(n for n in names if n not in book))
        return
    piston, inside, thickness, gap, modulus = (book[n].value for n in names)
    most = ALLOWED * book["ring.bending_strength"].value if "ring.bending_strength" in book else 0.0
    for wall in WALLS:
        skirt = relation.outside(piston, PLAY, wall)
        if most and _stress(modulus, thickness, inside, gap, skirt) <= most:
            break
    why = f"the thickest that keeps the ring under {ALLOWED:g} of its strength, else the thinnest: {PRACTICE}"
    book.enter(f"{own}wall", wall, "mm", "computed", why)


def _stress(modulus: float, thickness: float, inside: float, gap: float, skirt: float) -> float:
    try:
        return round_opened_stress(modulus, thickness, inside, gap, skirt)
    except (ValueError, ArithmeticError, JobError):  # the skirt does not open the ring
        return 0.0
