"""Shape of the head gasket: a sheet lying on Z = 0, bore centre at the origin."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.shapes.nest import refuse_small
from parts.shapes.pieces import Flat
from parts.sizing.gasket import cutting_sheet, gasket_sheet

if TYPE_CHECKING:
    from parts.book import Book
    from parts.job import Job


def head_gasket(book: Book, job: Job) -> Flat:
    """Return the finished gasket; the sizing has refused one that would fall apart."""
    sheet, path = gasket_sheet(book, job), cutting_sheet(book, job)
    if sheet is None or path is None or job.gasket is None:  # the cutter's path and its nest are refused here too
        raise AssertionError("asked for a gasket that was not sized")
    if job.gasket.sheet is not None:
        refuse_small(path, job.gasket.sheet, "gasket.sheet")
    return Flat(sheet, book["job.gasket.thickness"].value)
