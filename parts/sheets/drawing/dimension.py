"""Dimensions and texts beside a view, drawn so that every CAD program shows the same.

Programs lay the text of a DIMENSION anew, along its line and beside it where it is too wide; some measure it anew and
know no other scale than the sheet's. So a DIMENSION stands only where it is true to size and its text has room between
its arrows; all others are lines and words.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.sheets.drawing.items import ARROW, SYMBOL, Across, Length, Place, Plane, Pointer, width
from parts.sheets.drawing.sheet import AWAY, BEYOND, GAP, TEXT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.geometry.edge import Point
    from parts.sheets.drawing.pen import Pen
    from parts.sheets.drawing.sheet import Sheet

MIDDLE = GAP + TEXT / 2  # mm from a dimension line to its text's middle


def draw_length(pen: Pen, item: Length, place: Place, row: float, *, upright: bool) -> None:
    """Draw a dimension beside the view, its line in a row [mm of paper]."""
    sheet, origin = pen.sheet, pen.y if upright else pen.x
    low, high, first, last = (v + origin for v in (*place.legs, *place.text))
    feet = [pen.at(p)[not upright] for p in sorted((item.start, item.end), key=lambda p: p[upright])]
    out = 1 if row > feet[0] else -1
    middle = (first + last) / 2
    text_at, align = (row - MIDDLE, middle) if upright else (middle, row + MIDDLE), "MIDDLE_CENTER"
    if pen.ratio == sheet.scale and low <= first and last <= high and width(item) <= high - low:
        level = out * max(out * foot for foot in feet)  # of both ends: some programs measure from point to point
        _extend(sheet, (low, high), feet, level + out * AWAY, upright=upright)
        sheet.dimension((low, high), level, row, text_at, item.text, upright=upright)
        return
    _extend(sheet, (low, high), feet, row + out * BEYOND, upright=upright)
    _arrows(sheet, low, high, row, upright=upright)
    _line(sheet, [(min(low, first), row), (max(high, last), row)], upright=upright)
    if first < low or last > high:  # from its foot: some programs know no other place
        text_at, align = ((row - GAP, first) if upright else (first, row + GAP)), "LEFT"
    sheet.text(item.text, *text_at, TEXT, align=align, turned=90 if upright else 0)


def _extend(sheet: Sheet, legs: Sequence[float], feet: Sequence[float], to: float, *, upright: bool) -> None:
    """Draw the extension lines from beside the part to a level."""
    for leg, foot in zip(legs, feet, strict=True):
        start = foot + (AWAY if to > foot else -AWAY)
        if start != to:
            _line(sheet, [(leg, start), (leg, to)], upright=upright)


def draw_shelf(pen: Pen, item: Across | Pointer | Plane, place: Place, row: float, out: int) -> None:
    """Draw a text on a shelf, and what joins it to the part."""
    leg, low, high = (pen.x + v for v in (*place.legs, *place.text))
    corner, end = (leg, row), (low if high < leg else high, row)
    if isinstance(item, Pointer):
        point = pen.at(item.at)
        pen.sheet.path([point, corner, end], "DIM")
        _arrow(pen.sheet, point, corner)
    elif isinstance(item, Plane):
        pen.sheet.line(leg, pen.at((item.x, item.high if out < 0 else item.low))[1] - 3 * out, leg, row, "DATUM")
        pen.sheet.path([corner, end], "DIM")
    else:
        near, far = (pen.at((item.x, v))[1] for v in (item.low, item.high)[::out])
        _arrows(pen.sheet, min(near, far), max(near, far), leg, upright=True)
        pen.sheet.path([(leg, far), corner, end], "DIM")
    if isinstance(item, Pointer) and item.texture:
        texture(pen.sheet, low + 0.3, row, width(item) - SYMBOL)
        low += SYMBOL
    pen.sheet.text(item.text, low, row + GAP, TEXT)


def texture(sheet: Sheet, x: float, y: float, wide: float, size: float = TEXT) -> None:
    """Draw the symbol of a machined surface (ISO 21920-1), its point on a line, room for a text under its bar."""
    high, short = 1.6 * size, 0.8 * size
    slope = 0.577
    point = x + short * slope
    top = point + high * slope
    lines = [(point - short * slope, y + short), (point, y), (top, y + high), (x + SYMBOL + wide, y + high)]
    sheet.path(lines, "THIN")
    sheet.line(point - short * slope, y + short, point + short * slope, y + short, "THIN")


def _arrows(sheet: Sheet, low: float, high: float, row: float, *, upright: bool) -> None:
    """Draw a dimension line with its arrows, from outside where it is too short to hold them."""
    out = 1 if high - low < 2 * ARROW + 1 else -1
    over = 2 * ARROW if out > 0 else 0.0
    _line(sheet, [(low - over, row), (high + over, row)], upright=upright)
    for tip, way in ((low, -out), (high, out)):
        ends = (tip, row), (tip + way * ARROW, row)
        _arrow(sheet, *((end[::-1] if upright else end) for end in ends))


def _arrow(sheet: Sheet, tip: Point, towards: Point) -> None:
    """Draw an arrow, its tip at a point, its back towards another: filled, and its outline where nothing is filled."""
    dx, dy = towards[0] - tip[0], towards[1] - tip[1]
    share = ARROW / ((dx * dx + dy * dy) ** 0.5 or 1.0)
    dx, dy = dx * share, dy * share
    back = [(tip[0] + dx - side * dy / 6, tip[1] + dy + side * dx / 6) for side in (-1, 1)]
    sheet.fill([tip, *back], "DIM")
    sheet.path([tip, *back], "DIM", close=True)


def _line(sheet: Sheet, points: Sequence[Point], *, upright: bool) -> None:
    """Draw a line given along the side and out from it."""
    sheet.path([p[::-1] for p in points] if upright else points, "DIM")
