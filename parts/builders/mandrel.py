"""Expander mandrel: axis on Z, flange below Z = 0, the rings' seat above; the gap of the ring on +X."""

from __future__ import annotations

from functools import singledispatch
from math import fsum, pi
from typing import TYPE_CHECKING

from cadquery.func import Shape, compound, cut, cylinder, extrude, face, fuse, loft, polygon, segment, spline, wire

from parts.builders import checked, kernel
from parts.builders.flat import plate
from parts.builders.solid import pieces
from parts.builders.turned import turned
from parts.geometry import outline
from parts.geometry.outline import Region
from parts.geometry.profile import volume
from parts.shapes.mandrel import Base, Contoured, MandrelShape, Pin, Round, centre, flange_loop, mark_area, relieved

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.geometry.edge import Point

NAME = "expander mandrel"
MARK_DEPTH = 0.6  # mm


@singledispatch
def build(shape: MandrelShape, part: str = NAME) -> Shape:
    """Return the solid of a mandrel's shape; BuildError where the kernel fails or the volume is another."""
    raise TypeError(f"{part}: {type(shape)} is no mandrel")


@build.register
def _(shape: Contoured, part: str = NAME) -> Shape:
    base = shape.base
    flange = plate(Region(flange_loop(shape), (centre(base),)), base.flange_thickness, part)
    with kernel(NAME):
        heights = ((shape.seat, 0.0), (shape.seat, base.seat_height), (shape.top, base.seat_height + shape.lead_in))
        seat = loft(*(_edge(curve, z) for curve, z in heights), cap=True, ruled=True)
        hole = cylinder(base.hole_diameter, base.seat_height + shape.lead_in)
        solid = fuse(flange.moved(z=-base.flange_thickness), cut(seat, hole), glue="partial")
    return _marked(solid, base, _contoured_volume(shape))


@build.register
def _(shape: Pin, part: str = NAME) -> Shape:
    return _marked(pieces(shape.pieces, part), shape.base, shape.pieces.volume)


@build.register
def _(shape: Round, part: str = NAME) -> Shape:
    return _marked(turned(shape.profile, part), shape.base, volume(shape.profile))


def _edge(curve: tuple[tuple[float, float], ...], z: float) -> Shape:
    """Closed edge of the seat at a height: the spline round the back, straight across the gap."""
    mirror = [(x, -y, z) for x, y in curve[:0:-1]]
    points = [*mirror, *((x, y, z) for x, y in curve)]
    inner = relieved(curve)
    up, down = (inner[0], inner[1], z), (inner[0], -inner[1], z)
    count = len(points) - 1
    round_the_back = spline(points, params=[n / count for n in range(count + 1)])
    return wire(round_the_back, segment(points[-1], up), segment(up, down), segment(down, points[0]))


def _contoured_volume(shape: Contoured) -> float:
    """Closed form but for the areas, which are integrated along the curve."""
    base = shape.base
    flange = Region(flange_loop(shape), (centre(base),))
    middle = tuple(((x0 + x1) / 2, (y0 + y1) / 2) for (x0, y0), (x1, y1) in zip(shape.seat, shape.top, strict=True))
    low, mid, high = (seat_area(curve) for curve in (shape.seat, middle, shape.top))
    lead = (low + 4 * mid + high) / 6 * shape.lead_in
    hole = pi / 4 * base.hole_diameter**2 * (base.seat_height + shape.lead_in)
    return outline.area(flange) * base.flange_thickness + low * base.seat_height + lead - hole


def seat_area(curve: tuple[Point, ...]) -> float:
    """Area inside the seat's edge [mm^2]: the upper half by cubic interpolation along the points, twice."""
    (x_end, y_end), (x_in, y_in) = curve[-1], relieved(curve)
    half = _under_spline(curve) + (x_in - x_end) * (y_in + y_end) / 2
    return 2 * half


def _under_spline(curve: tuple[Point, ...]) -> float:
    """Integral of y dx along the points, mirrored at the back, by a cubic spline through them."""
    full = [*((x, -y) for x, y in curve[:0:-1]), *curve]
    slopes = list(zip(*(spline_slopes(axis) for axis in zip(*full, strict=True)), strict=True))
    start = len(curve) - 1
    return fsum(_under_span(*full[n : n + 2], *slopes[n : n + 2]) for n in range(start, len(full) - 1))


def _under_span(p: Point, q: Point, slope_p: Point, slope_q: Point) -> float:
    """Integral of y dx along one cubic from p to q."""
    (x0, y0), (x1, y1), (dx0, dy0), (dx1, dy1) = p, q, slope_p, slope_q
    total = 0.0
    for t, weight in ((0.5 - 0.6**0.5 / 2, 5 / 18), (0.5, 4 / 9), (0.5 + 0.6**0.5 / 2, 5 / 18)):  # exact to degree 5
        to, back = t * t * (3 - 2 * t), 1 - t
        y = (1 - to) * y0 + to * y1 + t * back * (back * dy0 - t * dy1)
        total += weight * y * (6 * t * back * (x1 - x0) + back * (1 - 3 * t) * dx0 + t * (3 * t - 2) * dx1)
    return total


def spline_slopes(values: Sequence[float]) -> list[float]:
    """Slopes of the cubic spline through values one step apart, with no knot at the last but one of either end.

    >>> [round(slope, 9) for slope in spline_slopes([0.0, 1.0, 8.0, 27.0, 64.0])]  # 3 n^2, of n^3
    [0.0, 3.0, 12.0, 27.0, 48.0]
    """
    v, last = values, len(values) - 1
    over, right = [2.0], [(-5 * v[0] + 4 * v[1] + v[2]) / 2]
    for n in range(1, last):  # s[n-1] + 4 s[n] + s[n+1] = 3 (v[n+1] - v[n-1]), eliminated from the top
        pivot = 4 - over[-1]
        over.append(1 / pivot)
        right.append((3 * (v[n + 1] - v[n - 1]) - right[-1]) / pivot)
    slopes = [((5 * v[last] - 4 * v[last - 1] - v[last - 2]) / 2 - 2 * right[-1]) / (1 - 2 * over[-1])]
    for n in range(last - 1, -1, -1):
        slopes.append(right[n] - over[n] * slopes[-1])
    return slopes[::-1]


def _marked(solid: Shape, base: Base, whole: float) -> Shape:
    """Cut the mark into the underside of a printed mandrel."""
    if base.mark:
        with kernel(NAME):
            bottom = -base.flange_thickness
            letters = [_letter(letter, bottom) for letter in base.mark]
            solid = cut(solid, compound(letters))
        whole -= mark_area(base) * MARK_DEPTH
    return checked(solid, NAME, whole)


def _letter(letter: tuple[tuple[tuple[float, float], ...], ...], z: float) -> Shape:
    outer, *inner = (polygon(*((x, y, z) for x, y in points)) for points in letter)
    return extrude(face(outer, *inner), (0, 0, MARK_DEPTH))
