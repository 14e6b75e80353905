"""The mandrel that holds the ring open for the heat: contoured, pin or round."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations import mandrel as relation
from parts.relations.contour import exact_parameter, mandrel_profile
from parts.relations.stud import as_given
from parts.sizing.materials import enter_material

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def size_mandrel(book: Book, job: Job) -> None:
    """Add the sizes of all three forms, so that they can be compared, and of the one asked for, with its curve."""
    if job.mandrel is None:
        for name in ("open_gap", "flange_diameter", "flange_thickness", "hole_diameter"):
            book.lacks(f"mandrel.{name}", "job.mandrel.form")
        return
    enter_material(book, "mandrel", job.mandrel.material)
    share = "job.ring.heat_set.set_fraction"
    gaps = {"free_gap": "job.ring.free_gap", "slit": "job.ring.slit", "set_fraction": share}
    blank = {"outside": "ring.outside_diameter", "thickness": "job.ring.radial_thickness"}
    book.add("mandrel.open_gap", relation.open_gap, **gaps)
    _forms(book, gaps, blank, job.mandrel.form, printed=job.mandrel.purpose == "fit check")
    book.add("mandrel.stack", relation.stack, rings="job.mandrel.rings", width="job.ring.axial_width")
    inside = {"inside": "ring.inside_diameter"}
    book.add("mandrel.hole_diameter", relation.hole_size, **inside)
    book.add("mandrel.lead_in", relation.lead_in, **inside, width="job.ring.axial_width")
    book.add("mandrel.under_stack", relation.under_stack, width="job.ring.axial_width")
    lead = 0.0 if job.mandrel.form == "pin" else "mandrel.lead_in"
    under = {"stack": "mandrel.stack", "under": "mandrel.under_stack", "lead_in": lead}
    book.add("mandrel.seat_height", relation.seat_height, **under)
    book.add("mandrel.flange_thickness", relation.flange_thickness, **inside)
    book.add("mandrel.tip_length", relation.tip_length, **blank, slit="job.ring.slit")
    book.add(
        "mandrel.flange_diameter",
        relation.flange_diameter,
        outside="ring.outside_diameter",
        open_gap="mandrel.open_gap",
    )


def _forms(book: Book, gaps: dict[str, str], blank: dict[str, str], form: str, *, printed: bool) -> None:
    held = {"open_gap": "mandrel.open_gap", "slit": gaps["slit"], **blank}
    inside = {"inside": "ring.inside_diameter", "thickness": blank["thickness"]}
    book.add("mandrel.diameter", relation.round_diameter, **inside, **gaps)
    book.add("mandrel.pin_width", relation.open_gap, **gaps)
    book.add("mandrel.disc_diameter", relation.disc_diameter, **held)
    if "job.mandrel.disc" in book:
        book.add("mandrel.disc_turned", as_given, length="job.mandrel.disc")
    else:
        book.add("mandrel.disc_turned", relation.disc_turned, disc="mandrel.disc_diameter")
    book.add("mandrel.tip_angle", relation.tip_angle, **held)
    book.add("mandrel.pin_diameter", relation.pin_diameter, open_gap="mandrel.open_gap", lean="mandrel.tip_angle")
    book.add("mandrel.pin_position", relation.pin_position, **held)
    book.add(
        "mandrel.bar_width",
        relation.bar_width,
        open_gap="mandrel.open_gap",
        thickness=blank["thickness"],
        lean="mandrel.tip_angle",
    )
    stress, modulus = "mandrel.opened_stress", "ring.modulus"
    if form == "round":
        hugged = {**inside, "slit": gaps["slit"], "mandrel": "mandrel.diameter"}
        book.add(stress, relation.round_opened_stress, modulus=modulus, **hugged)
    elif form == "pin":
        book.add(stress, relation.opened_stress, modulus=modulus, **held)
    else:
        size_gaps = {"free_gap": gaps["free_gap"], "closed_gap": "ring.closed_gap"}
        book.add("ring.exact_parameter", exact_parameter, radius="ring.mean_radius", **size_gaps)
        curved = {"parameter": "ring.exact_parameter", "radius": "ring.mean_radius"}
        set_share = {"set_fraction": gaps["set_fraction"]}
        book.add(stress, relation.contoured_opened_stress, modulus=modulus, **blank, **curved, **set_share)
        given = {"bore": "job.engine.bore", "closed_gap": "ring.closed_gap"}
        shape = {"free_gap": gaps["free_gap"], "set_fraction": gaps["set_fraction"]}
        if book.contact:
            less: str | float = "job.mandrel.print_clearance" if printed else 0.0
            book.add("mandrel.profile", mandrel_profile, **given, **blank, **shape, less=less)
