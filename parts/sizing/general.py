"""General tolerances of lengths without one of their own."""

from __future__ import annotations

GENERAL = (
    (6.0, 0.1),
    (30.0, 0.2),
    (120.0, 0.3),
    (400.0, 0.5),
    (1000.0, 0.8),
)  # ISO 2768-m, lengths over 3 mm up to, +- [mm]
COARSEST = 1.2  # mm


def general(value: float) -> float:
    """Half the general tolerance of a length without one of its own [mm].

    >>> general(22.0), general(73.5)
    (0.2, 0.3)
    """
    return next((half for upto, half in GENERAL if abs(value) <= upto), COARSEST)
