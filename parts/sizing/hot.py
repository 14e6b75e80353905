"""The joint hot: what each layer grows, what that does to the studs' load, what strength the head has left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import hot as relation
from parts.sizing.settling import size_losses
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

STATES = {"run_in": "hot", "run_up": "run_up", "hot_stop": "hot_stop"}  # state -> table under [engine]
COLD = 20.0
FROST = -10.0  # degC
LAYERS = {  # layer -> names of its length and expansion
    "washer": ("stud.washer_thickness", "joint.washer_expansion"),
    "head": ("job.head.thickness", "head.expansion"),
    "gasket": ("job.gasket.thickness", "gasket.expansion"),
    "barrel": ("joint.first_thread", "barrel.expansion"),
}


def size_heat(book: Book, job: Job) -> None:
    """Add the rise of the studs' load in each state that is given, and the head's strength in the hottest."""
    book.add("hot.stud_length", relation.stud_length, above="stud.nut_face", below="joint.first_thread")
    states = [s for s, table in STATES.items() if s == "run_in" or f"job.engine.{table}.head" in book]
    for state in states:
        _state(book, state, f"job.engine.{STATES[state]}")
    for part in ("head", "barrel", "stud"):
        book.enter(f"hot.frost.{part}", FROST, "degC", "assumed", f"started on a winter's morning: {PRACTICE}")
    _state(book, "cold_start", "hot.frost")
    add_extremes(book, states)
    _head_alloy(book, job, states)


def add_extremes(book: Book, states: list[str], name: str = "hot") -> None:
    """Add the greatest and the least rise of all states."""
    rises: dict[str, str | float] = {s: f"{name}.{s}.rise" if s in states else 0.0 for s in STATES}
    book.add(f"{name}.greatest_rise", relation.greatest, **rises)
    book.add(f"{name}.least_rise", relation.least, **rises)


def _state(book: Book, state: str, given: str) -> None:
    name = f"hot.{state}"
    book.add(f"{name}.gasket_temperature", relation.between, head=f"{given}.head", barrel=f"{given}.barrel")
    temperature = {
        "washer": f"{given}.head",
        "head": f"{given}.head",
        "gasket": f"{name}.gasket_temperature",
        "barrel": f"{given}.barrel",
    }
    for layer, (length, expansion) in LAYERS.items():
        book.add(f"{name}.{layer}", relation.growth, length=length, expansion=expansion, temperature=temperature[layer])
    book.add(f"{name}.parts", relation.whole_growth, **{layer: f"{name}.{layer}" for layer in LAYERS})
    stud = {"length": "hot.stud_length", "expansion": "stud.expansion", "temperature": f"{given}.stud"}
    book.add(f"{name}.stud", relation.growth, **stud)
    book.add(
        f"{name}.rise",
        relation.rise,
        parts=f"{name}.parts",
        stud=f"{name}.stud",
        stud_stiffness="stud.stiffness",
        clamped_stiffness="joint.clamped_stiffness",
    )


def _head_alloy(book: Book, job: Job, states: list[str]) -> None:
    """Add what pressure the head stands under the washers, hot."""
    if job.head is None or job.head.material is None:
        book.lacks("head.bearing_hot", "job.head.material")
        return
    heads: dict[str, str | float] = {s: f"job.engine.{t}.head" if s in states else COLD for s, t in STATES.items()}
    book.add("head.hottest", relation.hottest, **heads)
    if "head.bearing" in book:
        book.enter("head.bearing_share", 1.0, "1", "assumed", "the limiting pressure is taken as it stands hot")
    if "Al" in job.head.material.name or "alumin" in job.head.material.name:
        book.add("head.hot_share", relation.aluminium_share, temperature="head.hottest")
    else:
        book.enter("head.hot_share", 1.0, "1", "assumed", "iron and steel keep their strength to 250 degC")
    of_yield = {"strength": "head.yield_strength", "share": "head.hot_share"}
    of_bearing = {"strength": "head.bearing", "share": "head.bearing_share"}
    book.add("head.yield_hot", relation.hot_strength, **of_yield)
    book.add("head.bearing_hot", relation.hot_strength, **(of_bearing if "head.bearing" in book else of_yield))


def size_hot_preload(book: Book, job: Job) -> None:
    """Add the preload hot, and the least it may come to."""
    book.add("joint.hot_preload", relation.hot_preload, preload="joint.preload", rise="hot.run_in.rise")
    size_losses(book, job)
