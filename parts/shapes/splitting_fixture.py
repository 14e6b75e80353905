"""Shape of the splitting fixture: the blank lies on its floor at Z = 0, the body is above it; slot on +X."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.shapes.slots import slotted, stepped

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.profile import Profile
    from parts.job import Job
    from parts.shapes.pieces import Pieces

INWARDS = 3.0  # mm that the slot goes on inside the blank


def body(book: Book) -> Profile:
    """Return the turned body, before its slot is cut."""
    recess, wide, deep, floor, hole = (
        book[f"splitting_fixture.{n}"].value for n in ("recess", "diameter", "depth", "floor", "hole")
    )
    return stepped(-deep, floor, wide, ((0.0, recess), (floor, hole)))


def slot_start(book: Book) -> float:
    """Radius at which the slot begins: inside the blank, outside the hole for the bolt [mm]."""
    inside, hole = (float(book[n].value) for n in ("ring.inside_diameter", "splitting_fixture.hole"))
    return max(inside / 2 - INWARDS, hole / 2 + 1.0)


def splitting_fixture(book: Book, _: Job) -> Pieces:
    """Return the body with its slot."""
    wide, under = (book[f"splitting_fixture.{n}"].value for n in ("slot", "slot_under"))
    return slotted(body(book), wide, slot_start(book), under)
