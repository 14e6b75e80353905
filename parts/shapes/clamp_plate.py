"""Shape of the clamp plate: a flat disc with a hole for its bolt. The face that bears on the rings lies on Z = 0."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry import outline
from parts.geometry.outline import Hole, Region
from parts.shapes.pieces import Flat

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def clamp_plate(book: Book, _: Job) -> Flat:
    """Return the plate; JobError where its hole leaves no metal."""
    wide, hole, thick = (book[f"clamp_plate.{n}"].value for n in ("diameter", "hole", "thickness"))
    if wide <= hole:
        raise JobError(Fault("clamp_plate", f"leaves no metal: {wide:g} mm across, with a hole of {hole:g} mm"))
    return Flat(Region(outline.circle(0.0, 0.0, wide / 2), (Hole(0.0, 0.0, hole, "BOLT"),)), thick)
