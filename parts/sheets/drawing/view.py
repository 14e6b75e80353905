"""A view of a part with what stands beside it, and how much paper it takes."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from parts.sheets.drawing.dimension import draw_length, draw_shelf
from parts.sheets.drawing.items import APART, ARROW, Across, Care, Item, Length, Place, pack
from parts.sheets.drawing.pen import Pen
from parts.sheets.drawing.sheet import TEXT
from parts.writers.fonts import text_width

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from parts.sheets.drawing.sheet import Sheet

FIRST = {"above": 6.0, "below": 9.0, "left": 8.0, "right": 11.0}
"""mm from the view to the first row"""
PITCH = 7.5  # mm from row to row
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


@dataclass(frozen=True)
class Laid:
    """A view laid out at a scale: the rows of its items, and the paper it takes about its origin [mm]."""

    view: View
    ratio: float
    places: dict[str, list[Place]] = field(repr=False)
    box: tuple[float, float, float, float]
    edges: dict[str, float]
    """where the rows of a side begin to count"""


def lay(view: View, scale: float, care: Care = Care.ROOMY) -> Laid:
    """Lay a view out with some care; NoRoomError where that can't be had."""
    ratio = view.scale or scale
    sides = {side: pack(getattr(view, side), ratio, upright=side in ("left", "right"), care=care) for side in FIRST}
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
    for side, places in laid.places.items():
        out = 1 if side in ("above", "right") else -1
        from_here = laid.edges[side] + (y if side in ("above", "below") else x)
        for item, place in zip(getattr(laid.view, side), places, strict=True):
            row = from_here + out * (FIRST[side] + PITCH * place.row)
            if isinstance(item, Length):
                draw_length(pen, item, place, row, upright=side in ("left", "right"))
            else:
                draw_shelf(pen, item, place, row, out)
    middle = (laid.edges["left"] + laid.edges["right"]) / 2
    if laid.view.caption:
        sheet.text(laid.view.caption, x + middle, y + laid.box[1] + 1.5, TEXT, align="CENTER")
