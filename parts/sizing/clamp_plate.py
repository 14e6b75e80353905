"""The clamp plate, its bolt and what the bolt holds together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.errors import Fault, JobError
from parts.relations import clamp_plate as relation
from parts.relations.stud import as_given
from parts.sizing.materials import enter_material

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

BOLTS = (10.0, 8.0, 6.0, 5.0, 4.0, 3.0)
NUT, WASHER = "ISO 4032", "ISO 7089"
HELD = 0.1  # mm either way, of what nothing fits to: common practice, no source


def size_clamp_plate(book: Book, job: Job) -> None:
    """Add the plate's sizes; those that the job gives stand."""
    if job.clamp_plate is None:
        return
    enter_material(book, "clamp_plate", job.clamp_plate.material)
    book.add("clamp_plate.diameter", relation.plate_diameter, HELD, flange="mandrel.flange_diameter")
    if job.clamp_plate.thickness is None:
        book.add("clamp_plate.thickness", relation.plate_thickness, HELD, flange="mandrel.flange_thickness")
    else:
        book.add("clamp_plate.thickness", as_given, length="job.clamp_plate.thickness")
    book.add("clamp_plate.hole", as_given, HELD, length="mandrel.hole_diameter")
    if "mandrel.hole_diameter" in book:
        _bolt(book, book["mandrel.hole_diameter"].value)


def _bolt(book: Book, hole: float) -> None:
    """Enter the largest bolt that goes through the hole, and how long it must be."""
    nominal = next((size for size in BOLTS if tables.clearance_hole(size, "fine").value <= hole), None)
    if nominal is None:
        least = f"M{BOLTS[-1]:g} wants {tables.clearance_hole(BOLTS[-1], 'fine').value:g} mm"
        raise JobError(Fault("clamp_plate", f"needs a bolt through the mandrel's hole of {hole:g} mm: {least}"))
    source = f"{tables.clearance_hole(nominal, 'fine').source}: the largest that goes through"
    book.enter("clamp_plate.bolt", nominal, "mm", "published", source)
    book.enter("clamp_plate.bolt_pitch", tables.metric_pitches()[nominal][0], "mm", "published", "ISO 262, coarse")
    nut, washer = tables.nut(NUT, nominal), tables.washer(WASHER, nominal)
    book.enter("clamp_plate.nut_height", nut.height, "mm", nut.status, nut.source)
    book.enter("clamp_plate.washer_thickness", washer.thickness, "mm", washer.status, washer.source)
    held = {"flange": "mandrel.flange_thickness", "stack": "mandrel.stack", "thickness": "clamp_plate.thickness"}
    book.add("clamp_plate.grip", relation.grip, **held, washers="clamp_plate.washer_thickness")
    ends = {"nut": "clamp_plate.nut_height", "pitch": "clamp_plate.bolt_pitch"}
    book.add("clamp_plate.bolt_length", relation.bolt_length, grip="clamp_plate.grip", **ends)
