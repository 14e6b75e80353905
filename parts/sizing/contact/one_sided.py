"""One-sided contact: the least energy of a bar that a wall keeps on one side, gap >= 0 at every joint.

First an interior-point method on the quadratic problem (it takes ten steps or so whatever the contact is, where an
exchange of contacts from a poor start cycles), then Newton steps with the contacts it found, so that the answer does not
depend on the way it was reached.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from parts.sizing.contact.bands import Bands, Numbers, factors

if TYPE_CHECKING:
    from collections.abc import Iterable

ROUGH = 1e-6  # of the first complementarity: the contacts are known by then
FINE = 1e-20  # the same, where the exchange of contacts does not settle
STEPS = 60
EXCHANGES = 25
TOGETHER = 8  # exchanges of all wrong contacts at a time; after these, of the worst one
NOTHING = 1e-9  # of the largest force, or gap: below it a joint is neither
STILL = 1e-8  # of the ring's radius: a Newton step below it is the last


class Energy(Protocol):
    """A bar's bending energy."""

    def at(self, gaps: Numbers) -> tuple[Numbers, Bands]:
        """Forces at the joints, the energy's derivative by each gap; and its second derivative."""


def settle(wall: Energy, bar: Energy, size: float, force: float, joints: int) -> tuple[Numbers, Numbers]:
    """Gaps and forces of a bar at rest against a wall.

    Parameters
    ----------
    wall : Energy
        The energy to second order about the wall, convex: finds the contacts
    bar : Energy
        The energy itself (the same, where second order is enough)
    size, force : float
        A gap and a joint's force to start from, of about the right size
    joints : int
        How many

    Returns
    -------
    gaps, forces : list of float
        At each joint; one of the two is 0

    Raises
    ------
    ArithmeticError
        No equilibrium was found.
    """
    inner = _Interior(wall, size, force, joints)
    for fineness in (ROUGH, FINE):
        inner.run(fineness)
        found = _exchange(bar, inner.gaps, inner.touching())
        if found is not None:
            return found
    raise ArithmeticError("the contact of ring and wall did not settle")


class _Interior:
    """Predictor-corrector interior-point method (Mehrotra 1992)."""

    def __init__(self, energy: Energy, size: float, force: float, joints: int) -> None:
        self.gaps, self.forces = [size] * joints, [force] * joints
        self.slope, self.bands = energy.at(self.gaps)
        self.first = self.complementarity()

    def complementarity(self) -> float:
        """Mean of gap by force."""
        return sum(p * q for p, q in zip(self.gaps, self.forces, strict=True)) / len(self.gaps)

    def touching(self) -> list[bool]:
        """Joints whose force outweighs their gap."""
        gap, force = max(self.gaps), max(self.forces)
        return [q * gap > p * force for p, q in zip(self.gaps, self.forces, strict=True)]

    def run(self, fineness: float) -> None:
        """Step until gap by force is this share of its first value."""
        for _ in range(STEPS):
            if self.complementarity() <= fineness * self.first:
                return
            self.step()

    def step(self) -> None:
        """One predictor and one corrector step with the same factors."""
        w, z, slope = self.gaps, self.forces, self.slope
        ratio = [q / p for p, q in zip(w, z, strict=True)]
        matrix = factors(self.bands, ratio)
        dw = matrix.solve([-g for g in slope])
        dz = [-q - k * d for q, k, d in zip(z, ratio, dw, strict=True)]
        target = self._centre(dw, dz)
        push = [(target - a * b) / p for a, b, p in zip(dw, dz, w, strict=True)]
        right = [t - g for t, g in zip(push, slope, strict=True)]
        dw = matrix.solve(right)
        dz = [t - q - k * d for t, q, k, d in zip(push, z, ratio, dw, strict=True)]
        step = 0.995 * min(_room(w, dw), _room(z, dz))
        step = min(1.0, step)
        self.gaps = [p + step * d for p, d in zip(w, dw, strict=True)]
        self.forces = [q + step * d for q, d in zip(z, dz, strict=True)]
        self.slope = [g + step * (r - k * d) for g, r, k, d in zip(slope, right, ratio, dw, strict=True)]

    def _centre(self, dw: Numbers, dz: Numbers) -> float:
        """Complementarity to aim at: the less, the further the predictor gets."""
        now = self.complementarity()
        step = min(1.0, _room(self.gaps, dw), _room(self.forces, dz))
        ahead = sum(
            (p + step * a) * (q + step * b) for p, q, a, b in zip(self.gaps, self.forces, dw, dz, strict=True)
        ) / len(dw)
        return now * (ahead / now) ** 3


def _room(values: Iterable[float], steps: Iterable[float]) -> float:
    """Share of a step at which the first value reaches 0."""
    return 1 / max(1e-9, max(-d / p for p, d in zip(values, steps, strict=True)))


def _exchange(bar: Energy, gaps: Numbers, touching: list[bool]) -> tuple[Numbers, Numbers] | None:
    """Newton steps with these contacts; wrong ones are exchanged on the way. None where that does not end."""
    gaps = [0.0 if t else p for p, t in zip(gaps, touching, strict=True)]
    moved = 1.0
    for turn in range(EXCHANGES):
        slope, bands = bar.at(gaps)
        wrong = _wrong(gaps, slope, touching)
        if not wrong and moved <= STILL:
            return gaps, [q if t else 0.0 for q, t in zip(slope, touching, strict=True)]
        for joint in wrong if turn < TOGETHER else wrong[:1]:
            touching[joint] = not touching[joint]
            gaps[joint] = 0.0
        right = [0.0 if t else -g for g, t in zip(slope, touching, strict=True)]
        steps = factors(bands.held(touching)).solve(right)
        gaps = [p + d for p, d in zip(gaps, steps, strict=True)]
        moved = max(map(abs, steps))
    return None


def _wrong(gaps: Numbers, slope: Numbers, touching: list[bool]) -> list[int]:
    """Joints that pull at the wall or lie behind it, the worst first."""
    gap = NOTHING * max(1e-6, *map(abs, gaps))
    force = NOTHING * max(map(abs, slope))
    share = [-q / force if t else -p / gap for p, q, t in zip(gaps, slope, touching, strict=True)]
    return sorted((i for i, s in enumerate(share) if s > 1), key=lambda i: -share[i])
