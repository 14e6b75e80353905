"""The stepped stud: threads, every length, stiffness; and the hole it screws into."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from parts import tables
from parts.errors import Fault, JobError
from parts.relations import stud as relation
from parts.sizing.inserts import size_insert
from parts.sizing.materials import enter_material
from parts.sizing.threads import add_stress_area, size_tapped_hole, size_thread

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job
    from parts.job.part_models import Stud

T = TypeVar("T")
STEP = 1.0  # mm below the deck
PLAIN = 0.6  # of the nut end's diameter, of plain shank: a little over what is a caution
ENGAGEMENT = (("GJL", 1.5), ("ring iron", 1.5), ("Al", 2.0), ("alumin", 2.0))  # material -> multiples of d
CHAMFER_THREADS = {"bottoming": 3, "plug": 5}


def hole_of(book: Book) -> str:
    """Whether the stud screws into an "insert" or is "tapped" straight: what its hole's sizes begin with."""
    return "insert" if "insert.nominal" in book else "tapped"


def size_threads(book: Book, job: Job) -> None:
    """Add both threads and the hole."""
    stud = job.stud
    if stud is None:
        _name_roots(book)
        return
    size_thread(book, "stud.tap_end", stud.tap_end)
    size_thread(book, "stud.nut_end", stud.nut_end)
    system = job.job.print_units
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
        "tapped.tapped_pitch",
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
    size_tapped_hole(book, "tapped", stud.tap_end, system)
    if stud.engagement is None:
        material = job.barrel.material.name if job.barrel else ""
        multiple = next((m for part, m in ENGAGEMENT if part in material), 1.0 if job.barrel else 2.0)
        source = "usual rule: steel 1 d, cast iron 1.5 d, aluminium 2 d" + ("" if job.barrel else "; barrel not given")
        book.enter("tapped.multiple", multiple, "d", "assumed", source)
        book.add("tapped.engagement", relation.in_diameters, multiple="tapped.multiple", nominal="stud.tap_end_nominal")
    else:
        _in_mm(book, "tapped.engagement", "job.stud.engagement", "stud.tap_end_nominal")
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
    """Add every length of the stud, its sections and its stiffness."""
    _fasteners(book, job)
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
    _shank(book)
    if job.stud is not None:
        add_stress_area(book, "stud.stress_area", "stud.nut_end", job.stud.nut_end)
        add_stress_area(book, "stud.tap_end_stress_area", "stud.tap_end", job.stud.tap_end)
        enter_material(
            book, "stud", job.stud.material, diameter=max(job.stud.tap_end.nominal, job.stud.nut_end.nominal)
        )
    book.add("stud.shank_area", relation.circle_area, diameter="stud.shank_diameter")
    book.add("stud.weakest_area", relation.least_of, first="stud.stress_area", second="stud.shank_area")
    book.add("stud.tap_end_root_area", relation.circle_area, diameter="stud.tap_end_root_diameter")
    _stiffness(book, grip)
    for end in ("tap_end", "nut_end"):
        _relief(book, job, end)


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
        book.enter(f"stud.{end}_undercut_diameter", groove.diameter, "mm", groove.status, groove.source)


def _fasteners(book: Book, job: Job) -> None:
    """Enter the nut's and the washer's sizes: the user's own where given, else the standard's."""
    stud = job.stud
    if stud is None:
        return
    faults: list[Fault] = []
    for enter in (_nut, _washer):
        try:
            enter(book, stud)
        except JobError as error:
            faults += error.faults
    if faults:
        raise JobError(*faults)
    for part in ("nut", "washer"):
        for size in ("height", "across_flats", "bearing", "thickness", "outside", "inside"):
            if f"job.stud.{part}.{size}" in book:
                book.add(f"stud.{part}_{size}", relation.as_given, length=f"job.stud.{part}.{size}")


def _nut(book: Book, stud: Stud) -> None:
    if stud.nut and stud.nut.height:
        return
    name = stud.nut.name if stud.nut else tables.usual_nut(stud.nut_end.family)
    nut = _looked_up("stud.nut", tables.nut, name, stud.nut_end.nominal, 'height = "6.8 mm"')
    for size, value in (("height", nut.height), ("across_flats", nut.across_flats), ("bearing", nut.bearing)):
        book.enter(f"stud.nut_{size}", value, "mm", nut.status if stud.nut else "assumed", nut.source)


def _washer(book: Book, stud: Stud) -> None:
    if stud.washer and stud.washer.thickness:
        return
    name = stud.washer.name if stud.washer else tables.usual_washer(stud.nut_end.family)
    washer = _looked_up("stud.washer", tables.washer, name, stud.nut_end.nominal, 'thickness = "1.6 mm"')
    for size, value in (("thickness", washer.thickness), ("outside", washer.outside), ("inside", washer.inside)):
        book.enter(f"stud.washer_{size}", value, "mm", washer.status if stud.washer else "assumed", washer.source)


def _looked_up(key: str, look_up: Callable[[str, float], T], name: str, nominal: float, example: str) -> T:
    """Look a fastener up in its table, or say what to give instead."""
    try:
        return look_up(name, nominal)
    except ValueError as error:
        says = f"{error}: give its sizes, like {key.rpartition('.')[2]} = {{ name = {name!r}, {example} }}"
        raise JobError(Fault(key, says)) from None


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
    if "job.stud.nut_end_length" in book:
        _in_mm(book, "stud.nut_end_length", "job.stud.nut_end_length", "stud.nut_end_nominal")
    elif book.has("stud.projection", "stud.tap_end_reach", "stud.step_depth"):
        length = book["stud.projection"].value + book["stud.tap_end_reach"].value
        figure = tables.nut_end_length(job.stud.nut_end.nominal, length)
        room = book["stud.projection"].value + book["stud.step_depth"].value - PLAIN * job.stud.nut_end.nominal
        short = f"{figure.source}; less, so that a short stud keeps {PLAIN:g} d of plain shank"
        value, source = (room, short) if 0 < room < figure.value else (figure.value, figure.source)
        book.enter("stud.nut_end_length", value, "mm", "assumed", source)
    else:
        book.lacks("stud.nut_end_length", "stud.projection")


def _shank(book: Book) -> None:
    if "job.stud.shank" in book:
        book.add("stud.shank_diameter", relation.as_given, length="job.stud.shank")
    elif book.has("stud.tap_end_nominal", "stud.nut_end_nominal"):
        least = min(book["stud.tap_end_nominal"].value, book["stud.nut_end_nominal"].value)
        book.enter(
            "stud.shank_diameter", least, "mm", "assumed", "the smaller of the two threads where no shank is given"
        )


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
        ("shank", "stud.shank_length", "stud.shank_area"),
        ("tap_thread", "stud.free_tap_thread", "stud.tap_end_stress_area"),
    ):
        book.add(f"stud.{part}_compliance", relation.bar_compliance, length=length, modulus=modulus, area=area)
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
