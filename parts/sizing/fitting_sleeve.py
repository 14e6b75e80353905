"""The fitting sleeve: a cone and a skirt, as thick as the ring's strength allows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import fitting_sleeve as relation
from parts.relations import fixture
from parts.relations.contour import exact_parameter
from parts.relations.mandrel import tip_length
from parts.relations.ring import stress_share
from parts.relations.stud import as_given
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

PLAY, SMALLER, ANGLE = 0.05, 0.5, 8.0  # mm on diameter, mm on diameter, deg
WALLS = (1.0, 0.8, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1)  # mm; the thinnest are rolled of shim
ALLOWED = 0.95  # of the iron's least bending strength, that the sleeve is made for
HELD, WALL_HELD = 0.1, 0.02  # mm either way
RING = {
    "modulus": "ring.modulus",
    "thickness": "job.ring.radial_thickness",
    "radius": "ring.mean_radius",
    "parameter": "fitting_sleeve.parameter",
    "half": "fitting_sleeve.half_length",
}


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
    gaps = {"free_gap": "ring.free_gap", "closed_gap": "ring.closed_gap"}
    book.add(f"{own}parameter", exact_parameter, radius="ring.mean_radius", **gaps)
    half = {"outside": "ring.outside_diameter", "slit": "job.ring.slit", "thickness": thickness}
    book.add(f"{own}half_length", tip_length, **half)
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
    book.add(f"{own}stress", relation.ring_stress, **RING, sleeve=f"{own}skirt_diameter")
    book.add(f"{own}stress_share", stress_share, stress=f"{own}stress", strength="ring.bending_strength")


def _wall(book: Book, own: str) -> None:
    """Enter the thickest wall that can be made and keeps the ring's stress under what is allowed."""
    names = ("job.ring.piston_diameter", "ring.bending_strength", *RING.values())
    if not book.has(*names):
        book.lacks(f"{own}wall", *(n for n in names if n not in book))
        return
    piston, strength = (book[n].value for n in names[:2])
    ring = {argument: book[name].value for argument, name in RING.items()}
    for wall in WALLS:
        if relation.ring_stress(**ring, sleeve=relation.outside(piston, PLAY, wall)) <= ALLOWED * strength:
            break
    why = f"the thickest that keeps the ring under {ALLOWED:g} of its strength, else the thinnest: {PRACTICE}"
    book.enter(f"{own}wall", wall, "mm", "computed", why)
