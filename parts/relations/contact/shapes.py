"""What goes into the contact solver and what comes out. Lengths in mm, forces in N, angles in degrees from the back."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import cos, fsum, pi, radians, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from parts.relations.contour import Law

LINKS = 180
"""links of half a ring"""
LEAST_ORDER = 2
EVEN = 1e-12  # mm


@dataclass(frozen=True, slots=True)
class Blank:
    """A split blank, turned round and stress-free."""

    outside: float
    """turned diameter [mm]"""
    thickness: float
    """radial [mm]"""
    width: float
    """axial [mm]"""
    slit: float
    """what the saw took, on the mean line [mm]"""
    modulus: float
    """of the iron [MPa]"""

    def __post_init__(self) -> None:
        """Refuse what is no ring."""
        if not 0 < 4 * self.thickness < self.outside:
            raise ValueError(f"thickness {self.thickness:g} mm makes no thin ring of {self.outside:g} mm outside")
        if not (self.width > 0 and self.modulus > 0 and 0 <= self.slit < self.outside):
            raise ValueError(f"no ring: width {self.width:g}, slit {self.slit:g} mm, modulus {self.modulus:g} MPa")

    @property
    def radius(self) -> float:
        """Of the blank's mean line [mm]."""
        return (self.outside - self.thickness) / 2

    @property
    def half(self) -> float:
        """Length of the mean line from the back to an end [mm]."""
        return pi * self.radius - self.slit / 2

    @property
    def stiffness(self) -> float:
        """In bending, modulus by second moment [N mm^2]."""
        return self.modulus * self.width * self.thickness**3 / 12


@dataclass(frozen=True, slots=True)
class ContourForm:
    """A mandrel whose seat lies half a thickness inside a curve."""

    law: Law
    """curvature of that curve"""
    bound: bool = False
    """the ring's ends are bound down to the seat, so that it follows the curve to its ends"""
    outside: float = 0.0
    """by which the ring's mean line lies outside that curve: half of what it is thicker than the seat's own [mm]"""


@dataclass(frozen=True, slots=True)
class PinForm:
    """A pin between the ends, at mid-thickness; nothing touches the ring inside."""

    gap: float
    """between the ends, on the mean line [mm]"""


@dataclass(frozen=True, slots=True)
class RoundForm:
    """A plain round mandrel."""

    diameter: float
    """[mm]"""


Form = ContourForm | PinForm | RoundForm


@dataclass(frozen=True, slots=True)
class Lobe:
    """One wave of a bore out of round."""

    order: int
    """times round the bore, 2 to 4 as a rule"""
    amplitude: float
    """by which the radius grows at the crest [mm]"""
    phase: float = 0.0
    """of a crest, from the ring's back [deg]"""


@dataclass(frozen=True, slots=True)
class Bore:
    """The bore in which a ring works."""

    diameter: float
    """mean [mm]"""
    lobes: tuple[Lobe, ...] = ()

    def __post_init__(self) -> None:
        """Refuse waves that are none: once round is a bore off its centre."""
        for lobe in self.lobes:
            if lobe.order < LEAST_ORDER:
                raise ValueError(f"a lobe goes round at least twice, not {lobe.order} times")

    @property
    def even(self) -> bool:
        """Both sides of the ring's back are alike."""
        return all(abs(sin(radians(w.order * w.phase))) * abs(w.amplitude) < EVEN for w in self.lobes)

    def bulge(self, angle: float) -> float:
        """Curvature that the lobes take from the wall, by the radius squared, at an angle from the back [rad]; [mm]."""
        return fsum(w.amplitude * (1 - w.order**2) * cos(w.order * (angle - radians(w.phase))) for w in self.lobes)


@dataclass(frozen=True, slots=True)
class Opened:
    """A ring held open; along one half, the other is its mirror image."""

    arc: tuple[float, ...]
    """along the mean line from the back [mm]"""
    curvature: tuple[float, ...]
    """of the mean line [1/mm]"""
    force: tuple[float, ...]
    """of the form on the ring at each of these places, outwards; the back's is half of what acts there [N]"""
    tip_force: float
    """on each end, concentrated: of the pin, along the gap; of a mandrel, outwards [N]"""
    contact: tuple[tuple[float, float], ...]
    """zones in which the ring touches, along the mean line over the blank's radius [deg]"""
    gap: float
    """between the ends, on the mean line [mm]"""
    kind: str = field(default="", compare=False)
    """what held it: rings of one kind touch nearly alike"""


@dataclass(frozen=True, slots=True)
class Free:
    """A ring by itself after the heat, along one half."""

    arc: tuple[float, ...]
    """along the mean line from the back [mm]"""
    curvature: tuple[float, ...]
    """of the mean line [1/mm]"""
    gap: float
    """total free gap on the mean line [mm]"""
    kind: str = field(default="", compare=False)
    """what held it, and the waves along it"""


@dataclass(frozen=True, slots=True)
class Pressed:
    """A ring closed into its bore, from end to end."""

    angle: tuple[float, ...]
    """from the back, negative to one side [deg]"""
    pressure: tuple[float, ...]
    """on the bore over nominal, the ends' own forces left out [1]"""
    light: tuple[float, ...]
    """gap between ring and bore [mm]"""
    force: tuple[float, ...]
    """of the bore on the ring at each of these places, inwards; all of it [N]"""
    nominal: float
    """pressure that the ratios refer to [MPa]"""
    tip_force: float
    """on an end, concentrated; the greater of the two [N]"""
    mean: float
    """all force over ring's length, over nominal [1]"""
    pressure_ratio_back: float
    """mean over the 10 degrees at the back, over nominal [1]"""
    pressure_ratio_least: float
    """least mean over any 10 degrees from the back to 170 degrees on either side, over nominal [1]"""
    light_gap: float
    """greatest gap between ring and bore [mm]"""
