"""Shape of the test plate: X and Y the deck's; its joint face with the groove lies on Z = 0."""

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

CLEAR = 1.0  # mm that the groove's tool reaches out of the face


def plate(book: Book) -> Region:
    """Return the plate's face: the bolts' holes in their order, then the one for the water."""
    holes = [_hole(book, n) for n in book.numbers("deck.hole")]
    fill = Hole(0.0, 0.0, book["test_plate.fill_hole"].value, "FILL")
    return Region(outline.circle(0.0, 0.0, book["test_plate.diameter"].value / 2), (*holes, fill))


def _hole(book: Book, number: int) -> Hole:
    x, y = (book[f"deck.hole.{number}.{axis}"].value for axis in "xy")
    return Hole(x, y, book[f"test_plate.hole.{number}.diameter"].value, "BOLT HOLES")


def groove(book: Book) -> Profile:
    """Return what is cut for the O-ring."""
    inner, outer = (book[f"test_plate.groove_{n}"].value / 2 for n in ("inside", "outside"))
    low, high = -CLEAR, book["test_plate.depth"].value
    outside, inside = (((low, 0.0), (low, r), (high, r), (high, 0.0)) for r in (outer, inner))
    return Profile(outside, (inside,))


def test_plate(book: Book, _: Job) -> Pieces:  # noqa: PT019 - no test
    """Return plate less groove; JobError where two holes meet."""
    sheet, thick = plate(book), book["test_plate.thickness"].value
    if (land := least_land(sheet)) <= 0:
        raise JobError(Fault("test_plate", f"has no room for its holes: {land:.2f} mm of metal between two of them"))
    inner, outer = (book[f"test_plate.groove_{n}"].value / 2 for n in ("inside", "outside"))
    cut = pi * (outer**2 - inner**2) * book["test_plate.depth"].value
    return Pieces((Piece(Flat(sheet, thick)),), (Piece(groove(book)),), outline.area(sheet) * thick - cut)
