"""The solver's band matrices against numpy's full ones."""

import numpy as np
import pytest

from parts.relations.contact.bands import Bands, factors

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
