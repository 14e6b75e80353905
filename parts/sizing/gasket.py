"""The head gasket: its outline, holes, area and least land."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations
from math import fsum
from typing import TYPE_CHECKING, NamedTuple

from parts.book import DECIMALS, Entry
from parts.errors import Fault, JobError
from parts.geometry import outline
from parts.geometry.lands import least_land, middle
from parts.geometry.neck import narrowest
from parts.geometry.offset import offset
from parts.geometry.outline import Hole, Loop, Opening, Region
from parts.relations import gasket as relation
from parts.relations.stud import as_given
from parts.sizing.gasket_thickness import design_thickness
from parts.sizing.materials import enter_material
from parts.sizing.scenes import scenes

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job
    from parts.job.outline_models import Outline, Passage
    from parts.job.shaped import Shaped

KEPT = 64
DECK = "job.barrel.outline"
OVER = "job.gasket.passage_clearance"
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
    """A round hole of the sheet: names of its measures; one that is empty is none."""

    x: str
    y: str
    diameter: str
    more: str
    layer: str


class Cut(NamedTuple):
    """An opening that is not round: its passage, the beginning of its keys, the name of its clearance or nothing."""

    passage: Passage
    given: str
    more: str

    def openings(self, value: Callable[[str], float]) -> list[Opening]:
        """What is cut for it, wider than the passage by half the clearance all round."""
        loops, wider = self.passage.loops(_under(self.given, value)), value(self.more) / 2 if self.more else 0.0
        return [Opening(_wider(loop, wider), "PASSAGES") for loop in loops]


def _under(given: str, value: Callable[[str], float]) -> Callable[[str], float]:
    """Give a table's numbers by their keys, of those of the book by their names."""
    return lambda key: value(f"{given}.{key}")


def _wider(loop: Loop, by: float) -> Loop:
    try:
        return offset(loop, by) if by else loop
    except JobError as error:
        x, y = middle(loop)
        says = f"can't be left all round the passage at ({x:.4g}, {y:.4g}) mm: {error}"
        raise JobError(Fault("gasket.passage_clearance", says)) from None


@dataclass(frozen=True)
class OfSheet:
    """A measure of the sheet as a relation: it moves with every reading that the sheet is made from."""

    measure: Callable[[Region], float]
    deck: Outline | None
    """what its edge follows; None: the bosses"""
    holes: tuple[Punched, ...]
    cuts: tuple[Cut, ...]

    @property
    def names(self) -> dict[str, str]:
        """Argument -> name in the book."""
        edge = _names(DECK, self.deck) if self.deck else ["job.gasket.land"]
        used = [*edge, *(name for hole in self.holes for name in hole[:4])]
        used += [name for cut in self.cuts for name in (*_names(cut.given, cut.passage), cut.more)]
        return {name.replace(".", "_"): name for name in used if name}

    def __call__(self, **values: float) -> float:
        """Measure the sheet as these values make it."""
        return self.measure(self.sheet(lambda name: values[name.replace(".", "_")]))

    def sheet(self, value: Callable[[str], float]) -> Region:
        """The sheet, each of its measures by the value under its name."""
        holes = self.punched(value)
        edge = self.deck.loop(_under(DECK, value)) if self.deck else bosses(holes, value("job.gasket.land"))
        return Region(edge, holes, tuple(one for cut in self.cuts for one in cut.openings(value)))

    def punched(self, value: Callable[[str], float]) -> tuple[Hole, ...]:
        """Its round holes alone."""

        def known(*names: str) -> float:
            return fsum(value(name) for name in names if name)

        return tuple(Hole(known(h.x), known(h.y), known(h.diameter, h.more), h.layer) for h in self.holes)


def _names(given: str, shape: Shaped) -> list[str]:
    return [f"{given}.{key}" for key in shape.numbers()]


def _of_sheet(book: Book, job: Job, measure: Callable[[Region], float]) -> OfSheet:
    """How the sheet is made from the names of the book."""
    deck = job.barrel.outline if job.barrel and job.gasket and job.gasket.outline == "deck" else None
    return OfSheet(measure, deck, *_punched(book, job))


def _punched(book: Book, job: Job) -> tuple[tuple[Punched, ...], tuple[Cut, ...]]:
    holes, cuts = [Punched("", "", "gasket.bore_diameter", "", "BORE")], list[Cut]()
    for n in book.numbers("deck.hole"):
        wide = job.of_hole(n, "gasket.hole_diameter")
        holes.append(Punched(f"deck.hole.{n}.x", f"deck.hole.{n}.y", wide, "", "STUD HOLES"))
    more = OVER if OVER in book else ""
    for n, passage in enumerate(job.barrel.passages if job.barrel else []):
        given = f"job.barrel.passages.{n}"
        if passage.form == "diameter" and not passage.blank:
            holes.append(Punched(f"{given}.at.0", f"{given}.at.1", f"{given}.diameter", more, "PASSAGES"))
        elif not passage.blank:
            cuts.append(Cut(passage, given, more))
    return tuple(holes), tuple(cuts)


@lru_cache(KEPT)
def _land(sheet: Region) -> float:
    """Least land of a sheet, its own neck too: the same for many a variant of a job."""
    return min(least_land(sheet), narrowest(sheet.outer))


MEASURES = (
    (
        "gasket.area",
        "mm^2",
        outline.area,
        ("Exact area of lines and arcs.", "area of the outline less all its openings"),
    ),
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
        _not_cut(book, DECK)
        return None
    return _of_sheet(book, job, outline.area).sheet(book.number)


def gasket_holes(book: Book, job: Job) -> tuple[Hole, ...] | None:
    """Return every round hole of the gasket: bore, stud holes, and round passages that stay open [mm]."""
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
    """Refuse a gasket whose openings meet each other or its edge: it would fall apart."""
    if land > 0:
        return
    each = [
        *(_alone(sheet, holes=(hole,)) for hole in sheet.holes),
        *(_alone(sheet, openings=(o,)) for o in sheet.openings),
    ]
    edge = next((one for one in each if least_land(one) <= 0), None)
    pairs = (
        replace(one, holes=one.holes + two.holes, openings=one.openings + two.openings)
        for one, two in combinations(each, 2)
    )
    met = edge or min(pairs, key=least_land)
    names = [*(_called(hole) for hole in met.holes), *(_drawn(one) for one in met.openings)]
    names[-1] += " meets its edge" if edge else ""
    says = f"the gasket would fall apart: {' meets '.join(names)}; least land {land:.2f} mm"
    raise JobError(Fault(KEYS[met.cuts[-1].layer], says))


def _alone(sheet: Region, holes: tuple[Hole, ...] = (), openings: tuple[Opening, ...] = ()) -> Region:
    """The sheet with these of its openings alone."""
    return replace(sheet, holes=holes, openings=openings)


def _called(hole: Hole) -> str:
    return f"the {CALLED[hole.layer]} of {hole.diameter:g} mm at ({hole.x:g}, {hole.y:g}) mm"


def _drawn(opening: Opening) -> str:
    x, y = middle(opening.loop)
    return f"the {CALLED[opening.layer]} at ({x:.4g}, {y:.4g}) mm"


def cutting_sheet(book: Book, job: Job) -> Region | None:
    """Return the path of the cutter's middle: the outline grown, the openings shrunk by half the cut [mm]."""
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
        openings = tuple(Opening(offset(one.loop, -half), one.layer) for one in sheet.openings)
        return Region(offset(sheet.outer, half), holes, openings)
    except JobError as error:
        raise JobError(Fault("gasket.cutter", f"is too wide for this outline: {error}")) from None
