"""Views of flat parts: the face with its holes numbered, the edge, and the table of the holes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.geometry import outline
from parts.sheets.drawing.furniture import Grid
from parts.sheets.drawing.items import Pointer
from parts.sheets.drawing.view import View

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.geometry.outline import Region
    from parts.sheets.drawing.items import Item
    from parts.sheets.drawing.pen import Pen
    from parts.sheets.drawing.words import Figures

OVER = 2.0  # mm that a centre line goes on past its hole
WIDTHS = (12.0, 20.0, 20.0, 24.0)  # mm of the table's columns


def face(region: Region, say: Figures, held: str | None = None, caption: str = "", numbered: int = 0) -> View:
    """Return the face, each hole with its number where there is more than one, or of so many; held: its width's limits.

    Without those the width is left to another view.
    """
    left, low, right, high = outline.bounds(region.outer)
    round_one = outline.as_circle(region.outer)
    sign = "Ø" if round_one else ""
    wide = say.across((left, 0.0), (right, 0.0), f"{sign}<>{held}", right - left, exact=False)
    below: list[Item] = [wide] if held is not None else []
    right_of: list[Item] = [] if round_one else [say.between((right, low), (right, high), upright=True)]

    def drawn(pen: Pen) -> None:
        pen.loop(region.outer)
        for opening in region.openings:
            pen.loop(opening.loop)
        for hole in region.holes:
            radius = hole.diameter / 2
            pen.loop(outline.circle(hole.x, hole.y, radius))
            reach = radius + OVER
            pen.axis((hole.x - reach, hole.y), (hole.x + reach, hole.y))
            pen.axis((hole.x, hole.y - reach), (hole.x, hole.y + reach))

    above: list[Item] = []
    for number, hole in enumerate(region.holes[: numbered or None] if len(region.holes) > 1 else (), 1):
        up = hole.y >= 0
        (above if up else below).append(
            Pointer((hole.x, hole.y + (hole.diameter if up else -hole.diameter) / 2), str(number))
        )
    return View((left, low, right, high), drawn, above=above, below=below, right=right_of, caption=caption)


def edge(region: Region, thickness: float, say: Figures, held: str = "") -> View:
    """Return the part seen on its edge, lying to the right, cut through a hole on its middle where there is one."""
    _, low, _, high = outline.bounds(region.outer)
    cuts = sorted((h.y - h.diameter / 2, h.y + h.diameter / 2) for h in region.holes if h.x == 0)
    ends = [low, *(y for cut in cuts for y in cut), high]
    areas = [[(0.0, a), (0.0, b), (thickness, b), (thickness, a)] for a, b in zip(ends[::2], ends[1::2], strict=True)]

    def drawn(pen: Pen) -> None:
        pen.path([(0.0, low), (0.0, high), (thickness, high), (thickness, low)], close=True)
        for area in areas:
            pen.path(area, close=True)
        pen.hatch(areas)

    thick = say.across((0.0, low), (thickness, low), f"<>{held}", thickness, exact=False)
    return View((0.0, low, thickness, high), drawn, below=[thick], caption="Section")


def hole_table(region: Region, say: Figures, held: Sequence[str] = (), last: str = "") -> Grid:
    """Return the table of the holes: number, of the last a name, X and Y from the middle, diameter with its limits."""
    rows = [["Hole", f"X {say.unit}", f"Y {say.unit}", f"Ø {say.unit}"]]
    for number, hole in enumerate(region.holes, 1):
        off = held[number - 1] if held else ""
        rows.append([str(number), say.limit(hole.x), say.limit(hole.y), f"{say.diameter(hole.diameter)}{off}"])
    rows[-1][0] = last or rows[-1][0]
    return Grid(rows, WIDTHS)
