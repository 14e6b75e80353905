"""How far things stand from an outline, and how much of one they cover."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.geometry.neck import narrowest
from parts.geometry.outline import distance, inside

if TYPE_CHECKING:
    from collections.abc import Callable

    from parts.geometry.outline import Loop


def to_outline(loop: Loop) -> Callable[..., float]:
    """Make the relation that measures from a hole to this outline.

    Parameters
    ----------
    loop : Loop
        Closed outline [mm]

    Returns
    -------
    relation : callable
        Of x, y, diameter [mm]
    """

    def metal(x: float, y: float, diameter: float) -> float:
        """Metal left between a hole and the edge of the deck.

        metal = least distance from (x, y) to the outline, below 0 outside it, - diameter / 2

        Returns
        -------
        metal : float
            Thickness of the wall [mm]

        References
        ----------
        .. [1] Plane geometry, exact for lines and arcs.
        """
        away = distance(loop, x, y)
        return (away if inside(loop, x, y) else -away) - diameter / 2

    return metal


def within(loop: Loop) -> Callable[..., float]:
    """Make the relation that measures from a round thing to the edge of this outline, below 0 where it lies outside.

    Parameters
    ----------
    loop : Loop
        Closed outline [mm]

    Returns
    -------
    relation : callable
        Of x, y, diameter [mm]
    """

    def room(x: float, y: float, diameter: float) -> float:
        """Room between a round thing and the edge of the face that it should lie in.

        room = distance from (x, y) to the outline, negative outside it, - diameter / 2

        Returns
        -------
        room : float
            Below 0 it stands over the edge [mm]

        References
        ----------
        .. [1] Plane geometry, exact for lines and arcs.
        """
        side = 1 if inside(loop, x, y) else -1
        return side * distance(loop, x, y) - diameter / 2

    return room


def neck_of(loop: Loop) -> Callable[..., float]:
    """Make the relation that measures the narrowest neck of this outline.

    Parameters
    ----------
    loop : Loop
        Closed outline of straight edges [mm]

    Returns
    -------
    relation : callable
        Of nothing [mm]
    """

    def neck() -> float:
        """Narrowest neck of an outline of corner points.

        neck = least distance across the face from a corner to an edge that is far off along the outline

        Returns
        -------
        neck : float
            Width [mm]

        References
        ----------
        .. [1] Plane geometry; two places are across a neck where the way round is over three times the way across.
        """
        return narrowest(tuple(loop))

    return neck
