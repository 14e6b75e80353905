"""The turned washer, by the load at which its stud yields: no heat pulls harder, and no length bears on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import turned_washer as relation
from parts.sizing.clamp_plate import through
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

SAFETY = 1.5
HELD, THICK_HELD = 0.1, 0.05  # mm either way


def size(book: Book, job: Job) -> None:
    """Add its sizes; call it once the sections of the stud are known, before its lengths."""
    own = "turned_washer."
    book.enter(f"{own}safety", SAFETY, "1", "assumed", f"against yielding: {PRACTICE}")
    strength = "stud.proof_stress" if "stud.proof_stress" in book else "stud.yield_strength"
    book.add(f"{own}load", relation.yield_load, strength=strength, area="stud.weakest_area")
    head = {"load": f"{own}load", "hole": "job.head.hole_diameter"}
    nut = {"nut": "stud.nut_bearing"}
    book.add(f"{own}outside_diameter", relation.outside, HELD, **head, bearing="head.bearing_hot", **nut)
    if job.stud is not None:
        fit = through(job.stud.nut_end)
        book.enter(f"{own}hole_diameter", fit.value, "mm", fit.status, fit.source, spread=HELD)
    book.add(f"{own}pressure", relation.pressure, **head, outside=f"{own}outside_diameter")
    edge = {"outside": f"{own}outside_diameter"}
    book.add(f"{own}moment", relation.moment, pressure=f"{own}pressure", **edge, **nut)
    bent = {"moment": f"{own}moment", "safety": f"{own}safety", "strength": f"{own}yield_strength"}
    book.add(f"{own}thickness", relation.thickness, THICK_HELD, **bent)
    book.add(f"{own}hardness", relation.hardness, strength=f"{own}tensile_strength")
