"""Shapes of the ring: the blank as parted off, and the ring split and closed to the bore. Axis on Z, lying on Z = 0."""

from __future__ import annotations

from math import asin, pi, sqrt, tan
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.outline import Loop, Region
from parts.geometry.profile import Profile
from parts.shapes.pieces import Flat

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


TALLEST = 0.25  # of the blank's diameter: what is taller is a bush; common practice, no source


def ring_blank(book: Book, _: Job) -> Profile:
    """Return the blank's profile: a plain ring; JobError where it has no hole, or is too tall for a ring."""
    outside, inside = book["ring.outside_diameter"].value / 2, book["ring.inside_diameter"].value / 2
    height = book["job.ring.axial_width"].value
    if inside <= 0:
        raise JobError(Fault("ring.radial_thickness", f"leaves no hole in a blank of {2 * outside:g} mm"))
    if height > 2 * TALLEST * outside:
        most = f"must be at most {2 * TALLEST * outside:.1f} mm, a quarter of the blank's diameter, not {height:g} mm"
        raise JobError(Fault("ring.axial_width", f"{most}: taller, it is a bush"))
    return Profile(
        ((0.0, 0.0), (0.0, outside), (height, outside), (height, 0.0)),
        (((0.0, 0.0), (0.0, inside), (height, inside), (height, 0.0)),),
    )


def ring_split(book: Book, _: Job) -> Flat:
    """Return the split ring, closed round to the bore, its gap on +X with parallel faces."""
    outside, gap = book["job.engine.bore"].value / 2, book["ring.closed_gap"].value
    inside = outside - book["job.ring.radial_thickness"].value
    if not 0 < gap < inside:
        raise JobError(
            Fault("ring.closed_gap", f"must be more than 0 for a ring that closes in the bore, not {gap:g} mm")
        )
    return Flat(Region(split_loop(outside, inside, gap)), book["job.ring.axial_width"].value)


def split_loop(outside: float, inside: float, gap: float) -> Loop:
    """Closed loop of a split ring: round the outside, in at the gap, back round the inside, out at the gap."""
    half = gap / 2

    def corner(radius: float) -> float:
        return sqrt(radius * radius - half * half)

    def bulge(radius: float) -> float:
        return tan((2 * pi - 2 * asin(half / radius)) / 4)

    return (
        (corner(outside), half, bulge(outside)),
        (corner(outside), -half, 0.0),
        (corner(inside), -half, -bulge(inside)),
        (corner(inside), half, 0.0),
    )
