"""The plug held: by a press fit after Lame, cold and hot; by a bond with safety for heat, gap and surface."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.job.models import HEATS
from parts.job.outline_models import Outline
from parts.relations import as_made, plug
from parts.relations import press as relation
from parts.relations.outlines import reaches_under
from parts.sizing.hot import FROST
from parts.sizing.materials import told
from parts.sizing.plug import hole_name
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

STIFFNESS = "plug.fit_stiffness"
LIMITS = {"greatest": "plug.interference_max", "least": "plug.interference_left"}
GROWTH, FROSTY = "plug.growth", "plug.frost"


def size_hold(book: Book, job: Job) -> None:
    """Add what holds the plug against the gas; needs the plug's sizes and the metal round its hole."""
    if job.plug is None:
        return
    _wall(book, job)
    _strength(book, job)
    _shoulder(book, job)
    _under_face(book, job)
    if job.plug.fit == "bonded":
        _grow(book, hole_name(job, job.plug))
        gap = {"clearance": "job.plug.bond_clearance", "growth": f"{GROWTH}_least"}
        book.add("plug.bond_gap_hot", plug.bond_gap_hot, **gap)
        safety = {part: f"job.plug.safety_{part}" for part in ("heat", "gap", "surface")}
        book.add("plug.allowed_force", relation.allowed_force, hold="plug.hold_force", **safety)
        _held(book, "plug.allowed_force", "plug.bond_reserve")
        return
    book.add("plug.collar", relation.collar, hole="plug.hole_min", wall="plug.wall")
    book.add(STIFFNESS, relation.fit_pressure, interference=1.0, **_bodies(book))
    states = _grow(book, "plug.hole_min")
    for which, interference in LIMITS.items():
        _pressures(book, which, interference, states)
    _iron(book, states)
    _push_out(book, states)
    _window(book)


def _wall(book: Book, job: Job) -> None:
    """Add the thinnest metal next to the plug's hole."""
    if job.plug is None or job.plug.passage is None or job.barrel is None:
        book.lacks("plug.wall", "job.plug.passage")
        return
    number = [p.name for p in job.barrel.passages].index(job.plug.passage)
    metal = {kind: f"deck.passage.{number}.to_{kind}" for kind in ("bore", "edge", "hole")}
    known = {kind: name for kind, name in metal.items() if name in book}
    if "edge" in known:
        book.add("plug.wall", relation.thinnest, **known)
    else:
        book.lacks("plug.wall", "job.barrel.outline")


def hot_states(book: Book) -> list[str]:
    """States of heat that the job gives the barrel's temperature of."""
    return [state for state in HEATS if f"job.engine.{state}.barrel" in book]


def _grow(book: Book, hole: str) -> list[str]:
    """Add how much the fit tightens in each hot state, and in frost, which shrinks a light metal on it."""
    states = hot_states(book)
    growth = {"diameter": hole, "plug": "plug.expansion", "iron": "barrel.expansion"}
    if states:
        book.enter(FROSTY, FROST, "degC", "assumed", f"started on a winter's morning: {PRACTICE}")
        states = [*states, "frost"]
    for state in states or ["hot"]:
        heat = FROSTY if state == "frost" else f"job.engine.{state}.barrel"
        book.add(f"{GROWTH}_{state}", relation.hot_interference, cold=0.0, **growth, temperature=heat)
    known = {state: f"{GROWTH}_{state}" for state in states if f"{GROWTH}_{state}" in book}
    if known:
        book.add(f"{GROWTH}_most", relation.most_growth, **known)
        book.add(f"{GROWTH}_least", relation.least_growth, **known)
    else:
        book.lacks(f"{GROWTH}_least", f"{GROWTH}_{(states or ['hot'])[0]}")
    return ["cold", *known]


def _bodies(book: Book) -> dict[str, str | float]:
    """Names of both bodies' sizes and stiffness, as the fit's pressure wants them."""
    inside: str | float = "plug.extraction.nominal" if "plug.extraction.nominal" in book else 0.0
    outer = {"outside": "plug.collar", "outer_modulus": "barrel.modulus", "outer_poisson": "barrel.poisson"}
    inner = {"inside": inside, "inner_modulus": "plug.modulus", "inner_poisson": "plug.poisson"}
    return {"diameter": "plug.hole_min", **outer, **inner}


def _pressures(book: Book, which: str, interference: str, states: list[str]) -> None:
    """Add the pressure at one limit of the fit, in every state."""
    for state in states:
        fit = interference if state == "cold" else f"{interference}_{state}"
        if state != "cold":
            book.add(fit, relation.held_by_both, fit=interference, shoulder=f"{GROWTH}_{state}")
        book.add(f"plug.pressure_{which}_{state}", relation.fit_pressure, interference=fit, **_bodies(book))


def _iron(book: Book, states: list[str]) -> None:
    """Add the stress that would split the iron, its strength at a wall of that thickness, and that of the plug."""
    worst = "plug.pressure_worst"
    book.add(worst, relation.greatest_of, **{state: f"plug.pressure_greatest_{state}" for state in states})
    fit = {"pressure": worst, "diameter": "plug.hole_min"}
    book.add("plug.hoop_stress", relation.hoop_stress, outside="plug.collar", **fit)
    book.add("plug.hoop_share", relation.stress_share, stress="plug.hoop_stress", strength="plug.iron_strength")
    book.add("plug.own_stress", relation.plug_stress, **fit, inside=_bodies(book)["inside"])
    book.add("plug.own_share", relation.stress_share, stress="plug.own_stress", strength="plug.yield_strength")


def _strength(book: Book, job: Job) -> None:
    """Add what the barrel's metal stands round the plug: of one that yields before it breaks, its yield strength.

    Iron has the strength of the section that it cooled in, the deck's: a wall that a drill leaves is no stronger.
    """
    spec = job.barrel.material if job.barrel else None
    name = "plug.iron_strength"
    yields = spec is not None and any(map(tables.bends, spec.families))
    if yields and "barrel.yield_strength" in book:
        found = book["barrel.yield_strength"]
        book.enter(name, found.value, "MPa", found.status, found.source)
    elif "job.barrel.material.tensile_strength" in book:
        own = book["job.barrel.material.tensile_strength"]
        book.enter(name, own.value, "MPa", "given", "job file")
    elif spec is not None and spec.name in tables.material_names() and "plug.wall" in book:
        section = max(book["plug.wall"].value, (job.barrel and job.barrel.deck_depth) or 0.0)
        figure = tables.material(spec.name).figure("tensile", section=float(section))
        if figure:
            book.enter(name, figure.value, "MPa", *told(spec, figure, "tensile", section=float(section)))
    if name not in book:
        book.lacks(name, "job.barrel.material.tensile_strength")


def _shoulder(book: Book, job: Job) -> None:
    """Add what the shoulder stands, where there is one."""
    if job.plug is None or job.plug.shoulder is None:
        return
    given = {part: f"job.plug.shoulder.{part}" for part in ("diameter", "thickness")}
    metals = {"plug": "plug.tensile_strength", "iron": "plug.iron_strength"}
    book.add("plug.shoulder_force", relation.shoulder_force, **given, hole=hole_name(job, job.plug), **metals)


def _under_face(book: Book, job: Job) -> None:
    """Add how far the passage reaches under the face that the head presses on."""
    if job.plug is None or job.plug.passage is None:
        return
    hole = hole_name(job, job.plug)
    radius = f"deck.passage.{hole.split('.')[3]}.radius"
    if job.head is not None and isinstance(job.head.joint_face, Outline):
        x, y = (f"{hole.removesuffix('diameter')}at.{axis}" for axis in (0, 1))
        book.add("plug.under_face", reaches_under(job.head.joint_face.loop()), x=x, y=y, diameter=hole)
    elif book.has(radius, "job.head.joint_face"):
        face = {"passage_radius": radius, "diameter": hole, "face": "job.head.joint_face"}
        book.add("plug.under_face", as_made.pressed_over, **face)


def _held(book: Book, fit: str, times: str) -> None:
    """Add what fit and shoulder hold together, and how many times over that is."""
    held = fit
    if "plug.shoulder_force" in book:
        held = "plug.held_force"
        book.add(held, relation.held_by_both, fit=fit, shoulder="plug.shoulder_force")
    book.add(times, relation.hold_times, hold=held, gas="plug.gas_force")


def _push_out(book: Book, states: list[str]) -> None:
    """Add the force that pushes the loosest plug out, in every state."""
    fit = {"diameter": "plug.hole_min", "length": "plug.length", "friction": "job.plug.friction"}
    for state in states:
        pressure = f"plug.pressure_least_{state}"
        book.add(f"plug.push_out_{state}", relation.push_out_force, pressure=pressure, **fit)
    book.add("plug.push_out_force", relation.least_of, **{state: f"plug.push_out_{state}" for state in states})
    _held(book, "plug.push_out_force", "plug.push_out_times")


def _window(book: Book) -> None:
    """Add between what interferences the plug both holds and leaves its hole whole."""
    fit = {"diameter": "plug.hole_min", "stiffness": STIFFNESS}
    shoulder: str | float = "plug.shoulder_force" if "plug.shoulder_force" in book else 0.0
    hold = {"gas": "plug.gas_force", "shoulder": shoulder, "length": "plug.length", "friction": "job.plug.friction"}
    least: str | float = f"{GROWTH}_least" if f"{GROWTH}_least" in book else 0.0
    most: str | float = f"{GROWTH}_most" if f"{GROWTH}_most" in book else 0.0
    wanted, allowed = "plug.interference_wanted", "plug.interference_allowed"
    book.add(wanted, relation.interference_wanted, **fit, **hold, loss="plug.smoothing", growth=least)
    iron = {"strength": "plug.iron_strength", "outside": "plug.collar"}
    book.add(allowed, relation.interference_allowed, **fit, **iron, growth=most)
