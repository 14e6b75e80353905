"""What a reading over pins says of their centres, and where a hole of the deck lies on a machine. Lengths in mm."""

from __future__ import annotations

from math import cos, hypot, pi, sin


def centres_over(reads: float, diameter: float) -> float:
    """Distance of the centres from a reading over two pins, or over the far edges of two holes.

    centres = reads - diameter

    Parameters
    ----------
    reads : float
        What the calliper reads [mm]
    diameter : float
        Of both pins or holes [mm]

    Returns
    -------
    centres : float
        From centre to centre [mm]

    Examples
    --------
    >>> centres_over(68.5, 8.5)
    60.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return reads - diameter


def centres_between(reads: float, diameter: float) -> float:
    """Distance of the centres from a reading between two pins, or between the near edges of two holes.

    centres = reads + diameter

    Parameters
    ----------
    reads : float
        What the calliper reads [mm]
    diameter : float
        Of both pins or holes [mm]

    Returns
    -------
    centres : float
        From centre to centre [mm]

    Examples
    --------
    >>> centres_between(51.5, 8.5)
    60.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return reads + diameter


def centres_wall(reads: float, diameter: float, wall: float) -> float:
    """Distance of a pin or hole outside a round wall from that wall's centre.

    centres = reads + (diameter + wall) / 2

    Parameters
    ----------
    reads : float
        From the wall to the nearest side of the pin or hole [mm]
    diameter : float
        Of the pin or hole [mm]
    wall : float
        Diameter of the round wall [mm]

    Returns
    -------
    centres : float
        From centre to centre [mm]

    Examples
    --------
    >>> round(centres_wall(8.875, 8.5, 57.2), 3)
    41.725

    References
    ----------
    .. [1] Plane geometry.
    """
    return reads + (diameter + wall) / 2


def machine_x(x: float, y: float, zero: float, turned: float) -> float:
    """What the X scale of a machine reads over a place of the deck.

    reads = zero + x * cos(turned * pi / 180) - y * sin(turned * pi / 180)

    Parameters
    ----------
    x : float
        On the deck, from the centre of the bore [mm]
    y : float
        The same [mm]
    zero : float
        What the scale reads over the centre of the bore [mm]
    turned : float
        Of the deck's +X from the machine's, anticlockwise [deg]

    Returns
    -------
    reads : float
        On the scale [mm]

    Examples
    --------
    >>> round(machine_x(30, 29, 100, 90), 6)
    71.0

    References
    ----------
    .. [1] Plane geometry: a turn and a shift, no change of scale.
    """
    return zero + x * cos(turned * pi / 180) - y * sin(turned * pi / 180)


def machine_y(x: float, y: float, zero: float, turned: float) -> float:
    """What the Y scale of a machine reads over a place of the deck.

    reads = zero + x * sin(turned * pi / 180) + y * cos(turned * pi / 180)

    Parameters
    ----------
    x : float
        On the deck, from the centre of the bore [mm]
    y : float
        The same [mm]
    zero : float
        What the scale reads over the centre of the bore [mm]
    turned : float
        Of the deck's +X from the machine's, anticlockwise [deg]

    Returns
    -------
    reads : float
        On the scale [mm]

    Examples
    --------
    >>> round(machine_y(30, 29, 100, 90), 6)
    130.0

    References
    ----------
    .. [1] Plane geometry: a turn and a shift, no change of scale.
    """
    return zero + x * sin(turned * pi / 180) + y * cos(turned * pi / 180)


def size(misfit: tuple[float, ...]) -> float:
    """A length with its sign; of X and Y together how far."""
    return misfit[0] if len(misfit) == 1 else hypot(*misfit)
