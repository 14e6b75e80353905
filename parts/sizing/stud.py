"""The stepped stud: threads, every length, stiffness; and the hole it screws into."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.fixtures import TURNED
from parts.relations import stud as relation
from parts.relations import stud_design as design
from parts.relations.turned_washer import longer
from parts.sizing.drills import DEEP
from parts.sizing.fasteners import size_washer
from parts.sizing.inserts import size_insert
from parts.sizing.materials import enter_material, metals
from parts.sizing.threads import add_stress_area, size_tapped_hole, size_thread

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.part_models import Stud

STEP = 1.0  # mm below the deck
LEAST_STEPS = 0.4  # mm on diameter, of a waist that has corners to round
PLAIN = 0.6  # of the nut end's diameter, of plain shank: a little over what is a caution
ENDS = ("tap_end", "nut_end")
CHAMFER_THREADS = {"bottoming": 3, "plug": 5}


def hole_of(book: Book) -> str:
    """Whether the stud screws into an "insert" or is "tapped" straight: what its hole's sizes begin with."""
    return "insert" if "insert.nominal" in book else "tapped"


def size_threads(book: Book, job: Job) -> None:
    """Add both threads."""
    stud = job.stud
    if stud is None:
        _name_roots(book)
        return
    size_thread(book, "stud.tap_end", stud.tap_end)
    size_thread(book, "stud.nut_end", stud.nut_end)


def size_hole(book: Book, job: Job) -> None:
    """Add the hole that the stud screws into: for an insert, or tapped straight."""
    stud, system = job.stud, job.job.print_units
    if stud is None:
        return
    if stud.insert is None:
        _tapped(book, job, stud, system)
        return
    _in_mm(book, "insert.nominal_length", "job.stud.insert.length", "stud.tap_end_nominal")
    standard = "DIN 8140" if stud.insert.depth_rule == "DIN 8140" else "ASME B18.29.2M"
    size_insert(book, stud.tap_end, system, stud.insert.tap, standard=standard)


def _name_roots(book: Book) -> None:
    """Note which key would give what comes from the threads."""
    for end, key in (("tap_end", "job.stud.tap_end"), ("nut_end", "job.stud.nut_end")):
        for size in ("nominal", "pitch", "root_diameter", "stress_area", "lead_in", "length"):
            book.comes_from[f"stud.{end}_{size}"] = key
    for name in (
        "tapped.engagement",
        "tapped.tap_drill",
        "tapped.drill_depth",
        "tapped.tapped_pitch_diameter",
        "stud.shank_diameter",
    ):
        book.comes_from[name] = "job.stud.tap_end"
    for name in (
        "stud.stress_area",
        "stud.nut_height",
        "stud.nut_bearing",
        "stud.washer_thickness",
        "stud.washer_outside",
    ):
        book.comes_from[name] = "job.stud.nut_end"
    book.comes_from["stud.step_depth"] = "job.stud.tap_end"


def _in_mm(book: Book, name: str, given: str, nominal: str) -> None:
    """Add a thread length that was given in millimetres or in diameters."""
    if given in book and book[given].unit == "d":
        book.add(name, relation.in_diameters, multiple=given, nominal=nominal)
    elif given in book:
        book.add(name, relation.as_given, length=given)


def _tapped(book: Book, job: Job, stud: Stud, system: str) -> None:
    spec = job.barrel.material if job.barrel else None
    _in_mm(book, "tapped.engagement", "job.stud.engagement", "stud.tap_end_nominal")
    deep = book["tapped.engagement"].value > DEEP * stud.tap_end.nominal
    size_tapped_hole(book, "tapped", stud.tap_end, system, soft="steel" not in metals(spec), deep=deep)
    book.add(
        "tapped.full_thread_depth",
        relation.full_thread_depth,
        engagement="tapped.engagement",
        pitch="stud.tap_end_pitch",
    )
    book.add(
        "tapped.drill_depth",
        relation.drill_depth,
        full_thread="tapped.full_thread_depth",
        chamfer_threads=CHAMFER_THREADS[stud.tap],
        pitch="stud.tap_end_pitch",
    )


def size_stud(book: Book, job: Job) -> None:
    """Add every length of the stud and its stiffness, once its sections are known."""
    size_washer(book, job)
    _reach(book)
    _step(book)
    book.add("stud.tap_end_length", relation.tap_end_length, reach="stud.tap_end_reach", step="stud.step_depth")
    grip = {"gasket": "job.gasket.thickness", "head": "job.head.thickness", "washer": "stud.washer_thickness"}
    book.add("stud.projection", relation.projection, **grip, nut="stud.nut_height", pitch="stud.nut_end_pitch")
    _nut_end(book, job)
    book.add(
        "stud.shank_length",
        relation.shank_length,
        projection="stud.projection",
        step="stud.step_depth",
        nut_end="stud.nut_end_length",
    )
    book.add(
        "stud.length",
        relation.length,
        tap_end="stud.tap_end_length",
        shank="stud.shank_length",
        nut_end="stud.nut_end_length",
    )
    _stiffness(book, grip)
    if "turned_washer.thickness" in book and not (job.stud and job.stud.washer and job.stud.washer.name == TURNED):
        book.add("turned_washer.longer", longer, thickness="turned_washer.thickness", washer="stud.washer_thickness")


def size_sections(book: Book, job: Job) -> None:
    """Add the stud's metal, shank and sections: all of it that hangs on no length."""
    _shank(book, job)
    if job.stud is not None:
        add_stress_area(book, "stud.stress_area", "stud.nut_end", job.stud.nut_end)
        add_stress_area(book, "stud.tap_end_stress_area", "stud.tap_end", job.stud.tap_end)
        enter_material(
            book, "stud", job.stud.material, diameter=max(job.stud.tap_end.nominal, job.stud.nut_end.nominal)
        )
    _corners(book)
    book.add("stud.shank_area", relation.circle_area, diameter="stud.shank_diameter")
    for end in ENDS:
        _relief(book, job, end)
    _weakest(book)
    book.add("stud.tap_end_root_area", relation.circle_area, diameter="stud.tap_end_root_diameter")


def _corners(book: Book) -> None:
    """Add the radius in the corners of a waist; where no thread stands over the shank there are none."""
    ends = {"first": "stud.tap_end_nominal", "second": "stud.nut_end_nominal"}
    if book.has(*ends.values(), "stud.shank_diameter"):
        thread, shank = "stud.smaller_thread", "stud.shank_diameter"
        book.add(thread, relation.least_of, **ends)
        if book[thread].value - book[shank].value >= LEAST_STEPS:
            book.add("stud.corner_radius", relation.corner_radius, thread=thread, shank=shank)


def _relief(book: Book, job: Job, end: str) -> None:
    """Enter how a thread ends at a shank thicker than its core: run-out, or the undercut's width and diameter."""
    names = (f"stud.{end}_root_diameter", f"stud.{end}_pitch", f"stud.{end}_nominal", "stud.shank_diameter")
    if job.stud is None or not book.has(*names):
        return
    root, pitch, nominal, shank = (book[n].value for n in names)
    if shank <= root:
        return
    run_out = tables.run_out(pitch)
    book.enter(f"stud.{end}_run_out", run_out.value, "mm", run_out.status, run_out.source)
    if job.stud.thread_relief == "undercut":
        groove = tables.undercut(pitch, nominal)
        book.enter(f"stud.{end}_undercut_width", groove.greatest_width, "mm", groove.status, groove.source)
        diameter = f"stud.{end}_undercut_diameter"
        book.enter(diameter, groove.diameter, "mm", groove.status, groove.source)
        book.enter(f"stud.{end}_undercut_radius", groove.radius, "mm", groove.status, groove.source)
        book.add(f"stud.{end}_undercut_area", relation.circle_area, diameter=diameter)


def _weakest(book: Book) -> None:
    """Add the section that gives first, of all that the load goes through."""
    sections: dict[str, str | float] = {
        "nut_end": "stud.stress_area",
        "tap_end": "stud.tap_end_stress_area",
        "shank": "stud.shank_area",
    }
    for end in ENDS:
        if f"stud.{end}_undercut_area" in book:
            sections[f"{end}_undercut"] = f"stud.{end}_undercut_area"
    book.add("stud.weakest_area", relation.weakest, **sections)
    book.add("stud.widest_thread", relation.wider, tap_end="stud.tap_end_nominal", nut_end="stud.nut_end_nominal")


def _reach(book: Book) -> None:
    if hole_of(book) == "insert":
        book.add(
            "stud.tap_end_reach",
            relation.reach_in_insert,
            set_down="insert.set_down",
            insert_length="insert.nominal_length",
            pitch="stud.tap_end_pitch",
        )
    else:
        book.add("stud.tap_end_reach", relation.as_given, length="tapped.engagement")


def _step(book: Book) -> None:
    """Add how far below the deck the tap end stops: it may not hold the head off."""
    if "job.stud.step_depth" in book:
        book.add("stud.step_depth", relation.as_given, length="job.stud.step_depth")
        return
    holes = [
        book[n].value for n in ("job.head.hole_diameter", "gasket.hole_diameter", "stud.nut_end_nominal") if n in book
    ]
    if not holes or "stud.tap_end_nominal" not in book:
        book.lacks("stud.step_depth", "job.stud.tap_end")
        return
    larger = book["stud.tap_end_nominal"].value > min(holes[:-1] or holes)
    source = "1.0 mm unless given" if larger else "not needed: the tap end goes through the holes of head and gasket"
    book.enter("stud.step_depth", STEP if larger else 0.0, "mm", "assumed", source)


def _nut_end(book: Book, job: Job) -> None:
    if job.stud is None:
        book.lacks("stud.nut_end_length", "job.stud.nut_end")
        return
    key = "job.stud.nut_end_length"
    if key not in book and book.has("stud.projection", "stud.tap_end_reach", "stud.step_depth"):
        length = book["stud.projection"].value + book["stud.tap_end_reach"].value
        figure = tables.nut_end_length(job.stud.nut_end.nominal, length)
        book.enter("stud.nut_end_standard", figure.value, "mm", figure.status, figure.source)
        above = {"projection": "stud.projection", "step": "stud.step_depth", "nominal": "stud.nut_end_nominal"}
        book.design(key, design.nut_end, standard="stud.nut_end_standard", **above, plain=PLAIN)
    if key in book:
        _in_mm(book, "stud.nut_end_length", key, "stud.nut_end_nominal")
    else:
        book.lacks("stud.nut_end_length", "stud.projection")


def _shank(book: Book, job: Job) -> None:
    """Add the shank: as given, else a waist; a stud of the crankcase, which is not made here, is as its thread."""
    key = "job.stud.shank"
    if key not in book and job.seen_by is not None and job.seen_by.kind == "base":
        least = min(book[f"stud.{end}_nominal"].value for end in ENDS)
        told = "the smaller of the two threads where no shank is given"
        book.enter("stud.shank_diameter", least, "mm", "assumed", told)
        return
    cores = {end: f"stud.{end}_root_diameter" for end in ENDS}
    if book.has(*cores.values()):
        book.design(key, design.waist, **cores)
        book.add("stud.shank_diameter", relation.as_given, length=key)


def _stiffness(book: Book, grip: dict[str, str]) -> None:
    book.add("stud.nut_face", relation.nut_face, **grip)
    book.add(
        "stud.free_nut_thread",
        relation.free_nut_thread,
        nut_end="stud.nut_end_length",
        nut_face="stud.nut_face",
        projection="stud.projection",
    )
    first_coil: str | float = "insert.set_down" if hole_of(book) == "insert" else 0.0
    book.add("stud.free_tap_thread", relation.free_tap_thread, first_coil=first_coil, step="stud.step_depth")
    modulus = "stud.modulus"
    for part, length, area in (
        ("nut_thread", "stud.free_nut_thread", "stud.stress_area"),
        ("tap_thread", "stud.free_tap_thread", "stud.tap_end_stress_area"),
    ):
        book.add(f"stud.{part}_compliance", relation.bar_compliance, length=length, modulus=modulus, area=area)
    _shank_compliance(book, modulus)
    book.add(
        "stud.nut_end_compliance",
        relation.nut_end_compliance,
        nominal="stud.nut_end_nominal",
        modulus=modulus,
        stress_area="stud.stress_area",
    )
    book.add(
        "stud.tap_end_compliance",
        relation.tap_end_compliance,
        nominal="stud.tap_end_nominal",
        modulus=modulus,
        root_area="stud.tap_end_root_area",
        stress_area="stud.tap_end_stress_area",
    )
    parts = ("nut_end", "nut_thread", "shank", "tap_thread", "tap_end")
    book.add("stud.stiffness", relation.stiffness, **{part: f"stud.{part}_compliance" for part in parts})


def _shank_compliance(book: Book, modulus: str) -> None:
    """Add what the shank gives, with an undercut at each end that has one."""
    name = "stud.shank_compliance"
    whole = {"length": "stud.shank_length", "modulus": modulus, "area": "stud.shank_area"}
    grooves: dict[str, str | float] = {}
    for end, argument in zip(ENDS, ("tap_groove", "nut_groove"), strict=True):
        there = f"stud.{end}_undercut_area" in book
        grooves[argument] = f"stud.{end}_undercut_width" if there else 0.0
        grooves[f"{argument}_area"] = f"stud.{end}_undercut_area" if there else "stud.shank_area"
    if any(grooves[argument] for argument in ("tap_groove", "nut_groove")):
        book.add(name, relation.grooved_compliance, **whole, **grooves)
    else:
        book.add(name, relation.bar_compliance, **whole)
