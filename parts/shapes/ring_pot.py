"""Shape of the ring pot: the blank lies on its ledge at Z = 0, the body above, the recess below; its slit on +X."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.shapes.slots import slotted, stepped

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.profile import Profile
    from parts.job import Job
    from parts.shapes.pieces import Pieces


def body(book: Book) -> Profile:
    """Return the turned body, before it is slit; JobError where the blank has no ledge to lie on."""
    recess, wide, deep, floor, hole = (
        book[f"ring_pot.{n}"].value for n in ("recess", "diameter", "depth", "floor", "hole")
    )
    if hole >= recess - 0.2:
        raise JobError(Fault("ring_pot", f"leaves no ledge for the blank: a hole of {hole:.2f} mm in {recess:.2f} mm"))
    return stepped(-deep, floor, wide, ((0.0, recess), (floor, hole)))


def ring_pot(book: Book, _: Job) -> Pieces:
    """Return the body with its slit."""
    pot = body(book)
    return slotted(pot, book["ring_pot.slit"].value, 0.0, pot.points[-1][0])
