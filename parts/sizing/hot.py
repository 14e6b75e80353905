"""The joint hot: what each layer grows, what that does to the studs' load, what strength the head has left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.job.models import HEATS
from parts.relations import hot as relation
from parts.relations.joint import share_used
from parts.sizing.materials import add_hot_share
from parts.sizing.settling import size_losses
from parts.tables import PRACTICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.book import Book
    from parts.job import Job
    from parts.job.material_models import MaterialSpec

STATES = dict(zip(("run_in", "run_up", "hot_stop"), HEATS, strict=True))  # state -> table under [engine]
COLD = 20.0
HOT_CASTING = 200.0  # degC, of an air-cooled barrel whose heat is not given
FROST = -10.0  # degC
LAYERS = {  # layer -> names of its length and expansion
    "washer": ("stud.washer_thickness", "joint.washer_expansion"),
    "head": ("job.head.thickness", "head.expansion"),
    "gasket": ("job.gasket.thickness", "gasket.expansion"),
    "barrel": ("joint.first_thread", "barrel.expansion"),
}


def size_heat(book: Book, _: Job) -> None:
    """Add the rise of the studs' load in each state that is given."""
    book.add("hot.stud_length", relation.stud_length, above="stud.nut_face", below="joint.first_thread")
    states = [s for s, table in STATES.items() if f"job.engine.{table}.head" in book] or ["run_in"]
    if "run_in" not in states:
        book.lacks("hot.run_in.rise", "job.engine.hot.head")
    for state in states:
        _state(book, state, f"job.engine.{STATES[state]}")
    for part in ("head", "barrel", "stud"):
        book.enter(f"hot.frost.{part}", FROST, "degC", "assumed", f"started on a winter's morning: {PRACTICE}")
    _state(book, "cold_start", "hot.frost")
    add_extremes(book, states)


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


def size_strength(book: Book, job: Job) -> None:
    """Add what heat leaves of the studs in each state, of the head under the washers, and round the threads."""
    spec = job.stud.material if job.stud else None
    for state, table in STATES.items():
        if state == "run_in" or f"job.engine.{table}.stud" in book:
            heat = f"job.engine.{table}.stud"
            add_hot_share(book, f"hot.{state}.stud_share", spec, heat, strength="yield")
    add_hottest(book, "head")
    _head_alloy(book, job.head.material if job.head else None)


def size_thread_metal(book: Book, job: Job) -> None:
    """Add how hot the barrel gets, and what that leaves of the metal round the threads."""
    add_hottest(book, "barrel")
    add_thread_metal(book, "barrel", job.barrel.material if job.barrel else None)


def add_hottest(book: Book, part: str) -> None:
    """Add the greatest temperature of head or barrel in any state; a barrel is judged by what is known of it."""
    heats = {s: f"job.engine.{t}.{part}" for s, t in STATES.items()}
    need = [s for s, heat in heats.items() if heat in book] if part == "head" else []
    known: dict[str, str | float] = {
        s: h if h in book or (s == "run_in" and not need) else COLD for s, h in heats.items()
    }
    book.add(f"{part}.hottest", relation.hottest, **known)


def _head_alloy(book: Book, spec: MaterialSpec | None) -> None:
    if spec is None:
        book.lacks("head.bearing_hot", "job.head.material")
        return
    if "head.bearing" in book:
        book.enter("head.bearing_share", 1.0, "1", "assumed", "the limiting pressure is taken as it stands hot")
    add_hot_share(book, "head.hot_share", spec, "head.hottest", strength="yield")
    of_yield = {"strength": "head.yield_strength", "share": "head.hot_share"}
    of_bearing = {"strength": "head.bearing", "share": "head.bearing_share"}
    book.add("head.yield_hot", relation.hot_strength, **of_yield)
    book.add("head.bearing_hot", relation.hot_strength, **(of_bearing if "head.bearing" in book else of_yield))


def add_thread_metal(book: Book, part: str, spec: MaterialSpec | None) -> None:
    """Add the tensile strength that the metal round a thread has left: after half an hour's heat, and for good."""
    if spec is None:
        book.lacks(f"{part}.thread_strength", f"job.{part}.material")
        return
    if f"{part}.hottest" not in book:
        given = [book[n].value for t in STATES.values() if (n := f"job.engine.{t}.{part}") in book]
        told = f"no [engine.hot] given: {PRACTICE}{', or what is given of the rest' if given else ''}"
        book.enter(f"{part}.hottest", max([HOT_CASTING, *given]), "degC", "assumed", told)
    heat = f"{part}.hottest"
    cold = f"{part}.tensile_strength"
    for name, exposure in (("thread_strength_short", "short"), ("thread_strength", "long")):
        share = f"{part}.{name}_share"
        add_hot_share(book, share, spec, heat, strength="tensile", exposure=exposure)
        book.add(f"{part}.{name}", relation.hot_strength, strength=cold, share=share)


def add_proof_left(book: Book) -> None:
    """Add the proof load that heat leaves the stud in each state."""
    for state, _, kept in states_of(book):
        book.add(f"hot.{state}.proof_load", relation.proof_left, proof_load="joint.proof_load", share=kept)


def states_of(book: Book) -> Iterator[tuple[str, str | float, str | float]]:
    """State, rise of the load in it, and what it leaves of the stud's proof stress; cold is the first."""
    yield "cold", 0.0, 1.0
    for state in [s for s in STATES if f"hot.{s}.rise" in book] or ["run_in"]:
        yield state, f"hot.{state}.rise", f"hot.{state}.stud_share"


def size_hot_preload(book: Book, _job: Job) -> None:
    """Add the preload hot, the least it may come to, and how much of the stud's strength each state takes."""
    book.add("joint.hot_preload", relation.hot_preload, preload="joint.preload", rise="hot.run_in.rise")
    size_losses(book)
    uses: dict[str, str | float] = {}
    for state, rise, _ in states_of(book):
        name, uses[state] = f"hot.{state}", f"hot.{state}.proof_use"
        gas = {"share": "joint.stiffness_share", "gas": "joint.gas_force_each"}
        book.add(f"{name}.load", relation.load_in_state, hardest="joint.hardest_preload", rise=rise, **gas)
        book.add(f"{name}.proof_use", share_used, load=f"{name}.load", proof_load=f"{name}.proof_load")
    book.add("joint.proof_use", relation.greatest_use, **uses)
