"""The head joint: gas force, stiffness of what is clamped, preload by policy, torque, what is left of it all."""

from __future__ import annotations

import re
from contextlib import suppress
from typing import TYPE_CHECKING

from parts import tables
from parts.fixtures import TURNED
from parts.relations import joint as relation
from parts.relations import seal, shares
from parts.relations import stud as lengths
from parts.relations.turned_washer import hardness
from parts.sizing import hot, tightening
from parts.sizing.scenes import scenes
from parts.sizing.seal import face_of
from parts.sizing.settling import size_settling
from parts.sizing.stud import hole_of

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.part_models import Stud

STEEL = (210000.0, 11.5e-6)  # modulus [MPa] and expansion [1/K] of a washer
SEALS_ON = "gasket.effective_diameter"
LUBRICATED = 0.18
BOSS = 1.5  # washers wide, where the boss is not given
NUT_CLASS = {"metric": 8.0, "unified": 8.0}
WASHER_HARDNESS = 200.0  # HV
LAYERS = {  # layer -> names of thickness, hole, metal round it, modulus
    "washer": ("stud.washer_thickness", "stud.washer_inside", "stud.washer_outside", "joint.washer_modulus"),
    "head": ("job.head.thickness", "job.head.hole_diameter", "joint.boss", "head.modulus"),
    "gasket": ("job.gasket.thickness", "gasket.hole_diameter", "joint.boss", "gasket.modulus"),
    "barrel": ("joint.first_thread", "deck.tapped_major", "joint.boss", "barrel.modulus"),
}
UNDER_THE_FACE = ("gasket", "barrel")


def size_gas(book: Book, job: Job) -> None:
    """Add the gas force, how many studs there are, and whether they surround it."""
    book.add("joint.gas_force", relation.gas_force, diameter=SEALS_ON, pressure="job.engine.peak_pressure")
    add_studs(book, job)


def add_studs(book: Book, job: Job) -> None:
    """Add how many studs there are, how far out they stand, and whether they surround the bore."""
    every = book.numbers("deck.hole")
    if not every:
        book.lacks("joint.studs", "job.head.holes")
        book.lacks("joint.bore_inside", "job.head.holes")
        return
    _count(book, len(every))
    book.add("gasket.pressed_each", seal.area_each, area="gasket.pressed_area", count="joint.studs")
    for view, _, one in scenes(book, job, "stud"):
        holes = view.numbers("deck.hole")
        if one is not None and one.name:
            _count(view, len(holes))
        if holes:
            view.add("joint.reach", shares.farthest, **{f"hole_{n}": f"deck.hole.{n}.radius" for n in holes})
    places = {f"{axis}_{n}": f"deck.hole.{n}.{axis}" for n in every for axis in "xy"}
    book.add("joint.bore_inside", shares.bore_inside, **places)


def _count(book: Book, count: int) -> None:
    if count:
        book.enter("joint.studs", count, "1", "given", "the holes of the head's pattern")
    else:
        book.lacks("joint.studs", "job.head.holes")


def size_stiffness(book: Book, job: Job) -> None:
    """Add the stiffness of the clamped parts round a stud, and the share of a force that the stud takes."""
    _assumed(book, job)
    first: str | float = "insert.set_down" if hole_of(book) == "insert" else 0.0
    book.add("joint.first_thread", lengths.first_thread, first_coil=first, step="stud.step_depth")
    above: str = "stud.nut_bearing"
    reached: str | float = 0.0
    beside, metal = _face(book)
    for layer in LAYERS:
        if beside and layer in UNDER_THE_FACE:
            _ring(book, layer)
            continue
        _layer(book, layer, above, reached, metal if layer in UNDER_THE_FACE else "")
        above, reached = f"joint.{layer}_cone_start", f"joint.{layer}_cone_length"
    book.add(
        "joint.clamped_stiffness",
        relation.clamped_stiffness,
        **{layer: f"joint.{layer}_compliance" for layer in LAYERS},
    )
    book.add(
        "joint.stiffness_share", relation.stiffness_share, stud="stud.stiffness", clamped="joint.clamped_stiffness"
    )


def size_shares(book: Book, job: Job) -> None:
    """Add what each stud takes of the gas force: a stiff head on springs, which tilts where they are uneven."""
    springs: dict[str, str | float] = {}
    for view, _, _ in scenes(book, job, "stud"):
        view.add("joint.spring", shares.spring, stud="stud.stiffness", clamped="joint.clamped_stiffness")
        for n in view.numbers("deck.hole"):
            springs |= {f"x_{n}": f"deck.hole.{n}.x", f"y_{n}": f"deck.hole.{n}.y"}
            springs[f"spring_{n}"] = view.real("joint.spring")
    add_shares(book, job, springs)


def add_shares(book: Book, job: Job, springs: dict[str, str | float]) -> None:
    """Add what each stud takes, on such springs; where nothing holds the head against tilting there is none."""
    places = {argument: book.number(n) for argument, n in springs.items() if not isinstance(n, str) or n in book}
    tilts = bool(springs) and len(places) == len(springs) and not shares.balanced(**places)
    for n in book.numbers("deck.hole"):
        if tilts:
            book.lacks(f"joint.hole.{n}.gas_share", "joint.bore_inside")
        else:
            book.add(f"joint.hole.{n}.gas_share", shares.share_on_springs, number=n, **springs)
    for view, _, _ in scenes(book, job, "stud"):
        taken = {f"hole_{n}": f"joint.hole.{n}.gas_share" for n in view.numbers("deck.hole")}
        if taken:
            book.add(view.real("joint.gas_share"), shares.largest_share_of, **taken)
        else:
            view.lacks("joint.gas_share", "job.head.holes")
        view.add("joint.gas_force_each", relation.force_each, force="joint.gas_force", share="joint.gas_share")


MEANS = ("preload", "least_preload", "greatest_preload", "lowest_preload")


def size_together(book: Book, job: Job) -> None:
    """Add what studs of several kinds do together: the mean of their loads, what they take of the gas, their play."""
    kinds = [one for one in job.instances("stud") if one.name]
    if not kinds:
        return
    counts = {f"count_{n}": one.real("joint.studs") for n, one in enumerate(kinds)}
    for name in MEANS:
        loads = {f"load_{n}": one.real(f"joint.{name}") for n, one in enumerate(kinds)}
        book.add(f"joint.mean_{name}", shares.mean_load, **counts, **loads)
    taken: dict[str, str | float] = {}
    for one in kinds:
        for n in book.at(one).numbers("deck.hole"):
            share: str | float = f"joint.hole.{n}.gas_share"
            if share not in book and one.real("joint.gas_share") in book:
                share = 1 / len(book.numbers("deck.hole"))
            taken |= {f"share_{n}": share, f"stud_{n}": one.real("joint.stiffness_share")}
    book.add("joint.mean_stiffness_share", shares.mean_stiffness_share, **taken)
    floats = {f"kind_{n}": one.real("joint.head_float") for n, one in enumerate(kinds)}
    book.add("joint.head_float", shares.least_float, **floats)


def _assumed(book: Book, job: Job) -> None:
    """Enter what the job does not ask for, and the boss where it is not given."""
    if job.stud is None:
        return
    modulus, expansion = STEEL
    book.enter("joint.washer_modulus", modulus, "MPa", "assumed", "a washer of steel")
    book.enter("joint.washer_expansion", expansion, "1/K", "assumed", "a washer of steel")
    if "job.head.boss" in book:
        book.add("joint.boss", lengths.as_given, length="job.head.boss")
    elif job.head is not None and "stud.washer_outside" in book:
        outside = book["stud.washer_outside"].value
        book.enter("joint.boss", BOSS * outside, "mm", "assumed", "no boss given: 1.5 times the washer")


def _face(book: Book) -> tuple[bool, str]:
    """Tell whether the raised face ends inside the studs; and what metal it has round them where it does not."""
    face, hole = face_of(book), "gasket.hole_diameter"
    if not book.has(face, hole, "joint.reach"):
        return False, ""
    if book[face].value < 2 * book["joint.reach"].value + book[hole].value:
        return True, ""
    book.add("joint.face_room", relation.room_in_face, face=face, reach="joint.reach")
    within = book.has("joint.boss") and book["joint.face_room"].value < book["joint.boss"].value
    return False, "joint.face_room" if within else ""


def _ring(book: Book, layer: str) -> None:
    """Add what a layer gives that is pressed inside the studs."""
    thickness, _, _, modulus = LAYERS[layer]
    ring = {"thickness": thickness, "area": "gasket.pressed_each", "modulus": modulus}
    book.add(f"joint.{layer}_compliance", relation.ring_compliance, **ring)


def _layer(book: Book, layer: str, above: str, reached: str | float, narrower: str = "") -> None:
    """Add what a layer gives that is pressed round the stud: by the metal that is there, or less."""
    thickness, hole, metal, modulus = LAYERS[layer]
    metal = narrower or metal
    name = f"joint.{layer}"
    book.add(f"{name}_limit", relation.metal_round, metal=metal, hole=hole)
    book.add(f"{name}_cone_start", relation.cone_start, above=above, length=reached, hole=hole)
    cone = {"start": f"{name}_cone_start", "thickness": thickness, "limit": f"{name}_limit"}
    book.add(f"{name}_cone_length", relation.cone_length, **cone)
    book.add(
        f"{name}_compliance",
        relation.layer_compliance,
        **cone,
        length=f"{name}_cone_length",
        hole=hole,
        modulus=modulus,
    )


def size_limits(book: Book, job: Job) -> None:
    """Add what the joint stands and loses, whatever its preload; needs the rise by heat."""
    _strength(book)
    tightening.enter_scatter(book, job)
    hot.add_proof_left(book)
    size_settling(book, job)
    book.add("joint.tightening_limit", relation.tightening_preload, **THREAD, **TIGHTENED)
    book.add("joint.opening_force", relation.opening_force, share="joint.stiffness_share", gas="joint.gas_force_each")
    if job.stud is not None:
        _under_the_nut(book, job.stud)


def size_preload(book: Book, job: Job) -> None:
    """Add the preload by its share, its torque, and what it leaves."""
    share = "job.stud.preload_share"
    if share in book:
        book["joint.preload_share"] = book.made.get("joint.preload_share", book[share])
    else:
        book.lacks("joint.preload_share", share)
    book.add("joint.preload", relation.preload, share="joint.preload_share", proof_load="joint.proof_load")
    book.add("joint.textbook_preload", relation.preload, share=0.75, proof_load="joint.proof_load")
    _torque(book)
    _extremes(book)
    _margins(book)
    _pressures(book)
    if job.stud is not None and job.stud.nut_end.family == "metric":
        _widest_hole(book, job.stud.nut_end.nominal)
    book.add("joint.head_float", relation.head_float, hole="job.head.hole_diameter", stud="stud.nut_end_nominal")


def _widest_hole(book: Book, nominal: float) -> None:
    """Add the widest hole that the standard has for a stud."""
    with suppress(ValueError):  # a thread that the standard does not list
        widest = tables.clearance_hole(nominal, "coarse")
        book.enter("joint.widest_hole", widest.value, "mm", widest.status, widest.source)


def _strength(book: Book) -> None:
    if "stud.proof_stress" in book:
        book.add("joint.proof_stress", relation.certified, stress="stud.proof_stress")
    else:
        book.add("joint.proof_stress", relation.proof_from_yield, yield_strength="stud.yield_strength")
    book.add("joint.proof_load", relation.proof_load, stress="joint.proof_stress", area="stud.weakest_area")
    book.add("joint.breaking_load", relation.breaking_load, strength="stud.tensile_strength", area="stud.weakest_area")


TIGHTENED = {"yield_strength": "stud.yield_strength", "area": "stud.weakest_area"}
THREAD = {
    "pitch": "stud.nut_end_pitch",
    "pitch_diameter": "stud.nut_end_pitch_diameter_basic",
    "half_angle": "stud.nut_end_half_angle",
    "friction": "job.stud.friction",
}


def _torque(book: Book) -> None:
    face, preload, nominal = "joint.friction_diameter", "joint.preload", "stud.nut_end_nominal"
    book.add(face, relation.friction_diameter, bearing="stud.nut_bearing", inside="stud.washer_inside")
    book.add("joint.torque", relation.torque, preload=preload, **THREAD, friction_diameter=face)
    book.add("joint.nut_factor", relation.nut_factor, torque="joint.torque", preload=preload, nominal=nominal)
    source = "Shigley, Mechanical Engineering Design, table 8-15: lubricated"
    book.enter("joint.table_factor", LUBRICATED, "1", "memory", source)
    book.add(
        "joint.torque_by_factor",
        relation.torque_by_factor,
        factor="joint.table_factor",
        preload=preload,
        nominal=nominal,
    )


def _extremes(book: Book) -> None:
    nominal = {"scatter": "joint.scatter", "nominal": "joint.preload"}
    book.add("joint.hardest_preload", relation.hardest_preload, **nominal)
    book.add("joint.least_preload", relation.least_preload, **nominal)
    book.add(
        "joint.greatest_preload",
        relation.greatest_preload,
        hardest="joint.hardest_preload",
        rise="hot.greatest_rise",
        share="joint.stiffness_share",
        gas="joint.gas_force_each",
    )


def _margins(book: Book) -> None:
    gas = {"share": "joint.stiffness_share", "gas": "joint.gas_force_each"}
    proof = {"proof_load": "joint.proof_load"}
    book.add("joint.separation_factor", relation.separation_factor, preload="joint.preload", **gas)
    book.add("joint.load_factor", relation.load_factor, preload="joint.preload", **proof, **gas)
    book.add("joint.fatigue_amplitude", relation.fatigue_amplitude, **gas, area="stud.weakest_area")
    book.add("joint.fatigue_limit", relation.fatigue_limit, nominal="stud.widest_thread")
    book.add(
        "joint.tightening_use", relation.share_used, load="joint.hardest_preload", proof_load="joint.tightening_limit"
    )


def _pressures(book: Book) -> None:
    """Add the pressures on washer and head."""
    for face in ("washer", "nut"):
        pressed = {"force": "joint.greatest_preload", "area": f"joint.{face}_area"}
        book.add(f"joint.{face}_pressure", relation.face_pressure, **pressed)


def _under_the_nut(book: Book, stud: Stud) -> None:
    """Add what washer and head bear on, and what the nut's class stands."""
    outside, inside = "stud.washer_outside", "stud.washer_inside"
    if book.has(outside, "joint.boss") and book["joint.boss"].value < book[outside].value:
        outside = "joint.boss"  # no metal bears beyond it
    book.add("joint.washer_area", relation.washer_area, outside=outside, hole="job.head.hole_diameter", inside=inside)
    book.add("joint.nut_area", relation.washer_area, outside="stud.nut_bearing", hole=inside, inside=inside)
    usual = NUT_CLASS.get(stud.nut_end.family, 5.0)
    _from_name(book, "stud.nut_class", stud.nut.name if stud.nut else "", r"class (\d+)", usual)
    if stud.washer and stud.washer.name == TURNED:
        book.add("stud.washer_hardness", hardness, strength="turned_washer.tensile_strength")
    else:
        name = stud.washer.name if stud.washer else ""
        _from_name(book, "stud.washer_hardness", name, r"(\d+) HV", WASHER_HARDNESS)
    book.add("joint.washer_strength", relation.hard_as, hardness="stud.washer_hardness")
    book.add("joint.nut_proof_load", relation.nut_proof_load, number="stud.nut_class", area="stud.stress_area")


def _from_name(book: Book, name: str, designation: str, pattern: str, usual: float) -> None:
    """Enter a class or hardness that stands in a designation, else the usual one as assumed."""
    found = re.search(pattern, designation)
    if found:
        book.enter(name, float(found[1]), "1", "given", f"job file: {designation}")
    else:
        book.enter(name, usual, "1", "assumed", "not in the name of the part: the lowest that is usual")
