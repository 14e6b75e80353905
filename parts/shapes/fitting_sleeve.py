"""Shape of the fitting sleeve: a turned profile; its shoulder sits on the crown at Z = 0, the cone above."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.profile import Profile

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def fitting_sleeve(book: Book, _: Job) -> Profile:
    """Return its profile; JobError where a free ring goes over the piston by itself."""
    outside, inside, small, hole = (
        book[f"fitting_sleeve.{n}"].value / 2 for n in ("skirt_diameter", "bore_diameter", "small_end", "hole")
    )
    cone, skirt = book["fitting_sleeve.cone_length"].value, book["fitting_sleeve.reach"].value
    if small >= outside:
        says = f"is not needed: a free ring of {2 * small:.1f} mm inside slips over {2 * outside:.1f} mm by itself"
        raise JobError(Fault("fitting_sleeve", says))
    points = ((-skirt, 0.0), (-skirt, outside), (0.0, outside), (cone, small), (cone, 0.0))
    bore = ((-skirt, 0.0), (-skirt, inside), (0.0, inside), (0.0, hole), (cone, hole), (cone, 0.0))
    return Profile(points, (bore,))
