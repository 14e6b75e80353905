"""Limits and fits after ISO 286, for holes H and shafts f to s."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.relations.fits import deviations, limit_of_size

if TYPE_CHECKING:
    from parts.book import Book


def size_fit(book: Book, name: str, nominal: str, designation: str) -> None:
    """Put the limits of a toleranced diameter into the book.

    Parameters
    ----------
    book : Book
        The job's sizes
    name : str
        Dotted name; adds name_lower, name_upper (deviations), name_min and name_max
    nominal : str
        Name of the nominal diameter in the book
    designation : str
        Like "H7" or "p6"
    """
    found = deviations(book.number(nominal), designation)
    for end, limit, value in (("lower", "min", found.lower), ("upper", "max", found.upper)):
        book.enter(f"{name}_{end}", value, "mm", found.status, found.source)
        book.add(f"{name}_{limit}", limit_of_size, nominal=nominal, deviation=f"{name}_{end}")
