"""The solver's band matrices against numpy's full ones; what a chain says of its stiffness against steps of a gap."""

import numpy as np
import pytest

from parts.relations.contact.bands import Bands, factors
from parts.relations.contact.chain import Wrapped

seeds = pytest.mark.parametrize("seed", range(4))


def drawn(seed, size=9):
    """A positive definite matrix of five bands, as the solver has it and in full, and a right-hand side."""
    dice = np.random.default_rng(seed)
    main, one, two, right = dice.uniform(6, 9, size), *dice.normal(size=(3, size))
    one[-1:] = two[-2:] = 0.0
    full = np.diag(main)
    for beside, off in ((one, 1), (two, 2)):
        full += np.diag(beside[:-off], off) + np.diag(beside[:-off], -off)
    return Bands(main.tolist(), one.tolist(), two.tolist()), full, right


@seeds
def test_a_product_and_a_solution_are_numpys(seed):
    bands, full, right = drawn(seed)
    assert bands.times(right.tolist()) == pytest.approx(full @ right)
    assert factors(bands).solve(right.tolist()) == pytest.approx(np.linalg.solve(full, right))
    added = np.linspace(0, 5, len(right))
    found = factors(bands, added.tolist()).solve(right.tolist())
    assert found == pytest.approx(np.linalg.solve(full + np.diag(added), right))


@seeds
def test_what_is_held_has_no_row_and_no_column(seed):
    bands, full, right = drawn(seed)
    fixed = [n % 3 == seed % 3 for n in range(len(right))]
    free = np.flatnonzero(~np.array(fixed))
    found = np.array(factors(bands.held(fixed)).solve([0.0 if f else r for f, r in zip(fixed, right, strict=True)]))
    assert found[free] == pytest.approx(np.linalg.solve(full[np.ix_(free, free)], right[free]))
    assert not found[fixed].any()


@pytest.mark.parametrize("links", [7, 12])
def test_the_stiffness_of_a_wrapped_chain_is_what_a_step_of_a_gap_does(links):
    """Central differences of the forces that it gives."""
    step = 2.8 / links
    chain = Wrapped(step, 1.07)
    gaps = (0.05 * np.linspace(0, 1, links + 1) ** 2 + 0.01).tolist()
    moved = [[g + (n == at) * by for n, g in enumerate(gaps)] for at in range(links + 1) for by in (1e-5, -1e-5)]
    forces = [np.array(chain.at(one)[0]) for one in moved]
    full = np.array([(up - down) / 2e-5 for up, down in zip(forces[::2], forces[1::2], strict=True)])
    bands = chain.at(gaps)[1]
    for off, beside in enumerate((bands.main, bands.next, bands.second)):
        assert np.diag(full, off) == pytest.approx(beside[: links + 1 - off], rel=1e-5, abs=1e-5 * np.abs(full).max())
