"""Shape of the blanking plug: a turned profile. Axis on Z, Z = 0 at the deck face, the plug below."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.profile import Profile

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.job import Job

WALL = 1.5  # mm left round and under a tapped hole


def blanking_plug(book: Book, job: Job) -> Profile:
    """Return the plug's profile: plain or with a shoulder, a driving chamfer below, a hole to draw it out by."""
    radius, bottom = book["plug.diameter"].value / 2, -book["plug.length"].value
    proud, chamfer = book["job.plug.stands_proud"].value, book["job.plug.chamfer"].value
    if chamfer >= min(radius, -bottom) - 0.1:
        raise JobError(
            Fault("plug.chamfer", f"leaves nothing of a plug of {2 * radius:g} mm by {-bottom:g} mm: {chamfer:g} mm")
        )
    foot: list[Point] = [(bottom, radius - chamfer), (bottom + chamfer, radius)] if chamfer else [(bottom, radius)]
    points = [(bottom, 0.0), *foot, *_head(job, radius, bottom + chamfer, proud), (proud, 0.0)]
    return Profile(tuple(points), _extraction(book, job, radius, bottom, proud))


def _head(job: Job, radius: float, straight_from: float, proud: float) -> list[Point]:
    shoulder = job.plug.shoulder if job.plug else None
    if shoulder is None:
        return [(proud, radius)]
    if shoulder.diameter < 2 * radius + 1:
        raise JobError(
            Fault(
                "plug.shoulder.diameter",
                f"must be at least 1 mm more than the plug's {2 * radius:g} mm, not {shoulder.diameter.written!r}",
            )
        )
    if -shoulder.thickness <= straight_from:
        raise JobError(
            Fault(
                "plug.shoulder.thickness",
                f"must be less than the straight {-straight_from:g} mm, not {shoulder.thickness.written!r}",
            )
        )
    return [(-shoulder.thickness, radius), (-shoulder.thickness, shoulder.diameter / 2), (proud, shoulder.diameter / 2)]


def _extraction(book: Book, job: Job, radius: float, bottom: float, proud: float) -> tuple[tuple[Point, ...], ...]:
    if job.plug is None or job.plug.extraction_thread is None:
        return ()
    drill, depth = book["plug.extraction.tap_drill"].value / 2, book["plug.extraction.depth"].value
    if book["plug.extraction.nominal"].value / 2 > radius - WALL:
        raise JobError(
            Fault(
                "plug.extraction_thread",
                f"leaves no {WALL:g} mm of wall in a {2 * radius:g} mm plug: {job.plug.extraction_thread.label}",
            )
        )
    room = proud - bottom - WALL
    if room < drill:
        raise JobError(
            Fault(
                "plug.extraction_thread",
                f"has no room in a plug {proud - bottom:g} mm long: {job.plug.extraction_thread.label}",
            )
        )
    floor = proud - min(depth, room)
    return (((floor, 0.0), (floor, drill), (proud, drill), (proud, 0.0)),)
