"""Shape of the stepped stud: a turned profile. Axis on Z, tap end down, Z = 0 at the deck face."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.profile import Profile
from parts.shapes.thread_form import ThreadForm

if TYPE_CHECKING:
    from parts.book import Book
    from parts.geometry.edge import Point
    from parts.job import Job
    from parts.thread import Thread

LEAST = 0.5  # mm of any cylinder that is to be turned
ROUND_CRESTS = ("whitworth", "ba", "cycle")  # families whose crest is rounded like the root


@dataclass(frozen=True, slots=True)
class ThreadedEnd:
    """What a true thread of an end needs beyond the profile [mm]."""

    key: str
    """stud.tap_end or stud.nut_end"""
    form: ThreadForm
    nominal: float
    face: float
    """z of the end face"""
    last: float
    """z where the last full thread ends and undercut, waist or shank begins"""
    chamfer: float
    behind: float
    """radius of what stands behind the thread"""


@dataclass(frozen=True, slots=True)
class StudShape(Profile):
    """A stud's profile, its threads plain cylinders, and what true threads need."""

    ends: tuple[ThreadedEnd, ...] = ()
    """tap end, nut end"""
    waist: tuple[Point, ...] = ()
    """(z, r) between the threads"""


def stepped_stud(book: Book, job: Job) -> StudShape:
    """Return the stud's profile; threads as plain cylinders of their nominal diameter (ISO 6410).

    JobError where a length leaves nothing to turn.
    """
    v = {n: book[f"stud.{n}"].value for n in ("tap_end_reach", "step_depth", "projection", "nut_end_length")}
    bottom, step, top = -v["tap_end_reach"], -v["step_depth"], v["projection"]
    collar = top - v["nut_end_length"]
    _refuse(
        collar - step,
        "stud.nut_end_length",
        f"leaves no shank: the nut end of {v['nut_end_length']:g} mm reaches down to the tap end",
    )
    _refuse(step - bottom, "stud.step_depth", f"leaves no tap end: it reaches only {-bottom:g} mm below the deck")
    tap, nut, shank = (book[f"stud.{n}"].value / 2 for n in ("tap_end_nominal", "nut_end_nominal", "shank_diameter"))
    tap_chamfer, nut_chamfer = _chamfer(book, "tap_end", step - bottom), _chamfer(book, "nut_end", v["nut_end_length"])
    points = [
        (bottom, 0.0),
        (bottom, tap - tap_chamfer),
        (bottom + tap_chamfer, tap),
        (step, tap),
        *(waist := _waist(book, step, collar, shank)),
        (collar, nut),
        (top - nut_chamfer, nut),
        (top, nut - nut_chamfer),
        (top, 0.0),
    ]
    if job.stud is None:
        raise AssertionError("asked for a stud that was not sized")
    ends = (
        _end(book, "tap_end", job.stud.tap_end, (bottom, step), tap_chamfer, waist[0][1]),
        _end(book, "nut_end", job.stud.nut_end, (top, collar), nut_chamfer, waist[-1][1]),
    )
    return StudShape(tuple(_distinct(points)), ends=ends, waist=tuple(waist))


def _end(
    book: Book, end: str, thread: Thread, between: tuple[float, float], chamfer: float, behind: float
) -> ThreadedEnd:
    """The thread in the middle of its limits; its root as far below the pitch line as the form has it."""
    v = {
        n: float(book[f"stud.{end}_{n}"].value)
        for n in ("major_max", "major_min", "pitch_diameter_max", "pitch_diameter_min")
    }
    factors = [float(book[f"stud.{end}_{n}_factor"].value) for n in ("root", "pitch_diameter")]
    middle = (v["pitch_diameter_max"] + v["pitch_diameter_min"]) / 2
    form = ThreadForm(
        pitch=thread.pitch,
        half_angle=thread.half_angle,
        major=(v["major_max"] + v["major_min"]) / 2,
        pitch_diameter=middle,
        root=middle - (factors[0] - factors[1]) * thread.pitch,
        round_crest=thread.family in ROUND_CRESTS,
        left_hand=thread.left_hand,
    )
    return ThreadedEnd(f"stud.{end}", form, thread.nominal, *between, chamfer, behind)


def _chamfer(book: Book, end: str, length: float) -> float:
    """A 45 degree chamfer down to the thread's root, on an end that has room for it."""
    return min(float(book[f"stud.{end}_lead_in"].value), length / 3)


def _waist(book: Book, step: float, collar: float, shank: float) -> list[Point]:
    """The shank between the threads, with an undercut at each end that has one."""
    low, high = _groove(book, "tap_end"), _groove(book, "nut_end")
    room = collar - step - low[0] - high[0]
    _refuse(
        room,
        "stud.thread_relief",
        f"leaves no shank: the undercuts take {low[0] + high[0]:g} mm of {collar - step:g} mm",
    )
    points: list[Point] = []
    if low[0]:
        points += [(step, low[1]), (step + low[0], low[1])]
    points += [(step + low[0], shank), (collar - high[0], shank)]
    if high[0]:
        points += [(collar - high[0], high[1]), (collar, high[1])]
    return points


def _groove(book: Book, end: str) -> tuple[float, float]:
    """Width and radius of an undercut, 0 where there is none."""
    width, diameter = f"stud.{end}_undercut_width", f"stud.{end}_undercut_diameter"
    return (book[width].value, book[diameter].value / 2) if width in book else (0.0, 0.0)


def _distinct(points: list[Point]) -> list[Point]:
    """Drop points that repeat the one before, or lie straight on between their neighbours."""
    out: list[Point] = []
    for point in points:
        if out and abs(out[-1][0] - point[0]) < 1e-9 and abs(out[-1][1] - point[1]) < 1e-9:  # noqa: PLR2004
            continue
        out.append(point)
    return [p for n, p in enumerate(out) if not (0 < n < len(out) - 1 and _straight(out[n - 1], p, out[n + 1]))]


def _straight(a: Point, b: Point, c: Point) -> bool:
    return abs((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])) < 1e-12  # noqa: PLR2004


def _refuse(length: float, key: str, says: str) -> None:
    if length < LEAST:
        raise JobError(Fault(key, says))
