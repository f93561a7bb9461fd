"""The trend against scipy's regression, and its forecasts against the bands that they come from."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import optimize, stats

from boltwright_server.statistics.trend import trend

#: Invented: a die wears by 1.5 um a piece; the gauge scatters by 2 um.
WORN = 8.93 + 0.0015 * np.arange(30) + np.random.default_rng(6).normal(0, 0.002, 30)
LIMIT = 9.02


def half_band(values: np.ndarray, at: float, single: bool) -> float:
    """Half the 95 % band of the line, or of a single piece, by scipy's regression and the textbook formula."""
    n = len(values)
    x = np.arange(n)
    fit = stats.linregress(x, values)
    deviation = np.sqrt(np.sum((values - fit.intercept - fit.slope * x) ** 2) / (n - 2))
    variance = single + 1 / n + (at - x.mean()) ** 2 / np.sum((x - x.mean()) ** 2)
    return float(stats.t.ppf(0.975, n - 2) * deviation * np.sqrt(variance))


def crossing(values: np.ndarray, side: int, single: bool) -> float:
    """Pieces after the last at which the edge of the band meets the limit, by root finding."""
    fit = stats.linregress(np.arange(len(values)), values)

    def gap(after: float) -> float:
        at = len(values) - 1 + after
        return fit.intercept + fit.slope * at + side * half_band(values, at, single) - LIMIT

    return float(optimize.brentq(gap, 0, 1000))


def test_line_and_interval_of_the_slope_are_scipys() -> None:
    found = trend(WORN, None, LIMIT)
    fit = stats.linregress(np.arange(30), WORN)
    reach = stats.t.ppf(0.975, 28) * fit.stderr
    assert found.slope == pytest.approx(fit.slope, rel=1e-10)
    assert found.slope_interval == pytest.approx((fit.slope - reach, fit.slope + reach), rel=1e-9)
    assert found.pieces_until_limit == pytest.approx((LIMIT - fit.intercept) / fit.slope - 29, rel=1e-9)


def test_the_interval_of_the_forecast_is_where_the_band_of_the_line_meets_the_limit() -> None:
    found = trend(WORN, None, LIMIT)
    assert found.earliest == pytest.approx(crossing(WORN, 1, single=False), rel=1e-6)
    assert found.latest == pytest.approx(crossing(WORN, -1, single=False), rel=1e-6)


def test_a_single_piece_is_at_risk_before_the_line_is_there() -> None:
    found = trend(WORN, None, LIMIT)
    assert found.at_risk == pytest.approx(crossing(WORN, 1, single=True), rel=1e-6)
    assert found.at_risk is not None
    assert found.earliest is not None
    assert found.at_risk < found.earliest


def test_the_forecast_of_a_mirrored_process_is_the_same() -> None:
    up, down = trend(WORN, None, LIMIT), trend(-WORN, -LIMIT, None)
    assert down.limit == -LIMIT
    for name in ("pieces_until_limit", "earliest", "latest", "at_risk"):
        assert getattr(down, name) == pytest.approx(getattr(up, name))


def test_the_interval_covers_the_true_crossing() -> None:
    """1000 runs of a known line: 95 % of the intervals hold its crossing, give or take 2 %."""
    rng, held = np.random.default_rng(9), 0
    for _ in range(1000):
        found = trend(0.01 * np.arange(25) + rng.normal(0, 0.02, 25), None, 0.5)
        assert found.earliest is not None
        held += found.earliest <= 0.5 / 0.01 - 24 <= (np.inf if found.latest is None else found.latest)
    assert held / 1000 == pytest.approx(0.95, abs=0.02)


def test_where_the_limit_is_passed_nothing_is_left() -> None:
    found = trend(np.array([1.0, 2.0, 3.0, 4.1, 5.0]), None, 3.5)
    assert (found.pieces_until_limit, found.at_risk) == (0, 0)


def test_a_slope_that_is_not_proved_has_no_end_but_perhaps_a_beginning() -> None:
    values = np.array([1.0, 1.3, 0.9, 1.2, 1.0, 1.15])
    found = trend(values, 0.0, 2.0)
    assert not found.significant
    assert (found.pieces_until_limit, found.latest) == (None, None)
    fit = stats.linregress(np.arange(6), values)
    assert found.limit == (2.0 if fit.slope > 0 else 0.0)


def test_readings_without_scatter() -> None:
    found = trend(np.array([1.0, 2.0, 3.0, 4.0]), None, 10.0)
    assert (found.pieces_until_limit, found.earliest, found.latest) == pytest.approx((6, 6, 6))
    assert trend(np.full(5, 3.2), None, 10.0).limit is None
