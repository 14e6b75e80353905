"""The clamp plate, its bolt and what the bolt holds together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.errors import Fault, JobError
from parts.relations import clamp_plate as relation
from parts.relations.stud import as_given
from parts.tables import Figure
from parts.thread import read_thread
from parts.units import INCH

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.thread import Thread

BOLTS = {  # system of the sheets -> threads of bolts, the largest first
    "metric": ("M10", "M8", "M6", "M5", "M4", "M3"),
    "inch": ("3/8-16 UNC", "5/16-18 UNC", "1/4-20 UNC", "#10-24 UNC", "#8-32 UNC", "#6-32 UNC"),
}
CLOSE = INCH / 64  # over an inch bolt, the close fit of ASME B18.2.8 (memory)
BOLT_STEEL = "C45"
HELD = 0.1  # mm either way, of what nothing fits to: common practice, no source


def size(book: Book, job: Job) -> None:
    """Add the plate's sizes; those that the job gives stand."""
    book.add("clamp_plate.diameter", relation.plate_diameter, HELD, flange="mandrel.flange_diameter")
    if "job.clamp_plate.thickness" not in book:
        book.add("clamp_plate.thickness", relation.plate_thickness, HELD, flange="mandrel.flange_thickness")
    else:
        book.add("clamp_plate.thickness", as_given, length="job.clamp_plate.thickness")
    book.add("clamp_plate.hole", as_given, HELD, length="mandrel.hole_diameter")
    if "mandrel.hole_diameter" in book:
        _bolt(book, book["mandrel.hole_diameter"].value, job.job.print_units)
        _heat(book)


def bolts(system: str) -> list[Thread]:
    """Threads that a bolt may have, the largest first."""
    return [read_thread(label) for label in BOLTS[system]]


def bolt_through(hole: float, system: str) -> Thread:
    """The largest bolt that goes through a hole; the smallest where none does."""
    some = bolts(system)
    return next((one for one in some if clearance(one).value <= hole), some[-1])


def clearance(bolt: Thread) -> Figure:
    """Hole that a bolt goes through without play to speak of."""
    if bolt.family != "metric":
        return Figure(bolt.nominal + CLOSE, "mm", "memory", "ASME B18.2.8, close")
    try:
        return tables.clearance_hole(bolt.nominal, "fine")
    except ValueError:  # a size that the standard leaves out
        return _loose(bolt)


def through(thread: Thread) -> Figure:
    """Hole for a stud of any thread."""
    return clearance(thread) if thread.family == "metric" else _loose(thread)


def _loose(thread: Thread) -> Figure:
    """Hole over a thread that no table of clearance holes lists."""
    return Figure(1.05 * thread.nominal, "mm", "assumed", f"a twentieth over the thread: {tables.PRACTICE}")


def _bolt(book: Book, hole: float, system: str) -> None:
    """Enter the largest bolt that goes through the hole, and how long it must be."""
    bolt = bolt_through(hole, system)
    if clearance(bolt).value > hole:
        least = f"{bolt.label} wants {clearance(bolt).value:.3g} mm"
        raise JobError(Fault("clamp_plate", f"needs a bolt through the mandrel's hole of {hole:g} mm: {least}"))
    fits = clearance(bolt)
    book.enter("clamp_plate.bolt", bolt.nominal, "mm", fits.status, f"{fits.source}: the largest that goes through")
    book.enter("clamp_plate.bolt_pitch", bolt.pitch, "mm", "published", f"{bolt.standard}, {bolt.label}")
    nut = tables.nut(tables.usual_nut(bolt.family), bolt.nominal)
    washer = tables.washer(tables.usual_washer(bolt.family), bolt.nominal)
    book.enter("clamp_plate.nut_height", nut.height, "mm", nut.status, nut.source)
    book.enter("clamp_plate.washer_thickness", washer.thickness, "mm", washer.status, washer.source)
    held = {"flange": "mandrel.flange_thickness", "stack": "mandrel.stack", "thickness": "clamp_plate.thickness"}
    book.add("clamp_plate.grip", relation.grip, **held, washers="clamp_plate.washer_thickness")
    ends = {"nut": "clamp_plate.nut_height", "pitch": "clamp_plate.bolt_pitch"}
    book.add("clamp_plate.bolt_length", relation.bolt_length, grip="clamp_plate.grip", **ends)


def _heat(book: Book) -> None:
    """Add how bolt and stack grow apart in the oven."""
    bolt = tables.material(BOLT_STEEL).figure("expansion")
    if bolt is None:
        raise AssertionError(f"{BOLT_STEEL} has no expansion")
    book.enter("clamp_plate.bolt_expansion", bolt.value, bolt.unit, "assumed", f"a plain steel bolt, as {BOLT_STEEL}")
    grown = {"mandrel": "mandrel.expansion", "ring": "ring.expansion", "plate": "clamp_plate.expansion"}
    expansions = {f"{part}_expansion": name for part, name in (grown | {"bolt": "clamp_plate.bolt_expansion"}).items()}
    held = {"flange": "mandrel.flange_thickness", "stack": "mandrel.stack", "thickness": "clamp_plate.thickness"}
    oven = "job.ring.heat_set.temperature"
    book.add("clamp_plate.hot_slack", relation.hot_slack, **held, **expansions, temperature=oven)


def bolt_label(book: Book, job: Job) -> str:
    """The bolt's thread as the trade writes it, `M8` or `5/16-18 UNC`."""
    nominal = book["clamp_plate.bolt"].value
    return short(next(one for one in bolts(job.job.print_units) if abs(one.nominal - nominal) < INCH / 1000))


def short(bolt: Thread) -> str:
    """Name a bolt of coarse thread, `M8` or `5/16-18 UNC`."""
    return bolt.label.partition("x")[0]
