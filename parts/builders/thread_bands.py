"""Strips of a thread wound round from end to end: their helices, corners, end edges, cuts and faces.

Everything is thought of as a right-hand thread, z = zeta + c phi. A left-hand one has its azimuth psi = -phi, which
turns every loop round. So a low end lies at small phi, and along an end phi = (z(r) - zeta) / c, explicitly.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from math import ceil, floor, pi
from typing import TYPE_CHECKING, Any

from parts.builders.thread_curves import end_places, helix, plane_curve, poles, section, space_jets, straight, wound
from parts.builders.thread_shell import TURN, Corner, Shell, Side, along, cylinder, upright, walked_back
from parts.shapes.thread_form import Flank

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from OCP.TopoDS import TopoDS_Edge

    from parts.shapes.thread_form import Strip
    from parts.shapes.threaded_stud import Cone

    Place = Callable[[float, float], tuple[float, float]]
    """(phi, v) of a band -> (u, v) of its surface"""

CUT = pi  # rad: faces of half a turn, over which the kernel integrates well
MARGIN = 0.05  # rad between a cut and a corner
SAME = 1e-9  # rad
LOOKS = 32  # places along an end where its reach is looked for


@dataclass(slots=True)
class Helix:
    """An edge of the thread, where two strips meet: corners by phi, and the curves between them."""

    radius: float
    zeta: float
    corners: dict[float, Corner] = field(default_factory=dict)
    edges: list[tuple[TopoDS_Edge, float, float]] = field(default_factory=list)

    def has(self, phi: float) -> bool:
        """Whether a corner lies at phi."""
        return any(abs(known - phi) < SAME for known in self.corners)

    def at(self, phi: float) -> Corner:
        """Return the corner at phi."""
        return next(corner for known, corner in self.corners.items() if abs(known - phi) < SAME)


@dataclass(slots=True)
class Band:
    """A strip between two helices and two ends."""

    strip: Strip
    below: tuple[Helix, float]
    """and how far its phi is ahead of the band's [rad]"""
    above: tuple[Helix, float]
    cones: tuple[Cone, Cone]
    rise: float
    """c [mm/rad]"""
    ends: list[EndEdge] = field(default_factory=list)

    def phi(self, end: int, v: float) -> list[float]:
        """Azimuth at which an end cuts the strip, and its derivatives."""
        return [(h - p.imag) / self.rise for h, p in zip(self.height(end, v), self.strip.jet(v), strict=True)]

    def height(self, end: int, v: float) -> list[float]:
        """Height at which an end cuts the strip, and its derivatives."""
        at, *rest = self.strip.jet(v)
        cone = self.cones[end]
        return [cone.at(at.real), *(cone.slope * p.real for p in rest)]

    def places(self) -> Iterator[tuple[Helix, float]]:
        """Helix and its phi at each of the four corners: below and above, low and high end."""
        for (edge, ahead), v in ((self.below, self.strip.low), (self.above, self.strip.high)):
            for end in (0, 1):
                yield edge, self.phi(end, v)[0] + ahead

    def reach(self, end: int) -> tuple[float, float]:
        """Least and greatest phi along an end."""
        low, high = self.strip.low, self.strip.high
        found = [self.phi(end, low + n * (high - low) / LOOKS)[0] for n in range(LOOKS + 1)]
        return min(found), max(found)


@dataclass(frozen=True, slots=True)
class EndEdge:
    """The edge in which an end cuts a band: an arc over psi where the strip is level, else over its parameter."""

    edge: TopoDS_Edge
    band: Band
    end: int
    hand: int

    def side(self, trace: Any, *, rising: bool) -> Side:  # noqa: ANN401 - of the kernel
        """Return the edge as it is walked in a right-hand thread, with or against the strip's parameter."""
        against = self.band.strip.level and self.hand > 0  # along it psi falls
        return Side(self.edge, rising != against, trace)

    def trace(self, shift: float, second: Callable[[float], list[float]]) -> Any:  # noqa: ANN401 - of the kernel
        """Return its curve on a surface: u is psi + shift, v is `second` of the strip's parameter, with derivatives."""
        strip, hand = self.band.strip, self.hand
        low, high = strip.low, strip.high
        if strip.level:
            return along(shift, second(low)[0])
        if isinstance(strip, Flank):
            start, stop = ((hand * self.band.phi(self.end, v)[0] + shift, second(v)[0]) for v in (low, high))
            return straight(low, high, start, stop)
        at, step = end_places(strip, 0.0)
        jets = [[complex(hand * p, q) for p, q in zip(self.band.phi(self.end, v), second(v), strict=True)] for v in at]
        return plane_curve([pole + shift for pole in poles(jets, step)], low, high)


class Winder:
    """Makes the corners, edges and faces of one thread's bands; hand is 1 or, for a left-hand thread, -1."""

    def __init__(self, shell: Shell, bands: list[Band], hand: int) -> None:
        self.shell, self.hand, self.rise = shell, hand, bands[0].rise
        for edge, phi in (place for band in bands for place in band.places()):
            self._corner(edge, phi)
        for edge in {id(edge): edge for band in bands for edge, _ in (band.below, band.above)}.values():
            self._cut(edge)
            self._join(edge)
        for band in bands:
            band.ends += [self._end(band, end) for end in (0, 1)]

    def _corner(self, edge: Helix, phi: float) -> None:
        if not edge.has(phi):
            edge.corners[phi] = self.shell.corner(edge.radius, self.hand * phi, edge.zeta + self.rise * phi)

    def _cut(self, edge: Helix) -> None:
        """Put corners on a helix at every cut that keeps clear of those it has."""
        known = sorted(edge.corners)
        for n in range(ceil(known[0] / CUT), floor(known[-1] / CUT) + 1):
            if all(abs(n * CUT - phi) > MARGIN for phi in known):
                self._corner(edge, n * CUT)

    def _join(self, edge: Helix) -> None:
        """Make the curves between the corners of a helix."""
        for a, b in pairwise(sorted(edge.corners)):
            low, high = sorted((self.hand * a, self.hand * b))
            curve = helix(edge.radius, edge.zeta, self.hand * self.rise, low, high)
            start, stop = (edge.corners[phi] for phi in (a, b)[:: self.hand])
            edge.edges.append((self.shell.edge(curve, start, stop, low, high), a, b))

    def _end(self, band: Band, end: int) -> EndEdge:
        """Make the edge in which an end cuts a band."""
        strip = band.strip
        below, above = (edge.at(phi) for edge, phi in list(band.places())[end::2])
        if strip.level:
            low, high = sorted(self.hand * band.phi(end, v)[0] for v in (strip.low, strip.high))
            start, stop = (above, below)[:: self.hand]
            return EndEdge(self.shell.arc(start, stop, low, high), band, end, self.hand)
        at, step = end_places(strip, band.phi(end, strip.high)[0] - band.phi(end, strip.low)[0])
        jets = [([self.hand * p for p in band.phi(end, v)], band.height(end, v)) for v in at]
        curve = space_jets(strip, at, step, jets)
        return EndEdge(self.shell.edge(curve, below, above, strip.low, strip.high), band, end, self.hand)

    def wind(self, band: Band) -> None:
        """Make a band's faces."""
        low, high = band.reach(0)[1] + MARGIN, band.reach(1)[0] - MARGIN
        cuts = [n * CUT for n in range(ceil(low / CUT), floor(high / CUT) + 1)]
        cuts = [phi for phi in cuts if all(edge.has(phi + ahead) for edge, ahead in (band.below, band.above))]
        made = {phi: self._section(band, phi) for phi in cuts}
        for a, b in pairwise([None, *cuts, None]):
            self._piece(band, (a, b), made)

    def _section(self, band: Band, phi: float) -> TopoDS_Edge:
        """Make the edge in which a band is cut."""
        start, stop = (edge.at(phi + ahead) for edge, ahead in (band.below, band.above))
        curve = section(band.strip, self.rise * phi, self.hand * phi)
        return self.shell.edge(curve, start, stop, band.strip.low, band.strip.high)

    def _piece(self, band: Band, cuts: tuple[float | None, float | None], made: dict[float, TopoDS_Edge]) -> None:
        """Make a face between two cuts, or between a cut and an end where there is none."""
        low, high = (band.reach(end)[end] if cut is None else cut for end, cut in enumerate(cuts))
        first, last = sorted((self.hand * low, self.hand * high))
        strip, rise = band.strip, self.rise
        if strip.level:
            shift = -TURN * floor(first / TURN)
            surface, _ = cylinder(strip.start.real)
        else:
            shift, surface = 0.0, wound(strip, self.hand * rise, first, last)

        def place(phi: float, v: float) -> tuple[float, float]:
            return self.hand * phi + shift, strip.jet(v)[0].imag + rise * phi if strip.level else v

        loop = self._along(band, 0, cuts, place)
        loop.append(self._across(band, 1, cuts[1], made, shift))
        loop += walked_back(self._along(band, 1, cuts, place))
        loop += walked_back([self._across(band, 0, cuts[0], made, shift)])
        self.shell.face(surface, self.turned(loop))

    def turned(self, loop: list[Side]) -> list[Side]:
        """Return a right-hand thread's loop as the thread at hand has it."""
        return loop if self.hand > 0 else walked_back(loop)

    def _along(self, band: Band, side: int, cuts: tuple[float | None, float | None], place: Place) -> list[Side]:
        """Walk along the helix below or above, by rising phi."""
        (edge, ahead), v = ((band.below, band.strip.low), (band.above, band.strip.high))[side]
        low, high = (band.phi(end, v)[0] if cut is None else cut for end, cut in enumerate(cuts))
        found = []
        for curve, a, b in edge.edges:
            start, stop = a - ahead, b - ahead
            if start > low - SAME and stop < high + SAME:
                first, last = (start, stop)[:: self.hand]
                least, most = sorted((self.hand * a, self.hand * b))
                trace = straight(least, most, place(first, v), place(last, v))
                found.append(Side(curve, self.hand > 0, trace))
        return found

    def _across(self, band: Band, end: int, cut: float | None, made: dict[float, TopoDS_Edge], shift: float) -> Side:
        """Walk across a band at a cut or at its end, by the strip's rising parameter."""
        strip = band.strip
        if cut is not None:
            start = strip.start.imag + self.rise * cut if strip.level else 0.0
            return Side(made[cut], True, upright(self.hand * cut + shift, start))
        edge = band.ends[end]
        if strip.level:
            return edge.side(edge.trace(shift, lambda v: band.height(end, v)), rising=True)
        return edge.side(edge.trace(shift, lambda v: [v, 1.0, 0.0, 0.0]), rising=True)
