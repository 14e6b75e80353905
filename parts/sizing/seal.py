"""What presses on the gasket: seating, working and greatest stress, the flange code beside it, pitch of the studs."""

from __future__ import annotations

from math import fsum, hypot
from typing import TYPE_CHECKING

from parts.book import DECIMALS, Entry
from parts.geometry.lands import least_land
from parts.geometry.outline import Region, lens
from parts.geometry.overlap import common_area
from parts.job.outline_models import Outline
from parts.relations import deck as places
from parts.relations import seal as relation
from parts.relations import stud as lengths
from parts.relations.outlines import face_at_studs, round_face
from parts.sizing.gasket import gasket_holes, gasket_sheet
from parts.sizing.scenes import scenes

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job

ROUND_BORE, FACE_AT_STUDS = "head.face_round_bore", "head.face_at_studs"


def size_face(book: Book, job: Job) -> None:
    """Add what presses on the gasket, and the diameter on which it seals."""
    if job.gasket is None:
        for name in ("gasket.pressed_area", "gasket.effective_diameter"):
            book.lacks(name, "job.gasket.thickness")
        return
    _land(book, job)
    _face(book, job)
    width = "gasket.sealing_width"
    book.add(width, relation.sealing_width, pressed="gasket.pressed_width", land="gasket.bore_land")
    _sealed_on(book, "gasket.effective_diameter", width, "gasket.effective_width")


def _sealed_on(book: Book, diameter: str, width: str, effective: str) -> None:
    book.add(effective, relation.effective_width, width=width)
    book.add(diameter, relation.effective_diameter, bore="gasket.bore_diameter", width=width, effective=effective)


def _land(book: Book, job: Job) -> None:
    """Put down how wide the gasket is from its bore to the nearest stud hole, or to its edge.

    A passage lets the gas out at its own place alone: beside it the gasket seals as wide as it is pressed.
    """
    holes, sheet = gasket_holes(book, job), gasket_sheet(book, job)
    studs = [h for h in holes or () if h.layer == "STUD HOLES"]
    lands = [hypot(h.x, h.y) - (h.diameter + holes[0].diameter) / 2 for h in studs] if holes else []
    if sheet is not None and holes:
        lands.append(least_land(Region(sheet.outer, holes[:1])))
    if not lands:
        book.lacks("gasket.bore_land", "job.head.holes")
        return
    told, exact = "least metal from the gasket's bore to a stud hole or its edge", "Exact distance of lines and arcs."
    book["gasket.bore_land"] = Entry(
        round(min(lands), DECIMALS), "mm", "computed", exact, told, {"bore": "gasket.bore_diameter"}
    )


def size_seal(book: Book, job: Job) -> None:
    """Add the stresses on the gasket and what they are compared with."""
    if job.gasket is None:
        book.lacks("gasket.seating_stress", "job.gasket.thickness")
        return
    _stress(book, "joint.mean_" if job.listed("stud") else "joint.")
    views = [view for view, _, _ in scenes(book, job, "stud")]
    _pitch(book, min(views, key=lambda view: _known(view, "stud.nut_end_nominal")))
    stud = {"hole": "gasket.hole_diameter", "stud": "stud.nut_end_nominal"}
    tightest = min(views, key=lambda view: _known(view, stud["hole"]) - _known(view, stud["stud"]))
    bore = {"bore": "job.engine.bore", "diameter": "gasket.bore_diameter"}
    book.add("gasket.overhang", relation.shifted_overhang, **bore, **{a: tightest.real(n) for a, n in stud.items()})


def _known(book: Book, name: str) -> float:
    return float(book[name].value) if name in book else 0.0


def _face(book: Book, job: Job) -> None:
    """Add the area that presses: inside the head's raised face, or the whole gasket where none is given."""
    face = "job.head.joint_face"
    if job.head is not None and isinstance(job.head.joint_face, Outline):
        _drawn_face(book, job, job.head.joint_face)
        return
    if face not in book:
        book.add("gasket.pressed_area", relation.whole_gasket, area="gasket.area")
        book.add("gasket.pressed_width", lengths.as_given, length="gasket.bore_land")
        book.lacks("gasket.blow_pressure", face)
        return
    reach, holes = book[face].value / 2, gasket_holes(book, job) or ()
    cut = fsum(lens(reach, h.diameter / 2, hypot(h.x, h.y)) for h in holes[1:])
    if cut:
        told, exact = "area of the holes as far as they lie in the face", "Area that two circles share."
        book["gasket.holes_in_face"] = Entry(round(cut, DECIMALS), "mm^2", "computed", exact, told, {"face": face})
    hole_area: str | float = "gasket.holes_in_face" if cut else 0.0
    across = {"face": face, "bore": "gasket.bore_diameter"}
    book.add("gasket.pressed_area", relation.face_area, **across, holes=hole_area)
    book.add("gasket.pressed_width", relation.face_width, **across)
    book.add("gasket.blow_pressure", relation.blow_pressure, pressure="job.engine.peak_pressure")


def _drawn_face(book: Book, job: Job, face: Outline) -> None:
    """Add what presses where the face is an outline: what of the gasket lies in it."""
    loop, sheet = face.loop(), gasket_sheet(book, job)
    book.add(ROUND_BORE, round_face(loop))
    studs = list(book.numbers("deck.hole"))
    places = {f"{axis}_{n}": f"deck.hole.{n}.{axis}" for n in studs for axis in "xy"}
    holes = [view.real("gasket.hole_diameter") for view, _, _ in scenes(book, job, "stud")]
    if studs and book.has(*holes):
        widest = max(holes, key=lambda name: book[name].value)
        book.add(FACE_AT_STUDS, face_at_studs(loop, len(studs)), hole=widest, **places)
    if sheet is not None:
        loops = [sheet.outer, loop, *(cut.loop for cut in sheet.cuts)]
        area = round(common_area(loops, lambda w: w[0] and w[1] and not any(w[2:])), DECIMALS)
        told, exact = "area of the gasket as far as it lies in the face", "Exact area of lines and arcs."
        book["gasket.pressed_area"] = Entry(area, "mm^2", "computed", exact, told, {"gasket": "gasket.area"})
    book.add("gasket.pressed_width", relation.face_width, face=ROUND_BORE, bore="gasket.bore_diameter")
    book.add("gasket.blow_pressure", relation.blow_pressure, pressure="job.engine.peak_pressure")


def face_of(book: Book) -> str:
    """Name of the diameter that the head bears on as far as the studs see it: given, or out of the outline given."""
    return FACE_AT_STUDS if FACE_AT_STUDS in book else "job.head.joint_face"


def _stress(book: Book, load: str) -> None:
    face = {"count": "joint.studs", "area": "gasket.pressed_area"}
    for name, preload in (
        ("seating_stress", "preload"),
        ("least_seating_stress", "least_preload"),
        ("greatest_stress", "greatest_preload"),
    ):
        book.add(f"gasket.{name}", relation.seating_stress, **face, preload=load + preload)
    book.add(
        "gasket.working_stress",
        relation.working_stress,
        **face,
        preload=f"{load}lowest_preload",
        share=f"{load}stiffness_share",
        gas="joint.gas_force",
    )


def size_code(book: Book, job: Job) -> None:
    """Add what the flange code would want: a reference, not engine practice."""
    if job.gasket is None:
        return
    width, effective, diameter = "gasket.pressed_width", "gasket.code_width", "gasket.code_diameter"
    pressure, m = "job.engine.peak_pressure", "gasket.gasket_m"
    _sealed_on(book, diameter, width, effective)
    on = {"effective": effective, "diameter": diameter}
    book.add("gasket.code_seating_load", relation.seating_load, **on, y="gasket.gasket_y")
    book.add("gasket.code_operating_load", relation.operating_load, **on, pressure=pressure, m=m)
    load = "gasket.code_seating_load"
    book.add("gasket.seating_limit", relation.seating_limit, load=load, area="gasket.pressed_area")
    book.add("gasket.working_limit", relation.working_limit, m=m, pressure=pressure)


def _pitch(book: Book, thinnest: Book) -> None:
    """Add the greatest distance from one stud to the next round the bore."""
    studs = sorted(book.numbers("deck.hole", "angle"), key=lambda n: book[f"deck.hole.{n}.angle"].value)
    if len(studs) < 2:  # noqa: PLR2004 - one stud has no next
        book.lacks("gasket.stud_pitch", "job.head.holes")
        return
    apart: dict[str, str | float] = {}
    for one, other in zip(studs, [*studs[1:], studs[0]], strict=True):
        name = f"gasket.pitch_from_{one}"
        here, there = f"deck.hole.{one}", f"deck.hole.{other}"
        book.add(name, places.distance, x=f"{here}.x", y=f"{here}.y", other_x=f"{there}.x", other_y=f"{there}.y")
        apart[f"from_{one}"] = name
    book.add("gasket.stud_pitch", relation.widest, **apart)
    book.add("gasket.pitch_limit", relation.pitch_limit, nominal=thinnest.real("stud.nut_end_nominal"))
