"""What the mandrel's drawing says of its seat: its limits and what they cost, where it ends, how to measure it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.geometry.outline import bounds
from parts.judging.limits import SEAT_HELD
from parts.judging.seat_choices import fine
from parts.relations.contour import from_back
from parts.relations.mandrel import COSTED
from parts.shapes.mandrel import RELIEF
from parts.sheets.outlines import seat_loop

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job
    from parts.shapes.mandrel import Contoured
    from parts.sheets.drawing.words import Figures

CURVE = (
    "Angles from the back, opposite the gap. The outline is in expander-mandrel{0}-outline.dxf, "
    "finer points in expander-mandrel{0}-outline.csv."
)
FLAT = "The flat on the flange marks the gap."


def held(book: Book, say: Figures, sides: float = 1.0) -> str:
    """Print by how much the seat may be larger or smaller; so many times that where it is measured across."""
    half = sides * book["mandrel.seat_held"].value if "mandrel.seat_held" in book else SEAT_HELD
    return f" ±{say.limit(half)}"


def costs(book: Book, say: Figures) -> str:
    """Say what an error of the seat does to the open gap."""
    if "mandrel.seat_cost" not in book:
        return ""
    cost = say.limit(book["mandrel.seat_cost"].value)
    return f": {say.limit(COSTED)} {say.unit} moves the open gap by {cost} {say.unit}"


def true(book: Book, job: Job, say: Figures) -> str:
    """Say how true the seat is held, and how true the pressure on the wall wants it."""
    within = book["job.mandrel.seat_within"].value
    told = f"within ±{say.limit(within)} {say.unit} all round"
    wanted = book["mandrel.seat_error"].value if "mandrel.seat_error" in book else 0.0
    if not 0 < wanted < within:
        return told
    return f"{told}: as near as it is turned and filed, an even pressure wants ±{fine(wanted, job)}"


def notes(shape: Contoured, book: Book, job: Job, say: Figures) -> list[str]:
    """Say all of a contoured seat."""
    curve = f"Seat: the curve of the table{held(book, say)} {say.unit}, alike on both sides{costs(book, say)}."
    return [
        f"{curve} {CURVE.format(book.suffix)}",
        f"Its shape is true {true(book, job, say)}.",
        *_ends(shape, book, say),
        FLAT,
    ]


def _ends(shape: Contoured, book: Book, say: Figures) -> list[str]:
    """Say where the curve ends, what slot clears the ring's ends, how the lead-in falls, and what callipers find."""
    x, y = shape.seat[-1]
    left, low, right, high = bounds(seat_loop(shape)[0])
    wide, deep, unit = say.limit(2 * y), say.length(RELIEF), say.unit
    lead = f"Lead-in: {say.length(shape.lead_in)} {unit} long, {say.length(shape.lead_in / 2)} {unit} deep all round."
    slot = f"a slot {wide} {unit} wide, {deep} {unit} deep"
    off = held(book, say, 2.0)
    across, far = f"{say.limit(high - low)}{off} {unit}", f"{say.limit(right - left)}{off} {unit}"
    return [
        f"The curve goes on to {from_back(x, y):.1f}° on both sides; between lies {slot}. {lead}",
        f"By callipers: {across} across at right angles to the gap, {far} from the back to the far side.",
    ]
