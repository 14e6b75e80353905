"""What presses on the gasket. Lengths in mm, areas in mm^2, forces in N, stresses in MPa."""

from __future__ import annotations

from math import pi, sqrt


def face_area(face: float, bore: float, holes: float) -> float:
    """Area of the raised face that presses on the gasket.

    area = pi / 4 * (face^2 - bore^2) - holes

    Parameters
    ----------
    face : float
        Outside of the raised face [mm]
    bore : float
        Bore of the gasket [mm]
    holes : float
        Area of the holes in it [mm^2]

    Returns
    -------
    area : float
        Area [mm^2]

    Examples
    --------
    >>> round(face_area(66, 58.2, 0), 1)
    760.9

    References
    ----------
    .. [1] Plane geometry.
    """
    return pi / 4 * (face**2 - bore**2) - holes


def whole_gasket(area: float) -> float:
    """Area that presses where no raised face is given.

    pressed = area

    Parameters
    ----------
    area : float
        Area of the gasket [mm^2]

    Returns
    -------
    pressed : float
        The whole gasket [mm^2]

    Examples
    --------
    >>> round(whole_gasket(6964.7), 1)
    6964.7

    References
    ----------
    .. [1] Both faces taken as flat all over: common practice, no source.
    """
    return area


def area_each(area: float, count: float) -> float:
    """Area that presses for each stud.

    each = area / count

    Parameters
    ----------
    area : float
        Area that presses [mm^2]
    count : float
        Number of studs [1]

    Returns
    -------
    each : float
        Area [mm^2]

    Examples
    --------
    >>> area_each(760.8, 4)
    190.2

    References
    ----------
    .. [1] All studs press on the one ring.
    """
    return area / count


def face_width(face: float, bore: float) -> float:
    """Width of the ring that presses on the gasket.

    width = (face - bore) / 2

    Parameters
    ----------
    face : float
        Outside of the raised face [mm]
    bore : float
        Bore of the gasket [mm]

    Returns
    -------
    width : float
        Width [mm]

    Examples
    --------
    >>> round(face_width(66, 58.2), 2)
    3.9

    References
    ----------
    .. [1] Plane geometry.
    """
    return (face - bore) / 2


def seating_stress(count: float, preload: float, area: float) -> float:
    """Stress on the gasket when the nuts are tight, cold.

    stress = count * preload / area

    Parameters
    ----------
    count : float
        Number of studs [1]
    preload : float
        Preload of one stud [N]
    area : float
        Area that presses [mm^2]

    Returns
    -------
    stress : float
        Mean over the area [MPa]

    Examples
    --------
    >>> round(seating_stress(4, 9781.8, 760.9), 1)
    51.4

    References
    ----------
    .. [1] Force over area.
    """
    return count * preload / area


def working_stress(count: float, preload: float, share: float, gas: float, area: float) -> float:
    """Stress that is left on the gasket at peak pressure.

    stress = (count * preload - (1 - share) * gas) / area

    Parameters
    ----------
    count : float
        Number of studs [1]
    preload : float
        Least preload of one stud in any state [N]
    share : float
        Share of the gas force that the studs feel [1]
    gas : float
        Gas force on all studs [N]
    area : float
        Area that presses [mm^2]

    Returns
    -------
    stress : float
        Mean over the area [MPa]

    Examples
    --------
    >>> round(working_stress(4, 7336, 0.198, 10109, 760.9), 1)
    27.9

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8: the gas takes its share off the clamped parts.
    """
    return (count * preload - (1 - share) * gas) / area


def effective_width(width: float) -> float:
    """Width of the gasket that the flange code counts.

    effective = width / 2 if width <= 12.7 else 2.52 * sqrt(width / 2)

    Parameters
    ----------
    width : float
        Width of the ring that presses [mm]

    Returns
    -------
    effective : float
        b [mm]

    Examples
    --------
    >>> round(effective_width(3.9), 3)
    1.95

    References
    ----------
    .. [1] ASME VIII-1 appendix 2, 2-5 (memory): a flange code, not engine practice.
    """
    half = width / 2
    return half if half <= 6.35 else 2.52 * sqrt(half)  # noqa: PLR2004 - 1/4 in of the code


def effective_diameter(bore: float, width: float, effective: float) -> float:
    """Diameter on which the gasket seals: the middle of the ring that seals; of a wide one nearer to its outside.

    diameter = bore + width if width <= 12.7 else bore + 2 * width - 2 * effective

    Parameters
    ----------
    bore : float
        Bore of the gasket [mm]
    width : float
        Width of the ring [mm]
    effective : float
        b [mm]

    Returns
    -------
    diameter : float
        G [mm]

    Examples
    --------
    ID 6 and OD 7 in give G = 6.5 in:

    >>> round(effective_diameter(6 * 25.4, 0.5 * 25.4, 0.25 * 25.4) / 25.4, 2)
    6.5

    References
    ----------
    .. [1] ASME VIII-1 appendix 2, 2-5 (memory): a flange code, not engine practice.
    """
    return bore + width if width <= 12.7 else bore + 2 * width - 2 * effective  # noqa: PLR2004 - 1/2 in of the code


def sealing_width(pressed: float, land: float) -> float:
    """Width of the ring that holds the gas: no wider than what is pressed, and no farther than the first stud.

    width = min(pressed, land)

    Parameters
    ----------
    pressed : float
        Width of the ring that presses [mm]
    land : float
        Gasket from its bore to the nearest stud hole or its edge [mm]

    Returns
    -------
    width : float
        Width [mm]

    Examples
    --------
    >>> sealing_width(3.9, 8.4)
    3.9

    References
    ----------
    .. [1] Plane geometry: gas that has reached the stud holes is out all round; a passage lets it out at one place.
    """
    return min(pressed, land)


def seating_load(effective: float, diameter: float, y: float) -> float:
    """Load that the flange code wants to seat a gasket.

    load = pi * effective * diameter * y

    Parameters
    ----------
    effective : float
        b [mm]
    diameter : float
        G [mm]
    y : float
        Seating stress of the code [MPa]

    Returns
    -------
    load : float
        Wm2, on all studs [N]

    Examples
    --------
    >>> round(seating_load(2, 60, 89.63))
    33790

    References
    ----------
    .. [1] ASME VIII-1 appendix 2, 2-5 (memory): a flange code, not engine practice.
    """
    return pi * effective * diameter * y


def operating_load(diameter: float, pressure: float, effective: float, m: float) -> float:
    """Load that the flange code wants on a gasket under pressure.

    load = pi / 4 * diameter^2 * pressure + 2 * effective * pi * diameter * m * pressure

    Parameters
    ----------
    diameter : float
        G [mm]
    pressure : float
        Peak pressure [MPa]
    effective : float
        b [mm]
    m : float
        Gasket factor of the code [1]

    Returns
    -------
    load : float
        Wm1, on all studs [N]

    Examples
    --------
    >>> round(operating_load(60, 5, 2, 4.75))
    32044

    References
    ----------
    .. [1] ASME VIII-1 appendix 2, 2-5 (memory): a flange code, not engine practice.
    """
    return pi / 4 * diameter**2 * pressure + 2 * effective * pi * diameter * m * pressure


def seating_limit(load: float, area: float) -> float:
    """Seating load of the flange code as a stress on the area that presses.

    stress = load / area

    Parameters
    ----------
    load : float
        Wm2 [N]
    area : float
        Area that presses [mm^2]

    Returns
    -------
    stress : float
        About y / 2, for the code counts half the width [MPa]

    Examples
    --------
    >>> round(seating_limit(34100, 760.9), 1)
    44.8

    References
    ----------
    .. [1] ASME VIII-1 appendix 2, 2-5 (memory): a flange code, not engine practice.
    """
    return load / area


def working_limit(m: float, pressure: float) -> float:
    """Stress that the flange code wants left on a gasket under pressure.

    stress = m * pressure

    Parameters
    ----------
    m : float
        Gasket factor of the code [1]
    pressure : float
        Peak pressure [MPa]

    Returns
    -------
    stress : float
        Stress [MPa]

    Examples
    --------
    >>> round(working_limit(4.75, 3.8), 2)
    18.05

    References
    ----------
    .. [1] ASME VIII-1 appendix 2, 2-5 (memory): a flange code, not engine practice.
    """
    return m * pressure


def blow_pressure(pressure: float) -> float:
    """Stress below which the gas itself lifts the head off the gasket.

    stress = pressure

    Parameters
    ----------
    pressure : float
        Peak pressure [MPa]

    Returns
    -------
    stress : float
        Stress [MPa]

    Examples
    --------
    >>> round(blow_pressure(3.8), 1)
    3.8

    References
    ----------
    .. [1] Balance of pressures.
    """
    return pressure


def widest(**distances: float) -> float:
    """Greatest of several distances.

    distance = greatest of the distances

    Parameters
    ----------
    **distances : float
        Distance from each stud to the next [mm]

    Returns
    -------
    distance : float
        Distance [mm]

    Examples
    --------
    >>> round(widest(one=58.0, two=60.0), 1)
    60.0

    References
    ----------
    .. [1] The worst of them.
    """
    return max(distances.values())


def pitch_limit(nominal: float) -> float:
    """Distance between studs beyond which a joint leaks between them.

    limit = 28.5 * sqrt(nominal)

    Parameters
    ----------
    nominal : float
        Diameter of the studs [mm]

    Returns
    -------
    limit : float
        Distance along the circle of studs [mm]

    Examples
    --------
    [1]_ gives 80.6 mm for 8 mm studs:

    >>> round(pitch_limit(8), 1)
    80.6

    References
    ----------
    .. [1] Khurmi and Gupta, A Textbook of Machine Design, ch. 32: 19 to 28.5 times the root of the diameter in
        mm.
    """
    return 28.5 * sqrt(nominal)


def shifted_overhang(bore: float, diameter: float, hole: float, stud: float) -> float:
    """How far a gasket reaches over the edge of the bore when it lies to one side.

    overhang = (bore - diameter) / 2 + (hole - stud) / 2

    Parameters
    ----------
    bore : float
        Bore of the cylinder [mm]
    diameter : float
        Bore of the gasket [mm]
    hole : float
        Stud hole of the gasket [mm]
    stud : float
        Stud in it [mm]

    Returns
    -------
    overhang : float
        Below 0 it stands back [mm]

    Examples
    --------
    >>> round(shifted_overhang(57.2, 58.2, 8.5, 8), 2)
    -0.25

    References
    ----------
    .. [1] Plane geometry.
    """
    return (bore - diameter) / 2 + (hole - stud) / 2
