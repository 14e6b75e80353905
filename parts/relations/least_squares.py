"""Weighted least squares in plain numbers: normal equations, their triangle, and what they leave open.

Everything here is a few dozen unknowns, all of them lengths of about the same weight, so normal equations will do; and
plain sums give the same digits on every processor, which the linear algebra of a library does not.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum, sqrt

SIGMAS = 2.0
"""standard deviations to a tolerance: of a reading, and of a hole's place along X and along Y alike; common practice"""
OPEN = 1e-3  # of a square: what is left open by more than thirty times a reading is not told by it
Matrix = list[list[float]]
Vector = list[float]


@dataclass(frozen=True, slots=True)
class Equation:
    """One number that was read, against what the unknowns make of it."""

    slopes: dict[int, float]
    """unknown -> by how much the number follows it"""
    misfit: float
    """as read, less what the unknowns make of it"""
    sigma: float
    """standard deviation of the reading"""


def normal(rows: list[Equation], count: int, *, weighted: bool = True) -> tuple[Matrix, Vector]:
    """Matrix and right side of the normal equations."""
    matrix, right = [[0.0] * count for _ in range(count)], [0.0] * count
    for row in rows:
        weight = 1 / row.sigma**2 if weighted else 1.0
        for i, slope in row.slopes.items():
            right[i] += weight * slope * row.misfit
            for j, other in row.slopes.items():
                matrix[i][j] += weight * slope * other
    return matrix, right


def triangle(matrix: Matrix) -> Matrix | None:
    """Lower triangle of Cholesky; None where the matrix is not positive."""
    size = len(matrix)
    low = [[0.0] * size for _ in range(size)]
    for i in range(size):
        for j in range(i + 1):
            rest = matrix[i][j] - fsum(low[i][k] * low[j][k] for k in range(j))
            if i == j and rest <= 0:
                return None
            low[i][j] = sqrt(rest) if i == j else rest / low[j][j]
    return low


def solved(low: Matrix, right: Vector) -> Vector:
    """Solve by the triangle, forwards and back."""
    size = len(low)
    out = list(right)
    for i in range(size):
        out[i] = (out[i] - fsum(low[i][k] * out[k] for k in range(i))) / low[i][i]
    for i in reversed(range(size)):
        out[i] = (out[i] - fsum(low[k][i] * out[k] for k in range(i + 1, size))) / low[i][i]
    return out


def inverse(low: Matrix) -> Matrix:
    """Inverse of the matrix whose triangle this is."""
    size = len(low)
    return [solved(low, [float(i == j) for i in range(size)]) for j in range(size)]


def rank(rows: list[Equation], count: int) -> int:
    """How many of the unknowns the readings tell, by Cholesky with the largest pivot first."""
    rest, _ = normal(rows, count, weighted=False)
    left = set(range(count))
    while left:
        pivot = max(sorted(left), key=lambda i: rest[i][i])
        if rest[pivot][pivot] < OPEN:
            break
        left.remove(pivot)
        for i in left:
            share = rest[i][pivot] / rest[pivot][pivot]
            for j in left:
                rest[i][j] -= share * rest[pivot][j]
    return count - len(left)


def times(matrix: Matrix, slopes: dict[int, float]) -> Vector:
    """Matrix times a vector of which most is nothing."""
    return [fsum(line[j] * slope for j, slope in slopes.items()) for line in matrix]


def dot(slopes: dict[int, float], vector: Vector) -> float:
    """Product of a vector of which most is nothing with another."""
    return fsum(slope * vector[j] for j, slope in slopes.items())
