"""Shape of the turned washer: a turned profile; it bears on the head at Z = 0."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.profile import Profile

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def turned_washer(book: Book, _: Job) -> Profile:
    """Return its profile; JobError where its hole leaves no metal."""
    outside, inside, thick = (
        book[f"turned_washer.{n}"].value for n in ("outside_diameter", "hole_diameter", "thickness")
    )
    if outside <= inside:
        raise JobError(Fault("turned_washer", f"leaves no metal: {outside:g} mm outside, with a hole of {inside:g} mm"))
    outer, inner = (((0.0, 0.0), (0.0, d / 2), (thick, d / 2), (thick, 0.0)) for d in (outside, inside))
    return Profile(outer, (inner,))
