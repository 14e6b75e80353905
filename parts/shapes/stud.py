"""Shape of the stepped stud: a turned profile. Axis on Z, tap end down, Z = 0 at the deck face."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.profile import Profile

if TYPE_CHECKING:
    from parts.book import Book
    from parts.edge import Point
    from parts.job import Job

LEAST = 0.5  # mm of any cylinder that is to be turned


def stud_shape(book: Book, _: Job) -> Profile:
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
        *_waist(book, step, collar, shank),
        (collar, nut),
        (top - nut_chamfer, nut),
        (top, nut - nut_chamfer),
        (top, 0.0),
    ]
    return Profile(tuple(_distinct(points)))


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
