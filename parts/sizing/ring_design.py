"""The keys of a ring that the job leaves out, designed: by bore and groove, the saw at hand, what its iron stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.errors import Fault, JobError
from parts.job.across import RING_THINNEST
from parts.relations import ring_design as relation
from parts.relations.ring import blank_inside, blank_outside, mean_radius

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

PLAY = (0.02, 0.08)  # mm in the groove, least and most
ROOM = 0.4  # mm behind the ring
WALL = (0.142, 0.222)  # MPa on the bore, least and most
WORKS_AT, SPRUNG_TO = 0.96, 1.5  # of the iron's least bending strength: at work, and over the piston
AIMED_AT = 0.95  # of it; the rest is for the tolerance of blank and readings
BOTH = WORKS_AT + SPRUNG_TO  # of it, both together
HOT_GAP = 0.05  # mm left when ring and bore are hot
WIDEST_GAP, SHUT, OPEN = 0.006, 0.002, 0.02  # of the bore: most and least that is wanted, and what is no gap any more
WIDEST_OPEN = 0.25  # of the bore: common practice, no source
RING = "job.ring"
GAP, SLIT = f"{RING}.closed_gap", f"{RING}.slit"
BLANK_HELD = 0.01  # mm on diameter, what a careful turner holds
LIMITS = {
    "pressure": "the pressure on the wall",
    "work": "the stress at work",
    "opening": "the stress on the mandrel",
    "bore": "a quarter of the bore",
}


def design_ring(book: Book, job: Job) -> None:
    """Design what of the ring is left out; needs its iron's figures."""
    if job.ring is None:
        return
    book.design(f"{RING}.axial_width", relation.width, groove=f"{RING}.groove.width", least=PLAY[0], most=PLAY[1])
    _thickness(book)
    _gap_and_slit(book, job)
    if f"{RING}.free_gap" not in book:
        _free_gap(book, job.mandrel.form if job.mandrel else None)


def slit_is_wide(book: Book) -> bool:
    """Whether the saw is wider than the gap, so that the blank is turned over the bore."""
    return book.has(SLIT, GAP) and bool(book[SLIT].value > book[GAP].value)


def add_blank(book: Book) -> None:
    """Add the blank's two diameters."""
    outside, thickness = "ring.outside_diameter", f"{RING}.radial_thickness"
    given = {"bore": "job.engine.bore", "slit": SLIT}
    book.add(outside, blank_outside, BLANK_HELD, **given, gap=GAP)
    book.add("ring.inside_diameter", blank_inside, outside=outside, thickness=thickness)


def _thickness(book: Book) -> None:
    if f"{RING}.radial_thickness" in book:
        return
    root, bore = f"{RING}.groove.root_diameter", "job.engine.bore"
    book.add("ring.thickness_in_groove", relation.room_for_thickness, root=root, bore=bore, room=ROOM)
    iron: dict[str, str | float] = {"modulus": "ring.modulus", "strength": "ring.bending_strength"}
    thickest: dict[str, str | float] = {"room": "ring.thickness_in_groove", "piston": "ring.thickness_in_groove"}
    if book.has("ring.modulus", "ring.bending_strength"):
        thickest["piston"] = "ring.thickness_over_piston"
        book.add(str(thickest["piston"]), relation.thickness_over_piston, bore=bore, **iron, share=BOTH)
    _refuse_shallow(book, root, bore)
    book.design(f"{RING}.radial_thickness", relation.thickness, **thickest, bore=bore)


def _refuse_shallow(book: Book, root: str, bore: str) -> None:
    """Refuse a groove that has no room for the thinnest of rings."""
    if not book.has(root, bore):
        return
    most = book[bore].value * (1 - 2 / RING_THINNEST) - 2 * ROOM - 2 * relation.STEP
    if book[root].value > most:
        says = f"must be at most {most:.2f} mm for a ring with {ROOM:g} mm behind it, not {book[root].value:g} mm"
        raise JobError(Fault("ring.groove.root_diameter", says))


def _gap_and_slit(book: Book, job: Job) -> None:
    """Design gap and saw together: split by as much as its gap, the ring is turned to the bore."""
    if GAP in book:
        _saw(book, job, GAP, GAP)
        return
    bore = "job.engine.bore"
    book.add("ring.gap_for_bore", relation.gap_for_bore, bore=bore)
    wall = "liner.expansion" if "job.barrel.liner.outside" in book else "barrel.expansion"
    hot = {"ring_expansion": "ring.expansion", "ring": "job.engine.hot.ring"}
    hot |= {"wall_expansion": wall, "wall": "job.engine.hot.bore_wall"}
    wanted = "ring.gap_for_bore"
    if book.has(*hot.values()):
        book.add("ring.gap_for_heat", relation.gap_for_heat, bore=bore, **hot, left=HOT_GAP)
        wanted = "ring.gap_wanted"
        book.add(wanted, relation.wider_gap, bore="ring.gap_for_bore", heat="ring.gap_for_heat")
    book.add("ring.gap_most", relation.share_of_bore, bore=bore, share=WIDEST_GAP)
    _saw(book, job, wanted, "ring.gap_most")
    book.design(GAP, relation.gap_by_saw, slit=SLIT, wanted=wanted, most="ring.gap_most")


def _saw(book: Book, job: Job, wanted: str, most: str) -> None:
    if SLIT in book:
        return
    own = job.workshop.saws if job.workshop else []
    saws: dict[str, str | float] = {f"saw_{n}": f"job.workshop.saws.{n}" for n in range(len(own))}
    at_hand = "of the saws at hand" if saws else "DIN 1837 (memory), none being said to be at hand"
    saws = saws or {f"saw_{n}": width for n, width in enumerate(tables.saw_widths())}
    book.design(SLIT, relation.saw_for_gap, wanted=wanted, most=most, **saws)
    if book.has(SLIT, most):
        wide = book[SLIT].value > max(book[wanted].value, book[most].value)
        book.remark(
            SLIT, relation.saw_for_gap, f"{at_hand}{'; none is as narrow as the gap: the narrowest' if wide else ''}"
        )


def _free_gap(book: Book, form: str | None) -> None:
    """Design the free gap: for the middle of the wall pressures, as far as the iron's strength allows."""
    thickness = f"{RING}.radial_thickness"
    bore, iron = "job.engine.bore", {"modulus": "ring.modulus", "thickness": thickness}
    book.add("ring.mean_radius", mean_radius, bore=bore, thickness=thickness)
    bar = {**iron, "radius": "ring.mean_radius", "closed": GAP}
    gaps: dict[str, str | float] = {name: f"ring.gap_for_{name}" for name in ("pressure", "work")}
    book.add("ring.gap_for_pressure", relation.gap_for_pressure, pressure=sum(WALL) / 2, bore=bore, **bar)
    stands: dict[str, str | float] = {"strength": "ring.bending_strength", "share": AIMED_AT}
    book.add("ring.gap_for_work", relation.gap_for_work, **stands, **bar)
    if form is not None:
        gaps["opening"] = "ring.gap_for_opening"
        _opened(book, form, stands, iron, bar)
    gaps["bore"] = "ring.widest_open"
    book.add("ring.widest_open", relation.share_of_bore, bore=bore, share=WIDEST_OPEN)
    known = {name: size for name, size in gaps.items() if name == "pressure" or size in book}
    book.design(f"{RING}.free_gap", relation.free_gap, **known)
    if f"{RING}.free_gap" in book:
        least = min(known, key=lambda name: book.number(known[name]))
        book.remark(f"{RING}.free_gap", relation.free_gap, f"{LIMITS[least]} decides")


def _opened(book: Book, form: str, stands: dict[str, str | float], iron: dict[str, str], bar: dict[str, str]) -> None:
    """Add the free gap at which the mandrel opens the ring as far as its iron stands."""
    name = "ring.gap_for_opening"
    share = {"set_fraction": "job.ring.heat_set.set_fraction"}
    add_blank(book)
    if form == "contoured":
        book.add(name, relation.gap_for_contour, **stands, **bar, outside="ring.outside_diameter", **share)
    elif form == "pin":
        book.add(name, relation.gap_for_pin, **stands, **iron, slit=SLIT, outside="ring.outside_diameter", **share)
    else:
        book.add(name, relation.gap_for_round, **stands, **iron, slit=SLIT, inside="ring.inside_diameter", **share)
