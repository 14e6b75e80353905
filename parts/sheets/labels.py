"""Where a label goes beside a hole so that it crosses nothing."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import cos, pi, sin
from typing import TYPE_CHECKING

from parts.geometry import outline
from parts.writers.fonts import plain, text_width

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from parts.geometry.edge import Point, Side
    from parts.geometry.outline import Loop
    from parts.sheets.drawing.sheet import Sheet

HEIGHT = 3.0  # mm, of capitals
CLEAR = 0.9  # mm round a label
AWAY = (1.4, 4.0, 7.0, 10.0, 14.0, 18.0, 24.0, 30.0)  # mm from the hole, the nearest first
WAYS = 24  # directions
FINE = 0.05  # mm, sagitta of what a label keeps off

Box = tuple[float, float, float, float]


@dataclass
class Labels:
    """Lines that labels keep off, and the labels that are there."""

    lines: list[Side] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)

    def keep_off(self, points: Sequence[Point], *, close: bool = False) -> None:
        """Keep labels off a line."""
        self.lines += zip(points, [*points[1:], *points[:1]] if close else points[1:], strict=False)

    def keep_off_loop(self, loop: Loop) -> None:
        """Keep labels off a closed line of lines and arcs."""
        self.keep_off(outline.flatten(loop, FINE), close=True)

    def put(self, sheet: Sheet, origin: Point, text: str, centre: Point, radius: float) -> None:
        """Write a label beside a hole, with a thin line to it where it stands away; nowhere if there is no room."""
        found = next(self._spots(plain(text), centre, radius), None)
        if found is None:
            return
        box, leader = found
        self.boxes.append(box)
        sheet.text(text, origin[0] + box[0] + CLEAR, origin[1] + box[1] + CLEAR, HEIGHT)
        if leader:
            self.lines.append(leader)
            (x0, y0), (x1, y1) = leader
            sheet.line(origin[0] + x0, origin[1] + y0, origin[0] + x1, origin[1] + y1, "CUT")

    def _spots(self, text: str, centre: Point, radius: float) -> Iterator[tuple[Box, Side | None]]:
        wide, high = text_width(text, HEIGHT) + 2 * CLEAR, HEIGHT + 2 * CLEAR
        for away in AWAY:
            foot = radius + away
            near = self._near(centre, foot + wide, foot + high)
            for n in range(WAYS):
                c, s = cos(2 * pi * (n + 0.5) / WAYS), sin(2 * pi * (n + 0.5) / WAYS)
                x, y = centre[0] + c * foot + (c - 1) * wide / 2, centre[1] + s * foot + (s - 1) * high / 2
                box = (x, y, x + wide, y + high)
                start = (centre[0] + c * radius, centre[1] + s * radius)
                end = (centre[0] + c * (foot - 0.2), centre[1] + s * (foot - 0.2))
                leader = (start, end) if away > AWAY[0] else None
                if near.free(box) and not (leader and any(touches(b, leader) for b in near.boxes)):
                    yield box, leader

    def _near(self, centre: Point, wide: float, high: float) -> Labels:
        """Only what lies within so far of a point to either side, and up and down."""
        x, y = centre
        box = (x - wide, y - high, x + wide, y + high)
        return Labels([s for s in self.lines if touches(box, s)], [b for b in self.boxes if not _apart(box, b)])

    def free(self, box: Box) -> bool:
        """Whether a box is clear of all lines and labels."""
        return all(_apart(box, b) for b in self.boxes) and not any(touches(box, line) for line in self.lines)


def _apart(a: Box, b: Box) -> bool:
    return a[0] >= b[2] or a[2] <= b[0] or a[1] >= b[3] or a[3] <= b[1]


def touches(box: Box, line: Side) -> bool:
    """Whether a line runs into a box: what is left of it after clipping at each of the four sides."""
    (x0, y0), (x1, y1) = line
    if (x0 <= box[0] and x1 <= box[0]) or (x0 >= box[2] and x1 >= box[2]):  # most are far off
        return False
    if (y0 <= box[1] and y1 <= box[1]) or (y0 >= box[3] and y1 >= box[3]):
        return False
    first, last = 0.0, 1.0
    for start, step, low, high in ((x0, x1 - x0, box[0], box[2]), (y0, y1 - y0, box[1], box[3])):
        if step == 0:
            if not low < start < high:
                return False
            continue
        enter, leave = sorted(((low - start) / step, (high - start) / step))
        first, last = max(first, enter), min(last, leave)
    return first < last
