"""The expander mandrel's drawing, in its three forms: cut along the axis, and its face with the ring's gap on top."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from parts.geometry.outline import transformed
from parts.judging.limits import EDGES, PIN_HELD, SEAT_HELD
from parts.shapes.mandrel import Base, Contoured, MandrelShape, Pin, Round, flange_loop, relieved
from parts.sheets.drawing import hoop, seat
from parts.sheets.drawing.compose import Content
from parts.sheets.drawing.furniture import Grid
from parts.sheets.drawing.items import Item, Pointer
from parts.sheets.drawing.view import View
from parts.sheets.drawing.words import TURNED, Figures, cautions, figures, material_name, named
from parts.sheets.outlines import seat_loop

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.job import Job
    from parts.job.part_models import Mandrel
    from parts.judging.finding import Finding
    from parts.sheets.drawing.pen import Pen

DISC = "It holds the ring's ends apart; the disc only keeps the ring from leaning."
PRINTED = "Printed, for a fit check alone: NO HEAT, as its underside says. Its seat is smaller by the clearance."
SECTION, CUT = "A", "Section A–A"
STEP = 10.0  # deg between the rows of the table of radii
BLOCKS = 3  # columns of that table


def mandrel_content(shape: MandrelShape, book: Book, job: Job, found: list[Finding]) -> Content:
    """Say what stands on the sheet."""
    if job.mandrel is None:
        raise AssertionError("asked for a mandrel that was not sized")
    say = figures(job)
    tables = [_radii(book, say)] if isinstance(shape, Contoured) else []
    notes = [*_form_notes(shape, book, job, say), *_notes(book, job, say), *cautions(found)]
    title = named(f"Expander mandrel, {job.mandrel.form}", book)
    return Content(
        title, f"expander-mandrel{book.suffix}", _material(job.mandrel), "1", views(shape, book, say), notes, tables
    )


def _material(mandrel: Mandrel) -> str:
    return "any plastic, printed" if mandrel.purpose == "fit check" else material_name(mandrel)


def views(shape: MandrelShape, book: Book, say: Figures) -> list[View]:
    """Return the views of a form: its face, then the cut."""
    if isinstance(shape, Contoured):
        return _contoured(shape, book, say)
    return _pin(shape, say) if isinstance(shape, Pin) else _round(shape, book, say)


def _contoured(shape: Contoured, book: Book, say: Figures) -> list[View]:
    base, radius = shape.base, shape.base.flange_diameter / 2
    outline = transformed(flange_loop(shape), turned=90)
    edge = transformed(seat_loop(shape)[0], turned=90)
    lead = [(-y, x) for x, y in _mirrored(shape.top)]

    def face(pen: Pen) -> None:
        pen.loop(outline)
        pen.loop(edge)
        pen.path(lead, close=True)
        _centre(pen, base)
        hoop.face(pen, shape.hoop, radius)

    below: list[Item] = [
        say.across((-radius, 0.0), (radius, 0.0), "Ø<>", 2 * radius, exact=False),
        Pointer((0.0, -radius), SECTION),
        *hoop.named(shape.hoop, radius, say),
    ]
    right = [say.between((0.0, 0.0), (0.0, shape.flat), "<> flat", upright=True)]
    up, back = relieved(shape.seat)[0], -shape.seat[0][0]
    top_up, top_back = relieved(shape.top)[0], -shape.top[0][0]
    areas = [
        _half(base, shape.lead_in, shape.flat, up, top_up),
        _flipped(_half(base, shape.lead_in, radius, back, top_back)),
    ]
    end = base.seat_height
    seats = [
        say.across((end, -back), (end, 0.0), f"<>{seat.held(book, say)}", back),
        say.between((end, 0.0), (end, up), upright=True),
    ]
    box = (-radius, -radius, radius, shape.flat)
    return [
        View(box, face, [Pointer((0.0, shape.flat), SECTION)], below, right=right, caption="Gap on top"),
        _section(base, shape.lead_in, areas, say, seats, more=partial(hoop.cut, hoop=shape.hoop), caption=CUT),
    ]


def _pin(shape: Pin, say: Figures) -> list[View]:
    base, radius, disc = shape.base, shape.base.flange_diameter / 2, shape.disc_diameter / 2
    low, high = (shape.pin_position + side * shape.pin_diameter / 2 for side in (-1, 1))

    def face(pen: Pen) -> None:
        pen.circle((0.0, 0.0), radius)
        pen.circle((0.0, 0.0), disc)
        pen.circle((0.0, shape.pin_position), shape.pin_diameter / 2)
        pen.axis((-shape.pin_diameter / 2, shape.pin_position), (shape.pin_diameter / 2, shape.pin_position), 2.0)
        _centre(pen, base)

    hole, bottom, top = base.hole_diameter / 2, -base.flange_thickness, base.seat_height
    inner = min(disc, low)
    step = [(0.0, low), (0.0, inner)] if inner < low else [(0.0, inner)]
    areas = [
        [(bottom, hole), (bottom, low), *step, (top, inner), (top, hole)],
        [(bottom, high), (bottom, radius), (0.0, radius), (0.0, high)],
        [(bottom, -hole), (bottom, -radius), (0.0, -radius), (0.0, -disc), (top, -disc), (top, -hole)],
    ]
    below: list[Item] = [
        say.across((-radius, 0.0), (radius, 0.0), "Ø<>", 2 * radius, exact=False),
        Pointer((0.0, -radius), SECTION),
    ]
    left = [
        say.across((0.0, 0.0), (0.0, shape.pin_position), f"<>{say.off(SEAT_HELD, -SEAT_HELD)}", shape.pin_position)
    ]
    above: list[Item] = [
        Pointer((0.0, radius), SECTION),
        say.across(
            (-shape.pin_diameter / 2, shape.pin_position),
            (shape.pin_diameter / 2, shape.pin_position),
            f"Ø<>{say.off(PIN_HELD, 0.0)}",
            shape.pin_diameter,
        ),
    ]
    seats = [say.across((top, -disc), (top, disc), f"Ø<>{say.off(SEAT_HELD, -SEAT_HELD)}", 2 * disc)]
    box = (-radius, -radius, radius, radius)
    return [
        View(box, face, above, below, left, caption="Pin's hole on top"),
        _section(base, 0.0, areas, say, seats, more=partial(_behind_pin, shape=shape), caption=CUT),
    ]


def _behind_pin(pen: Pen, shape: Pin) -> None:
    """Draw the edges that are seen behind the cut through the pin's hole."""
    bottom, top, disc = -shape.base.flange_thickness, shape.base.seat_height, shape.disc_diameter / 2
    low, high = (shape.pin_position + side * shape.pin_diameter / 2 for side in (-1, 1))
    rims = [((bottom, low), (bottom, high)), ((0.0, max(low, disc)), (0.0, high))]
    step = [((top, low), (top, disc)), ((top, disc), (0.0, disc))] if disc > low else [((0.0, disc), (0.0, low))]
    for start, end in (*rims, *step):
        pen.line(start, end)


def _round(shape: Round, book: Book, say: Figures) -> list[View]:
    base, radius = shape.base, shape.profile.points[4][1]
    upper = shape.profile.bores[0]
    lead = shape.profile.points[-1][0] - base.seat_height
    half = [*shape.profile.points[1:-1], *upper[-2:0:-1]]
    end = base.seat_height
    seats = [say.across((end, -radius), (end, radius), f"Ø<>{seat.held(book, say)}", 2 * radius)]
    rim, bottom = base.flange_diameter / 2, -base.flange_thickness
    flange = [say.across((bottom, -rim), (bottom, rim), "Ø<>", 2 * rim, exact=False)]
    return [_section(base, lead, [half, _flipped(half)], say, seats, flange)]


def _section(
    base: Base,
    lead: float,
    areas: Sequence[Sequence[Point]],
    say: Figures,
    seats: Sequence[Item],
    left: Sequence[Item] = (),
    more: Callable[[Pen], None] | None = None,
    caption: str = "Section",
) -> View:
    """The mandrel cut along its axis: flange on the left, seat on the right."""
    bottom, top, hole = -base.flange_thickness, base.seat_height + lead, base.hole_diameter / 2
    radius = base.flange_diameter / 2
    low = min(r for area in areas for _, r in area)
    high = max(r for area in areas for _, r in area)

    def drawn(pen: Pen) -> None:
        for area in areas:
            pen.path(area, close=True)
        pen.hatch(areas)
        for z in (bottom, top):
            pen.line((z, -hole), (z, hole))
        if more:
            more(pen)
        pen.axis((bottom, 0.0), (top, 0.0))

    seat = -max((-r for area in areas for z, r in area if z > 0), default=radius)
    below = [say.between((bottom, low), (0.0, low)), say.between((0.0, low), (base.seat_height, seat))]
    if lead:
        below.append(say.between((base.seat_height, seat), (top, seat), "<> lead-in"))
    above = [Pointer((base.seat_height / 2, _highest(areas)), say.rough(TURNED), texture=True)]
    holes = [say.across((top, -hole), (top, hole), "Ø<>", 2 * hole, exact=False)]
    return View((bottom, low, top, high), drawn, above, below, left, [*holes, *seats], caption)


def _highest(areas: Sequence[Sequence[Point]]) -> float:
    """The seat's surface on the upper side."""
    return max(r for area in areas for z, r in area if z > 0)


def _half(base: Base, lead: float, flange: float, seat: float, top: float) -> list[Point]:
    """Cut metal on one side of the axis."""
    hole, bottom, height = base.hole_diameter / 2, -base.flange_thickness, base.seat_height
    return [
        (bottom, hole), (bottom, flange), (0.0, flange), (0.0, seat), (height, seat), (height + lead, top),
        (height + lead, hole),
    ]  # fmt: skip


def _flipped(area: Sequence[Point]) -> list[Point]:
    return [(z, -r) for z, r in area]


def _mirrored(curve: Sequence[Point]) -> list[Point]:
    """The whole closed curve from its upper half."""
    upper = [*curve, relieved(tuple(curve))]
    return [*upper, *((x, -y) for x, y in upper[:0:-1])]


def _centre(pen: Pen, base: Base) -> None:
    radius = base.flange_diameter / 2
    pen.circle((0.0, 0.0), base.hole_diameter / 2)
    pen.axis((-radius, 0.0), (radius, 0.0))
    pen.axis((0.0, -radius), (0.0, radius))


def _radii(book: Book, say: Figures) -> Grid:
    """Radii of the seat every ten degrees."""
    points = [(a, r) for a, r in book["mandrel.profile"].value if abs(a / STEP - round(a / STEP)) < 1e-6]  # noqa: PLR2004
    rows = -(-len(points) // BLOCKS)
    head = ["Angle", "Radius"] * BLOCKS
    body = [[cell for n in range(BLOCKS) for cell in _cell(points, row + n * rows, say)] for row in range(rows)]
    return Grid([head, *body], (11.5, 16.5) * BLOCKS)


def _cell(points: Sequence[tuple[float, float]], n: int, say: Figures) -> tuple[str, str]:
    if n >= len(points):
        return "", ""
    return f"{points[n][0]:g}°", say.limit(points[n][1])


def _form_notes(shape: MandrelShape, book: Book, job: Job, say: Figures) -> list[str]:
    if isinstance(shape, Contoured):
        return [*seat.notes(shape, book, job, say), *hoop.notes(book, say)]
    if isinstance(shape, Pin):
        long = say.length(shape.base.flange_thickness + shape.base.seat_height)
        size = f"Ø{say.limit(shape.pin_diameter)}{say.off(0.0, -PIN_HELD)} by {long} {say.unit}"
        return [f"Pin: {size}, of the same steel. {DISC}"]
    return [
        f"Seat: round {seat.true(book, job, say)}; on diameter{seat.costs(book, say)}.",
        "The ring is slipped on, its gap free: no pin, no stop.",
    ]


def _notes(book: Book, job: Job, say: Figures) -> list[str]:
    notes = [f"For rings of drawing ring-blank{book.suffix}."] if book.suffix else []
    notes.append(f"Break sharp edges {say.length(EDGES)} {say.unit}.")
    if job.mandrel and job.mandrel.purpose == "fit check":
        notes.append(PRINTED)
    elif "mandrel.open_gap" in book:
        gap = say.limit(book["mandrel.open_gap"].value)
        several = "s" if job.mandrel and job.mandrel.rings > 1 else ""
        rings = f"{job.mandrel.rings} ring{several} at a time; " if job.mandrel else ""
        notes.append(f"{rings}each stands open by {gap} {say.unit} on its mean line.")
    return notes
