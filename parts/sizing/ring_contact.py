"""How the ring will press, by the contact solver: the form that the job asks for, and the others to compare.

The contoured form is taken with the ring's ends bound down to the seat. Where the slit is wider than the gap wanted,
the ends would otherwise lift off the seat a little before they end; what that costs stands under `ring.unbound.`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from parts.relations.ring_contact import FIGURES, PRESSED, figure_of

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.relations.contact import Pressed

NO_LIMITS = 0.0  # they bend at every change of contact, so that a slope says little of them


COMMON = {
    "bore": "job.engine.bore",
    "thickness": "job.ring.radial_thickness",
    "width": "job.ring.axial_width",
    "modulus": "ring.modulus",
    "outside": "ring.outside_diameter",
    "slit": "job.ring.slit",
    "set_fraction": "job.ring.heat_set.set_fraction",
    "pressure": "ring.contact_pressure",
}
OWN = {
    "contoured": {"free_gap": "job.ring.free_gap", "closed_gap": "ring.closed_gap"},
    "unbound": {"free_gap": "job.ring.free_gap", "closed_gap": "ring.closed_gap"},
    "pin": {"open_gap": "mandrel.open_gap"},
    "round": {"mandrel": "mandrel.diameter"},
}


def size_ring_contact(book: Book, job: Job) -> None:
    """Add how the ring presses: with the form that the job asks for, and for each form under `ring.<form>.`.

    Call it after ring and mandrel are sized.
    """
    if not book.contact:
        return
    form = None if job.mandrel is None else job.mandrel.form
    ends_meet = book.has("ring.closed_gap") and book["ring.closed_gap"].value < 0
    for figure in FIGURES:
        if form is None or ends_meet:
            book.lacks(f"ring.{figure}", "job.mandrel.form" if form is None else "ring.closed_gap")
            continue
        book.add(f"ring.{figure}", figure_of(form, figure), NO_LIMITS, **COMMON, **OWN[form])
        for other, own in OWN.items():
            book.add(f"ring.{other}.{figure}", figure_of(other, figure), NO_LIMITS, **COMMON, **own)


def pressure_curves(book: Book, job: Job) -> dict[str, Pressed]:
    """Pressure, light and forces round the bore for each form, to be plotted; empty where they can't be had.

    Parameters
    ----------
    book : Book
        With ring, mandrel and contact sized
    job : Job
        As read

    Returns
    -------
    curves : dict of Pressed
        By form, the one that the job asks for first
    """
    if job.mandrel is None:
        return {}
    asked = job.mandrel.form
    forms = sorted(OWN, key=lambda form: form != asked)
    return {form: _curve(book, form) for form in forms if f"ring.{form}.light_gap" in book}


def _curve(book: Book, form: str) -> Pressed:
    values: dict[str, Any] = {argument: book.number(name) for argument, name in {**COMMON, **OWN[form]}.items()}
    return PRESSED[form](**values)
