"""Spread within subgroups: how free its estimators are, against their true scatter by simulation."""

from __future__ import annotations

import numpy as np
import pytest

from boltwright_server.statistics.subgroups import within


@pytest.mark.parametrize(("size", "values"), [(1, 60), (2, 50), (5, 125), (12, 120)])
def test_degrees_of_freedom_are_those_of_the_scatter(size: int, values: int) -> None:
    """An estimate of a standard deviation with f degrees of freedom scatters by about 1 / sqrt(2 f) of itself."""
    samples = np.random.default_rng(size).normal(0, 1, (3000, values))
    found = [within(one, size) for one in samples]
    scatter = np.std([one.standard_deviation for one in found]) / np.mean([one.standard_deviation for one in found])
    assert found[0].degrees_of_freedom == pytest.approx(1 / (2 * scatter**2), rel=0.1)
