"""The plug held: by a press fit after Lame, cold and hot; by a bond with safety for heat, gap and surface."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.relations import press as relation

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

HEAT = "job.engine.hot.barrel"
LIMITS = {"greatest": "max", "least": "min"}  # interference -> ending of its name


def size_hold(book: Book, job: Job) -> None:
    """Add what holds the plug against the gas; needs the plug's sizes and the metal round its hole."""
    if job.plug is None:
        return
    if job.plug.fit == "bonded":
        safety = {part: f"job.plug.safety_{part}" for part in ("heat", "gap", "surface")}
        book.add("plug.allowed_force", relation.allowed_force, hold="plug.hold_force", **safety)
        book.add("plug.bond_reserve", relation.hold_times, hold="plug.allowed_force", gas="plug.gas_force")
        return
    _wall(book, job)
    book.add("plug.collar", relation.collar, hole="plug.hole_min", wall="plug.wall")
    for which, end in LIMITS.items():
        _pressures(book, which, f"plug.interference_{end}")
    _iron(book, job)
    _push_out(book)


def _wall(book: Book, job: Job) -> None:
    """Add the thinnest metal next to the plug's hole."""
    if job.plug is None or job.plug.passage is None or job.barrel is None:
        book.lacks("plug.wall", "job.plug.passage")
        return
    number = [p.name for p in job.barrel.passages].index(job.plug.passage)
    metal = {kind: f"deck.passage.{number}.to_{kind}" for kind in ("bore", "edge", "hole")}
    known = {kind: name for kind, name in metal.items() if name in book}
    if known:
        book.add("plug.wall", relation.thinnest, **known)
    else:
        book.lacks("plug.wall", "job.barrel.outline")


def _pressures(book: Book, which: str, interference: str) -> None:
    """Add the pressure at one limit of the fit, cold and hot."""
    hot = f"{interference}_hot"
    book.add(
        hot,
        relation.hot_interference,
        cold=interference,
        diameter="plug.hole_min",
        plug="plug.expansion",
        iron="barrel.expansion",
        temperature=HEAT,
    )
    inside: str | float = "plug.extraction.nominal" if "plug.extraction.nominal" in book else 0.0
    for state, fit in (("cold", interference), ("hot", hot)):
        book.add(
            f"plug.pressure_{which}_{state}",
            relation.fit_pressure,
            interference=fit,
            diameter="plug.hole_min",
            outside="plug.collar",
            outer_modulus="barrel.modulus",
            outer_poisson="barrel.poisson",
            inside=inside,
            inner_modulus="plug.modulus",
            inner_poisson="plug.poisson",
        )


def _iron(book: Book, job: Job) -> None:
    """Add the stress that would split the iron, and its strength at a wall of that thickness."""
    pressures = {state: f"plug.pressure_greatest_{state}" for state in ("cold", "hot")}
    pressures = {state: name for state, name in pressures.items() if name in book}
    worst = {"cold": pressures.get("cold", "plug.pressure_greatest_cold")}
    worst["hot"] = pressures.get("hot", worst["cold"])
    book.add("plug.pressure_worst", relation.larger, **worst)
    book.add(
        "plug.hoop_stress",
        relation.hoop_stress,
        pressure="plug.pressure_worst",
        outside="plug.collar",
        diameter="plug.hole_min",
    )
    _strength(book, job)
    book.add("plug.hoop_share", relation.stress_share, stress="plug.hoop_stress", strength="plug.iron_strength")


def _strength(book: Book, job: Job) -> None:
    spec = job.barrel.material if job.barrel else None
    if "job.barrel.material.tensile_strength" in book:
        own = book["job.barrel.material.tensile_strength"]
        book.enter("plug.iron_strength", own.value, "MPa", "given", "job file")
    elif spec is not None and spec.name in tables.material_names() and "plug.wall" in book:
        figure = tables.material(spec.name).figure("tensile", section=max(book["plug.wall"].value, 0.0))
        if figure:
            book.enter("plug.iron_strength", figure.value, "MPa", figure.status, f"{spec.name}: {figure.source}")
    if "plug.iron_strength" not in book:
        book.lacks("plug.iron_strength", "job.barrel.material.tensile_strength")


def _push_out(book: Book) -> None:
    """Add the force that pushes the loosest plug out, cold and hot."""
    states = [s for s in ("cold", "hot") if f"plug.pressure_least_{s}" in book] or ["cold"]
    for state in states:
        book.add(
            f"plug.push_out_{state}",
            relation.push_out_force,
            pressure=f"plug.pressure_least_{state}",
            diameter="plug.hole_min",
            length="plug.length",
            friction="job.plug.friction",
        )
    least = {"cold": f"plug.push_out_{states[0]}", "hot": f"plug.push_out_{states[-1]}"}
    book.add("plug.push_out_force", relation.smaller, **least)
    book.add("plug.push_out_times", relation.hold_times, hold="plug.push_out_force", gas="plug.gas_force")
