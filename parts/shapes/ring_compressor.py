"""Shape of the ring compressor: a turned profile; its outlet sits on the deck at Z = 0, the mouth is above."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.profile import Profile

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def ring_compressor(book: Book, _: Job) -> Profile:
    """Return its profile; JobError where a free ring is no larger than the bore."""
    outside, mouth, outlet = (book[f"ring_compressor.{n}_diameter"].value / 2 for n in ("outside", "mouth", "outlet"))
    land, cone = book["ring_compressor.land"].value, book["ring_compressor.cone_length"].value
    if mouth <= outlet:
        raise JobError(Fault("ring_compressor", f"is not needed: a free ring goes into a mouth of {2 * mouth:.2f} mm"))
    top = land + cone
    bore = ((0.0, 0.0), (0.0, outlet), (land, outlet), (top, mouth), (top, 0.0))
    return Profile(((0.0, 0.0), (0.0, outside), (top, outside), (top, 0.0)), (bore,))
