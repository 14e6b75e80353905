"""Measurement over wires and stress areas of screw threads: one published relation each."""

from __future__ import annotations

from math import cos, pi, sin, tan


def best_wire(pitch: float, half_angle: float) -> float:
    """Wire that touches the flanks at the pitch diameter.

    wire = pitch / (2 * cos(half_angle * pi / 180))

    Parameters
    ----------
    pitch : float
        Pitch P [mm]
    half_angle : float
        Half of the angle between the flanks [deg]

    Returns
    -------
    wire : float
        Diameter of the wires [mm]

    Examples
    --------
    [1]_ gives 0.57735 P for 60 degrees and 0.56369 P for 55 degrees:

    >>> round(best_wire(1, 30), 5), round(best_wire(1, 27.5), 5)
    (0.57735, 0.56369)

    References
    ----------
    .. [1] Machinery's Handbook, measuring screw threads: best wire size (memory).
    """
    return pitch / (2 * cos(half_angle * pi / 180))


def over_wires(pitch_diameter: float, pitch: float, wire: float, half_angle: float) -> float:
    """Size over three wires laid in the thread, the lead angle neglected.

    size = pitch_diameter + wire * (1 + 1 / sin(half_angle * pi / 180)) - pitch / (2 * tan(half_angle * pi / 180))

    Parameters
    ----------
    pitch_diameter : float
        Pitch diameter [mm]
    pitch : float
        Pitch P [mm]
    wire : float
        Diameter of the wires [mm]
    half_angle : float
        Half of the angle between the flanks [deg]

    Returns
    -------
    size : float
        Size over the wires [mm]

    Examples
    --------
    [1]_ works out 1.6674 in for 1 1/2 in diameter, 6 threads per inch, 60 degrees, wires of 0.140 in:

    >>> round(over_wires(1.5 - 0.649519 / 6, 1 / 6, 0.140, 30), 4)
    1.6674

    References
    ----------
    .. [1] Jones, Turning and Boring, 1914: measuring over three wires; Machinery's Handbook for any angle (memory).
    """
    return pitch_diameter + wire * (1 + 1 / sin(half_angle * pi / 180)) - pitch / (2 * tan(half_angle * pi / 180))


def stress_area(pitch_diameter: float, minor_diameter: float) -> float:
    """Nominal stress area of an ISO metric external thread.

    area = pi / 4 * ((pitch_diameter + minor_diameter) / 2)^2

    Parameters
    ----------
    pitch_diameter : float
        Basic pitch diameter d2 [mm]
    minor_diameter : float
        Basic minor diameter d3 at the root [mm]

    Returns
    -------
    area : float
        Nominal stress area [mm^2]

    Examples
    --------
    [1]_ prints 84.3 for M12 x 1.75:

    >>> round(stress_area(10.863, 9.853), 1)
    84.3

    References
    ----------
    .. [1] ISO 898-1, nominal stress areas.
    """
    return pi / 4 * ((pitch_diameter + minor_diameter) / 2) ** 2


def unified_stress_area(nominal: float, pitch: float) -> float:
    """Tensile stress area of a unified inch thread.

    area = pi / 4 * (nominal - 0.9743 * pitch)^2

    Parameters
    ----------
    nominal : float
        Nominal diameter d [mm]
    pitch : float
        Pitch P [mm]

    Returns
    -------
    area : float
        Tensile stress area [mm^2]

    Examples
    --------
    [1]_ prints 0.0318 square inches for 1/4-20 UNC:

    >>> round(unified_stress_area(6.35, 1.27) / 25.4**2, 4)
    0.0318

    References
    ----------
    .. [1] ASME B1.1-2003 appendix B, tensile stress area.
    """
    return pi / 4 * (nominal - 0.9743 * pitch) ** 2


def mean_diameter_area(pitch_diameter: float, minor_diameter: float) -> float:
    """Stress area of a Whitworth, BA or cycle thread, at the mean of pitch and minor diameter.

    area = pi / 4 * ((pitch_diameter + minor_diameter) / 2)^2

    Parameters
    ----------
    pitch_diameter : float
        Basic pitch diameter [mm]
    minor_diameter : float
        Basic minor diameter [mm]

    Returns
    -------
    area : float
        Stress area [mm^2]

    Examples
    --------
    With the diameters that [1]_ prints for 1/4 BSW, 0.2180 and 0.1860 in, a handbook area of 0.0320 square inches:

    >>> round(mean_diameter_area(0.2180, 0.1860), 3)
    0.032

    References
    ----------
    .. [1] BS 84 and BS 93 for the diameters; the form of ISO 898-1, by analogy.
    """
    return pi / 4 * ((pitch_diameter + minor_diameter) / 2) ** 2
