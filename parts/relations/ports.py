"""Ports of a two-stroke barrel: how wide, when open, and what the ring does over them. Lengths in mm, angles in deg."""

from __future__ import annotations

from math import acos, ceil, pi, sin


def span(begin: float, end: float) -> float:
    """Angle that a port takes up.

    span = end - begin + 360 * ceil((begin - end) / 360)

    Parameters
    ----------
    begin : float
        Where it begins [deg]
    end : float
        Where it ends, anticlockwise [deg]

    Returns
    -------
    span : float
        From 0 to 360 [deg]

    Examples
    --------
    >>> span(340.0, 20.0)
    40.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return end - begin + 360 * ceil((begin - end) / 360)


def opening(bore: float, span: float, bridge: float, parts: float) -> float:
    """Widest opening of a port, straight across; the larger of two only where its bar stands aside of the middle.

    opening = (bore * sin(span * pi / 360) - bridge) / parts

    Parameters
    ----------
    bore : float
        Bore [mm]
    span : float
        Angle that the port takes up [deg]
    bridge : float
        Width of the bar in it, 0 without one [mm]
    parts : float
        Openings that the bar makes: 1 or 2 [1]

    Returns
    -------
    opening : float
        Chord [mm]

    Examples
    --------
    >>> round(opening(57.2, 70.0, 0.0, 1.0), 2)
    32.81

    References
    ----------
    .. [1] Plane geometry.
    """
    return (bore * sin(span * pi / 360) - bridge) / parts


def top_after(top: float, skim: float) -> float:
    """Depth of a port's upper edge below the skimmed deck.

    depth = top - skim

    Parameters
    ----------
    top : float
        Before the skim [mm]
    skim : float
        To come off the deck [mm]

    Returns
    -------
    depth : float
        To measure [mm]

    Examples
    --------
    >>> round(top_after(38.0, 0.12), 2)
    37.88

    References
    ----------
    .. [1] Plane geometry.
    """
    return top - skim


def crown_below(squish: float, gasket: float) -> float:
    """How far the piston's crown stays below the deck at top dead centre, before the skim.

    depth = squish - gasket

    Parameters
    ----------
    squish : float
        Crown to head face, old gasket [mm]
    gasket : float
        Thickness of the old gasket [mm]

    Returns
    -------
    depth : float
        Below 0 it comes out [mm]

    Examples
    --------
    >>> round(crown_below(1.6, 1.6), 2)
    0.0

    References
    ----------
    .. [1] Plane geometry, head face flat over the crown's edge.
    """
    return squish - gasket


def travel(top: float, crown: float) -> float:
    """How far the piston has come down from top dead centre when its edge opens a port; a skim doesn't change it.

    travel = top - crown

    Parameters
    ----------
    top : float
        Upper edge below the deck, before the skim [mm]
    crown : float
        Crown below the deck at top dead centre, before the skim [mm]

    Returns
    -------
    travel : float
        Travel [mm]

    Examples
    --------
    >>> travel(38.0, 0.5)
    37.5

    References
    ----------
    .. [1] Plane geometry.
    """
    return top - crown


def duration(travel: float, stroke: float, rod: float) -> float:
    """Angle of the crankshaft over which a port is open.

    duration = 360 - 360 / pi * acos(max(-1, min(1, ((stroke / 2 + rod - travel)^2 +
        stroke^2 / 4 - rod^2) / (stroke * max(1e-9, stroke / 2 + rod - travel)))))

    Parameters
    ----------
    travel : float
        Piston from top dead centre when it opens [mm]
    stroke : float
        Stroke [mm]
    rod : float
        Connecting rod, centre to centre [mm]

    Returns
    -------
    duration : float
        Round bottom dead centre [deg]

    Examples
    --------
    A rod without end moves the piston by the cosine alone, half way at 90 degrees:

    >>> round(duration(25.0, 50.0, 1e6), 2)
    180.0

    References
    ----------
    .. [1] Slider and crank, law of cosines.
    """
    down = stroke / 2 + rod - travel
    cosine = (down**2 + stroke**2 / 4 - rod**2) / (stroke * max(1e-9, down))
    return 360 - 360 / pi * acos(max(-1.0, min(1.0, cosine)))


def rod_length(stroke: float, multiple: float) -> float:
    """Connecting rod, where it is not known.

    rod = stroke * multiple

    Parameters
    ----------
    stroke : float
        Stroke [mm]
    multiple : float
        Rod over stroke [1]

    Returns
    -------
    rod : float
        Centre to centre [mm]

    Examples
    --------
    >>> rod_length(50.0, 2.0)
    100.0

    References
    ----------
    .. [1] Common practice, no source.
    """
    return stroke * multiple


def trapped_volume(bore: float, travel: float) -> float:
    """Volume that the piston sweeps after it has shut the last port.

    volume = pi / 4 * bore^2 * travel

    Parameters
    ----------
    bore : float
        Bore [mm]
    travel : float
        Piston from top dead centre when it shuts that port [mm]

    Returns
    -------
    volume : float
        Trapped volume [mm^3]

    Examples
    --------
    >>> round(trapped_volume(50.0, 30.0))
    58905

    References
    ----------
    .. [1] ISO 2710-1, terms of volumes.
    """
    return pi / 4 * bore**2 * travel


def gap_between(bore: float, begin: float, span: float, other: float) -> float:
    """Bar between one port and the next, along the bore.

    bar = bore * pi / 360 * (other - begin + 360 * ceil((begin - other) / 360) - span)

    Parameters
    ----------
    bore : float
        Bore [mm]
    begin : float
        Where the one begins [deg]
    span : float
        Angle that it takes up [deg]
    other : float
        Where the next begins, anticlockwise [deg]

    Returns
    -------
    bar : float
        Along the bore; below 0 the other begins inside the one [mm]

    Examples
    --------
    >>> round(gap_between(57.2, -30.0, 60.0, 40.0), 2)
    4.99

    References
    ----------
    .. [1] Plane geometry.
    """
    return bore * pi / 360 * (other - begin + 360 * ceil((begin - other) / 360) - span)


def end_to_port(peg: float, begin: float, span: float, bore: float, gap: float) -> float:
    """How far the ends of a pegged ring stay from a port.

    room = bore * pi / 360 * (abs(peg - begin - span / 2 - 360 * ceil((peg - begin - span / 2) / 360 -
        0.5)) - span / 2) - gap / 2

    Parameters
    ----------
    peg : float
        Angle of the peg, in the ring's gap [deg]
    begin : float
        Where the port begins [deg]
    span : float
        Angle that it takes up [deg]
    bore : float
        Bore [mm]
    gap : float
        Of the closed ring [mm]

    Returns
    -------
    room : float
        Along the bore; below 0 an end runs over the port [mm]

    Examples
    --------
    20 degrees of a bore of 57.2 are 9.98:

    >>> round(end_to_port(50.0, -30.0, 60.0, 57.2, 0.2), 2)
    9.88

    References
    ----------
    .. [1] Plane geometry.
    """
    off = peg - begin - span / 2
    return bore * pi / 360 * (abs(off - 360 * ceil(off / 360 - 0.5)) - span / 2) - gap / 2


def bulge(pressure: float, gas: float, width: float, opening: float, modulus: float, moment: float) -> float:
    """How far a ring springs out into a port: as a straight bar on its edges, on the safe side.

    bulge = 5 * (pressure + gas) * width * opening^4 / (384 * modulus * moment)

    Parameters
    ----------
    pressure : float
        Of the ring on the bore [MPa]
    gas : float
        Behind the ring as the port opens [MPa]
    width : float
        Height of the ring [mm]
    opening : float
        Of the port, straight across [mm]
    modulus : float
        Of the ring [MPa]
    moment : float
        Second moment of the ring's section [mm^4]

    Returns
    -------
    bulge : float
        At the middle of the port [mm]

    Examples
    --------
    >>> round(bulge(0.1, 0.4, 2.38, 30.0, 1e5, 2.742), 4)
    0.0458

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, table A-9: simple supports, uniform load.
    """
    return 5 * (pressure + gas) * width * opening**4 / (384 * modulus * moment)
