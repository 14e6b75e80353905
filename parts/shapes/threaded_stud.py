"""Shape of the stepped stud with true threads, as plain numbers: what can't be is refused here.

A thread ends at cones, z = z0 + slope (r - r0), one inside a radius and one outside of it:

- at its face a 45 degree chamfer, as deep as the plain stud's;
- where the waist or an undercut is thinner than the core, a 45 degree cone down to just under the root;
- at a thicker shank, behind the last full thread, roots that rise at 30 degrees until they are out of the metal, which
  lies inside the run-out of DIN 76-1; a crest over the shank ends in a 45 degree cone.

No cone adds metal to the plain stud but what fills a run-out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from math import fsum, pi, radians, sqrt, tan
from typing import TYPE_CHECKING

from parts.errors import Fault, JobError
from parts.geometry.profile import Profile, volume
from parts.shapes.thread_form import SAME, strips

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.geometry.edge import Point
    from parts.shapes.stud import StudShape, ThreadedEnd
    from parts.shapes.thread_form import Strip, ThreadForm

NEAR = 0.005  # mm: an edge nearer than this to crest or root is moved off it, well inside the thread's limits
UNDER = 0.02  # mm that an end cone goes below the root
RUN_OUT = 1 / tan(radians(30))  # dz/dr of the cone on which the roots rise
LEAST = 0.2  # mm of any cylinder between the threads
TURNS = 4  # pitches of thread that the two ends at least need
MOST_TURNS = 250  # of one thread: a STEP file of some 20 MB, in half a minute
GAUSS = ((0.5 - sqrt(0.15), 5 / 18), (0.5, 4 / 9), (0.5 + sqrt(0.15), 5 / 18))
PANELS = 24  # of a strip, for its volume


@dataclass(frozen=True, slots=True)
class Cone:
    """A cone, or a plane where the slope is 0: z at a radius, dz/dr."""

    radius: float
    z: float
    slope: float

    def at(self, radius: float) -> float:
        """Height at a radius [mm]."""
        return self.z + self.slope * (radius - self.radius)


@dataclass(frozen=True, slots=True)
class End:
    """Where a thread ends: on one cone inside a radius, on another from there on."""

    inside: Cone
    outside: Cone

    @property
    def radius(self) -> float:
        """Radius where the one cone gives way to the other."""
        return self.inside.radius

    def cone(self, radius: float) -> Cone:
        """Return the cone that holds at a radius."""
        return self.outside if radius > self.radius else self.inside

    def outline(self, major: float) -> list[Point]:
        """(z, r) from where the end meets its neighbour to the crest."""
        crest = major / 2
        first = (self.inside.z, self.radius)
        if self.radius > crest:
            return [first, (self.inside.at(crest), crest)]
        return [first, (self.outside.z, self.radius), (self.outside.at(crest), crest)]


@dataclass(frozen=True, slots=True)
class Zone:
    """One thread between its ends."""

    form: ThreadForm
    low: End
    high: End
    inner: int
    """the end that meets the rest of the part: 0 the low one, 1 the high one"""

    @property
    def strips(self) -> list[Strip]:
        """One pitch of the section, cut where an end's cones give way to each other."""
        return strips(self.form, (self.low.radius, self.high.radius))

    def height(self, radius: float) -> tuple[float, float]:
        """Length of the thread at a radius, as a + b * radius."""
        low, high = self.low.cone(radius), self.high.cone(radius)
        slope = high.slope - low.slope
        return high.z - high.slope * high.radius - low.z + low.slope * low.radius, slope


@dataclass(frozen=True, slots=True)
class ThreadedStud:
    """A stud with two true threads [mm]."""

    zones: tuple[Zone, Zone]
    between: tuple[Point, ...]
    """(z, r) from the end of the lower thread to the end of the upper one"""

    @property
    def blank(self) -> Profile:
        """The part with its grooves filled."""
        low, high = self.zones
        up = [*low.low.outline(low.form.major), *reversed(low.high.outline(low.form.major))]
        down = [*high.low.outline(high.form.major), *reversed(high.high.outline(high.form.major))]
        points = [*up, *self.between[1:-1], *down]
        return Profile(tuple(dict.fromkeys([(up[0][0], 0.0), *points, (down[-1][0], 0.0)])))

    @property
    def volume(self) -> float:
        """Volume [mm^3]: the blank less, for each thread, 2 pi / P times the integral of r length(r) dr dzeta."""
        return volume(self.blank) - fsum(map(groove_volume, self.zones))


def groove_volume(zone: Zone) -> float:
    """Volume between a thread and its crest cylinder, from end to end [mm^3]."""
    total = 0.0
    for strip in zone.strips:
        step = (strip.high - strip.low) / PANELS
        for panel in range(PANELS):
            for node, weight in GAUSS:
                point, way, *_ = strip.jet(strip.low + (panel + node) * step)
                total += weight * step * way.imag * _moment(zone, point.real)
    return 2 * pi / zone.form.pitch * total


def _moment(zone: Zone, radius: float) -> float:
    """Integral of r length(r) dr from a radius to the crest, in parts where the ends are one cone each."""
    crest, total = zone.form.major / 2, 0.0
    inner = sorted(r for r in (zone.low.radius, zone.high.radius) if radius < r < crest)
    for a, b in pairwise([radius, *inner, crest]):
        length, slope = zone.height((a + b) / 2)
        total += length * (b * b - a * a) / 2 + slope * (b**3 - a**3) / 3
    return total


def threaded_stud(shape: StudShape) -> ThreadedStud:
    """Return the stud with true threads; JobError names the end whose thread has no room."""
    tap, nut = (_settled(end) for end in shape.ends)
    zones = (Zone(tap.form, _free(tap), _behind(tap), 1), Zone(nut.form, _behind(nut), _free(nut), 0))
    faults = [fault for end in (tap, nut) for fault in _wrong_length(end)]
    between = tuple(_between(zones, shape.waist))
    if not faults and any(b[0] - a[0] < (LEAST if a[1] == b[1] else 0) for a, b in pairwise(between)):
        faults = [Fault("stud.shank", "leaves no room between the two threads for both to run out, as true threads")]
    if faults:
        raise JobError(*faults)
    return ThreadedStud(zones, between)


def _settled(end: ThreadedEnd) -> ThreadedEnd:
    """Move root or crest off the surface behind the thread, where they all but meet."""
    form = end.form
    if abs(end.behind - form.root / 2) < NEAR:
        form = replace(form, root=2 * (end.behind + NEAR))
    elif abs(end.behind - form.major / 2) < NEAR:
        form = replace(form, major=2 * (end.behind - NEAR))
    return replace(end, form=form)


def _way(end: ThreadedEnd) -> float:
    """1 where the part lies above the face, -1 where below."""
    return 1.0 if end.last > end.face else -1.0


def _free(end: ThreadedEnd) -> End:
    """The chamfer at the face: to under the root, or with a rest of the thread on the face."""
    crest, root = end.form.major / 2, end.form.root / 2
    radius = crest - end.chamfer
    if abs(radius - root) < NEAR:
        radius = root - NEAR
    cone = Cone(radius, end.face, _way(end))
    return End(replace(cone, slope=0.0), cone)


def _behind(end: ThreadedEnd) -> End:
    """How the thread ends at what stands behind it."""
    crest, root, way = end.form.major / 2, end.form.root / 2, _way(end)
    if end.behind < root:
        radius = end.behind if end.behind > root - UNDER - NEAR else root - UNDER
        cone = Cone(radius, end.last, -way)
        return End(cone, cone)
    slope = way * RUN_OUT
    if end.behind > end.nominal / 2 + NEAR:  # a shoulder: the thread runs out in front of it
        cone = Cone(end.nominal / 2, end.last, slope)
        return End(cone, cone)
    out = Cone(end.behind, end.last + slope * (end.behind - root), slope)
    return End(out, Cone(end.behind, end.last, -way) if end.behind < crest else out)


def _wrong_length(end: ThreadedEnd) -> Iterator[Fault]:
    """Refuse a thread whose ends leave it no full turn, or that has more turns than can be made."""
    length, wanted = abs(end.last - end.face), TURNS * end.form.pitch
    if length < wanted:
        says = f"is {length:g} mm long; a true thread wants {wanted:g} mm, {TURNS} pitches: leave --threads away"
        yield Fault(end.key, says)
    if (turns := length / end.form.pitch) > MOST_TURNS:
        yield Fault(end.key, f"has {turns:.0f} turns; true threads are made up to {MOST_TURNS}: leave --threads away")


def _between(zones: tuple[Zone, Zone], waist: tuple[Point, ...]) -> Iterator[Point]:
    """The line from one thread to the other: a point of the waist at an end's radius gives way to that end."""
    first, last = zones[0].high.inside, zones[1].low.inside
    rest = list(waist)
    for cone, place in ((first, 0), (last, -1)):
        if abs(rest[place][1] - cone.radius) < SAME:
            del rest[place]
    yield (first.z, first.radius)
    yield from rest
    yield (last.z, last.radius)
