"""Head joint: forces, stiffness of the clamped parts, preload, torque. Lengths in mm, forces in N, stresses in MPa."""

from __future__ import annotations

from math import cos, log, pi, sqrt, tan


def gas_force(diameter: float, pressure: float) -> float:
    """Force of the gas on the head.

    force = pi / 4 * diameter^2 * pressure

    Parameters
    ----------
    diameter : float
        Diameter on which the gasket seals [mm]
    pressure : float
        Peak pressure [MPa]

    Returns
    -------
    force : float
        On all studs together [N]

    Examples
    --------
    [1]_ prints 10.6 kN for each of ten bolts at 6 MPa on 150 mm:

    >>> round(gas_force(150, 6) / 10 / 1000, 1)
    10.6

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, problem 8-22: pressure on the sealing diameter.
    """
    return pi / 4 * diameter**2 * pressure


def force_each(force: float, share: float) -> float:
    """Gas force on the stud that carries most.

    each = force * share

    Parameters
    ----------
    force : float
        Gas force on all studs [N]
    share : float
        Share of the stud that carries most [1]

    Returns
    -------
    each : float
        On one stud [N]

    Examples
    --------
    >>> round(force_each(10109.3, 0.25), 1)
    2527.3

    References
    ----------
    .. [1] Share of the whole.
    """
    return force * share


def proof_from_yield(yield_strength: float) -> float:
    """Proof stress of a home-turned stud, which has no property class.

    proof = 0.9 * yield_strength

    Parameters
    ----------
    yield_strength : float
        Rp0.2 of the bar at its diameter [MPa]

    Returns
    -------
    proof : float
        Proof stress [MPa]

    Examples
    --------
    ISO 898-1 has 580 for class 8.8, whose yield strength is 640:

    >>> round(proof_from_yield(640))
    576

    References
    ----------
    .. [1] ISO 898-1: stress under proof load is 0.88 to 0.94 of the yield strength of the classes; 0.90 taken.
    """
    return 0.9 * yield_strength


def certified(stress: float) -> float:
    """Proof stress by the stud's class or its certificate.

    proof = stress

    Parameters
    ----------
    stress : float
        Stress under proof load [MPa]

    Returns
    -------
    proof : float
        The same [MPa]

    Examples
    --------
    >>> round(certified(580))
    580

    References
    ----------
    .. [1] ISO 898-1, or the stud's certificate.
    """
    return stress


def proof_load(stress: float, area: float) -> float:
    """Load that the weakest section takes without a lasting stretch.

    load = stress * area

    Parameters
    ----------
    stress : float
        Proof stress [MPa]
    area : float
        Weakest section [mm^2]

    Returns
    -------
    load : float
        Proof load [N]

    Examples
    --------
    [1]_ has 48 900 N for M12 of class 8.8:

    >>> round(proof_load(580, 84.3))
    48894

    References
    ----------
    .. [1] ISO 898-1: proof load is proof stress times stress area.
    """
    return stress * area


def breaking_load(strength: float, area: float) -> float:
    """Load that breaks the weakest section.

    load = strength * area

    Parameters
    ----------
    strength : float
        Tensile strength Rm [MPa]
    area : float
        Weakest section [mm^2]

    Returns
    -------
    load : float
        Breaking load [N]

    Examples
    --------
    [1]_ has 67 400 N for M12 of class 8.8 (memory):

    >>> round(breaking_load(800, 84.3))
    67440

    References
    ----------
    .. [1] ISO 898-1: ultimate load is tensile strength times stress area.
    """
    return strength * area


def metal_round(metal: float, hole: float) -> float:
    """Diameter of the metal round a hole that carries the pressure cone.

    limit = max(metal, 1.25 * hole)

    Parameters
    ----------
    metal : float
        Metal that is there: boss, or outside of the washer [mm]
    hole : float
        Hole through it [mm]

    Returns
    -------
    limit : float
        Greatest diameter of the cone in this layer [mm]

    Examples
    --------
    >>> round(metal_round(24, 9), 2)
    24

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8: no cone is wider than the part. A quarter over the hole
        at least: common practice, no source.
    """
    return max(metal, 1.25 * hole)


def cone_start(above: float, length: float, hole: float) -> float:
    """Diameter of the pressure cone where it enters a layer.

    start = max(above + 2 * tan(pi / 6) * length, 1.1 * hole)

    Parameters
    ----------
    above : float
        Diameter at the top of the layer above; the nut's bearing face for the first [mm]
    length : float
        Length of the cone in the layer above [mm]
    hole : float
        Hole through this layer [mm]

    Returns
    -------
    start : float
        Diameter [mm]

    Examples
    --------
    >>> round(cone_start(11.6, 1.6, 9), 3)
    13.448

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8: cones of 30 degrees half angle.
    """
    return max(above + 2 * tan(pi / 6) * length, 1.1 * hole)


def cone_length(start: float, thickness: float, limit: float) -> float:
    """How much of a layer lies inside the pressure cone before it meets the edge of the metal.

    length = max(0, min(thickness, (limit - start) / (2 * tan(pi / 6))))

    Parameters
    ----------
    start : float
        Diameter of the cone at the top of the layer [mm]
    thickness : float
        Thickness of the layer [mm]
    limit : float
        Diameter of the metal round the hole [mm]

    Returns
    -------
    length : float
        Below it the layer presses as a plain tube [mm]

    Examples
    --------
    >>> round(cone_length(13.448, 46, 24), 3)
    9.138

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8: cones of 30 degrees half angle.
    """
    return max(0, min(thickness, (limit - start) / (2 * tan(pi / 6))))


def layer_compliance(start: float, length: float, thickness: float, hole: float, limit: float, modulus: float) -> float:
    """How much one clamped layer gives: a cone as far as it fits in the metal, a tube from there.

    compliance = 1e6 * (log((2 * tan(pi / 6) * length + start - hole) * (start + hole) / ((2 * tan(pi / 6) *
    length + start + hole) * (start - hole))) / (hole * tan(pi / 6)) + 4 * (thickness - length) / (limit^2 -
    hole^2)) / (pi * modulus)

    Parameters
    ----------
    start : float
        Diameter of the cone at the top of the layer [mm]
    length : float
        Length of the cone in it [mm]
    thickness : float
        Thickness of the layer [mm]
    hole : float
        Hole through it [mm]
    limit : float
        Diameter of the metal round the hole [mm]
    modulus : float
        Modulus of elasticity [MPa]

    Returns
    -------
    compliance : float
        Shortening for each kilonewton [um/kN]

    Examples
    --------
    >>> round(layer_compliance(13.448, 9.139, 46, 9, 24, 73500), 3)
    1.982

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-20: frusta in series.
    """
    wide = 2 * tan(pi / 6) * length + start
    cone = log((wide - hole) * (start + hole) / ((wide + hole) * (start - hole))) / (hole * tan(pi / 6))
    tube = 4 * (thickness - length) / (limit**2 - hole**2)
    return 1e6 * (cone + tube) / (pi * modulus)


def room_in_face(face: float, reach: float) -> float:
    """Diameter of the raised face's metal round a stud that stands in it.

    metal = face - 2 * reach

    Parameters
    ----------
    face : float
        Outside of the raised face [mm]
    reach : float
        Stud from the centre of the bore [mm]

    Returns
    -------
    metal : float
        Below 0 the stud stands outside [mm]

    Examples
    --------
    >>> room_in_face(104, 41.5)
    21.0

    References
    ----------
    .. [1] Plane geometry.
    """
    return face - 2 * reach


def ring_compliance(thickness: float, area: float, modulus: float) -> float:
    """How much a layer gives that is pressed by a raised face inside the studs: each stud has its part of the ring.

    compliance = 1e6 * thickness / (area * modulus)

    Parameters
    ----------
    thickness : float
        Thickness of the layer [mm]
    area : float
        Area that presses for each stud [mm^2]
    modulus : float
        Modulus of elasticity [MPa]

    Returns
    -------
    compliance : float
        Shortening for each kilonewton on the stud [um/kN]

    Examples
    --------
    >>> round(ring_compliance(1.2, 190.2, 116000), 4)
    0.0544

    References
    ----------
    .. [1] Hooke; no cone runs through the air beside a raised face.
    """
    return 1e6 * thickness / (area * modulus)


def clamped_stiffness(washer: float, head: float, gasket: float, barrel: float) -> float:
    """Stiffness of the clamped parts, layer on layer.

    stiffness = 1e6 / (washer + head + gasket + barrel)

    Parameters
    ----------
    washer : float
        Compliance of the washer [um/kN]
    head : float
        Compliance of the head [um/kN]
    gasket : float
        Compliance of the gasket [um/kN]
    barrel : float
        Compliance of the barrel [um/kN]

    Returns
    -------
    stiffness : float
        Load for each millimetre [N/mm]

    Examples
    --------
    [1]_, problem 8-22, prints 1523 MN/m where each half is twice as stiff as a whole joint of its metal, 2361 and
    1124:

    >>> round(clamped_stiffness(0, 1e6 / (2 * 2361e3), 0, 1e6 / (2 * 1124e3)) / 1000)
    1523

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-18: springs in series.
    """
    return 1e6 / (washer + head + gasket + barrel)


def stiffness_share(stud: float, clamped: float) -> float:
    """Share of a load on the joint that the stud feels.

    share = stud / (stud + clamped)

    Parameters
    ----------
    stud : float
        Stiffness of the stud [N/mm]
    clamped : float
        Stiffness of the clamped parts [N/mm]

    Returns
    -------
    share : float
        C; the clamped parts take the rest [1]

    Examples
    --------
    [1]_, problem 8-22, prints 0.2346 for 466.8 and 1523 MN/m:

    >>> round(stiffness_share(466.8e3, 1523e3), 4)
    0.2346

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-24.
    """
    return stud / (stud + clamped)


def preload(share: float, proof_load: float) -> float:
    """Preload of one stud.

    preload = share * proof_load

    Parameters
    ----------
    share : float
        Share of the proof load [1]
    proof_load : float
        Proof load of the weakest section [N]

    Returns
    -------
    preload : float
        Preload Fi, cold, nominal [N]

    Examples
    --------
    [1]_, problem 8-22, prints 37.9 kN for M12 with 600 MPa:

    >>> round(preload(0.75, 600 * 84.3) / 1e3, 1)
    37.9

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-31.
    """
    return share * proof_load


def separation_factor(preload: float, gas: float, share: float) -> float:
    """How many times over the gas force would have to rise before the joint opens.

    factor = preload / (gas * (1 - share))

    Parameters
    ----------
    preload : float
        Preload of one stud [N]
    gas : float
        Gas force on one stud [N]
    share : float
        Share of it that the stud feels [1]

    Returns
    -------
    factor : float
        Under 1 the joint opens [1]

    Examples
    --------
    >>> round(separation_factor(37940, 10603, 0.2346), 2)
    4.67

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-30.
    """
    return preload / (gas * (1 - share))


def opening_force(gas: float, share: float) -> float:
    """Preload at which the gas just opens the joint at a stud.

    preload = gas * (1 - share)

    Parameters
    ----------
    gas : float
        Gas force on one stud [N]
    share : float
        Share of it that the stud feels [1]

    Returns
    -------
    preload : float
        Preload [N]

    Examples
    --------
    >>> round(opening_force(2527.3, 0.1983))
    2026

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-30.
    """
    return gas * (1 - share)


def load_factor(proof_load: float, preload: float, share: float, gas: float) -> float:
    """How many times over the gas force would have to rise before the stud reaches its proof load.

    factor = (proof_load - preload) / (share * gas)

    Parameters
    ----------
    proof_load : float
        Proof load of the weakest section [N]
    preload : float
        Preload of one stud [N]
    share : float
        Share of the gas force that the stud feels [1]
    gas : float
        Gas force on one stud [N]

    Returns
    -------
    factor : float
        Cold [1]

    Examples
    --------
    [1]_, problem 8-22, prints 5.1:

    >>> round(load_factor(600 * 84.3, 37940, 0.2346, 10603), 1)
    5.1

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-29.
    """
    return (proof_load - preload) / (share * gas)


def share_used(load: float, proof_load: float) -> float:
    """Greatest load on a stud against its proof load.

    share = load / proof_load

    Parameters
    ----------
    load : float
        Greatest load on the stud [N]
    proof_load : float
        Proof load of the weakest section [N]

    Returns
    -------
    share : float
        Over 1 it stretches for good [1]

    Examples
    --------
    >>> round(share_used(23010, 24454), 3)
    0.941

    References
    ----------
    .. [1] Ratio of the two loads.
    """
    return load / proof_load


def fatigue_amplitude(share: float, gas: float, area: float) -> float:
    """Stress that swings in the weakest section of the stud with every firing stroke.

    amplitude = share * gas / (2 * area)

    Parameters
    ----------
    share : float
        Share of the gas force that the stud feels [1]
    gas : float
        Gas force on one stud [N]
    area : float
        Weakest section [mm^2]

    Returns
    -------
    amplitude : float
        Half the swing [MPa]

    Examples
    --------
    >>> round(fatigue_amplitude(0.2, 2500, 36.6), 2)
    6.83

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-35: loads that swing from nothing to the full
        pressure.
    """
    return share * gas / (2 * area)


def fatigue_limit(nominal: float) -> float:
    """Stress amplitude that a thread rolled before hardening stands for ever.

    limit = 0.85 * (150 / nominal + 45)

    Parameters
    ----------
    nominal : float
        Nominal diameter of the thread [mm]

    Returns
    -------
    limit : float
        Amplitude [MPa]

    Examples
    --------
    >>> round(fatigue_limit(10), 1)
    51.0

    References
    ----------
    .. [1] VDI 2230-1, rolled before heat treatment (memory).
    """
    return 0.85 * (150 / nominal + 45)


def friction_diameter(bearing: float, inside: float) -> float:
    """Mean diameter of the ring on which the nut turns.

    diameter = (bearing + inside) / 2

    Parameters
    ----------
    bearing : float
        Diameter of the nut's bearing face [mm]
    inside : float
        Bore of the washer [mm]

    Returns
    -------
    diameter : float
        DKm [mm]

    Examples
    --------
    >>> round(friction_diameter(11.6, 8.4), 2)
    10.0

    References
    ----------
    .. [1] VDI 2230-1, ISO 16047: DKm = (dw + dh)/2.
    """
    return (bearing + inside) / 2


def torque(
    preload: float, pitch: float, pitch_diameter: float, half_angle: float, friction: float, friction_diameter: float
) -> float:
    """Tightening torque for a preload, by the full formula.

    torque = preload * (pitch / (2 * pi) + friction * pitch_diameter / (2 * cos(half_angle * pi / 180)) + friction
    * friction_diameter / 2) / 1000

    Parameters
    ----------
    preload : float
        Preload of one stud [N]
    pitch : float
        Pitch of the nut end [mm]
    pitch_diameter : float
        Basic pitch diameter of the nut end [mm]
    half_angle : float
        Half the angle of the thread [deg]
    friction : float
        Friction in the thread and under the nut [1]
    friction_diameter : float
        Mean diameter of the ring on which the nut turns [mm]

    Returns
    -------
    torque : float
        Torque [N m]

    Examples
    --------
    [1]_ prints 51 N m for M10x1.25 at 31.6 kN:

    >>> round(torque(31600, 1.25, 9.188, 30, 0.12, 12.8))
    51

    References
    ----------
    .. [1] ISO 16047, VDI 2230-1: lead, thread and bearing face each take their part.
    """
    return (
        preload
        * (
            pitch / (2 * pi)
            + friction * pitch_diameter / (2 * cos(half_angle * pi / 180))
            + friction * friction_diameter / 2
        )
        / 1000
    )


def nut_factor(torque: float, preload: float, nominal: float) -> float:
    """Factor K of the short torque formula that fits these threads, faces and friction.

    factor = 1000 * torque / (preload * nominal)

    Parameters
    ----------
    torque : float
        Torque by the full formula [N m]
    preload : float
        Preload of one stud [N]
    nominal : float
        Nominal diameter of the nut end [mm]

    Returns
    -------
    factor : float
        K [1]

    Examples
    --------
    [1]_, example 8-3: 3551 lbf in for 25 000 lbf on 3/4 in is K = 0.189 (memory):

    >>> round(nut_factor(3551 * 0.112985, 25000 * 4.44822, 19.05), 4)
    0.1894

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-26.
    """
    return 1000 * torque / (preload * nominal)


def torque_by_factor(factor: float, preload: float, nominal: float) -> float:
    """Tightening torque by the short formula.

    torque = factor * preload * nominal / 1000

    Parameters
    ----------
    factor : float
        K from the table of conditions [1]
    preload : float
        Preload of one stud [N]
    nominal : float
        Nominal diameter of the nut end [mm]

    Returns
    -------
    torque : float
        Torque [N m]

    Examples
    --------
    [1]_, example 8-3 prints 3750 lbf in (memory):

    >>> round(torque_by_factor(0.2, 25000 * 4.44822, 19.05) / 0.112985)
    3750

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-27: T = K F d.
    """
    return factor * preload * nominal / 1000


def tightening_preload(
    yield_strength: float, area: float, pitch: float, pitch_diameter: float, half_angle: float, friction: float
) -> float:
    """Preload at which pull and twist together reach 0.9 of the yield strength while the nut is turned.

    preload = 0.9 * yield_strength * area / sqrt(1 + 3 * (1.5 * pitch_diameter / sqrt(4 * area / pi) * (pitch /
    (pi * pitch_diameter) + friction / cos(half_angle * pi / 180)))^2)

    Parameters
    ----------
    yield_strength : float
        Rp0.2 of the stud [MPa]
    area : float
        Weakest section [mm^2]
    pitch : float
        Pitch of the nut end [mm]
    pitch_diameter : float
        Basic pitch diameter of the nut end [mm]
    half_angle : float
        Half the angle of the thread [deg]
    friction : float
        Friction in the thread [1]

    Returns
    -------
    preload : float
        Preload [N]

    Examples
    --------
    [1]_ prints 19.7 kN for M8x1 of class 8.8, friction 0.14:

    >>> round(tightening_preload(640, 39.17, 1, 7.35, 30, 0.14) / 1000, 1)
    19.7

    References
    ----------
    .. [1] VDI 2230-1: assembly preload at 90 % of Rp0.2.
    """
    twist = pitch / (pi * pitch_diameter) + friction / cos(half_angle * pi / 180)
    ratio = 1.5 * pitch_diameter / sqrt(4 * area / pi) * twist
    return 0.9 * yield_strength * area / sqrt(1 + 3 * ratio**2)


def hardest_preload(scatter: float, nominal: float) -> float:
    """Preload where the tightening comes out low.

    preload = (1 + scatter) * nominal

    Parameters
    ----------
    scatter : float
        Scatter of the tightening [1]
    nominal : float
        Nominal preload [N]

    Returns
    -------
    preload : float
        Preload [N]

    Examples
    --------
    >>> round(hardest_preload(0.25, 10000))
    12500

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8: a torque wrench scatters by some 25 % (memory).
    """
    return (1 + scatter) * nominal


def least_preload(scatter: float, nominal: float) -> float:
    """Preload where the tightening comes out high.

    preload = (1 - scatter) * nominal

    Parameters
    ----------
    scatter : float
        Scatter of the tightening [1]
    nominal : float
        Nominal preload [N]

    Returns
    -------
    preload : float
        Preload, cold [N]

    Examples
    --------
    >>> round(least_preload(0.25, 10000))
    7500

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8: a torque wrench scatters by some 25 % (memory).
    """
    return (1 - scatter) * nominal


def greatest_preload(hardest: float, rise: float, share: float, gas: float) -> float:
    """Greatest load on a stud: tightened too hard, at the worst heat, with the gas on it.

    load = hardest + rise + share * gas

    Parameters
    ----------
    hardest : float
        Preload where the tightening comes out low [N]
    rise : float
        Greatest rise of the load by heat [N]
    share : float
        Share of the gas force that the stud feels [1]
    gas : float
        Gas force on one stud [N]

    Returns
    -------
    load : float
        Load on the stud [N]

    Examples
    --------
    >>> round(greatest_preload(12227, 10281, 0.2, 2527))
    23013

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, ch. 8, eq. 8-24, with the growth of the parts added.
    """
    return hardest + rise + share * gas


def washer_area(outside: float, hole: float, inside: float) -> float:
    """Ring of the head that the washer presses on.

    area = pi / 4 * (outside^2 - max(hole, inside)^2)

    Parameters
    ----------
    outside : float
        Outside of the washer [mm]
    hole : float
        Stud hole of the head [mm]
    inside : float
        Bore of the washer [mm]

    Returns
    -------
    area : float
        Area [mm^2]

    Examples
    --------
    >>> round(washer_area(16, 9, 8.4), 2)
    137.44

    References
    ----------
    .. [1] Plane geometry.
    """
    if outside <= max(hole, inside):
        raise ValueError("it falls through the hole")
    return pi / 4 * (outside**2 - max(hole, inside) ** 2)


def face_pressure(force: float, area: float) -> float:
    """Pressure on a face.

    pressure = force / area

    Parameters
    ----------
    force : float
        Force [N]
    area : float
        Area [mm^2]

    Returns
    -------
    pressure : float
        Pressure [MPa]

    Examples
    --------
    >>> round(face_pressure(23010, 137.44), 1)
    167.4

    References
    ----------
    .. [1] Force over area.
    """
    return force / area


def hard_as(hardness: float) -> float:
    """Tensile strength that goes with a hardness of steel.

    strength = 3.2 * hardness

    Parameters
    ----------
    hardness : float
        Vickers hardness [1]

    Returns
    -------
    strength : float
        Tensile strength [MPa]

    Examples
    --------
    [1]_ has 800 MPa for 250 HV (memory):

    >>> round(hard_as(250))
    800

    References
    ----------
    .. [1] ISO 18265, conversion for steel (memory).
    """
    return 3.2 * hardness


def nut_proof_load(number: float, area: float) -> float:
    """Load that the nut stands, by its class.

    load = 100 * number * area

    Parameters
    ----------
    number : float
        Number of the nut's class [1]
    area : float
        Stress area of the nut end [mm^2]

    Returns
    -------
    load : float
        Proof load of the nut [N]

    Examples
    --------
    >>> round(nut_proof_load(8, 36.6))
    29280

    References
    ----------
    .. [1] ISO 898-2: the class is a hundredth of the tensile strength of the bolt that the nut holds.
    """
    return 100 * number * area


def head_float(hole: float, stud: float) -> float:
    """How far the head can shift on its studs to one side.

    shift = (hole - stud) / 2

    Parameters
    ----------
    hole : float
        Stud hole of the head [mm]
    stud : float
        Stud in it [mm]

    Returns
    -------
    shift : float
        From the middle [mm]

    Examples
    --------
    >>> round(head_float(9, 8), 2)
    0.5

    References
    ----------
    .. [1] Plane geometry.
    """
    return (hole - stud) / 2
