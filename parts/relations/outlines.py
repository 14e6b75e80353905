"""How far things stand from an outline, and how much of one they cover."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from parts.geometry.lands import room as room_in
from parts.geometry.lands import within as inside_by
from parts.geometry.neck import narrowest

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
        return inside_by(loop, x, y) - diameter / 2

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
        return inside_by(loop, x, y) - diameter / 2

    return room


def neck_of(loop: Loop) -> Callable[..., float]:
    """Make the relation that measures the narrowest neck of this outline.

    Parameters
    ----------
    loop : Loop
        Closed outline [mm]

    Returns
    -------
    relation : callable
        Of nothing [mm]
    """

    def neck() -> float:
        """Narrowest neck of an outline.

        neck = least distance across the face between two places that are far from each other along the outline

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


def beside(loops: tuple[Loop, ...]) -> Callable[..., float]:
    """Make the relation that measures from a round thing to an opening that is not round.

    Parameters
    ----------
    loops : tuple of Loop
        Closed outlines of the opening [mm]

    Returns
    -------
    relation : callable
        Of x, y, diameter [mm]
    """

    def metal(x: float, y: float, diameter: float) -> float:
        """Metal left between a round thing and an opening of another shape.

        metal = least distance from (x, y) to the opening's edge, below 0 inside it, - diameter / 2

        Returns
        -------
        metal : float
            Thickness of the wall [mm]

        References
        ----------
        .. [1] Plane geometry, exact for lines and arcs.
        """
        return min(-inside_by(loop, x, y) for loop in loops) - diameter / 2

    return metal


def between(loops: tuple[Loop, ...], outer: Loop) -> Callable[..., float]:
    """Make the relation that measures from an opening that is not round to the edge of a face.

    Parameters
    ----------
    loops : tuple of Loop
        Closed outlines of the opening [mm]
    outer : Loop
        Closed outline of the face [mm]

    Returns
    -------
    relation : callable
        Of nothing [mm]
    """

    def metal() -> float:
        """Metal left between an opening and the edge of the deck.

        metal = least distance between the two outlines, 0 or less where they meet

        Returns
        -------
        metal : float
            Thickness of the wall [mm]

        References
        ----------
        .. [1] Plane geometry, exact for lines and arcs.
        """
        return min(room_in(outer, loop) for loop in loops)

    return metal


def round_face(loop: Loop) -> Callable[..., float]:
    """Make the relation that tells how wide a face is all round the bore.

    Parameters
    ----------
    loop : Loop
        Closed outline of the face [mm]

    Returns
    -------
    relation : callable
        Of nothing [mm]
    """

    def diameter() -> float:
        """Diameter of the largest circle about the bore that the face holds.

        diameter = 2 * least distance from the centre of the bore to the outline

        Returns
        -------
        diameter : float
            Diameter [mm]

        References
        ----------
        .. [1] Plane geometry, exact for lines and arcs.
        """
        return 2 * inside_by(loop, 0.0, 0.0)

    return diameter


def face_at_studs(loop: Loop, count: int) -> Callable[..., float]:
    """Make the relation that tells how far out a face bears at the studs.

    Parameters
    ----------
    loop : Loop
        Closed outline of the face [mm]
    count : int
        Studs

    Returns
    -------
    relation : callable
        Of hole and, of each stud, x_1, y_1 and so on [mm]
    """

    def diameter(hole: float, **places: float) -> float:
        """Diameter of a round face that would bear as far out at the studs.

        diameter = the largest circle about the bore in the face; where every stud hole lies in the face, twice the
        least way out to the end of the face's metal round a stud

        Returns
        -------
        diameter : float
            Diameter [mm]

        References
        ----------
        .. [1] Plane geometry, exact for lines and arcs; of a face that goes round some studs alone the least is taken.
        """
        at = [(places[f"x_{n}"], places[f"y_{n}"]) for n in range(1, count + 1)]
        rooms = [inside_by(loop, x, y) for x, y in at]
        if min(rooms) < hole / 2:
            return 2 * inside_by(loop, 0.0, 0.0)
        return 2 * min(hypot(x, y) + room for (x, y), room in zip(at, rooms, strict=True))

    return diameter


def reaches_under(loop: Loop) -> Callable[..., float]:
    """Make the relation that measures how far a round hole reaches into this outline.

    Parameters
    ----------
    loop : Loop
        Closed outline of the face [mm]

    Returns
    -------
    relation : callable
        Of x, y, diameter [mm]
    """

    def reach(x: float, y: float, diameter: float) -> float:
        """How far a hole reaches under the face that the head presses on.

        reach = distance from (x, y) to the outline, negative outside it, + diameter / 2

        Returns
        -------
        reach : float
            Below 0 it stays clear of it [mm]

        References
        ----------
        .. [1] Plane geometry, exact for lines and arcs.
        """
        return inside_by(loop, x, y) + diameter / 2

    return reach
