"""Form of an external thread, as plain numbers: its section along the axis, strip by strip over one pitch.

A strip is a straight line or an arc of the section. A point of the section is the complex number r + i zeta: radius and
height along the axis [mm]; zeta = 0 in the middle of a crest. A strip's parameter v is the length along a line, and
q = tan(theta / 2) along an arc, by which an arc is a fraction of polynomials and an exact spline.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from math import factorial, radians, sin, sqrt, tan
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

SAME = 1e-7  # mm: radii nearer than this are one
ORDERS = 4  # of a jet: value and three derivatives

Jet: TypeAlias = tuple[complex, ...]
"""value and first three derivatives"""


@dataclass(frozen=True, slots=True)
class ThreadForm:
    """An external thread at the sizes it is modelled with.

    The root is an arc that touches both flanks. What it reaches makes its radius: H/6 for a metric thread, whose root
    ISO 68-1 wants between H/8 and H/4; 3/16 H for UNR; 0.137329 P by BS 84, 0.18083 P by BS 93, P/6 by BS 811. A round
    crest touches the flanks too, on a blank in the middle of its limits with a radius a little over the root's.
    """

    pitch: float
    half_angle: float
    """between a flank and the plane across the axis [deg]"""
    major: float
    """diameter over the crests"""
    pitch_diameter: float
    root: float
    """diameter at the bottom of the root"""
    round_crest: bool
    """an arc that touches both flanks, else a flat"""
    left_hand: bool

    @property
    def root_radius(self) -> float:
        """Radius of the root's arc."""
        return self._touching(self.pitch_diameter / 2 - self.root / 2)

    @property
    def crest_radius(self) -> float:
        """Radius of the crest's arc, 0 for a flat."""
        return self._touching(self.major / 2 - self.pitch_diameter / 2) if self.round_crest else 0.0

    def _touching(self, depth: float) -> float:
        """Radius of the arc between two flanks whose end lies so far from the pitch line."""
        half = radians(self.half_angle)
        return (self.pitch / (4 * tan(half)) - depth) / (1 / sin(half) - 1)


@dataclass(frozen=True, slots=True)
class Flank:
    """A straight strip, or part of one."""

    start: complex
    stop: complex
    place: str
    """crest, flank or root"""

    @property
    def low(self) -> float:
        """Parameter at the start."""
        return 0.0

    @property
    def high(self) -> float:
        """Parameter at the end."""
        return abs(self.stop - self.start)

    @property
    def level(self) -> bool:
        """Whether all of it has one radius."""
        return abs(self.stop.real - self.start.real) < SAME

    def jet(self, v: float) -> Jet:
        """Point and derivatives at a parameter."""
        way = (self.stop - self.start) / self.high
        return (self.start + way * v, way, 0j, 0j)

    def poles(self) -> list[tuple[complex, float]]:
        """Poles and weights of the strip as a spline in v."""
        return [(self.start, 1.0), (self.stop, 1.0)]

    def split(self, radius: float) -> list[Flank]:
        """Cut the strip where it has this radius."""
        (r0, r1), middle = (self.start.real, self.stop.real), self.start
        if min(r0, r1) + SAME < radius < max(r0, r1) - SAME:
            middle = self.start + (self.stop - self.start) * (radius - r0) / (r1 - r0)
            return [replace(self, stop=middle), replace(self, start=middle)]
        return [self]

    def moved(self, rise: float) -> Flank:
        """Return the strip moved along the axis."""
        return replace(self, start=self.start + 1j * rise, stop=self.stop + 1j * rise)


@dataclass(frozen=True, slots=True)
class Arc:
    """A round strip, or part of one: a crest bulges outwards, a root inwards."""

    centre: complex
    radius: float
    low: float
    """q at the start"""
    high: float
    place: str
    level = False

    @property
    def start(self) -> complex:
        """First point."""
        return self.jet(self.low)[0]

    @property
    def stop(self) -> complex:
        """Last point."""
        return self.jet(self.high)[0]

    def jet(self, v: float) -> Jet:
        """Point and derivatives at a parameter: exp(i theta) = 2 / (1 - i q) - 1."""
        turn = [2 * factorial(n) * 1j**n / (1 - 1j * v) ** (n + 1) for n in range(ORDERS)]
        turn[0] -= 1
        out = self.place == "crest"
        rest = [self.radius * (t if out else -t.conjugate()) for t in turn]
        return (self.centre + rest[0], *rest[1:])

    def poles(self) -> list[tuple[complex, float]]:
        """Poles and weights of the strip as a spline in v."""
        a, b = self.low, self.high
        sign = 1 if self.place == "crest" else -1
        found = []
        for one, two in ((a, a), (a, b), (b, b)):
            weight = 1 + one * two
            turn = complex(sign * (1 - one * two), one + two) / weight
            found.append((self.centre + self.radius * turn, weight))
        return found

    def split(self, radius: float) -> list[Arc]:
        """Cut the strip where it has this radius."""
        sign = 1 if self.place == "crest" else -1
        c = sign * (radius - self.centre.real) / self.radius
        if abs(c) >= 1 - SAME:
            return [self]
        q = sqrt((1 - c) / (1 + c))
        near = 1e-6  # of q
        at = [self.low, *(p for p in (-q, q) if self.low + near < p < self.high - near), self.high]
        return [replace(self, low=a, high=b) for a, b in pairwise(at)]

    def moved(self, rise: float) -> Arc:
        """Return the strip moved along the axis."""
        return replace(self, centre=self.centre + 1j * rise)


Strip: TypeAlias = Flank | Arc


def strips(form: ThreadForm, cuts: Iterable[float] = ()) -> list[Strip]:
    """Return the strips of one pitch from the crest on, cut at these radii too.

    The strips follow each other: crest, the flank behind it, root, the flank before the next crest.
    """
    found = list(_period(form))
    for radius in cuts:
        found = [part for strip in found for part in strip.split(radius)]
    return found


def _period(form: ThreadForm) -> Iterator[Strip]:
    root, crest = _root(form), _crest(form)
    yield crest
    yield Flank(crest.stop, root.start, "flank")
    yield root
    yield Flank(root.stop, crest.start + 1j * form.pitch, "flank")


def _root(form: ThreadForm) -> Arc:
    radius, q = form.root_radius, tan(radians(90 - form.half_angle) / 2)
    return Arc(complex(form.root / 2 + radius, form.pitch / 2), radius, -q, q, "root")


def _crest(form: ThreadForm) -> Strip:
    if form.round_crest:
        radius, q = form.crest_radius, tan(radians(90 - form.half_angle) / 2)
        return Arc(complex(form.major / 2 - radius, 0.0), radius, -q, q, "crest")
    wide = form.pitch / 4 - (form.major - form.pitch_diameter) / 2 * tan(radians(form.half_angle))
    return Flank(complex(form.major / 2, -wide), complex(form.major / 2, wide), "crest")
