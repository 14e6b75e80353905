"""The head gasket: its outline, holes, area and least land."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from math import fsum
from typing import TYPE_CHECKING, NamedTuple

from parts.book import DECIMALS, Entry
from parts.errors import Fault, JobError
from parts.geometry import outline
from parts.geometry.outline import Hole, Loop, Region
from parts.relations import gasket as relation
from parts.relations.stud import as_given
from parts.sizing.gasket_thickness import design_thickness
from parts.sizing.materials import enter_material
from parts.sizing.scenes import scenes

if TYPE_CHECKING:
    from collections.abc import Callable

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
        _not_cut(book, "job.gasket.thickness")
        return
    enter_material(book, "gasket", job.gasket.material)
    design_thickness(book, job)
    if not book.has(*(view.real("gasket.hole_diameter") for view, _, _ in scenes(book, job, "stud"))):
        _holes(book)
    sheet = gasket_sheet(book, job)
    if sheet is None:
        return
    _refuse_cut_through(sheet, _land(sheet))
    for name, unit, measure, told in MEASURES:
        made = _of_sheet(book, job, measure)
        value = round(measure(sheet), DECIMALS)
        book[name] = Entry(value, unit, "computed", *told, made.names, 0.0, made)
    book.add("gasket.cut_offset", relation.cut_outside, cutter="job.gasket.cutter")
    book.add(
        "gasket.mass", relation.mass, area="gasket.area", thickness="job.gasket.thickness", density="gasket.density"
    )


class Punched(NamedTuple):
    """A hole of the sheet: names of its measures; one that is empty is none."""

    x: str
    y: str
    diameter: str
    more: str
    layer: str


@dataclass(frozen=True)
class OfSheet:
    """A measure of the sheet as a relation: it moves with every reading that the sheet is made from."""

    measure: Callable[[Region], float]
    form: str
    outer: tuple[str, ...]
    holes: tuple[Punched, ...]

    @property
    def names(self) -> dict[str, str]:
        """Argument -> name in the book."""
        used = (*self.outer, *(name for hole in self.holes for name in hole[:4]))
        return {name.replace(".", "_"): name for name in used if name}

    def __call__(self, **values: float) -> float:
        """Measure the sheet as these values make it."""
        return self.measure(self.sheet(lambda name: values[name.replace(".", "_")]))

    def sheet(self, value: Callable[[str], float]) -> Region:
        """The sheet, each of its measures by the value under its name."""
        holes = self.punched(value)
        return Region(FORMS[self.form]([value(name) for name in self.outer], holes), holes)

    def punched(self, value: Callable[[str], float]) -> tuple[Hole, ...]:
        """Its holes alone."""

        def known(*names: str) -> float:
            return fsum(value(name) for name in names if name)

        return tuple(Hole(known(h.x), known(h.y), known(h.diameter, h.more), h.layer) for h in self.holes)


FORMS: dict[str, Callable[[list[float], tuple[Hole, ...]], Loop]] = {
    "bosses": lambda given, holes: bosses(holes, given[0]),
    "circle": lambda given, _: outline.circle(0.0, 0.0, given[0] / 2),
    "rectangle": lambda given, _: outline.rectangle(*given),
    "points": lambda given, _: outline.polygon(list(zip(given[::2], given[1::2], strict=True))),
}


def _of_sheet(book: Book, job: Job, measure: Callable[[Region], float]) -> OfSheet:
    """How the sheet is made from the names of the book."""
    deck, given = job.barrel.outline if job.barrel else None, "job.barrel.outline"
    holes = _punched(book, job)
    if job.gasket is None or job.gasket.outline == "bosses" or deck is None:
        return OfSheet(measure, "bosses", ("job.gasket.land",), holes)
    form = next(f for f in ("circle", "rectangle", "points") if getattr(deck, f) is not None)
    outer = {
        "circle": (f"{given}.circle",),
        "rectangle": (*(f"{given}.rectangle.{n}" for n in (0, 1)), *((f"{given}.corner",) if deck.corner else ())),
        "points": tuple(f"{given}.points.{n}.{axis}" for n in range(len(deck.points or ())) for axis in (0, 1)),
    }
    return OfSheet(measure, form, outer[form], holes)


def _punched(book: Book, job: Job) -> tuple[Punched, ...]:
    holes = [Punched("", "", "gasket.bore_diameter", "", "BORE")]
    for n in book.numbers("deck.hole"):
        wide = job.of_hole(n, "gasket.hole_diameter")
        holes.append(Punched(f"deck.hole.{n}.x", f"deck.hole.{n}.y", wide, "", "STUD HOLES"))
    over = "job.gasket.passage_clearance"
    for n, passage in enumerate(job.barrel.passages if job.barrel else []):
        if not passage.blank:
            given = f"job.barrel.passages.{n}"
            more = over if over in book else ""
            holes.append(Punched(f"{given}.at.0", f"{given}.at.1", f"{given}.diameter", more, "PASSAGES"))
    return tuple(holes)


@lru_cache(KEPT)
def _land(sheet: Region) -> float:
    """Least land of a sheet: the same for many a variant of a job."""
    return outline.least_land(sheet.outer, sheet.holes)


MEASURES = (
    ("gasket.area", "mm^2", outline.area, ("Exact area of lines and arcs.", "area of the outline less all its holes")),
    (
        "gasket.narrowest_land",
        "mm",
        _land,
        ("Exact distance of lines and arcs.", "least metal between any two edges of the gasket"),
    ),
)


def _not_cut(book: Book, *needs: str) -> None:
    for measure, *_ in MEASURES:
        book.lacks(measure, *needs)


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
    if gasket_holes(book, job) is None or job.gasket is None:
        return None
    if job.gasket.outline == "deck" and (job.barrel is None or job.barrel.outline is None):
        _not_cut(book, "job.barrel.outline")
        return None
    return _of_sheet(book, job, outline.area).sheet(book.number)


def gasket_holes(book: Book, job: Job) -> tuple[Hole, ...] | None:
    """Return every hole of the gasket: bore, stud holes, and passages that stay open [mm]."""
    kinds = [view.real("gasket.hole_diameter") for view, _, _ in scenes(book, job, "stud")]
    needs = [n for n in ("gasket.bore_diameter", *kinds, "deck.hole.1.x") if n not in book]
    if needs:
        _not_cut(book, *needs)
        return None
    return _of_sheet(book, job, outline.area).punched(book.number)


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
