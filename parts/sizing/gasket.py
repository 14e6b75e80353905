"""The head gasket: its outline, holes, area and least land."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations
from typing import TYPE_CHECKING

from parts.book import DECIMALS, Entry
from parts.errors import Fault, JobError
from parts.geometry import outline
from parts.geometry.outline import Hole, Loop, Region
from parts.relations import gasket as relation
from parts.relations.stud import as_given
from parts.sizing.materials import enter_material
from parts.sizing.scenes import scenes

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


KEPT = 64
CALLED = {"BORE": "bore", "STUD HOLES": "stud hole", "PASSAGES": "passage"}
KEYS = {"BORE": "barrel.outline", "STUD HOLES": "head.holes", "PASSAGES": "barrel.passages"}


def size_gasket(book: Book, job: Job) -> None:
    """Add the gasket's sizes; needs the deck's hole positions."""
    book.add(
        "gasket.bore_diameter", relation.bore_diameter, bore="job.engine.bore", clearance="job.gasket.bore_clearance"
    )
    if job.gasket is None:
        book.lacks("gasket.area", "job.gasket.thickness")
        return
    enter_material(book, "gasket", job.gasket.material)
    holes = [view.real("gasket.hole_diameter") for view, _, _ in scenes(book, job, "stud")]
    if not book.has(*holes):
        _holes(book)
    sheet = gasket_sheet(book, job)
    if sheet is None:
        return
    inputs = {"bore": "gasket.bore_diameter"} | {f"holes{n or ''}": name for n, name in enumerate(holes)}
    exact = "Exact area of lines and arcs."
    area, land = outline.area(sheet), _land(sheet)
    _refuse_cut_through(sheet, land)
    book["gasket.area"] = Entry(
        round(area, DECIMALS), "mm^2", "computed", exact, "area of the outline less all its holes", inputs
    )
    book["gasket.narrowest_land"] = Entry(
        round(land, DECIMALS),
        "mm",
        "computed",
        "Exact distance of lines and arcs.",
        "least metal between any two edges of the gasket",
        inputs,
    )
    book.add("gasket.cut_offset", relation.cut_outside, cutter="job.gasket.cutter")
    book.add(
        "gasket.mass", relation.mass, area="gasket.area", thickness="job.gasket.thickness", density="gasket.density"
    )


@lru_cache(KEPT)
def _land(sheet: Region) -> float:
    """Least land of a sheet: the same for many a variant of a job."""
    return outline.least_land(sheet.outer, sheet.holes)


def _holes(book: Book) -> None:
    if "job.gasket.hole" in book:
        book.add("gasket.hole_diameter", as_given, length="job.gasket.hole")
        return
    book.add(
        "gasket.hole_diameter",
        relation.hole_diameter,
        nominal="stud.nut_end_nominal",
        clearance="job.gasket.hole_clearance",
    )


def size_gasket_hole(book: Book, _: Job) -> None:
    """Add the gasket's stud hole alone: the stud's step looks at it."""
    _holes(book)


def gasket_sheet(book: Book, job: Job) -> Region | None:
    """Return the finished gasket's outline and holes, or None and a note of what is missing."""
    holes = gasket_holes(book, job)
    if holes is None or job.gasket is None:
        return None
    if job.gasket.outline == "deck":
        deck = job.barrel.outline if job.barrel else None
        if deck is None:
            book.lacks("gasket.area", "job.barrel.outline")
            return None
        return Region(deck.loop(), holes)
    return Region(bosses(holes, job.gasket.land), holes)


def gasket_holes(book: Book, job: Job) -> tuple[Hole, ...] | None:
    """Return every hole of the gasket: bore, stud holes, and passages that stay open [mm]."""
    kinds = [view.real("gasket.hole_diameter") for view, _, _ in scenes(book, job, "stud")]
    needs = [n for n in ("gasket.bore_diameter", *kinds, "deck.hole.1.x") if n not in book]
    if needs:
        book.lacks("gasket.area", *needs)
        return None
    holes = [Hole(0.0, 0.0, book["gasket.bore_diameter"].value, "BORE")]
    for number in book.numbers("deck.hole"):
        x, y = (book[f"deck.hole.{number}.{axis}"].value for axis in "xy")
        wide = book[job.of_hole(number, "gasket.hole_diameter")].value
        holes.append(Hole(x, y, wide, "STUD HOLES"))
    passages = job.barrel.passages if job.barrel else []
    over = float(job.gasket.passage_clearance or 0.0) if job.gasket else 0.0
    holes += [Hole(p.at[0], p.at[1], p.diameter + over, "PASSAGES") for p in passages if not p.blank]
    return tuple(holes)


def bosses(holes: tuple[Hole, ...], land: float) -> Loop:
    """Return the tight band round circles `land` [mm] outside the bore and each stud hole."""
    around = [(h.x, h.y, h.diameter / 2 + land) for h in holes if h.layer != "PASSAGES"]
    return outline.band(around)


def _refuse_cut_through(sheet: Region, land: float) -> None:
    """Refuse a gasket whose holes meet each other or its edge: it would fall apart."""
    if land > 0:
        return
    alone = next((h for h in sheet.holes if outline.least_land(sheet.outer, [h]) <= 0), None)
    met = (
        (alone,) if alone else min(combinations(sheet.holes, 2), key=lambda pair: outline.least_land(sheet.outer, pair))
    )
    where = " meets ".join(f"the {CALLED[h.layer]} of {h.diameter:g} mm at ({h.x:g}, {h.y:g}) mm" for h in met)
    says = f"the gasket would fall apart: {where}{' meets its edge' if alone else ''}; least land {land:.2f} mm"
    raise JobError(Fault(KEYS[met[-1].layer], says))


def cutting_sheet(book: Book, job: Job) -> Region | None:
    """Return the path of the cutter's middle: the outline grown, the holes shrunk by half the cut [mm]."""
    sheet = gasket_sheet(book, job)
    if sheet is None:
        return None
    half = book["gasket.cut_offset"].value
    if half == 0:
        return sheet
    too_small = min(sheet.holes, key=lambda h: h.diameter)
    if too_small.diameter <= 2 * half:
        raise JobError(
            Fault(
                "gasket.cutter",
                f"must be less than the smallest hole of {too_small.diameter:g} mm, not {2 * half:g} mm",
            )
        )
    holes = tuple(Hole(h.x, h.y, h.diameter - 2 * half, h.layer) for h in sheet.holes)
    try:
        return Region(outline.offset(sheet.outer, half), holes)
    except JobError as error:
        raise JobError(Fault("gasket.cutter", f"is too wide for this outline: {error}")) from None
