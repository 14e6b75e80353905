"""Curves and surfaces of threads as splines of degree 7, which meet value and three derivatives at each knot.

All of them go by the azimuth psi [rad] or by a strip's own parameter. With a knot every 45 degrees a helix of 10 mm
radius is met to 0.2 um. No matrix is solved: the same poles on every processor.
"""

from __future__ import annotations

from cmath import exp
from math import ceil, hypot, pi
from typing import TYPE_CHECKING, Any, TypeVar

from OCP.Geom import Geom_BSplineCurve, Geom_BSplineSurface
from OCP.Geom2d import Geom2d_BSplineCurve, Geom2d_Line
from OCP.gp import gp_Dir2d, gp_Pnt, gp_Pnt2d
from OCP.TColgp import TColgp_Array1OfPnt, TColgp_Array1OfPnt2d, TColgp_Array2OfPnt
from OCP.TColStd import TColStd_Array1OfInteger, TColStd_Array1OfReal, TColStd_Array2OfReal

from parts.shapes.thread_form import Flank

if TYPE_CHECKING:
    from collections.abc import Sequence

    from parts.shapes.thread_form import Strip

    Spot = tuple[float, float]
    Real = Sequence[float]

Number = TypeVar("Number", float, complex)

DEGREE = 7
KNOT = pi / 4  # rad of azimuth between two knots
ARC = 16  # spans of the curve in which an end cuts an arc
STRAIGHT = 1e-12  # relative: a line whose parameter is its length


def spans(turn: float) -> int:
    """How many spans a curve over so much azimuth [rad] wants."""
    return max(1, ceil(abs(turn) / KNOT - 1e-9))


def poles(jets: Sequence[Sequence[Number]], step: float) -> list[Number]:
    """Poles of the spline of degree 7 through jets that lie `step` apart, each inner knot four times.

    By the polar form: a pole is the jet at its knot, opened towards the knots on both sides.
    """
    found = []
    for place, (f, d, dd, ddd) in enumerate(jets):
        back, ahead = step if place else 0.0, step if place < len(jets) - 1 else 0.0
        for n in range(4):
            u, v, w = ((-back,) * 3 + (ahead,) * 3)[n : n + 3]
            found.append(f + d * (u + v + w) / 7 + dd * (u * v + v * w + w * u) / 42 + ddd * u * v * w / 210)
    return found


def places(low: float, high: float, count: int) -> tuple[list[float], float]:
    """Return the ends of so many equal spans, and their length."""
    step = (high - low) / count
    return [*(low + n * step for n in range(count)), high], step


def round_poles(low: float, high: float) -> list[complex]:
    """Poles of exp(i psi)."""
    at, step = places(low, high, spans(high - low))
    return poles([[exp(1j * psi) * 1j**n for n in range(4)] for psi in at], step)


def even_poles(low: float, high: float) -> list[float]:
    """Poles of psi itself, in step with `round_poles`."""
    at, step = places(low, high, spans(high - low))
    return poles([[psi, 1.0, 0.0, 0.0] for psi in at], step)


def helix(radius: float, height: float, rise: float, low: float, high: float) -> Geom_BSplineCurve:
    """Return (radius, psi, height + rise psi) over psi."""
    flat = [radius * p for p in round_poles(low, high)]
    return space_curve(flat, [height + rise * p for p in even_poles(low, high)], low, high)


def space_curve(flat: Sequence[complex], heights: Sequence[float], low: float, high: float) -> Geom_BSplineCurve:
    """Spline of x + i y and z."""
    points = TColgp_Array1OfPnt(1, len(flat))
    for n, (p, z) in enumerate(zip(flat, heights, strict=True), 1):
        points.SetValue(n, gp_Pnt(p.real, p.imag, z))
    return Geom_BSplineCurve(points, *_knots(low, high, len(flat) // 4 - 1, DEGREE), DEGREE)


def plane_curve(spots: Sequence[complex], low: float, high: float) -> Geom2d_BSplineCurve:
    """Spline of u + i v on a surface."""
    points = TColgp_Array1OfPnt2d(1, len(spots))
    for n, p in enumerate(spots, 1):
        points.SetValue(n, gp_Pnt2d(p.real, p.imag))
    return Geom2d_BSplineCurve(points, *_knots(low, high, len(spots) // 4 - 1, DEGREE), DEGREE)


def straight(low: float, high: float, start: Spot, stop: Spot) -> Any:  # noqa: ANN401 - of the kernel
    """Straight line on a surface, at `start` where the parameter is low, at `stop` where it is high."""
    du, dv = stop[0] - start[0], stop[1] - start[1]
    length = hypot(du, dv)
    if abs(length - (high - low)) <= STRAIGHT * max(1.0, length):
        du, dv = du / length, dv / length
        return Geom2d_Line(gp_Pnt2d(start[0] - low * du, start[1] - low * dv), gp_Dir2d(du, dv))
    points = TColgp_Array1OfPnt2d(1, 2)
    points.SetValue(1, gp_Pnt2d(*start))
    points.SetValue(2, gp_Pnt2d(*stop))
    return Geom2d_BSplineCurve(points, *_knots(low, high, 1, 1), 1)


def end_places(strip: Strip, turn: float) -> tuple[list[float], float]:
    """Ends and length of the spans of the curve in which an end cuts a strip over so much azimuth [rad]."""
    return places(strip.low, strip.high, spans(turn) if isinstance(strip, Flank) else ARC)


def space_jets(strip: Strip, at: Sequence[float], step: float, jets: Sequence[tuple[Real, Real]]) -> Geom_BSplineCurve:
    """Return the curve on a strip with these azimuths and heights, and their derivatives, where its spans end."""
    flat = [_product([p.real for p in strip.jet(v)], _round_jet(turn)) for v, (turn, _) in zip(at, jets, strict=True)]
    heights = poles([height for _, height in jets], step)
    return space_curve(poles(flat, step), heights, strip.low, strip.high)


def _round_jet(turn: Real) -> list[complex]:
    """Jet of exp(i turn)."""
    d, dd, ddd = (1j * t for t in turn[1:])
    return [f * exp(1j * turn[0]) for f in (1, d, dd + d * d, ddd + 3 * d * dd + d**3)]


def _product(a: Sequence[complex], b: Sequence[complex]) -> list[complex]:
    """Jet of a product."""
    return [
        a[0] * b[0],
        a[1] * b[0] + a[0] * b[1],
        a[2] * b[0] + 2 * a[1] * b[1] + a[0] * b[2],
        a[3] * b[0] + 3 * a[2] * b[1] + 3 * a[1] * b[2] + a[0] * b[3],
    ]


def section(strip: Strip, height: float, azimuth: float) -> Geom_BSplineCurve:
    """Return a strip in the half plane at an azimuth, over its own parameter."""
    found = strip.poles()
    points, weights = TColgp_Array1OfPnt(1, len(found)), TColStd_Array1OfReal(1, len(found))
    turn = exp(1j * azimuth)
    for n, (pole, weight) in enumerate(found, 1):
        flat = pole.real * turn
        points.SetValue(n, gp_Pnt(flat.real, flat.imag, height + pole.imag))
        weights.SetValue(n, weight)
    degree = len(found) - 1
    return Geom_BSplineCurve(points, weights, *_knots(strip.low, strip.high, 1, degree), degree)


def wound(strip: Strip, rise: float, low: float, high: float) -> Geom_BSplineSurface:
    """Return a strip wound along a helix: u the azimuth, v the strip's own parameter, exact across."""
    across, along, up = strip.poles(), round_poles(low, high), even_poles(low, high)
    points = TColgp_Array2OfPnt(1, len(along), 1, len(across))
    weights = TColStd_Array2OfReal(1, len(along), 1, len(across))
    for k, (pole, weight) in enumerate(across, 1):
        for n, (turn, psi) in enumerate(zip(along, up, strict=True), 1):
            flat = pole.real * turn
            points.SetValue(n, k, gp_Pnt(flat.real, flat.imag, pole.imag + rise * psi))
            weights.SetValue(n, k, weight)
    degree = len(across) - 1
    (us, um), (vs, vm) = _knots(low, high, len(along) // 4 - 1, DEGREE), _knots(strip.low, strip.high, 1, degree)
    return Geom_BSplineSurface(points, weights, us, vs, um, vm, DEGREE, degree)


def _knots(low: float, high: float, count: int, degree: int) -> tuple[Any, Any]:
    """Knots and how often each stands: the ends degree + 1 times, those between four times."""
    at, _ = places(low, high, count)
    knots, times = TColStd_Array1OfReal(1, count + 1), TColStd_Array1OfInteger(1, count + 1)
    for n, place in enumerate(at, 1):
        knots.SetValue(n, place)
        times.SetValue(n, degree + 1 if n in (1, count + 1) else 4)
    return knots, times
