"""The Anderson-Darling test against scipy's statistic, tabulated points, and its own significance by simulation."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from scipy import stats

from boltwright_server.statistics.goodness_of_fit import _significance, fits_normal
from boltwright_server.statistics.percentiles import weibull

SAMPLES = {
    "normal": np.sort(np.random.default_rng(1).normal(15.86, 0.03, 60)),
    "skewed": np.sort(np.random.default_rng(2).lognormal(0, 0.8, 60)),
    "few": np.sort(np.random.default_rng(3).normal(0, 1, 8)),
    "with one far off": np.sort(np.append(np.random.default_rng(4).normal(0, 1, 2000), 60.0)),
}


@pytest.mark.parametrize("name", SAMPLES)
def test_the_statistic_is_scipys(name: str) -> None:
    values = SAMPLES[name]
    expected = stats.goodness_of_fit(
        stats.norm, values, statistic="ad", n_mc_samples=1, rng=np.random.default_rng(0)
    ).statistic
    assert fits_normal(values).statistic == pytest.approx(expected, rel=1e-6)


#: Upper points of the adjusted statistic, both parameters fitted: handbook of 1986, table 4.7 (scipy has them too).
CRITICAL = {0.631: 0.10, 0.752: 0.05, 0.873: 0.025, 1.035: 0.01}


@pytest.mark.parametrize("adjusted", CRITICAL)
def test_the_formula_of_the_significance_meets_the_tabulated_points(adjusted: float) -> None:
    assert _significance(adjusted) == pytest.approx(CRITICAL[adjusted], rel=0.02)


def test_the_significance_falls_as_the_statistic_grows() -> None:
    found = [_significance(at / 100) for at in range(1, 20_000)]
    assert found[0] > 0.999
    assert found[-1] == 0
    assert all(later <= earlier + 0.002 for earlier, later in pairwise(found))


@pytest.mark.parametrize("count", [8, 30, 200])
def test_one_sample_in_twenty_of_a_normal_process_is_rejected(count: int) -> None:
    samples = np.sort(np.random.default_rng(count).normal(100, 3, (4000, count)))
    rejected = sum(fits_normal(values).rejected for values in samples) / 4000
    assert rejected == pytest.approx(0.05, abs=0.011)


@pytest.mark.parametrize("count", [8, 100])
def test_one_sample_in_twenty_of_a_weibull_process_is_rejected(count: int) -> None:
    samples = np.sort(stats.weibull_min.rvs(1.7, scale=4, size=(3000, count), random_state=count))
    fits = [weibull(values).fit for values in samples]
    assert sum(fit.rejected for fit in fits if fit is not None) / 3000 == pytest.approx(0.05, abs=0.012)


def test_what_is_not_normal_is_found_out() -> None:
    assert fits_normal(SAMPLES["skewed"]).rejected
    assert fits_normal(SAMPLES["with one far off"]).p_value == pytest.approx(0, abs=1e-9)
    assert not fits_normal(SAMPLES["normal"]).rejected


def test_the_statistic_is_adjusted_for_the_number_of_values() -> None:
    """1 + 0.75 / n + 2.25 / n^2: 1.12890625 for 8 values, 1.0975 for 10."""
    for count, expected in ((8, 1.12890625), (10, 1.0975)):
        fit = fits_normal(np.sort(np.random.default_rng(count).normal(0, 1, count)))
        assert fit.adjusted / fit.statistic == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("probability", [0.1, 0.25, 0.5, 0.75, 0.9])
def test_significances_of_a_normal_process_are_spread_evenly(probability: float) -> None:
    samples = np.sort(np.random.default_rng(31).normal(0, 1, (3000, 30)))
    found = np.array([fits_normal(values).p_value for values in samples])
    assert np.mean(found < probability) == pytest.approx(probability, abs=0.025)
