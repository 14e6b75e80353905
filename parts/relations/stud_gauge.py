"""The stud gauge: stands over a stud, a step on top for the limits; and what holds a stud by its first thread."""

from __future__ import annotations

from math import ceil


def bore(nominal: float, room: float) -> float:
    """Hole that goes over the stud.

    diameter = nominal + room

    Parameters
    ----------
    nominal : float
        Larger thread [mm]
    room : float
        On diameter [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> bore(10.0, 1.0)
    11.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return nominal + room


def holder_length(nominal: float) -> float:
    """Length of the split holder.

    length = ceil(1.5 * nominal)

    Parameters
    ----------
    nominal : float
        Thread that it holds [mm]

    Returns
    -------
    length : float
        Length [mm]

    Examples
    --------
    >>> holder_length(8.0)
    12

    References
    ----------
    .. [1] Common practice, no source.
    """
    return ceil(1.5 * nominal)


def holder_outside(nominal: float) -> float:
    """Outside of the split holder.

    diameter = ceil(2.2 * nominal)

    Parameters
    ----------
    nominal : float
        Thread that it holds [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> holder_outside(8.0)
    18

    References
    ----------
    .. [1] Common practice, no source.
    """
    return ceil(2.2 * nominal)


def core(nominal: float, pitch: float) -> float:
    """Hole to be tapped.

    diameter = nominal - 1.0825 * pitch

    Parameters
    ----------
    nominal : float
        Of the thread [mm]
    pitch : float
        Of the thread [mm]

    Returns
    -------
    diameter : float
        Diameter [mm]

    Examples
    --------
    >>> round(core(8.0, 1.25), 2)
    6.65

    References
    ----------
    .. [1] ISO 68-1, basic minor diameter; near enough for a holder of another form of thread.
    """
    return nominal - 1.0825 * pitch
