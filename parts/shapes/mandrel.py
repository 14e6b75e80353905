"""Shape of the expander mandrel in its three forms. Axis on Z, flange below Z = 0, the rings' seat above it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import fsum, hypot, inf, pi
from typing import TYPE_CHECKING, TypeAlias

from parts.errors import Fault, JobError
from parts.geometry import outline
from parts.geometry.outline import Hole
from parts.geometry.profile import Profile
from parts.relations.contour import Law, on_surface, ring_law, walk
from parts.shapes.letters import Polygon, lettering
from parts.shapes.pieces import Piece, Pieces, rod

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop
    from parts.job import Job

MARK = "NO HEAT"
MARK_WIDTH = 34  # units of its letters
PITCH = 1.0  # mm along the curve between the points of the spline
BEYOND = 1.0  # mm that the curve goes on past the ring's end
RELIEF = 1.5  # mm that the gap's side lies under the curve
CLEAR = 1.0  # mm that a drill reaches beyond what it goes through
KEPT = 16


@dataclass(frozen=True, slots=True)
class Base:
    """The flange and what is common to the forms [mm]."""

    flange_diameter: float
    flange_thickness: float
    hole_diameter: float
    seat_height: float
    mark: tuple[tuple[Polygon, ...], ...]
    """letters cut into the underside of a printed one, each its outer edge and what stands inside it"""


@dataclass(frozen=True, slots=True)
class Hoop:
    """Wire round each ring on the seat, which holds its ends in: half of it, from the back to the ring's end."""

    wire: float
    inner: tuple[Point, ...]
    """where it lies on the ring"""
    outer: tuple[Point, ...]
    heights: tuple[float, ...]
    """of each turn, above Z = 0"""


@dataclass(frozen=True, slots=True)
class Contoured:
    """The contoured form: half of the seat's curve, from the back to past the ring's end."""

    base: Base
    law: Law
    """curvature of the ring's mean line on it"""
    depth: float
    """of the seat inside that line"""
    length: float
    """arc length of the half line"""
    seat: tuple[Point, ...]
    """x, y along the upper half, from the back on -X; the lower half is its mirror image"""
    top: tuple[Point, ...]
    """the same at the end of the lead-in"""
    lead_in: float
    flat: float
    """a flat on the flange marks the gap: its distance from the axis on +X"""
    hoop: Hoop | None = None
    """drawn where it lies, no part of the solid"""


@dataclass(frozen=True, slots=True)
class Pin:
    """The pin form: a disc that lies free in the ring, and a seat for the pin that holds its ends apart."""

    base: Base
    disc_diameter: float
    pin_diameter: float
    pin_position: float

    @property
    def pieces(self) -> Pieces:
        """Flange and disc, and what is drilled through both: the hole for the bolt, the one for the pin."""
        base, disc, pin = self.base, self.disc_diameter / 2, self.pin_diameter / 2
        low, high, flange, bolt = (
            -base.flange_thickness,
            base.seat_height,
            base.flange_diameter / 2,
            base.hole_diameter / 2,
        )
        under = pi * (flange**2 - pin**2 - bolt**2) * -low
        above = (pi * (disc**2 - bolt**2) - outline.lens(disc, pin, self.pin_position)) * high
        drilled = ((bolt, 0.0), (pin, self.pin_position))
        return Pieces(
            (Piece(rod(flange, low, 0.0)), Piece(rod(disc, 0.0, high))),
            tuple(Piece(rod(radius, low - CLEAR, high + CLEAR), x) for radius, x in drilled),
            under + above,
        )


@dataclass(frozen=True, slots=True)
class Round:
    """The plain round form."""

    base: Base
    profile: Profile


MandrelShape: TypeAlias = Contoured | Pin | Round


def expander_mandrel(book: Book, job: Job) -> MandrelShape:
    """Return the shape of the form that the job asks for; a printed one is a little smaller and bears a mark."""
    if job.mandrel is None:
        raise AssertionError("asked for a mandrel that was not sized")
    printed = job.mandrel.purpose == "fit check"
    less = book["job.mandrel.print_clearance"].value if printed else 0.0
    base = _base(book, job.mandrel.form, printed=printed)
    forms: dict[str, Callable[[Book, Base, float], MandrelShape]]
    forms = {"contoured": _contoured, "pin": _pin, "round": _round}
    return forms[job.mandrel.form](book, base, less)


def _base(book: Book, form: str, *, printed: bool) -> Base:
    flange, hole = book["mandrel.flange_diameter"].value, book["mandrel.hole_diameter"].value
    unit = min((flange - hole) / 18, flange / 48, _beside_the_pin(book, form) / (MARK_WIDTH / 2))
    mark = lettering(MARK, unit, 0.0, -hole / 2 - 1 - 3 * unit, mirrored=True) if printed else []
    return Base(flange, book["mandrel.flange_thickness"].value, hole, book["mandrel.seat_height"].value, tuple(mark))


def law_of(book: Book) -> Law:
    """Return the curvature of the ring on its mandrel."""
    names = (
        "job.engine.bore",
        "job.ring.radial_thickness",
        "ring.outside_diameter",
        "ring.free_gap",
        "ring.closed_gap",
        "job.ring.heat_set.set_fraction",
    )
    return ring_law(*(book[n].value for n in names))


def _beside_the_pin(book: Book, form: str) -> float:
    """Room for half the mark, up to the pin's hole in the flange."""
    if form != "pin":
        return inf
    return float(book["mandrel.pin_position"].value - book["mandrel.pin_diameter"].value / 2 - 1)


def _contoured(book: Book, base: Base, less: float) -> Contoured:
    law, thickness, lead = law_of(book), book["job.ring.radial_thickness"].value, book["mandrel.lead_in"].value
    length = book["mandrel.tip_length"].value + min(BEYOND, book["mandrel.open_gap"].value / 4)
    under = thickness / 2 + less
    seat, top = _curves(law, length, (under, under + lead / 2))
    for curve in (seat, top):
        _refuse_thin(curve, base.hole_diameter)
    return Contoured(base, law, under, length, seat, top, lead, base.flange_diameter / 2 - 1.5, _hoop(book, law))


def _hoop(book: Book, law: Law) -> Hoop | None:
    """The hoop's turns, side by side at half the height of each ring."""
    if "mandrel.hoop_wire" not in book:
        return None
    wire, half = book["mandrel.hoop_wire"].value, book["job.ring.radial_thickness"].value / 2
    inner, outer = _curves(law, book["mandrel.tip_length"].value, (-half, -half - wire))
    width, rings = book["job.ring.axial_width"].value, int(book["job.mandrel.rings"].value)
    turns = int(book["mandrel.hoop_turns"].value)
    heights = tuple((n + 0.5) * width + (k - (turns - 1) / 2) * wire for n in range(rings) for k in range(turns))
    return Hoop(wire, inner, outer, heights)


@lru_cache(KEPT)
def _curves(law: Law, length: float, depths: tuple[float, ...]) -> list[tuple[Point, ...]]:
    """Follow the surface at each of these depths under the ring's mean line."""
    line = walk(law, length, max(60, round(length / PITCH)))
    return [tuple(on_surface(law, depth, point, 0.0) for point in line) for depth in depths]


def relieved(curve: tuple[Point, ...]) -> Point:
    """Point where the gap's side begins: from the curve's end straight inwards by the relief."""
    (x0, y0), (x1, y1) = curve[-2], curve[-1]
    along = hypot(x1 - x0, y1 - y0)
    return x1 + RELIEF * (y1 - y0) / along, y1 - RELIEF * (x1 - x0) / along


def _refuse_thin(curve: tuple[Point, ...], hole: float) -> None:
    if relieved(curve)[1] <= 0.1 or curve[-1][1] <= 0:  # noqa: PLR2004 - mm
        raise JobError(
            Fault("ring.free_gap", "opens too little for a contoured mandrel: the curve's two ends meet in the gap")
        )
    if min(hypot(x, y) for x, y in curve) - RELIEF < hole / 2 + 1:
        raise JobError(Fault("ring", "is too small for a mandrel: no metal is left round its hole"))


def _pin(book: Book, base: Base, less: float) -> Pin:
    pin = Pin(
        base,
        book["mandrel.disc_turned"].value - 2 * less,
        book["mandrel.pin_diameter"].value,
        book["mandrel.pin_position"].value,
    )
    if pin.pin_position - pin.pin_diameter / 2 < base.hole_diameter / 2 + 1:
        raise JobError(
            Fault(
                "ring.free_gap",
                f"needs a pin of {pin.pin_diameter:.2f} mm, into the hole of {base.hole_diameter:g} mm",
            )
        )
    if pin.pin_position + pin.pin_diameter / 2 > base.flange_diameter / 2 - 1:
        raise JobError(
            Fault(
                "ring.free_gap",
                f"needs a pin of {pin.pin_diameter:.2f} mm, out of the flange of {base.flange_diameter:.1f} mm",
            )
        )
    return pin


def _round(book: Book, base: Base, less: float) -> Round:
    radius, lead = book["mandrel.diameter"].value / 2 - less, book["mandrel.lead_in"].value
    bottom, top, hole = -base.flange_thickness, base.seat_height + lead, base.hole_diameter / 2
    flange = base.flange_diameter / 2
    points = (
        (bottom, 0.0),
        (bottom, flange),
        (0.0, flange),
        (0.0, radius),
        (base.seat_height, radius),
        (top, radius - lead / 2),
        (top, 0.0),
    )
    return Round(base, Profile(points, (((bottom, 0.0), (bottom, hole), (top, hole), (top, 0.0)),)))


def centre(base: Base) -> Hole:
    """The hole for the bolt."""
    return Hole(0.0, 0.0, base.hole_diameter, "CENTRE")


def flange_loop(shape: Contoured) -> Loop:
    """Outline of the flange: a circle with its flat on +X, anticlockwise from the flat's upper end."""
    return outline.flatted(shape.base.flange_diameter / 2, shape.flat)


def mark_area(base: Base) -> float:
    """Area of the letters cut into the underside [mm^2]."""
    from parts.shapes.letters import polygon_area

    return fsum(polygon_area(letter[0]) - fsum(map(polygon_area, letter[1:])) for letter in base.mark)
