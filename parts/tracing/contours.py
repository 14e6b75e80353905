"""Lines of equal shade, and light made even."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

import contourpy
import numpy as np
from PIL import Image, ImageFilter

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Points = NDArray[np.float64]
    """n x 2: x to the right and y down, in dots; or X to the right and Y up, in mm"""

ACROSS = 2.5  # dots to either side of an edge, where it is told how sharp it is
PAST = 4.0  # dots to either side of an edge, past its blur
SMOOTHED = 6  # points of an edge to either side over which the shades beside it are smoothed
UNEVEN = 0.04  # of the paper's light, by which the mean beside an edge may stray from the usual before it is moved
FLATTEST = 0.01  # change of shade to a dot, under which a place tells nothing
MOVES = 4
CELLS = 256  # along the longer side of the picture from which the light is told
DEGREE = 4  # of the surface that the light is taken for
DARKER = 0.12  # share of the light by which paper may look darker than the surface
ROUNDS = 6


@dataclass(frozen=True)
class Contour:
    """A closed line; the first point is not told again."""

    points: Points
    sharp: NDArray[np.float64] | None = None
    """of each point: how much the shade changes across the line, where that was looked at"""

    @cached_property
    def area(self) -> float:
        """Area inside, of the sign of its turning."""
        x, y = self.points.T
        return float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y) / 2)

    @cached_property
    def length(self) -> float:
        """Way round."""
        return float(np.sum(np.hypot(*(np.roll(self.points, -1, axis=0) - self.points).T)))

    @cached_property
    def middle(self) -> Points:
        """Middle of its area."""
        shifted = self.points - self.points[0]
        x, y = shifted.T
        cross = x * np.roll(y, -1) - np.roll(x, -1) * y
        middle = [float(np.sum((v + np.roll(v, -1)) * cross)) / (6 * self.area) for v in (x, y)]
        return np.asarray(np.array(middle) + self.points[0])

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        low, high = self.points.min(axis=0), self.points.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    def holds(self, other: Contour) -> bool:
        """Whether another lies inside, where the two do not cross."""
        (a, b, c, d), (e, f, g, h) = self.box, other.box
        return a <= e and b <= f and c >= g and d >= h and bool(self.inside(other.points[:1])[0])

    def inside(self, points: Points) -> NDArray[np.bool_]:
        """Which of some points lie inside."""
        x, y = self.points.T
        nx, ny = np.roll(x, -1), np.roll(y, -1)
        px, py = points[:, :1], points[:, 1:]
        over = (y > py) != (ny > py)
        with np.errstate(divide="ignore", invalid="ignore"):
            across = x + (py - y) * (nx - x) / (ny - y)
        return np.asarray(np.sum(over & (px < across), axis=1) % 2 == 1)


def contours(
    shades: NDArray[np.float32], level: float, left: int = 0, top: int = 0
) -> tuple[list[Contour], list[Points]]:
    """Closed lines of a level, and those that leave the picture; the picture's corner lies at (left, top)."""
    lines: Any = contourpy.contour_generator(z=shades, name="serial").lines(level)
    corner = np.array([left, top])
    closed = [line[:-1] + corner for line in lines if len(line) > 8 and (line[0] == line[-1]).all()]  # noqa: PLR2004
    opened = [line + corner for line in lines if len(line) > 8 and not (line[0] == line[-1]).all()]  # noqa: PLR2004
    return [Contour(line) for line in closed], opened


def sharpness(
    line: Contour, shades: NDArray[np.float32], left: int, top: int, reach: float = ACROSS
) -> NDArray[np.float64]:
    """How much the shade changes across each point of a line, over a few dots."""
    out = _across(line.points)
    one, other = (_shade(shades, line.points + way * out - (left, top)) for way in (reach, -reach))
    return np.asarray(np.abs(one - other))


def lit(lines: list[Contour], shades: NDArray[np.float32], level: float, left: int, top: int) -> list[Contour]:
    """Lines of a level; where glare or a shadow lay on them moved to half way between the shades beside them.

    Not where another edge is so near that what is beside it is not told.
    """
    beside = [_beside(line.points, shades, (left, top)) for line in lines]
    usual = float(np.median(np.concatenate(beside))) if beside else 0.0
    moved = []
    for line, own in zip(lines, beside, strict=True):
        near, past = (sharpness(line, shades, left, top, reach) for reach in (ACROSS, PAST))
        alone = (past > near - UNEVEN)[:, None]
        if np.abs(own - usual).max() > UNEVEN:
            points = _moved(line.points, shades, level - usual, (left, top))
            line = replace(line, points=np.where(alone, points, line.points))  # noqa: PLW2901
        moved.append(line)
    return moved


def _moved(points: Points, shades: NDArray[np.float32], over: float, corner: tuple[int, int]) -> Points:
    """Points of an edge moved across it to the shade so much over the mean of those beside it."""
    for _ in range(MOVES):
        out = _across(points)
        lighter, darker = (_shade(shades, points + way * out - corner) for way in (1.0, -1.0))
        off = _beside(points, shades, corner) + over - _shade(shades, points - corner)
        slope = (lighter - darker) / 2
        step = np.where(np.abs(slope) > FLATTEST, off / np.where(slope == 0, 1, slope), 0.0)
        points = points + np.clip(step, -1, 1)[:, None] * out
    return points


def _beside(points: Points, shades: NDArray[np.float32], corner: tuple[int, int]) -> NDArray[np.float64]:
    """Mean of the shades to both sides of an edge, past its blur, grain smoothed along it."""
    out = _across(points)
    both = _shade(shades, points + PAST * out - corner) + _shade(shades, points - PAST * out - corner)
    wrapped = np.concatenate([both[-SMOOTHED:], both, both[:SMOOTHED]])
    return np.asarray(np.convolve(wrapped, np.full(2 * SMOOTHED + 1, 0.5 / (2 * SMOOTHED + 1)), "valid"))


def _across(points: Points) -> Points:
    """Across an edge at each of its points, one dot long."""
    along = np.roll(points, -2, axis=0) - np.roll(points, 2, axis=0)
    return np.asarray(np.stack([along[:, 1], -along[:, 0]], axis=1) / np.maximum(np.hypot(*along.T), 1e-9)[:, None])


def _shade(shades: NDArray[np.float32], points: Points) -> NDArray[np.float64]:
    """Shades at places between dots."""
    x, y = (np.clip(v, 0, n - 1.001) for v, n in zip(points.T, shades.shape[::-1], strict=True))
    i, j = x.astype(int), y.astype(int)
    x, y = x - i, y - j
    upper = shades[j, i] * (1 - x) + shades[j, i + 1] * x
    return np.asarray(upper * (1 - y) + (shades[j + 1, i] * (1 - x) + shades[j + 1, i + 1] * x) * y)


def levelled(shades: NDArray[np.float32], window: int) -> NDArray[np.float32]:
    """Shades as shares of the lightest within a window of so many dots round each."""
    step = max(1, window // 8)
    height, width = (n // step for n in shades.shape)
    cells = shades[: height * step, : width * step].reshape(height, step, width, step).mean(axis=(1, 3))
    small = Image.fromarray((cells * 255).astype(np.uint8))
    size = 2 * (window // step // 2) + 1
    light = (
        small.filter(ImageFilter.MaxFilter(size))
        .filter(ImageFilter.MinFilter(size))
        .filter(ImageFilter.GaussianBlur(2))
    )
    height, width = shades.shape
    whole = np.asarray(light.resize((width, height), Image.Resampling.BILINEAR), dtype=np.float32) / np.float32(255)
    return np.asarray(shades / np.maximum(whole, np.float32(0.05)))


def evened(shades: NDArray[np.float32]) -> NDArray[np.float32]:
    """Shades as shares of the paper's own, taken as a smooth surface through all that is paper."""
    step = max(1, max(shades.shape) // CELLS)
    height, width = (n // step for n in shades.shape)  # what is left over at two sides lies beside the frame's field
    cells = shades[: height * step, : width * step].reshape(height, step, width, step).mean(axis=(1, 3)).ravel()
    terms = _terms((np.arange(height) + 0.5) * step - 0.5, (np.arange(width) + 0.5) * step - 0.5, shades.shape)
    paper = cells > (cells.min() + cells.max()) / 2
    for _ in range(ROUNDS):
        some = terms[paper]
        found = np.linalg.solve(some.T @ some, some.T @ cells[paper])
        surface = terms @ found
        paper = cells > surface * (1 - DARKER)
    light = Image.fromarray(np.maximum(terms @ found, 0.05).astype(np.float32).reshape(height, width))
    whole = light.resize((width * step, height * step), Image.Resampling.BICUBIC)
    return np.asarray(shades[: height * step, : width * step] / np.asarray(whole))


def _terms(rows: Any, columns: Any, shape: tuple[int, ...]) -> Points:  # noqa: ANN401 - numbers of rows and columns
    y, x = 2 * rows / shape[0] - 1, 2 * columns / shape[1] - 1
    powers = [(i, j) for i in range(DEGREE + 1) for j in range(DEGREE + 1 - i)]
    return np.stack([np.multiply.outer(y**i, x**j).ravel() for i, j in powers], axis=1)


def dark_level(shades: NDArray[np.float32]) -> float:
    """Shade half way between paper, which is 1, and what lies on it.

    The two are parted where that leaves each most alike: Otsu, A threshold selection method from gray-level histograms,
    IEEE SMC 9 (1979).
    """
    counts, edges = np.histogram(shades[::4, ::4], bins=128, range=(0.0, 1.3))
    middles = (edges[:-1] + edges[1:]) / 2
    below, above = np.cumsum(counts), counts.sum() - np.cumsum(counts)
    sums = np.cumsum(counts * middles)
    with np.errstate(divide="ignore", invalid="ignore"):
        between = below * above * (sums / below - (sums[-1] - sums) / above) ** 2
    cut = int(np.nanargmax(between))
    dark = middles[: cut + 1]
    at = int(np.searchsorted(np.cumsum(counts[: cut + 1]), below[cut] / 2))
    return float((1 + dark[min(at, cut)]) / 2)
