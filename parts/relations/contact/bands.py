"""Symmetric equations with five bands, as a bent bar's are, in plain Python: the same figures on every processor."""

from __future__ import annotations

from dataclasses import dataclass
from operator import add

Numbers = list[float]


@dataclass(frozen=True, slots=True)
class Bands:
    """A symmetric matrix by its main diagonal and the two beside it; all three as long as the matrix."""

    main: Numbers
    next: Numbers
    second: Numbers

    def times(self, x: Numbers) -> Numbers:
        """Matrix by vector."""
        y = [a * p for a, p in zip(self.main, x, strict=True)]
        for i, (b, p) in enumerate(zip(self.next, x[1:], strict=False)):
            y[i] += b * p
            y[i + 1] += b * x[i]
        for i, (c, p) in enumerate(zip(self.second, x[2:], strict=False)):
            y[i] += c * p
            y[i + 2] += c * x[i]
        return y

    def held(self, fixed: list[bool]) -> Bands:
        """Return the matrix with these unknowns held at 0: their rows and columns are those of 1."""
        free = [not f for f in fixed] + [False, False]
        main = [a if f else 1.0 for a, f in zip(self.main, free, strict=False)]
        following = [b if f and g else 0.0 for b, f, g in zip(self.next, free, free[1:], strict=False)]
        second = [c if f and g else 0.0 for c, f, g in zip(self.second, free, free[2:], strict=False)]
        return Bands(main, following, second)


@dataclass(frozen=True, slots=True)
class Factors:
    """Matrix as unit lower bands and pivots, ready to solve."""

    pivot: Numbers
    below: Numbers
    second: Numbers

    def solve(self, right: Numbers) -> Numbers:
        """Unknowns for a right-hand side."""
        one = two = 0.0
        middle = []
        for y, e, f, d in zip(right, self.below, self.second, self.pivot, strict=True):
            one, two = y - e * one - f * two, one
            middle.append(one / d)
        return self._back(middle)

    def _back(self, middle: Numbers) -> Numbers:
        one = two = e = f = f_after = 0.0
        for i in range(len(middle) - 1, -1, -1):
            one, two = middle[i] - e * one - f_after * two, one
            middle[i] = one
            e, f, f_after = self.below[i], self.second[i], f
        return middle


def factors(bands: Bands, added: Numbers | None = None) -> Factors:
    """Factors of a matrix, with something added to its main diagonal.

    Parameters
    ----------
    bands : Bands
        Positive definite, together with what is added
    added : list of float, optional
        To the main diagonal

    Returns
    -------
    factors : Factors
        Ready to solve

    Examples
    --------
    >>> factors(Bands([2.0, 2.0], [1.0, 0.0], [0.0, 0.0])).solve([3.0, 3.0])
    [1.0, 1.0]
    """
    main = bands.main if added is None else map(add, bands.main, added)
    pivots, below, second = [], [], []
    pivot = pivot_before = 1.0
    lower = b = c = c_before = 0.0
    for a, b_next, c_next in zip(main, bands.next, bands.second, strict=True):
        f, t = c_before / pivot_before, b - c_before * lower
        lower = t / pivot
        pivot_before, pivot = pivot, a - lower * t - f * c_before
        pivots.append(pivot)
        below.append(lower)
        second.append(f)
        b, c_before, c = b_next, c, c_next
    return Factors(pivots, below, second)
