"""Intervals of the indices against exact distributions of scipy, against handbook figures, and by simulation."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import stats

from boltwright_server.statistics.distributions import chi_square_quantile, student_t_quantile
from boltwright_server.statistics.indices import Spread, nearest, two_sided


@pytest.mark.parametrize("probability", [0.0005, 0.025, 0.3, 0.5, 0.9, 0.975, 0.9995])
@pytest.mark.parametrize("degrees", [0.62, 1, 4.5, 24, 90, 999, 60_000])
def test_quantiles_are_those_of_scipy(probability: float, degrees: float) -> None:
    assert chi_square_quantile(probability, degrees) == pytest.approx(stats.chi2.ppf(probability, degrees), rel=1e-8)
    assert student_t_quantile(probability, degrees) == pytest.approx(
        stats.t.ppf(probability, degrees), rel=1e-7, abs=1e-9
    )


@pytest.mark.parametrize("count", [5, 25, 125])
def test_the_interval_of_pp_is_the_exact_one(count: int) -> None:
    """(n - 1) s^2 / sigma^2 is chi-square, so Pp sqrt(chi^2 / (n - 1)) bounds it."""
    found = two_sided(-3.99, 3.99, Spread(1.0, count - 1, 0.0, count), 0.95)
    assert found is not None
    ends = [1.33 * math.sqrt(stats.chi2.ppf(p, count - 1) / (count - 1)) for p in (0.025, 0.975)]
    assert found.confidence_interval == pytest.approx(ends)


#: Lower 95 % bounds of an estimated 1.33, as quality handbooks print them to two decimals; recomputed.
LOWER_BOUNDS = {25: 1.00, 50: 1.10, 100: 1.17, 125: 1.18}


@pytest.mark.parametrize("count", LOWER_BOUNDS)
def test_lower_bounds_of_cpk_as_handbooks_print_them(count: int) -> None:
    """One-sided 95 % is the lower end of a two-sided interval of 90 %."""
    found = nearest(-3.99, None, Spread(1.0, count - 1, 0.0, count), 0.90)
    assert found is not None
    assert found.confidence_interval[0] == pytest.approx(LOWER_BOUNDS[count], abs=0.005)


@pytest.mark.parametrize("count", [25, 50, 200])
@pytest.mark.parametrize("value", [0.8, 1.33, 2.0])
def test_the_interval_of_ppk_is_near_the_exact_one(count: int, value: float) -> None:
    """With one limit 3 sqrt(n) Ppk is noncentral t; its inverse is the exact interval. The approximation is close."""
    found = nearest(None, 3 * value, Spread(1.0, count - 1, 0.0, count), 0.95)
    assert found is not None
    root = 3 * math.sqrt(count)

    def exact(tail: float) -> float:
        low, high = 0.0, 3 * value
        for _ in range(60):
            middle = (low + high) / 2
            above = stats.nct.sf(root * value, count - 1, root * middle)
            low, high = (middle, high) if above < tail else (low, middle)
        return (low + high) / 2

    assert found.confidence_interval == pytest.approx([exact(0.025), exact(0.975)], rel=0.03)


def test_the_interval_of_ppk_covers_the_true_index() -> None:
    """2000 samples of 40 from a process whose index is 4 / 3: 95 % of the intervals hold it, give or take 2 %."""
    samples = np.random.default_rng(20161).normal(0, 1, (2000, 40))
    held = 0
    for values in samples:
        found = nearest(-4.0, 4.5, Spread(values.std(ddof=1), 39, values.mean(), 40), 0.95)
        assert found is not None
        low, high = found.confidence_interval
        assert low is not None
        assert high is not None
        held += low <= 4 / 3 <= high
    assert held / 2000 == pytest.approx(0.95, abs=0.02)
