"""How deep the stud screws in, designed: what its hole's metal carries hot, as far as the metal below allows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.relations import strip as relation
from parts.relations import stud_design as design
from parts.relations.joint import breaking_load
from parts.sizing.inserts import TAPS, add_tapped
from parts.sizing.materials import metals, unnamed
from parts.sizing.strip import add_inside
from parts.sizing.stud import CHAMFER_THREADS, STEP

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.job.part_models import Stud

SHORT = 0.75  # pitches by which the stud stays above the insert's end
UNDER_SHARE, UNDER_LEAST = 0.2, 2.0  # of the tapped major, and mm, of metal that is to be left under a hole


def design_engagement(book: Book, job: Job) -> None:
    """Design the insert's length, or the thread engaged without one."""
    stud = job.stud
    if stud is None:
        return
    key = "job.stud.insert.length" if stud.insert else "job.stud.engagement"
    if key in book:
        return
    spec = job.barrel.material if job.barrel else None
    wants, rule = tables.thread_wants(metals(spec))
    source = f"{rule.source}, with room for step, chamfer and countersink"
    source += "; the weakest it could be" if unnamed(spec) else ""
    book.enter("stud.wanted_multiple", wants, "d", "assumed" if unnamed(spec) else rule.status, source)
    sizes = {"wanted": "stud.wanted_multiple", "carried": _carried(book, stud), "room": _room(book, stud)}
    book.design(key, design.multiple, **sizes)


def _carried(book: Book, stud: Stud) -> str:
    """Name of the length that holds until the stud breaks; of the rule's where that is not known."""
    add_inside(book, "tap_end", stud.tap_end)
    pitch = stud.tap_end.pitch
    lost = STEP + book["stud.tap_end_lead_in"].value
    hole = {"major": "stud.tap_end_major_min", "hole_pitch": "strip.tap_end_hole_pitch_diameter_max"}
    if stud.insert:
        add_tapped(book, stud.tap_end)
        lost = SHORT * pitch + max(0.0, STEP - pitch)
        hole = {"major": "insert.tapped_major", "hole_pitch": "insert.tapped_pitch_diameter"}
    load, metal = "joint.breaking_load", "barrel.shear_strength"
    if not book.has("stud.tensile_strength", "stud.weakest_area", "barrel.thread_strength"):
        return "stud.wanted_multiple"
    book.add(load, breaking_load, strength="stud.tensile_strength", area="stud.weakest_area")
    book.add(metal, relation.shear_strength, tensile="barrel.thread_strength")
    thread = {"pitch": "stud.tap_end_pitch", "half_angle": "stud.tap_end_half_angle", "nominal": "stud.tap_end_nominal"}
    book.add("stud.carried_multiple", design.carried_multiple, load=load, strength=metal, **hole, **thread, lost=lost)
    return "stud.carried_multiple"


def _room(book: Book, stud: Stud) -> str | float:
    """Name of the length that there is room for; the longest of all where the depth is not known."""
    if "job.barrel.deck_depth" not in book:
        return design.STEPS[-1]
    beyond = TAPS[stud.insert.tap][0] if stud.insert else 1.0 + CHAMFER_THREADS[stud.tap]
    skim: str | float = "job.barrel.skim" if "job.barrel.skim" in book else 0.0
    wide = {"major": "insert.tapped_major" if stud.insert else "stud.tap_end_nominal", "pitch": "stud.tap_end_pitch"}
    under = {"share": UNDER_SHARE, "least": UNDER_LEAST}
    below: dict[str, str | float] = {"depth": "job.barrel.deck_depth", "skim": skim, "beyond": beyond, **under}
    book.add("stud.room_multiple", design.room_multiple, **below, **wide, nominal="stud.tap_end_nominal")
    return "stud.room_multiple"
