"""Conformance probability and risks against JCGM 106:2012 and against scipy's normal distributions.

The examples of JCGM 106 are quoted from memory, their results recomputed by scipy here; the table of test uncertainty
ratios is common practice, its figures computed apart for a centred normal process.
"""

from fractions import Fraction
from statistics import NormalDist

import numpy as np
import pytest
from flask.testing import FlaskClient
from hypothesis import given, settings
from hypothesis import strategies as st
from lots import characteristic
from scipy.optimize import brentq
from scipy.stats import multivariate_normal, norm

from boltwright_server.conformance.risks import conformance_probability, global_risks
from boltwright_server.conformance.rules import two_sided_factor

FLATS = "width_across_flats"  # 15.73 to 16.00 mm


def probability(value: float, low: float | None, high: float | None, u: float) -> float:
    return float(conformance_probability(np.array([value]), low, high, u)[0])


@pytest.mark.parametrize(
    ("value", "low", "high", "u", "printed"),
    [
        # a breakdown voltage of at most -5.40 V: 92 %
        (-5.47, None, -5.40, 0.05, 0.92),
        # the viscosity of an oil, 12.5 to 16.3 mm2/s: 66 %
        (13.6, 12.5, 16.3, 1.8, 0.66),
    ],
)
def test_the_examples_of_jcgm_106(
    value: float, low: float | None, high: float | None, u: float, printed: float
) -> None:
    assert round(probability(value, low, high, u), 2) == printed


@pytest.mark.parametrize(
    ("guard", "consumer", "producer"),
    # 2 % and 4 % in print for simple acceptance; with a guard band of 0.08 ohm the consumer is safe, at a price
    [(0.0, 0.0189, 0.0372), (0.08, 0.0005, 0.248)],
)
def test_the_resistors_of_jcgm_106(guard: float, consumer: float, producer: float) -> None:
    """1500 ohm +- 0.2, production 0.12, measured with 0.04: 90 % conform."""
    limits = (1499.8, 1500.2)
    found = global_risks(1500.0, 0.12, limits, (limits[0] + guard, limits[1] - guard), 0.04)
    assert found == pytest.approx((consumer, producer), abs=6e-5 if guard == 0 else 6e-4)


@pytest.mark.parametrize(
    ("cp", "ratio", "consumer_ppm", "producer_ppm"),
    [
        (0.67, 10, 3748, 4825),
        (0.67, 4, 7866, 14681),
        (0.67, 2, 12150, 40214),
        (1.0, 10, 408, 717),
        (1.0, 4, 737, 3007),
        (1.0, 2, 982, 14677),
        (1.33, 10, 14, 40),
        (1.33, 4, 23, 313),
        (1.33, 2, 27, 4691),
    ],
)
def test_what_a_coarse_gauge_costs(cp: float, ratio: float, consumer_ppm: int, producer_ppm: int) -> None:
    """Tolerance 1; process 1 / 6 Cp as it is seen to be before measuring; u = 1 / 2 TUR / 2."""
    limits = (-0.5, 0.5)
    found = global_risks(0.0, 1 / (6 * cp), limits, limits, 1 / (2 * ratio) / 2)
    assert [round(1e6 * one) for one in found] == [
        pytest.approx(consumer_ppm, abs=2),
        pytest.approx(producer_ppm, abs=2),
    ]


SIDES = st.one_of(st.none(), st.floats(0.2, 3))


@settings(max_examples=60)
@given(st.floats(-1, 1), st.floats(0.05, 1), st.floats(0.01, 1), SIDES, SIDES, st.floats(-0.3, 0.3))
def test_the_risks_are_those_of_two_normal_variables(
    mean: float, process: float, u: float, below: float | None, above: float | None, guard: float
) -> None:
    """True value and reading are jointly normal; scipy integrates over the quadrants."""
    limits = (None if below is None else -below, above)
    acceptance = (None if below is None else -below + guard, None if above is None else above - guard)
    covariance = [[process**2, process**2], [process**2, process**2 + u**2]]
    joint = multivariate_normal([mean, mean], covariance, abseps=1e-9, releps=1e-9, maxpts=10**7)
    true, seen = (
        [-np.inf if low is None else low, np.inf if high is None else high] for low, high in (limits, acceptance)
    )
    if seen[0] >= seen[1]:
        return
    both = joint.cdf([true[1], seen[1]], lower_limit=[true[0], seen[0]])
    total = np.hypot(process, u)
    consumer = norm.cdf((seen[1] - mean) / total) - norm.cdf((seen[0] - mean) / total) - both
    producer = norm.cdf((true[1] - mean) / process) - norm.cdf((true[0] - mean) / process) - both
    assert global_risks(mean, process, limits, acceptance, u) == pytest.approx((consumer, producer), abs=2e-6)


@given(st.floats(-5, 5), st.floats(0.01, 2), st.floats(0.1, 4))
def test_the_probability_is_scipys(value: float, u: float, half: float) -> None:
    assert probability(value, -half, half, u) == pytest.approx(
        norm.cdf((half - value) / u) - norm.cdf((-half - value) / u), abs=1e-12
    )
    assert probability(value, -half, None, u) == pytest.approx(norm.sf((-half - value) / u), abs=1e-12)


@given(st.fractions("3.93", "6"))
def test_the_two_sided_factor_is_the_root_that_scipy_finds(ratio: Fraction) -> None:
    width = float(ratio)
    root = brentq(lambda g: norm.cdf(width - g) - norm.cdf(-g) - 0.95, 1.0, width / 2 + 1e-12)
    assert float(two_sided_factor(ratio)) == pytest.approx(root, abs=2e-9)


def test_the_answer_lists_probabilities_and_the_worst_risks(client: FlaskClient) -> None:
    """u = 0.005: 15.990 conforms with 97.7 %, 15.995 with 84.1 %, 16.004 with 21.2 %."""
    column = {"values": [15.990, None, 15.995, 16.004], "expanded_uncertainty": 0.01}
    found = characteristic(client, FLATS, column, risks=True)["risks"]
    one, none, two, three = found["conformance_probabilities"]
    assert none is None
    assert [round(100 * each, 1) for each in (one, two, three)] == [97.7, 84.1, 21.2]
    assert found["least_conformance_probability"] == three
    assert found["greatest_specific_consumer_risk"] == pytest.approx(1 - two)
    assert found["greatest_specific_producer_risk"] == three


def test_the_process_is_what_remains_of_the_spread(client: FlaskClient) -> None:
    """Readings spread by 0.05 with u = 0.03: the process has 0.04; mean 15.9."""
    values = [15.9 + 0.05 * quantile for quantile in (-1.5, -0.5, 0.5, 1.5)]
    seen = float(np.std(values, ddof=1))
    found = characteristic(client, FLATS, {"values": values, "expanded_uncertainty": 0.06}, risks=True)["risks"]
    process = float(np.sqrt(seen**2 - 0.03**2))
    limits = (15.73, 16.0)
    expected = global_risks(float(np.mean(values)), process, limits, limits, 0.03)
    assert (found["global_consumer_risk"], found["global_producer_risk"]) == pytest.approx(expected)


def test_a_spread_below_the_uncertainty_says_nothing_of_the_process(client: FlaskClient) -> None:
    found = characteristic(client, FLATS, {"values": [15.9, 15.9001], "expanded_uncertainty": 0.06}, risks=True)[
        "risks"
    ]
    assert (found["global_consumer_risk"], found["global_producer_risk"]) == (None, None)


def test_where_nothing_can_be_proved_the_producer_bears_it_all(client: FlaskClient) -> None:
    """u = 0.07 on a tolerance of 0.27: nothing is accepted, so nothing bad is, and all that is good is refused."""
    values = [15.7, 15.8, 15.9, 16.0]
    column = {"values": values, "expanded_uncertainty": 0.14}
    found = characteristic(client, FLATS, column, risks=True, decision_rule="guarded")["risks"]
    process = NormalDist(float(np.mean(values)), float(np.sqrt(np.std(values, ddof=1) ** 2 - 0.07**2)))
    assert found["global_consumer_risk"] == 0
    assert found["global_producer_risk"] == pytest.approx(process.cdf(16.0) - process.cdf(15.73), abs=1e-6)
    assert found["greatest_specific_consumer_risk"] is None
