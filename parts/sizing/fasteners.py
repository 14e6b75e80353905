"""Nut and washer of a stud."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from parts import tables
from parts.errors import Fault, JobError
from parts.fixtures import TURNED
from parts.relations.strip import least_nut_height
from parts.relations.stud import as_given

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job
    from parts.job.part_models import Stud

T = TypeVar("T")
THIN = f"the thin standard washer of the thread: {tables.PRACTICE}; where the head bears less, a thick one is turned"


def size_nut(book: Book, job: Job) -> None:
    """Enter the nut's sizes: the user's own where given, else the standard's."""
    if job.stud is not None:
        _nut(book, job.stud)
        _as_given(book, "nut", "height", "least_height", "across_flats", "bearing")


def size_washer(book: Book, job: Job) -> None:
    """Enter the washer's: the user's own where given, the turned one's where it is asked for, else the standard's."""
    if job.stud is not None:
        _washer(book, job.stud)
        _as_given(book, "washer", "thickness", "outside", "inside")


def _as_given(book: Book, part: str, *sizes: str) -> None:
    for size in sizes:
        if f"job.stud.{part}.{size}" in book:
            book.add(f"stud.{part}_{size}", as_given, length=f"job.stud.{part}.{size}")


def _nut(book: Book, stud: Stud) -> None:
    if stud.nut and stud.nut.height:
        if stud.nut.least_height is None:
            book.add("stud.nut_least_height", least_nut_height, height="job.stud.nut.height")
        return
    name = stud.nut.name if stud.nut else tables.usual_nut(stud.nut_end.family)
    nut = _looked_up("stud.nut", tables.nut, name, stud.nut_end.nominal, 'height = "6.8 mm"')
    sizes = (
        ("height", nut.height),
        ("least_height", nut.height_min),
        ("across_flats", nut.across_flats),
        ("bearing", nut.bearing),
    )
    for size, value in sizes:
        book.enter(f"stud.nut_{size}", value, "mm", nut.status if stud.nut else "assumed", nut.source)


def _washer(book: Book, stud: Stud) -> None:
    if stud.washer and stud.washer.thickness:
        _as_the_usual(book, stud)
        return
    if stud.washer and stud.washer.name == TURNED:
        for size, own in (("thickness", "thickness"), ("outside", "outside_diameter"), ("inside", "hole_diameter")):
            book.add(f"stud.washer_{size}", as_given, length=f"turned_washer.{own}")
        return
    name = stud.washer.name if stud.washer else tables.usual_washer(stud.nut_end.family)
    if stud.washer is None:
        book.choose("job.stud.washer", name, THIN)
    washer = _looked_up("stud.washer", tables.washer, name, stud.nut_end.nominal, 'thickness = "1.6 mm"')
    for size, value in (("thickness", washer.thickness), ("outside", washer.outside), ("inside", washer.inside)):
        book.enter(f"stud.washer_{size}", value, "mm", washer.status if stud.washer else "designed", washer.source)


def _as_the_usual(book: Book, stud: Stud) -> None:
    """Enter hole and outside of a washer of which the thickness alone is given: those of the usual one."""
    try:
        usual = tables.washer(tables.usual_washer(stud.nut_end.family), stud.nut_end.nominal)
    except ValueError:
        book.comes_from.update({f"stud.washer_{size}": f"job.stud.washer.{size}" for size in ("outside", "inside")})
        return
    for size, value in (("outside", usual.outside), ("inside", usual.inside)):
        if f"job.stud.washer.{size}" not in book:
            book.enter(f"stud.washer_{size}", value, "mm", "assumed", f"not given: as {usual.source}")


def _looked_up(key: str, look_up: Callable[[str, float], T], name: str, nominal: float, example: str) -> T:
    """Look a fastener up in its table, or say what to give instead."""
    try:
        return look_up(name, nominal)
    except ValueError as error:
        says = f"{error}: give its sizes, like {key.rpartition('.')[2]} = {{ name = {name!r}, {example} }}"
        raise JobError(Fault(key, says)) from None
