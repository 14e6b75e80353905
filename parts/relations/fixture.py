"""What several fixtures are sized by. Lengths in mm."""

from __future__ import annotations

from math import ceil


def over(size_of: float, by: float) -> float:
    """A size made larger by a play, a wall or a step.

    size = size_of + by

    Parameters
    ----------
    size_of : float
        What it goes round or beyond [mm]
    by : float
        How much [mm]

    Returns
    -------
    size : float
        Length [mm]

    Examples
    --------
    >>> round(over(57.3, 0.02), 2)
    57.32

    References
    ----------
    .. [1] Plane geometry.
    """
    return size_of + by


def under(size_of: float, by: float) -> float:
    """A size made smaller by a play or a step.

    size = size_of - by

    Parameters
    ----------
    size_of : float
        What it goes into [mm]
    by : float
        How much [mm]

    Returns
    -------
    size : float
        Length [mm]

    Examples
    --------
    >>> round(under(57.2, 0.05), 2)
    57.15

    References
    ----------
    .. [1] Plane geometry.
    """
    return size_of - by


def walled(inside: float, wall: float) -> float:
    """Diameter with a wall all round, in whole millimetres.

    diameter = ceil(inside + 2 * wall)

    Parameters
    ----------
    inside : float
        Diameter inside the wall [mm]
    wall : float
        Least thickness of the wall [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> walled(57.32, 8.0)
    74

    References
    ----------
    .. [1] Common practice, no source.
    """
    return ceil(inside + 2 * wall)


def share_of(size_of: float, part: float) -> float:
    """A share of another size.

    size = part * size_of

    Parameters
    ----------
    size_of : float
        The size [mm]
    part : float
        How much of it [1]

    Returns
    -------
    size : float
        Length [mm]

    Examples
    --------
    >>> round(share_of(2.38, 0.75), 3)
    1.785

    References
    ----------
    .. [1] Common practice, no source.
    """
    return part * size_of
