"""A view of a part with what stands beside it, and how much paper it takes."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from parts.sheets.drawing.items import (
    APART,
    ARROW,
    SYMBOL,
    Across,
    Item,
    Length,
    Place,
    Plane,
    Pointer,
    along,
    pack,
    width,
)
from parts.sheets.drawing.sheet import SMALL, TEXT
from parts.writers.fonts import text_width

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop
    from parts.sheets.drawing.sheet import Sheet

FIRST = {"above": 6.0, "below": 9.0, "left": 8.0, "right": 11.0}
"""mm from the view to the first row"""
PITCH = 7.5  # mm from row to row
GAP, MIDDLE = 0.8, 0.8 + TEXT / 2  # mm from a dimension line to its text, and to the text's middle
CLOSE = 4.0  # mm past the end of a view, still clear of the rows beside it
CAPTION = 11.0  # mm below a view for its name


@dataclass(frozen=True)
class View:
    """One view; sizes in mm of the part, its axis on y = 0."""

    box: tuple[float, float, float, float]
    """left, low, right, high of what is drawn"""
    draw: Callable[[Pen], None]
    above: Sequence[Item] = ()
    below: Sequence[Item] = ()
    left: Sequence[Item] = ()
    right: Sequence[Item] = ()
    caption: str = ""
    scale: float | None = None
    """of a detail, where it is not the sheet's"""
    factor: float = 1.0
    """of the figures: 1 for mm, 1/25.4 for inches"""


@dataclass(frozen=True)
class Pen:
    """Draws on a sheet in mm of the part."""

    sheet: Sheet
    x: float
    y: float
    ratio: float

    def at(self, point: Point) -> Point:
        """Return a point of the part on the paper [mm]."""
        return self.x + point[0] * self.ratio, self.y + point[1] * self.ratio

    def line(self, start: Point, end: Point, layer: str = "OUTLINE") -> None:
        """Draw a line."""
        self.sheet.line(*self.at(start), *self.at(end), layer)

    def path(self, points: Sequence[Point], layer: str = "OUTLINE", *, close: bool = False) -> None:
        """Draw from point to point."""
        self.sheet.path([self.at(p) for p in points], layer, close=close)

    def loop(self, loop: Loop, layer: str = "OUTLINE") -> None:
        """Draw a closed line of lines and arcs."""
        self.sheet.loop(tuple((*self.at((x, y)), bulge) for x, y, bulge in loop), layer)

    def circle(self, centre: Point, radius: float, layer: str = "OUTLINE") -> None:
        """Draw a circle."""
        self.sheet.circle(*self.at(centre), radius * self.ratio, layer)

    def hatch(self, polygons: Sequence[Sequence[Point]]) -> None:
        """Hatch cut metal."""
        self.sheet.hatch([[self.at(p) for p in polygon] for polygon in polygons])

    def axis(self, start: Point, end: Point, over: float = 4.0) -> None:
        """Draw a centre line, a little longer than from point to point [mm of paper]."""
        (x0, y0), (x1, y1) = self.at(start), self.at(end)
        away = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 or 1.0
        dx, dy = (x1 - x0) / away * over, (y1 - y0) / away * over
        self.sheet.line(x0 - dx, y0 - dy, x1 + dx, y1 + dy, "CENTRE")


@dataclass(frozen=True)
class Laid:
    """A view laid out at a scale: the rows of its items, and the paper it takes about its origin [mm]."""

    view: View
    ratio: float
    places: dict[str, list[Place]] = field(repr=False)
    box: tuple[float, float, float, float]
    edges: dict[str, float]
    """where the rows of a side begin to count"""


def lay(view: View, scale: float, *, strict: bool = True) -> Laid:
    """Lay a view out; NoRoomError where a text would lie on a line, unless it is not to be `strict`."""
    ratio = view.scale or scale
    sides = {side: pack(getattr(view, side), ratio, upright=side in ("left", "right"), strict=strict) for side in FIRST}
    left, low, right, high = (v * ratio for v in view.box)
    across = [v for side in ("above", "below") for place in sides[side] for v in place.taken]
    upward = [v for side in ("left", "right") for place in sides[side] for v in place.taken]
    low, high = _beyond(sides, (left, low - _stub(view, ratio, 0), right, high + _stub(view, ratio, 1)))
    box = (
        min(left - _reach("left", sides["left"], TEXT), *across, left),
        min(low - _reach("below", sides["below"], 0.0), *upward, low) - (CAPTION if view.caption else 0.0),
        max(right + _reach("right", sides["right"], 0.0), *across, right),
        max(high + _reach("above", sides["above"], TEXT), *upward, high),
    )
    half = text_width(view.caption, TEXT) / 2
    middle = (left + right) / 2
    edges = {"above": high, "below": low, "left": left, "right": right}
    return Laid(view, ratio, sides, (min(box[0], middle - half), box[1], max(box[2], middle + half), box[3]), edges)


def _stub(view: View, ratio: float, end: int) -> float:
    """How far arrows from outside, on a diameter too small to hold them, stand out below (0) or above (1) the view."""
    small = [
        i for i in (*view.above, *view.below) if isinstance(i, Across) and (i.high - i.low) * ratio < 2 * ARROW + 1
    ]
    reach = [(i.high - view.box[3], view.box[1] - i.low)[1 - end] * ratio + 2 * ARROW + APART for i in small]
    return max(0.0, *reach) if reach else 0.0


def _beyond(sides: dict[str, list[Place]], box: tuple[float, float, float, float]) -> tuple[float, float]:
    """Where the rows below and above begin: at the view, or beyond what stands out on a side that they reach over."""
    left, low, right, high = box
    out = {"left": left - CLOSE, "right": -right - CLOSE}
    ends = {"below": low, "above": high}
    for row, way in (("below", -1), ("above", 1)):
        for side, edge in out.items():
            over = [v for place in sides[row] for v in place.taken if (v if side == "left" else -v) < edge]
            if over:
                reach = [way * v for place in sides[side] for v in place.taken]
                ends[row] = way * max([way * ends[row], *reach])
    return ends["below"], ends["above"]


def _reach(side: str, places: Sequence[Place], text: float) -> float:
    """How far the rows on a side reach from the view [mm]."""
    return FIRST[side] + PITCH * max(p.row for p in places) + text + APART if places else 0.0


def draw(sheet: Sheet, laid: Laid, x: float, y: float) -> None:
    """Draw a view with all its items, its origin at a point of the paper."""
    pen = Pen(sheet, x, y, laid.ratio)
    laid.view.draw(pen)
    factor = laid.view.factor * sheet.scale / laid.ratio
    for side, places in laid.places.items():
        out = 1 if side in ("above", "right") else -1
        from_here = laid.edges[side] + (y if side in ("above", "below") else x)
        for item, place in zip(getattr(laid.view, side), places, strict=True):
            row = from_here + out * (FIRST[side] + PITCH * place.row)
            if isinstance(item, Length):
                _length(pen, item, place, row, factor, upright=side in ("left", "right"))
            else:
                _shelf(pen, item, place, row, out, factor)
    middle = (laid.edges["left"] + laid.edges["right"]) / 2
    if laid.view.caption:
        sheet.text(laid.view.caption, x + middle, y + laid.box[1] + 1.5, TEXT, align="CENTER")


def _length(pen: Pen, item: Length, place: Place, row: float, factor: float, *, upright: bool) -> None:
    """Draw a dimension beside the view."""
    ends = sorted((item.start, item.end), key=lambda p: p[upright])
    middle = sum(place.text) / 2
    base, text_at = ((row, pen.y), (row - MIDDLE, pen.y + middle)) if upright else (
        (pen.x, row), (pen.x + middle, row + MIDDLE)
    )  # fmt: skip
    style = {"angle": 90 if upright else 0, "turned": 90 if upright else 0, "text": item.text, "factor": factor}
    style |= {"places": item.places, "zeros": 0 if item.zeros else 8}
    pen.sheet.dimension(pen.at(ends[0]), pen.at(ends[1]), base, text_at, style)
    low, high = place.legs
    for start, end in ((high, place.text[1]), (low, place.text[0])):
        if (end - start) * (1 if start == high else -1) > 0:
            start, end = (v + (pen.y if upright else pen.x) for v in (start, end))  # noqa: PLW2901
            line = (row, start, row, end) if upright else (start, row, end, row)
            pen.sheet.line(*line, "DIM")


def _shelf(pen: Pen, item: Across | Pointer | Plane, place: Place, row: float, out: int, factor: float) -> None:
    """Draw a text on a shelf, and what joins it to the part."""
    leg = pen.x + place.legs[0]
    low, high = (pen.x + v for v in place.text)
    end = high if high > leg + 1 else low
    if isinstance(item, Pointer):
        pen.sheet.leader([pen.at(item.at), (leg, row), (end, row)])
        _words(pen.sheet, item, low, row)
        return
    points = [pen.at((item.x, v)) for v in (item.low, item.high)][::out]
    if isinstance(item, Plane):
        start = points[0][1] - 3 * out
        pen.sheet.line(leg, start, leg, row, "DATUM")
        pen.sheet.text(item.text, low, row + GAP, TEXT)
    else:
        style = {"angle": 90, "turned": 0, "text": item.text, "factor": factor}
        style |= {"places": item.places, "zeros": 0 if item.zeros else 8}
        ends = sorted(points, key=lambda p: p[1])
        pen.sheet.dimension(ends[0], ends[1], points[1], ((low + high) / 2, row + MIDDLE), style)
        pen.sheet.line(*points[1], leg, row, "DIM")
    pen.sheet.line(leg, row, end, row, "DIM")


def _words(sheet: Sheet, item: Pointer, x: float, y: float) -> None:
    """Write a pointer's text, with the symbol of surface texture where it has one."""
    if item.texture:
        texture(sheet, x + 0.3, y, width(item) - SYMBOL)
    sheet.text(item.text, x + SYMBOL * item.texture, y + GAP, TEXT)


def texture(sheet: Sheet, x: float, y: float, wide: float, size: float = TEXT) -> None:
    """Draw the symbol of a machined surface (ISO 21920-1), its point on a line, room for a text under its bar."""
    high, short = 1.6 * size, 0.8 * size
    slope = 0.577
    point = x + short * slope
    top = point + high * slope
    lines = [(point - short * slope, y + short), (point, y), (top, y + high), (x + SYMBOL + wide, y + high)]
    sheet.path(lines, "THIN")
    sheet.line(point - short * slope, y + short, point + short * slope, y + short, "THIN")


__all__ = ["SMALL", "Laid", "Pen", "View", "along", "draw", "lay", "texture"]
