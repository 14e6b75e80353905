"""A ring as a chain of straight links with springy hinges, its joints on a wall or off it.

Lengths are over the wall's radius. The links are the chords of equal arcs of the wall. A hinge's moment is its turning
less the natural one, over the arc; the ends have none. Moving the chain as a whole costs nothing, so that the forces of
the joints balance by themselves. A chain is a whole ring, end to end, or the half of a symmetric one from its back:
there the first hinge counts half, and its two neighbours are one.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import asin, cos, sin, sqrt

from parts.relations.contact.bands import Bands, Numbers

KEPT = 16  # rings of a length: nominal, largest and smallest, in their bore and on their mandrel


@dataclass(frozen=True, slots=True)
class Hinges:
    """What a gap of the joint before, of its own and of the joint after adds to each hinge's moment, and its weight."""

    before: Numbers
    here: Numbers
    after: Numbers
    weight: Numbers

    def moments(self, gaps: Numbers) -> Numbers:
        """Moments that these gaps add."""
        rows = zip(self.before, self.here, self.after, [0.0, *gaps], gaps, [*gaps[1:], 0.0], strict=False)
        return [b * p + h * q + a * r for b, h, a, p, q, r in rows]

    def forces(self, moments: Numbers) -> Numbers:
        """Forces at the joints that hold these moments: the derivative of the energy by each gap."""
        held = [w * m for w, m in zip(self.weight, moments, strict=True)]
        from_before = [0.0, *(a * m for a, m in zip(self.after, held, strict=True))]
        from_after = [*(b * m for b, m in zip(self.before[1:], held[1:], strict=True)), 0.0]
        rows = zip(from_before, self.here, held, from_after, strict=False)
        return [p + h * m + q for p, h, m, q in rows]

    def squares(self) -> Bands:
        """Second derivative of the energy, where the moments grow as the gaps do."""
        joints = len(self.here)
        main, following, second = [0.0] * (joints + 1), [0.0] * (joints + 1), [0.0] * (joints + 1)
        for i, (b, h, a, w) in enumerate(zip(self.before, self.here, self.after, self.weight, strict=True)):
            main[i - 1] += w * b * b
            main[i] += w * h * h
            main[i + 1] += w * a * a
            following[i - 1] += w * b * h
            following[i] += w * h * a
            second[i - 1] += w * b * a
        return Bands(main[:joints], following[:joints], second[:joints])


def weights(step: float, joints: int, *, half: bool) -> Numbers:
    """Arc that each hinge stands for; the ends are no hinges.

    Parameters
    ----------
    step : float
        Angle of an arc [rad]
    joints : int
        Of the chain
    half : bool
        The half of a symmetric ring, from its back

    Returns
    -------
    weights : list of float
        At each joint [rad]

    Examples
    --------
    >>> weights(0.5, 4, half=True)
    [0.25, 0.5, 0.5, 0.0]
    """
    return [step / 2 if half else 0.0, *[step] * (joints - 2), 0.0]


def hinges_near(step: float, bend: Numbers, *, half: bool) -> Hinges:
    """Hinges of a chain that lies close to its wall.

    Parameters
    ----------
    step : float
        Angle of an arc of the mean radius [rad]
    bend : list of float
        Curvature of the wall at each joint, by the mean radius
    half : bool
        The half of a symmetric ring, from its back

    Returns
    -------
    hinges : Hinges
        For gaps on the inside of the wall; outside it they add as much with the other sign

    Examples
    --------
    A chain moved sideways as a whole keeps its moments:

    >>> hinges = hinges_near(0.1, [1.0] * 4, half=True)
    >>> max(abs(m) for m in hinges.moments([cos(0.1 * n) for n in range(4)])) < 1e-12
    True
    """
    side, last = 1 / (step * sin(step)), len(bend) - 1
    here = [-2 * side * cos(c * step) for c in bend]
    before, after = [0.0] + [side] * last, [side] * last + [0.0]
    here[last] = before[last] = 0.0
    if half:
        after[0] = 2 * side
    else:
        here[0] = after[0] = 0.0
    return Hinges(before, here, after, weights(step, last + 1, half=half))


@dataclass(frozen=True, slots=True)
class Near:
    """Bending energy to second order in the gaps, for a ring that lies close to its wall all round."""

    hinges: Hinges
    lack: Numbers
    """moment of each hinge with all gaps closed, with the sign that gaps add to"""
    second: Bands

    def moments(self, gaps: Numbers) -> Numbers:
        """Moment of each hinge."""
        return [d + m for d, m in zip(self.lack, self.hinges.moments(gaps), strict=True)]

    def at(self, gaps: Numbers) -> tuple[Numbers, Bands]:
        """Force at each joint, and the second derivative, which is the same for all gaps."""
        return self.hinges.forces(self.moments(gaps)), self.second


@lru_cache(KEPT)
def _on_round(step: float, joints: int, *, half: bool) -> tuple[Hinges, Bands]:
    """Hinges near a round wall, and the second derivative of their energy: the same for all rings of a length."""
    hinges = hinges_near(step, [1.0] * joints, half=half)
    return hinges, hinges.squares()


def near(step: float, lack: Numbers, bend: Numbers | None = None, *, half: bool) -> Near:
    """Bending energy of a ring close to its wall.

    Parameters
    ----------
    step : float
        Angle of an arc of the mean radius [rad]
    lack : list of float
        Curvature of the wall less the ring's natural one, by the mean radius, at each joint; for a wall inside the ring
        the other way about
    bend : list of float, optional
        Curvature of the wall by the mean radius; a round wall where it is not given
    half : bool
        The half of a symmetric ring, from its back

    Returns
    -------
    energy : Near
        Of gaps over the mean radius

    Examples
    --------
    A ring whose moment is that of even pressure presses evenly, the back's joint counting half:

    >>> even = near(0.1, [0.03 * (1 + cos(0.1 * n)) for n in range(31)], half=True)
    >>> [round(q, 5) for q in even.at([0.0] * 31)[0][:3]]
    [0.0015, 0.003, 0.003]
    """
    if bend is None:
        hinges, second = _on_round(step, len(lack), half=half)
        return Near(hinges, lack, second)
    hinges = hinges_near(step, bend, half=half)
    return Near(hinges, lack, hinges.squares())


Slope = tuple[float, float, float, float, float, float]
"""Angle of a link against the round at one of its joints; its derivatives by that joint's distance from the axis and by
the other's; its second derivatives by own and own, own and other, other and other"""


def slope(own: float, other: float, link: float) -> Slope:
    """Angle of a link at one of its joints, from the triangle of both joints and the axis, less a right angle.

    sin(angle) = (own^2 - other^2 + link^2) / (2 * own * link)

    Parameters
    ----------
    own, other : float
        Distances of this joint and the other one from the axis
    link : float
        Length of the link

    Returns
    -------
    slope : tuple of float
        The angle [rad], its first and its second derivatives

    Examples
    --------
    >>> round(slope(1.0, 1.0, 0.1)[0], 6)  # a chord leans half its arc
    0.050021
    """
    double, way = link + link, own * link
    below = (other * other - link * link) / own
    x = (own - below) / double
    x_own, x_other = (1 + below / own) / double, -other / way
    c = 1 / sqrt(1 - x * x)
    bent = x * c * c * c
    by_own, by_other = bent * x_own, bent * x_other
    return (
        asin(x),
        c * x_own,
        c * x_other,
        by_own * x_own - c * below / (own * way),
        by_own * x_other + c * other / (own * way),
        by_other * x_other - c / way,
    )


@dataclass(frozen=True, slots=True)
class Wrapped:
    """Bending energy of the half of a ring round a mandrel, for gaps of any size: the exact chain."""

    step: float
    """angle of an arc of the wall [rad]"""
    natural: float
    """natural curvature, by the wall's radius"""

    def moments(self, gaps: Numbers) -> Numbers:
        """Moment of each hinge, positive where the ring is straighter than by nature."""
        return self._moments(*self._slopes(gaps))

    def at(self, gaps: Numbers) -> tuple[Numbers, Bands]:
        """Force at each joint, and the second derivative."""
        back, ahead = self._slopes(gaps)
        moments = self._moments(back, ahead)
        hinges = self._hinges(back, ahead)
        bands = hinges.squares()
        main, following = bands.main, bands.next
        for i, (w, m, p, q) in enumerate(zip(hinges.weight, moments, back, ahead, strict=False)):
            held, before = w * m / self.step, abs(i - 1)
            main[before] -= held * p[5]
            main[i] -= held * (p[3] + q[3])
            main[i + 1] -= held * q[5]
            following[min(before, i)] -= held * p[4]
            following[i] -= held * q[4]
        return hinges.forces(moments), bands

    def _slopes(self, gaps: Numbers) -> tuple[list[Slope], list[Slope]]:
        """Of the link before each hinge and of the one after it; the back's are the same."""
        link = 2 * sin(self.step / 2)
        out = [1 + g for g in gaps]
        ahead = [slope(p, q, link) for p, q in pairwise(out)]
        back = [slope(q, p, link) for p, q in pairwise(out[:-1])]
        return [ahead[0], *back], ahead

    def _moments(self, back: list[Slope], ahead: list[Slope]) -> Numbers:
        return [*(self.natural - (p[0] + q[0]) / self.step for p, q in zip(back, ahead, strict=True)), 0.0]

    def _hinges(self, back: list[Slope], ahead: list[Slope]) -> Hinges:
        before = [0.0, *(-p[2] / self.step for p in back[1:]), 0.0]
        here = [*(-(p[1] + q[1]) / self.step for p, q in zip(back, ahead, strict=True)), 0.0]
        after = [*(-q[2] / self.step for q in ahead), 0.0]
        after[0] *= 2
        return Hinges(before, here, after, weights(self.step, len(here), half=True))
