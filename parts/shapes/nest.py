"""Several of one flat part on a sheet: in rows, as the turn goes by which most of them fit."""

from __future__ import annotations

from math import ceil, floor, hypot, sqrt
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.outline import Hole, Opening, Region, bounds, flatten, transformed

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from parts.geometry.edge import Point
    from parts.geometry.outline import Loop

    Place = tuple[float, float, float]
    """turn [deg], X and Y [mm]"""

GAP = 4.0  # mm between two parts, and to the edge of the sheet: common practice, no source
TURNS = range(0, 180, 5)  # deg
ROUND = 1e-6  # mm that a part may lack of room
WAYS = {(0.0, 0.0): TURNS, (180.0, 0.0): range(0, 180, 15), (0.0, 0.5): range(0, 180, 15)}
"""turn of every other part of a row [deg] and shift of every other row, a share of a step -> turns of all [deg]"""
SLAB = 1.0  # mm: parts are held apart slab by slab
FINE = 0.05  # mm: of the points that a part's edge is taken by


def nest(part: Region, sheet: Sequence[float], key: str) -> list[Region]:
    """Return the parts in their places on a sheet, its lower left corner at the origin [mm].

    JobError where not one goes on it.

    >>> from parts.geometry.outline import rectangle
    >>> len(nest(Region(rectangle(90, 40)), (200, 100), "gasket.sheet"))
    4
    >>> len(nest(Region(((0, 0, 0.0), (90, 0, 0.0), (45, 70, 0.0))), (260, 80), "gasket.sheet"))
    4
    """
    refuse_small(part, sheet, key)
    tries = [(turn, way) for way, turns in WAYS.items() for turn in turns]
    places = max((_rows(part.outer, turn, way, sheet) for turn, way in tries), key=len)
    return [_moved(part, x, y, turn) for turn, x, y in places]


def refuse_small(part: Region, sheet: Sequence[float], key: str) -> None:
    """Refuse a sheet that not one part goes on, however it is turned."""
    if not any(_goes_on(bounds(transformed(part.outer, turned=turn)), sheet) for turn in TURNS):
        left, low, right, high = bounds(part.outer)
        says = (
            f"must hold the part of {right - left:.4g} x {high - low:.4g} mm and {GAP:g} mm round it, "
            f"not {sheet[0]:g} x {sheet[1]:g} mm"
        )
        raise JobError(Fault(key, says))


def _goes_on(box: tuple[float, float, float, float], sheet: Sequence[float]) -> bool:
    sides = box[2] - box[0], box[3] - box[1]
    return all(side + 2 * GAP <= room + ROUND for side, room in zip(sides, sheet, strict=True))


def _rows(outer: Loop, turn: float, way: tuple[float, float], sheet: Sequence[float]) -> list[Place]:
    """Turn and place of each part, in rows as near to each other as the parts go."""
    on, shifted = way
    loops = [transformed(outer, turned=turned) for turned in (turn, turn + on)]
    boxes = [bounds(loop) for loop in loops]
    wide, tall = boxes[0][2] - boxes[0][0], boxes[0][3] - boxes[0][1]
    if not _goes_on(boxes[0], sheet):
        return []
    edges = [_points(loop, box[:2]) for loop, box in zip(loops, boxes, strict=True)]
    steps = [min(_apart(edges[n], edges[1 - n]), wide + GAP) for n in (0, 1)]
    steps[1] = max(steps[1], min(_apart(edges[0], edges[0]), wide + GAP) - steps[0])
    along = [GAP]
    while along[-1] + steps[(len(along) - 1) % 2] + wide + GAP <= sheet[0] + ROUND:
        along.append(along[-1] + steps[(len(along) - 1) % 2])

    def up(shift: float) -> float:
        """How far the next row but so much to the right must lie above one."""
        beside = {(n % 2, m % 2, round(b - a + shift, 6)) for n, a in enumerate(along) for m, b in enumerate(along)}
        apart = (_apart(_across(edges[n]), _across(edges[m], by)) for n, m, by in beside if abs(by) < wide + GAP)
        return min(max(apart, default=0.0), tall + GAP)

    shift = shifted * steps[0]
    rise = up(0.0) if not shift else max(up(shift), up(-shift), up(0.0) / 2)
    return [
        (turn + on * (n % 2), x - boxes[n % 2][0], GAP + row * rise - boxes[n % 2][1])
        for row in range(floor((sheet[1] - 2 * GAP - tall + ROUND) / rise) + 1)
        for n, x in enumerate(x + shift * (row % 2) for x in along)
        if x + wide + GAP <= sheet[0] + ROUND
    ]


def _points(loop: Loop, corner: Point) -> list[Point]:
    """Points all along a loop, from the corner of its box."""
    found, line = list[tuple[float, float]](), flatten(loop, FINE)
    for (x0, y0), (x1, y1) in zip(line, [*line[1:], line[0]], strict=True):
        count = ceil(2 * hypot(x1 - x0, y1 - y0) / SLAB)
        found += [
            (x0 + (x1 - x0) * k / count - corner[0], y0 + (y1 - y0) * k / count - corner[1]) for k in range(count)
        ]
    return found


def _across(points: list[Point], by: float = 0.0) -> list[Point]:
    """Points with X and Y changed about, first moved along X."""
    return [(y, x + by) for x, y in points]


def _apart(one: list[Point], other: list[Point]) -> float:
    """How far to the right of one the other is to be, for no point of them to be nearer to each other than the gap."""
    right, left = dict[int, float](), dict[int, float]()
    for x, y in one:
        right[floor(y / SLAB)] = max(x, right.get(floor(y / SLAB), x))
    for x, y in other:
        left[floor(y / SLAB)] = min(x, left.get(floor(y / SLAB), x))
    return max((x - left[n + k] + need for n, x in right.items() for k, need in NEEDS if n + k in left), default=0.0)


def _needs() -> Iterator[tuple[int, float]]:
    """Slabs up and down, and the gap that is to be kept sideways from what lies there, a little more for chords."""
    for k in range(-ceil(GAP / SLAB), ceil(GAP / SLAB) + 1):
        yield k, sqrt(GAP**2 - (max(0, abs(k) - 1) * SLAB) ** 2) + 2 * FINE


NEEDS = tuple(_needs())


def _moved(part: Region, x: float, y: float, turned: float) -> Region:
    def centre(hole: Hole) -> tuple[float, float]:
        return transformed([(hole.x, hole.y, 0.0)], x, y, turned)[0][:2]

    holes = tuple(Hole(*centre(h), h.diameter, h.layer) for h in part.holes)
    openings = tuple(Opening(transformed(o.loop, x, y, turned), o.layer) for o in part.openings)
    return Region(transformed(part.outer, x, y, turned), holes, openings)
