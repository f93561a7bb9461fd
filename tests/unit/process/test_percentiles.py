"""Percentiles and the geometric method against scipy's distributions and fits."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy import stats

from boltwright_server.quantities import Refusal
from boltwright_server.statistics import capability
from boltwright_server.statistics.percentiles import TAIL, beyond, empirical, log_normal, weibull

#: Probabilities of the percentiles: those of a normal distribution at -3, 0 and 3 standard deviations, rounded.
RANKS = (TAIL, 0.5, 1 - TAIL)
LOG_NORMAL = stats.lognorm.rvs(0.4, scale=5, size=300, random_state=11)
WEIBULL = stats.weibull_min.rvs(1.8, scale=6, size=300, random_state=12)


def test_the_ranks_are_those_of_three_standard_deviations() -> None:
    assert stats.norm.cdf(-3) == pytest.approx(TAIL, abs=1e-6)


def test_log_normal() -> None:
    found = log_normal(np.sort(LOG_NORMAL)).percentiles
    shape, _, scale = stats.lognorm.fit(LOG_NORMAL, floc=0)
    expected = stats.lognorm.ppf(RANKS, shape * np.sqrt(300 / 299), scale=scale)
    assert (found.lower, found.median, found.upper) == pytest.approx(expected, rel=1e-3)


def test_weibull() -> None:
    fitted = weibull(np.sort(WEIBULL))
    shape, _, scale = stats.weibull_min.fit(WEIBULL, floc=0)
    assert fitted.parameters == pytest.approx((shape, scale), rel=1e-4)
    found = fitted.percentiles
    assert (found.lower, found.median, found.upper) == pytest.approx(
        stats.weibull_min.ppf(RANKS, shape, scale=scale), rel=1e-3
    )


def test_of_the_values_themselves_from_740_on() -> None:
    values = np.sort(np.random.default_rng(3).gamma(2, 1, 1000))
    found = empirical(values)
    assert found is not None
    assert (found.lower, found.median, found.upper) == pytest.approx(
        stats.mstats.mquantiles(values, RANKS, alphap=0, betap=0)
    )
    assert empirical(values[:739]) is None
    assert empirical(values[:740]) is not None


def test_indices_of_a_normal_process_are_the_same_by_percentiles() -> None:
    """A log-normal distribution of small relative spread is nearly normal: the two methods meet."""
    values = np.random.default_rng(8).normal(100, 0.2, 500)
    normal, skewed = (capability(values, 99.0, 101.0, distribution=name) for name in ("normal", "log-normal"))
    assert normal.pp is not None
    assert skewed.pp is not None
    assert skewed.pp.value == pytest.approx(normal.pp.value, rel=0.002)
    assert skewed.pp.confidence_interval == pytest.approx(normal.pp.confidence_interval, rel=0.01)
    assert skewed.ppk is not None
    assert normal.ppk is not None
    assert skewed.ppk.value == pytest.approx(normal.ppk.value, rel=0.02)


def test_ppk_of_a_limit_is_the_share_that_the_distribution_leaves_beyond_it() -> None:
    """Ppk = 1 puts exactly 0.135 % beyond the limit, whatever the distribution; the normal formula is far off."""
    at_limit = stats.weibull_min.ppf(1 - TAIL, 1.8, scale=6)
    values = stats.weibull_min.rvs(1.8, scale=6, size=20_000, random_state=1)
    by_percentiles = capability(values, None, at_limit, distribution="weibull").ppk
    as_normal = capability(values, None, at_limit).ppk
    assert by_percentiles is not None
    assert as_normal is not None
    assert by_percentiles.value == pytest.approx(1, abs=0.02)
    assert as_normal.value > 1.2


@pytest.mark.parametrize(
    ("name", "draw", "limit"),
    [
        ("weibull", lambda rng: stats.weibull_min.rvs(1.8, scale=6, size=60, random_state=rng), 18.0),
        ("log-normal", lambda rng: stats.lognorm.rvs(0.4, scale=5, size=60, random_state=rng), 18.0),
    ],
)
def test_the_interval_covers_the_true_index(name: str, draw: Any, limit: float) -> None:
    """Delta method at n = 60: 95 % of the intervals hold the true index, give or take 4 %."""
    true = {"weibull": stats.weibull_min(1.8, scale=6), "log-normal": stats.lognorm(0.4, scale=5)}[name]
    _, median, upper = true.ppf(RANKS)
    index = (limit - median) / (upper - median)
    rng, held = np.random.default_rng(77), 0
    for _ in range(300):
        found = capability(draw(rng), None, limit, distribution=name).ppk
        assert found is not None
        low, high = found.confidence_interval
        assert low is not None
        assert high is not None
        held += low <= index <= high
    assert held / 300 == pytest.approx(0.95, abs=0.04)


@pytest.mark.parametrize("name", ["log-normal", "weibull"])
def test_values_that_the_distribution_cannot_have(name: str) -> None:
    with pytest.raises(Refusal, match="above 0"):
        capability(np.array([0.0, 1.0, 2.0]), None, 5.0, distribution=name)


def test_values_that_are_nearly_all_the_same_give_no_index_by_their_own_percentiles() -> None:
    found = capability(np.array([1.0] * 999 + [2.0]), 0.0, 3.0, distribution="empirical")
    assert (found.pp, found.ppk) == (None, None)
    assert any("their median" in notice for notice in found.notices)


def test_too_few_values_for_their_own_percentiles_give_no_index() -> None:
    found = capability(np.arange(1.0, 200.0), 0.0, 300.0, distribution="empirical")
    assert (found.pp, found.ppk, found.cp) == (None, None, None)
    assert any("740 values" in notice for notice in found.notices)


#: Index -> parts in a million beyond one limit, as handbooks print them; recomputed from the normal distribution.
ONE_TAIL = {1.00: 1349.898, 1.3333: 31.671, 1.5: 3.398, 1.6667: 0.2867, 2.0: 0.00099}


@pytest.mark.parametrize("index", ONE_TAIL)
def test_the_share_beyond_a_limit_of_a_normal_process(index: float) -> None:
    found = beyond("normal", (10.0, 2.0), 10.0 + 6.0 * index, above=True)
    assert 1e6 * found == pytest.approx(ONE_TAIL[index], rel=4e-3)
    assert beyond("normal", (10.0, 2.0), 10.0 - 6.0 * index, above=False) == pytest.approx(found)
    assert beyond("normal", (0.0, 1.0), 20.0, above=True) == pytest.approx(stats.norm.sf(20.0), abs=0, rel=1e-9)


@pytest.mark.parametrize("limit", [-1.0, 0.0, 0.5, 6.0, 40.0, 1e9])
@pytest.mark.parametrize("above", [True, False])
def test_the_share_beyond_a_limit_of_a_skewed_process_is_scipys(limit: float, above: bool) -> None:
    weibulls, log_normals = stats.weibull_min(1.8, scale=6), stats.lognorm(0.4, scale=5)
    for name, parameters, true in (
        ("weibull", (1.8, 6.0), weibulls),
        ("log-normal", (np.log(5), 0.4), log_normals),
    ):
        expected = true.sf(limit) if above else true.cdf(limit)
        assert beyond(name, parameters, limit, above) == pytest.approx(expected, rel=1e-6, abs=1e-300)


def test_weibull_estimates_scatter_as_their_covariance_says() -> None:
    """1000 fits of 200 values each; the scatter of the estimates against the asymptotic covariance."""
    samples = np.sort(stats.weibull_min.rvs(1.8, scale=6, size=(1000, 200), random_state=3))
    fits = [weibull(values) for values in samples]
    (one, both), (_, two) = np.cov(np.array([fit.parameters for fit in fits]).T)
    expected = np.mean([fit.covariance for fit in fits], axis=0)
    assert (one, both, two) == pytest.approx(expected, rel=0.2)
