"""A plot as dots: every line, area and letter filled as polygons, in plain arithmetic; the same dots everywhere."""

from __future__ import annotations

from itertools import pairwise
from math import ceil, cos, floor, hypot, pi, sin
from typing import TYPE_CHECKING

import numpy as np

from parts.pictures.png import png
from parts.writers import writing
from parts.writers.fonts import em
from parts.writers.glyphs import contours, placed, start_of
from parts.writers.plot import Area, Label

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from numpy.typing import NDArray

    from parts.writers.plot import Mark, Picture, Point

    Polygon = tuple[Point, ...]
    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

SCALE = 1.6  # dots of the PNG to a dot of the plot
SAMPLES = 4  # each way, of a dot
DISC = [(cos(pi * n / 6), sin(pi * n / 6)) for n in range(12)]


def write_plot_png(picture: Picture, path: Path) -> None:
    """Write a plot as PNG."""
    with writing(path):
        path.write_bytes(png(painted(picture, SCALE)))


def painted(picture: Picture, scale: float) -> NDArray[np.uint8]:
    """Return the plot (height, width, 3) on white."""
    width, height = round(picture.width * scale), round(picture.height * scale)
    paper = np.full((height, width, 3), 255, dtype=np.uint8)
    for mark in picture.marks:
        sides = [(*a, *b) for polygon in outline(mark) for a, b in pairwise((*polygon, polygon[0]))]
        color = np.array([int(mark.color[n : n + 2], 16) for n in (1, 3, 5)], dtype=np.int64)
        if sides:
            _fill(paper, np.array(sides, dtype=np.float64) * scale, color)
    return paper


def outline(mark: Mark) -> list[Polygon]:
    """Return a mark as polygons whose union, by the rule of winding, it is."""
    if isinstance(mark, Area):
        return [mark.points]
    if isinstance(mark, Label):
        return list(_lettered(mark))
    pieces = _dashed(mark.points, *mark.dash) if mark.dash else [mark.points]
    return [polygon for piece in pieces for polygon in _stroked(piece, mark.width / 2, rounded=not mark.dash)]


def _lettered(words: Label) -> Iterator[Polygon]:
    size, (x0, y0) = words.size / em(), start_of(words)
    for name, at in placed(words.text):
        for contour in contours(name):
            if words.upright:
                yield tuple((x0 - y * size, y0 - (at + x) * size) for x, y in contour)
            else:
                yield tuple((x0 + (at + x) * size, y0 - y * size) for x, y in contour)


def _stroked(points: Polygon, half: float, *, rounded: bool) -> Iterator[Polygon]:
    """Each stretch as a rectangle, each corner as a disc, all the same way round."""
    for (xa, ya), (xb, yb) in pairwise(points):
        long = hypot(xb - xa, yb - ya)
        if long > 0:
            dx, dy = half * (xb - xa) / long, half * (yb - ya) / long
            yield (xa + dy, ya - dx), (xb + dy, yb - dx), (xb - dy, yb + dx), (xa - dy, ya + dx)
    for x, y in points if rounded else points[1:-1]:
        yield tuple((x + half * a, y + half * b) for a, b in DISC)


def _dashed(points: Polygon, drawn: float, left: float) -> list[Polygon]:
    """Pieces of a line, `drawn` long and `left` apart."""
    pieces, piece, on, rest = list[list["Point"]](), [points[0]], True, drawn
    for (xa, ya), (xb, yb) in pairwise(points):
        long, done = hypot(xb - xa, yb - ya), 0.0
        while long - done > rest:
            done += rest
            cut = (xa + (xb - xa) * done / long, ya + (yb - ya) * done / long)
            pieces += [[*piece, cut]] * on
            piece, on = [cut], not on
            rest = drawn if on else left
        rest -= long - done
        piece.append((xb, yb))
    return [tuple(p) for p in [*pieces, *([piece] * on)]]


def _fill(paper: NDArray[np.uint8], sides: Floats, color: NDArray[np.int64]) -> None:
    """Colour what the polygons of these sides, (xa, ya, xb, yb), cover, by the share of each dot."""
    height, width, _ = paper.shape
    left, top = (max(0, floor(sides[:, n].min())) for n in (0, 1))
    right, bottom = (min(most, ceil(sides[:, n].max()) + 1) for n, most in ((0, width), (1, height)))
    if right <= left or bottom <= top:
        return
    count = _count((sides - (left, top, left, top)) * SAMPLES, right - left, bottom - top)
    dots, whole = np.nonzero(count), SAMPLES * SAMPLES
    share, part = count[dots][:, None], paper[top:bottom, left:right]
    part[dots] = (part[dots] * (whole - share) + color * share + whole // 2) // whole


def _count(sides: Floats, width: int, height: int) -> Ints:
    """How many samples of each dot the polygons go round: from crossing to crossing, along each row of samples."""
    samples, turns = _crossings(sides, width * SAMPLES, height * SAMPLES)
    inside = np.flatnonzero(np.cumsum(turns)[:-1])
    starts, long = samples[inside], samples[inside + 1] - samples[inside]
    covered = np.arange(long.sum()) + np.repeat(starts - (np.cumsum(long) - long), long)
    row, column = np.divmod(covered, width * SAMPLES + 1)
    dots = np.bincount(row // SAMPLES * width + column // SAMPLES, minlength=width * height)
    return dots.reshape(height, width)


def _crossings(sides: Floats, width: int, height: int) -> tuple[Ints, Ints]:
    """Where the sides cross the middle of each row of samples, row by row: the sample behind, and 1 or -1 the way."""
    xa, ya, xb, yb = sides.T
    down = yb > ya
    low, high = np.where(down, ya, yb), np.where(down, yb, ya)
    first = np.clip(np.ceil(low - 0.5), 0, height).astype(np.int64)
    last = np.clip(np.ceil(high - 0.5), 0, height).astype(np.int64)
    counts = last - first
    edge = np.repeat(np.arange(len(sides)), counts)
    row = np.repeat(first, counts) + np.arange(len(edge)) - np.repeat(np.cumsum(counts) - counts, counts)
    x = xa[edge] + (row + 0.5 - ya[edge]) / (yb[edge] - ya[edge]) * (xb[edge] - xa[edge])
    sample = row * (width + 1) + np.clip(np.ceil(x - 0.5), 0, width).astype(np.int64)
    order = np.argsort(sample, kind="stable")
    return sample[order], np.where(down[edge], 1, -1)[order]
