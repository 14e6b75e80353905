"""What is neither turned nor flat: put together from turned and flat pieces, with others taken out of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from parts.geometry.profile import Profile

if TYPE_CHECKING:
    from parts.geometry.outline import Region


@dataclass(frozen=True, slots=True)
class Flat:
    """A flat part: a sheet and its thickness [mm]."""

    sheet: Region
    thickness: float


Form: TypeAlias = Profile | Flat


@dataclass(frozen=True, slots=True)
class Piece:
    """A turned or flat form in its place: moved, never turned [mm]."""

    form: Form
    x: float = 0.0
    y: float = 0.0
    z: float = 0.0


@dataclass(frozen=True, slots=True)
class Pieces:
    """A solid of several pieces."""

    joined: tuple[Piece, ...]
    cut: tuple[Piece, ...]
    volume: float
    """by its dimensions [mm^3]"""


def rod(radius: float, low: float, high: float) -> Profile:
    """Return a plain cylinder on the axis, from low to high [mm]."""
    return Profile(((low, 0.0), (low, radius), (high, radius), (high, 0.0)))
