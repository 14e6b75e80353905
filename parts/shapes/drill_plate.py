"""Shape of the drill plate: X and Y the deck's; it bears on the deck at Z = 0, its spigot below; a flat marks +Y."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry import outline
from parts.geometry.lands import least_land
from parts.geometry.outline import Hole, Region
from parts.geometry.profile import Profile
from parts.shapes.pieces import Flat, Piece, Pieces

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

BUSH = "BUSHES"


def plate(book: Book) -> Region:
    """Return the plate's face: bush holes in the order of the new holes, then the one for its bolt."""
    wide, flat, bolt = (book[f"drill_plate.{n}"].value for n in ("diameter", "front_flat", "centre_hole"))
    loop = outline.transformed(outline.flatted(wide / 2, wide / 2 - flat), turned=90)
    holes = [_hole(book, n) for n in book.numbers("deck.hole")]
    return Region(loop, (*holes, Hole(0.0, 0.0, bolt, "BOLT")))


def _hole(book: Book, number: int) -> Hole:
    x, y = (book[f"deck.hole.{number}.{axis}"].value for axis in "xy")
    return Hole(x, y, book[f"drill_plate.hole.{number}.bush"].value, BUSH)


def drill_plate(book: Book, _: Job) -> Pieces:
    """Return plate and spigot; JobError where two bushes meet."""
    sheet, thick = plate(book), book["drill_plate.thickness"].value
    if (land := least_land(sheet)) <= 0:
        raise JobError(Fault("drill_plate", f"has no room for its bushes: {land:.2f} mm of metal between two of them"))
    radius, bolt, long = (book[f"drill_plate.{n}"].value for n in ("spigot_diameter", "centre_hole", "spigot_length"))
    radius, bolt = radius / 2, bolt / 2
    outer, inner = (((-long, 0.0), (-long, r), (0.0, r), (0.0, 0.0)) for r in (radius, bolt))
    volume = outline.area(sheet) * thick + pi * (radius**2 - bolt**2) * long
    return Pieces((Piece(Flat(sheet, thick)), Piece(Profile(outer, (inner,)))), (), volume)
