"""The contact solver's openings against the exact elastica, integrated here by scipy: gap to 0.1 %, forces to 0.5 %.

The bar's equations, with the direction from the back's tangent and a force F on the end: x' = sin(turn),
y' = cos(turn), turn' = k, k' = (F_y sin(turn) - F_x cos(turn)) / stiffness.
"""

from math import atan2, cos, hypot, sin

import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import root

from parts.relations.contact import Blank, PinForm, RoundForm, open_on

RINGS = [
    pytest.param(Blank(57.295493, 2.4, 2.38, 0.5, 1e5), 9.005, 55.1132, id="worked job"),
    pytest.param(Blank(25.1, 25 / 18, 1.2, 0.3, 1.1e5), 4.6, 23.6, id="small and stiff"),
    pytest.param(Blank(120.2, 4.0, 3.0, 1.0, 1.6e5), 33.0, 122.0, id="large and slender, set half"),
]


def bar(ring, start, state, force):
    """Integrate from a place along the ring to its end."""

    def grows(_, at):
        turn, k = at[2:]
        pull = (force[1] * sin(turn) - force[0] * cos(turn)) / ring.stiffness
        return sin(turn), cos(turn), k, pull

    return solve_ivp(grows, (start, ring.half), state, rtol=1e-11, atol=1e-12, method="DOP853", dense_output=True)


def exact_pin(ring, gap):
    """Curvature at the back and force that end with this gap and no moment."""

    def end(unknown):
        return bar(ring, 0.0, (-ring.radius, 0.0, 0.0, unknown[0] / ring.radius), (0.0, unknown[1]))

    def miss(unknown):
        _, y, _, k = end(unknown).y[:, -1]
        return 2 * y / gap - 1, k * ring.radius - 1

    guess = (gap - ring.slit) / (9.42 * ring.radius)
    found = root(miss, (1 - 2 * guess, guess * ring.stiffness / ring.radius**2), tol=1e-12)
    assert found.success
    return end(found.x), found.x[1]


def exact_round(ring, diameter):
    """Place where the ring leaves the mandrel, size and direction of the end's force; the end lies on the mandrel."""
    radius = (diameter + ring.thickness) / 2

    def end(leaves, size, direction):
        angle = leaves / radius
        start = (-radius * cos(angle), radius * sin(angle), angle, 1 / radius)
        return bar(ring, leaves, start, (size * cos(direction), size * sin(direction)))

    def miss(unknown):
        x, y, _, k = end(*(p * q for p, q in zip(unknown, scale, strict=True))).y[:, -1]
        return k * ring.radius - 1, hypot(x, y) / radius - 1, atan2(y, x) - unknown[2]

    size = (radius / ring.radius - 1) / 0.843 * ring.stiffness / ring.radius**2
    scale = (ring.radius, size, 1.0)
    found = root(miss, (0.95, 1.0, 0.15), tol=1e-11)
    assert found.success
    return (
        end(*(p * q for p, q in zip(found.x, scale, strict=True))),
        found.x[1] * size,
        found.x[0] * ring.radius,
        radius,
    )


@pytest.mark.parametrize(("ring", "gap", "_"), RINGS)
def test_pin(ring, gap, _):
    exact, force = exact_pin(ring, gap)
    opened = open_on(ring, PinForm(gap))
    assert opened.gap == pytest.approx(gap, rel=0.001)
    assert opened.tip_force == pytest.approx(force, rel=0.005)
    for s, k in zip(opened.arc[::30], opened.curvature[::30], strict=True):
        assert k * ring.radius == pytest.approx(exact.sol(s)[3] * ring.radius, abs=2e-5)


@pytest.mark.parametrize(("ring", "_", "diameter"), RINGS)
def test_round_mandrel(ring, _, diameter):
    exact, force, leaves, radius = exact_round(ring, diameter)
    opened = open_on(ring, RoundForm(diameter))
    assert opened.gap == pytest.approx(2 * exact.y[1, -1], rel=0.001)
    assert opened.tip_force == pytest.approx(force, rel=0.005)
    between = [n for n, s in enumerate(opened.arc) if s > leaves]
    for n in between[:-1]:
        x, y, _, k = exact.sol(opened.arc[n])
        assert hypot(x, y) > radius  # the exact bar keeps off the mandrel where this one was taken to
        assert opened.curvature[n] * ring.radius == pytest.approx(k * ring.radius, abs=3e-4)
    touching = opened.arc[max(n for n in range(len(opened.arc) - 1) if opened.force[n] > 0)]
    assert touching == pytest.approx(leaves, abs=1.5 * opened.arc[1])


@pytest.mark.parametrize(("ring", "gap", "_"), RINGS)
def test_finer_chain_agrees(ring, gap, _):
    """Halving the links changes nothing that counts: the error falls with the square of their length."""
    coarse, fine = open_on(ring, PinForm(gap)), open_on(ring, PinForm(gap), links=360)
    assert coarse.tip_force == pytest.approx(fine.tip_force, rel=1e-4)
