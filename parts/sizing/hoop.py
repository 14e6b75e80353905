"""The hoop of wire that holds a ring's ends in on the contoured seat, where the saw is wider than the gap."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.job.material_models import MaterialSpec
from parts.relations import hoop as relation
from parts.sizing.clamp_plate import BOLT_STEEL
from parts.sizing.materials import add_hot_share
from parts.sizing.ring_design import slit_is_wide
from parts.sizing.ring_names import OWN, RING
from parts.tables import PRACTICE
from parts.units import INCH

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

NO_LIMITS = 0.0
WIRES = {  # system of the sheets -> soft iron wire as it is sold, the thickest first [mm]
    "metric": (2.0, 1.5, 1.2, 1.0, 0.8, 0.6, 0.5),
    "inch": tuple(gauge * INCH for gauge in (0.080, 0.064, 0.048, 0.040, 0.032, 0.024, 0.020)),
}
TURNS, LIES = 2.0, 0.4  # side by side on one ring, and no thicker in their twist: of the ring's height, each
STRENGTH = 180.0  # MPa, yield of annealed iron wire, from memory
FRICTION = 0.3


def times_round(book: Book) -> str:
    """How often a hoop goes round its ring, in words."""
    return f"{('once', 'twice')[int(book['mandrel.hoop_turns'].value) - 1]} round"


def hoop_is_needed(book: Book, job: Job) -> bool:
    """Whether the ends have to be held in: on a contoured seat, where the saw is wider than the gap."""
    mandrel = job.mandrel
    return bool(mandrel and mandrel.form == "contoured" and mandrel.purpose == "heat set" and slit_is_wide(book))


def size_hoop(book: Book, job: Job) -> None:
    """Add the wire, what it pulls in the oven, and how the ring then presses."""
    width = "job.ring.axial_width"
    if not hoop_is_needed(book, job) or width not in book:
        return
    some, most = WIRES[job.job.print_units], LIES * book[width].value
    wire = next((one for one in some if one <= most), some[-1])
    book.enter("mandrel.hoop_wire", wire, "mm", "assumed", f"the thickest whose turns lie on one ring: {PRACTICE}")
    book.enter("mandrel.hoop_turns", TURNS, "1", "assumed", PRACTICE)
    book.enter("mandrel.hoop_strength", STRENGTH, "MPa", "memory", "yield strength of annealed iron wire")
    book.enter("mandrel.hoop_friction", FRICTION, "1", "assumed", f"iron wire on turned iron, dry: {PRACTICE}")
    book.add("mandrel.hoop_length", relation.hoop_length, turns="mandrel.hoop_turns", flange="mandrel.flange_diameter")
    plain, oven = MaterialSpec(name=BOLT_STEEL), "job.ring.heat_set.temperature"
    add_hot_share(book, "mandrel.hoop_share", plain, oven, strength="yield")
    ends: dict[str, str | float] = {"tip_length": "mandrel.tip_length", "radius": "ring.mean_radius"}
    ends |= {"parameter": "ring.exact_parameter", "outside": "ring.outside_diameter"}
    ends |= {"thickness": "job.ring.radial_thickness", "set_fraction": "job.ring.heat_set.set_fraction"}
    book.add("mandrel.hoop_wrap", relation.hoop_wrap, **ends)
    pulled = {n: f"mandrel.hoop_{n}" for n in ("turns", "wire", "strength", "share", "friction", "wrap")}
    book.add("mandrel.hoop_pull", relation.hoop_pull, **pulled)
    if book.contact:
        own = {**RING, **OWN["contoured"], "pull": "mandrel.hoop_pull", "pressure": "ring.contact_pressure"}
        for figure in relation.FIGURES:
            book.add(f"ring.hooped.{figure}", relation.hooped_figure(figure), NO_LIMITS, **own)
