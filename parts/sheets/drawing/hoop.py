"""The hoop of wire on the mandrel's drawing: where it lies round each ring, and its twist, in thin chain lines."""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING

from parts.sheets.drawing.items import Pointer
from parts.sizing.hoop import times_round

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.shapes.mandrel import Hoop
    from parts.sheets.drawing.pen import Pen
    from parts.sheets.drawing.words import Figures

LINE = "DATUM"
ASIDE = 200.0  # deg from the gap to the twist, clear of the line of the cut
OUT = 2.0  # mm that the twist ends inside the flange's rim


def face(pen: Pen, hoop: Hoop | None, flange: float) -> None:
    """Draw it in the face, the gap on top: round the ring, straight across the gap, twisted at the back."""
    if hoop is None:
        return
    for curve in (hoop.inner, hoop.outer):
        half = [(-y, x) for x, y in curve]
        pen.path([*half, *((-x, y) for x, y in half[:0:-1])], LINE, close=True)
    near = _turned(-hoop.outer[0][0])
    pen.path([near, twist(flange)], LINE)


def twist(flange: float) -> Point:
    """Where the twist ends, by the flange's radius."""
    return _turned(flange - OUT)


def _turned(radius: float) -> Point:
    return -radius * sin(radians(ASIDE)), radius * cos(radians(ASIDE))


def named(hoop: Hoop | None, flange: float, say: Figures) -> list[Pointer]:
    """Name it below the face."""
    return [] if hoop is None else [Pointer(twist(flange), f"Ø{say.diameter(hoop.wire)} hoop")]


def cut(pen: Pen, hoop: Hoop | None) -> None:
    """Draw the wires in the cut along the axis, on the side of the back."""
    if hoop is None:
        return
    across = (hoop.inner[0][0] + hoop.outer[0][0]) / 2
    for height in hoop.heights:
        pen.circle((height, across), hoop.wire / 2, LINE)


def notes(book: Book, say: Figures) -> list[str]:
    """Say what it is of and in what order it goes on."""
    if "mandrel.hoop_wire" not in book:
        return []
    wire, long = say.diameter(book["mandrel.hoop_wire"].value), say.length(book["mandrel.hoop_length"].value)
    cut = f"soft iron wire Ø{wire}, {long} {say.unit} long"
    way = f"{times_round(book)} at half its height, twisted tight at the back"
    return [f"Hoops, one a ring: {cut}, {way}; then the plate."]
