"""Limits and fits by ISO 286."""

from __future__ import annotations

import re
from dataclasses import dataclass

from parts import tables

CLASS = re.compile(r"(H|[a-z])([0-9]{1,2})")
ABOVE = frozenset("kmnprs")  # shafts whose tolerance lies above the fundamental deviation
K_GRADES = range(4, 8)


@dataclass(frozen=True, slots=True)
class Deviations:
    """Limits of a toleranced size, as distances from nominal [mm]."""

    lower: float
    upper: float
    status: str
    source: str


def deviations(diameter: float, designation: str) -> Deviations:
    """Look up the deviations of a hole like "H7" or a shaft like "p6" at a diameter [mm].

    Raises
    ------
    ValueError
        One sentence with what is listed.

    Examples
    --------
    ISO 286-2 prints +35 and +22 um for 25 p6, +21 and 0 for 25 H7 (memory):

    >>> deviations(25, "p6").lower, deviations(25, "p6").upper, deviations(25, "H7").upper
    (0.022, 0.035, 0.021)
    """
    found = CLASS.fullmatch(designation)
    if found is None:
        raise ValueError(f'wants a hole H or a shaft f to s with a grade, like "H7" or "p6", not {designation!r}')
    letter, grade = found[1], int(found[2])
    width = tables.it_grade(diameter, grade)
    if letter in "Hh":
        lower, upper = (0.0, width.value) if letter == "H" else (-width.value, 0.0)
        return Deviations(lower, upper, width.status, f"ISO 286, {designation}: {width.source}")
    if letter == "k" and grade not in K_GRADES:
        raise ValueError(f'wants k with a grade from 4 to 7, like "k6", not {designation!r}')
    start = tables.shaft_deviation(diameter, letter)
    ends = (start.value, start.value + width.value) if letter in ABOVE else (start.value - width.value, start.value)
    lower, upper = (round(end, 6) for end in ends)
    return Deviations(lower, upper, start.status, f"ISO 286, {designation}: {start.source}; {width.source}")


def limit_of_size(nominal: float, deviation: float) -> float:
    """Limit of a toleranced diameter.

    limit = nominal + deviation

    Parameters
    ----------
    nominal : float
        Nominal diameter [mm]
    deviation : float
        Distance of the limit from nominal, with its sign [mm]

    Returns
    -------
    limit : float
        Limit of size [mm]

    Examples
    --------
    [1]_ prints +24 um as the upper deviation of 10 p6 (memory):

    >>> limit_of_size(10, 0.024)
    10.024

    References
    ----------
    .. [1] ISO 286-1.
    """
    return nominal + deviation
