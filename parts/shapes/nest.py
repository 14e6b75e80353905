"""Several of one flat part on a sheet: in rows, all turned alike, as the turn goes by which most of them fit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.outline import Hole, Opening, Region, bounds, transformed

if TYPE_CHECKING:
    from collections.abc import Sequence

GAP = 4.0  # mm between two parts, and to the edge of the sheet: common practice, no source
TURNS = range(0, 180, 5)  # deg
ROUND = 1e-6  # mm that a part may lack of room


def nest(part: Region, sheet: Sequence[float], key: str) -> list[Region]:
    """Return the parts in their places on a sheet, its lower left corner at the origin [mm].

    JobError where not one goes on it.

    >>> from parts.geometry.outline import rectangle
    >>> len(nest(Region(rectangle(90, 40)), (200, 100), "gasket.sheet"))
    4
    """
    fits = [(_count(part, turn, sheet), -turn) for turn in TURNS]
    (across, up), turn = max(fits, key=lambda fit: (fit[0][0] * fit[0][1], fit[1]))
    if not across * up:
        left, low, right, high = bounds(part.outer)
        says = (
            f"must hold the part of {right - left:.4g} x {high - low:.4g} mm and {GAP:g} mm round it, "
            f"not {sheet[0]:g} x {sheet[1]:g} mm"
        )
        raise JobError(Fault(key, says))
    left, low, right, high = bounds(transformed(part.outer, turned=-turn))
    wide, tall = right - left + GAP, high - low + GAP
    return [
        _moved(part, GAP - left + n * wide, GAP - low + row * tall, -turn) for row in range(up) for n in range(across)
    ]


def _count(part: Region, turn: float, sheet: Sequence[float]) -> tuple[int, int]:
    """How many go side by side, and how many rows."""
    left, low, right, high = bounds(transformed(part.outer, turned=turn))
    sides = zip(sheet, (right - left, high - low), strict=True)
    across, up = (int((room - GAP + ROUND) // (side + GAP)) for room, side in sides)
    return max(across, 0), max(up, 0)


def _moved(part: Region, x: float, y: float, turned: float) -> Region:
    def centre(hole: Hole) -> tuple[float, float]:
        return transformed([(hole.x, hole.y, 0.0)], x, y, turned)[0][:2]

    holes = tuple(Hole(*centre(h), h.diameter, h.layer) for h in part.holes)
    openings = tuple(Opening(transformed(o.loop, x, y, turned), o.layer) for o in part.openings)
    return Region(transformed(part.outer, x, y, turned), holes, openings)
