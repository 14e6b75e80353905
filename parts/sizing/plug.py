"""The blanking plug: its fit, its length, what its bond holds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.relations import plug as relation
from parts.relations import plug_design as design
from parts.relations import stud as lengths
from parts.relations.fits import deviations
from parts.relations.press import hot_interference
from parts.sizing.fits import size_fit
from parts.sizing.hot import FROST, STATES
from parts.sizing.materials import enter_material
from parts.sizing.threads import size_tapped_hole
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.part_models import Plug

GUIDED = 1.5  # diameters of plug in its hole
RESERVE = 2.0  # times, that a bond is to hold the gas
TIGHT = 0.002  # mm of interference, that is to be left
LETTERS, USUAL = ("k6", "m6", "n6", "p6", "r6", "s6"), "p6"
ROOM = 0.2  # mm on diameter, of the counterbore round a shoulder: common practice, no source


def size_plug(book: Book, job: Job) -> None:
    """Add the plug's sizes."""
    plug = job.plug
    if plug is None:
        book.lacks("plug.diameter", "job.plug.fit")
        return
    hole = hole_name(job, plug)
    enter_material(book, "plug", plug.material)
    if plug.fit == "bonded":
        _bonded(book, hole)
    else:
        _press(book, hole, plug)
    book.add("plug.gas_force", relation.gas_force, diameter=hole, pressure="job.engine.peak_pressure")
    _length(book, hole)
    book.add("plug.length", lengths.as_given, length="job.plug.length")
    if plug.fit == "bonded":
        bond = {"strength": "job.plug.bond_strength", "diameter": "plug.diameter"}
        book.add("plug.hold_force", relation.hold_force, **bond, length="job.plug.length")
    book.add("plug.whole_length", relation.whole_length, below="job.plug.length", proud="job.plug.stands_proud")
    book.enter("plug.below_deck", 0.0, "mm", "assumed", "faced off flush with the deck, in one setting")
    if plug.fit == "bonded":
        book.add("plug.hold_safety", relation.hold_safety, hold="plug.hold_force", gas="plug.gas_force")
    if plug.shoulder is not None:
        _counterbore(book)
    if plug.extraction_thread is not None:
        size_tapped_hole(book, "plug.extraction", plug.extraction_thread, job.job.print_units)
        book.enter("plug.extraction.nominal", plug.extraction_thread.nominal, "mm", "given", "job file")
        book.add("plug.extraction.depth", lengths.in_diameters, multiple=2.0, nominal="plug.extraction.nominal")


def _counterbore(book: Book) -> None:
    """Add what the shoulder drops into."""
    book.enter("plug.counterbore_room", ROOM, "mm", "assumed", f"on diameter, round the shoulder: {PRACTICE}")
    wide = {"shoulder": "job.plug.shoulder.diameter", "room": "plug.counterbore_room"}
    book.add("plug.counterbore_diameter", relation.counterbore_diameter, **wide)
    skim: str | float = "job.barrel.skim" if "job.barrel.skim" in book else 0.0
    deep = {"thickness": "job.plug.shoulder.thickness", "skim": skim}
    book.add("plug.counterbore_depth", relation.counterbore_depth, **deep)


def hole_name(job: Job, plug: Plug) -> str:
    """Name of the diameter of the hole that the plug fills."""
    if plug.passage is None:
        return "job.plug.hole"
    names = [p.name for p in job.barrel.passages] if job.barrel else []
    return f"job.barrel.passages.{names.index(plug.passage)}.diameter"


def _bonded(book: Book, hole: str) -> None:
    if "job.plug.bond_clearance" not in book:
        book.enter(
            "job.plug.bond_clearance",
            0.04,
            "mm",
            "assumed",
            "common practice, no source: see the compound's data sheet",
        )
    book.add("plug.diameter", relation.bonded_diameter, hole=hole, clearance="job.plug.bond_clearance")


def _length(book: Book, hole: str) -> None:
    """Design how long the plug is: what guides it, what a bond has to hold, no deeper than its passage."""
    key = "job.plug.length"
    if key in book:
        return
    book.add("plug.guided_length", lengths.in_diameters, multiple=GUIDED, nominal=hole)
    bond = {"gas": "plug.gas_force", "strength": "job.plug.bond_strength", "diameter": "plug.diameter"}
    held = "plug.guided_length"
    if book.has(*bond.values()):
        held = "plug.held_length"
        safety = {part: f"job.plug.safety_{part}" for part in ("heat", "gap", "surface")}
        book.add(held, design.length_to_hold, times=RESERVE, **safety, **bond)
    wanted = {"hole": "plug.guided_length", "hold": held}
    depth = hole.replace(".diameter", ".depth")
    if depth in book:
        book.add("plug.length_wanted", design.long_enough, **wanted)
        book.design(key, design.no_deeper, length="plug.length_wanted", depth=depth)
    else:
        book.design(key, design.long_enough, **wanted)


def tolerance_of(book: Book, plug: Plug) -> str:
    """Letter and grade of a press fit: the job's own, else as designed."""
    return plug.tolerance or str(book["job.plug.tolerance"].value)


def _design_tolerance(book: Book, hole: str) -> None:
    """Choose the loosest letter that is tight in the widest hole when the peaks are pressed flat, hot and in frost."""
    room = book["plug.hole_max"].value + book["plug.smoothing"].value - _least_growth(book, hole) + TIGHT
    nominal = book[hole].value
    tight = [letter for letter in LETTERS if nominal + deviations(nominal, letter).lower >= room]
    says = "the loosest of ISO 286 that is tight in the widest hole, the peaks pressed flat, hot and in frost"
    none = f"the usual one: no letter of ISO 286 is tight in a hole that may be {book['plug.hole_max'].value:.3f} mm"
    book.choose("job.plug.tolerance", tight[0] if tight else USUAL, says if tight else none)


def _least_growth(book: Book, hole: str) -> float:
    """Least that the fit tightens in heat or frost [mm]; 0 cold, and where heat or metals are not known."""
    metals = ("plug.expansion", "barrel.expansion")
    heats = [book[n].value for s in STATES.values() if (n := f"job.engine.{s}.barrel") in book]
    if not heats or not book.has(*metals):
        return 0.0
    own, barrel = (book[name].value for name in metals)
    states = (hot_interference(0.0, book[hole].value, own, barrel, heat) for heat in (*heats, FROST))
    return min(0.0, *states)


def _press(book: Book, hole: str, plug: Plug) -> None:
    rough = {"plug": "job.plug.roughness", "hole": "job.plug.hole_roughness"}
    book.add("plug.smoothing", relation.smoothing, **rough)
    try:
        _hole(book, hole)
        if plug.tolerance is None:
            _design_tolerance(book, hole)
        size_fit(book, "plug.shaft", hole, tolerance_of(book, plug))
    except ValueError as error:
        raise JobError(Fault("plug.tolerance", str(error))) from None
    for end in ("max", "min"):
        book.add(f"plug.diameter_{end}", lengths.as_given, length=f"plug.shaft_{end}")
    size, least = "plug.diameter", "plug.interference_min"
    book.add(size, relation.middle, high=f"{size}_max", low=f"{size}_min")
    book.add("plug.interference_max", relation.greatest_interference, plug_max=f"{size}_max", hole="plug.hole_min")
    book.add(least, relation.least_interference, plug_min=f"{size}_min", hole_max="plug.hole_max")
    book.add("plug.interference_left", relation.interference_left, least=least, loss="plug.smoothing")


def _hole(book: Book, hole: str) -> None:
    """Add the limits of the hole: what it was measured to, where that is told; else what it is to be reamed to."""
    read = book[hole]
    if not read.spread and read.status != "made":
        size_fit(book, "plug.hole", hole, "H7")
        return
    for end, limit, half in (("lower", "min", -read.spread), ("upper", "max", read.spread)):
        book.enter(f"plug.hole_{end}", half, "mm", "given", "tolerance of the reading")
        book.add(f"plug.hole_{limit}", relation.hole_end, diameter=hole, deviation=f"plug.hole_{end}")
