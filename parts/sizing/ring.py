"""The piston ring: blank, gap, tension, stresses and clearances, by closed forms."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.job.part_models import NO_TRIAL, SET_FRACTION
from parts.relations import ring as relation
from parts.relations import stud as lengths
from parts.sizing.materials import enter_material
from parts.sizing.ring_design import add_blank, design_ring

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def size_ring(book: Book, job: Job) -> None:
    """Add the ring's sizes."""
    if job.ring is None:
        book.lacks("ring.outside_diameter", "job.ring.radial_thickness")
        return
    enter_material(book, "ring", job.ring.material)
    if job.mandrel is not None:
        _set_fraction(book)
    design_ring(book, job)
    _blank(book)
    _mechanics(book)
    _clearances(book)


def _set_fraction(book: Book) -> None:
    """Enter how much of the opening the heat sets, where no trial ring has told."""
    share = "job.ring.heat_set.set_fraction"
    if share not in book:
        book.enter(share, SET_FRACTION, "1", "assumed", NO_TRIAL)


def _blank(book: Book) -> None:
    add_blank(book)
    split = {"slit": "job.ring.slit", "bore": "job.engine.bore", "outside": "ring.outside_diameter"}
    book.add("ring.closed_gap", relation.closed_gap, **split)
    book.add("ring.slenderness", relation.slenderness, bore="job.engine.bore", thickness="job.ring.radial_thickness")
    book.add(
        "ring.stock_length",
        relation.stock_length,
        count="job.ring.count",
        width="job.ring.axial_width",
        parting="job.ring.parting_tool",
        facing="job.ring.facing",
    )


def _mechanics(book: Book) -> None:
    bore, a, h, modulus = "job.engine.bore", "job.ring.radial_thickness", "job.ring.axial_width", "ring.modulus"
    book.add("ring.mean_radius", relation.mean_radius, bore=bore, thickness=a)
    book.add("ring.free_gap", lengths.as_given, length="job.ring.free_gap")
    book.add(
        "ring.first_parameter",
        relation.first_parameter,
        free_gap="ring.free_gap",
        closed_gap="ring.closed_gap",
        radius="ring.mean_radius",
    )
    book.add("ring.parameter", relation.parameter, first="ring.first_parameter")
    book.add("ring.second_moment", relation.second_moment, width=h, thickness=a)
    stiff = {"parameter": "ring.parameter", "modulus": modulus, "radius": "ring.mean_radius"}
    book.add("ring.tangential_force", relation.tangential_force, **stiff, moment="ring.second_moment")
    book.add("ring.contact_pressure", relation.contact_pressure, force="ring.tangential_force", bore=bore, width=h)
    book.add("ring.working_stress", relation.working_stress, **stiff, thickness=a)
    book.add(
        "ring.fitting_stress",
        relation.fitting_stress,
        modulus=modulus,
        thickness=a,
        free_gap="ring.free_gap",
        bore=bore,
    )
    book.add(
        "ring.fitting_share", relation.stress_share, stress="ring.fitting_stress", strength="ring.bending_strength"
    )
    book.add(
        "ring.tip_lean",
        relation.tip_lean,
        parameter="ring.parameter",
        closed_gap="ring.closed_gap",
        radius="ring.mean_radius",
        slit="job.ring.slit",
        outside="ring.outside_diameter",
        thickness=a,
    )
    book.add(
        "ring.free_gap_inside", relation.free_gap_inside, free_gap="ring.free_gap", thickness=a, lean="ring.tip_lean"
    )


def _clearances(book: Book) -> None:
    book.add(
        "ring.hot_gap",
        relation.hot_gap,
        closed="ring.closed_gap",
        bore="job.engine.bore",
        ring_expansion="ring.expansion",
        ring="job.engine.hot.ring",
        wall_expansion="liner.expansion" if "job.barrel.liner.outside" in book else "barrel.expansion",
        wall="job.engine.hot.bore_wall",
    )
    book.add(
        "ring.side_clearance", relation.side_clearance, groove="job.ring.groove.width", width="job.ring.axial_width"
    )
    book.add(
        "ring.back_clearance",
        relation.back_clearance,
        bore="job.engine.bore",
        root="job.ring.groove.root_diameter",
        thickness="job.ring.radial_thickness",
    )
