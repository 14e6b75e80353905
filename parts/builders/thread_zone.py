"""One thread between its ends: its bands in order, and the faces in which it ends."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from parts.builders.thread_bands import Band, EndEdge, Helix, Winder
from parts.builders.thread_shell import TURN, Rim, Shell, Side, along, cone, upright, walked_back
from parts.shapes.thread_form import SAME, Flank
from parts.shapes.threaded_stud import Cone

if TYPE_CHECKING:
    from parts.shapes.thread_form import Strip
    from parts.shapes.threaded_stud import Zone

    Walk = list[tuple[int, float]]
    """numbers of strips one above the other, and how far the azimuth of each is ahead of the walk's"""


class ThreadFaces:
    """The faces of one thread, and the rings at which the rest of the part meets it, None where it has none."""

    def __init__(self, shell: Shell, zone: Zone) -> None:
        self.shell, self.zone, form = shell, zone, zone.form
        self.hand = -1 if form.left_hand else 1
        self.rise = form.pitch / (2 * pi)
        self.ends = (zone.low, zone.high)
        self.strips = zone.strips
        shift = self._phase(zone.inner)
        self.strips = [strip.moved(shift) for strip in self.strips]
        self.helices = [Helix(strip.start.real, strip.start.imag) for strip in self.strips]
        self.bands = [self._band(n, strip) for n, strip in enumerate(self.strips)]
        self.lands = {end: self._land(end) for end in (0, 1) if self._in_flank(end)}
        self.winder = Winder(shell, [*self.bands, *self.lands.values()], self.hand)
        for band in self.bands:
            self.winder.wind(band)
        self.rings = tuple(self._stepped(end) if end in self.lands else self._whole(end) for end in (0, 1))

    # the bands --------------------------------------------------------------------------------------------------------

    def _band(self, number: int, strip: Strip) -> Band:
        """One strip; above the last one comes the first helix again, a turn ahead."""
        last = number + 1 == len(self.strips)
        radius = strip.jet((strip.low + strip.high) / 2)[0].real
        cones = tuple(end.cone(radius) for end in self.ends)
        above = (self.helices[0], TURN) if last else (self.helices[number + 1], 0.0)
        return Band(strip, (self.helices[number], 0.0), above, (cones[0], cones[1]), self.rise)

    def _in_flank(self, end: int) -> bool:
        """Whether one end has a cone inside and another outside of a radius between root and crest."""
        form = self.zone.form
        return form.root / 2 < self.ends[end].radius < form.major / 2

    def _meets(self, end: int) -> tuple[int, int]:
        """Number of the strip with which the thread falls below an end's radius, and with which it rises over it."""
        radius = self.ends[end].radius
        over = [strip.jet((strip.low + strip.high) / 2)[0].real > radius for strip in self.strips]
        falls = next(n for n in range(len(over)) if over[n - 1] and not over[n])
        return falls, next(n for n in range(len(over)) if over[n] and not over[n - 1])

    def _land(self, end: int) -> Band:
        """The band left of a cylinder with the end's radius, between the ridge's end and the groove's."""
        falls, rises = self._meets(end)
        at = self.ends[end]
        ahead = TURN if falls <= rises else 0.0
        below, above = self.helices[rises], self.helices[falls]
        top = above.zeta + self.rise * ahead
        strip = Flank(complex(at.radius, below.zeta), complex(at.radius, top), "land")
        heights = (at.inside.z, at.outside.z)[:: -1 if end else 1]
        cones = tuple(Cone(at.radius, z, 0.0) for z in heights)
        return Band(strip, (below, 0.0), (above, ahead), (cones[0], cones[1]), self.rise)

    def _phase(self, end: int) -> float:
        """How far to move the thread along the axis so that its ring at this end begins at azimuth 0."""
        at = self.ends[end]
        start = self.strips[self._meets(end)[1] if self._in_flank(end) else self._seam(end)].start
        height = at.inside.z if self._in_flank(end) else self._cone(end).at(start.real)
        return height - start.imag

    def _cone(self, end: int) -> Cone:
        """Cone at an end that has one alone."""
        return self.ends[end].cone(self.zone.form.major / 2)

    # the ends ---------------------------------------------------------------------------------------------------------

    def _seam(self, end: int) -> int:
        """Number of the strip at whose start a full cone's seam meets the thread, in sight of the ring.

        It is where the flank ends along which the azimuth falls all the way.
        """
        at = self._cone(end)
        place = "root" if at.radius < self.zone.form.root / 2 else "crest"
        numbers = [n for n, strip in enumerate(self.strips) if strip.place == place]
        return numbers[0] if (at.slope > 0) == (place == "root") else (numbers[-1] + 1) % len(self.strips)

    def _from(self, first: int, last: int) -> Walk:
        """Strips from one number up to before another, the whole pitch where they are the same."""
        count = len(self.strips)
        ways = (last - first) % count or count
        return [((first + n) % count, TURN if first + n >= count else 0.0) for n in range(ways)]

    def _rising(self, walk: Walk, end: int, cone_at: Surface | None) -> list[Side]:
        """Walk along an end by rising zeta, on a cone or, without one, on a plane."""
        return [self._end_side(self.bands[n].ends[end], cone_at, ahead) for n, ahead in walk]

    def _end_side(self, edge: EndEdge, on: Surface | None, ahead: float = 0.0) -> Side:
        trace = None if on is None else edge.trace(-self.hand * ahead, lambda v: on.of(edge.band.height(edge.end, v)))
        return edge.side(trace, rising=True)

    def _facing(self, end: int, loop: list[Side]) -> list[Side]:
        """Return the loop of a low end as this end of this thread has it."""
        return self.winder.turned(walked_back(loop) if end else loop)

    def _whole(self, end: int) -> Rim:
        """One cone from the thread to a ring inside the root or outside the crest."""
        at, hand, seam = self._cone(end), self.hand, self._seam(end)
        phi = self.bands[seam].phi(end, self.strips[seam].low)[0]
        meets = self.helices[seam].at(phi)
        ring = self.shell.ring(at.radius, at.z, hand * phi)
        on = Surface(at)
        least = min(hand * phi, hand * (phi - TURN))
        low, high = (meets, ring.start)[:: 1 if end else -1]
        line, _ = self.shell.line(low, high)
        right, left = (upright(psi, on.level(low.z)) for psi in (least + TURN, least))
        up, down = (Side(line, way, right, left) for way in (True, False))
        round_it = ring.sides(on.level(at.z), least)
        loop = self._rising(self._from(seam, seam), end, on)
        loop += [*((up,) if end else (down,)), *(round_it if hand > 0 else walked_back(round_it))]
        loop += [down if end else up]
        self.shell.face(on.surface, self._facing(end, loop))
        return ring

    def _stepped(self, end: int) -> Rim | None:
        """One cone for what is outside the end's radius, another for what is inside."""
        at, land = self.ends[end], self.lands[end]
        falls, rises = self._meets(end)
        deep = abs(at.inside.z - at.outside.z) > SAME
        outer = land.ends[1 - end]
        on = Surface(at.outside)
        ridge = [*self._rising(self._from(rises, falls), end, on), *walked_back([self._end_side(outer, on)])]
        self.shell.face(on.surface, self._facing(end, ridge))
        if not deep:
            floor = [*self._rising(self._from(falls, rises), end, None), self._end_side(outer, None)]
            self.shell.flat(at.inside.z, self._facing(end, floor), up=bool(end))
            return None
        self.winder.wind(land)
        return self._run_out(end, land.ends[end])

    def _run_out(self, end: int, land: EndEdge) -> Rim:
        """The cone on which the groove rises, and the ring it leaves: the groove's arc and the land's."""
        at, hand = self.ends[end].inside, self.hand
        falls, rises = self._meets(end)
        on = Surface(at)
        ahead = 0.0 if falls < rises else TURN
        a, b = self.helices[falls], self.helices[rises]
        phi_a, phi_b = ((at.z - edge.zeta) / self.rise for edge in (a, b))
        start, stop = b.at(phi_b), a.at(phi_a)
        low, high = sorted((hand * (phi_b - ahead), hand * phi_a))
        first, last = (start, stop)[::hand]
        arc = self.shell.arc(first, last, low, high)
        groove = Side(arc, hand > 0, along(0.0, on.level(at.z)))
        self.shell.face(on.surface, self._facing(end, [*self._rising(self._from(falls, rises), end, on), groove]))
        edges = sorted(hand * land.band.phi(land.end, v)[0] for v in (land.band.strip.low, land.band.strip.high))
        arcs = ((arc, low, high), (land.edge, edges[0], edges[1]))
        return Rim(start, arcs[::hand])


class Surface:
    """The kernel's cone, and what lies where on it."""

    def __init__(self, at: Cone) -> None:
        self.surface, self.level = cone(at.radius, at.z, at.slope)
        self.scale = self.level(1.0) - self.level(0.0)

    def of(self, height: list[float]) -> list[float]:
        """Where on it a height lies, with derivatives."""
        at, *rest = height
        return [self.level(at), *(self.scale * p for p in rest)]
