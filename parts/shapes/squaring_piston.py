"""Shape of the squaring piston: a turned profile. The face that pushes the ring lies on Z = 0, the stop is above."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.geometry.profile import Profile

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def squaring_piston(book: Book, _: Job) -> Profile:
    """Return its profile: piston, stop, and a hole through both."""
    wide, rim, hole = (book[f"squaring_piston.{n}"].value / 2 for n in ("diameter", "stop_diameter", "hole"))
    deep = book["squaring_piston.depth"].value
    top = deep + book["squaring_piston.stop"].value
    points = ((0.0, 0.0), (0.0, wide), (deep, wide), (deep, rim), (top, rim), (top, 0.0))
    return Profile(points, (((0.0, 0.0), (0.0, hole), (top, hole), (top, 0.0)),))
