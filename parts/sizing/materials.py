"""What a part's material can do, from the user's own values or from the table."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from parts import tables
from parts.job.material_models import WorkshopMaterial
from parts.relations import hot

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.material_models import MaterialSpec
    from parts.tables import Figure

PROPERTIES = {  # name of the size -> name in the table
    "modulus": "modulus",
    "poisson": "poisson",
    "expansion": "expansion",
    "density": "density",
    "yield_strength": "yield",
    "tensile_strength": "tensile",
    "bending_strength": "bending",
    "proof_stress": "proof",
    "bearing": "bearing",
}
KEPT = 256
PLASTIC = 20_000.0  # MPa, a modulus that no metal for a part or a tool lies under
OTHER = ("kc11", "mc", "gasket_m", "gasket_y")
ALL = {**PROPERTIES, **{name: name for name in OTHER}}


@lru_cache(None)
def _keys(prefix: str, key: str, *, given: bool) -> dict[str, str]:
    """Key that would give each property: of the material's table where there is one."""
    return {f"{prefix}.{p}": f"{key}.{p}" if given and p in PROPERTIES else key for p in (*PROPERTIES, *OTHER)}


def enter_material(
    book: Book,
    prefix: str,
    spec: MaterialSpec | None,
    *,
    diameter: float | None = None,
    section: float | None = None,
    table: str | None = None,
) -> None:
    """Enter `{prefix}.modulus`, `.expansion`, ...: the user's value where there is one, else the table's.

    Parameters
    ----------
    book : Book
        Takes the values
    prefix : str
        The part, "stud"
    spec : MaterialSpec or None
        None leaves everything out
    diameter : float, optional
        Of the bar [mm]: strength goes by it
    section : float, optional
        Wall of the casting [mm]: strength goes by it
    table : str, optional
        Where the material stands in the job, "barrel.liner"; else under the part's own name
    """
    key = f"job.{table or prefix}.material"
    book.comes_from.update(_keys(prefix, key, given=spec is not None))
    if spec is None:
        return
    known = _known(spec.name, diameter, section)
    for size, prop in ALL.items():
        own = book.get(f"{key}.{size}")
        if own is not None:
            status, source = ("assumed", own.source) if own.status == "assumed" else ("given", "job file")
            book.enter(f"{prefix}.{size}", own.value, own.unit, status, source, spread=own.spread)
        elif size in known:
            status, source = told(spec, known[size], prop, diameter=diameter, section=section)
            book.enter(f"{prefix}.{size}", known[size].value, known[size].unit, status, source)
            if ends := _meant(spec, prop, diameter=diameter, section=section):
                book.meant[f"{prefix}.{size}"] = [*ends]


def told(
    spec: MaterialSpec, figure: Figure, prop: str, *, diameter: float | None = None, section: float | None = None
) -> tuple[str, str]:
    """Status and source of a figure of the table; of a material by a word of the workshop, with what it could be."""
    if not isinstance(spec, WorkshopMaterial):
        return figure.status, f"{spec.name}: {figure.source}"
    ends = _meant(spec, prop, diameter=diameter, section=section)
    span = f" of {ends[0]:.4g} to {ends[1]:.4g}" if ends else ""
    return "assumed", f"{spec.label}{span}: {figure.source}"


def _meant(
    spec: MaterialSpec, prop: str, *, diameter: float | None, section: float | None
) -> tuple[float, float] | None:
    """Between what a property lies that a word of the workshop stands for; None where there is no between."""
    if not isinstance(spec, WorkshopMaterial):
        return None
    ends = tables.meant_range((spec.name, spec.to), prop, diameter=diameter, section=section)
    return ends if ends and ends[0] < ends[1] else None


def is_plastic(book: Book, part: str) -> bool:
    """Tell whether a part is of plastic, and so printed: by its modulus."""
    return f"{part}.modulus" in book and bool(book[f"{part}.modulus"].value < PLASTIC)


def metals(spec: MaterialSpec | None) -> tuple[str, ...]:
    """What metals a material could be: judged is the weakest of them. Every metal where nothing is known of it."""
    return (spec.families if spec else ()) or tables.families_like(None, None)


def unnamed(spec: MaterialSpec | None) -> bool:
    """Whether a material is of no one family, by its name, its family or its values."""
    return len(metals(spec)) != 1


def add_hot_share(
    book: Book, name: str, spec: MaterialSpec | None, temperature: str, *, strength: str, exposure: str = "long"
) -> None:
    """Add what heat leaves of a strength at a temperature of the book: the least of the table's range, interpolated.

    Parameters
    ----------
    book : Book
        Takes the share, and the two rows of the table as name_cooler and name_hotter
    name : str
        Of the share
    spec : MaterialSpec or None
        The material; of several metals that it could be the weakest counts
    temperature : str
        Name of the temperature
    strength, exposure : str
        "yield" or "tensile"; "short" or "long"
    """
    if temperature not in book:
        book.lacks(name, temperature)
        return
    own = tables.hot_metal(spec.name) if spec else None
    rows = tables.hot_between((own,) if own else metals(spec), strength, exposure, book[temperature].value)
    ends = (("cooler", "before"), ("hotter", "after"))
    inputs: dict[str, str | float] = {}
    for (at, left), (end, argument) in zip(rows, ends, strict=True):
        book.enter(f"{name}_{end}", left.value, "1", left.status, f"{left.source}, at {at:g} degC")
        inputs |= {end: at, argument: f"{name}_{end}"}
    book.add(name, hot.share_between, temperature=temperature, **inputs)


def enter_castings(book: Book, job: Job) -> None:
    """Enter the materials of barrel and head."""
    barrel, head = job.barrel, job.head
    enter_material(book, "barrel", barrel.material if barrel else None, section=barrel.deck_depth if barrel else None)
    enter_material(book, "head", head.material if head else None)


@lru_cache(KEPT)
def _known(name: str, diameter: float | None, section: float | None) -> dict[str, Figure]:
    """What the table has of a material, at this diameter or wall."""
    if name not in tables.material_names():
        return {}
    material = tables.material(name)
    found = {size: material.figure(prop, diameter=diameter, section=section) for size, prop in ALL.items()}
    return {size: figure for size, figure in found.items() if figure}
