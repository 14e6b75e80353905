"""The gasket's thickness, designed from the sheets that are sold for the squish or the ratio that is wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts import tables
from parts.errors import Fault, JobError
from parts.relations import compression, gasket_thickness
from parts.sizing.compression import add_old_volumes, add_swept, chambers, old_thickness, skim_name
from parts.sizing.materials import metals

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.book import Book
    from parts.job import Job

THICKNESS = "job.gasket.thickness"
LEAST_SQUISH = 0.4  # mm, under which the piston meets the head: common practice, no source
APART = 0.25  # mm, that the nearest sheet may lie from what is wanted


def design_thickness(book: Book, job: Job) -> None:
    """Design the thickness where a squish or a ratio is wanted; JobError where no sheet comes near it."""
    if job.gasket is None or job.gasket.thickness is not None:
        return
    key = "wanted_squish" if job.gasket.wanted_squish is not None else "wanted_ratio"
    old, skim = old_thickness(book), skim_name(book)
    squish: dict[str, str | float] = {"before": "job.engine.squish", "old_gasket": old, "skim": skim}
    add_swept(book)
    swept, bore = "compression.swept_volume", "gasket.bore_diameter"
    volumes = {"before": "job.engine.clearance_volume", **chambers(book), **add_old_volumes(book, old, skim)}
    wanted, least = "gasket.thickness_wanted", "gasket.thickness_least"
    given = {"wanted": f"job.gasket.{key}"}
    if key == "wanted_squish":
        book.add(wanted, gasket_thickness.thickness_for_squish, **given, **squish)
    else:
        book.add(wanted, gasket_thickness.thickness_for_ratio, **given, swept=swept, bore=bore, **volumes)
    bound: str | float = least if book.has(*(n for n in squish.values() if isinstance(n, str))) else 0.0
    if bound == least:
        book.add(least, gasket_thickness.thickness_for_squish, wanted=LEAST_SQUISH, **squish)
    sheets = tables.gasket_sheets(next(iter(metals(job.gasket.material)), ""))
    if wanted in book:
        _refuse_out_of_reach(book, key, [s for s in sheets if s >= book.number(bound)], sheets)
    book.design(
        THICKNESS,
        gasket_thickness.nearest_sheet,
        wanted=wanted,
        least=bound,
        **{f"sheet_{n}": sheet for n, sheet in enumerate(sheets)},
    )


def _refuse_out_of_reach(book: Book, key: str, fitting: list[float], sheets: tuple[float, ...]) -> None:
    """Refuse what no sheet comes near, and say what is possible."""
    aim = book["gasket.thickness_wanted"].value
    if any(abs(sheet - aim) <= APART for sheet in fitting):
        return
    given = book[f"job.gasket.{key}"]
    says = f"is out of reach with sheets of {sheets[0]:g} to {sheets[-1]:g} mm"
    if fitting:
        ends = sorted(_gives(book, key)(sheet) for sheet in (fitting[0], fitting[-1]))
        unit = " mm" if given.unit == "mm" else ""
        says += f": they give {ends[0]:.2f} to {ends[1]:.2f}{unit}, not {given.value:g}{unit}"
    else:
        says += f": none leaves the piston {LEAST_SQUISH:g} mm of squish"
    raise JobError(Fault(f"gasket.{key}", says))


def _gives(book: Book, key: str) -> Callable[[float], float]:
    """What a sheet gives: from what is wanted by as much as it differs from the thickness for it."""
    aim, wanted = book["gasket.thickness_wanted"].value, book[f"job.gasket.{key}"].value
    if key == "wanted_squish":
        return lambda sheet: wanted + sheet - aim
    swept, bore = book["compression.swept_volume"].value, book["gasket.bore_diameter"].value
    room = swept / (wanted - 1) - compression.gasket_volume(bore, aim)
    return lambda sheet: compression.ratio(swept, room + compression.gasket_volume(bore, sheet))
