"""The outlines of what lies on the frame: their edges brought onto the sheet, round ones as circles, others as arcs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from parts.geometry.arcs import fitted
from parts.geometry.outline import circle as circle_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from parts.geometry.outline import Loop
    from parts.tracing.contours import Contour, Points

SHARE = 0.35  # of the tolerance, that the arcs may use up; the rest is for the edge itself
STEP = 0.25  # mm between the points that arcs are fitted to
SMOOTH = 0.12  # mm, of the running mean along an edge
BESIDE = 4.0  # mm along an edge from where it is soft: not used for a circle either
PART, FEW = 0.02, 8  # of an edge's length, and points of it, that may be soft unsaid
TRIMMED = 0.06  # of the points of an edge that is soft somewhere
CORNER = 1.5  # mm of edge on either side by which the sharpest corner is told
ROUNDEST = 12  # points, at least, of a circle


@dataclass(frozen=True)
class Circle:
    """A circle by least squares [mm]."""

    x: float
    y: float
    radius: float
    worst: float
    """distance of the point that lies furthest off it, grain smoothed"""
    rms: float


@dataclass(frozen=True)
class Traced:
    """One outline as traced [mm]."""

    layer: str
    loop: Loop
    circle: Circle | None
    x: float
    y: float
    area: float
    worst: float
    """distance of the edge's furthest point from the lines and arcs, grain smoothed"""
    plus_minus: float
    """what a diameter, or a place of the edge, may be off"""


def circle(points: Points) -> Circle:
    """Fit a circle to points, without the bias to small radii of the plain algebraic fit.

    Taubin, Estimation of planar curves, surfaces and nonplanar space curves, IEEE PAMI 13 (1991), by the singular value
    form of Chernov, Circular and Linear Regression, 2010.
    """
    middle = points.mean(axis=0)
    x, y = (points - middle).T
    z = x * x + y * y
    mean = z.mean()
    z0 = (z - mean) / (2 * np.sqrt(mean))
    v = np.linalg.svd(np.stack([z0, x, y], axis=1), full_matrices=False)[2][2]
    a = v[0] / (2 * np.sqrt(mean))
    d = -mean * a
    at = -v[1:] / (2 * a) + middle
    radius = float(np.sqrt(v[1] ** 2 + v[2] ** 2 - 4 * a * d) / (2 * abs(a)))
    off = np.hypot(*(points - at).T) - radius
    return Circle(float(at[0]), float(at[1]), radius, float(np.abs(off).max()), float(np.sqrt(np.mean(off**2))))


def sharpened(one: Circle, blur: float) -> Circle:
    """A circle as it is without the blur, by its square [mm^2], that drew its edge towards the middle."""
    return replace(one, radius=one.radius + blur / (2 * one.radius))


def even(points: Points, step: float = STEP) -> Points:
    """Points of a closed line at even steps, grain smoothed by a running mean [mm]."""
    ring = np.vstack([points, points[:1]])
    way = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    fine = max(SMOOTH / 3, way[-1] / 200_000)
    at = np.arange(0.0, way[-1], fine)
    along = np.stack([np.interp(at, way, ring[:, k]) for k in (0, 1)], axis=1)
    half = max(1, round(SMOOTH / fine))
    kernel = np.ones(2 * half + 1) / (2 * half + 1)
    wrapped = np.vstack([along[-half:], along, along[:half]])
    smooth = np.stack([np.convolve(wrapped[:, k], kernel, "valid") for k in (0, 1)], axis=1)
    return np.asarray(smooth[:: max(1, round(step / fine))])


def outline(points: Points, within: float) -> tuple[Loop, float]:
    """A closed line as lines and arcs, and how far the worst of its points lies off them [mm]."""
    smooth = even(points)
    smooth = np.roll(smooth, -_corner(smooth), axis=0)
    listed = [(float(x), float(y)) for x, y in smooth]
    vertices, worst = fitted([*listed, listed[0]], SHARE * within)
    return tuple(vertices[:-1]), worst


def _corner(points: Points) -> int:
    """Number of the point where the line turns most."""
    reach = max(1, min(round(CORNER / STEP), len(points) // 8))
    before, after = points - np.roll(points, reach, axis=0), np.roll(points, -reach, axis=0) - points
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    return int(np.abs(np.arctan2(cross, np.sum(before * after, axis=1))).argmax())


def clean(line: Contour, sharp: float) -> Points:
    """Points of an edge at even steps, grain smoothed, those left away where it is softer than this."""
    points = even(line.points)
    if line.sharp is None:
        return points
    steps = np.linspace(0, len(line.points), len(points), endpoint=False).astype(int)
    soft, reach = line.sharp[steps] < sharp, round(BESIDE / STEP)
    beside = np.convolve(np.concatenate([soft[-reach:], soft, soft[:reach]]), np.ones(2 * reach + 1), "valid") > 0
    kept = points[~beside] if len(points) > 4 * reach else points[~soft]
    if len(kept) <= len(points) / 2:
        return points
    return kept if len(kept) == len(points) else _nearest(kept)


def _nearest(points: Points) -> Points:
    """Of points that glare may still have moved, those that lie nearest to one circle."""
    first = circle(points)
    off = np.abs(np.hypot(*(points - (first.x, first.y)).T) - first.radius)
    return np.asarray(points[off <= np.quantile(off, 1 - TRIMMED)])


def soft_part(line: Contour, sharp: float) -> NDArray[np.bool_] | None:
    """Which points of an edge are softer than this; None where they are too few to be said."""
    if line.sharp is None:
        return None
    soft = np.asarray(line.sharp < sharp)
    return soft if soft.mean() > PART and soft.sum() > FEW else None


def strayed(line: Contour, sharp: float) -> float:
    """How far an edge may lie off where it is soft, and beside that [mm].

    Where glare has eaten an edge its own rim is followed: so far off the straight way across such a stretch as that
    rim lies to the one side, the true edge may lie to the other.
    """
    soft = soft_part(line, sharp)
    if soft is None:
        return 0.0
    count = len(soft)
    reach = min(round(BESIDE * count / line.length), count // 4)
    beside = np.convolve(np.concatenate([soft[-reach:], soft, soft[:reach]]), np.ones(2 * reach + 1), "valid") > 0
    if beside.all():
        return float(np.hypot(*np.ptp(line.points, axis=0)))
    points, change = (np.roll(v, -int(beside.argmin()), axis=0) for v in (line.points, beside))
    change = np.diff(change.astype(int), append=0)
    worst = 0.0
    for start, stop in zip(np.flatnonzero(change > 0), np.flatnonzero(change < 0) + 1, strict=True):
        off, way = points[start:stop] - points[start], points[stop % count] - points[start]
        worst = max(worst, float(np.abs(off[:, 0] * way[1] - off[:, 1] * way[0]).max() / max(np.hypot(*way), STEP)))
    return 2 * worst


def lowered(line: Contour, eye: Points, thick: float, *, dark_inside: bool) -> Contour:
    """An edge of something so thick as it lies under itself on the sheet [mm].

    The upper edge is seen further out from under the lens than it lies. What is seen of an edge is the upper one where
    that covers the lower, else the lower.
    """
    points = line.points
    along = np.roll(points, -3, axis=0) - np.roll(points, 3, axis=0)
    out = np.stack([along[:, 1], -along[:, 0]], axis=1) * (1 if (line.area > 0) == dark_inside else -1)
    away = points - eye[:2]
    upper = np.sum(away * out, axis=1, keepdims=True) > 0
    return replace(line, points=np.where(upper, points - away * thick / eye[2], points))


def middle_of(outer: Contour, inner: Contour) -> Contour:
    """The middle of a drawn line, by its outer edge and its inner one [mm]."""
    gap = 2 * (abs(outer.area) - abs(inner.area)) / (outer.length + inner.length)
    points = outer.points
    along = np.roll(points, -3, axis=0) - np.roll(points, 3, axis=0)
    out = np.stack([along[:, 1], -along[:, 0]], axis=1) * (1 if outer.area > 0 else -1)
    return replace(outer, points=points - out / np.hypot(*out.T)[:, None] * gap / 2)


def as_loop(one: Circle) -> Loop:
    """A circle as a loop."""
    return circle_of(one.x, one.y, one.radius)


def nested(lines: Sequence[Contour]) -> list[tuple[Contour, int, int | None]]:
    """Lines from the largest down, each with how many hold it, and the number of the one that holds it closest."""
    ordered = sorted(lines, key=lambda line: -abs(line.area))
    found: list[tuple[Contour, int, int | None]] = []
    for n, line in enumerate(ordered):
        holders = [k for k in range(n) if found[k][0].holds(line)]
        found.append((line, len(holders), holders[-1] if holders else None))
    return found
