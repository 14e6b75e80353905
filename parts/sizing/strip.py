"""What strips first: the threads of both ends in their own metals, and the engagement that the stud needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.relations import strip as relation
from parts.relations import stud as lengths
from parts.relations.thread_forms import internal_limit, minor_diameter, pitch_diameter
from parts.sizing.materials import metals, unnamed
from parts.sizing.stud import hole_of
from parts.sizing.threads import FORMS, add_hole_minor_tolerance, add_hole_pitch_tolerance

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.thread import Thread


def size_strip(book: Book, job: Job) -> None:
    """Add shear areas, strip forces and engagement of both ends."""
    if job.stud is None:
        book.lacks("joint.tap_end_strip_force", "job.stud.tap_end")
        return
    book.add("stud.shear_strength", relation.shear_strength, tensile="stud.tensile_strength")
    book.add("barrel.shear_strength", relation.shear_strength, tensile="barrel.thread_strength")
    add_inside(book, "tap_end", job.stud.tap_end)
    add_inside(book, "nut_end", job.stud.nut_end)
    _engaged(book)
    _nut(book)
    for end in ("tap_end", "nut_end"):
        _stud_thread(book, end)
    _parent(book)
    _weaker(book)
    depth = f"{hole_of(book)}.full_thread_depth"
    book.add("stud.bottom_room", relation.bottom_room, full_thread=depth, reach="stud.tap_end_reach")
    _engagement(book, job)


def add_inside(book: Book, end: str, thread: Thread) -> None:
    """Add the greatest minor and pitch diameter of the thread that an end screws into: 6H, 2B or the like."""
    form, name = FORMS[thread.family], f"strip.{end}_hole"
    basic = {"nominal": f"stud.{end}_nominal", "pitch": f"stud.{end}_pitch"}
    add_hole_minor_tolerance(book, f"{name}_minor_tolerance", thread)
    add_hole_pitch_tolerance(book, f"{name}_pitch_diameter_tolerance", thread)
    for size, diameter, factor in (
        ("minor", minor_diameter, form.hole),
        ("pitch_diameter", pitch_diameter, form.pitch),
    ):
        book.enter(f"{name}_{size}_factor", factor, "1", form.status, form.source)
        book.add(f"{name}_{size}", diameter, **basic, factor=f"{name}_{size}_factor")
        tolerance = f"{name}_{size}_tolerance"
        book.add(f"{name}_{size}_max", internal_limit, least=f"{name}_{size}", tolerance=tolerance)


def _engaged(book: Book) -> None:
    """Add the full thread of the tap end in that of the hole, and of the stud alone in an insert.

    An insert's coils bear on the barrel over its whole length, past the chamfer of the stud; the stud's own thread does
    not carry there.
    """
    lasts: tuple[str, str | float, str]
    if hole_of(book) == "insert":
        end = {"set_down": "insert.set_down", "installed": "insert.installed_length"}
        book.add("strip.insert_end", relation.insert_end, **end)
        lasts = "insert.set_down", 0.0, "strip.insert_end"
    else:
        sunk = {"major": "tapped.tapped_major", "minor": "tapped.tapped_minor"}
        book.add("tapped.countersink", relation.countersink, **sunk)
        lasts = "tapped.countersink", "stud.tap_end_lead_in", "tapped.full_thread_depth"
    first, chamfer, last = lasts
    ends = {"reach": "stud.tap_end_reach", "step": "stud.step_depth", "first": first, "last": last}
    book.add("strip.tap_end_engagement", relation.engagement, chamfer=chamfer, **ends)
    book.add("strip.tap_end_stud_engagement", relation.engagement, chamfer="stud.tap_end_lead_in", **ends)


def _nut(book: Book) -> None:
    """Add the full thread of the nut end in the lowest nut."""
    above = {"projection": "stud.projection", "nut_face": "stud.nut_face"}
    book.add("strip.above_nut_face", relation.above_nut_face, **above)
    book.add(
        "strip.nut_end_engagement",
        relation.nut_engagement,
        height="stud.nut_least_height",
        pitch="stud.nut_end_pitch",
        above="strip.above_nut_face",
        chamfer="stud.nut_end_lead_in",
    )


def _thread(end: str, engagement: str) -> dict[str, str]:
    """Names of what both shear areas of a stud's end need."""
    return {
        "pitch": f"stud.{end}_pitch",
        "engagement": f"strip.{end}_{engagement}",
        "half_angle": f"stud.{end}_half_angle",
    }


def _stud_thread(book: Book, end: str) -> None:
    book.add(
        f"strip.{end}_stud_area",
        relation.external_area,
        **_thread(end, "stud_engagement" if end == "tap_end" else "engagement"),
        hole_minor=f"strip.{end}_hole_minor_max",
        pitch_diameter=f"stud.{end}_pitch_diameter_min",
    )
    area = f"strip.{end}_stud_area"
    book.add(f"strip.{end}_stud_force", relation.strip_force, area=area, strength="stud.shear_strength")


def _parent(book: Book) -> None:
    """Add what the barrel's own thread holds: round the insert at its tapped size, or round the stud."""
    insert = hole_of(book) == "insert"
    book.add(
        "strip.parent_area",
        relation.internal_area,
        **_thread("tap_end", "engagement"),
        major="insert.tapped_major" if insert else "stud.tap_end_major_min",
        hole_pitch="insert.tapped_pitch_diameter" if insert else "strip.tap_end_hole_pitch_diameter_max",
    )
    area = "strip.parent_area"
    book.add("strip.parent_force", relation.strip_force, area=area, strength="barrel.shear_strength")


def _weaker(book: Book) -> None:
    force, parent = "joint.tap_end_strip_force", "strip.parent_force"
    book.add(force, relation.weaker, stud="strip.tap_end_stud_force", other=parent)
    nut = {"stud": "strip.nut_end_stud_force", "other": "joint.nut_proof_load"}
    book.add("joint.nut_end_strip_force", relation.weaker, **nut)
    holes = (f"deck.hole.{number}.unsound" for number in book.numbers("deck.hole"))
    shares = {name: book[name].value for name in holes if name in book}
    if shares and max(shares.values()) > 0:
        worst = max(shares, key=shares.__getitem__)
        book.add("strip.sound_force", relation.in_sound_metal, whole=parent, share=worst)


def _engagement(book: Book, job: Job) -> None:
    """Add the engagements to compare with: for the stud to break first, by the handbook, by the stud standards."""
    engaged, name = "strip.tap_end_engagement", "strip.tap_end"
    breaking, strip = "joint.breaking_load", "joint.tap_end_strip_force"
    book.add(f"{name}_least", relation.least_engagement, engagement=engaged, breaking=breaking, strip=strip)
    book.add(
        f"{name}_even_engagement",
        relation.engagement_to_break,
        area="stud.tap_end_stress_area",
        pitch="stud.tap_end_pitch",
        hole_minor=f"{name}_hole_minor_max",
        pitch_diameter="stud.tap_end_pitch_diameter_min",
        half_angle="stud.tap_end_half_angle",
    )
    book.add(f"{name}_strength_ratio", relation.strength_ratio, stud=f"{name}_stud_force", other="strip.parent_force")
    even, ratio = f"{name}_even_engagement", f"{name}_strength_ratio"
    book.add(f"{name}_handbook", relation.engagement_with_ratio, engagement=even, ratio=ratio)
    spec = job.barrel.material if job.barrel else None
    if spec is None:
        book.lacks(f"{name}_rule", "job.barrel.material")
        return
    (_, rule), several = tables.thread_wants(metals(spec)), unnamed(spec)
    why = f"{rule.source}: the weakest it could be" if several else rule.source
    book.enter(f"{name}_rule_multiple", rule.value, "d", "assumed" if several else rule.status, why)
    book.add(f"{name}_rule", lengths.in_diameters, multiple=f"{name}_rule_multiple", nominal="stud.tap_end_nominal")
