"""One-sided contact: the least energy of a bar that a wall keeps on one side, gap >= 0 at every joint.

First an interior-point method on the quadratic problem: it takes seven steps or so whatever the contact is, where an
exchange of contacts from a poor start cycles. Then Newton steps with the contacts it found, so that the answer does
not depend on the way it was reached. A bar like one that was looked at before starts from the contacts of that one.
"""

from __future__ import annotations

from math import fsum
from operator import add, mul, neg, sub, truediv
from typing import TYPE_CHECKING, Protocol

from parts.relations.contact.bands import Bands, Numbers, factors

if TYPE_CHECKING:
    from collections.abc import Hashable

ROUGH = 1e-5  # of the first complementarity: the contacts are known by then
FINE = 1e-18  # the same, where the exchange of contacts does not settle
STEPS = 60
EXCHANGES = 25
AGAIN = 8  # exchanges from the contacts of a bar like it
TOGETHER = 8  # exchanges of all wrong contacts at a time; after these, of the worst one
PULL = 1e-9  # of the largest force: a joint may pull at the wall by as much
BEHIND = 1e-11  # of the largest gap: it may lie behind the wall by as much
LEAST_GAP = 1e-14  # of the radius; the same
STILL = 1e-8  # of the ring's radius: a Newton step below it is the last


class Energy(Protocol):
    """A bar's bending energy."""

    def at(self, gaps: Numbers) -> tuple[Numbers, Bands]:
        """Forces at the joints, the energy's derivative by each gap; and its second derivative."""


_last: dict[tuple[Hashable, int], list[bool]] = {}
"""which joints touched in the last bar of a kind: the next is nearly as that one, and looked for from there"""


def settle(
    wall: Energy, bar: Energy, gap: float, force: float, joints: int, like: Hashable = None
) -> tuple[Numbers, Numbers]:
    """Gaps and forces of a bar at rest against a wall.

    Parameters
    ----------
    wall : Energy
        The energy to second order about the wall, convex: finds the contacts
    bar : Energy
        The energy itself (the same, where second order is enough)
    gap, force : float
        Of each joint to start from; the greatest there will be, or less
    joints : int
        How many
    like : hashable, optional
        Its kind: where the contacts are near those of the last of that kind, they are found from there

    Returns
    -------
    gaps, forces : list of float
        At each joint; one of the two is 0

    Raises
    ------
    ArithmeticError
        No equilibrium was found.
    """
    shut = bar.at([0.0] * joints)
    if min(shut[0]) >= -PULL * max(shut[0]):  # it lies on the wall all along
        return [0.0] * joints, shut[0]
    known = _last.get((like, joints)) if bar is wall else None
    found = _straight(bar, shut, list(known), AGAIN) if known else None
    found = found or _from_inside(wall, bar, shut, _Interior(wall, gap, force, joints))
    if bar is wall and like is not None:
        _last[like, joints] = [p == 0 for p in found[0]]
    return found


def _from_inside(wall: Energy, bar: Energy, shut: tuple[Numbers, Bands], inner: _Interior) -> tuple[Numbers, Numbers]:
    """Gaps and forces with the contacts that the interior-point method finds."""
    for fineness in (ROUGH, FINE):
        inner.run(fineness)
        touching = list(inner.closer)
        found = _straight(bar, shut, touching) if bar is wall else _exchange(bar, inner.gaps, touching)
        if found is not None:
            return found
    raise ArithmeticError("the contact of ring and wall did not settle")


class _Interior:
    """Predictor-corrector interior-point method.

    S. Mehrotra, On the implementation of a primal-dual interior point method, SIAM J. Optimization 2 (1992).
    """

    def __init__(self, energy: Energy, gap: float, force: float, joints: int) -> None:
        self.gaps, self.forces = [gap] * joints, [force] * joints
        self.slope, self.bands = energy.at(self.gaps)
        self.closer = [True] * joints  # those whose gap shrank more than their force in the last step
        self.first = self.complementarity()

    def complementarity(self) -> float:
        """Mean of gap by force."""
        return fsum(map(mul, self.gaps, self.forces)) / len(self.gaps)

    def run(self, fineness: float) -> None:
        """Step until gap by force is this share of its first value."""
        for _ in range(STEPS):
            if self.complementarity() <= fineness * self.first:
                return
            self.step()

    def step(self) -> None:
        """One predictor and one corrector step with the same factors."""
        w, z, slope = self.gaps, self.forces, self.slope
        ratio = list(map(truediv, z, w))
        matrix = factors(self.bands, ratio)
        share = list(map(truediv, matrix.solve(list(map(neg, slope))), w))
        push = self._push(share)
        right = list(map(sub, push, slope))
        dw = matrix.solve(right)
        held = list(map(mul, ratio, dw))
        dz = [t - q - k for t, q, k in zip(push, z, held, strict=True)]
        self.closer = [a * q < b * p for a, b, p, q in zip(dw, dz, w, z, strict=True)]
        step = min(1.0, 0.995 * min(_room(w, dw), _room(z, dz)))
        self.gaps = [p + step * d for p, d in zip(w, dw, strict=True)]
        self.forces = [q + step * d for q, d in zip(z, dz, strict=True)]
        self.slope = [g + step * (r - k) for g, r, k in zip(slope, right, held, strict=True)]

    def _push(self, share: Numbers) -> Numbers:
        """Force that keeps each joint off its wall; the less, the further the predictor gets.

        The predictor changes each gap by a share x of it, and so each force by -(1 + x) of it.
        """
        products = list(map(mul, self.gaps, self.forces))
        step = 1 / max(1.0, -min(share), 1 + max(share))
        ahead = fsum([o * (1 + step * x) * (1 - step - step * x) for o, x in zip(products, share, strict=True)])
        target = ahead**3 / fsum(products) ** 2 / len(products)
        return [(target + o * x * (1 + x)) / p for o, x, p in zip(products, share, self.gaps, strict=True)]


def _room(values: Numbers, steps: Numbers) -> float:
    """Share of a step at which the first value reaches 0."""
    most: float = -min(map(truediv, steps, values))
    return 1 / max(1e-9, most)


def _straight(
    bar: Energy, shut: tuple[Numbers, Bands], touching: list[bool], turns: int = EXCHANGES
) -> tuple[Numbers, Numbers] | None:
    """Exchange wrong contacts of a bar whose forces go straight with its gaps. None where that does not end.

    Each turn is solved from the shut bar, so that the answer is that of its contacts, whatever was before.
    """
    for turn in range(turns):
        matrix, gaps, slope = factors(shut[1].held(touching)), [0.0] * len(touching), shut[0]
        for _ in range(2):  # the second for what rounding left of the first
            steps = matrix.solve([0.0 if t else -q for q, t in zip(slope, touching, strict=True)])
            gaps = list(map(add, gaps, steps))
            slope, _ = bar.at(gaps)
        wrong = _wrong(gaps, slope, touching)
        if not wrong:
            return _at_rest(gaps, slope, touching)
        _change(touching, wrong, turn)
    return None


def _exchange(bar: Energy, gaps: Numbers, touching: list[bool]) -> tuple[Numbers, Numbers] | None:
    """Newton steps with these contacts; wrong ones are exchanged on the way. None where that does not end."""
    gaps = [0.0 if t else p for p, t in zip(gaps, touching, strict=True)]
    slope, bands = bar.at(gaps)
    for turn in range(EXCHANGES):
        steps = _newton(gaps, slope, bands, touching)
        gaps = [0.0 if t else p + d for p, d, t in zip(gaps, steps, touching, strict=True)]
        slope, bands = bar.at(gaps)
        wrong = _wrong(gaps, slope, touching)
        if not wrong and max(map(abs, steps)) <= STILL:
            return _at_rest(gaps, slope, touching)
        _change(touching, wrong, turn)
    return None


def _at_rest(gaps: Numbers, slope: Numbers, touching: list[bool]) -> tuple[Numbers, Numbers]:
    """Gaps, and forces where it touches."""
    return gaps, [q if t else 0.0 for q, t in zip(slope, touching, strict=True)]


def _change(touching: list[bool], wrong: list[int], turn: int) -> None:
    """Exchange the wrong contacts, after some turns the worst alone."""
    for joint in wrong if turn < TOGETHER else wrong[:1]:
        touching[joint] = not touching[joint]


def _newton(gaps: Numbers, slope: Numbers, bands: Bands, touching: list[bool]) -> Numbers:
    """Step that closes the gaps of touching joints and takes the force from the others."""
    closing = [-p if t else 0.0 for p, t in zip(gaps, touching, strict=True)]
    coupled = bands.times(closing) if any(closing) else [0.0] * len(gaps)
    right = [c if t else -g - h for c, t, g, h in zip(closing, touching, slope, coupled, strict=True)]
    return factors(bands.held(touching)).solve(right)


def _wrong(gaps: Numbers, slope: Numbers, touching: list[bool]) -> list[int]:
    """Joints that pull at the wall or lie behind it, the worst first."""
    gap, force = LEAST_GAP + BEHIND * max(gaps), PULL * max(slope)
    share = [-q / force if t else -p / gap for p, q, t in zip(gaps, slope, touching, strict=True)]
    return sorted((i for i, s in enumerate(share) if s > 1), key=lambda i: -share[i])
