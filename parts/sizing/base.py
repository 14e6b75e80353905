"""The joint of the barrel on the crankcase: its force, its heat, and what the head's joint has no like of.

All else is done by what sizes the head's joint, in the view of BaseJoint: flange for head, crankcase for barrel.

The force is the head's own. The gas also presses on what of the deck lies inside the gasket, so that truly the bore's
area pulls at the foot: less, on the safe side. The piston's side thrust, which tilts the barrel, is not in it.

Through studs clamp head, gasket, barrel and gasket in series, one spring against all of them. Cones of pressure end in
the head; from there the barrel's round wall is a column, each stud's share of it. [stud] tells of their threads, and of
their insert or engagement in the crankcase. The head's own joint is still that of [stud] ending in the barrel, a
shorter spring, and another metal round its thread: the finding joint.crankcase says so.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.book import Entry, docstring_record
from parts.relations import base as relation
from parts.relations import hot as heat
from parts.relations import joint as joints
from parts.relations import stud as lengths
from parts.sizing.hot import FROST, STATES, add_extremes
from parts.sizing.joint import SEALS_ON, STEEL, add_shares, add_studs
from parts.sizing.materials import enter_castings, enter_material
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def size_base(book: Book, job: Job) -> None:
    """Add the force on the joint, what heat it sees, and the height that through studs clamp."""
    if job.base is None:
        return
    on = next((n for n in (SEALS_ON, "gasket.bore_diameter") if n in book), "job.engine.bore")
    book.add("base.gas_force", joints.gas_force, diameter=on, pressure="job.engine.peak_pressure")
    for state in STATES.values():
        flange = f"job.engine.{state}.barrel"
        lags = job.base.through or state == "run_up"
        _warm(book, state, "flange", flange)
        _warm(book, state, "crankcase", flange, of="flange")
        _warm(book, state, "stud", f"job.engine.{state}.stud" if lags else flange)
    if job.base.through:
        stack = {"head": "job.head.thickness", "gasket": "job.gasket.thickness", "barrel": "job.base.length"}
        book.add("base.height", relation.stack_height, **stack)


def _warm(book: Book, state: str, at: str, else_from: str, of: str = "") -> None:
    """Add a temperature at the foot: as given, else the barrel's at the deck; studs lag in the run-up."""
    name, given = f"base.heat.{state}.{at}", f"job.base.{state}.{of or at}"
    if given not in book and else_from not in book:
        if state == "hot":
            book.lacks(name, else_from)
        return
    equation, unit, source = docstring_record(relation.as_warm)
    status, source = ("computed", "[base]") if given in book else ("assumed", source)
    there = given if given in book else else_from
    inputs, value = {"temperature": there}, book[there].value
    book[name] = Entry(value, unit, status, source, equation, inputs, 0.0, relation.as_warm)


def size_under(book: Book, job: Job) -> None:
    """Add what the gasket, the crankcase and the flange are made of, and where the gasket seals."""
    if job.base is not None and job.base.through:
        enter_material(book, "barrel", job.base.into, section=job.base.depth)
    else:
        enter_castings(book, job)
    if job.gasket is None:
        modulus, expansion = STEEL
        source = "no gasket given: metal on metal"
        book.enter("base.no_gasket", 0.0, "mm", "assumed", source)
        book.enter("gasket.modulus", modulus, "MPa", "assumed", source)
        book.enter("gasket.expansion", expansion, "1/K", "assumed", source)
        return
    enter_material(book, "gasket", job.gasket.material)
    book.comes_from["gasket.area"] = "job.head.joint_face"
    book.add("gasket.bore_diameter", lengths.as_given, length="job.gasket.bore")


def size_share(book: Book, job: Job) -> None:
    """Add what of the force each stud takes: they are all of one kind, springs as stiff as each other."""
    add_studs(book, job)
    springs: dict[str, str | float] = {}
    for n in book.numbers("deck.hole"):
        springs |= {f"x_{n}": f"deck.hole.{n}.x", f"y_{n}": f"deck.hole.{n}.y", f"spring_{n}": 1.0}
    add_shares(book, job, springs)


def size_series(book: Book, job: Job) -> None:
    """Add the stiffness and the rise by heat of the whole series, where the studs go through."""
    if job.base is None or not job.base.through:
        return
    first: str | float = "base.insert.set_down" if "base.insert.nominal" in book else 0.0
    foot = {"outside": "job.base.gasket.outside", "bore": "job.base.gasket.bore"}
    wall = {"outside": "job.base.wall", "bore": "job.engine.bore"}
    layers: dict[str, tuple[str | float, str, dict[str, str]]] = {  # length, what its sizes begin with, its section
        "body": ("job.base.length", "barrel", wall),
        "gasket": ("job.base.gasket.thickness", "base.gasket", foot) if job.base.gasket else (0.0, "base.gasket", wall),
        "crankcase": (first, "base.crankcase", wall),
    }
    for layer, (length, metal, ring) in layers.items():
        area, name = f"base.{layer}_area", f"base.{layer}_compliance"
        book.add(area, relation.ring_area_each, **ring, count="joint.studs")
        book.add(name, lengths.bar_compliance, length=length, modulus=f"{metal}.modulus", area=area)
    above = {layer: f"joint.{layer}_compliance" for layer in ("washer", "head")}
    above |= {"head_gasket": "joint.gasket_compliance", **{layer: f"base.{layer}_compliance" for layer in layers}}
    clamped, stud = "base.clamped_stiffness", "base.stud.stiffness"
    book.add(clamped, relation.series_stiffness, **above)
    book.add("base.stiffness_share", joints.stiffness_share, stud=stud, clamped=clamped)
    book.add("base.hot.stud_length", heat.stud_length, above="base.stud.nut_face", below=first)
    states = [s for s, table in STATES.items() if s == "run_in" or f"job.engine.{table}.head" in book]
    lying = {layer: (length, metal) for layer, (length, metal, _) in layers.items()}
    for state in states:
        _grown(book, state, lying, f"base.heat.{STATES[state]}", f"job.engine.{STATES[state]}.barrel")
    for at in ("flange", "crankcase", "stud"):
        book.enter(f"base.heat.frost.{at}", FROST, "degC", "assumed", f"started on a winter's morning: {PRACTICE}")
    _grown(book, "cold_start", lying, "base.heat.frost", "hot.frost.barrel")
    add_extremes(book, states, "base.hot")


def _grown(book: Book, state: str, layers: dict[str, tuple[str | float, str]], there: str, deck: str) -> None:
    """Add the rise of the through studs' load in one state: the barrel is as warm as the middle of its two ends."""
    name = f"base.hot.{state}"
    middle = {"head": deck, "barrel": f"{there}.flange"}
    book.add(f"{name}.body_temperature", heat.between, **middle)
    warm = {"body": f"{name}.body_temperature", "gasket": f"{there}.flange", "crankcase": f"{there}.crankcase"}
    for layer, (length, metal) in layers.items():
        own = {"length": length, "expansion": f"{metal}.expansion", "temperature": warm[layer]}
        book.add(f"{name}.{layer}", heat.growth, **own)
    above = {"washer": f"hot.{state}.washer", "head": f"hot.{state}.head", "head_gasket": f"hot.{state}.gasket"}
    book.add(f"{name}.parts", relation.series_growth, **above, **{layer: f"{name}.{layer}" for layer in layers})
    stud = {"length": "base.hot.stud_length", "expansion": "base.stud.expansion", "temperature": f"{there}.stud"}
    book.add(f"{name}.stud", heat.growth, **stud)
    stiff = {"stud_stiffness": "base.stud.stiffness", "clamped_stiffness": "base.clamped_stiffness"}
    book.add(f"{name}.rise", heat.rise, parts=f"{name}.parts", stud=f"{name}.stud", **stiff)
