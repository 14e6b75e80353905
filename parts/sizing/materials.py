"""What a part's material can do, from the user's own values or from the table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job.models import MaterialSpec

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
OTHER = ("kc11", "mc", "gasket_m", "gasket_y")


def enter_material(
    book: Book, prefix: str, spec: MaterialSpec | None, *, diameter: float | None = None, section: float | None = None
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
    """
    for size in (*PROPERTIES, *OTHER):
        book.comes_from[f"{prefix}.{size}"] = f"job.{prefix}.material" + (
            f".{size}" if spec and size in PROPERTIES else ""
        )
    if spec is None:
        return
    known = tables.material(spec.name) if spec.name in tables.material_names() else None
    for size, prop in {**PROPERTIES, **{o: o for o in OTHER}}.items():
        own = f"job.{prefix}.material.{size}"
        if own in book:
            book.enter(
                f"{prefix}.{size}", book[own].value, book[own].unit, "given", "job file", spread=book[own].spread
            )
        elif known and (figure := known.figure(prop, diameter=diameter, section=section)):
            book.enter(f"{prefix}.{size}", figure.value, figure.unit, figure.status, f"{spec.name}: {figure.source}")
